#include "core/diffusion/section.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

namespace hw::diffusion {

namespace {

constexpr double ln10 = std::numbers::ln10;
constexpr int max_vars = max_components + 1;
// TR-BDF2 with the one gamma that gives both stages the same Jacobian.
const double gamma_1 = 2 - std::numbers::sqrt2;
const double alpha_1 = gamma_1 / 2;
const double bdf_new = 1 / (gamma_1 * (2 - gamma_1));
const double bdf_old = (1 - gamma_1) * (1 - gamma_1) / (gamma_1 * (2 - gamma_1));
const double error_1 = (-3 * gamma_1 * gamma_1 + 4 * gamma_1 - 2) / (12 * (2 - gamma_1));

using Vars = std::array<double, max_vars>;

/// Mean charge of a component, its mean square and its third moment, at hydrogen h (mol/L).
struct Charges {
    double z = 0, z2 = 0, z3 = 0, share = 0;  ///< share of the volatile form
    double z_share = 0;                       ///< charge of the volatile form times its share
};

Charges charges(const Component& c, double h) {
    double weight = 1, sum = 1, z = c.top_charge;
    Charges out{z, z * z, z * z * z, 0, 0};
    double volatile_weight = c.neutral_form == 0 ? 1 : 0;
    // Weights relative to the fully protonated form; K/h may overflow only beyond any pH that occurs.
    for (std::size_t step = 0; step < c.log_k.size(); ++step) {
        weight *= std::pow(10.0, c.log_k[step]) / h;
        z -= 1;
        sum += weight;
        out.z += weight * z;
        out.z2 += weight * z * z;
        out.z3 += weight * z * z * z;
        if (c.neutral_form == static_cast<int>(step) + 1) volatile_weight = weight;
    }
    out.z /= sum;
    out.z2 /= sum;
    out.z3 /= sum;
    out.share = volatile_weight / sum;
    out.z_share = (c.top_charge - c.neutral_form) * out.share;
    return out;
}

struct FastComponent {
    int top = 0, steps = 0, neutral = -1;
    std::array<double, max_steps> k{};  ///< mol/L
    double d = 0, air = 0, velocity = 0, hydroxide = 0, pore = 0;
};

/// Everything of one cell that the fluxes need, with derivatives by (x, T_1 … T_n).
struct Local {
    double s = 0;
    Vars ds{};
    double na = 0, cl = 0, dna = 0, dcl = 0;  ///< of s
    double oh = 0, doh = 0;
    std::array<double, max_components> q{}, qx{}, qt{};      ///< charge carried and its derivatives
    std::array<double, max_components> n{}, nx{}, nt{};      ///< volatile form
    double drive = 0, conductance = 0;                       ///< sum z D c, sum z^2 D c
    Vars ddrive{}, dconductance{};
};

class Engine {
public:
    Engine(const std::vector<Component>& components, const std::vector<Layer>& layers, const Options& options)
        : source_components_(components), layers_(layers), o_(options), n_(static_cast<int>(components.size())), nv_(n_ + 1) {
        for (const auto& c : components) {
            FastComponent f;
            f.top = c.top_charge;
            f.steps = static_cast<int>(c.log_k.size());
            f.neutral = c.neutral_form;
            for (std::size_t i = 0; i < c.log_k.size(); ++i) f.k[i] = std::pow(10.0, c.log_k[i]);
            f.d = c.d_m2_s;
            f.air = c.air_mol_m3;
            f.velocity = c.film_velocity_m_s;
            f.hydroxide = c.hydroxide_rate_m3_mol_s;
            f.pore = c.pore_exchange_per_s;
            comp_.push_back(f);
        }
        kw_ = std::pow(10.0, o_.log_kw_1);
        build_mesh();
        start();
    }

    Result<SectionResult> run(const std::vector<Stage>& story, const Progress& progress);

private:
    void build_mesh();
    void start();
    void local(const Vars& y, Local& out) const;
    void locals(const std::vector<Vars>& y, std::vector<Local>& out) const;
    double binding(int layer, double x, double& slope) const;
    double kmean(int layer, double ui, double uj) const;
    double water_flux(const std::vector<double>& w, std::size_t face) const;
    void water_rates(const std::vector<double>& w, std::vector<double>& f, std::vector<double>* q) const;
    double patchy(double w) const { return -std::expm1(-w / o_.film_patchy_kg_m2); }
    bool water_stage(const std::vector<double>& rhs, double ah, std::vector<double>& w) const;
    void place_water(const std::vector<double>& w);
    void storage(const std::vector<Vars>& y, std::vector<Vars>& m) const;
    void rates(const std::vector<Vars>& y, const std::vector<double>& q, std::vector<Vars>& f, std::vector<double>& air,
               double ah, bool jacobian);
    bool solute_stage(const std::vector<Vars>& rhs, const std::vector<double>& q, double ah, std::vector<Vars>& y,
                      std::vector<Vars>& f, std::vector<double>& air);
    bool factor();
    void solve(std::vector<Vars>& r) const;
    bool step(double h, double& error);
    void snapshot(SectionResult& out, double t) const;
    void totals_now(std::vector<double>& leather, std::vector<double>& film) const;

    double volume(std::size_t cell) const { return liquid_[cell]; }  ///< m3 of liquid per m2

