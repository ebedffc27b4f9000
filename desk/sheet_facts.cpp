#include "desk/sheet_facts.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>

#include "core/chem/composition.hpp"
#include "desk/moment.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

SheetPlace shown(const sheet::Place& p) { return {p.page, p.x0, p.y0, p.x1, p.y1, p.words}; }

/// A fact that nobody has filled in yet.
SheetFact blank(std::string key, std::string name, std::string unit = {}) {
    SheetFact f;
    f.key = std::move(key);
    f.name = std::move(name);
    f.unit = std::move(unit);
    f.can_correct = true;
    return f;
}

void say_how_sure(SheetFact& f) {
    f.look = !f.value.empty() && f.confidence_1 < look_below_1;
    f.sure = f.value.empty() ? "the sheet does not say" : f.look ? "look at it first" : "read plainly";
}

void fill(SheetFact& f, std::string value, const sheet::Place& place, double confidence_1, FactFrom from) {
    f.value = std::move(value);
    f.place = shown(place);
    f.confidence_1 = confidence_1;
    f.from = from;
}

template <class T>
std::string interval_words(const T& low, const T& high, const std::string& unit) {
    const std::string after = unit.empty() ? "" : " " + unit;
    if (low && high && *low == *high) return plain(*low) + after;
    if (low && high) return plain(*low) + " to " + plain(*high) + after;
    if (low) return "over " + plain(*low) + after;
    if (high) return "under " + plain(*high) + after;
    return {};
}

SheetFact text_fact(std::string key, std::string name, const std::optional<sheet::Text>& text, FactFrom from) {
    SheetFact f = blank(std::move(key), std::move(name));
    if (text) fill(f, text->value, text->place, text->confidence, from);
    say_how_sure(f);
    return f;
}

SheetFact signal_fact(const std::optional<sheet::Text>& word, FactFrom from) {
    SheetFact f = text_fact("signal_word", "Signal word", word, from);
    if (f.value == "danger") f.value = "Danger";
    if (f.value == "warning") f.value = "Warning";
    if (f.value == "none") f.value = "none: the sheet says that there is none";
    return f;
}

SheetFact ph_fact(const std::optional<sheet::Fact<sheet::Ph>>& ph, FactFrom from) {
    SheetFact f = blank("ph", "pH", "pH");
    f.can_measure = true;
    if (ph) {
        const sheet::Ph& v = ph->value;
        std::string words = v.not_applicable ? "not applicable, says the sheet" : interval_words(v.low_ph, v.high_ph, "");
        if (v.diluted) words += ", of a dilution";
        if (v.concentration_pct) words += ", of " + plain(*v.concentration_pct) + " % in water";
        if (v.celsius) words += ", at " + plain(*v.celsius) + " °C";
        fill(f, std::move(words), ph->place, ph->confidence, from);
        f.low = v.low_ph;
        f.high = v.high_ph;
        f.of_pct = v.concentration_pct;
        f.not_of_bottle = v.diluted || v.unclear;
        if (f.of_pct && *f.of_pct < 100) f.note = "This is the pH of a dilution. The liquid in the bottle is stronger: read it there.";
        else if (v.diluted) f.note = "This is the pH of a dilution, and how strong it is the sheet does not say. The liquid in the bottle is stronger: read it there.";
        if (v.unclear) f.note += std::string(f.note.empty() ? "" : " ") + "A condition stands with it that can be meant in two ways or is not understood: look at the sheet.";
    }
    say_how_sure(f);
    return f;
}

SheetFact interval_fact(SheetFact f, const std::optional<double>& low, const std::optional<double>& high, std::string words, const sheet::Place& place, double confidence, FactFrom from) {
    fill(f, std::move(words), place, confidence, from);
    f.low = low;
    f.high = high;
    return f;
}

