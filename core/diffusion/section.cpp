#include "core/diffusion/section.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

namespace hw::diffusion {

namespace {

constexpr double ln10 = std::numbers::ln10;
// TR-BDF2 with the one gamma that gives both stages the same Jacobian.
const double gamma_1 = 2 - std::numbers::sqrt2;
const double alpha_1 = gamma_1 / 2;
const double bdf_new = 1 / (gamma_1 * (2 - gamma_1));
const double bdf_old = (1 - gamma_1) * (1 - gamma_1) / (gamma_1 * (2 - gamma_1));
const double error_1 = (-3 * gamma_1 * gamma_1 + 4 * gamma_1 - 2) / (12 * (2 - gamma_1));
// Newton stops when what is left of x and of the scaled totals is below this; the balance is as good as this is small.
constexpr double newton_left = 1e-13;

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

/// A site as the kernel wants it: filled share = 1 / (1 + h opener), h in mol/L.
struct FastSite {
    double amount = 0, opener = 0;
};

/// A layer with what does not change during a story.
struct FastLayer {
    std::vector<FastSite> sites;
    double dry = 0, ambient = 0, room = 0, full = 0;       ///< kg/m3; room = full - ambient
    double conductivity = 0, exponent = 0, share = 0, solute_exponent = 0, air = 0;
};

/// The engine for N components, so that blocks are of fixed size and loops unroll.
template <int N>
class Engine {
    static constexpr int nv = N + 1;
    static constexpr std::size_t nvs = nv;
    static constexpr std::size_t slots = N > 0 ? N : 1;
    using Vars = std::array<double, nvs>;
    using Block = std::array<Vars, nvs>;
    using PerComponent = std::array<double, slots>;

    /// Everything of one cell that the fluxes need, with derivatives by (x, T_1 … T_n).
    struct Local {
        double s = 0, bound = 0, bound_x = 0;
        Vars ds{};
        double na = 0, cl = 0, dna = 0, dcl = 0;           ///< dna, dcl by s
        double oh = 0, doh = 0;
        PerComponent z{}, zx{};                           ///< mean charge and its slope
        PerComponent n{}, nx{}, nt{};                      ///< volatile form
        double drive = 0, conductance = 0;                 ///< sum z D c, sum z^2 D c
        Vars ddrive{}, dconductance{};
    };

public:
    Engine(const std::vector<Component>& components, const std::vector<Layer>& layers, const Options& options)
        : source_components_(components), layers_(layers), o_(options) {
        for (std::size_t k = 0; k < components.size(); ++k) {
            const Component& c = components[k];
            FastComponent& f = comp_[k];
            f.top = c.top_charge;
            f.steps = static_cast<int>(c.log_k.size());
            f.neutral = c.neutral_form;
            for (std::size_t i = 0; i < c.log_k.size(); ++i) f.k[i] = std::pow(10.0, c.log_k[i]);
            f.d = c.d_m2_s;
            f.air = c.air_mol_m3;
            f.velocity = c.film_velocity_m_s;
            f.hydroxide = c.hydroxide_rate_m3_mol_s;
            f.pore = c.pore_exchange_per_s;
        }
        for (const Layer& layer : layers) {
            FastLayer f;
            for (const Site& site : layer.sites) f.sites.push_back({site.amount_mol_kg, std::pow(10.0, site.pka_1)});
            f.dry = layer.dry_density_kg_m3;
            f.ambient = layer.water_ambient_kg_m3;
            f.full = layer.water_full_kg_m3;
            f.room = f.full - f.ambient;
            f.conductivity = layer.water_conductivity_kg_m_s;
            f.exponent = layer.water_exponent_1;
            f.share = layer.solute_share_1;
            f.solute_exponent = layer.solute_exponent_1;
            f.air = layer.air_share_1;
            fast_.push_back(std::move(f));
        }
        kw_ = std::pow(10.0, o_.log_kw_1);
        build_mesh();
        start();
    }

    Result<SectionResult> run(const std::vector<Stage>& story, const Progress& progress);

private:
    void build_mesh();
    void start();
    template <bool Slopes>
    void local(std::size_t cell, const Vars& y, Local& out) const;
    template <bool Slopes>
    void locals(const std::vector<Vars>& y);
    double kmean(std::size_t layer, double ui, double uj) const;
    double patchy(double w) const { return -std::expm1(-w / o_.film_patchy_kg_m2); }
    double water_face(std::size_t face, double wi, double wj) const;
    void water_faces(const std::vector<double>& w, bool slopes);
    void water_rates(const std::vector<double>& w, std::vector<double>& f, std::vector<double>& q);
    bool water_stage(const std::vector<double>& rhs, double ah, std::vector<double>& w);
    void place_water(const std::vector<double>& w);
    void storage(const std::vector<Vars>& y, std::vector<Vars>& m) const;
    template <bool Slopes>
    void rates(const std::vector<Vars>& y, const std::vector<double>& q, std::vector<Vars>& f, PerComponent& air, double ah);
    bool solute_stage(const std::vector<Vars>& rhs, const std::vector<double>& q, double ah, std::vector<Vars>& y, std::vector<Vars>& m,
                      std::vector<Vars>& f, PerComponent& air, bool factored);
    bool factor();
    void solve(std::vector<Vars>& r) const;
    void predict(std::vector<Vars>& y, const std::vector<Vars>& last, const std::vector<Vars>& before, double share) const;
    bool step(double h, double& error);
    void snapshot(SectionResult& out, double t) const;
    void totals_now(std::vector<double>& leather, std::vector<double>& film) const;
    const FastLayer& of(std::size_t cell) const { return fast_[static_cast<std::size_t>(layer_[cell])]; }

