#include "core/chem/equilibrium.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "atlas/complexes.hpp"
#include "atlas/constants.hpp"
#include "atlas/solids.hpp"
#include "core/chem/activity.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

constexpr double ln10 = std::numbers::ln10;
constexpr double beyond_model_mol_kg = 3.0;
// Polyborates: 2 B(OH)3 and 3 B(OH)3, each losing one proton. @source nist46, log K at I = 0
constexpr double log_k_diborate = -9.306, log_k_triborate = -7.306;

enum Metal : std::size_t { Calcium, Magnesium, Sodium, Potassium, metal_count };
constexpr std::array<std::string_view, metal_count> metal_names{"calcium", "magnesium", "sodium", "potassium"};
constexpr std::array<int, metal_count> metal_charge{2, 2, 1, 1};
// log K of CaOH+ and MgOH+ from M + OH. @source nist46
constexpr std::array<double, metal_count> log_k_hydroxide{1.22, 2.58, -99, -99};

struct Complex {
    std::size_t metal = 0;
    int protons_lost = 0;
    int charge = 0;
    double log_beta = 0;
    double beta = 0;  ///< conditional, set with the activity coefficients
};

/// One system that is present.
struct Part {
    std::size_t system = 0;
    double total = 0;
    int top = 0;
    bool borate = false, carbonate = false, ammonia = false;
    std::vector<double> pk;
    std::vector<double> eps_sodium, eps_potassium, eps_chloride;  ///< per form
    std::vector<double> log_gamma;                                ///< per form
    std::vector<double> k;                                        ///< conditional for activity of H+
    std::vector<Complex> complexes;
    double di = 0, tri = 0;                                       ///< conditional polyborate constants
};

class Problem {
public:
    Problem(const Totals& liquid, const Conditions& conditions) : c_(conditions), liquid_(liquid) {
        a_ = debye_huckel_a(c_.water);
        pkw_ = c_.pkw ? *c_.pkw : pkw_at(c_.water);
        eps_h_ = specific_interaction("hydrogen", 1, "chloride");
        eps_oh_na_ = specific_interaction("hydroxide", -1, "sodium");
        eps_oh_k_ = specific_interaction("hydroxide", -1, "potassium");
        metal_total_ = {liquid.calcium_mol_kg, liquid.magnesium_mol_kg, liquid.sodium_mol_kg, liquid.potassium_mol_kg};
        strong_ = liquid.strong_charge_mol_kg() + 2 * (liquid.calcium_mol_kg + liquid.magnesium_mol_kg);
        const double dt = (1 / 298.15 - 1 / c_.water.kelvin()) / (ln10 * atlas::constants[0].value_j_k_mol);
        for (std::size_t s = 0; s < liquid.system_mol_kg.size(); ++s) {
            const AcidSystem& sys = acid_systems()[s];
            const bool carbonate = sys.name == "carbonate";
            if (!(liquid.system_mol_kg[s] > 0) && !(carbonate && c_.open_to_air)) continue;
            Part p;
            p.system = s;
            p.total = liquid.system_mol_kg[s];
            p.top = sys.top_charge;
            p.borate = sys.name == "borate";
            p.carbonate = carbonate;
            p.pk = pk_at(s, c_.water);
            for (const auto& [which, pk] : c_.pk)
                if (which == s) p.pk = pk;
            for (int j = 0; j <= sys.steps; ++j) {
                const int z = sys.top_charge - j;
                p.eps_sodium.push_back(z < 0 ? specific_interaction(sys.name, z, "sodium") : 0);
                p.eps_potassium.push_back(z < 0 ? specific_interaction(sys.name, z, "potassium") : 0);
                p.eps_chloride.push_back(z > 0 ? specific_interaction(sys.name, z, "chloride") : 0);
            }
            if (!c_.ideal && c_.complexes)
                for (const auto& row : atlas::complexes) {
                    if (row.system != sys.name) continue;
                    const auto metal = static_cast<std::size_t>(std::find(metal_names.begin(), metal_names.end(), row.metal) - metal_names.begin());
                    if (!(metal_total_[metal] > 0)) continue;
                    const int z = static_cast<int>(row.ligand_charge_1);
                    const double shift = std::isnan(row.dh_kj_mol) ? 0 : row.dh_kj_mol * 1000 * dt;
                    p.complexes.push_back({metal, sys.top_charge - z, z + metal_charge[metal], row.log_beta_1 + shift, 0});
                    complexing_[metal] = true;
                }
            parts_.push_back(std::move(p));
        }
        for (std::size_t m : {Calcium, Magnesium})
            if (metal_total_[m] > 0 && !c_.ideal && c_.complexes) complexing_[m] = true;
    }

