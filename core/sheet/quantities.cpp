#include "core/sheet/quantities.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/sheet/dictionary.hpp"

namespace hw::sheet {

namespace {

bool says_not_applicable(std::string_view folded) { return says(folded, "value", "not_applicable"); }

double round_tenth(double x) { return std::round(x * 10) / 10; }

/// A converted figure: to 0.1, one below 1 to as many significant digits as are printed, so that 0.02 mmHg does not become nothing.
double rounded(double x, std::string_view printed) {
    if (x >= 1 || !(x > 0)) return round_tenth(x);
    int digits = 0;
    for (const char c : printed) digits += is_digit(c) && (digits > 0 || c != '0') ? 1 : 0;
    const double scale = std::pow(10, std::clamp(digits, 1, 6) - 1 - std::floor(std::log10(x)));
    return std::round(x * scale) / scale;
}

/// A value with the sign before it: "< 0.1" has no lower end.
Interval signed_interval(const Quantity& q, double value) {
    Interval out{value, value};
    if (q.sign.starts_with('>')) out.high.reset();
    if (q.sign.starts_with('<')) out.low.reset();
    return out;
}

std::string unit_at(std::string_view s, std::size_t at) {
    while (at < s.size() && s[at] == ' ') ++at;
    if (at >= s.size()) return {};
    if (s[at] == '%') return "%";
    for (const std::string_view share : {"gew.-%", "gew.%", "gew-%", "gew. %", "gew.- %", "wt%", "wt.%", "wt.-%", "wt-%", "wt %", "wt. %", "ma.-%", "massen-%", "masse-%", "mass %", "weight %"})
        if (s.substr(at, share.size()) == share) return "%";
    if (s[at] == degree) {
        std::size_t k = at + 1;
        while (k < s.size() && s[k] == ' ') ++k;
        if (k < s.size() && (s[k] == 'c' || s[k] == 'f') && (k + 1 >= s.size() || !is_letter(s[k + 1]))) return std::string(1, degree) + s[k];
        return {};
    }
    std::size_t end = at;
    while (end < s.size() && (is_letter(s[end]) || (end > at && (s[end] == '/' || s[end] == '.' || is_digit(s[end]))))) ++end;
    std::string unit(s.substr(at, end - at));
    while (!unit.empty() && unit.back() == '.') unit.pop_back();
    if ((unit == "c" || unit == "f") && at > 0) return std::string(1, degree) + unit;
    if (unit == "deg" || unit == "degree" || unit == "degrees") {
        const std::string scale(s.substr(std::min(end, s.size()), 2));
        if ((scale == " c" || scale == " f") && (end + 2 >= s.size() || !is_letter(s[end + 2]))) return std::string(1, degree) + scale[1];
    }
    if (unit == "degc" || unit == "degf") return std::string(1, degree) + unit.back();
    static constexpr std::array<std::string_view, 34> known{"hpa", "kpa", "pa", "mbar", "bar", "mmhg", "torr", "psi", "psia", "atm", "g/cm3", "g/ml", "g/cc", "kg/m3", "kg/l", "g/l", "kg/dm3", "g/dm3", "lb/gal", "lbs/gal", "mg/m3", "ppm", "mg/l", "mpa", "mmhgat20", "vol", "h", "min", "mm", "k", "ml/m3", "mg/kg", "mg/cm3", "g/cm"};
    if (unit == "mm" && s.substr(end, 3) == " hg") return "mmhg";
    // "mg/m 3", "mg/m^3", "mg/cbm": the same unit in other dress
    if ((unit == "mg/m" || unit == "ml/m") && end + 1 < s.size() && (s[end] == ' ' || s[end] == '^') && s[end + 1] == '3' && (end + 2 == s.size() || !is_digit(s[end + 2]))) return unit + "3";
    if (unit == "mg/cbm") return "mg/m3";
    if (unit == "cm3/m3") return "ml/m3";
    return std::find(known.begin(), known.end(), unit) != known.end() ? unit : std::string{};
}

std::string sign_before(std::string_view s, std::size_t at) {
    std::size_t k = at;
    while (k > 0 && (s[k - 1] == ' ' || s[k - 1] == '-')) --k;
    if (k > 0 && s[k - 1] == '=') {
        if (k > 1 && (s[k - 2] == '<' || s[k - 2] == '>')) return std::string(1, s[k - 2]) + "=";
        return {};
    }
    if (k > 0 && (s[k - 1] == '<' || s[k - 1] == '>')) return std::string(1, s[k - 1]);
    if (k > 0 && s[k - 1] == '~') return "~";
    return {};
}

/// "10 <= x < 25", "2,5 <= x % < 10", "1 < C < 5": the bounds of a letter. Written as ">= 10 - < 25"; anything else stays.
std::string without_letter(const std::string& s) {
    const std::size_t first = s.find('<');
    if (first == std::string::npos) return s;
    std::size_t at = first + 1;
    const bool closed = at < s.size() && s[at] == '=';
    if (closed) ++at;
    while (at < s.size() && s[at] == ' ') ++at;
    std::size_t end = std::string::npos;
    for (const std::string_view letter : {"x", "c", "conc.", "conc"})
        if (end == std::string::npos && s.compare(at, letter.size(), letter) == 0) end = at + letter.size();
    if (end == std::string::npos) return s;
    while (end < s.size() && (s[end] == ' ' || s[end] == '%' || s[end] == '(' || s[end] == ')')) ++end;
    if (end >= s.size() || s[end] != '<' || std::none_of(s.begin(), s.begin() + static_cast<std::ptrdiff_t>(first), is_digit)) return s;
    return (closed ? ">= " : "> ") + s.substr(0, first) + " - " + s.substr(end);
}

/// Words of comparison as signs: "up to 5" as "<= 5". Longer phrases first, so that "up to" is not read as "to".
std::string with_signs(std::string_view folded) {
    std::string out(folded);
    struct Swap { std::string_view key, sign; };
    static constexpr std::array<Swap, 4> swaps{{{"at_most", " <= "}, {"below", " < "}, {"above", " > "}, {"at_least", " >= "}}};
    for (const Swap& swap : swaps)
        for (const Phrase* p : phrases("word", swap.key)) {
            for (std::size_t at = find_word(out, p->folded); at != std::string::npos; at = find_word(out, p->folded)) {
                // "10 bis 20" is a range: between two numbers the word is not a sign
                std::size_t k = at;
                while (k > 0 && (out[k - 1] == ' ' || out[k - 1] == '%')) --k;
                if (k > 0 && is_digit(out[k - 1]) && swap.key != "below") break;
                out.replace(at, p->folded.size(), swap.sign);
            }
        }
    return out;
}

struct DateParts { int year = 0, month = 0, day = 0; };

std::optional<std::string> iso(DateParts d) {
    if (d.year < 100) d.year += d.year < 70 ? 2000 : 1900;
    if (d.year < 1970 || d.year > 2100 || d.month < 1 || d.month > 12 || d.day < 1 || d.day > 31) return std::nullopt;
    const auto two = [](int n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
    return std::to_string(d.year) + "-" + two(d.month) + "-" + two(d.day);
}

}  // namespace

std::vector<Quantity> quantities(std::string_view s, Decimal decimal) {
    std::vector<Quantity> out;
    for (auto n = next_number(s, 0, decimal); n; n = next_number(s, n->end, decimal)) {
        // part of a word such as "C9" or "DIN51755": not a quantity
        const bool glued = n->begin > 0 && is_letter(s[n->begin - 1]);
        if (glued) continue;
        out.push_back({n->value, sign_before(s, n->begin), unit_at(s, n->end), n->begin, n->end});
    }
    // "10 - 20 %": both have the unit.
    for (std::size_t i = out.size(); i-- > 1;) {
        if (!out[i - 1].unit.empty() || out[i].unit.empty()) continue;
        const std::string_view between = s.substr(out[i - 1].end, out[i].begin - out[i - 1].end);
        bool dash = between.find_first_of("-<>") != std::string_view::npos || between.find("...") != std::string_view::npos;
        for (const Phrase* p : phrases("word", "to")) dash = dash || find_word(between, p->folded) != std::string_view::npos;
        if (dash && between.size() <= 10) out[i - 1].unit = out[i].unit;
    }
    return out;
}

bool is_temperature(const Quantity& q) { return q.unit.size() == 2 && q.unit[0] == degree; }

double celsius_of(const Quantity& q) { return q.unit[1] == 'f' ? round_tenth((q.value - 32) * 5 / 9) : q.value; }

std::optional<Range> range_of(std::string_view text, Decimal decimal) {
    std::string s = without_letter(with_signs(fold(text)));
    Range range;
    range.by_volume = says(s, "word", "by_volume") || s.find("vol") != std::string::npos;
    for (std::size_t at = s.find("-%"); at != std::string::npos; at = s.find("-%", at)) s.erase(at, 1);      // "5 Gew.-%": the hyphen reaches to nothing
    struct Piece { char kind; std::string sign; double value; };     // n: number with its sign, -: from to
    std::vector<Piece> pieces;
    std::string sign;
    for (std::size_t i = 0; i < s.size();) {
        const char c = s[i];
        if (c == '<' || c == '>') {
            sign = std::string(1, c);
            ++i;
            while (i < s.size() && s[i] == ' ') ++i;
            if (i < s.size() && s[i] == '=') { sign += '='; ++i; }
        } else if (c == '=' && i + 1 < s.size() && (s[i + 1] == '<' || s[i + 1] == '>')) {
            sign = std::string(1, s[i + 1]) + "=";
            i += 2;
        } else if (is_digit(c)) {
            const auto n = next_number(s, i, decimal);
            pieces.push_back({'n', sign, std::abs(n->value)});
            sign.clear();
            i = n->end;
        } else if (c == '-') { pieces.push_back({'-', {}, 0}); ++i; }
        else if (c == '.' && s.compare(i, 3, "...") == 0) { pieces.push_back({'-', {}, 0}); i += 3; }
        else if (c == ' ' || c == '%' || c == '(' || c == ')' || c == '[' || c == ']' || c == '~' || c == ',' || c == '.' || c == ';' || c == '*' || c == '=' || c == '/') ++i;
        else if (is_letter(c)) {
            std::size_t end = i;
            while (end < s.size() && (is_letter(s[end]) || s[end] == '/' || s[end] == '.')) ++end;
            std::string word = s.substr(i, end - i);
            while (!word.empty() && (word.back() == '.' || word.back() == '/')) word.pop_back();
            static constexpr std::array<std::string_view, 28> silent{"ca", "approx", "wt", "w", "w/w", "v/v", "vol", "gew", "weight", "by", "w.w", "p/p", "m/m", "mass", "masse", "massen", "peso", "en", "poids", "volume", "volumen", "aprox", "env", "circa", "percent", "prozent", "m", "p"};
            bool to = false;
            for (const Phrase* p : phrases("word", "to")) to = to || p->folded == word;
            bool from = false;             // "between 5 and 10"
            for (const Phrase* p : phrases("word", "from")) from = from || p->folded == word;
            if (from && pieces.empty()) { i = end; continue; }
            if (to) pieces.push_back({'-', {}, 0});
            else if (std::find(silent.begin(), silent.end(), word) == silent.end()) return std::nullopt;
            i = end;
        } else return std::nullopt;
    }
    std::vector<Piece> numbers;
    std::size_t first_dash = pieces.size();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].kind == 'n') numbers.push_back(pieces[i]);
        else if (!numbers.empty() && numbers.size() < 2) first_dash = i;
    }
    if (numbers.empty() || numbers.size() > 2) return std::nullopt;
    for (const Piece& n : numbers)
        if (n.value > 100) return std::nullopt;
    if (numbers.size() == 1) {
        const Piece& n = numbers[0];
        if (n.sign.starts_with('<')) { range.high_pct = n.value; range.high_open = n.sign == "<"; }
        else if (n.sign.starts_with('>')) { range.low_pct = n.value; range.low_open = n.sign == ">"; }
        else if (first_dash != pieces.size()) return std::nullopt;
        else range.low_pct = range.high_pct = n.value;
        return range;
    }
    Piece a = numbers[0], b = numbers[1];
    if (first_dash == pieces.size() && a.sign.empty() && b.sign.empty()) return std::nullopt;     // "5 10" is no range
    if (a.sign.starts_with('<') && b.sign.starts_with('>')) std::swap(a, b);                      // "< 25 >= 10"
    if (b.value < a.value) return std::nullopt;
    range.low_pct = a.value;
    range.low_open = a.sign == ">";
    range.high_pct = b.value;
    range.high_open = b.sign == "<";
    return range;
}