    const std::vector<Component>& source_components_;
    const std::vector<Layer>& layers_;
    Options o_;
    double kw_ = 1e-14;
    std::array<FastComponent, slots> comp_{};
    std::vector<FastLayer> fast_;
    // Cell 0 is the film; cells 1 … are the leather.
    std::vector<double> dz_, top_, dry_kg_, room_kg_;
    std::vector<int> layer_;
    std::vector<Vars> y_;
    std::vector<double> w_;                       ///< film water kg/m2, then u of each cell
    std::vector<double> liquid_, open_, dryness_; ///< m3/m2, D_layer/D, 1-u
    std::vector<double> start_bound_;
    PerComponent air_lost_{};
    PerComponent reference_{};                    ///< scale of each component, mol/m3
    double evaporated_ = 0, step_before_ = 0;
    // What the last accepted step left, and work space, so that a step allocates nothing.
    std::vector<Vars> f_now_;
    std::vector<double> q_now_, wf_now_;
    PerComponent air_now_{};
    bool fresh_ = true;
    std::vector<Local> loc_;
    std::vector<Block> low_, mid_, up_;
    std::vector<Vars> m_now_, m_mid_, m_new_, f_mid_, f_new_, y_mid_, y_new_, y_before_, rhs_, r_;
    std::vector<double> wr_, w_mid_, w_new_, wf_mid_, wf_new_, q_mid_, q_new_;
    std::vector<double> wa_, wb_, wc_, wres_, phi_, flux_, flux_i_, flux_j_;
};

template <int N>
void Engine<N>::build_mesh() {
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
    for (std::size_t i = 0; i < dz_.size(); ++i) {
        dry_kg_.push_back(i == 0 ? 0 : of(i).dry * dz_[i]);
        room_kg_.push_back(i == 0 ? 1 : of(i).room * dz_[i]);
    }
}

template <int N>
void Engine<N>::start() {
    const std::size_t cells = dz_.size();
    y_.assign(cells, Vars{});
    w_.assign(cells, 0.0);
    reference_.fill(1e-3);
    for (std::size_t i = 0; i < cells; ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(std::max(layer_[i], 0))];
        y_[i][0] = layer.start_x;
        for (std::size_t k = 0; k < N; ++k) {
            const double t = k < layer.start_mol_m3.size() ? layer.start_mol_m3[k] : 0.0;
            y_[i][k + 1] = t;
            reference_[k] = std::max(reference_[k], t);
        }
    }
    for (auto* rows : {&f_now_, &m_now_, &m_mid_, &m_new_, &f_mid_, &f_new_, &y_mid_, &y_new_, &y_before_, &rhs_, &r_}) rows->assign(cells, Vars{});
    for (auto* row : {&q_now_, &wf_now_, &wr_, &w_mid_, &w_new_, &wf_mid_, &wf_new_, &q_mid_, &q_new_, &wa_, &wb_, &wc_, &wres_, &phi_, &flux_,
                      &flux_i_, &flux_j_, &liquid_, &open_, &dryness_, &start_bound_})
        row->assign(cells, 0.0);
    loc_.resize(cells);
    low_.resize(cells);
    mid_.resize(cells);
    up_.resize(cells);
    place_water(w_);
    Local l;
    for (std::size_t i = 1; i < cells; ++i) {
        local<false>(i, y_[i], l);
        start_bound_[i] = l.bound;
    }
}

template <int N>
void Engine<N>::place_water(const std::vector<double>& w) {
    liquid_[0] = (std::max(w[0], 0.0) + o_.film_left_kg_m2) / 1000;
    for (std::size_t i = 1; i < dz_.size(); ++i) {
        const FastLayer& layer = of(i);
        const double kg = layer.ambient + layer.room * w[i];
        liquid_[i] = kg / 1000 * dz_[i];
        open_[i] = layer.share * std::pow(kg / layer.full, layer.solute_exponent);
        dryness_[i] = std::clamp(1 - w[i], 0.0, 1.0);
    }
}

/// Mean of K exp(n (u - 1)) between two potentials (Kirchhoff).
template <int N>
double Engine<N>::kmean(std::size_t layer, double ui, double uj) const {
    const FastLayer& l = fast_[layer];
    const double d = l.exponent * (ui - uj), base = l.conductivity * std::exp(l.exponent * (uj - 1));
    return std::abs(d) < 1e-7 ? base * (1 + d / 2) : base * std::expm1(d) / d;
}

/// Water flux through a face where conductivity changes: the skin under the film (face 0) and the border of two layers.
template <int N>
double Engine<N>::water_face(std::size_t face, double wi, double wj) const {
    const auto below = static_cast<std::size_t>(layer_[face + 1]);
    if (face == 0) {
        const double u = patchy(wi);
        return kmean(below, u, wj) * (u - wj) / (dz_[1] / 2);
    }
    const auto above = static_cast<std::size_t>(layer_[face]);
    return (wi - wj) / (dz_[face] / 2 / kmean(above, wi, wj) + dz_[face + 1] / 2 / kmean(below, wi, wj));
}

/// Fluxes through all faces into flux_, their slopes by the potentials above and below into flux_i_ and flux_j_.
template <int N>
void Engine<N>::water_faces(const std::vector<double>& w, bool slopes) {
    const std::size_t cells = dz_.size();
    for (std::size_t i = 1; i < cells; ++i) phi_[i] = of(i).exponent > 0 ? std::exp(of(i).exponent * (w[i] - 1)) : 1;
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        if (i > 0 && layer_[i] == layer_[i + 1]) {
            const FastLayer& l = of(i);
            const double way = l.conductivity / (dz_[i] / 2 + dz_[i + 1] / 2);
            flux_[i] = l.exponent > 0 ? way * (phi_[i] - phi_[i + 1]) / l.exponent : way * (w[i] - w[i + 1]);
            flux_i_[i] = way * phi_[i];
            flux_j_[i] = -way * phi_[i + 1];
            continue;
        }
        flux_[i] = water_face(i, w[i], w[i + 1]);
        if (!slopes) continue;
        const double step_i = i == 0 ? 1e-7 * o_.film_patchy_kg_m2 : 1e-7, step_j = 1e-7;
        flux_i_[i] = (water_face(i, w[i] + step_i, w[i + 1]) - flux_[i]) / step_i;
        flux_j_[i] = (water_face(i, w[i], w[i + 1] + step_j) - flux_[i]) / step_j;
    }
}

