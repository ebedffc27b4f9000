#include "core/chem/hazards.hpp"

#include <algorithm>
#include <cctype>

#include "atlas/class_words.hpp"
#include "atlas/incompatible.hpp"
#include "atlas/substance_classes.hpp"
#include "atlas/substances.hpp"

namespace hw::chem {

namespace {

using Classes = std::vector<std::string_view>;

bool has(const Classes& classes, std::string_view wanted) { return std::find(classes.begin(), classes.end(), wanted) != classes.end(); }

/// What is in a product, ingredient by ingredient, and what may be in it.
struct Contents {
    std::vector<Classes> ingredients;
    Classes possible;
};

Contents contents_of(const Product& product) {
    Contents out;
    for (const Recognised& r : product.liquid->recognised)
        if (r.mol_kg > 0) out.ingredients.push_back(hazard_classes(r.row));
    for (const std::string& name : product.liquid->unknown) out.ingredients.push_back(hazard_classes_by_name(name));
    if (!product.label_known) out.possible = {"hypochlorite", "acid", "ammonia"};
    return out;
}

/// Two different ingredients of all products, one of each class.
bool meet(const std::vector<Contents>& all, std::string_view a, std::string_view b) {
    std::vector<const Classes*> flat;
    for (const Contents& c : all)
        for (const Classes& i : c.ingredients) flat.push_back(&i);
    for (std::size_t i = 0; i < flat.size(); ++i)
        for (std::size_t j = 0; j < flat.size(); ++j)
            if (i != j && has(*flat[i], a) && has(*flat[j], b)) return true;
    return false;
}

bool may_hold(const Contents& c, std::string_view wanted) {
    return has(c.possible, wanted) || std::any_of(c.ingredients.begin(), c.ingredients.end(), [&](const Classes& i) { return has(i, wanted); });
}

/// Two different products, one side at least by possibility. An unlabelled product alone is no meeting.
bool may_meet(const std::vector<Contents>& all, std::string_view a, std::string_view b) {
    for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t j = 0; j < all.size(); ++j)
            if (i != j && may_hold(all[i], a) && may_hold(all[j], b)) return true;
    return false;
}

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

Severity severity_of(std::string_view word) { return word == "stop" ? Severity::Stop : word == "caution" ? Severity::Caution : Severity::Note; }

}  // namespace

Classes hazard_classes(std::size_t substance) {
    const auto& row = atlas::substances[substance];
    Classes out;
    if (!row.kind.empty()) out.push_back(row.kind);
    for (const auto& more : atlas::substance_classes)
        if (more.substance == row.name) out.push_back(more.hazard_class);
    return out;
}

Classes hazard_classes_by_name(std::string_view ingredient) {
    std::string name(ingredient);
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    Classes out;
    for (const auto& word : atlas::class_words) {
        const bool at_start = word.fragment.front() == '^';
        const bool there = at_start ? name.starts_with(word.fragment.substr(1)) : name.find(word.fragment) != std::string::npos;
        const bool excused = !word.unless.empty() && name.find(word.unless) != std::string::npos;
        if (there && !excused && !has(out, word.hazard_class)) out.push_back(word.hazard_class);
    }
    return out;
}

bool names_word(std::string_view name, std::string_view word) {
    const auto same = [](char a, char b) { return std::tolower(static_cast<unsigned char>(a)) == b; };
    for (auto at = std::search(name.begin(), name.end(), word.begin(), word.end(), same); at != name.end(); at = std::search(at + 1, name.end(), word.begin(), word.end(), same)) {
        const auto end = at + static_cast<std::ptrdiff_t>(word.size());
        if ((at == name.begin() || !is_letter(*(at - 1))) && (end == name.end() || !is_letter(*end))) return true;
    }
    return false;
}

std::vector<Hazard> hazards(const std::vector<Product>& products) {
    std::vector<Contents> all;
    for (const Product& p : products) all.push_back(contents_of(p));
    std::vector<Hazard> out;
    for (std::size_t i = 0; i < atlas::incompatible.size(); ++i) {
        const auto& row = atlas::incompatible[i];
        const Severity severity = severity_of(row.severity);
        if (meet(all, row.class_a, row.class_b)) out.push_back({i, severity, false});
        else if (severity == Severity::Stop && may_meet(all, row.class_a, row.class_b)) out.push_back({i, severity, true});
    }
    std::stable_sort(out.begin(), out.end(), [](const Hazard& x, const Hazard& y) { return x.severity < y.severity; });
    return out;
}

std::string_view product_of(const Hazard& hazard) { return atlas::incompatible[hazard.row].gas_or_heat; }

Advice advice(const Hazard& hazard) {
    if (hazard.severity != Severity::Stop)
        return {{"Keep the two apart.", "Blot the first off the piece and rinse with water before the second is used."},
                {"Do not keep them in one bottle, bucket or cloth."}};
    Advice out{{"People first: leave the room, open windows if you can do so without breathing in, go into fresh air.",
                "Eyes or skin: rinse with plenty of running water.",
                "Coughing, tight chest, burning eyes: call the poison line or the emergency number now.",
                "Let the leather wait. Keep others and animals out."},
               {"Do not add anything, not even water or a \"neutraliser\".", "Do not go back to wipe it up.", "Do not close it into a bottle or a bag.",
                "Do not use the one on the piece after the other."}};
    if (hazard.from_unknown) out.do_now.emplace_back("If they have not met yet: set the product without a label aside and mark it as unknown.");
    else out.do_now.emplace_back("If they have not met yet: keep them apart, and put one of them away for good on this job.");
    return out;
}

}  // namespace hw::chem