    void add_charge(double strong) { strong_ += strong; added_ = strong; }

    void set_ionic_strength(double ionic) {
        ionic_ = ionic;
        const double dh = c_.ideal ? 0 : debye_huckel_term(a_, ionic), dhc = c_.ideal ? 0 : debye_huckel_term(a_, ionic, 1.77);
        const double na = c_.ideal ? 0 : liquid_.sodium_mol_kg + std::max(added_, 0.0);
        const double k = c_.ideal ? 0 : liquid_.potassium_mol_kg;
        const double cl = c_.ideal ? 0 : liquid_.chloride_mol_kg + std::max(-added_, 0.0);
        log_gamma_h_ = dh + eps_h_ * cl;
        log_gamma_oh_ = dh + eps_oh_na_ * na + eps_oh_k_ * k;
        auto log_gamma = [&](int z, double base) { return z * z * base; };
        for (Part& p : parts_) {
            const double base = p.carbonate ? dhc : dh;
            p.log_gamma.resize(p.pk.size() + 1);
            for (std::size_t j = 0; j <= p.pk.size(); ++j) {
                const int z = p.top - static_cast<int>(j);
                p.log_gamma[j] = log_gamma(z, base) + p.eps_sodium[j] * na + p.eps_potassium[j] * k + p.eps_chloride[j] * cl;
            }
            p.k.resize(p.pk.size());
            for (std::size_t j = 0; j < p.pk.size(); ++j) p.k[j] = std::pow(10.0, -p.pk[j] + p.log_gamma[j] - p.log_gamma[j + 1]);
            for (Complex& x : p.complexes) {
                const int zm = metal_charge[x.metal];
                const double eps = zm == 2 ? specific_interaction(metal_names[x.metal], 2, "chloride") * cl : 0;
                x.beta = std::pow(10.0, x.log_beta + log_gamma(zm, dh) + eps + p.log_gamma[static_cast<std::size_t>(x.protons_lost)] - log_gamma(x.charge, dh));
            }
            if (p.borate && !c_.ideal && c_.complexes) {
                p.di = std::pow(10.0, log_k_diborate - dh);
                p.tri = std::pow(10.0, log_k_triborate - dh);
            }
        }
        for (std::size_t m : {Calcium, Magnesium})
            hydroxide_beta_[m] = c_.ideal || !c_.complexes ? 0 : std::pow(10.0, log_k_hydroxide[m] + log_gamma(2, dh) + specific_interaction(metal_names[m], 2, "chloride") * cl + log_gamma_oh_ - dh);
        if (c_.open_to_air) co2_ = c_.co2_atm * std::pow(10.0, log_henry_co2(c_.water));
    }

    struct Charge {
        double sum = 0, slope = 0, ionic = 0, gross = 0;
    };