/// Rates of the stored water, kg/(m2 s), and the stream through each face, m/s.
template <int N>
void Engine<N>::water_rates(const std::vector<double>& w, std::vector<double>& f, std::vector<double>& q) {
    const std::size_t cells = dz_.size();
    water_faces(w, false);
    f[0] = -o_.evaporation_kg_m2_s * patchy(w[0]);
    for (std::size_t i = 1; i < cells; ++i) f[i] = 0;
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        f[i] -= flux_[i];
        f[i + 1] += flux_[i];
        q[i] = flux_[i] / 1000;
    }
}

template <int N>
bool Engine<N>::water_stage(const std::vector<double>& rhs, double ah, std::vector<double>& w) {
    const std::size_t cells = dz_.size();
    for (int iteration = 0; iteration < 20; ++iteration) {
        water_faces(w, true);
        for (std::size_t i = 0; i < cells; ++i) {
            wa_[i] = wc_[i] = 0;
            wb_[i] = room_kg_[i];
            wres_[i] = room_kg_[i] * w[i] - rhs[i];
        }
        wres_[0] += ah * o_.evaporation_kg_m2_s * patchy(w[0]);
        wb_[0] += ah * o_.evaporation_kg_m2_s * std::exp(-w[0] / o_.film_patchy_kg_m2) / o_.film_patchy_kg_m2;
        for (std::size_t i = 0; i + 1 < cells; ++i) {
            wres_[i] += ah * flux_[i];
            wres_[i + 1] -= ah * flux_[i];
            wb_[i] += ah * flux_i_[i];
            wc_[i] += ah * flux_j_[i];
            wa_[i + 1] -= ah * flux_i_[i];
            wb_[i + 1] -= ah * flux_j_[i];
        }
        for (std::size_t i = 1; i < cells; ++i) {
            const double m = wa_[i] / wb_[i - 1];
            wb_[i] -= m * wc_[i - 1];
            wres_[i] -= m * wres_[i - 1];
        }
        double worst = 0;
        for (std::size_t i = cells; i-- > 0;) {
            wres_[i] = (wres_[i] - (i + 1 < cells ? wc_[i] * wres_[i + 1] : 0.0)) / wb_[i];
            const double limited = i == 0 ? wres_[i] : std::clamp(wres_[i], -0.3, 0.3);
            w[i] -= limited;
            worst = std::max(worst, std::abs(wres_[i]) / (i == 0 ? o_.film_patchy_kg_m2 + std::abs(w[0]) : 1.0));
        }
        if (!std::isfinite(worst)) return false;
        if (worst < 1e-7) return true;  // Newton squares what is left: below 1e-13
    }
    return false;
}