    const std::vector<Component>& source_components_;
    const std::vector<Layer>& layers_;
    Options o_;
    int n_, nv_;
    double kw_ = 1e-14;
    std::vector<FastComponent> comp_;
    // Cell 0 is the film; cells 1 … N are the leather.
    std::vector<double> dz_, top_;
    std::vector<int> layer_;
    std::vector<Vars> y_;
    std::vector<double> w_;                       ///< film water kg/m2, then u of each cell
    std::vector<double> liquid_, open_, dryness_; ///< m3/m2, D_layer/D, 1-u
    std::vector<double> start_bound_;
    std::vector<double> air_lost_;
    double evaporated_ = 0;
    // Work space
    std::vector<Local> loc_;
    using Block = std::array<std::array<double, max_vars>, max_vars>;
    std::vector<Block> low_, mid_, up_;
    std::vector<std::array<int, max_vars>> pivot_;
    std::vector<double> reference_;               ///< scale of each component, mol/m3
    int newton_total_ = 0;
    std::vector<Vars> f_now_;
    std::vector<double> q_now_, air_now_, wf_now_;
    bool fresh_ = true;
};

void Engine::build_mesh() {
    dz_.assign(1, 0.0);
    top_.assign(1, 0.0);
    layer_.assign(1, -1);
    double at = 0;
    for (std::size_t l = 0; l < layers_.size(); ++l) {
        const Layer& layer = layers_[l];
        const int cells = std::max(1, static_cast<int>(std::lround(layer.cells * o_.mesh_1)));
        // A finer mesh keeps the same stretch over the layer.
        const double growth = std::pow(layer.growth_1, 1.0 / o_.mesh_1);
        double sum = 0, piece = 1;
        for (int i = 0; i < cells; ++i, piece *= growth) sum += piece;
        piece = layer.thickness_m / sum;
        for (int i = 0; i < cells; ++i, piece *= growth) {
            dz_.push_back(piece);
            top_.push_back(at);
            layer_.push_back(static_cast<int>(l));
            at += piece;
        }
    }
}

void Engine::start() {
    const std::size_t cells = dz_.size();
    y_.assign(cells, Vars{});
    w_.assign(cells, 0.0);
    reference_.assign(static_cast<std::size_t>(n_), 1e-3);
    for (std::size_t i = 0; i < cells; ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(std::max(layer_[i], 0))];
        y_[i][0] = layer.start_x;
        for (int k = 0; k < n_; ++k) {
            const auto ks = static_cast<std::size_t>(k);
            const double t = ks < layer.start_mol_m3.size() ? layer.start_mol_m3[ks] : 0.0;
            y_[i][ks + 1] = t;
            reference_[ks] = std::max(reference_[ks], t);
        }
    }
    start_bound_.assign(cells, 0.0);
    for (std::size_t i = 1; i < cells; ++i) {
        double slope = 0;
        start_bound_[i] = binding(layer_[i], y_[i][0], slope);
    }
    air_lost_.assign(static_cast<std::size_t>(n_), 0.0);
    loc_.resize(cells);
    low_.resize(cells);
    mid_.resize(cells);
    up_.resize(cells);
    pivot_.resize(cells);
    place_water(w_);
}

double Engine::binding(int layer, double x, double& slope) const {
    double bound = 0;
    slope = 0;
    for (const Site& site : layers_[static_cast<std::size_t>(layer)].sites) {
        const double f = 1 / (1 + std::exp(ln10 * (site.pka_1 - x)));
        bound += site.amount_mol_kg * f;
        slope += site.amount_mol_kg * ln10 * f * (1 - f);
    }
    return bound;
}

void Engine::place_water(const std::vector<double>& w) {
    const std::size_t cells = dz_.size();
    liquid_.resize(cells);
    open_.resize(cells);
    dryness_.resize(cells);
    liquid_[0] = (std::max(w[0], 0.0) + o_.film_left_kg_m2) / 1000;
    open_[0] = 0;
    dryness_[0] = 0;
    for (std::size_t i = 1; i < cells; ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(layer_[i])];
        const double kg = layer.water_ambient_kg_m3 + (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * w[i];
        liquid_[i] = kg / 1000 * dz_[i];
        open_[i] = layer.solute_share_1 * std::pow(kg / layer.water_full_kg_m3, layer.solute_exponent_1);
        dryness_[i] = std::clamp(1 - w[i], 0.0, 1.0);
    }
}

double Engine::kmean(int layer, double ui, double uj) const {
    const Layer& l = layers_[static_cast<std::size_t>(layer)];
    const double n = l.water_exponent_1;
    const double d = n * (ui - uj);
    const double base = l.water_conductivity_kg_m_s * std::exp(n * (uj - 1));
    return std::abs(d) < 1e-7 ? base * (1 + d / 2) : base * std::expm1(d) / d;  // the integral mean (Kirchhoff)
}

double Engine::water_flux(const std::vector<double>& w, std::size_t face) const {
    // Face i lies between cell i and cell i + 1; face 0 is the skin between film and leather.
    if (face == 0) {
        const double u = patchy(w[0]);
        return kmean(layer_[1], u, w[1]) * (u - w[1]) / (dz_[1] / 2);
    }
    const double ui = w[face], uj = w[face + 1];
    const double hi = dz_[face] / 2, hj = dz_[face + 1] / 2;
    if (layer_[face] == layer_[face + 1]) return kmean(layer_[face], ui, uj) * (ui - uj) / (hi + hj);
    return (ui - uj) / (hi / kmean(layer_[face], ui, uj) + hj / kmean(layer_[face + 1], ui, uj));
}

void Engine::water_rates(const std::vector<double>& w, std::vector<double>& f, std::vector<double>* q) const {
    const std::size_t cells = w.size();
    f.assign(cells, 0.0);
    if (q != nullptr) q->assign(cells, 0.0);
    f[0] = -o_.evaporation_kg_m2_s * patchy(w[0]);
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        const double flux = water_flux(w, i);
        f[i] -= flux;
        f[i + 1] += flux;
        if (q != nullptr) (*q)[i] = flux / 1000;
    }
}

bool Engine::water_stage(const std::vector<double>& rhs, double ah, std::vector<double>& w) const {
    const std::size_t cells = w.size();
    std::vector<double> a(cells), b(cells), c(cells), r(cells), probe = w;
    std::vector<double> capacity(cells, 1.0);
    for (std::size_t i = 1; i < cells; ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(layer_[i])];
        capacity[i] = (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * dz_[i];
    }
    for (int iteration = 0; iteration < 20; ++iteration) {
        for (std::size_t i = 0; i < cells; ++i) {
            a[i] = c[i] = 0;
            b[i] = capacity[i];
            r[i] = capacity[i] * w[i] - rhs[i];
        }
        r[0] += ah * o_.evaporation_kg_m2_s * patchy(w[0]);
        b[0] += ah * o_.evaporation_kg_m2_s * std::exp(-w[0] / o_.film_patchy_kg_m2) / o_.film_patchy_kg_m2;
        probe = w;
        for (std::size_t i = 0; i + 1 < cells; ++i) {
            const double flux = water_flux(w, i);
            const double step_i = i == 0 ? 1e-7 * o_.film_patchy_kg_m2 : 1e-7, step_j = 1e-7;
            probe[i] = w[i] + step_i;
            const double di = (water_flux(probe, i) - flux) / step_i;
            probe[i] = w[i];
            probe[i + 1] = w[i + 1] + step_j;
            const double dj = (water_flux(probe, i) - flux) / step_j;
            probe[i + 1] = w[i + 1];
            r[i] += ah * flux;
            r[i + 1] -= ah * flux;
            b[i] += ah * di;
            c[i] += ah * dj;
            a[i + 1] -= ah * di;
            b[i + 1] -= ah * dj;
        }
        for (std::size_t i = 1; i < cells; ++i) {
            const double m = a[i] / b[i - 1];
            b[i] -= m * c[i - 1];
            r[i] -= m * r[i - 1];
        }
        double worst = 0;
        for (std::size_t i = cells; i-- > 0;) {
            r[i] = (r[i] - (i + 1 < cells ? c[i] * r[i + 1] : 0.0)) / b[i];
            const double limited = i == 0 ? r[i] : std::clamp(r[i], -0.3, 0.3);
            w[i] -= limited;
            worst = std::max(worst, std::abs(r[i]) / (i == 0 ? o_.film_patchy_kg_m2 + std::abs(w[0]) : 1.0));
        }
        if (!std::isfinite(worst)) return false;
        if (worst < 1e-11) return true;
    }
    return false;
}

