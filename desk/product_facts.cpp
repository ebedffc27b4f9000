#include "desk/product_facts.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>

#include "atlas/glove_words.hpp"
#include "atlas/protect_figures.hpp"
#include "core/chem/composition.hpp"
#include "desk/digest.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"
#include "desk/sheet_facts.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

std::string small(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

/// Parts between a separator, without empty ones and blanks around.
std::vector<std::string> parts_of(std::string_view text, std::string_view separators) {
    std::vector<std::string> out;
    for (std::size_t from = 0; from <= text.size();) {
        const auto cut = std::min(text.find_first_of(separators, from), text.size());
        std::string_view part = text.substr(from, cut - from);
        while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
        while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
        if (!part.empty()) out.emplace_back(part);
        from = cut + 1;
    }
    return out;
}

bool names_any(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(), [&](std::string_view w) { return text.find(w) != std::string_view::npos; });
}

/// Sentences: a full stop before a blank and a capital letter or a line that begins anew with a heading ("Eyes:") ends one.
std::vector<std::string> sentences_of(std::string_view text) {
    std::string flat;
    for (const auto& line : parts_of(text, "\n")) {
        const auto colon = line.find(':');
        const bool heading = colon != std::string::npos && colon < 40 && std::isupper(static_cast<unsigned char>(line[0])) != 0;
        if (heading && !flat.empty() && flat.back() != '.') flat += '.';
        flat += (flat.empty() ? "" : " ") + line;
    }
    std::vector<std::string> out;
    std::string one;
    for (std::size_t i = 0; i < flat.size(); ++i) {
        one += flat[i];
        const bool ends = flat[i] == '.' && (i + 2 >= flat.size() || (flat[i + 1] == ' ' && (std::isupper(static_cast<unsigned char>(flat[i + 2])) != 0 || static_cast<unsigned char>(flat[i + 2]) >= 0xc3)));
        if (!ends) continue;
        const auto trimmed = parts_of(one, "\n");
        if (!trimmed.empty()) out.push_back(trimmed[0]);
        one.clear();
    }
    if (!parts_of(one, "\n").empty()) out.push_back(parts_of(one, "\n")[0]);
    return out;
}

/// The number before a unit: "0.4" of "thickness 0,4 mm". Nothing when there is none.
std::optional<double> number_before(std::string text, std::string_view unit, bool* over = nullptr) {
    std::replace(text.begin(), text.end(), ',', '.');
    for (auto at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
        std::size_t end = at;
        while (end > 0 && text[end - 1] == ' ') --end;
        std::size_t from = end;
        while (from > 0 && (std::isdigit(static_cast<unsigned char>(text[from - 1])) != 0 || text[from - 1] == '.')) --from;
        if (from == end || std::isdigit(static_cast<unsigned char>(text[from])) == 0) continue;
        // Of a range the lower end counts.
        constexpr std::string_view blanks = " ", dashes[] = {"-", "–"};
        for (const auto dash : dashes) {
            const auto last = text.find_last_not_of(blanks, from - 1);
            if (from == 0 || last == std::string::npos || last + 1 < dash.size() || text.compare(last + 1 - dash.size(), dash.size(), dash) != 0) continue;
            const auto digit = text.find_last_not_of(blanks, last - dash.size());
            if (last < dash.size() || digit == std::string::npos || std::isdigit(static_cast<unsigned char>(text[digit])) == 0) continue;
            const auto before = text.find_last_not_of("0123456789.", digit);
            from = text.find_first_of("0123456789", before == std::string::npos ? 0 : before + 1);
        }
        // The words that belong to this number end where another number or clause does.
        const auto clause = from == 0 ? std::string::npos : text.find_last_of("0123456789;", from - 1);
        const std::size_t begins = std::max(from > 24 ? from - 24 : 0, clause == std::string::npos ? 0 : clause + 1);
        const auto near = std::string_view(text).substr(begins, from - begins);
        // "Less than" promises nothing: no number is told.
        if (over != nullptr && names_any(near, {"<", "less than", "under", "weniger als", "unter", "moins de", "menos de", "≤"})) return std::nullopt;
        if (over != nullptr) *over = names_any(near, {">", "above", "over", "at least", "mehr als", "über", "plus de", "supérieur", "más de", "superior", "≥"});
        return std::strtod(text.c_str() + from, nullptr);
    }
    return std::nullopt;
}

SaidBy said_by(FactFrom from) {
    switch (from) {
        case FactFrom::Sheet: return SaidBy::Sheet;
        case FactFrom::Xml: return SaidBy::Xml;
        case FactFrom::Typed: return SaidBy::Typed;
        case FactFrom::Measured: return SaidBy::Measured;
    }
    return SaidBy::Sheet;
}