/// Charges, forms and binding of a cell; with `Slopes` also their derivatives.
template <int N>
template <bool Slopes>
void Engine<N>::local(std::size_t cell, const Vars& y, Local& out) const {
    const double h = std::exp(-ln10 * y[0]), inverse = 1 / h;  // mol/L
    const double hm = 1000 * h, ohm = 1000 * kw_ * inverse;
    double bound = 0, bound_x = 0;
    if (cell > 0)
        for (const FastSite& site : of(cell).sites) {
            const double f = 1 / (1 + h * site.opener);
            bound += site.amount * f;
            if constexpr (Slopes) bound_x += site.amount * f * (1 - f);
        }
    out.bound = bound;
    out.oh = ohm;
    double s = ohm - hm, s_x = ln10 * (ohm + hm);
    double drive = o_.d_hydrogen_m2_s * hm - o_.d_hydroxide_m2_s * ohm;
    double conductance = o_.d_hydrogen_m2_s * hm + o_.d_hydroxide_m2_s * ohm;
    if constexpr (Slopes) {
        out.bound_x = ln10 * bound_x;
        out.doh = ln10 * ohm;
        out.ddrive[0] = -ln10 * conductance;
        out.dconductance[0] = -ln10 * drive;
    }
    for (std::size_t k = 0; k < N; ++k) {
        const FastComponent& c = comp_[k];
        double weight = 1, sum = 1, z = c.top;
        double s1 = z, s2 = z * z, s3 = z * z * z, volatile_weight = c.neutral == 0 ? 1 : 0;
        for (int step = 0; step < c.steps; ++step) {
            weight *= c.k[static_cast<std::size_t>(step)] * inverse;
            z -= 1;
            sum += weight;
            s1 += weight * z;
            s2 += weight * z * z;
            if constexpr (Slopes) s3 += weight * z * z * z;
            if (c.neutral == step + 1) volatile_weight = weight;
        }
        const double part = 1 / sum, t = y[k + 1], share = volatile_weight * part;
        s1 *= part;
        s2 *= part;
        out.z[k] = s1;
        out.n[k] = t * share;
        s -= t * s1;
        drive += c.d * t * s1;
        conductance += c.d * t * s2;
        if constexpr (Slopes) {
            s3 *= part;
            out.zx[k] = -ln10 * (s2 - s1 * s1);
            s_x -= t * out.zx[k];
            out.ds[k + 1] = -s1;
            out.ddrive[0] += c.d * t * out.zx[k];
            out.ddrive[k + 1] = c.d * s1;
            out.dconductance[0] += -c.d * ln10 * t * (s3 - s2 * s1);
            out.dconductance[k + 1] = c.d * s2;
            out.nt[k] = share;
            out.nx[k] = -ln10 * t * share * (c.top - c.neutral - s1);
        }
    }
    // Strong cations and anions around an inert background: na - cl = s, na cl = background^2.
    const double b2 = 4 * o_.background_mol_m3 * o_.background_mol_m3 + 1e-18;
    const double root = std::sqrt(s * s + b2), big = (root + std::abs(s)) / 2, small = b2 / 4 / big;
    out.s = s;
    out.na = s > 0 ? big : small;
    out.cl = s > 0 ? small : big;
    const double dc = o_.d_strong_cation_m2_s, da = o_.d_strong_anion_m2_s;
    out.drive = drive + dc * out.na - da * out.cl;
    out.conductance = conductance + dc * out.na + da * out.cl;
    if constexpr (Slopes) {
        out.ds[0] = s_x;
        out.dna = out.na / root;
        out.dcl = -out.cl / root;
        for (std::size_t v = 0; v < nvs; ++v) {
            out.ddrive[v] += (dc * out.dna - da * out.dcl) * out.ds[v];
            out.dconductance[v] += (dc * out.dna + da * out.dcl) * out.ds[v];
        }
    }
}

template <int N>
template <bool Slopes>
void Engine<N>::locals(const std::vector<Vars>& y) {
    for (std::size_t i = 0; i < y.size(); ++i) local<Slopes>(i, y[i], loc_[i]);
}

/// Stored alkali and totals per m2. loc_ must be current.
template <int N>
void Engine<N>::storage(const std::vector<Vars>& y, std::vector<Vars>& m) const {
    for (std::size_t i = 0; i < y.size(); ++i) {
        m[i][0] = liquid_[i] * loc_[i].s + dry_kg_[i] * loc_[i].bound;
        for (std::size_t k = 1; k < nvs; ++k) m[i][k] = liquid_[i] * y[i][k];
    }
}