void Engine::local(const Vars& y, Local& out) const {
    const double h = std::pow(10.0, -y[0]);  // mol/L
    const double hm = 1000 * h, ohm = 1000 * kw_ / h;
    out.oh = ohm;
    out.doh = ln10 * ohm;
    out.s = ohm - hm;
    out.ds = Vars{};
    out.ds[0] = ln10 * (ohm + hm);
    out.drive = o_.d_hydrogen_m2_s * hm - o_.d_hydroxide_m2_s * ohm;
    out.ddrive = Vars{};
    out.ddrive[0] = -ln10 * (o_.d_hydrogen_m2_s * hm + o_.d_hydroxide_m2_s * ohm);
    out.conductance = o_.d_hydrogen_m2_s * hm + o_.d_hydroxide_m2_s * ohm;
    out.dconductance = Vars{};
    out.dconductance[0] = ln10 * (-o_.d_hydrogen_m2_s * hm + o_.d_hydroxide_m2_s * ohm);
    for (int k = 0; k < n_; ++k) {
        const auto ks = static_cast<std::size_t>(k);
        const FastComponent& c = comp_[ks];
        double weight = 1, sum = 1, z = c.top;
        double s1 = z, s2 = z * z, s3 = z * z * z, volatile_weight = c.neutral == 0 ? 1 : 0;
        for (int step = 0; step < c.steps; ++step) {
            weight *= c.k[static_cast<std::size_t>(step)] / h;
            z -= 1;
            sum += weight;
            s1 += weight * z;
            s2 += weight * z * z;
            s3 += weight * z * z * z;
            if (c.neutral == step + 1) volatile_weight = weight;
        }
        s1 /= sum;
        s2 /= sum;
        s3 /= sum;
        const double t = y[ks + 1];
        out.q[ks] = t * s1;
        out.qt[ks] = s1;
        out.qx[ks] = -ln10 * t * (s2 - s1 * s1);
        out.s -= out.q[ks];
        out.ds[0] -= out.qx[ks];
        out.ds[ks + 1] = -s1;
        out.drive += c.d * out.q[ks];
        out.ddrive[0] += c.d * out.qx[ks];
        out.ddrive[ks + 1] = c.d * s1;
        out.conductance += c.d * t * s2;
        out.dconductance[0] += -c.d * ln10 * t * (s3 - s2 * s1);
        out.dconductance[ks + 1] = c.d * s2;
        const double share = volatile_weight / sum;
        const double zn = c.top - c.neutral;
        out.n[ks] = t * share;
        out.nt[ks] = share;
        out.nx[ks] = -ln10 * t * share * (zn - s1);
    }
    // Strong cations and anions around an inert background: na - cl = s, na cl = background^2.
    const double b2 = 4 * o_.background_mol_m3 * o_.background_mol_m3 + 1e-18;
    const double root = std::sqrt(out.s * out.s + b2);
    out.na = out.s > 0 ? (root + out.s) / 2 : b2 / 2 / (root - out.s);
    out.cl = out.s > 0 ? b2 / 2 / (root + out.s) : (root - out.s) / 2;
    out.dna = out.na / root;
    out.dcl = -out.cl / root;
    const double dc = o_.d_strong_cation_m2_s, da = o_.d_strong_anion_m2_s;
    out.drive += dc * out.na - da * out.cl;
    out.conductance += dc * out.na + da * out.cl;
    for (int v = 0; v < nv_; ++v) {
        const auto vs = static_cast<std::size_t>(v);
        out.ddrive[vs] += (dc * out.dna - da * out.dcl) * out.ds[vs];
        out.dconductance[vs] += (dc * out.dna + da * out.dcl) * out.ds[vs];
    }
}

void Engine::locals(const std::vector<Vars>& y, std::vector<Local>& out) const {
    for (std::size_t i = 0; i < y.size(); ++i) local(y[i], out[i]);
}

void Engine::storage(const std::vector<Vars>& y, std::vector<Vars>& m) const {
    m.resize(y.size());
    for (std::size_t i = 0; i < y.size(); ++i) {
        m[i][0] = liquid_[i] * loc_[i].s;
        if (i > 0) {
            double slope = 0;
            const double kg = layers_[static_cast<std::size_t>(layer_[i])].dry_density_kg_m3 * dz_[i];
            if (kg > 0) m[i][0] += kg * binding(layer_[i], y[i][0], slope);
        }
        for (int k = 1; k < nv_; ++k) m[i][static_cast<std::size_t>(k)] = liquid_[i] * y[i][static_cast<std::size_t>(k)];
    }
}