    /// Charge balance at a pH, with its slope by pH and the ionic strength that follows.
    Charge at(double ph) {
        const double act = std::pow(10.0, -ph);
        h_ = act * std::pow(10.0, -log_gamma_h_);
        oh_ = std::pow(10.0, ph - pkw_ - log_gamma_oh_);
        solve_metals(act);
        Charge out;
        double buffering = h_ + oh_;
        out.sum = strong_ + h_ - oh_;
        out.gross = std::abs(strong_) + h_ + oh_;
        double i2 = h_ + oh_ + liquid_.other_anion_mol_kg + liquid_.other_cation_mol_kg + liquid_.chloride_mol_kg + std::abs(added_);
        for (std::size_t m = 0; m < metal_count; ++m) i2 += metal_charge[m] * metal_charge[m] * metal_free_[m];
        for (std::size_t m : {Calcium, Magnesium}) {
            const double bound = metal_free_[m] * hydroxide_beta_[m] * oh_;
            out.sum -= bound;
            buffering += bound;
            i2 += bound;
        }
        for (Part& p : parts_) {
            double z1 = 0, z2 = 0, mass = 0;
            distribute(p, act);
            for (std::size_t j = 0; j < free_.size(); ++j) {
                const double z = p.top - static_cast<double>(j);
                double bound = free_[j];
                i2 += z * z * free_[j];
                for (const Complex& x : p.complexes)
                    if (x.protons_lost == static_cast<int>(j)) {
                        const double amount = free_[j] * x.beta * metal_free_[x.metal];
                        bound += amount;
                        i2 += x.charge * x.charge * amount;
                    }
                mass += bound;
                z1 += z * bound;
                z2 += z * z * bound;
                out.gross += std::abs(z) * bound;
            }
            if (p.borate) {
                z1 -= di_ + tri_;
                i2 += di_ + tri_;
                out.gross += di_ + tri_;
                z2 += di_ + tri_;
            }
            out.sum += z1;
            // With the air open, carbonate grows with pH; its slope is then the second moment itself.
            buffering += p.carbonate && c_.open_to_air ? z2 : (mass > 0 ? z2 - z1 * z1 / std::max(mass, 1e-300) : 0);
        }
        out.slope = -ln10 * buffering;
        out.ionic = i2 / 2;
        return out;
    }

    /// Root of the charge balance at the present activity coefficients.
    double root(double guess, int& evaluations) {
        double low = -2.5, high = 16.5, ph = std::clamp(guess, low, high), last = 1e9;
        for (int i = 0; i < 200; ++i) {
            ++evaluations;
            const Charge c = at(ph);
            if (c.sum == 0) return ph;
            (c.sum > 0 ? low : high) = ph;
            double next = ph - c.sum / c.slope;
            // Newton creeps on plateaus: when it leaves the bracket or does not halve the step, halve the bracket.
            if (!(next > low && next < high) || std::abs(next - ph) > 0.5 * last) next = (low + high) / 2;
            last = std::abs(next - ph);
            if (last < 4e-15 * std::max(1.0, std::abs(ph)) || high - low < 8e-15) return next;
            ph = next;
        }
        return ph;
    }

    Result<Equilibrium> solve() {
        Equilibrium out;
        int evaluations = 0;
        double top = 0;
        for (const Part& p : parts_) top += p.total * 25;
        top += 10 * (std::abs(strong_) + liquid_.chloride_mol_kg + liquid_.other_anion_mol_kg + liquid_.calcium_mol_kg + liquid_.magnesium_mol_kg) + 12;
        double low = 0, high = top, ionic = 0.05, ph = 7, previous = 0, previous_miss = 0;
        bool settled = c_.ideal;
        for (int i = 0; i < 120; ++i) {
            set_ionic_strength(ionic);
            ph = root(ph, evaluations);
            const double found = at(ph).ionic, miss = found - ionic;
            out.report.iterations = evaluations;
            if (c_.ideal) { ionic = found; break; }
            if (std::abs(miss) <= 1e-14 + 4e-14 * found) { settled = true; break; }
            (miss > 0 ? low : high) = ionic;
            double next = found;
            if (i > 0 && miss != previous_miss) {
                const double secant = ionic - miss * (ionic - previous) / (miss - previous_miss);
                if (secant > low && secant < high) next = secant;
            }
            if (!(next > low && next < high)) next = (low + high) / 2;
            previous = ionic;
            previous_miss = miss;
            if (high - low <= 1e-15 + 2e-15 * high) { settled = true; break; }
            ionic = next;
        }
        const Charge c = at(ph);
        out.ph = ph;
        out.ionic_strength_mol_kg = c.ionic;
        out.buffer_mol_kg_ph = -c.slope;
        out.hydrogen_mol_kg = h_;
        out.hydroxide_mol_kg = oh_;
        out.calcium_free_mol_kg = metal_free_[Calcium];
        out.magnesium_free_mol_kg = metal_free_[Magnesium];
        out.charge_error_1 = std::abs(c.sum) / std::max(c.gross, 1e-300);
        out.beyond_model = c.ionic > beyond_model_mol_kg;
        out.report.residual = out.charge_error_1;
        out.report.outcome = settled && out.charge_error_1 < 1e-11 ? Outcome::Converged : Outcome::Failed;
        const double act = std::pow(10.0, -ph);
        for (Part& p : parts_) {
            distribute(p, act);
            double whole = 0;
            for (std::size_t j = 0; j < free_.size(); ++j) {
                out.forms.push_back({p.system, static_cast<int>(j), p.top - static_cast<int>(j), free_[j]});
                whole += free_[j];
                for (const Complex& x : p.complexes)
                    if (x.protons_lost == static_cast<int>(j)) whole += free_[j] * x.beta * metal_free_[x.metal];
            }
            if (p.carbonate) out.carbonate_mol_kg = whole;
        }
        if (out.report.outcome != Outcome::Converged)
            return Error{ErrorCode::NotConverged, "The equilibrium of this liquid did not settle. Check the amounts of the ingredients.", "liquid.ingredients"};
        return out;
    }

