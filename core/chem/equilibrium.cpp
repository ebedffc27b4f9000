#include "core/chem/equilibrium.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "atlas/complexes.hpp"
#include "atlas/constants.hpp"
#include "atlas/polyborates.hpp"
#include "atlas/solids.hpp"
#include "core/chem/activity.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

constexpr double ln10 = std::numbers::ln10;
constexpr double beyond_model_mol_kg = 3.0;

enum Metal : std::size_t { Calcium, Magnesium, Sodium, Potassium, metal_count };
constexpr std::array<std::string_view, metal_count> metal_names{"calcium", "magnesium", "sodium", "potassium"};
constexpr std::array<int, metal_count> metal_charge{2, 2, 1, 1};

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
    double ba = 1.5;                                              ///< denominator of the long-range term
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
            p.ba = long_range_ba(sys.name);
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
        if (c_.ideal || !c_.complexes) return;
        for (const auto& row : atlas::complexes) {
            if (row.system != "hydroxide") continue;
            const auto metal = static_cast<std::size_t>(std::find(metal_names.begin(), metal_names.end(), row.metal) - metal_names.begin());
            hydroxide_log_beta_[metal] = row.log_beta_1;
            complexing_[metal] = complexing_[metal] || metal_total_[metal] > 0;
        }
    }

    void add_charge(double strong) { strong_ += strong; added_ = strong; }

    void set_ionic_strength(double ionic) {
        ionic_ = ionic;
        const double dh = c_.ideal ? 0 : debye_huckel_term(a_, ionic);
        const double added = c_.held_ionic_strength_mol_kg ? 0 : added_;
        const double na = c_.ideal ? 0 : liquid_.sodium_mol_kg + std::max(added, 0.0);
        const double k = c_.ideal ? 0 : liquid_.potassium_mol_kg;
        const double cl = c_.ideal ? 0 : liquid_.chloride_mol_kg + std::max(-added, 0.0);
        log_gamma_h_ = dh + eps_h_ * cl;
        log_gamma_oh_ = dh + eps_oh_na_ * na + eps_oh_k_ * k;
        auto log_gamma = [&](int z, double base) { return z * z * base; };
        for (Part& p : parts_) {
            const double base = c_.ideal ? 0 : debye_huckel_term(a_, ionic, p.ba);
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
                for (const auto& row : atlas::polyborates) (row.borons_n == 2 ? p.di : p.tri) = std::pow(10.0, row.log_k_1 - dh);
            }
        }
        for (std::size_t m : {Calcium, Magnesium})
            hydroxide_beta_[m] = c_.ideal || !c_.complexes ? 0 : std::pow(10.0, hydroxide_log_beta_[m] + log_gamma(2, dh) + specific_interaction(metal_names[m], 2, "chloride") * cl + log_gamma_oh_ - dh);
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
        metals_settled_ = solve_metals(act);
        Charge out;
        std::array<double, metal_count> cross{};  // how each metal's bound amount follows pH
        double buffering = h_ + oh_;
        out.sum = strong_ + h_ - oh_;
        out.gross = std::abs(strong_) + h_ + oh_;
        double i2 = h_ + oh_ + liquid_.other_anion_mol_kg + liquid_.other_cation_mol_kg + liquid_.chloride_mol_kg + std::abs(added_);
        for (std::size_t m = 0; m < metal_count; ++m) i2 += metal_charge[m] * metal_charge[m] * metal_free_[m];
        for (std::size_t m : {Calcium, Magnesium}) {
            const double bound = metal_free_[m] * hydroxide_beta_[m] * oh_;
            out.sum -= bound;
            buffering += bound;
            cross[m] += bound;
            i2 += bound;
        }
        for (Part& p : parts_) {
            double z1 = 0, z2 = 0, mass = 0;
            std::array<double, metal_count> bound_1{}, bound_z{};
            distribute(p, act);
            for (std::size_t j = 0; j < free_.size(); ++j) {
                const double z = p.top - static_cast<double>(j);
                double bound = free_[j];
                i2 += z * z * free_[j];
                for (const Complex& x : p.complexes)
                    if (x.protons_lost == static_cast<int>(j)) {
                        const double amount = free_[j] * x.beta * metal_free_[x.metal];
                        bound += amount;
                        bound_1[x.metal] += amount;
                        bound_z[x.metal] += z * amount;
                        i2 += x.charge * x.charge * amount;
                    }
                mass += bound;
                z1 += z * bound;
                z2 += z * z * bound;
                out.gross += std::abs(z) * bound;
            }
            if (p.borate) {
                // Polyborates hold two and three borons: what is conserved is boron, and its moments weigh by borons.
                const double turn = -z1 + 2 * di_ + 3 * tri_, spread = mass + 4 * di_ + 9 * tri_;
                z1 -= di_ + tri_;
                i2 += di_ + tri_;
                out.gross += di_ + tri_;
                out.sum += z1;
                buffering += spread > 0 ? -z1 - turn * turn / spread : 0;
                continue;
            }
            out.sum += z1;
            // With the air open, carbonate grows with pH; its slope is then the second moment itself.
            buffering += open(p) ? z2 : (mass > 0 ? z2 - z1 * z1 / std::max(mass, 1e-300) : 0);
            const double mean = open(p) || !(mass > 0) ? 0 : z1 / mass;
            for (std::size_t m = 0; m < metal_count; ++m) cross[m] += mean * bound_1[m] - bound_z[m];
        }
        // Metals give way as pH moves: the Schur complement of their part of the convex problem.
        std::array<double, metal_count> follow = cross;
        if (std::any_of(complexing_.begin(), complexing_.end(), [](bool b) { return b; })) {
            metal_curvature();
            solve_curvature(follow);
            for (std::size_t m = 0; m < metal_count; ++m)
                if (complexing_[m]) buffering -= cross[m] * follow[m];
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
        double low = 0, high = top, ionic = c_.held_ionic_strength_mol_kg.value_or(0.05), ph = 7, previous = 0, previous_miss = 0;
        bool settled = c_.ideal || c_.held_ionic_strength_mol_kg;
        for (int i = 0; i < 120; ++i) {
            set_ionic_strength(ionic);
            ph = root(ph, evaluations);
            const double found = at(ph).ionic, miss = found - ionic;
            out.report.iterations = evaluations;
            if (settled) break;
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
        out.report.outcome = settled && metals_settled_ && out.charge_error_1 < 1e-11 ? Outcome::Converged : Outcome::Failed;
        out.system_held_mol_kg.assign(acid_systems().size(), 0.0);
        for (std::size_t m = 0; m < metal_count; ++m) out.metal_held_mol_kg[m] = metal_free_[m] * (1 + hydroxide_beta_[m] * oh_);
        const double act = std::pow(10.0, -ph);
        for (Part& p : parts_) {
            distribute(p, act);
            double whole = p.borate ? 2 * di_ + 3 * tri_ : 0;
            for (std::size_t j = 0; j < free_.size(); ++j) {
                out.forms.push_back({p.system, static_cast<int>(j), p.top - static_cast<int>(j), free_[j]});
                whole += free_[j];
                for (const Complex& x : p.complexes)
                    if (x.protons_lost == static_cast<int>(j)) {
                        const double bound = free_[j] * x.beta * metal_free_[x.metal];
                        whole += bound;
                        out.metal_held_mol_kg[x.metal] += bound;
                    }
            }
            out.system_held_mol_kg[p.system] = whole;
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
        const double dh = c_.ideal ? 0 : debye_huckel_term(a_, ionic_), epsilon = c_.ideal ? 0 : specific_interaction(metal_names[m], 2, "chloride");
        const double log_ksp = row.log_ksp_1 + (std::isnan(row.dh_kj_mol) ? 0 : row.dh_kj_mol * 1000 * (1 / 298.15 - 1 / c_.water.kelvin()) / (ln10 * atlas::constants[0].value_j_k_mol));
        double si = row.metal_n * (std::log10(metal) + 4 * dh + epsilon * liquid_.chloride_mol_kg) - log_ksp;
        if (row.system.empty()) return si + 2 * (e.ph - pkw_);  // 2 log a(OH-)
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

    /// Free metals at this pH. With u = ln(free metal) the balances are the gradient of
    ///
    ///     G(u) = sum_m free_m (1 + beta_OH OH) + sum_parts total ln(sum of weights with complexes) - sum_m total_m u_m,
    ///
    /// which is convex: Newton, never past the lowest point along its way, finds the one minimum whatever shares the ligands.
    /// False: it did not settle.
    bool solve_metals(double act) {
        if (std::none_of(complexing_.begin(), complexing_.end(), [](bool b) { return b; })) {
            metal_free_ = metal_total_;
            return true;
        }
        // From where the last pH left them.
        for (std::size_t m = 0; m < metal_count; ++m)
            if (!complexing_[m] || !(metal_free_[m] > 0)) metal_free_[m] = metal_total_[m];
        metal_gradient(act);
        for (int i = 0; i < 300; ++i) {
            metal_curvature();
            std::array<double, metal_count> way = metal_miss_;
            solve_curvature(way);
            double longest = 0;
            for (std::size_t m = 0; m < metal_count; ++m)
                if (complexing_[m]) longest = std::max(longest, std::abs(way[m]));
            if (longest < 1e-15) return true;
            const auto start = metal_free_;
            double share = std::min(1.0, 3 / longest);
            for (int cut = 0;; ++cut) {
                for (std::size_t m = 0; m < metal_count; ++m)
                    if (complexing_[m]) metal_free_[m] = start[m] * std::exp(-share * way[m]);
                metal_gradient(act);
                // Not beyond the lowest point along the way, where the slope turns; close by Newton's own step is right.
                double slope = 0;
                for (std::size_t m = 0; m < metal_count; ++m)
                    if (complexing_[m]) slope -= metal_miss_[m] * way[m];
                if (slope <= 0 || longest < 1e-3 || cut > 40) break;
                share /= 2;
            }
            if (longest < 1e-9) return true;  // what is left is its square
        }
        return false;
    }

    /// Gradient of G at the present free metals into metal_miss_, bound amounts into metal_bound_, free ligands into ligand_free_.
    void metal_gradient(double act) {
        metal_bound_.assign(parts_.size(), {});
        ligand_free_.resize(parts_.size());
        for (std::size_t m = 0; m < metal_count; ++m)
            if (complexing_[m]) metal_miss_[m] = metal_free_[m] * (1 + hydroxide_beta_[m] * oh_) - metal_total_[m];
        for (std::size_t i = 0; i < parts_.size(); ++i) {
            Part& p = parts_[i];
            if (p.complexes.empty()) continue;
            distribute(p, act);
            for (const Complex& x : p.complexes) {
                const double bound = free_[static_cast<std::size_t>(x.protons_lost)] * x.beta * metal_free_[x.metal];
                metal_bound_[i][x.metal] += bound;
                metal_miss_[x.metal] += bound;
            }
            ligand_free_[i] = std::accumulate(free_.begin(), free_.end(), 0.0);
        }
    }

    /// Second derivatives of G.
    void metal_curvature() {
        for (std::size_t m = 0; m < metal_count; ++m) {
            curvature_[m].fill(0);
            curvature_[m][m] = complexing_[m] ? metal_free_[m] * (1 + hydroxide_beta_[m] * oh_) : 1;
        }
        for (std::size_t i = 0; i < parts_.size(); ++i) {
            const Part& p = parts_[i];
            if (p.complexes.empty()) continue;
            double bound_all = 0;
            for (double bound : metal_bound_[i]) bound_all += bound;
            for (std::size_t m = 0; m < metal_count; ++m) {
                const double bound = metal_bound_[i][m];
                if (open(p)) { curvature_[m][m] += bound; continue; }
                // bound (1 - bound/total), without the cancellation when the ligand is used up.
                curvature_[m][m] += bound * (ligand_free_[i] + (bound_all - bound)) / p.total;
                for (std::size_t n = 0; n < metal_count; ++n)
                    if (n != m) curvature_[m][n] -= bound * metal_bound_[i][n] / p.total;
            }
        }
    }

    /// Right-hand side over curvature_, which is positive definite.
    void solve_curvature(std::array<double, metal_count>& r) const {
        auto a = curvature_;
        for (std::size_t c = 0; c < metal_count; ++c)
            for (std::size_t row = c + 1; row < metal_count; ++row) {
                const double share = a[row][c] / a[c][c];
                for (std::size_t k = c; k < metal_count; ++k) a[row][k] -= share * a[c][k];
                r[row] -= share * r[c];
            }
        for (std::size_t c = metal_count; c-- > 0;) {
            for (std::size_t k = c + 1; k < metal_count; ++k) r[c] -= a[c][k] * r[k];
            r[c] /= a[c][c];
        }
    }

    bool open(const Part& p) const { return p.carbonate && c_.open_to_air; }

    Conditions c_;
    const Totals& liquid_;
    double a_ = 0.51, pkw_ = 14, eps_h_ = 0, eps_oh_na_ = 0, eps_oh_k_ = 0;
    double strong_ = 0, added_ = 0, ionic_ = 0, log_gamma_h_ = 0, log_gamma_oh_ = 0, co2_ = 0;
    double h_ = 0, oh_ = 0, di_ = 0, tri_ = 0;
    std::array<double, metal_count> metal_total_{}, metal_free_{}, hydroxide_beta_{}, hydroxide_log_beta_{}, metal_miss_{};
    std::array<std::array<double, metal_count>, metal_count> curvature_{};
    std::array<bool, metal_count> complexing_{};
    bool metals_settled_ = true;
    std::vector<Part> parts_;
    std::vector<double> weight_, free_, ligand_free_;
    std::vector<std::array<double, metal_count>> metal_bound_;
};

Result<Done> in_range(const Conditions& c) {
    const double t = c.water.celsius();
    if (!(t >= -1e-9 && t <= 60 + 1e-9))
        return Error{ErrorCode::OutOfRange, "The constants hold from 0 to 60 °C. Give a temperature between them.", "liquid_c"};
    return Done{};
}

/// What has come out of a liquid, and how far each solid is from where it should be.
class Solids {
public:
    Solids(const Totals& liquid, const Conditions& conditions) : liquid_(liquid), c_(conditions), amount_(atlas::solids.size(), 0.0), si_(amount_.size(), -99.0) {}

    /// The free energy is convex in the amounts. Each turn goes to its lowest point along one way: one solid alone, one in
    /// exchange for another, all in Newton's direction. So the turns cannot circle, and they end fast.
    Result<Equilibrium> settle() {
        HW_TRY(begun, solve());
        static_cast<void>(begun);
        const auto first = si_;
        for (int turn = 0;; ++turn) {
            const std::size_t worst = farthest();
            if (off(worst) <= saturated) break;
            if (turn == 300) return Error{ErrorCode::NotConverged, "The solids of this liquid did not settle. Check the amounts of the ingredients.", "liquid.ingredients"};
            HW_TRY(turned, turn % 3 == 0 ? alone(worst) : turn % 3 == 1 ? exchange(worst) : together());
            static_cast<void>(turned);
        }
        for (std::size_t r = 0; r < amount_.size(); ++r)
            if (amount_[r] > 0) best_.solids.push_back({r, first[r], amount_[r]});
        return best_;
    }

private:
    static constexpr double saturated = 1e-6;  // log10

    static double& metal_of(const atlas::SolidsRow& s, Totals& t) { return s.metal == "calcium" ? t.calcium_mol_kg : t.magnesium_mol_kg; }

    Totals left() const {
        Totals t = liquid_;
        for (std::size_t r = 0; r < amount_.size(); ++r) {
            const auto& s = atlas::solids[r];
            // What leaves with the solid is neutral; a hydroxide takes its OH along, which strong charge shows by itself.
            metal_of(s, t) -= amount_[r] * s.metal_n;
            if (!s.system.empty()) t.system_mol_kg[system_index(s.system)] -= amount_[r] * s.ligand_n;
        }
        return t;
    }

    Result<Done> solve() {
        const Totals t = left();
        Problem problem(t, c_);
        HW_TRY(e, problem.solve());
        for (std::size_t r = 0; r < si_.size(); ++r) si_[r] = problem.saturation(atlas::solids[r], e);
        best_ = e;
        return Done{};
    }

    double off(std::size_t r) const { return amount_[r] > 0 ? std::abs(si_[r]) : std::max(si_[r], 0.0); }

    std::size_t farthest() const {
        std::size_t worst = 0;
        for (std::size_t r = 1; r < si_.size(); ++r)
            if (off(r) > off(worst)) worst = r;
        return worst;
    }

    /// Goes to the lowest point of the free energy along a way through the amounts. Its slope is -sum of way times saturation
    /// index, which falls along the way: a bracket, cut by regula falsi.
    Result<Done> along(std::vector<double> way) {
        const auto slope = [&] { return std::inner_product(way.begin(), way.end(), si_.begin(), 0.0); };
        double at_low = slope(), at_high = -99;
        if (at_low < 0) {
            for (double& w : way) w = -w;
            at_low = -at_low;
        }
        const auto start = amount_;
        const Totals before = left();
        Totals per = before;  // what the way takes out of the liquid
        per.calcium_mol_kg = per.magnesium_mol_kg = 0;
        std::fill(per.system_mol_kg.begin(), per.system_mol_kg.end(), 0.0);
        double low = 0, high = std::numeric_limits<double>::infinity();
        std::size_t ends = way.size();  // the solid that is gone at `high`
        for (std::size_t r = 0; r < way.size(); ++r) {
            const auto& s = atlas::solids[r];
            if (way[r] == 0) continue;
            metal_of(s, per) += way[r] * s.metal_n;
            if (!s.system.empty() && !(c_.open_to_air && s.system == "carbonate")) per.system_mol_kg[system_index(s.system)] += way[r] * s.ligand_n;
            if (way[r] < 0 && -amount_[r] / way[r] < high) {
                high = -amount_[r] / way[r];
                ends = r;
            }
        }
        const auto limit = [&](double held, double taken) {
            if (taken <= 0 || held / taken * (1 - 1e-12) >= high) return;
            high = held / taken * (1 - 1e-12);
            ends = way.size();
        };
        limit(before.calcium_mol_kg, per.calcium_mol_kg);
        limit(before.magnesium_mol_kg, per.magnesium_mol_kg);
        for (std::size_t s = 0; s < per.system_mol_kg.size(); ++s) limit(before.system_mol_kg[s], per.system_mol_kg[s]);
        const auto go = [&](double x) {
            for (std::size_t r = 0; r < way.size(); ++r) amount_[r] = std::max(0.0, start[r] + x * way[r]);
            return solve();
        };
        if (ends < way.size()) {
            HW_TRY(gone, go(high));
            static_cast<void>(gone);
            amount_[ends] = 0;
            at_high = slope();
            if (at_high >= 0) return Done{};
        }
        for (int i = 0; i < 100; ++i) {
            const double guess = low + (high - low) * at_low / (at_low - at_high), next = i % 3 != 2 && at_high > -3 && guess > low && guess < high ? guess : (low + high) / 2;
            HW_TRY(tried, go(next));
            static_cast<void>(tried);
            const double here = slope();
            if (std::abs(here) <= 1e-3 * saturated * longest(way) || high - low <= 1e-15 * high) break;
            (here > 0 ? low : high) = next;
            (here > 0 ? at_low : at_high) = here;
        }
        return Done{};
    }

    static double longest(const std::vector<double>& way) {
        double most = 0;
        for (double w : way) most = std::max(most, std::abs(w));
        return most;
    }

    /// One solid alone.
    Result<Done> alone(std::size_t r) {
        std::vector<double> way(amount_.size(), 0.0);
        way[r] = 1;
        return along(way);
    }

    /// One solid in exchange for another of the same metal, which is scarce.
    Result<Done> exchange(std::size_t r) {
        std::size_t other = r;
        for (std::size_t q = 0; q < amount_.size(); ++q)
            if (q != r && amount_[q] > 0 && atlas::solids[q].metal == atlas::solids[r].metal && (other == r || off(q) > off(other))) other = q;
        std::vector<double> way(amount_.size(), 0.0);
        way[r] = 1;
        if (other != r) way[other] = -atlas::solids[r].metal_n / atlas::solids[other].metal_n;
        return along(way);
    }

    /// All solids that are there, in Newton's direction.
    Result<Done> together() {
        std::vector<std::size_t> there;
        for (std::size_t r = 0; r < amount_.size(); ++r)
            if (amount_[r] > 0) there.push_back(r);
        const std::size_t n = there.size();
        const auto start = amount_;
        const auto at_start = si_;
        std::vector<std::vector<double>> a(n, std::vector<double>(n + 1));
        for (std::size_t j = 0; j < n; ++j) {
            const double nudge = 1e-8 * start[there[j]];
            amount_[there[j]] -= nudge;
            HW_TRY(nudged, solve());
            static_cast<void>(nudged);
            for (std::size_t i = 0; i < n; ++i) a[i][j] = (si_[there[i]] - at_start[there[i]]) / nudge;
            amount_ = start;
        }
        HW_TRY(back, solve());
        static_cast<void>(back);
        for (std::size_t i = 0; i < n; ++i) a[i][n] = at_start[there[i]];
        for (std::size_t c = 0; c < n; ++c) {
            std::size_t pivot = c;
            for (std::size_t i = c + 1; i < n; ++i)
                if (std::abs(a[i][c]) > std::abs(a[pivot][c])) pivot = i;
            std::swap(a[c], a[pivot]);
            if (a[c][c] == 0) return Done{};
            for (std::size_t i = 0; i < n; ++i) {
                if (i == c) continue;
                const double share = a[i][c] / a[c][c];
                for (std::size_t k = c; k <= n; ++k) a[i][k] -= share * a[c][k];
            }
        }
        std::vector<double> way(amount_.size(), 0.0);
        for (std::size_t i = 0; i < n; ++i) way[there[i]] = a[i][n] / a[i][i];
        const double scale = longest(way);
        if (!(scale > 0)) return Done{};
        for (double& w : way) w /= scale;
        return along(way);
    }

    const Totals& liquid_;
    const Conditions& c_;
    std::vector<double> amount_, si_;
    Equilibrium best_;
};

}  // namespace

Result<Equilibrium> equilibrium(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(ok, in_range(conditions));
    static_cast<void>(ok);
    if (conditions.solids) return Solids(liquid, conditions).settle();
    return Problem(liquid, conditions).solve();
}

Result<std::vector<double>> saturation_indices(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(ok, in_range(conditions));
    static_cast<void>(ok);
    Problem problem(liquid, conditions);
    HW_TRY(e, problem.solve());
    std::vector<double> out;
    for (const auto& row : atlas::solids) out.push_back(problem.saturation(row, e));
    return out;
}

Result<double> acid_to_ph(const Totals& liquid, double ph, const Conditions& conditions) {
    HW_TRY(ok, in_range(conditions));
    static_cast<void>(ok);
    double acid = 0, ionic = conditions.held_ionic_strength_mol_kg.value_or(0.05);
    for (int i = 0; i < 200; ++i) {
        Problem problem(liquid, conditions);
        problem.add_charge(-acid);
        problem.set_ionic_strength(ionic);
        const auto c = problem.at(ph);
        const double next = acid + c.sum, moved = std::abs(c.sum) + std::abs(c.ionic - ionic);
        acid = next;
        ionic = i > 20 ? (ionic + c.ionic) / 2 : c.ionic;
        if (conditions.ideal && i > 0) return acid;
        if (conditions.held_ionic_strength_mol_kg) ionic = *conditions.held_ionic_strength_mol_kg;
        if (conditions.held_ionic_strength_mol_kg && i > 0) return acid;
        if (moved < 1e-13 * (1 + std::abs(acid))) return acid;
    }
    return Error{ErrorCode::NotConverged, "The titration did not settle. Check the amounts of the ingredients.", "liquid.ingredients"};
}

Conditions closed(Conditions conditions) {
    conditions.open_to_air = false;
    return conditions;
}

Result<double> reserve_alkalinity_ml(const Totals& liquid, const Conditions& conditions) {
    // mol per kg of water -> per litre of liquid at unit density.
    HW_TRY(acid, acid_to_ph(diluted(liquid, 9, 0), 5.5, closed(conditions)));
    return acid * diluted(liquid, 9, 0).water_kg_kg * 10 * 100;
}

Result<double> alkaline_reserve_g_100g(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(acid, acid_to_ph(liquid, 10, closed(conditions)));
    return std::max(0.0, acid) * liquid.water_kg_kg * 4.00;
}

Result<double> acid_reserve_g_100g(const Totals& liquid, const Conditions& conditions) {
    HW_TRY(acid, acid_to_ph(liquid, 4, closed(conditions)));
    return std::max(0.0, -acid) * liquid.water_kg_kg * 4.00;
}

ConditionalConstants conditional_constants(std::size_t system, Temperature water, double ionic_strength_mol_kg) {
    const double a = debye_huckel_a(water);
    const double dh = debye_huckel_term(a, ionic_strength_mol_kg);
    const double own = debye_huckel_term(a, ionic_strength_mol_kg, long_range_ba(acid_systems()[system].name));
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