// Rates of all cells. With `jacobian`, the blocks of dM/dy - ah dF/dy are left in low_, mid_, up_. loc_ must be current.
void Engine::rates(const std::vector<Vars>& y, const std::vector<double>& q, std::vector<Vars>& f,
                   std::vector<double>& air, double ah, bool jacobian) {
    const std::size_t cells = y.size();
    f.assign(cells, Vars{});
    air.assign(static_cast<std::size_t>(n_), 0.0);
    if (jacobian) {
        for (std::size_t i = 0; i < cells; ++i) {
            for (auto& row : low_[i]) row.fill(0);
            for (auto& row : mid_[i]) row.fill(0);
            for (auto& row : up_[i]) row.fill(0);
            for (int v = 0; v < nv_; ++v) mid_[i][0][static_cast<std::size_t>(v)] = liquid_[i] * loc_[i].ds[static_cast<std::size_t>(v)];
            if (i > 0) {
                const double kg = layers_[static_cast<std::size_t>(layer_[i])].dry_density_kg_m3 * dz_[i];
                double slope = 0;
                if (kg > 0) binding(layer_[i], y[i][0], slope);
                mid_[i][0][0] += kg * slope;
            }
            for (int k = 1; k < nv_; ++k) mid_[i][static_cast<std::size_t>(k)][static_cast<std::size_t>(k)] = liquid_[i];
        }
    }
    // Exchange with the room air.
    for (std::size_t i = 0; i < cells; ++i) {
        const double breathing = i == 0 ? 0 : layers_[static_cast<std::size_t>(layer_[i])].air_share_1 * dryness_[i] * liquid_[i];
        for (int k = 0; k < n_; ++k) {
            const auto ks = static_cast<std::size_t>(k);
            const FastComponent& c = comp_[ks];
            if (c.neutral < 0) continue;
            double rate = 0, rate_x = 0, rate_t = 0;
            const double over = loc_[i].n[ks] - c.air;
            if (i == 0) {
                // Film theory with a fast first-order reaction: velocity sqrt(1 + D k / velocity^2) (Danckwerts).
                const double boost = c.hydroxide > 0 ? std::sqrt(1 + c.d * c.hydroxide * loc_[i].oh / (c.velocity * c.velocity)) : 1;
                const double boost_x = c.hydroxide > 0 ? c.d * c.hydroxide * loc_[i].doh / (2 * boost * c.velocity * c.velocity) : 0;
                rate = c.velocity * boost * over;
                rate_x = c.velocity * (boost * loc_[i].nx[ks] + boost_x * over);
                rate_t = c.velocity * boost * loc_[i].nt[ks];
            } else {
                rate = c.pore * breathing * over;
                rate_x = c.pore * breathing * loc_[i].nx[ks];
                rate_t = c.pore * breathing * loc_[i].nt[ks];
            }
            if (i == 0 && o_.fixed_surface) continue;
            f[i][ks + 1] -= rate;
            air[ks] += rate;
            if (jacobian) {
                mid_[i][ks + 1][0] += ah * rate_x;
                mid_[i][ks + 1][ks + 1] += ah * rate_t;
            }
        }
    }
    // Between neighbours.
    const double dc = o_.d_strong_cation_m2_s, da = o_.d_strong_anion_m2_s;
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        const std::size_t j = i + 1;
        const Local &a = loc_[i], &b = loc_[j];
        const double resistance = (i == 0 ? 0 : dz_[i] / 2 / open_[i]) + dz_[j] / 2 / open_[j];
        const double g = 1 / resistance;
        const double mean_cond = (a.conductance + b.conductance) / 2;
        const double psi = o_.electroneutral ? (b.drive - a.drive) / mean_cond : 0;
        Vars psi_a{}, psi_b{};
        if (o_.electroneutral)
            for (int v = 0; v < nv_; ++v) {
                const auto vs = static_cast<std::size_t>(v);
                psi_a[vs] = (-a.ddrive[vs] - psi * a.dconductance[vs] / 2) / mean_cond;
                psi_b[vs] = (b.ddrive[vs] - psi * b.dconductance[vs] / 2) / mean_cond;
            }
        for (int row = 0; row < nv_; ++row) {
            const auto rs = static_cast<std::size_t>(row);
            double flux = 0, ca = 0, cb = 0, d = 0;
            Vars flux_a{}, flux_b{};
            if (row == 0) {
                d = dc;
                ca = a.s;
                cb = b.s;
                if (o_.electroneutral) {
                    const double mna = (a.na + b.na) / 2, mcl = (a.cl + b.cl) / 2;
                    flux = -g * (dc * ((b.na - a.na) - mna * psi) - da * ((b.cl - a.cl) + mcl * psi));
                    const double by_psi = g * (dc * mna + da * mcl);
                    const double sa = -g * (dc * (-a.dna - a.dna / 2 * psi) - da * (-a.dcl + a.dcl / 2 * psi));
                    const double sb = -g * (dc * (b.dna - b.dna / 2 * psi) - da * (b.dcl + b.dcl / 2 * psi));
                    for (int v = 0; v < nv_; ++v) {
                        const auto vs = static_cast<std::size_t>(v);
                        flux_a[vs] = sa * a.ds[vs] + by_psi * psi_a[vs];
                        flux_b[vs] = sb * b.ds[vs] + by_psi * psi_b[vs];
                    }
                } else {
                    flux = -g * dc * (b.s - a.s);
                    for (int v = 0; v < nv_; ++v) {
                        const auto vs = static_cast<std::size_t>(v);
                        flux_a[vs] = g * dc * a.ds[vs];
                        flux_b[vs] = -g * dc * b.ds[vs];
                    }
                }
            } else {
                const std::size_t ks = rs - 1;
                d = comp_[ks].d;
                ca = y[i][rs];
                cb = y[j][rs];
                const double mq = (a.q[ks] + b.q[ks]) / 2;
                flux = -g * d * ((cb - ca) - mq * psi);
                for (int v = 0; v < nv_; ++v) {
                    const auto vs = static_cast<std::size_t>(v);
                    flux_a[vs] = g * d * mq * psi_a[vs];
                    flux_b[vs] = g * d * mq * psi_b[vs];
                }
                flux_a[0] += g * d * psi * a.qx[ks] / 2;
                flux_b[0] += g * d * psi * b.qx[ks] / 2;
                flux_a[rs] += g * d * (1 + psi * a.qt[ks] / 2);
                flux_b[rs] += g * d * (-1 + psi * b.qt[ks] / 2);
            }
            // Carried by the water: central where diffusion rules, upwind where the stream rules.
            const double stream = q[i];
            if (stream != 0) {
                const double upwind = std::max(0.0, 1 - 2 * g * d / std::abs(stream));
                const double wa = 0.5 + (stream > 0 ? 0.5 : -0.5) * upwind;
                flux += stream * (wa * ca + (1 - wa) * cb);
                if (row == 0)
                    for (int v = 0; v < nv_; ++v) {
                        const auto vs = static_cast<std::size_t>(v);
                        flux_a[vs] += stream * wa * a.ds[vs];
                        flux_b[vs] += stream * (1 - wa) * b.ds[vs];
                    }
                else {
                    flux_a[rs] += stream * wa;
                    flux_b[rs] += stream * (1 - wa);
                }
            }
            f[i][rs] -= flux;
            f[j][rs] += flux;
            if (jacobian)
                for (int v = 0; v < nv_; ++v) {
                    const auto vs = static_cast<std::size_t>(v);
                    mid_[i][rs][vs] += ah * flux_a[vs];
                    up_[i][rs][vs] += ah * flux_b[vs];
                    low_[j][rs][vs] -= ah * flux_a[vs];
                    mid_[j][rs][vs] -= ah * flux_b[vs];
                }
        }
    }
    if (o_.fixed_surface) {
        f[0] = Vars{};
        if (jacobian) {
            for (auto& row : mid_[0]) row.fill(0);
            for (auto& row : up_[0]) row.fill(0);
            for (int v = 0; v < nv_; ++v) mid_[0][static_cast<std::size_t>(v)][static_cast<std::size_t>(v)] = 1;
        }
    }
}