    /// Activity-based ion product over solubility product, log10, at the last solved state.
    double saturation(const atlas::SolidsRow& row, const Equilibrium& e) const {
        const std::size_t m = row.metal == "calcium" ? Calcium : Magnesium;
        const double metal = m == Calcium ? e.calcium_free_mol_kg : e.magnesium_free_mol_kg;
        if (!(metal > 0)) return -99;
        const double dh = debye_huckel_term(a_, ionic_);
        double si = row.metal_n * (std::log10(metal) + 4 * dh + specific_interaction(metal_names[m], 2, "chloride") * liquid_.chloride_mol_kg) - row.log_ksp_1;
        if (row.system.empty()) return si + 2 * (e.ph - pkw_);
        for (const Part& p : parts_) {
            if (acid_systems()[p.system].name != row.system) continue;
            const auto j = static_cast<std::size_t>(p.top - static_cast<int>(row.ligand_charge_1));
            for (const Form& f : e.forms)
                if (f.system == p.system && f.protons_lost == static_cast<int>(j))
                    return f.mol_kg > 0 ? si + row.ligand_n * (std::log10(f.mol_kg) + p.log_gamma[j]) : -99;
        }
        return -99;
    }

private:
    /// Free amount of each form of a system at activity `act` of H+, into free_; polyborates into di_, tri_.
    void distribute(Part& p, double act) {
        weight_.assign(p.pk.size() + 1, 1.0);
        double log_scale = 0;
        for (std::size_t j = 0; j < p.pk.size(); ++j) {
            weight_[j + 1] = weight_[j] * p.k[j] / act;
            if (weight_[j + 1] > 1e200) {
                for (std::size_t i = 0; i <= j + 1; ++i) weight_[i] *= 1e-200;
                log_scale += 200;
            }
        }
        double sum = 0;
        for (std::size_t j = 0; j < weight_.size(); ++j) {
            double factor = 1;
            for (const Complex& x : p.complexes)
                if (x.protons_lost == static_cast<int>(j)) factor += x.beta * metal_free_[x.metal];
            sum += weight_[j] * factor;
        }
        di_ = tri_ = 0;
        double scale = 0;
        if (p.carbonate && c_.open_to_air) scale = co2_ * std::pow(10.0, log_scale);
        else if (p.borate && p.di > 0) {
            // b (1 + K/a) + 2 K2 b^2/a + 3 K3 b^3/a = total: rises strictly with b.
            double b = p.total / sum;
            for (int i = 0; i < 60; ++i) {
                const double f = b * sum + 2 * p.di * b * b / act + 3 * p.tri * b * b * b / act - p.total;
                const double step = f / (sum + 4 * p.di * b / act + 9 * p.tri * b * b / act);
                b -= step;
                if (std::abs(step) <= 1e-16 * b) break;
            }
            scale = b;
            di_ = p.di * b * b / act;
            tri_ = p.tri * b * b * b / act;
        } else scale = p.total / sum;
        free_.resize(weight_.size());
        for (std::size_t j = 0; j < weight_.size(); ++j) free_[j] = weight_[j] * scale;
    }