std::vector<SheetFact> property_facts(const sheet::Facts& facts, FactFrom from) {
    std::vector<SheetFact> out;
    out.push_back(text_fact("state", "State", facts.state, from));
    out.push_back(ph_fact(facts.ph, from));
    SheetFact density = blank("density", "Density", "g/ml");
    density.can_measure = true;
    if (facts.density) {
        const auto& d = facts.density->value;
        density = interval_fact(density, d.g_ml.low, d.g_ml.high, interval_words(d.g_ml.low, d.g_ml.high, "g/ml") + (d.celsius ? ", at " + plain(*d.celsius) + " °C" : ""), facts.density->place, facts.density->confidence, from);
    }
    out.push_back(density);
    SheetFact flash = blank("flash_point", "Flash point", "°C");
    if (facts.flash_point) {
        const auto& v = facts.flash_point->value;
        const std::string sign = v.sign == '>' ? "over " : v.sign == '<' ? "under " : "";
        const auto low = v.sign == '<' ? std::nullopt : v.celsius, high = v.sign == '>' ? std::nullopt : v.celsius;
        flash = interval_fact(flash, low, high, v.not_applicable ? "not applicable, says the sheet" : v.celsius ? sign + plain(*v.celsius) + " °C" : "", facts.flash_point->place, facts.flash_point->confidence, from);
    }
    out.push_back(flash);
    SheetFact boiling = blank("boiling", "Boils at", "°C");
    if (facts.boiling_c) boiling = interval_fact(boiling, facts.boiling_c->value.low, facts.boiling_c->value.high, interval_words(facts.boiling_c->value.low, facts.boiling_c->value.high, "°C"), facts.boiling_c->place, facts.boiling_c->confidence, from);
    out.push_back(boiling);
    SheetFact vapour = blank("vapour_pressure", "Vapour pressure", "hPa");
    if (facts.vapour_pressure_hpa) vapour = interval_fact(vapour, facts.vapour_pressure_hpa->value.low, facts.vapour_pressure_hpa->value.high, interval_words(facts.vapour_pressure_hpa->value.low, facts.vapour_pressure_hpa->value.high, "hPa"), facts.vapour_pressure_hpa->place, facts.vapour_pressure_hpa->confidence, from);
    out.push_back(vapour);
    SheetFact voc = blank("voc", "Volatile organic compounds", facts.voc ? facts.voc->value.unit : "%");
    if (facts.voc) voc = interval_fact(voc, facts.voc->value.value.low, facts.voc->value.value.high, interval_words(facts.voc->value.value.low, facts.voc->value.value.high, facts.voc->value.unit), facts.voc->place, facts.voc->confidence, from);
    out.push_back(voc);
    for (auto& f : out) say_how_sure(f);
    return out;
}

/// All codes as one fact that can be typed, then each with its own place.
std::vector<SheetFact> warning_facts(const sheet::Facts& facts, FactFrom from) {
    std::vector<SheetFact> out{signal_fact(facts.signal_word, from)};
    SheetFact all = blank("codes", "Codes");
    std::vector<std::string> codes;
    double weakest = 1;
    for (const auto& c : facts.codes) {
        codes.push_back(c.value.code);
        weakest = std::min(weakest, c.confidence);
    }
    if (!codes.empty()) fill(all, listed(codes), facts.codes.front().place, weakest, from);
    say_how_sure(all);
    out.push_back(all);
    for (std::size_t i = 0; i < facts.codes.size(); ++i) {
        const auto& c = facts.codes[i];
        SheetFact f = blank("codes[" + std::to_string(i) + "]", c.value.code);
        f.can_correct = false;
        fill(f, c.value.wording.empty() ? c.value.code : c.value.wording, c.place, c.confidence, from);
        if (c.value.from_wording) f.note = "The sheet prints the sentence without its code.";
        say_how_sure(f);
        out.push_back(f);
    }
    return out;
}

std::string kind_words(const std::string& kind) { return kind == "stel" ? "for a short time" : kind == "ceiling" ? "never over" : "over a shift"; }