// Rates of all cells. With `Slopes`, the blocks of dM/dy - ah dF/dy are left in low_, mid_, up_. loc_ must be current.
template <int N>
template <bool Slopes>
void Engine<N>::rates(const std::vector<Vars>& y, const std::vector<double>& q, std::vector<Vars>& f, PerComponent& air, double ah) {
    const std::size_t cells = y.size();
    air.fill(0);
    for (std::size_t i = 0; i < cells; ++i) {
        f[i] = Vars{};
        if constexpr (Slopes) {
            Block& m = mid_[i];
            m = Block{};
            for (std::size_t v = 0; v < nvs; ++v) m[0][v] = liquid_[i] * loc_[i].ds[v];
            m[0][0] += dry_kg_[i] * loc_[i].bound_x;
            for (std::size_t k = 1; k < nvs; ++k) m[k][k] = liquid_[i];
        }
        // Exchange with the room air.
        const double breathing = i == 0 ? 0 : of(i).air * dryness_[i] * liquid_[i];
        for (std::size_t ks = 0; ks < N; ++ks) {
            const FastComponent& c = comp_[ks];
            if (c.neutral < 0 || (i == 0 && o_.fixed_surface)) continue;
            double speed = c.pore * breathing, speed_x = 0;
            const double over = loc_[i].n[ks] - c.air;
            if (i == 0) {
                // Film theory with a fast first-order reaction: velocity sqrt(1 + D k / velocity^2) (Danckwerts).
                const double boost = c.hydroxide > 0 ? std::sqrt(1 + c.d * c.hydroxide * loc_[i].oh / (c.velocity * c.velocity)) : 1;
                speed = c.velocity * boost;
                if (c.hydroxide > 0) speed_x = c.d * c.hydroxide * loc_[i].doh / (2 * boost * c.velocity);
            }
            f[i][ks + 1] -= speed * over;
            air[ks] += speed * over;
            if constexpr (Slopes) {
                mid_[i][ks + 1][0] += ah * (speed * loc_[i].nx[ks] + speed_x * over);
                mid_[i][ks + 1][ks + 1] += ah * speed * loc_[i].nt[ks];
            }
        }
    }
    // Between neighbours.
    const double dc = o_.d_strong_cation_m2_s, da = o_.d_strong_anion_m2_s;
    const bool coupled = o_.electroneutral;
    for (std::size_t i = 0; i + 1 < cells; ++i) {
        const std::size_t j = i + 1;
        const Local &a = loc_[i], &b = loc_[j];
        const double g = 1 / ((i == 0 ? 0 : dz_[i] / 2 / open_[i]) + dz_[j] / 2 / open_[j]);
        const double per_cond = 2 / (a.conductance + b.conductance);
        const double psi = coupled ? (b.drive - a.drive) * per_cond : 0;
        // Carried by the water: central where diffusion rules, upwind where the stream rules.
        const double stream = q[i];
        const auto weight_a = [&](double d) {
            const double upwind = stream == 0 ? 0 : std::max(0.0, 1 - 2 * g * d / std::abs(stream));
            return stream * (0.5 + (stream > 0 ? 0.5 : -0.5) * upwind);
        };
        Vars flux, psi_a, psi_b;
        [[maybe_unused]] Block by_a, by_b;
        if constexpr (Slopes)
            for (std::size_t v = 0; v < nvs; ++v) {
                psi_a[v] = coupled ? (-a.ddrive[v] - psi * a.dconductance[v] / 2) * per_cond : 0;
                psi_b[v] = coupled ? (b.ddrive[v] - psi * b.dconductance[v] / 2) * per_cond : 0;
            }
        {
            const double wa = weight_a(dc), wb = stream - wa;
            double sa = g * dc, sb = -g * dc, by_psi = 0;
            if (coupled) {
                const double mna = (a.na + b.na) / 2, mcl = (a.cl + b.cl) / 2;
                flux[0] = -g * (dc * ((b.na - a.na) - mna * psi) - da * ((b.cl - a.cl) + mcl * psi));
                by_psi = g * (dc * mna + da * mcl);
                sa = g * (dc * a.dna * (1 + psi / 2) - da * a.dcl * (1 - psi / 2));
                sb = -g * (dc * b.dna * (1 - psi / 2) - da * b.dcl * (1 + psi / 2));
            } else {
                flux[0] = -g * dc * (b.s - a.s);
            }
            flux[0] += wa * a.s + wb * b.s;
            if constexpr (Slopes)
                for (std::size_t v = 0; v < nvs; ++v) {
                    by_a[0][v] = (sa + wa) * a.ds[v] + by_psi * psi_a[v];
                    by_b[0][v] = (sb + wb) * b.ds[v] + by_psi * psi_b[v];
                }
        }
        for (std::size_t ks = 0; ks < N; ++ks) {
            const std::size_t row = ks + 1;
            // Stream and field carry the totals at speeds va, vb. The weights fa, fb are halves while diffusion rules; beyond
            // that they lean upstream just enough that neither neighbour is drawn below zero.
            const double gd = g * comp_[ks].d, ta = y[i][row], tb = y[j][row];
            const double za = a.z[ks], zb = b.z[ks], va = stream + gd * psi * za, vb = stream + gd * psi * zb;
            double fb = 0.5, fb_va = 0, fb_vb = 0;
            if (vb > 2 * gd) {
                fb = gd / vb;
                fb_vb = -fb / vb;
            } else if (va < -2 * gd) {
                fb = 1 + gd / va;
                fb_va = -gd / (va * va);
            }
            const double fa = 1 - fb;
            flux[row] = -gd * (tb - ta) + fa * va * ta + fb * vb * tb;
            if constexpr (Slopes) {
                const double turn = vb * tb - va * ta;
                const double by_va = gd * (fa * ta + fb_va * turn), by_vb = gd * (fb * tb + fb_vb * turn);
                for (std::size_t v = 0; v < nvs; ++v) {
                    by_a[row][v] = (by_va * za + by_vb * zb) * psi_a[v];
                    by_b[row][v] = (by_va * za + by_vb * zb) * psi_b[v];
                }
                by_a[row][0] += by_va * psi * a.zx[ks];
                by_b[row][0] += by_vb * psi * b.zx[ks];
                by_a[row][row] += gd + fa * va;
                by_b[row][row] += -gd + fb * vb;
            }
        }
        for (std::size_t row = 0; row < nvs; ++row) {
            f[i][row] -= flux[row];
            f[j][row] += flux[row];
            if constexpr (Slopes)
                for (std::size_t v = 0; v < nvs; ++v) {
                    mid_[i][row][v] += ah * by_a[row][v];
                    up_[i][row][v] = ah * by_b[row][v];
                    low_[j][row][v] = -ah * by_a[row][v];
                    mid_[j][row][v] -= ah * by_b[row][v];
                }
        }
    }
    if (o_.fixed_surface) {
        f[0] = Vars{};
        if constexpr (Slopes) {
            mid_[0] = up_[0] = Block{};
            for (std::size_t v = 0; v < nvs; ++v) mid_[0][v][v] = 1;
        }
    }
}

// Block elimination from the film down. It leaves the inverse of each eliminated diagonal block in mid_ and multiplies low_
// and up_ by it, because one factored Jacobian serves several solves. Inside a block the pivot is the largest of its column.
template <int N>
bool Engine<N>::factor() {
    const auto times = [](const Block& a, const Block& b) {
        Block c{};
        for (std::size_t r = 0; r < nvs; ++r)
            for (std::size_t k = 0; k < nvs; ++k)
                for (std::size_t v = 0; v < nvs; ++v) c[r][v] += a[r][k] * b[k][v];
        return c;
    };
    for (std::size_t i = 0; i < mid_.size(); ++i) {
        Block m = mid_[i];
        if (i > 0) {
            const Block carried = times(low_[i], up_[i - 1]);
            for (std::size_t r = 0; r < nvs; ++r)
                for (std::size_t v = 0; v < nvs; ++v) m[r][v] -= carried[r][v];
        }
        Block inverse{};
        for (std::size_t v = 0; v < nvs; ++v) inverse[v][v] = 1;
        for (std::size_t c = 0; c < nvs; ++c) {
            std::size_t best = c;
            for (std::size_t r = c + 1; r < nvs; ++r)
                if (std::abs(m[r][c]) > std::abs(m[best][c])) best = r;
            std::swap(m[best], m[c]);
            std::swap(inverse[best], inverse[c]);
            if (m[c][c] == 0 || !std::isfinite(m[c][c])) return false;
            const double part = 1 / m[c][c];
            for (std::size_t v = 0; v < nvs; ++v) {
                m[c][v] *= part;
                inverse[c][v] *= part;
            }
            for (std::size_t r = 0; r < nvs; ++r) {
                if (r == c) continue;
                const double share = m[r][c];
                for (std::size_t v = 0; v < nvs; ++v) {
                    m[r][v] -= share * m[c][v];
                    inverse[r][v] -= share * inverse[c][v];
                }
            }
        }
        mid_[i] = inverse;
        if (i > 0) low_[i] = times(inverse, low_[i]);
        if (i + 1 < mid_.size()) up_[i] = times(inverse, up_[i]);
    }
    return true;
}