ProductFact taken(const SheetFact& f) { return {f.key, f.name, f.value, f.low, f.high, f.unit, f.value.empty() ? SaidBy::Nobody : said_by(f.from), f.place.page, f.place.words, f.look}; }

constexpr std::pair<std::string_view, std::string_view> wanted[] = {
    {"signal_word", "Signal word"}, {"codes", "Codes"}, {"state", "State"}, {"ph", "pH"}, {"density", "Density"}, {"flash_point", "Flash point"}, {"boiling", "Boils at"}, {"vapour_pressure", "Vapour pressure"},
    {"voc", "Volatile organic compounds"}, {"gloves", "Gloves"}, {"breathing", "Breathing"}, {"incompatible", "Must not meet"}, {"storage", "Storage"}, {"disposal", "Disposal"}, {"un", "UN number"}};

/// The newest sheet of a liquid: by revision date, then by arrival.
Result<std::optional<SheetRow>> newest_sheet(const std::string& liquid, Ports& ports) {
    std::optional<SheetRow> best;
    if (ports.sheets == nullptr || liquid.empty()) return best;
    constexpr int page = 200;
    for (std::string after;;) {
        HW_TRY(rows, ports.sheets->sheets({after, page}));
        for (const auto& row : rows)
            if (row.liquid == liquid && (!best || std::pair(row.revision_date, row.arrived_at) > std::pair(best->revision_date, best->arrived_at))) best = row;
        if (static_cast<int>(rows.size()) < page) return best;
        after = rows.back().id;
    }
}

ProductLimit limit_from(const SheetFact& f, const std::vector<SheetIngredient>& ingredients) {
    ProductLimit out;
    out.substance = f.name;
    out.value = f.low.value_or(0);
    out.unit = f.unit;
    out.page = f.place.page;
    const bool says_where = f.note.empty();
    out.jurisdiction = says_where ? f.value.substr(0, f.value.find(',')) : "";
    out.span = names_any(f.value, {"for a short time"}) ? "short" : names_any(f.value, {"never over"}) ? "ceiling" : "shift";
    for (const auto& i : ingredients)
        if (i.name.value == f.name || i.cas.value == f.name) out.cas = i.cas.value;
    if (out.cas.empty() && chem::parse_cas(f.name).ok()) out.cas = f.name;
    return out;
}

void of_shelf(const Liquid& liquid, ProductFacts& out) {
    for (const auto& i : liquid.ingredients)
        out.ingredients.push_back({i.name, i.cas, i.content_pct, i.content_to_pct ? i.content_to_pct : i.content_pct, "", SaidBy::Shelf, 0});
}

void of_sheet(const DigestAnswer& sheet, ProductFacts& out) {
    for (const auto& g : sheet.groups)
        for (const auto& f : g.facts) {
            if (f.key.rfind("limits[", 0) == 0) {
                if (f.low && !f.unit.empty()) out.limits.push_back(limit_from(f, sheet.ingredients));
                continue;
            }
            for (auto& mine : out.facts)
                if (mine.key == f.key) mine = taken(f);
        }
    for (const auto& i : sheet.ingredients)
        if (!i.removed) out.ingredients.push_back({i.name.value, i.cas.value, i.share.low, i.share.high, i.codes, said_by(i.share.value.empty() ? i.name.from : i.share.from), i.place.page});
    for (const auto& section : sheet.sections) {
        if (section.number != 8) continue;
        out.gloves = gloves_in(section.text, section.page);
        const auto put = [&](std::string_view key, const std::string& words) {
            for (auto& mine : out.facts)
                if (mine.key == key && !words.empty()) mine = {mine.key, mine.name, words, std::nullopt, std::nullopt, "", SaidBy::Sheet, section.page, words, false};
        };
        put("breathing", breathing_in(section.text));
        put("gloves", out.gloves.empty() ? "" : out.gloves.front().words);
    }
}

std::string sheet_words(const ProductFacts& f, Ports& ports) {
    const std::string name = f.liquid.name.empty() ? std::string("It") : f.liquid.name;
    if (f.sheet.empty()) return "No data sheet of " + name + " is kept here: get it from the supplier before the job.";
    if (f.revision_date.empty()) return "The data sheet of " + name + " carries no date: ask for a newer one.";
    const auto& years = row_of(atlas::protect_figures, "sheet_years");
    const auto then = parse_moment(f.revision_date), now = parse_moment(ports.clock.now_utc());
    constexpr double year_s = 365.25 * 86400;
    const bool old = then && now && static_cast<double>(*now - *then) > years.value_1 * year_s;
    return "Data sheet of " + f.revision_date + (old ? ", older than " + fixed(years.value_1, 0) + " years: ask for a newer one." : ".");
}

}  // namespace