namespace {

/// Every phrase of a key out of the text; whether there was one.
bool taken_out(std::string& text, std::string_view key) {
    bool any = false;
    for (const Phrase* p : phrases("word", key))
        for (std::size_t at = find_word(text, p->folded); at != std::string::npos; at = find_word(text, p->folded)) {
            text.replace(at, p->folded.size(), 1, ' ');
            any = true;
        }
    return any;
}

/// "1:100", "1 + 9", "1/100", "1 in 10" out of the text, as per cent of the product in what is there.
void take_ratio(std::string& text, Decimal decimal, Ph& ph) {
    for (auto a = next_number(text, 0, decimal); a; a = next_number(text, a->end, decimal)) {
        std::size_t mark = a->end;
        while (mark < text.size() && text[mark] == ' ') ++mark;
        const bool in = text.compare(mark, 3, "in ") == 0;
        if (mark >= text.size() || !(in || text[mark] == ':' || text[mark] == '+' || text[mark] == '/')) continue;
        std::size_t next = mark + (in ? 3 : 1);
        while (next < text.size() && text[next] == ' ') ++next;
        if (next >= text.size() || !is_digit(text[next])) continue;
        const auto b = next_number(text, next, decimal);
        const bool glued = a->begin > 0 && (is_letter(text[a->begin - 1]) || text[a->begin - 1] == '-');
        // "7/8" is a range of pH, "1/100" cannot be one; "ISO 4316:1977" is a method.
        const double most = text[mark] == ':' ? 10 : 1;
        if (glued || a->value <= 0 || a->value > most || b->value < a->value || (text[mark] == '/' && b->value <= 14)) continue;
        const bool parts = text[mark] == '+', halves = b->value == a->value;
        if (!ph.concentration_pct) ph.concentration_pct = 100 * a->value / (parts || halves ? a->value + b->value : b->value);
        ph.unclear = ph.unclear || !(parts || in || halves);
        text.replace(a->begin, b->end - a->begin, b->end - a->begin, ' ');
    }
}

/// "10 g/l", "1 g / 100 ml", "5 ml/l" out of the text, as per cent; the mass of a litre is taken as a kilogram.
void take_concentration(std::string& text, Decimal decimal, Ph& ph) {
    struct Unit { std::string_view name; double per_pct; };
    static constexpr std::array<Unit, 12> units{{{"%", 1}, {"g/100ml", 1}, {"g/100g", 1}, {"g/100cm3", 1}, {"mg/l", 10000}, {"mg/ml", 10}, {"g/l", 10}, {"g/dm3", 10}, {"g/kg", 10}, {"kg/m3", 10}, {"ml/l", 10}, {"gpl", 10}}};
    for (auto n = next_number(text, 0, decimal); n; n = next_number(text, n->end, decimal)) {
        if (n->begin > 0 && is_letter(text[n->begin - 1])) continue;
        for (const Unit& u : units) {
            std::size_t at = n->end, k = 0;
            while (k < u.name.size() && at < text.size() && (text[at] == ' ' || text[at] == u.name[k])) k += text[at++] == u.name[k] ? 1 : 0;
            if (k < u.name.size() || (is_letter(u.name.back()) && at < text.size() && is_letter(text[at]))) continue;
            if (!ph.concentration_pct) ph.concentration_pct = n->value / u.per_pct;
            text.replace(n->begin, at - n->begin, at - n->begin, ' ');
            break;
        }
    }
}

/// What is left of the conditions once figures and known words are taken away is a condition that is not understood.
bool has_other_words(const std::string& text) {
    const auto silent = phrases("word", "beside_ph");
    for (std::size_t i = 0; i < text.size();) {
        if (!is_letter(text[i])) { ++i; continue; }
        std::size_t end = i;
        while (end < text.size() && is_letter(text[end])) ++end;
        const std::string_view word = std::string_view(text).substr(i, end - i);
        if (word.size() > 1 && std::none_of(silent.begin(), silent.end(), [&](const Phrase* p) { return p->folded == word; })) return true;
        i = end;
    }
    return false;
}

/// One figure with its conditions, both folded. @param as_supplied  whether it is said to be that of the product itself
std::optional<Ph> ph_in(std::string v, std::string q, Decimal decimal, bool& as_supplied) {
    Ph ph;
    bool dilution = false;
    as_supplied = false;
    for (std::string* text : {&v, &q}) {
        as_supplied = taken_out(*text, "as_supplied") || as_supplied;
        take_concentration(*text, decimal, ph);
        take_ratio(*text, decimal, ph);
        dilution = taken_out(*text, "dilution") || dilution;
    }
    std::vector<Quantity> numbers;
    const auto look_at = [&](std::string_view text, bool main) {
        for (const Quantity& n : quantities(text, decimal)) {
            if (n.unit == "%") { if (!ph.concentration_pct) ph.concentration_pct = n.value; }
            else if (is_temperature(n)) { if (!ph.celsius) ph.celsius = celsius_of(n); }
            else if (n.unit.empty() && main && n.value >= 0 && n.value <= 14) numbers.push_back(n);
        }
    };
    // In front of the bracket stands the value, inside its conditions; a value only inside is taken from there.
    const std::size_t bracket = v.find('(');
    look_at(std::string_view(v).substr(0, bracket), true);
    if (bracket != std::string::npos) look_at(std::string_view(v).substr(bracket), numbers.empty());
    look_at(q, false);
    if (numbers.empty()) {
        if (!says_not_applicable(v)) return std::nullopt;
        Ph none;
        none.not_applicable = true;
        return none;
    }
    const Quantity& a = numbers[0];
    ph.low_ph = ph.high_ph = a.value;
    if (numbers.size() > 1 && numbers[1].value >= a.value) {
        const std::string between = v.substr(a.end, numbers[1].begin - a.end);
        bool to = between.find('-') != std::string::npos || between.find("...") != std::string::npos || between.find('/') != std::string::npos || between.find('<') != std::string::npos;
        for (const Phrase* p : phrases("word", "to")) to = to || find_word(between, p->folded) != std::string::npos;
        if (to && between.size() <= 12) ph.high_ph = numbers[1].value;
    } else if (a.sign.starts_with('>')) ph.high_ph.reset();
    else if (a.sign.starts_with('<')) ph.low_ph.reset();
    // "12 bei 10 g/l" gives one value with its concentration; "10 % : 12" too.
    ph.diluted = dilution && !ph.concentration_pct && !as_supplied;
    // "12.5 (concentrate, 1 %)": one of them cannot be.
    const bool both = as_supplied && ph.concentration_pct && *ph.concentration_pct < 100;
    ph.unclear = ph.unclear || both || has_other_words(v) || has_other_words(q);
    return ph;
}

/// "12.5 (concentrate); 9 (1 %)" in its parts: at semicolons, and behind a bracket where another figure begins.
std::vector<std::string> figures_in(const std::string& v) {
    std::vector<std::string> out{""};
    for (std::size_t i = 0; i < v.size(); ++i) {
        const std::size_t next = v[i] == ')' ? v.find_first_not_of(" ,/", i + 1) : std::string::npos;
        const bool begins = next != std::string::npos && (is_digit(v[next]) || v[next] == '<' || v[next] == '>');
        if (v[i] != ';') out.back() += v[i];
        if (v[i] == ';' || begins) out.emplace_back();
    }
    return out;
}

}  // namespace

