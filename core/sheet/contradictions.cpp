#include "core/sheet/contradictions.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

#include "atlas/sheet_codes.hpp"
#include "atlas/sheet_rules.hpp"
#include "atlas/sheet_thresholds.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

std::string short_number(double x) {
    std::array<char, 32> buffer{};
    std::snprintf(buffer.data(), buffer.size(), "%g", x);
    return buffer.data();
}

/// Whether one of the codes of a use (atlas/sheet_codes.csv) begins this one. A use is "burns", "brought", or the code of a mixture that
/// a worse one of a component carries.
bool is(std::string_view use, std::string_view code) {
    return std::any_of(atlas::sheet_codes.begin(), atlas::sheet_codes.end(), [&](const auto& row) { return row.use == use && code.starts_with(row.code); });
}

/// Codes of a component that carry a code of the mixture: the same, or a worse one of its kind.
bool carried_by(std::string_view mixture, std::string_view component) { return component.substr(0, 4) == mixture.substr(0, 4) || is(mixture.substr(0, 4), component); }

}  // namespace

std::vector<Contradiction> contradictions_in(const Facts& facts) {
    std::vector<Contradiction> out;
    // 1. A pH that counts as corrosive without a statement that skin or eyes are burnt; that metals are (H290) says nothing of people.
    if (facts.ph && std::none_of(facts.codes.begin(), facts.codes.end(), [](const Fact<Code>& c) { return is("burns", c.value.code); })) {
        const Ph& ph = facts.ph->value;
        const double acid = rule("acid_ph"), alkali = rule("alkali_ph");
        // Where one end is open ("> 12") the one that is printed counts.
        const auto low = ph.low_ph ? ph.low_ph : ph.high_ph, high = ph.high_ph ? ph.high_ph : ph.low_ph;
        const bool sour = low && *low <= acid, sharp = high && *high >= alkali;
        const auto& s2 = facts.sections[1].text;
        const auto& s11 = facts.sections[10].text;
        const bool reason = says(fold(s2), "word", "reserve") || says(fold(s11), "word", "reserve");
        if ((sour || sharp) && !reason) {
            const std::string value = (!ph.high_ph ? "over " : !ph.low_ph ? "under " : "") + short_number(sharp ? *high : *low);
            const char* key = sharp ? "alkali_ph" : "acid_ph";
            const auto row = std::find_if(atlas::sheet_rules.begin(), atlas::sheet_rules.end(), [&](const auto& r) { return r.key == key; });
            out.push_back({"ph_without_corrosive",
                           Finding("ph_without_corrosive",
                                   "The sheet gives pH " + value + " but no statement that it burns skin or eyes. Treat it as if it did until the supplier explains.",
                                   {"pH at or below " + short_number(acid) + " or at or above " + short_number(alkali) + " counts as corrosive unless shown otherwise", std::string(row->source),
                                    std::string(row->locator), standing_of(row->standing), "pH " + value}),
                           {facts.ph->place}});
        }
    }
    // 2. Shares that cannot all be true.
    double sum = 0;
    std::vector<Place> places;
    for (const Ingredient& i : facts.ingredients)
        if (i.range && i.range->value.low_pct) { sum += *i.range->value.low_pct; places.push_back(i.range->place); }
    if (sum > 100.0001)
        out.push_back({"over_100",
                       Finding("over_100", "The least shares of the ingredients add up to " + short_number(sum) + " %. At least one of them is wrong.",
                               {"the parts of a mixture add up to 100 %", "own", "docs/reference/sheets.md", Standing::Derived, "sum of the lower ends " + short_number(sum) + " %"}),
                       places});
    // 3. Section 2 against section 3.
    const bool no_hazard = std::none_of(facts.codes.begin(), facts.codes.end(), [](const Fact<Code>& c) { return c.value.code[0] == 'H'; });
    const bool says_none = (facts.signal_word && facts.signal_word->value == "none") || says(fold(facts.sections[1].text), "value", "not_classified");
    if (no_hazard && says_none && facts.sections[1].title.page > 0)
        for (const Ingredient& i : facts.ingredients) {
            if (!i.range || !i.range->value.low_pct) continue;
            bool found = false;
            for (const Text& code : i.codes)
                for (const auto& row : atlas::sheet_thresholds) {
                    if (found || !code.value.starts_with(row.code) || *i.range->value.low_pct < row.least_pct) continue;
                    found = true;
                    out.push_back({"two_against_three",
                                   Finding("two_against_three",
                                           "Section 2 states no hazard, yet section 3 holds at least " + short_number(*i.range->value.low_pct) + " % of " + i.name.value + " (" + code.value + "). Ask the supplier which is right.",
                                           {"from " + short_number(row.least_pct) + " % of a component with " + std::string(row.code) + " the mixture is classified", std::string(row.source), std::string(row.locator),
                                            standing_of(row.standing), i.name.value + " " + short_number(*i.range->value.low_pct) + " %, " + code.value}),
                                   {facts.sections[1].title, i.place}});
                }
            if (found) break;
        }
    // The other way round: a lasting harm stated that no component brings along. Only where section 3 gives codes at all.
    const bool coded = !facts.ingredients.empty() && std::all_of(facts.ingredients.begin(), facts.ingredients.end(), [](const Ingredient& i) { return !i.codes.empty(); });
    if (coded)
        for (const Fact<Code>& c : facts.codes) {
            if (!is("brought", c.value.code)) continue;
            const bool carried = std::any_of(facts.ingredients.begin(), facts.ingredients.end(), [&](const Ingredient& i) {
                return std::any_of(i.codes.begin(), i.codes.end(), [&](const Text& t) { return carried_by(c.value.code, t.value); });
            });
            if (carried) continue;
            out.push_back({"two_against_three",
                           Finding("two_against_three", "Section 2 states " + c.value.code + ", yet nothing in section 3 carries it. An ingredient may be missing from the list.",
                                   {"a mixture takes this hazard from a component", "clp", "annex I part 3", Standing::FromMemory, c.value.code}),
                           {c.place}});
            break;
        }
    return out;
}

}  // namespace hw::sheet