// Block LU without pivoting between blocks, with partial pivoting inside each.
bool Engine::factor() {
    const std::size_t cells = mid_.size();
    const auto nv = static_cast<std::size_t>(nv_);
    for (std::size_t i = 0; i < cells; ++i) {
        if (i > 0) {
            // mid_i -= low_i * X with X = mid_{i-1}^-1 up_{i-1}, already stored in up_{i-1}.
            for (std::size_t r = 0; r < nv; ++r)
                for (std::size_t k = 0; k < nv; ++k) {
                    const double l = low_[i][r][k];
                    if (l == 0) continue;
                    for (std::size_t c = 0; c < nv; ++c) mid_[i][r][c] -= l * up_[i - 1][k][c];
                }
        }
        Block& m = mid_[i];
        for (std::size_t c = 0; c < nv; ++c) {
            std::size_t best = c;
            for (std::size_t r = c + 1; r < nv; ++r)
                if (std::abs(m[r][c]) > std::abs(m[best][c])) best = r;
            pivot_[i][c] = static_cast<int>(best);
            if (best != c) std::swap(m[best], m[c]);
            if (m[c][c] == 0 || !std::isfinite(m[c][c])) return false;
            for (std::size_t r = c + 1; r < nv; ++r) {
                const double l = m[r][c] /= m[c][c];
                for (std::size_t k = c + 1; k < nv; ++k) m[r][k] -= l * m[c][k];
            }
        }
        if (i + 1 < cells) {
            Block& u = up_[i];
            for (std::size_t c = 0; c < nv; ++c)
                if (pivot_[i][c] != static_cast<int>(c)) std::swap(u[c], u[static_cast<std::size_t>(pivot_[i][c])]);
            for (std::size_t r = 1; r < nv; ++r)
                for (std::size_t k = 0; k < r; ++k)
                    for (std::size_t c = 0; c < nv; ++c) u[r][c] -= m[r][k] * u[k][c];
            for (std::size_t r = nv; r-- > 0;)
                for (std::size_t c = 0; c < nv; ++c) {
                    double sum = u[r][c];
                    for (std::size_t k = r + 1; k < nv; ++k) sum -= m[r][k] * u[k][c];
                    u[r][c] = sum / m[r][r];
                }
        }
    }
    return true;
}

void Engine::solve(std::vector<Vars>& r) const {
    const std::size_t cells = mid_.size();
    const auto nv = static_cast<std::size_t>(nv_);
    for (std::size_t i = 0; i < cells; ++i) {
        if (i > 0)
            for (std::size_t row = 0; row < nv; ++row)
                for (std::size_t k = 0; k < nv; ++k) r[i][row] -= low_[i][row][k] * r[i - 1][k];
        const Block& m = mid_[i];
        for (std::size_t c = 0; c < nv; ++c) {
            const auto p = static_cast<std::size_t>(pivot_[i][c]);
            if (p != c) std::swap(r[i][c], r[i][p]);
        }
        for (std::size_t row = 1; row < nv; ++row)
            for (std::size_t k = 0; k < row; ++k) r[i][row] -= m[row][k] * r[i][k];
        for (std::size_t row = nv; row-- > 0;) {
            for (std::size_t k = row + 1; k < nv; ++k) r[i][row] -= m[row][k] * r[i][k];
            r[i][row] /= m[row][row];
        }
    }
    for (std::size_t i = cells - 1; i-- > 0;)
        for (std::size_t row = 0; row < nv; ++row)
            for (std::size_t k = 0; k < nv; ++k) r[i][row] -= up_[i][row][k] * r[i + 1][k];
}

bool Engine::solute_stage(const std::vector<Vars>& rhs, const std::vector<double>& q, double ah, std::vector<Vars>& y,
                          std::vector<Vars>& f, std::vector<double>& air) {
    std::vector<Vars> r(y.size()), m;
    const Vars held = y_[0];
    for (int iteration = 0; iteration < 14; ++iteration) {
        ++newton_total_;
        locals(y, loc_);
        rates(y, q, f, air, ah, true);
        storage(y, m);
        for (std::size_t i = 0; i < y.size(); ++i)
            for (int v = 0; v < nv_; ++v) {
                const auto vs = static_cast<std::size_t>(v);
                r[i][vs] = m[i][vs] - rhs[i][vs] - ah * f[i][vs];
            }
        if (o_.fixed_surface)
            for (int v = 0; v < nv_; ++v) r[0][static_cast<std::size_t>(v)] = y[0][static_cast<std::size_t>(v)] - held[static_cast<std::size_t>(v)];
        if (!factor()) return false;
        solve(r);
        double worst = 0;
        for (std::size_t i = 0; i < y.size(); ++i) {
            const double dx = r[i][0];
            worst = std::max(worst, std::abs(dx));
            y[i][0] -= std::clamp(dx, -0.7, 0.7);
            if (y[i][0] < -3 || y[i][0] > 17) return false;
            for (int k = 0; k < n_; ++k) {
                const auto ks = static_cast<std::size_t>(k);
                worst = std::max(worst, std::abs(r[i][ks + 1]) / (reference_[ks] + std::abs(y[i][ks + 1])));
                y[i][ks + 1] -= r[i][ks + 1];
            }
        }
        if (!std::isfinite(worst)) return false;
        if (worst < 1e-9) {
            locals(y, loc_);
            rates(y, q, f, air, ah, true);
            return factor();
        }
    }
    return false;
}