std::optional<Ph> ph_of(std::string_view value, std::string_view qualifier, Decimal decimal) {
    const std::string v = with_signs(fold(value)), q = fold(qualifier);
    bool as_supplied = false;
    const auto parts = figures_in(v);
    std::vector<Ph> read;
    std::optional<std::size_t> of_product;
    for (const std::string& part : parts) {
        const auto one = ph_in(part, q, decimal, as_supplied);
        if (!one || one->not_applicable) break;
        if (as_supplied && !of_product) of_product = read.size();
        read.push_back(*one);
    }
    // Only where each part has a figure of its own are they several; else one figure with what stands around it.
    if (parts.size() < 2 || read.size() < parts.size()) return ph_in(v, q, decimal, as_supplied);
    if (of_product) return read[*of_product];
    Ph first = read[0];
    const bool same = std::all_of(read.begin(), read.end(), [&](const Ph& p) { return p.low_ph == first.low_ph && p.high_ph == first.high_ph; });
    first.unclear = first.unclear || !same;
    return first;
}

std::optional<FlashPoint> flash_point_of(std::string_view value, Decimal decimal) {
    const std::string v = with_signs(fold(value));
    const auto all = quantities(v, decimal);
    const Quantity* best = nullptr;
    for (const Quantity& q : all)
        if (is_temperature(q) && (best == nullptr || (best->unit[1] == 'f' && q.unit[1] == 'c'))) best = &q;
    FlashPoint flash;
    if (best == nullptr) {
        if (!says_not_applicable(v)) return std::nullopt;
        flash.not_applicable = true;
        return flash;
    }
    flash.celsius = celsius_of(*best);
    std::string sign = best->sign;
    if (sign.empty()) for (const Quantity& q : all) if (is_temperature(q) && !q.sign.empty()) sign = q.sign;
    if (sign.starts_with('>')) flash.sign = '>';
    if (sign.starts_with('<')) flash.sign = '<';
    return flash;
}