std::vector<SheetFact> limit_facts(const sheet::Facts& facts, FactFrom from) {
    std::vector<SheetFact> out;
    for (std::size_t i = 0; i < facts.limits.size(); ++i) {
        const auto& l = facts.limits[i];
        std::string name = l.value.substance.empty() ? l.value.cas : l.value.substance;
        SheetFact f = blank("limits[" + std::to_string(i) + "]", name.empty() ? "Not said of what" : name);
        f.can_correct = false;
        std::string words = (l.value.jurisdiction.empty() ? "" : l.value.jurisdiction + ", ") + kind_words(l.value.kind) + ":";
        if (l.value.mg_m3) words += " " + plain(*l.value.mg_m3) + " mg/m³";
        if (l.value.mg_m3 && l.value.ppm) words += ",";
        if (l.value.ppm) words += " " + plain(*l.value.ppm) + " ppm";
        fill(f, words, l.place, l.confidence, from);
        if (l.value.jurisdiction.empty()) f.note = "The sheet does not say where this limit holds.";
        say_how_sure(f);
        out.push_back(f);
    }
    return out;
}

std::vector<SheetFact> transport_facts(const sheet::Facts& facts, FactFrom from) {
    std::vector<SheetFact> out{text_fact("un", "UN number", facts.transport.un, from), text_fact("shipping_name", "Shipping name", facts.transport.name, from),
                               text_fact("transport_class", "Transport class", facts.transport.transport_class, from), text_fact("packing_group", "Packing group", facts.transport.packing_group, from)};
    if (facts.transport.not_dangerous && out[0].value.empty()) out[0].note = "The sheet says that it is not dangerous goods.";
    return out;
}

SheetFact share_fact(std::size_t index, const sheet::Ingredient& i, FactFrom from) {
    SheetFact f = blank("ingredients[" + std::to_string(index) + "].share", "Share", "% by weight");
    if (i.range) {
        const auto& r = i.range->value;
        if (r.by_volume) f.unit = "% by volume";
        std::string words = interval_words(r.low_pct, r.high_pct, "%");
        if (r.low_pct && r.high_pct && *r.low_pct < *r.high_pct) words = (r.low_open ? "over " : "") + plain(*r.low_pct) + " to " + (r.high_open ? "under " : "") + plain(*r.high_pct) + " %";
        if (!r.low_pct && r.high_pct) words = (r.high_open ? "under " : "up to ") + plain(*r.high_pct) + " %";
        if (r.low_pct && !r.high_pct) words = (r.low_open ? "over " : "from ") + plain(*r.low_pct) + " %";
        fill(f, words + (r.by_volume ? " by volume" : ""), i.range->place, i.range->confidence, from);
        f.low = r.low_pct;
        f.high = r.high_pct;
    }
    say_how_sure(f);
    if (f.value.empty() && i.trade_secret) f.note = "kept as a trade secret";
    return f;
}

SheetIngredient shown(std::size_t index, const sheet::Ingredient& i, FactFrom from) {
    SheetIngredient out;
    const std::string key = "ingredients[" + std::to_string(index) + "]";
    out.name = blank(key + ".name", "Name");
    fill(out.name, i.name.value, i.name.place, i.name.confidence, from);
    say_how_sure(out.name);
    out.cas = text_fact(key + ".cas", "CAS number", i.cas, from);
    if (!i.cas && i.bad_cas) {
        out.cas.place = shown(i.bad_cas->place);
        out.cas.sheet_value = i.bad_cas->value;
        out.cas.note = "The sheet prints " + i.bad_cas->value + ", which cannot be: its check digit is wrong. Ask the maker; it is not used.";
        out.cas.sure = "not usable";
    }
    out.share = share_fact(index, i, from);
    out.place = shown(i.place);
    std::vector<std::string> numbers, codes;
    if (i.ec) numbers.push_back("EC " + i.ec->value);
    if (i.reach) numbers.push_back("REACH " + i.reach->value);
    if (i.index) numbers.push_back("index " + i.index->value);
    for (const auto& c : i.codes) codes.push_back(c.value);
    out.other_numbers = listed(numbers);
    out.codes = listed(codes);
    out.trade_secret = i.trade_secret;
    return out;
}