template <int N>
void Engine<N>::solve(std::vector<Vars>& r) const {
    const std::size_t cells = mid_.size();
    for (std::size_t i = 0; i < cells; ++i) {
        Vars x{};
        for (std::size_t row = 0; row < nvs; ++row)
            for (std::size_t k = 0; k < nvs; ++k) x[row] += mid_[i][row][k] * r[i][k];
        if (i > 0)
            for (std::size_t row = 0; row < nvs; ++row)
                for (std::size_t k = 0; k < nvs; ++k) x[row] -= low_[i][row][k] * r[i - 1][k];
        r[i] = x;
    }
    for (std::size_t i = cells - 1; i-- > 0;)
        for (std::size_t row = 0; row < nvs; ++row)
            for (std::size_t k = 0; k < nvs; ++k) r[i][row] -= up_[i][row][k] * r[i + 1][k];
}

// Newton's method on M(y) - ah F(y) = rhs. The factored Jacobian is kept while each pass shrinks the change well, from one
// stage to the next as well (`factored`); it is renewed as soon as it does not.
template <int N>
bool Engine<N>::solute_stage(const std::vector<Vars>& rhs, const std::vector<double>& q, double ah, std::vector<Vars>& y, std::vector<Vars>& m,
                             std::vector<Vars>& f, PerComponent& air, bool factored) {
    const std::size_t cells = y.size();
    double before = 0;
    bool renew = !factored;
    for (int iteration = 0; iteration < 20; ++iteration) {
        if (renew) {
            locals<true>(y);
            rates<true>(y, q, f, air, ah);
        } else {
            locals<false>(y);
            rates<false>(y, q, f, air, ah);
        }
        storage(y, m);
        for (std::size_t i = 0; i < cells; ++i)
            for (std::size_t v = 0; v < nvs; ++v) r_[i][v] = m[i][v] - rhs[i][v] - ah * f[i][v];
        if (o_.fixed_surface) r_[0] = Vars{};
        if (renew && !factor()) return false;
        solve(r_);
        double worst = 0;
        for (std::size_t i = 0; i < cells; ++i) {
            worst = std::max(worst, std::abs(r_[i][0]));
            for (std::size_t k = 0; k < N; ++k) worst = std::max(worst, std::abs(r_[i][k + 1]) / (reference_[k] + std::abs(y[i][k + 1])));
        }
        if (!std::isfinite(worst)) return false;
        // A kept Jacobian that would throw y far is not worth following.
        if (!renew && worst > 0.1) {
            renew = true;
            before = 0;
            continue;
        }
        for (std::size_t i = 0; i < cells; ++i) {
            y[i][0] -= std::clamp(r_[i][0], -0.7, 0.7);
            if (y[i][0] < -3 || y[i][0] > 17) return false;
            for (std::size_t k = 1; k < nvs; ++k) y[i][k] -= r_[i][k];
        }
        // A fresh Jacobian squares what is left, a kept one shrinks it at the rate seen.
        const double rate = before > 0 ? worst / before : 1;
        const double left = renew ? worst * worst : worst * std::min(1.0, rate);
        if (left < newton_left && worst < 1e-4) {
            locals<false>(y);
            rates<false>(y, q, f, air, ah);
            storage(y, m);
            return true;
        }
        renew = before > 0 ? rate > 0.1 : worst > 0.03;
        before = worst;
    }
    return false;
}

/// First guess of a stage: the last change carried on, held back where that would overshoot.
template <int N>
void Engine<N>::predict(std::vector<Vars>& y, const std::vector<Vars>& last, const std::vector<Vars>& before, double share) const {
    y = last;
    if (share <= 0 || share > 4) return;
    for (std::size_t i = 0; i < y.size(); ++i) {
        y[i][0] += std::clamp(share * (last[i][0] - before[i][0]), -0.2, 0.2);
        for (std::size_t k = 1; k < nvs; ++k) y[i][k] = std::max(y[i][k] + share * (last[i][k] - before[i][k]), y[i][k] / 2);
    }
    if (o_.fixed_surface) y[0] = last[0];
}