std::optional<Interval> boiling_of(std::string_view value, Decimal decimal) {
    const auto all = quantities(with_signs(fold(value)), decimal);
    std::vector<Quantity> celsius, fahrenheit;
    for (const Quantity& q : all)
        if (is_temperature(q)) (q.unit[1] == 'c' ? celsius : fahrenheit).push_back(q);
    const auto& used = celsius.empty() ? fahrenheit : celsius;
    if (used.empty()) return std::nullopt;
    Interval out;
    out.low = out.high = celsius_of(used[0]);
    if (used.size() > 1 && celsius_of(used[1]) > *out.low) out.high = celsius_of(used[1]);
    else if (used[0].sign.starts_with('>')) out.high.reset();
    else if (used[0].sign.starts_with('<')) out.low.reset();
    return out;
}

std::optional<Interval> vapour_pressure_of(std::string_view value, Decimal decimal) {
    struct Unit { std::string_view name; double hpa; };         // conversion factors: NIST Special Publication 811, appendix B.8, from memory
    static constexpr std::array<Unit, 11> units{{{"hpa", 1}, {"mbar", 1}, {"kpa", 10}, {"pa", 0.01}, {"mmhg", 1.33322}, {"torr", 1.33322}, {"bar", 1000}, {"psi", 68.9476}, {"psia", 68.9476}, {"atm", 1013.25}, {"mpa", 10000}}};
    const std::string v = with_signs(fold(value));
    const auto stated = quantities(v, decimal);
    for (std::size_t i = 0; i < stated.size(); ++i)
        for (const Unit& u : units) {
            const Quantity& q = stated[i];
            if (q.unit != u.name) continue;
            const auto hpa = [&](const Quantity& of) { return u.hpa == 1.33322 || u.hpa == 68.9476 ? rounded(of.value * u.hpa, std::string_view(v).substr(of.begin, of.end - of.begin)) : of.value * u.hpa; };
            const bool range = i + 1 < stated.size() && stated[i + 1].unit == q.unit && stated[i + 1].value > q.value && v.substr(q.end, stated[i + 1].begin - q.end).find('-') != std::string::npos;
            return range ? Interval{hpa(q), hpa(stated[i + 1])} : signed_interval(q, hpa(q));
        }
    return std::nullopt;
}