// One TR-BDF2 step of water and solutes. On success the state has moved; `error` is the scaled local error.
bool Engine::step(double h, double& error) {
    const std::size_t cells = y_.size();
    const double ah = alpha_1 * h;
    if (fresh_) {
        place_water(w_);
        locals(y_, loc_);
        water_rates(w_, wf_now_, &q_now_);
        rates(y_, q_now_, f_now_, air_now_, 0, false);
        fresh_ = false;
    }
    auto capacity = [&](std::size_t i) {
        if (i == 0) return 1.0;
        const Layer& layer = layers_[static_cast<std::size_t>(layer_[i])];
        return (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * dz_[i];
    };
    place_water(w_);
    locals(y_, loc_);
    std::vector<Vars> m_now, m_mid, f_mid, f_new, rhs(cells);
    storage(y_, m_now);
    std::vector<double> wr(cells), w_mid = w_, wf_mid, wf_new, q_mid, q_new, air_mid, air_new;
    for (std::size_t i = 0; i < cells; ++i) wr[i] = capacity(i) * w_[i] + ah * wf_now_[i];
    if (!water_stage(wr, ah, w_mid)) { place_water(w_); return false; }
    water_rates(w_mid, wf_mid, &q_mid);
    place_water(w_mid);
    for (std::size_t i = 0; i < cells; ++i)
        for (int v = 0; v < nv_; ++v) rhs[i][static_cast<std::size_t>(v)] = m_now[i][static_cast<std::size_t>(v)] + ah * f_now_[i][static_cast<std::size_t>(v)];
    std::vector<Vars> y_mid = y_;
    if (!solute_stage(rhs, q_mid, ah, y_mid, f_mid, air_mid)) return false;
    storage(y_mid, m_mid);

    std::vector<double> w_new = w_mid;
    for (std::size_t i = 0; i < cells; ++i) wr[i] = capacity(i) * (bdf_new * w_mid[i] - bdf_old * w_[i]);
    if (!water_stage(wr, ah, w_new)) return false;
    water_rates(w_new, wf_new, &q_new);
    place_water(w_new);
    for (std::size_t i = 0; i < cells; ++i)
        for (int v = 0; v < nv_; ++v) {
            const auto vs = static_cast<std::size_t>(v);
            rhs[i][vs] = bdf_new * m_mid[i][vs] - bdf_old * m_now[i][vs];
        }
    std::vector<Vars> y_new = y_mid;
    if (!solute_stage(rhs, q_new, ah, y_new, f_new, air_new)) return false;

    // Local error of third order, filtered by the Jacobian of the last stage (Bank et al. 1985; Hosea & Shampine 1996).
    std::vector<Vars> e(cells);
    for (std::size_t i = 0; i < cells; ++i)
        for (int v = 0; v < nv_; ++v) {
            const auto vs = static_cast<std::size_t>(v);
            e[i][vs] = 2 * error_1 * h * (f_now_[i][vs] / gamma_1 - f_mid[i][vs] / (gamma_1 * (1 - gamma_1)) + f_new[i][vs] / (1 - gamma_1));
        }
    if (o_.fixed_surface) e[0] = Vars{};
    solve(e);
    error = 0;
    for (std::size_t i = 0; i < cells; ++i) {
        error = std::max(error, std::abs(e[i][0]) / (50 * o_.tolerance_1));
        for (int k = 0; k < n_; ++k) {
            const auto ks = static_cast<std::size_t>(k);
            error = std::max(error, std::abs(e[i][ks + 1]) / (20 * o_.tolerance_1 * (reference_[ks] * 0.05 + std::abs(y_new[i][ks + 1]))));
        }
        const double we = 2 * error_1 * h * (wf_now_[i] / gamma_1 - wf_mid[i] / (gamma_1 * (1 - gamma_1)) + wf_new[i] / (1 - gamma_1));
        // The water error is filtered by the cell's own capacity plus its outflow at most, so it is bounded by this.
        const double scale = i == 0 ? o_.film_patchy_kg_m2 + std::abs(w_new[0]) : 1.0;
        const double damped = std::abs(we) / (capacity(i) + ah * (i == 0 ? 0.0 : 2 * kmean(layer_[i], w_new[i], w_new[i]) / dz_[i]) +
                                              (i == 0 ? ah * kmean(layer_[1], patchy(w_new[0]), w_new[1]) / (dz_[1] / 2) / o_.film_patchy_kg_m2 : 0.0));
        error = std::max(error, damped / (20 * o_.tolerance_1 * scale));
    }
    if (error > 1) return true;  // the caller throws the step away
    for (int k = 0; k < n_; ++k) {
        const auto ks = static_cast<std::size_t>(k);
        for (std::size_t i = 0; i < cells; ++i)
            if (y_new[i][ks + 1] < -1e-6 * reference_[ks]) { error = 8; return true; }
    }
    double evaporated_mid = evaporated_ + ah * o_.evaporation_kg_m2_s * (patchy(w_[0]) + patchy(w_mid[0]));
    evaporated_ = bdf_new * evaporated_mid - bdf_old * evaporated_ + ah * o_.evaporation_kg_m2_s * patchy(w_new[0]);
    for (int k = 0; k < n_; ++k) {
        const auto ks = static_cast<std::size_t>(k);
        const double mid = air_lost_[ks] + ah * (air_now_[ks] + air_mid[ks]);
        air_lost_[ks] = bdf_new * mid - bdf_old * air_lost_[ks] + ah * air_new[ks];
    }
    y_ = std::move(y_new);
    w_ = std::move(w_new);
    f_now_ = std::move(f_new);
    q_now_ = std::move(q_new);
    wf_now_ = std::move(wf_new);
    air_now_ = std::move(air_new);
    return true;
}

void Engine::totals_now(std::vector<double>& leather, std::vector<double>& film) const {
    leather.assign(static_cast<std::size_t>(nv_), 0.0);
    film = leather;
    Local l;
    for (std::size_t i = 0; i < y_.size(); ++i) {
        local(y_[i], l);
        auto& into = i == 0 ? film : leather;
        into[0] += liquid_[i] * l.s;
        if (i > 0) {
            double slope = 0;
            const double kg = layers_[static_cast<std::size_t>(layer_[i])].dry_density_kg_m3 * dz_[i];
            if (kg > 0) into[0] += kg * (binding(layer_[i], y_[i][0], slope) - start_bound_[i]);
        }
        for (int k = 1; k < nv_; ++k) into[static_cast<std::size_t>(k)] += liquid_[i] * y_[i][static_cast<std::size_t>(k)];
    }
}

void Engine::snapshot(SectionResult& out, double t) const {
    Snapshot s;
    s.at_s = t;
    s.total_mol_m3.assign(static_cast<std::size_t>(n_), {});
    Local l;
    for (std::size_t i = 1; i < y_.size(); ++i) {
        double slope = 0;
        s.x.push_back(y_[i][0]);
        s.bound_mol_kg.push_back(binding(layer_[i], y_[i][0], slope) - start_bound_[i]);
        s.liquid_kg_m3.push_back(liquid_[i] * 1000 / dz_[i]);
        for (int k = 0; k < n_; ++k) s.total_mol_m3[static_cast<std::size_t>(k)].push_back(y_[i][static_cast<std::size_t>(k) + 1]);
    }
    local(y_[0], l);
    s.film_kg_m2 = std::max(w_[0], 0.0);
    s.film_x = y_[0][0];
    s.film_strong_mol_m2 = liquid_[0] * l.s;
    // The drop takes up residue, finish liquid and the liquid and fibres of the leather down to the reading depth.
    double alkali = s.film_strong_mol_m2, liquid = liquid_[0] + o_.drop_kg_m2 / 1000, below = 0;
    std::vector<double> totals(static_cast<std::size_t>(n_), 0.0);
    for (int k = 0; k < n_; ++k) totals[static_cast<std::size_t>(k)] = liquid_[0] * y_[0][static_cast<std::size_t>(k) + 1];
    std::vector<Solid> solids(layers_.size());
    for (std::size_t li = 0; li < layers_.size(); ++li) solids[li].sites = &layers_[li].sites;
    for (std::size_t i = 1; i < y_.size(); ++i) {
        const auto li = static_cast<std::size_t>(layer_[i]);
        double part = 1;
        if (!layers_[li].finish) {
            if (below >= o_.reading_depth_m) break;
            part = std::min(1.0, (o_.reading_depth_m - below) / dz_[i]);
            below += dz_[i];
        }
        local(y_[i], l);
        double slope = 0;
        const double kg = layers_[li].dry_density_kg_m3 * dz_[i] * part;
        alkali += part * liquid_[i] * l.s + kg * (kg > 0 ? binding(layer_[i], y_[i][0], slope) : 0.0);
        solids[li].kg += kg;
        liquid += part * liquid_[i];
        for (int k = 0; k < n_; ++k) totals[static_cast<std::size_t>(k)] += part * liquid_[i] * y_[i][static_cast<std::size_t>(k) + 1];
    }
    for (double& total : totals) total /= liquid;
    const auto reading = balance_x(source_components_, totals, liquid, solids, alkali, o_.log_kw_1);
    s.reading_x = reading.ok() ? *reading : std::numeric_limits<double>::quiet_NaN();
    out.snapshots.push_back(std::move(s));
}

Result<SectionResult> Engine::run(const std::vector<Stage>& story, const Progress& progress) {
    SectionResult out;
    out.top_m.assign(top_.begin() + 1, top_.end());
    for (std::size_t i = 1; i < dz_.size(); ++i) {
        out.bottom_m.push_back(top_[i] + dz_[i]);
        out.layer_of.push_back(layer_[i]);
    }
    double whole = 0;
    for (const Stage& stage : story)
        if (stage.kind == Stage::Kind::Wait) whole += stage.duration_s;
    for (const Stage& stage : story)
        if (stage.kind == Stage::Kind::Lay)
            for (int k = 0; k < n_; ++k)
                reference_[static_cast<std::size_t>(k)] = std::max(reference_[static_cast<std::size_t>(k)], stage.liquid.total_mol_m3[static_cast<std::size_t>(k)]);

    std::vector<double> leather0, film0, leather1, film1;
    totals_now(leather0, film0);
    std::vector<double> laid(static_cast<std::size_t>(nv_), 0.0), wiped = laid;
    double t = 0, water_laid = 0, water_wiped = 0;
    const std::vector<double> w_start = w_;
    std::size_t next_output = 0;
    int steps = 0;
    snapshot(out, 0);
    for (const Stage& stage : story) {
        if (!stage.name.empty()) out.events.push_back({t, stage.name});
        if (stage.kind == Stage::Kind::Lay) {
            Local l;
            local(y_[0], l);
            const double v_old = liquid_[0], v_add = stage.kg_m2 / 1000, v = v_old + v_add;
            const double alkali = v_old * l.s + v_add * stage.liquid.strong_mol_m3;
            std::vector<double> totals(static_cast<std::size_t>(n_));
            laid[0] += v_add * stage.liquid.strong_mol_m3;
            for (int k = 0; k < n_; ++k) {
                const auto ks = static_cast<std::size_t>(k);
                totals[ks] = (v_old * y_[0][ks + 1] + v_add * stage.liquid.total_mol_m3[ks]) / v;
                laid[ks + 1] += v_add * stage.liquid.total_mol_m3[ks];
                y_[0][ks + 1] = totals[ks];
            }
            HW_TRY(x, balance_x(source_components_, totals, v, {}, alkali, o_.log_kw_1));
            y_[0][0] = x;
            w_[0] = std::max(w_[0], 0.0) + stage.kg_m2;
            water_laid += stage.kg_m2;
            place_water(w_);
            fresh_ = true;
            snapshot(out, t);
        } else if (stage.kind == Stage::Kind::Wipe) {
            Local l;
            local(y_[0], l);
            const double film = std::max(w_[0], 0.0), gone = stage.share_1 * film / 1000;
            wiped[0] += gone * l.s;
            for (int k = 0; k < n_; ++k) wiped[static_cast<std::size_t>(k) + 1] += gone * y_[0][static_cast<std::size_t>(k) + 1];
            w_[0] -= stage.share_1 * film;
            water_wiped += stage.share_1 * film;
            place_water(w_);
            fresh_ = true;
            snapshot(out, t);
        } else {
            const double end = t + stage.duration_s;
            // Without a wish of the caller, outputs lie denser after each event.
            std::vector<double> marks;
            if (o_.output_s.empty()) {
                for (double f : {0.003, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0}) marks.push_back(t + f * stage.duration_s);
            } else {
                for (; next_output < o_.output_s.size() && o_.output_s[next_output] <= end; ++next_output)
                    if (o_.output_s[next_output] > t) marks.push_back(o_.output_s[next_output]);
                if (marks.empty() || marks.back() < end) marks.push_back(end);
            }
            double h = std::min(1e-3, stage.duration_s / 1000);
            for (double mark : marks) {
                while (t < mark) {
                    if (++steps > o_.max_time_steps)
                        return Error{ErrorCode::NotConverged, "The section did not settle within its step budget. Shorten the story or lower the amounts.", "use"};
                    const double left = mark - t;
                    double take = h >= left ? left : (h > left / 2 ? left / 2 : h);
                    double error = 0;
                    if (!step(take, error)) {
                        h = take / 4;
                        ++out.rejected_steps;
                        fresh_ = true;
                        if (h < 1e-9) return Error{ErrorCode::NotConverged, "The section could not be solved at this step. Check the amounts.", "use"};
                        continue;
                    }
                    if (error > 1) {
                        h = take * std::clamp(0.9 / std::cbrt(error), 0.1, 0.5);
                        ++out.rejected_steps;
                        fresh_ = true;
                        if (h < 1e-9) return Error{ErrorCode::NotConverged, "The section could not be solved at this step. Check the amounts.", "use"};
                        continue;
                    }
                    t = take == left ? mark : t + take;
                    const double grow = std::clamp(0.9 / std::cbrt(std::max(error, 1e-6)), 0.3, 3.0);
                    h = take < h ? std::max(h, take * grow) : take * grow;
                    if (progress && steps % 20 == 0 && !progress(whole > 0 ? t / whole : 0, "solving the section"))
                        return Error{ErrorCode::NotConverged, "Cancelled.", "use"};
                }
                place_water(w_);
                snapshot(out, t);
            }
            t = end;
        }
    }
    totals_now(leather1, film1);
    Ledger& ledger = out.ledger;
    ledger.laid_strong_mol_m2 = laid[0];
    ledger.wiped_strong_mol_m2 = wiped[0];
    ledger.in_leather_strong_mol_m2 = leather1[0] - leather0[0];
    for (std::size_t k = 1; k < leather1.size(); ++k) ledger.gained_mol_m2.push_back(leather1[k] + film1[k] - leather0[k] - film0[k]);
    ledger.in_film_strong_mol_m2 = film1[0] - film0[0];
    ledger.lost_to_air_mol_m2 = air_lost_;
    ledger.water_laid_kg_m2 = water_laid;
    ledger.water_wiped_kg_m2 = water_wiped;
    ledger.water_evaporated_kg_m2 = evaporated_;
    for (std::size_t i = 1; i < w_.size(); ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(layer_[i])];
        ledger.water_in_leather_kg_m2 += (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * dz_[i] * (w_[i] - w_start[i]);
    }
    if (!o_.fixed_surface) {
        for (int v = 0; v < nv_; ++v) {
            const auto vs = static_cast<std::size_t>(v);
            const double lost = v == 0 ? 0 : air_lost_[vs - 1];
            const double miss = leather1[vs] + film1[vs] + wiped[vs] + lost - leather0[vs] - film0[vs] - laid[vs];
            const double scale = std::abs(laid[vs]) + std::abs(leather0[vs]) + std::abs(film0[vs]) + std::abs(lost) + 1e-12;
            ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(miss) / scale);
        }
        const double water_miss = w_[0] - w_start[0] + ledger.water_in_leather_kg_m2 + evaporated_ + water_wiped - water_laid;
        ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(water_miss) / (water_laid + 1e-9));
    }
    out.report = {Outcome::Converged, steps, ledger.worst_balance_1};
    return out;
}

}  // namespace