// One TR-BDF2 step of water and solutes. On success the state has moved; `error` is the scaled local error.
template <int N>
bool Engine<N>::step(double h, double& error) {
    const std::size_t cells = y_.size();
    const double ah = alpha_1 * h;
    place_water(w_);
    locals<false>(y_);
    storage(y_, m_now_);
    if (fresh_) {
        step_before_ = 0;
        water_rates(w_, wf_now_, q_now_);
        rates<false>(y_, q_now_, f_now_, air_now_, 0);
        fresh_ = false;
    }
    w_mid_ = w_;
    for (std::size_t i = 0; i < cells; ++i) wr_[i] = room_kg_[i] * w_[i] + ah * wf_now_[i];
    if (!water_stage(wr_, ah, w_mid_)) return false;
    water_rates(w_mid_, wf_mid_, q_mid_);
    place_water(w_mid_);
    for (std::size_t i = 0; i < cells; ++i)
        for (std::size_t v = 0; v < nvs; ++v) rhs_[i][v] = m_now_[i][v] + ah * f_now_[i][v];
    predict(y_mid_, y_, y_before_, step_before_ > 0 ? gamma_1 * h / step_before_ : 0);
    PerComponent air_mid{}, air_new{};
    if (!solute_stage(rhs_, q_mid_, ah, y_mid_, m_mid_, f_mid_, air_mid, false)) return false;

    w_new_ = w_mid_;
    for (std::size_t i = 0; i < cells; ++i) wr_[i] = room_kg_[i] * (bdf_new * w_mid_[i] - bdf_old * w_[i]);
    if (!water_stage(wr_, ah, w_new_)) return false;
    water_rates(w_new_, wf_new_, q_new_);
    place_water(w_new_);
    for (std::size_t i = 0; i < cells; ++i)
        for (std::size_t v = 0; v < nvs; ++v) rhs_[i][v] = bdf_new * m_mid_[i][v] - bdf_old * m_now_[i][v];
    predict(y_new_, y_mid_, y_, (1 - gamma_1) / gamma_1);
    if (!solute_stage(rhs_, q_new_, ah, y_new_, m_new_, f_new_, air_new, true)) return false;

    // Local error of third order, filtered by the Jacobian of the last stage (Bank et al. 1985; Hosea & Shampine 1996).
    for (std::size_t i = 0; i < cells; ++i)
        for (std::size_t v = 0; v < nvs; ++v)
            r_[i][v] = 2 * error_1 * h * (f_now_[i][v] / gamma_1 - f_mid_[i][v] / (gamma_1 * (1 - gamma_1)) + f_new_[i][v] / (1 - gamma_1));
    if (o_.fixed_surface) r_[0] = Vars{};
    solve(r_);
    error = 0;
    for (std::size_t i = 0; i < cells; ++i) {
        error = std::max(error, std::abs(r_[i][0]) / (50 * o_.tolerance_1));
        for (std::size_t k = 0; k < N; ++k)
            error = std::max(error, std::abs(r_[i][k + 1]) / (20 * o_.tolerance_1 * (reference_[k] * 0.05 + std::abs(y_new_[i][k + 1]))));
        const double we = 2 * error_1 * h * (wf_now_[i] / gamma_1 - wf_mid_[i] / (gamma_1 * (1 - gamma_1)) + wf_new_[i] / (1 - gamma_1));
        // The water error is filtered by the cell's own capacity plus its outflow at most, so it is bounded by this.
        const double scale = i == 0 ? o_.film_patchy_kg_m2 + std::abs(w_new_[0]) : 1.0;
        const double outflow = i == 0 ? kmean(static_cast<std::size_t>(layer_[1]), patchy(w_new_[0]), w_new_[1]) / (dz_[1] / 2) / o_.film_patchy_kg_m2
                                      : 2 * of(i).conductivity * phi_[i] / dz_[i];  // phi_ is that of w_new_
        error = std::max(error, std::abs(we) / (room_kg_[i] + ah * outflow) / (20 * o_.tolerance_1 * scale));
    }
    if (error > 1) return true;  // the caller throws the step away
    for (std::size_t k = 0; k < N; ++k)
        for (std::size_t i = 0; i < cells; ++i)
            if (y_new_[i][k + 1] < -1e-6 * reference_[k]) {
                error = 8;
                return true;
            }
    const double evaporated_mid = evaporated_ + ah * o_.evaporation_kg_m2_s * (patchy(w_[0]) + patchy(w_mid_[0]));
    evaporated_ = bdf_new * evaporated_mid - bdf_old * evaporated_ + ah * o_.evaporation_kg_m2_s * patchy(w_new_[0]);
    for (std::size_t k = 0; k < N; ++k) {
        const double mid = air_lost_[k] + ah * (air_now_[k] + air_mid[k]);
        air_lost_[k] = bdf_new * mid - bdf_old * air_lost_[k] + ah * air_new[k];
    }
    std::swap(y_before_, y_);
    std::swap(y_, y_new_);
    step_before_ = h;
    std::swap(w_, w_new_);
    std::swap(f_now_, f_new_);
    std::swap(q_now_, q_new_);
    std::swap(wf_now_, wf_new_);
    air_now_ = air_new;
    return true;
}

template <int N>
void Engine<N>::totals_now(std::vector<double>& leather, std::vector<double>& film) const {
    leather.assign(nvs, 0.0);
    film = leather;
    Local l;
    for (std::size_t i = 0; i < y_.size(); ++i) {
        local<false>(i, y_[i], l);
        auto& into = i == 0 ? film : leather;
        into[0] += liquid_[i] * l.s;
        into[0] += dry_kg_[i] * (l.bound - start_bound_[i]);
        for (std::size_t k = 1; k < nvs; ++k) into[k] += liquid_[i] * y_[i][k];
    }
}