std::optional<Density> density_of(std::string_view value, std::string_view qualifier, Decimal decimal) {
    struct Unit { std::string_view name; double g_ml; };        // as above; the gallon is that of the United States
    static constexpr std::array<Unit, 11> units{{{"g/cm3", 1}, {"g/ml", 1}, {"g/cc", 1}, {"kg/l", 1}, {"kg/dm3", 1}, {"kg/m3", 0.001}, {"g/l", 0.001}, {"g/dm3", 0.001}, {"lb/gal", 0.1198264}, {"lbs/gal", 0.1198264}, {"g/cm", 1}}};
    Density out;
    std::vector<Quantity> plain_numbers, with_unit;
    const std::string v = with_signs(fold(value));
    const auto stated = quantities(v, decimal);
    const bool metric = std::any_of(stated.begin(), stated.end(), [](const Quantity& q) { return q.unit.starts_with("g/") || q.unit.starts_with("kg/"); });
    for (const Quantity& q : stated) {
        if (metric && q.unit.ends_with("/gal")) continue;           // "0.98 g/ml (8.2 lb/gal)" is one density
        if (is_temperature(q)) { if (!out.celsius) out.celsius = celsius_of(q); continue; }
        for (const Unit& u : units)
            if (q.unit == u.name) { with_unit.push_back(q); with_unit.back().value *= u.g_ml; }
        // "(water = 1)" is no value
        const bool equals = q.begin > 1 && v.substr(0, q.begin).find_last_not_of(' ') != std::string::npos && v[v.substr(0, q.begin).find_last_not_of(' ')] == '=';
        if (q.unit.empty() && !equals && q.value > 0.3 && q.value < 4) plain_numbers.push_back(q);
    }
    for (const Quantity& q : quantities(fold(qualifier), decimal))
        if (is_temperature(q) && !out.celsius) out.celsius = celsius_of(q);
    const auto& used = with_unit.empty() ? plain_numbers : with_unit;
    if (used.empty()) return std::nullopt;
    const bool two = used.size() > 1 && used[1].value > used[0].value;
    out.g_ml = two ? Interval{used[0].value, used[1].value} : signed_interval(used[0], used[0].value);
    return out;
}