double bound_alkali(const std::vector<Site>& sites, double x) {
    double bound = 0;
    for (const Site& site : sites) bound += site.amount_mol_kg / (1 + std::exp(ln10 * (site.pka_1 - x)));
    return bound;
}

double strong_charge(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double x, double log_kw_1) {
    const double h = std::pow(10.0, -x);
    double s = 1000 * (std::pow(10.0, log_kw_1) / h - h);
    for (std::size_t k = 0; k < components.size(); ++k) s -= total_mol_m3[k] * charges(components[k], h).z;
    return s;
}

double mean_charge(const Component& component, double x) { return charges(component, std::pow(10.0, -x)).z; }

Result<double> balance_x(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double liquid_m3,
                         const std::vector<Solid>& solids, double alkali_mol, double log_kw_1) {
    // Alkali held rises strictly with x: bisection to round-off is safe, and cheap enough beside a time step.
    double low = -3, high = 17;
    auto held = [&](double x) {
        double a = liquid_m3 * strong_charge(components, total_mol_m3, x, log_kw_1);
        for (const Solid& solid : solids)
            if (solid.kg > 0) a += solid.kg * bound_alkali(*solid.sites, x);
        return a;
    };
    if (!(held(low) <= alkali_mol && alkali_mol <= held(high)))
        return Error{ErrorCode::NotConverged, "More acid or alkali than any solution in water can hold.", "liquid"};
    for (int i = 0; i < 60; ++i) {
        const double mid = (low + high) / 2;
        (held(mid) < alkali_mol ? low : high) = mid;
    }
    return (low + high) / 2;
}

Result<SectionResult> run_section(const std::vector<Component>& components, const std::vector<Layer>& layers,
                                  const std::vector<Stage>& story, const Options& options, const Progress& progress) {
    if (layers.empty()) return Error{ErrorCode::InvalidInput, "A section needs at least one layer.", "layers"};
    if (components.size() > static_cast<std::size_t>(max_components))
        return Error{ErrorCode::InvalidInput, "At most six acid-base systems travel at once.", "components"};
    for (const Component& c : components)
        if (c.log_k.size() > static_cast<std::size_t>(max_steps))
            return Error{ErrorCode::InvalidInput, "At most six protons per acid: " + c.name + ".", "components"};
    for (const Layer& layer : layers)
        if (!(layer.thickness_m > 0) || layer.cells < 1)
            return Error{ErrorCode::InvalidInput, "Layer " + layer.name + " has no thickness or no cells.", "layers"};
    for (const Stage& stage : story)
        if (stage.kind == Stage::Kind::Lay && stage.liquid.total_mol_m3.size() != components.size())
            return Error{ErrorCode::InvalidInput, "A liquid laid on lists one total per component.", "story"};
    Engine engine(components, layers, options);
    return engine.run(story, progress);
}

}  // namespace hw::diffusion
