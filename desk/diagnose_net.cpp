#include "desk/diagnose_net.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "atlas/cause_contexts.hpp"
#include "atlas/cause_signs.hpp"
#include "atlas/causes.hpp"
#include "atlas/covering_groups.hpp"
#include "atlas/diagnosis_figures.hpp"
#include "atlas/sign_readings.hpp"
#include "atlas/signs.hpp"
#include "atlas/tannages.hpp"
#include "desk/rows.hpp"

namespace hw::desk {

namespace {

constexpr double most_1 = 0.995;                  // no entry of a table of estimates is certainty

/// The factors of one draw, log-uniform within the stated width, in the fixed order of the tables.
class Varied {
public:
    explicit Varied(std::uint64_t draw) : draw_(draw), from_(draw), width_(std::log(damage_figure("perturb"))) {}
    double operator()(double x) { return draw_ == 0 ? x : x * std::exp(width_ * (2 * (static_cast<double>(from_() >> 11U) * 0x1p-53) - 1)); }

private:
    std::uint64_t draw_;
    std::mt19937_64 from_;
    double width_;
};

std::string_view exposure_word(Exposure e) {
    for (const auto& [value, word] : EnumNames<Exposure>::names)
        if (value == e) return word;
    return {};
}

bool holds(const DamageContext& c, std::string_view word) {
    constexpr double new_until = 3, old_from = 15;
    if (word == "age_new") return c.age_years && *c.age_years < new_until;
    if (word == "age_mid") return c.age_years && *c.age_years >= new_until && *c.age_years < old_from;
    if (word == "age_old") return c.age_years && *c.age_years >= old_from;
    return word == c.group || word == c.tannage || word == exposure_word(c.exposure);
}

/// How much a reading speaks for its sign: the logarithm of the odds rises evenly through the turning point and stops at a limit.
/// The scatter of the reading makes the step wider.
belief::SeenSign read_as(std::size_t sign, double x, double turn, double step, double scatter) {
    const double loudest = std::log(damage_figure("reading_loudest"));
    const double speaks = std::clamp((x - turn) / std::hypot(step, scatter), -loudest, loudest);
    return speaks >= 0 ? belief::SeenSign{sign, 1, std::exp(-speaks)} : belief::SeenSign{sign, std::exp(speaks), 1};
}

template <class Rows>
std::size_t place_in(const Rows& rows, std::string_view key) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].key == key) return i;
    throw Bug("no row " + std::string(key));
}

}  // namespace

std::size_t cause_place(std::string_view key) { return place_in(atlas::causes, key); }
std::size_t sign_place(std::string_view key) { return place_in(atlas::signs, key); }

double damage_figure(std::string_view key) { return row_of(atlas::diagnosis_figures, key).limit_1; }
Basis basis_of_damage_figure(std::string_view key, std::string inputs) {
    const auto& row = row_of(atlas::diagnosis_figures, key);
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

belief::CauseNet cause_net(const DamageContext& context, std::uint64_t draw) {
    Varied varied(draw);
    belief::CauseNet net;
    std::vector<double> odds;
    for (const auto& row : atlas::causes) {
        const double p = std::min(most_1, varied(row.prior_pct) / 100);
        odds.push_back(p / (1 - p));
    }
    for (const auto& row : atlas::cause_contexts) {
        const double factor = varied(row.odds_1);
        if (holds(context, row.context)) odds[cause_place(row.cause)] *= factor;
    }
    for (double o : odds) net.prior_1.push_back(std::min(most_1, o / (1 + o)));
    for (const auto& row : atlas::signs) net.leak_1.push_back(std::min(most_1, varied(row.leak_pct) / 100));
    net.chance_1.assign(net.leak_1.size(), std::vector<double>(odds.size(), 0.0));
    for (const auto& row : atlas::cause_signs) net.chance_1[sign_place(row.sign)][cause_place(row.cause)] = std::min(most_1, varied(row.chance_pct) / 100);
    return net;
}

Result<std::string> covering_group(std::string_view key) {
    if (key.empty() || key == "unknown") return std::string();
    const auto* row = find_row(atlas::covering_groups, key);
    if (row == nullptr) return Error{ErrorCode::NotFound, "There is no covering \"" + std::string(key) + "\". Use a leather class, coated_textile or unknown.", "covering"};
    return std::string(row->group_key);
}

Result<std::vector<belief::SeenSign>> seen_signs(const DiagnoseRequest& request) {
    std::vector<belief::SeenSign> out;
    const auto met = [&](std::size_t sign) { return std::find_if(out.begin(), out.end(), [&](const belief::SeenSign& s) { return s.sign == sign; }); };
    for (std::size_t i = 0; i < request.saw.size(); ++i) {
        const auto& s = request.saw[i];
        if (find_row(atlas::signs, s.sign) == nullptr) return Error{ErrorCode::NotFound, "There is no sign \"" + s.sign + "\". hidewright diagnose --signs lists them.", "saw[" + std::to_string(i) + "].sign"};
        const std::size_t sign = sign_place(s.sign);
        if (const auto old = met(sign); old != out.end()) out.erase(old);
        out.push_back(s.saw == Saw::There ? belief::SeenSign{sign, 1, 0} : belief::SeenSign{sign, 0, 1});
    }
    for (std::size_t i = 0; i < request.readings.size(); ++i) {
        DamageReading r = request.readings[i];
        const std::string where = "readings[" + std::to_string(i) + "]";
        if (r.kind == "shrinkage") {
            const auto* tannage = find_row(atlas::tannages, request.tannage);
            if (tannage == nullptr || request.tannage == "unknown") return Error{ErrorCode::InvalidInput, "A shrinkage temperature needs the tannage that it is compared with: give tannage.", "tannage"};
            r.kind = "shrinkage_under";
            r.value_1 = tannage->shrinkage_c - r.value_1;
        }
        double usual_scatter = 0;
        bool any = false;
        if (r.kind == "surface_ph" && !r.control_1) {
            r.control_1 = damage_figure("usual_ph");
            usual_scatter = damage_figure("usual_ph_scatter");
        }
        for (const auto& row : atlas::sign_readings) {
            if (row.kind != r.kind) continue;
            any = true;
            double x = r.value_1;
            if (row.takes != "value") {
                if (!r.control_1) return Error{ErrorCode::InvalidInput, "This reading tells nothing without the same on a sheltered place.", where + ".control_1"};
                constexpr double least = 0.5;     // s or GU: below it a stop-watch or gloss meter tells nothing
                if (row.takes == "less_control") x = r.value_1 - *r.control_1;
                else if (row.takes == "below_control") x = *r.control_1 - r.value_1;
                else if (row.takes == "ratio_off") x = std::abs(r.value_1 / std::max(least, *r.control_1) - 1);
                else x = std::log(std::max(least, *r.control_1) / std::max(least, r.value_1));
            }
            const std::size_t sign = sign_place(row.sign);
            if (met(sign) == out.end()) out.push_back(read_as(sign, x, row.turn_1, row.step_1, std::hypot(row.scatter_1, usual_scatter)));
        }
        if (!any) return Error{ErrorCode::NotFound, "No sign is read from \"" + r.kind + "\".", where + ".kind"};
    }
    // Alkali hides acid: where the surface reads alkaline, nobody can say that it is not acid beneath.
    const auto high = met(sign_place("ph_high")), low = met(sign_place("ph_low"));
    if (high != out.end() && low != out.end() && high->if_there > high->if_not) out.erase(low);
    return out;
}

}  // namespace hw::desk
