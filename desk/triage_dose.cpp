// How much alkali or acid, by what was said; and the question that judge can go on with. docs/theory/triage-dose.md
#include <cmath>

#include "atlas/triage_classes.hpp"
#include "atlas/triage_contents.hpp"
#include "atlas/triage_figures.hpp"
#include "atlas/triage_reserves.hpp"
#include "desk/rules.hpp"
#include "desk/triage_case.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// A factor known to lie between two figures in nine cases of ten: log-normal.
struct Factor {
    double low = 1, high = 1;
    [[nodiscard]] double middle() const { return std::sqrt(low * high); }
    [[nodiscard]] double spread() const { return std::log(high / low) / (2 * z_90); }
    static constexpr double z_50 = 0.674490, z_90 = 1.644854;    // normal deviates of the central half and nine tenths
};

Factor figure(std::string_view key) {
    const auto& row = triage_row(atlas::triage_figures, key);
    return {row.low_1, row.high_1};
}

Band product_of(const std::vector<Factor>& up, const std::vector<Factor>& down) {
    double middle = 1, square = 0;
    for (const auto& f : up) middle *= f.middle(), square += f.spread() * f.spread();
    for (const auto& f : down) middle /= f.middle(), square += f.spread() * f.spread();
    const double s = std::sqrt(square);
    return {middle, middle * std::exp(-Factor::z_50 * s), middle * std::exp(Factor::z_50 * s), middle * std::exp(-Factor::z_90 * s), middle * std::exp(Factor::z_90 * s), "mmol/m²"};
}

/// Value and half of the band; the band is skew, so that the figures are for show and the bands above are worked out without them.
Number shown(const Factor& f, std::string unit, Standing standing, std::string_view what) {
    return number((f.low + f.high) / 2, (f.high - f.low) / 2, std::move(unit), standing, std::string(what));
}

const atlas::TriageReservesRow* reserve_of(const TriageCase& c) {
    const atlas::TriageReservesRow* out = nullptr;
    for (const auto key : classes_of(c))
        for (const auto& row : atlas::triage_reserves)
            if (row.product == key && (out == nullptr || row.high_mmol_g > out->high_mmol_g)) out = &row;
    return out;
}

/// Grams that were laid on, diluted or not.
std::optional<Factor> amount_of(const TriageCase& c) {
    const auto* dose = c.given("dose");
    if (dose == nullptr || !dose->number_1) return std::nullopt;
    const Factor told = figure("told_amount");
    if (dose->unit == "ml") return Factor{*dose->number_1 * told.low, *dose->number_1 * told.high};
    const GramsPer per = grams_per(dose->unit == "wipes" ? Amount::ClothWipe : Amount::Sprays);
    // Told count and grams each are uncertain by themselves.
    const double s = std::hypot(told.spread(), Factor{per.low_g, per.high_g}.spread()), middle = *dose->number_1 * std::sqrt(per.low_g * per.high_g);
    return Factor{middle * std::exp(-Factor::z_90 * s), middle * std::exp(Factor::z_90 * s)};
}

std::optional<Factor> area_of(const TriageCase& c) {
    const auto area = c.area_m2();
    if (!area) return std::nullopt;
    const Factor told = figure("told_area"), hand = figure("hand");
    const double s = c.given("area")->unit == "cm2" ? told.spread() : std::hypot(told.spread(), hand.spread());
    return Factor{*area * std::exp(-Factor::z_90 * s), *area * std::exp(Factor::z_90 * s)};
}

Factor parts_of_all(const TriageCase& c) {
    const auto* neat = c.given("neat");
    if (neat == nullptr || !neat->number_1) return {1, 1};
    const Factor told = figure("told_dilution");
    return {(1 + *neat->number_1) * told.low, (1 + *neat->number_1) * told.high};
}

std::string range_words(const Band& b) {
    const auto digits = [](double v) { return fixed(v, v < 1 ? 2 : v < 10 ? 1 : 0); };
    return digits(b.low_90) + " to " + digits(b.high_90) + " " + b.unit;
}

}  // namespace

bool has_liquid(const TriageCase& c) {
    if (hands_off(c)) return false;
    for (const auto key : classes_of(c)) {
        const auto& row = triage_row(atlas::triage_classes, key);
        const auto kind = row.kind;
        if (!row.family.empty() && kind != "none" && kind != "unknown" && kind != "steam" && kind != "abrasive" && kind != "oil") return true;
    }
    return false;
}

