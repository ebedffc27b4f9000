#include "desk/shelf_fold.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "atlas/shelf_rules.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"

namespace hw::desk {

namespace {

constexpr std::int64_t day_s = 86400;

/// In the order in which things were done; ties go by id, so that every device folds the same.
std::vector<const ShelfEntry*> in_order(const std::vector<const ShelfEntry*>& entries) {
    std::vector<std::pair<std::int64_t, const ShelfEntry*>> dated;
    for (const auto* e : entries) dated.emplace_back(parse_moment(e->at).value_or(0), e);
    std::sort(dated.begin(), dated.end(), [](const auto& a, const auto& b) { return a.first != b.first ? a.first < b.first : a.second->id < b.second->id; });
    std::vector<const ShelfEntry*> out;
    for (const auto& [at, e] : dated) out.push_back(e);
    return out;
}

LotFold lot_from(const ShelfEntry& e) {
    LotFold out;
    out.id = e.id;
    out.code = e.code;
    out.place = e.place;
    out.expiry = e.expiry;
    out.received = out.left = e.amount.value_or(0);
    out.bottle.received_day = day_of(e.at).value_or(0);
    return out;
}

LotFold* find_lot(std::vector<LotFold>& lots, const std::string& id) {
    const auto it = std::find_if(lots.begin(), lots.end(), [&](const LotFold& l) { return l.id == id; });
    return it == lots.end() ? nullptr : &*it;
}

void say_of_lot(LotFold& lot, const std::string& key, const std::string& value) {
    if (key == "code") lot.code = value;
    else if (key == "place") lot.place = value;
    else if (key == "expiry") lot.expiry = value;
    else if (key == "received") lot.bottle.received_day = day_of(value).value_or(lot.bottle.received_day);
}

void take(LotFold& lot, double amount) {
    // A rest far below a drop is what is left of sums of decimals, not of the bottle.
    constexpr double crumb = 1e-9;
    lot.left -= amount;
    if (lot.left < -crumb) lot.short_by_the_book = true;
    if (lot.left < crumb) lot.left = 0;
}

void happen(LotFold& lot, const ShelfEntry& e) {
    switch (e.did) {
    case ShelfDid::Opened:
        lot.bottle.opened_day = day_of(e.at);
        lot.opened_entry = e.id;
        return;
    case ShelfDid::Used: return take(lot, e.amount.value_or(0));
    case ShelfDid::ThrownAway: return take(lot, e.amount.value_or(lot.left));
    case ShelfDid::Counted:
        lot.left = e.amount.value_or(0);
        lot.short_by_the_book = false;
        return;
    default: return;
    }
}

/// Use by whole weeks back from today, from the first use on.
std::vector<double> weeks_of_use(const std::vector<const ShelfEntry*>& standing, std::int64_t today) {
    const int most = static_cast<int>(row_of(atlas::shelf_rules, "look_back_weeks").value_1);
    std::optional<std::int64_t> first;
    for (const auto* e : standing)
        if (e->did == ShelfDid::Used)
            if (const auto day = day_of(e->at); day && (!first || *day < *first)) first = day;
    if (!first || *first >= today) return {};
    std::vector<double> out(static_cast<std::size_t>(std::min<std::int64_t>(most, (today - *first) / 7)));
    for (const auto* e : standing) {
        const auto day = day_of(e->at);
        if (e->did != ShelfDid::Used || !day || *day >= today) continue;
        const auto week = static_cast<std::size_t>((today - 1 - *day) / 7);
        if (week < out.size()) out[week] += e->amount.value_or(0);
    }
    return out;
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kinds{
    {{"cleaner", "cleaner"}, {"rinse", "rinse"}, {"conditioner", "conditioner"}, {"colourant", "colourant"}, {"finish", "finish"}, {"crosslinker", "cross-linker"},
     {"filler", "filler"}, {"adhesive", "adhesive"}, {"solvent", "solvent"}, {"other", "something else"}}};

/// Digits behind the point of a currency's minor unit, ISO 4217; two where it is not one of these.
int minor_digits(std::string_view currency) {
    for (const std::string_view none : {"JPY", "KRW", "CLP", "ISK", "VND", "PYG", "UGX", "XAF", "XOF", "XPF"})
        if (currency == none) return 0;
    for (const std::string_view three : {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
        if (currency == three) return 3;
    return 2;
}

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> out;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        if (end > at) out.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return out;
}

Error bad_value(std::string message) { return {ErrorCode::InvalidInput, std::move(message), "value"}; }

constexpr std::size_t text_most = 200;

Result<Done> good_text(const std::string& value) {
    if (value.size() > text_most) return bad_value("Shorten this to 200 letters.");
    if (std::any_of(value.begin(), value.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; })) return bad_value("Write it on one line.");
    return Done{};
}

}  // namespace

ProductFold folded(const std::vector<KeptShelfEntry>& entries, std::int64_t today) {
    ProductFold out;
    for (const auto& k : entries)
        if (k.entry.did == ShelfDid::TakeBack) out.taken_back.insert(k.entry.takes_back);
    std::vector<const ShelfEntry*> standing;
    for (const auto& k : entries)
        if (k.entry.did != ShelfDid::TakeBack && out.taken_back.count(k.entry.id) == 0) standing.push_back(&k.entry);
    standing = in_order(standing);
    for (const auto* e : standing)
        if (e->did == ShelfDid::Received) out.lots.push_back(lot_from(*e));
    std::map<std::string, ShelfSaid> typed, measured;
    for (const auto* e : standing) {
        LotFold* lot = e->lot.empty() ? nullptr : find_lot(out.lots, e->lot);
        if (e->did == ShelfDid::Fact && e->lot.empty()) (e->how == CorrectedBy::Measured ? measured : typed)[e->key] = {e->value, e->by, e->at, e->how == CorrectedBy::Measured ? FactFrom::Measured : FactFrom::Typed};
        else if (e->did == ShelfDid::Fact && lot != nullptr) say_of_lot(*lot, e->key, e->value);
        else if (e->did == ShelfDid::Mixed) out.mixed.push_back(e);
        else if (e->did == ShelfDid::Told) out.told[e->sheet + " " + e->person] = e->at;
        else if (lot != nullptr) happen(*lot, *e);
    }
    for (const auto& [key, said] : typed)
        if (!said.value.empty()) out.facts[key] = said;
    for (const auto& [key, said] : measured) {
        if (said.value.empty()) continue;
        if (const auto t = out.facts.find(key); t != out.facts.end() && t->second.value != said.value) out.weaker[key] = t->second;
        out.facts[key] = said;
    }
    const auto days = [&](const char* key) -> std::optional<std::int64_t> {
        const auto it = out.facts.find(key);
        const auto number = it == out.facts.end() ? std::nullopt : typed_number(it->second.value);
        return number ? std::optional(static_cast<std::int64_t>(*number)) : std::nullopt;
    };
    for (auto& lot : out.lots) {
        lot.bottle.printed_day = printed_day(lot.expiry);
        lot.bottle.opened_life_days = days("opened_days");
        lot.bottle.unopened_life_days = days("unopened_days");
    }
    out.used_by_week = weeks_of_use(standing, today);
    return out;
}

std::optional<std::int64_t> day_of(std::string_view text) {
    const auto seconds = parse_moment(text);
    return seconds ? std::optional(*seconds / day_s) : std::nullopt;
}

std::string day_text(std::int64_t day) { return moment(day * day_s).substr(0, 10); }

std::optional<std::int64_t> printed_day(std::string_view text) {
    std::string month(text);
    if (text.size() == 7 && text[2] == '/') month = std::string(text.substr(3)) + "-" + std::string(text.substr(0, 2));
    if (month.size() != 7) return text.size() == 10 ? day_of(text) : std::nullopt;
    const auto first = day_of(month + "-01");
    if (!first) return std::nullopt;
    // The month after begins within 31 days; its first day tells how long this one is.
    constexpr std::int64_t longest = 31;
    const std::string next = day_text(*first + longest).substr(0, 7);
    return *day_of(next + "-01") - 1;
}

std::optional<double> typed_number(std::string_view text) {
    std::string digits(text);
    if (digits.find('.') == std::string::npos && std::count(digits.begin(), digits.end(), ',') == 1) std::replace(digits.begin(), digits.end(), ',', '.');
    double value = 0;
    const char* end = digits.data() + digits.size();
    const auto [at, fault] = std::from_chars(digits.data(), end, value, std::chars_format::fixed);
    return fault == std::errc{} && at == end && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::string exact(double value) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed).ptr;
    return {text.data(), end};
}

std::optional<Cost> parse_cost(std::string_view text) {
    const auto words = words_of(text);
    if (words.size() != 2 && words.size() != 4) return std::nullopt;
    Cost out;
    out.currency = std::string(words[1]);
    if (out.currency.size() != 3 || !std::all_of(out.currency.begin(), out.currency.end(), [](char c) { return c >= 'A' && c <= 'Z'; })) return std::nullopt;
    // By its digits: money is never a binary fraction.
    std::string digits(words[0]);
    const auto point = digits.find_first_of(".,");
    const std::size_t behind = point == std::string::npos ? 0 : digits.size() - point - 1, wanted = static_cast<std::size_t>(minor_digits(out.currency));
    if (behind > wanted || point == 0 || (point != std::string::npos && behind == 0)) return std::nullopt;
    if (point != std::string::npos) digits.erase(point, 1);
    digits.append(wanted - behind, '0');
    const char* end = digits.data() + digits.size();
    const auto [at, fault] = std::from_chars(digits.data(), end, out.minor);
    if (fault != std::errc{} || at != end || out.minor < 0) return std::nullopt;
    if (words.size() == 2) return out;
    const auto per = typed_number(words[3]);
    if (words[2] != "per" || !per || *per <= 0) return std::nullopt;
    out.per = *per;
    return out;
}

std::string cost_text(const Cost& c) {
    std::string digits = std::to_string(c.minor);
    const auto wanted = static_cast<std::size_t>(minor_digits(c.currency));
    if (digits.size() <= wanted) digits.insert(0, wanted + 1 - digits.size(), '0');
    if (wanted > 0) digits.insert(digits.size() - wanted, ".");
    return digits + " " + c.currency + " per " + exact(c.per);
}

std::optional<Mix> parse_mix(std::string_view text) {
    const auto colon = text.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    const auto parts = typed_number(text.substr(0, colon)), to = typed_number(text.substr(colon + 1));
    return parts && to && *parts > 0 && *to > 0 ? std::optional(Mix{*parts, *to}) : std::nullopt;
}

const std::vector<FactKind>& fact_kinds() {
    static const std::vector<FactKind> all{
        {"name", "Name", "", 0, 0, "Foam cleaner"},
        {"kind", "What it is", "", 0, 0, "cleaner"},
        {"supplier", "Supplier", "", 0, 0, ""},
        {"unit", "Counted in", "", 0, 0, "ml"},
        {"cost", "Cost", "", 0, 0, "12.50 EUR per 1000"},
        {"voc_g_l", "Volatile organic compounds", "g/l", 0, 2000, "120"},
        {"lead_days", "From order to arrival", "days", 0, 365, "10"},
        {"minimum", "Never less than", "unit", 0, 1e9, "500"},
        {"use_week", "Used in a usual week", "unit", 0, 1e9, "200"},
        {"use_week_sd", "Give or take", "unit", 0, 1e9, "60"},
        {"mix", "Mixing ratio", "", 0, 0, "100:3"},
        {"pot_life_min", "Pot life", "minutes", 1, 10080, "240"},
        {"unopened_days", "Keeps unopened", "days", 1, 3650, "365"},
        {"opened_days", "Keeps once opened", "days", 1, 3650, "90"},
        {"note", "Note", "", 0, 0, ""}};
    return all;
}

std::string_view kind_word(std::string_view key) {
    for (const auto& [kind, word] : kinds)
        if (kind == key) return word;
    return {};
}

Result<Done> may_say(const std::string& key, const std::string& value) {
    const auto& all = fact_kinds();
    const auto kind = std::find_if(all.begin(), all.end(), [&](const FactKind& k) { return k.key == key; });
    if (kind == all.end()) return Error{ErrorCode::InvalidInput, "There is no fact \"" + key.substr(0, 40) + "\" of a product. Take its key from the page of the product.", "key"};
    if (value.empty()) return key == "name" ? Result<Done>(bad_value("A product keeps a name. Give it another.")) : Done{};
    if (key == "kind" && kind_word(value).empty()) return bad_value("Say cleaner, rinse, conditioner, colourant, finish, crosslinker, filler, adhesive, solvent or other.");
    if (key == "unit" && value != "ml" && value != "g") return bad_value("Count in ml or in g.");
    if (key == "cost" && !parse_cost(value)) return bad_value("Write the cost like 12.50 EUR per 1000: amount, currency in three capital letters, and how much of it that buys.");
    if (key == "mix" && !parse_mix(value)) return bad_value("Write the mixing ratio like 100:3, this product first.");
    if (kind->most <= 0) return good_text(value);
    const auto number = typed_number(value);
    if (!number) return bad_value("Write a number, like " + std::string(kind->example) + ".");
    if (*number < kind->least || *number > kind->most) return Error{ErrorCode::OutOfRange, std::string(kind->name) + " lies from " + exact(kind->least) + " to " + exact(kind->most) + ". Look at the figure again.", "value"};
    return Done{};
}

Result<Done> may_say_of_lot(const std::string& key, const std::string& value) {
    if (key == "code" || key == "place") return good_text(value);
    if (key == "expiry") return value.empty() || printed_day(value) ? Result<Done>(Done{}) : bad_value("Write the date on the bottle like 2027-03-31, 2027-03 or 03/2027.");
    if (key == "received") return day_of(value) ? Result<Done>(Done{}) : bad_value("Write the day like 2026-01-02.");
    return Error{ErrorCode::InvalidInput, "Of a lot, say its code, expiry, place or received.", "key"};
}

}  // namespace hw::desk
