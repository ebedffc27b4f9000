#include "core/chem/drying_path.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

constexpr double least_left_1 = 0.02;
constexpr double longest_step = 0.2;      // in ln w
constexpr double shortest_step = 1e-5;
constexpr double step_error = 1e-3;       // Euler against midpoint, relative to all that can leave; the midpoint errs far less

/// A volatile system that is in the liquid.
struct Leaver {
    std::size_t system = 0;
    double pace = 0;                      ///< drying time over loss time of the neutral form
    double amount = 0;                    ///< mol per kg of the first water
    double first = 0;
};

std::vector<Leaver> leavers(const Totals& liquid, Temperature water, const DryingFilm& film) {
    std::vector<Leaver> out;
    for (std::size_t s = 0; s < liquid.system_mol_kg.size(); ++s) {
        const auto row = volatile_of_system(acid_systems()[s].name);
        if (!row || acid_systems()[s].name == "carbonate" || !(liquid.system_mol_kg[s] > 0)) continue;
        const double pace = film.dries / loss_time(*row, water, film.thickness, film.sides);
        out.push_back({s, pace, liquid.system_mol_kg[s], liquid.system_mol_kg[s]});
    }
    return out;
}

Totals concentrated(const Totals& liquid, const std::vector<Leaver>& leaving, double left) {
    Totals t = liquid;
    for (const Leaver& l : leaving) t.system_mol_kg[l.system] = l.amount;
    for (double* v : {&t.sodium_mol_kg, &t.potassium_mol_kg, &t.calcium_mol_kg, &t.magnesium_mol_kg, &t.chloride_mol_kg, &t.other_anion_mol_kg, &t.other_cation_mol_kg}) *v /= left;
    for (double& v : t.system_mol_kg) v /= left;
    return t;
}

/// Uncharged share of a system in a solved liquid.
double neutral_share(const Equilibrium& e, std::size_t system) {
    double neutral = 0, all = 0;
    for (const Form& f : e.forms) {
        if (f.system != system) continue;
        all += f.mol_kg;
        if (f.charge == 0) neutral += f.mol_kg;
    }
    return all > 0 ? neutral / all : 0;
}

Result<Done> falling(const std::vector<double>& left) {
    for (std::size_t i = 0; i < left.size(); ++i)
        if (!(left[i] <= 1 && left[i] >= least_left_1) || (i > 0 && !(left[i] < left[i - 1])))
            return Error{ErrorCode::InvalidInput, "Give shares of water left that fall, between 1 and 0.02.", "left[" + std::to_string(i) + "]"};
    return Done{};
}

class Path {
public:
    Path(const Totals& liquid, const Conditions& conditions, const DryingFilm& film)
        : liquid_(liquid), open_(conditions), leaving_(leavers(liquid, conditions.water, film)) {
        open_.open_to_air = true;
        open_.solids = false;
    }

    Result<Equilibrium> solve() const { return equilibrium(concentrated(liquid_, leaving_, left_), open_); }

    /// Dries on to a share of water, midpoint rule in ln w, the step held so that Euler's rule would nearly do.
    Result<Done> dry_to(double target) {
        while (left_ > target * (1 + 1e-12)) {
            HW_TRY(here, solve());
            const auto start = leaving_;
            const double left = left_, whole = std::log(left / target);
            for (bool good = false; !good;) {
                const double step = std::min(whole, step_);
                lose(here, start, step);
                const auto euler = leaving_;
                lose(here, start, step / 2);
                left_ = left * std::exp(-step / 2);
                HW_TRY(middle, solve());
                lose(middle, start, step);
                left_ = step == whole ? target : left * std::exp(-step);
                const double error = difference(euler) / step_error;
                good = error <= 1 || step <= shortest_step;
                step_ = std::clamp(step * (error > 0 ? 0.9 / std::sqrt(error) : 2), std::max(shortest_step, step / 5), std::min(longest_step, 2 * step_));
            }
        }
        return Done{};
    }

    DryingState state(const Equilibrium& e) const {
        DryingState out;
        out.water_left_1 = left_;
        out.ph = e.ph;
        out.ionic_strength_mol_kg = e.ionic_strength_mol_kg;
        out.beyond_model = e.beyond_model;
        out.liquid = concentrated(liquid_, leaving_, left_);
        out.liquid.system_mol_kg[system_index("carbonate")] = e.carbonate_mol_kg;
        out.system_left_1.assign(liquid_.system_mol_kg.size(), 1.0);
        for (const Leaver& l : leaving_) out.system_left_1[l.system] = l.amount / l.first;
        return out;
    }

private:
    double difference(const std::vector<Leaver>& other) const {
        double all = 0, worst = 0;
        for (std::size_t i = 0; i < leaving_.size(); ++i) {
            all += leaving_[i].first;
            worst = std::max(worst, std::abs(leaving_[i].amount - other[i].amount));
        }
        return all > 0 ? worst / all : 0;
    }
    void lose(const Equilibrium& e, const std::vector<Leaver>& start, double step) {
        for (std::size_t i = 0; i < leaving_.size(); ++i)
            leaving_[i].amount = start[i].amount * std::exp(-start[i].pace * neutral_share(e, start[i].system) * step);
    }

    const Totals& liquid_;
    Conditions open_;
    std::vector<Leaver> leaving_;
    double left_ = 1, step_ = 1e-3;
};

}  // namespace

Result<std::vector<DryingState>> drying_path(const Totals& liquid, const Conditions& conditions, const DryingFilm& film, const std::vector<double>& left) {
    HW_TRY(ok, falling(left));
    static_cast<void>(ok);
    Path path(liquid, conditions, film);
    std::vector<DryingState> out;
    for (double w : left) {
        if (w == 1) {
            // As it is laid on: closed or open as the caller says.
            HW_TRY(whole, equilibrium(liquid, conditions));
            out.push_back(path.state(whole));
            continue;
        }
        HW_TRY(dried, path.dry_to(w));
        static_cast<void>(dried);
        HW_TRY(e, path.solve());
        out.push_back(path.state(e));
    }
    return out;
}

}  // namespace hw::chem