    /// Free metals at this pH, by sweeps of bracketed Newton steps on each metal's mass balance (each is monotone).
    void solve_metals(double act) {
        for (std::size_t m = 0; m < metal_count; ++m) metal_free_[m] = metal_total_[m];
        if (std::none_of(complexing_.begin(), complexing_.end(), [](bool b) { return b; })) return;
        for (int sweep = 0; sweep < 400; ++sweep) {
            double moved = 0;
            for (std::size_t m = 0; m < metal_count; ++m) {
                if (!complexing_[m]) continue;
                const double before = metal_free_[m];
                double low = 0, high = metal_total_[m], x = before, last = high;
                for (int i = 0; i < 120; ++i) {
                    metal_free_[m] = x;
                    double total = x * (1 + (m <= Magnesium ? hydroxide_beta_[m] * oh_ : 0)), slope = total / x;
                    for (Part& p : parts_) {
                        bool any = false;
                        for (const Complex& c : p.complexes) any = any || c.metal == m;
                        if (!any) continue;
                        distribute(p, act);
                        double bound = 0;
                        for (const Complex& c : p.complexes)
                            if (c.metal == m) bound += free_[static_cast<std::size_t>(c.protons_lost)] * c.beta;
                        total += bound * x;
                        const double ligand = p.carbonate && c_.open_to_air ? 1e300 : p.total;
                        slope += bound * (1 - std::min(1.0, bound * x / std::max(ligand, 1e-300)));
                    }
                    const double miss = total - metal_total_[m];
                    (miss < 0 ? low : high) = x;
                    double next = x - miss / slope;
                    if (!(next > low && next < high) || std::abs(next - x) > 0.7 * last) next = low > 0 ? std::sqrt(low * high) : high * 1e-3;
                    last = std::abs(next - x);
                    if (last <= 1e-15 * x || high - low <= 1e-15 * high) { x = next; break; }
                    x = next;
                }
                metal_free_[m] = x;
                moved = std::max(moved, std::abs(x - before) / std::max(x, 1e-300));
            }
            if (moved < 1e-14) return;
        }
    }

    Conditions c_;
    const Totals& liquid_;
    double a_ = 0.51, pkw_ = 14, eps_h_ = 0, eps_oh_na_ = 0, eps_oh_k_ = 0;
    double strong_ = 0, added_ = 0, ionic_ = 0, log_gamma_h_ = 0, log_gamma_oh_ = 0, co2_ = 0;
    double h_ = 0, oh_ = 0, di_ = 0, tri_ = 0;
    std::array<double, metal_count> metal_total_{}, metal_free_{}, hydroxide_beta_{};
    std::array<bool, metal_count> complexing_{};
    std::vector<Part> parts_;
    std::vector<double> weight_, free_;
};

Result<Done> in_range(const Conditions& c) {
    const double t = c.water.celsius();
    if (!(t >= -1e-9 && t <= 60 + 1e-9))
        return Error{ErrorCode::OutOfRange, "The constants hold from 0 to 60 °C. Give a temperature between them.", "liquid_c"};
    return Done{};
}