std::optional<Voc> voc_of(std::string_view value, std::string_view qualifier, Decimal decimal) {
    const std::string v = with_signs(fold(value));
    const auto stated = quantities(v, decimal);
    const bool metric = std::any_of(stated.begin(), stated.end(), [](const Quantity& q) { return q.unit == "g/l"; });
    for (const Quantity& q : stated) {
        if (metric && q.unit.ends_with("/gal")) continue;           // "4.98 lb/gal (597 g/l)"
        if (q.unit == "%" || q.unit == "g/l" || q.unit == "lb/gal" || q.unit == "lbs/gal") return Voc{signed_interval(q, q.value), q.unit == "lbs/gal" ? "lb/gal" : q.unit};
        if (q.unit == "kg/l" || q.unit == "g/ml" || q.unit == "g/cm3") return Voc{signed_interval(q, q.value * 1000), "g/l"};
    }
    // the unit may stand with the label: "VOC (g/l): 420"
    const std::string k = fold(qualifier);
    const auto all = quantities(v, decimal);
    if (!all.empty() && all[0].unit.empty()) {
        if (k.find("g/l") != std::string::npos) return Voc{signed_interval(all[0], all[0].value), "g/l"};
        if (k.find('%') != std::string::npos) return Voc{signed_interval(all[0], all[0].value), "%"};
    }
    return std::nullopt;
}