// ---- what people type ------------------------------------------------------------------------------------------------

struct Range {
    std::optional<double> low, high;
    bool none = false;  ///< not applicable
    std::string unit;   ///< what stands behind, in small letters
};

std::string trimmed(const std::string& text) {
    const auto from = text.find_first_not_of(" \t\n"), to = text.find_last_not_of(" \t\n");
    return from == std::string::npos ? std::string{} : text.substr(from, to - from + 1);
}

void replace_all(std::string& text, std::string_view what, std::string_view with) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) text.replace(at, what.size(), with);
}

std::string small(std::string text) {
    for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

bool takes(std::string& text, std::string_view word) {
    if (text.substr(0, word.size()) != word) return false;
    text = trimmed(text.substr(word.size()));
    return true;
}

std::optional<double> takes_number(std::string& text) {
    const char* begin = text.c_str();
    const bool begins = !text.empty() && (std::isdigit(static_cast<unsigned char>(text[0])) != 0 || ((text[0] == '-' || text[0] == '.') && text.size() > 1));
    char* end = nullptr;
    const double value = begins ? std::strtod(begin, &end) : 0;
    if (end == nullptr || end == begin || !std::isfinite(value)) return std::nullopt;
    text = trimmed(text.substr(static_cast<std::size_t>(end - begin)));
    return value;
}

/// "12", "12 to 12.6", "5–15 %", "< 3", "up to 5", "not applicable".
std::optional<Range> parse_range(const std::string& typed) {
    std::string t = small(trimmed(typed));
    for (const auto& [what, with] : {std::pair{",", "."}, {"–", "-"}, {"—", "-"}, {"−", "-"}, {"≤", "<="}, {"≥", ">="}, {"°", ""}}) replace_all(t, what, with);
    Range out;
    if (t == "not applicable" || t == "n/a" || t == "none") {
        out.none = true;
        return out;
    }
    bool under = false, over = false;
    for (const char* word : {"<=", "<", "up to ", "under ", "at most ", "below "})
        if (takes(t, word)) { under = true; break; }
    for (const char* word : {">=", ">", "over ", "from ", "at least ", "above "})
        if (!under && takes(t, word)) { over = true; break; }
    const auto first = takes_number(t);
    if (!first) return std::nullopt;
    std::optional<double> second;
    if (!under && (takes(t, "to ") || takes(t, "-"))) {
        takes(t, "<=") || takes(t, "<");
        second = takes_number(t);
        if (!second) return std::nullopt;
    }
    if (!under) out.low = first;
    if (under) out.high = first;
    else if (second) out.high = second;
    else if (!over) out.high = first;
    if (out.low && out.high && *out.low > *out.high) return std::nullopt;
    out.unit = trimmed(t);
    return out;
}

Error cannot_be(const std::string& what) { return {ErrorCode::InvalidInput, what, "value"}; }

/// What a number of this unit may be: its ends, how people may write the unit, and an example.
struct Allowed {
    double least, most;
    std::vector<std::string> units;
    std::string example;
};
Allowed allowed_of(const SheetFact& f) {
    if (f.key == "ph") return {-1, 15, {"ph"}, "12 to 12.6"};
    if (f.key == "density") return {0.2, 5, {"g/ml", "g/cm3", "g/cm³", "kg/l"}, "1.02"};
    if (f.key == "vapour_pressure") return {0, 100000, {"hpa", "mbar"}, "23"};
    if (f.key == "voc") return {0, 2000, {"%", "g/l", "lb/gal"}, "4.5 %"};
    if (f.unit == "°C") return {-150, 1500, {"c", "f"}, "62"};
    return {0, 100, {"%"}, "5 to 10"};
}

Result<Done> put_range(SheetFact& f, const std::string& typed) {
    const Allowed allowed = allowed_of(f);
    auto range = parse_range(typed);
    if (!range) return cannot_be("That is no number or range. Write it like \"" + allowed.example + "\" or \"< 3\".");
    if (!range->unit.empty() && std::find(allowed.units.begin(), allowed.units.end(), range->unit) == allowed.units.end())
        return cannot_be("\"" + range->unit + "\" is not understood here. Write it like \"" + allowed.example + "\", in " + f.unit + ".");
    if (range->unit == "f")
        for (auto* end : {&range->low, &range->high})
            if (*end) *end = std::round((**end - 32) / 1.8 * 10) / 10;
    for (const auto& end : {range->low, range->high})
        if (end && (*end < allowed.least || *end > allowed.most)) return cannot_be("That lies outside what it can be: " + plain(allowed.least) + " to " + plain(allowed.most) + " " + f.unit + ".");
    f.low = range->low;
    f.high = range->high;
    f.of_pct = std::nullopt;
    f.not_of_bottle = false;
    if (f.key == "voc" && !range->unit.empty()) f.unit = range->unit;
    const std::string unit = f.key == "ph" ? "" : f.unit;
    f.value = range->none ? "not applicable" : interval_words(range->low, range->high, unit);
    return Done{};
}

Result<Done> put_date(SheetFact& f, const std::string& typed) {
    if (typed.size() != 10 || !parse_moment(typed)) return cannot_be("Write the date as year-month-day, like 2024-03-05.");
    f.value = typed;
    return Done{};
}

Result<Done> put_signal(SheetFact& f, const std::string& typed) {
    const std::string word = small(typed);
    if (word != "danger" && word != "warning" && word != "none") return cannot_be("A signal word is Danger, Warning or none.");
    f.value = word == "danger" ? "Danger" : word == "warning" ? "Warning" : "none";
    return Done{};
}

bool is_code(std::string_view code) {
    const std::string_view head = code.substr(0, 3) == "EUH" ? "EUH" : code.substr(0, 1);
    if (head != "EUH" && head != "H" && head != "P") return false;
    const std::string_view rest = code.substr(head.size());
    if (rest.size() < 3 || rest.size() > 5) return false;
    for (std::size_t i = 0; i < rest.size(); ++i)
        if (i < 3 ? std::isdigit(static_cast<unsigned char>(rest[i])) == 0 : std::isalpha(static_cast<unsigned char>(rest[i])) == 0) return false;
    return true;
}

Result<Done> put_codes(SheetFact& f, const std::string& typed) {
    std::vector<std::string> codes;
    std::string code, part;
    const auto finish = [&]() -> bool {
        if (code.empty()) return true;
        std::size_t at = 0;
        while (at <= code.size()) {
            const auto plus = std::min(code.find('+', at), code.size());
            if (!is_code(std::string_view(code).substr(at, plus - at))) return false;
            at = plus + 1;
        }
        if (std::find(codes.begin(), codes.end(), code) == codes.end()) codes.push_back(code);
        code.clear();
        return true;
    };
    for (const char c : typed + ",") {
        if (c != ',' && c != ' ' && c != ';') { code += c; continue; }
        const std::string bad = code;
        if (!finish()) return cannot_be("\"" + bad + "\" is no code. Write them like \"H314, P280, P305+P351+P338\".");
    }
    f.value = listed(codes);
    return Done{};
}

Result<Done> put_cas(SheetFact& f, const std::string& typed) {
    auto cas = chem::parse_cas(typed);
    if (!cas.ok()) return cannot_be(cas.error().message);
    f.value = *cas;
    return Done{};
}

Result<Done> put_text(SheetFact& f, const std::string& typed) {
    constexpr std::size_t most = 2000;
    if (typed.size() > most) return cannot_be("That is too long. Keep it under 2,000 letters.");
    f.value = typed;
    return Done{};
}

bool ends(const std::string& text, std::string_view end) { return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0; }

}  // namespace