template <int N>
void Engine<N>::snapshot(SectionResult& out, double t) const {
    Snapshot s;
    s.at_s = t;
    s.total_mol_m3.assign(std::size_t{N}, {});
    Local l;
    for (std::size_t i = 1; i < y_.size(); ++i) {
        local<false>(i, y_[i], l);
        s.x.push_back(y_[i][0]);
        s.bound_mol_kg.push_back(l.bound - start_bound_[i]);
        s.liquid_kg_m3.push_back(liquid_[i] * 1000 / dz_[i]);
        for (std::size_t k = 0; k < N; ++k) s.total_mol_m3[k].push_back(y_[i][k + 1]);
    }
    local<false>(0, y_[0], l);
    s.film_kg_m2 = std::max(w_[0], 0.0);
    s.film_x = y_[0][0];
    s.film_strong_mol_m2 = liquid_[0] * l.s;
    // The drop takes up residue, finish liquid and the liquid and fibres of the leather down to the reading depth.
    double alkali = s.film_strong_mol_m2, liquid = liquid_[0] + o_.drop_kg_m2 / 1000, below = 0;
    std::vector<double> totals(std::size_t{N}, 0.0);
    for (std::size_t k = 0; k < N; ++k) totals[k] = liquid_[0] * y_[0][k + 1];
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
        local<false>(i, y_[i], l);
        const double kg = dry_kg_[i] * part;
        alkali += part * liquid_[i] * l.s + kg * l.bound;
        solids[li].kg += kg;
        liquid += part * liquid_[i];
        for (std::size_t k = 0; k < N; ++k) totals[k] += part * liquid_[i] * y_[i][k + 1];
    }
    for (double& total : totals) total /= liquid;
    const auto reading = balance_x(source_components_, totals, liquid, solids, alkali, o_.log_kw_1);
    s.reading_x = reading.ok() ? *reading : std::numeric_limits<double>::quiet_NaN();
    out.snapshots.push_back(std::move(s));
}

template <int N>
Result<SectionResult> Engine<N>::run(const std::vector<Stage>& story, const Progress& progress) {
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
            for (std::size_t k = 0; k < N; ++k)
                reference_[k] = std::max(reference_[k], stage.liquid.total_mol_m3[k]);

    std::vector<double> leather0, film0, leather1, film1;
    totals_now(leather0, film0);
    std::vector<double> laid(nvs, 0.0), wiped = laid;
    double t = 0, water_laid = 0, water_wiped = 0;
    const std::vector<double> w_start = w_;
    std::size_t next_output = 0;
    int steps = 0;
    snapshot(out, 0);
    for (const Stage& stage : story) {
        if (!stage.name.empty()) out.events.push_back({t, stage.name});
        if (stage.kind == Stage::Kind::Lay) {
            Local l;
            local<false>(0, y_[0], l);
            const double v_old = liquid_[0], v_add = stage.kg_m2 / 1000, v = v_old + v_add;
            const double alkali = v_old * l.s + v_add * stage.liquid.strong_mol_m3;
            std::vector<double> totals(std::size_t{N});
            laid[0] += v_add * stage.liquid.strong_mol_m3;
            for (std::size_t k = 0; k < N; ++k) {
                totals[k] = (v_old * y_[0][k + 1] + v_add * stage.liquid.total_mol_m3[k]) / v;
                laid[k + 1] += v_add * stage.liquid.total_mol_m3[k];
                y_[0][k + 1] = totals[k];
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
            local<false>(0, y_[0], l);
            const double film = std::max(w_[0], 0.0), gone = stage.share_1 * film / 1000;
            wiped[0] += gone * l.s;
            for (std::size_t k = 0; k < N; ++k) wiped[k + 1] += gone * y_[0][k + 1];
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
    ledger.lost_to_air_mol_m2.assign(air_lost_.begin(), air_lost_.begin() + N);
    ledger.water_laid_kg_m2 = water_laid;
    ledger.water_wiped_kg_m2 = water_wiped;
    ledger.water_evaporated_kg_m2 = evaporated_;
    for (std::size_t i = 1; i < w_.size(); ++i) {
        const Layer& layer = layers_[static_cast<std::size_t>(layer_[i])];
        ledger.water_in_leather_kg_m2 += (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * dz_[i] * (w_[i] - w_start[i]);
    }
    if (!o_.fixed_surface) {
        for (std::size_t v = 0; v < nvs; ++v) {
                        const double lost = v == 0 ? 0 : air_lost_[v - 1];
            const double miss = leather1[v] + film1[v] + wiped[v] + lost - leather0[v] - film0[v] - laid[v];
            // Alkali balances against every acid and base that was laid on: a liquid of ammonia alone brings no strong charge.
            double scale = std::abs(laid[v]) + std::abs(leather0[v]) + std::abs(film0[v]) + std::abs(lost) + 1e-12;
            if (v == 0)
                for (std::size_t k = 1; k < laid.size(); ++k) scale += std::abs(laid[k]);
            ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(miss) / scale);
        }
        const double water_miss = w_[0] - w_start[0] + ledger.water_in_leather_kg_m2 + evaporated_ + water_wiped - water_laid;
        ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(water_miss) / (water_laid + 1e-9));
    }
    out.report = {Outcome::Converged, steps, ledger.worst_balance_1};
    return out;
}

/// Picks the engine of the right size.
template <int N>
Result<SectionResult> run_with(const std::vector<Component>& components, const std::vector<Layer>& layers, const std::vector<Stage>& story,
                               const Options& options, const Progress& progress) {
    if constexpr (N < max_components)
        if (components.size() > static_cast<std::size_t>(N)) return run_with<N + 1>(components, layers, story, options, progress);
    return Engine<N>(components, layers, options).run(story, progress);
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
    return run_with<0>(components, layers, story, options, progress);
}

}  // namespace hw::diffusion