std::optional<std::string> date_of(std::string_view text, bool month_first) {
    const std::string s = fold(text);
    std::vector<Number> n;
    for (std::size_t i = 0; i < s.size();) {
        if (!is_digit(s[i])) { ++i; continue; }
        std::size_t end = i;
        int value = 0;
        while (end < s.size() && is_digit(s[end]) && end - i < 8) value = value * 10 + (s[end++] - '0');
        n.push_back({static_cast<double>(value), i, end});
        i = end;
    }
    const auto as_int = [&](std::size_t i) { return static_cast<int>(n[i].value); };
    const auto length = [&](std::size_t i) { return n[i].end - n[i].begin; };
    const auto between = [&](std::size_t i) { return std::string_view(s).substr(n[i].end, n[i + 1].begin - n[i].end); };
    const auto joint = [](std::string_view b) {
        std::string marks;
        for (const char c : b) if (c != ' ') marks += c;
        return marks == "." || marks == "/" || marks == "-";
    };
    for (std::size_t i = 0; i + 2 < n.size(); ++i) {
        if (!joint(between(i)) || !joint(between(i + 1))) continue;
        if (length(i) == 4) { if (auto d = iso({as_int(i), as_int(i + 1), as_int(i + 2)})) return d; }
        if (length(i) > 2 || length(i + 1) > 2 || (length(i + 2) != 4 && length(i + 2) != 2)) continue;
        int day = as_int(i), month = as_int(i + 1);
        if (month > 12 || (month_first && day <= 12 && between(i).find('.') == std::string_view::npos)) std::swap(day, month);
        if (auto d = iso({as_int(i + 2), month, day})) return d;
    }
    // "3 March 2024", "March 3, 2024", "3. März 2024", "3 de marzo de 2024", "Mar-03-2024", "03-Mar-2024"
    for (const Phrase& p : phrases("month")) {
        std::size_t at = find_word(s, p.folded);
        std::size_t length_of_name = p.folded.size();
        if (at == std::string::npos && p.folded.size() > 3) {
            at = find_word(s, std::string_view(p.folded).substr(0, 3));
            length_of_name = 3;
        }
        if (at == std::string::npos) continue;
        const int month = static_cast<int>(p.rank) + 1;
        int day = 0, year = 0;
        for (std::size_t i = 0; i < n.size(); ++i) {
            const bool before = n[i].end <= at && at - n[i].end <= 6, after = n[i].begin >= at + length_of_name && n[i].begin - at - length_of_name <= 14;
            if (length(i) <= 2 && (before || after) && day == 0) day = as_int(i);
            else if (length(i) == 4 && (after || (before && at - n[i].end <= 3))) year = as_int(i);
        }
        if (year > 0) if (auto d = iso({year, month, day == 0 ? 1 : day})) return d;
    }
    return std::nullopt;
}

}  // namespace hw::sheet