std::string plain(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.6g", value);
    return text;
}

SheetIngredient empty_ingredient(std::size_t index) {
    SheetIngredient out;
    const std::string key = "ingredients[" + std::to_string(index) + "]";
    out.name = blank(key + ".name", "Name");
    out.cas = blank(key + ".cas", "CAS number");
    out.share = blank(key + ".share", "Share", "% by weight");
    for (SheetFact* f : {&out.name, &out.cas, &out.share}) say_how_sure(*f);
    return out;
}

void show_facts(const sheet::Facts& facts, FactFrom from, DigestAnswer& into) {
    into.language = facts.language;
    into.groups = {{"What it is", {text_fact("product", "Product", facts.product, from), text_fact("supplier", "Maker or supplier", facts.supplier, from), text_fact("revision_date", "Date of the sheet", facts.revision_date, from),
                                   text_fact("revision", "Revision", facts.revision, from), text_fact("ufi", "UFI", facts.ufi, from)}},
                   {"What it warns of", warning_facts(facts, from)},
                   {"How it behaves", property_facts(facts, from)},
                   {"Handling", {text_fact("incompatible", "Must not meet", facts.incompatible, from), text_fact("storage", "Storage", facts.storage, from), text_fact("disposal", "Disposal", facts.disposal, from)}},
                   {"Transport", transport_facts(facts, from)}};
    if (!facts.limits.empty()) into.groups.insert(into.groups.begin() + 3, {"Limits in the air", limit_facts(facts, from)});
    into.ingredients.clear();
    for (std::size_t i = 0; i < facts.ingredients.size(); ++i) into.ingredients.push_back(shown(i, facts.ingredients[i], from));
    for (const auto& c : facts.contradictions) {
        SheetContradiction out{c.key, c.finding.sentence, c.finding.basis, {}};
        for (const auto& p : c.places) out.places.push_back(shown(p));
        into.contradictions.push_back(std::move(out));
    }
    for (const auto& s : facts.sections) into.sections.push_back({s.number, s.title.words, s.title.page, s.text});
}