/// Takes solids out one after the other, the most supersaturated first, until none is left above saturation.
Result<Equilibrium> with_solids(Totals liquid, const Conditions& conditions) {
    std::vector<Precipitate> formed;
    auto solved = [&](const Totals& t, std::vector<double>& si) -> Result<Equilibrium> {
        Problem problem(t, conditions);
        HW_TRY(e, problem.solve());
        si.clear();
        for (const auto& row : atlas::solids) si.push_back(problem.saturation(row, e));
        return e;
    };
    std::vector<double> si;
    HW_TRY(first, solved(liquid, si));
    Equilibrium best = first;
    for (std::size_t r = 0; r < si.size(); ++r)
        if (si[r] > 1e-6) formed.push_back({r, si[r], 0});
    auto take = [&](Totals t, std::size_t row, double mol) {
        const auto& s = atlas::solids[row];
        (s.metal == "calcium" ? t.calcium_mol_kg : t.magnesium_mol_kg) -= mol * s.metal_n;
        if (!s.system.empty()) t.system_mol_kg[system_index(s.system)] -= mol * s.ligand_n;
        // What leaves with the solid is neutral; a hydroxide takes its OH along, which strong charge shows by itself.
        return t;
    };
    for (int round = 0; round < 12; ++round) {
        std::size_t worst = si.size();
        for (std::size_t r = 0; r < si.size(); ++r)
            if (si[r] > 1e-6 && (worst == si.size() || si[r] > si[worst])) worst = r;
        if (worst == si.size()) break;
        const auto& s = atlas::solids[worst];
        double high = (s.metal == "calcium" ? liquid.calcium_mol_kg : liquid.magnesium_mol_kg) / s.metal_n;
        if (!s.system.empty() && !(conditions.open_to_air && s.system == "carbonate"))
            high = std::min(high, liquid.system_mol_kg[system_index(s.system)] / s.ligand_n);
        double low = 0;
        std::vector<double> trial;
        for (int i = 0; i < 50; ++i) {
            const double mid = (low + high) / 2;
            const auto e = solved(take(liquid, worst, mid), trial);
            (e.ok() && trial[worst] > 0 ? low : high) = mid;
        }
        liquid = take(liquid, worst, low);
        for (Precipitate& p : formed)
            if (p.row == worst) p.mol_kg += low;
        HW_TRY(e, solved(liquid, si));
        best = e;
    }
    best.solids = formed;
    return best;
}

}  // namespace

Result<Equilibrium> equilibrium(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(ok, in_range(conditions));
    static_cast<void>(ok);
    if (conditions.solids) return with_solids(liquid, conditions);
    return Problem(liquid, conditions).solve();
}

Result<double> acid_to_ph(const Totals& liquid, double ph, const Conditions& conditions) {
    HW_TRY(ok, in_range(conditions));
    static_cast<void>(ok);
    double acid = 0, ionic = 0.05;
    for (int i = 0; i < 200; ++i) {
        Problem problem(liquid, conditions);
        problem.add_charge(-acid);
        problem.set_ionic_strength(ionic);
        const auto c = problem.at(ph);
        const double next = acid + c.sum, moved = std::abs(c.sum) + std::abs(c.ionic - ionic);
        acid = next;
        ionic = i > 20 ? (ionic + c.ionic) / 2 : c.ionic;
        if (conditions.ideal && i > 0) return acid;
        if (moved < 1e-13 * (1 + std::abs(acid))) return acid;
    }
    return Error{ErrorCode::NotConverged, "The titration did not settle. Check the amounts of the ingredients.", "liquid.ingredients"};
}

Result<double> reserve_alkalinity_ml(const Totals& liquid, const Conditions& conditions) {
    // mol per kg of water -> per litre of liquid at unit density.
    HW_TRY(acid, acid_to_ph(diluted(liquid, 9, 0), 5.5, conditions));
    return acid * diluted(liquid, 9, 0).water_kg_kg * 10 * 100;
}

Result<double> alkaline_reserve_g_100g(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(acid, acid_to_ph(liquid, 10, conditions));
    return std::max(0.0, acid) * liquid.water_kg_kg * 4.00;
}

Result<double> acid_reserve_g_100g(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(acid, acid_to_ph(liquid, 4, conditions));
    return std::max(0.0, -acid) * liquid.water_kg_kg * 4.00;
}

ConditionalConstants conditional_constants(std::size_t system, Temperature water, double ionic_strength_mol_kg) {
    const double a = debye_huckel_a(water);
    const double dh = debye_huckel_term(a, ionic_strength_mol_kg);
    const double own = acid_systems()[system].name == "carbonate" ? debye_huckel_term(a, ionic_strength_mol_kg, 1.77) : dh;
    ConditionalConstants out;
    const auto pk = pk_at(system, water);
    for (std::size_t j = 0; j < pk.size(); ++j) {
        const int z = acid_systems()[system].top_charge - static_cast<int>(j);
        out.log_k.push_back(-pk[j] + own * (z * z - (z - 1) * (z - 1)) - dh);
    }
    out.ph_minus_x = -dh;
    out.log_kw = -pkw_at(water) - 2 * dh;
    return out;
}

}  // namespace hw::chem