std::vector<GloveSaid> gloves_in(std::string_view section_8, int page) {
    std::vector<GloveSaid> out;
    for (const auto& sentence : sentences_of(section_8)) {
        if (!names_any(small(sentence), {"glove", "handschuh", "gant", "guante"})) continue;
        for (const auto& clause : parts_of(sentence, ";")) {
            const std::string words = small(clause);
            if (names_any(words, {"not suitable", "unsuitable", "not recommended", "do not use", "not be used", "not resistant", "nicht geeignet", "ungeeignet", "nicht verwenden", "nicht beständig", "ne pas utiliser", "ne conviennent pas",
                                  "ne convient pas", "déconseill", "inadapté", "no utilizar", "no usar", "no son adecuad", "no es adecuad", "inadecuad"}))
                continue;
            std::vector<std::pair<std::size_t, const atlas::GloveWordsRow*>> named;
            for (const auto& row : atlas::glove_words) {
                auto first = std::string::npos;
                for (const auto& fragment : parts_of(row.fragments, ";")) first = std::min(first, words.find(fragment));
                if (first != std::string::npos) named.emplace_back(first, &row);
            }
            std::sort(named.begin(), named.end());
            for (std::size_t i = 0; i < named.size(); ++i) {
                GloveSaid g;
                g.material = std::string(named[i].second->plain_name);
                // One material: the clause is about it. Several: each has what follows its name.
                const std::string mine = named.size() == 1 ? words : words.substr(named[i].first, i + 1 < named.size() ? named[i + 1].first - named[i].first : std::string::npos);
                g.thickness_mm = number_before(mine, "mm");
                g.breakthrough_min = number_before(mine, "min", &g.at_least);
                g.words = sentence;
                g.page = page;
                if (std::none_of(out.begin(), out.end(), [&](const GloveSaid& o) { return o.material == g.material; })) out.push_back(g);
            }
        }
    }
    return out;
}

std::string breathing_in(std::string_view section_8) {
    std::string out;
    for (const auto& sentence : sentences_of(section_8)) {
        const std::string words = small(sentence);
        if (!names_any(words, {"breathing", "respirat", "atemschutz", "atmung", "respirato", "respiratoire", "filtr", "filter"})) continue;
        if (out.size() + sentence.size() < 600) out += (out.empty() ? "" : " ") + sentence;
    }
    return out;
}

const ProductFact& fact_of(const ProductFacts& facts, std::string_view key) {
    static const ProductFact none;
    for (const auto& f : facts.facts)
        if (f.key == key) return f;
    return none;
}

bool has_code(const ProductFacts& facts, std::string_view code) {
    return std::any_of(facts.codes.begin(), facts.codes.end(), [&](const std::string& c) { return c == code || c.find(code) != std::string::npos; });
}

Result<ProductFacts> product_facts(const Liquid& given, Ports& ports) {
    ProductFacts out;
    HW_TRY(liquid, resolved(given, ports.store));
    out.liquid = liquid;
    for (const auto& [key, name] : wanted) out.facts.push_back({std::string(key), std::string(name), "", std::nullopt, std::nullopt, "", SaidBy::Nobody, 0, "", false});
    HW_TRY(row, newest_sheet(liquid.id, ports));
    if (row) {
        DigestRequest request;
        request.sheet = row->id;
        HW_TRY(sheet, digest(request, ports));
        out.sheet = row->id;
        out.sheet_name = sheet.name;
        of_sheet(sheet, out);
        for (const auto& g : sheet.groups)
            for (const auto& f : g.facts)
                if (f.key == "revision_date") out.revision_date = f.value;
    }
    if (out.ingredients.empty()) of_shelf(liquid, out);
    // What was read in the bottle itself outranks every sheet.
    if (liquid.read_ph)
        for (auto& f : out.facts)
            if (f.key == "ph") f = {f.key, f.name, plain(*liquid.read_ph), liquid.read_ph, liquid.read_ph, "pH", SaidBy::Measured, 0, "", false};
    if (liquid.stated_ph)
        for (auto& f : out.facts)
            if (f.key == "ph" && f.said_by == SaidBy::Nobody) f = {f.key, f.name, plain(*liquid.stated_ph), liquid.stated_ph, liquid.stated_ph_to ? liquid.stated_ph_to : liquid.stated_ph, "pH", SaidBy::Shelf, 0, "", false};
    for (const auto& code : parts_of(fact_of(out, "codes").value, ",;")) out.codes.push_back(code);
    for (const auto& f : out.facts)
        if (f.said_by == SaidBy::Nobody) out.nobody_says.push_back(f.name);
    if (out.limits.empty()) out.nobody_says.emplace_back("Limits in the air");
    out.sheet_sentence = sheet_words(out, ports);
    return out;
}

}  // namespace hw::desk