void show_nothing(DigestAnswer& into) {
    show_facts({}, FactFrom::Sheet, into);
    into.sections.clear();
}

Result<Done> put_typed(SheetFact& f, const std::string& given, CorrectedBy how) {
    const std::string typed = trimmed(given);
    if (!f.can_correct) return Error{ErrorCode::InvalidInput, "This is not corrected by itself. Correct the line that it belongs to.", "key"};
    if (how == CorrectedBy::Measured && !f.can_measure) return Error{ErrorCode::InvalidInput, "This cannot be measured at the bottle. Say that it is typed.", "how"};
    if (typed.empty()) return cannot_be("Nothing is typed.");
    SheetFact changed = f;
    const bool number = !f.unit.empty();
    HW_TRY(done, number ? put_range(changed, typed) : f.key == "revision_date" ? put_date(changed, typed) : f.key == "signal_word" ? put_signal(changed, typed) : f.key == "codes" ? put_codes(changed, typed) : ends(f.key, ".cas") ? put_cas(changed, typed) : put_text(changed, typed));
    static_cast<void>(done);
    if (changed.from == FactFrom::Sheet || changed.from == FactFrom::Xml) {
        if (!f.value.empty()) changed.sheet_value = f.value;
    }
    changed.from = how == CorrectedBy::Measured ? FactFrom::Measured : FactFrom::Typed;
    changed.confidence_1 = 1;
    changed.look = false;
    changed.sure = how == CorrectedBy::Measured ? "measured" : "typed";
    changed.note.clear();
    f = std::move(changed);
    return Done{};
}

}  // namespace hw::desk
