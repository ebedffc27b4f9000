#include "desk/sheet_changes.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "atlas/sheet_statements.hpp"

namespace hw::desk {

namespace {

std::string value_of(const DigestAnswer& a, std::string_view key) {
    for (const auto& g : a.groups)
        for (const auto& f : g.facts)
            if (f.key == key) return f.value;
    return {};
}

/// The wording of a code in plain English, whatever language its sheet has.
std::string wording(const std::string& code) {
    for (const auto& row : atlas::sheet_statements)
        if (row.code == code && row.language == "en") return std::string(row.wording);
    return {};
}

std::string with_wording(const std::string& code) {
    const std::string words = wording(code);
    return words.empty() ? code : code + " " + words;
}

/// H and EUH codes; what to do (P) is not a hazard.
std::set<std::string> codes_of(const DigestAnswer& a) {
    std::set<std::string> out;
    const std::string all = value_of(a, "codes");
    for (std::size_t at = 0; at < all.size();) {
        const auto end = all.find_first_of(", ", at);
        const std::string code = all.substr(at, end == std::string::npos ? end : end - at);
        if (code.rfind("H", 0) == 0 || code.rfind("EUH", 0) == 0) out.insert(code);
        if (end == std::string::npos) break;
        at = end + 1;
    }
    return out;
}

struct Part {
    std::string name, share;
};
/// By CAS number, else by name.
std::map<std::string, Part> parts_of(const DigestAnswer& a) {
    std::map<std::string, Part> out;
    for (const auto& i : a.ingredients)
        if (!i.removed) out[i.cas.value.empty() ? "name " + i.name.value : i.cas.value] = {i.name.value, i.share.value};
    return out;
}

std::set<std::string> limits_of(const DigestAnswer& a) {
    std::set<std::string> out;
    for (const auto& g : a.groups)
        for (const auto& f : g.facts)
            if (f.key.rfind("limits[", 0) == 0) out.insert(f.name + ", " + f.value);
    return out;
}

void add(SheetChanges& to, std::string key, std::string before, std::string after, std::string sentence) { to.changes.push_back({std::move(key), std::move(before), std::move(after), std::move(sentence)}); }

void one_fact(const DigestAnswer& a, const DigestAnswer& b, const char* key, const std::string& name, SheetChanges& to) {
    const std::string before = value_of(a, key), after = value_of(b, key);
    if (before == after) return;
    add(to, key, before, after, after.empty() ? name + " is no longer said; it was " + before + "." : before.empty() ? name + " is said now: " + after + "." : name + " was " + before + ", now " + after + ".");
}

/// What one set has and the other has not.
void gone_and_new(const std::set<std::string>& before, const std::set<std::string>& after, const char* key, const std::string& gone, const std::string& fresh, SheetChanges& to) {
    for (const auto& x : after)
        if (before.count(x) == 0) add(to, key, "", x, fresh + x);
    for (const auto& x : before)
        if (after.count(x) == 0) add(to, key, x, "", gone + x);
}

}  // namespace

SheetChanges changes_between(const DigestAnswer& a, const DigestAnswer& b) {
    SheetChanges out;
    out.from = a.id;
    out.to = b.id;
    one_fact(a, b, "signal_word", "The signal word", out);
    std::set<std::string> before, after;
    for (const auto& c : codes_of(a)) before.insert(with_wording(c));
    for (const auto& c : codes_of(b)) after.insert(with_wording(c));
    gone_and_new(before, after, "codes", "No longer warned of: ", "New warning: ", out);
    one_fact(a, b, "ph", "The pH", out);
    one_fact(a, b, "flash_point", "The flash point", out);
    const auto was = parts_of(a), is = parts_of(b);
    for (const auto& [key, part] : is) {
        const auto old = was.find(key);
        const std::string share = part.share.empty() ? "share not said" : part.share;
        if (old == was.end()) add(out, "ingredients", "", part.name + ", " + share, "Now in it: " + part.name + ", " + share + ".");
        else if (old->second.share != part.share) add(out, "ingredients", old->second.share, part.share, part.name + " was " + (old->second.share.empty() ? "without a share" : old->second.share) + ", now " + share + ".");
    }
    for (const auto& [key, part] : was)
        if (is.count(key) == 0) add(out, "ingredients", part.name + ", " + part.share, "", "No longer named in it: " + part.name + ".");
    gone_and_new(limits_of(a), limits_of(b), "limits", "Limit in the air no longer named: ", "Limit in the air now: ", out);
    const auto n = out.changes.size();
    out.sentence = n == 0 ? "The two revisions warn of the same." : n == 1 ? "One thing changed in what the sheet warns of." : std::to_string(n) + " things changed in what the sheet warns of.";
    return out;
}

std::vector<std::string> warnings_of(const DigestAnswer& a) {
    std::vector<std::string> out;
    if (const std::string word = value_of(a, "signal_word"); !word.empty() && word.rfind("none", 0) != 0) out.push_back(word);
    for (const auto& c : codes_of(a)) {
        const std::string words = wording(c);
        out.push_back(words.empty() ? c : words);
    }
    return out;
}

}  // namespace hw::desk