TriageDose dose_of(const TriageCase& c) {
    TriageDose d;
    const auto* row = has_liquid(c) ? reserve_of(c) : nullptr;
    d.basis = {"Amount times reserve, over the area, less what was wiped off", "own", "docs/theory/triage-dose.md", Standing::Estimate, ""};
    if (row == nullptr) {
        d.sentence = c.told("product") ? "No figure: what was said gives no amount of alkali or acid to reckon with." : "No figure yet: it is not said what was put on it.";
        return d;
    }
    const auto amount = amount_of(c), area = area_of(c);
    if (!amount || !area) {
        d.sentence = std::string("No figure yet: say ") + (!amount && !area ? "how much, and on how large a place." : !amount ? "how much it was." : "how large the place is.");
        return d;
    }
    const bool wiped = !c.said("wiped", "not_wiped");
    const Factor reserve{row->low_mmol_g, row->high_mmol_g}, parts = parts_of_all(c), off = figure("wiped"), stays{1 - off.high / 100, 1 - off.low / 100};
    const Factor product{amount->low / parts.high, amount->high / parts.low};
    d.known = true;
    d.alkali = row->side == "alkali";
    d.applied = product_of({*amount, reserve}, {parts, *area});
    d.left = wiped ? product_of({*amount, reserve, stays}, {parts, *area}) : d.applied;
    d.product = shown(product, "g", Standing::Estimate, "told, and what tells of told amounts");
    d.area = shown({area->low * 1e4, area->high * 1e4}, "cm²", Standing::Estimate, "told, and what tells of told areas");
    d.reserve = shown(reserve, "mmol/g", standing_of(row->standing), "contents that are usual for the class");
    d.wiped = wiped ? shown(off, "%", Standing::Estimate, "what a cloth takes") : number(0, 0, "%", Standing::Estimate, "not wiped");
    d.sentence = std::string("About ") + range_words(d.left) + " of " + (d.alkali ? "alkali" : "acid") + " may be left, nine times in ten, by the usual figures of " + std::string(triage_row(atlas::triage_classes, row->product).plain_name) + ". No reading stands behind it.";
    d.basis.inputs = std::string(row->product) + ", amount, dilution, area, wiping";
    return d;
}

JudgeRequest judge_from(const TriageCase& c) {
    JudgeRequest j;
    if (!has_liquid(c)) return j;
    const auto named = classes_of(c);
    const auto& row = triage_row(atlas::triage_classes, named[0]);
    j.liquid.name = std::string(row.plain_name) + ", by its class";
    j.liquid.family = std::string(row.family);
    j.liquid.standing = Standing::Estimate;
    for (const auto& part : atlas::triage_contents)
        if (part.what == named[0] && !std::isnan(part.low_pct)) j.liquid.ingredients.push_back({std::string(part.ingredient), "", part.low_pct, std::nullopt, part.high_pct});
    if (!std::isnan(row.low_ph)) j.liquid.stated_ph = row.low_ph, j.liquid.stated_ph_to = row.high_ph;
    if (const auto* label = c.given("label"); label != nullptr && label->number_1) j.liquid.stated_ph = *label->number_1, j.liquid.stated_ph_to.reset();
    j.leather.leather_class = c.said("surface", "velvety") ? "nubuck" : c.said("surface", "varied") ? "aniline" : c.said("surface", "even_shine") ? (c.in_car() ? "pigmented_automotive" : "pigmented_furniture") : "aniline";
    j.leather.tannage = "unknown";
    j.leather.name = "as the caller describes it";
    const auto* neat = c.given("neat");
    if (neat != nullptr && neat->number_1) j.use.parts_water = *neat->number_1, j.said.emplace_back("use.parts_water");
    if (const auto* dose = c.given("dose"); dose != nullptr && dose->number_1) {
        j.use.dose.amount = dose->unit == "ml" ? Amount::Grams : dose->unit == "wipes" ? Amount::ClothWipe : Amount::Sprays;
        j.use.dose.count = *dose->number_1;
        j.said.emplace_back("use.dose.amount");
        j.said.emplace_back("use.dose.count");
    }
    if (const auto area = c.area_m2()) j.use.dose.area_cm2 = *area * 1e4, j.said.emplace_back("use.dose.area_cm2");
    if (const auto* left = c.given("left_on"); left != nullptr && left->number_1) j.use.dwell_s = std::max(1.0, *left->number_1 * 60), j.said.emplace_back("use.dwell_s");
    if (c.said("wiped", "not_wiped")) j.use.wiped_off_pct = 0, j.said.emplace_back("use.wiped_off_pct");
    j.title = c.request->name;
    return j;
}

}  // namespace hw::desk
