#include "tests/support/section_by_odeint.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "tests/support/stiff_by_odeint.hpp"

namespace hw::test {

namespace {

using State = std::vector<double>;
using diffusion::Component;
using diffusion::Layer;
const double ln10 = std::log(10.0);

struct Cell {
    const Layer* layer = nullptr;  ///< none: the film
    double depth_m = 0;
};

/// What one cell holds, worked out from its amounts.
struct Inside {
    double x = 7, volume = 0, open = 0, dry = 0, u = 0;
    double strong = 0, cation = 0, anion = 0, proton = 0, hydroxide = 0;
    std::vector<double> total, mean, gas;
    double drive = 0, conductance = 0;
};

class Section {
public:
    explicit Section(const SectionCase& s) : s_(s), n_(s.components.size()), kw_(std::pow(10.0, s.options.log_kw_1)) {
        cells_.push_back({});
        for (const Layer& layer : s_.layers) {
            const long count = std::max(1L, std::lround(layer.cells * s_.options.mesh_1));
            const double growth = std::pow(layer.growth_1, 1 / s_.options.mesh_1);
            double sum = 0;
            for (long i = 0; i < count; ++i) sum += std::pow(growth, static_cast<double>(i));
            for (long i = 0; i < count; ++i) cells_.push_back({&layer, layer.thickness_m * std::pow(growth, static_cast<double>(i)) / sum});
        }
        guess_.assign(cells_.size(), 7.0);
        scale_.resize(size());
        y_.resize(size());
        std::fill(y_.begin(), y_.end(), 0.0);
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            const Layer& l = i == 0 ? s_.layers[0] : *cells_[i].layer;
            guess_[i] = l.start_x;
            const double v = volume(i, 0);
            double strong = hydroxide(l.start_x) - proton(l.start_x);
            for (std::size_t k = 0; k < n_; ++k) {
                y_[at(i, 2 + k)] = v * l.start_mol_m3[k];
                strong -= l.start_mol_m3[k] * moments(s_.components[k], l.start_x).first;
            }
            y_[at(i, 1)] = v * strong + bound(i, l.start_x);
        }
        const double bath = std::abs(s_.story[0].liquid.strong_mol_m3) + 1;
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            scale_[at(i, 0)] = i == 0 ? s_.options.film_patchy_kg_m2 : 1;
            const double v = volume(i, i == 0 ? s_.options.film_patchy_kg_m2 : 0.3);
            for (std::size_t j = 1; j < 2 + n_; ++j) scale_[at(i, j)] = v * bath;
        }
        start_alkali_ = leather_alkali();
    }

    std::size_t size() const { return cells_.size() * (2 + n_); }
    std::size_t at(std::size_t cell, std::size_t what) const { return cell * (2 + n_) + what; }

    SecondSolution run(double tolerance, const SectionIntegrator& other) {
        SecondSolution out;
        for (const auto& stage : s_.story) {
            using Kind = diffusion::Stage::Kind;
            if (stage.kind == Kind::Lay) {
                y_[at(0, 0)] += stage.kg_m2;
                y_[at(0, 1)] += stage.kg_m2 / 1000 * stage.liquid.strong_mol_m3;
                for (std::size_t k = 0; k < n_; ++k) y_[at(0, 2 + k)] += stage.kg_m2 / 1000 * stage.liquid.total_mol_m3[k];
            } else if (stage.kind == Kind::Wipe) {
                const double film = std::max(y_[at(0, 0)], 0.0);
                const double gone = stage.share_1 * film / 1000 / volume(0, y_[at(0, 0)]);
                y_[at(0, 0)] -= stage.share_1 * film;
                for (std::size_t j = 1; j < 2 + n_; ++j) y_[at(0, j)] *= 1 - gone;
            } else {
                State scaled(size());
                for (std::size_t i = 0; i < size(); ++i) scaled[i] = y_[i] / scale_[i];
                if (other) out.steps += other([this](const State& y, State& f) { rates(y, f); }, scaled, stage.duration_s, 2 + n_, tolerance);
                else out.steps += integrate_stiff([this](const State& y, State& f) { rates(y, f); }, [this](const State& y, State& j) { slopes(y, j); },
                                             scaled, stage.duration_s, 1e-6, tolerance);
                for (std::size_t i = 0; i < size(); ++i) y_[i] = scaled[i] * scale_[i];
            }
        }
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            const Inside in = inside(i, y_);
            if (i == 0) {
                out.film_x = in.x;
                out.film_kg_m2 = y_[at(0, 0)];
            } else {
                out.x.push_back(in.x);
                out.water_share.push_back(in.u);
            }
        }
        out.uptake_mol_m2 = leather_alkali() - start_alkali_;
        return out;
    }

private:
    double proton(double x) const { return 1000 * std::exp(-ln10 * x); }
    double hydroxide(double x) const { return 1000 * kw_ * std::exp(ln10 * x); }
    double leather_alkali() const {
        double sum = 0;
        for (std::size_t i = 1; i < cells_.size(); ++i) sum += y_[at(i, 1)];
        return sum;
    }
    double volume(std::size_t i, double w) const {
        if (i == 0) return (std::max(w, 0.0) + s_.options.film_left_kg_m2) / 1000;
        const Layer& l = *cells_[i].layer;
        return (l.water_ambient_kg_m3 + (l.water_full_kg_m3 - l.water_ambient_kg_m3) * w) / 1000 * cells_[i].depth_m;
    }
    double bound(std::size_t i, double x) const {
        double sum = 0;
        if (i > 0)
            for (const auto& site : cells_[i].layer->sites) sum += site.amount_mol_kg / (1 + std::exp(ln10 * (site.pka_1 - x)));
        return i > 0 ? sum * cells_[i].layer->dry_density_kg_m3 * cells_[i].depth_m : 0;
    }
    /// Mean and mean square charge.
    static std::pair<double, double> moments(const Component& c, double x) {
        double top = 0, sum = 0, mean = 0, square = 0, beta = 0;
        for (std::size_t j = 0; j <= c.log_k.size(); ++j) {
            if (j > 0) beta += c.log_k[j - 1] + x;
            top = std::max(top, beta);
        }
        beta = 0;
        for (std::size_t j = 0; j <= c.log_k.size(); ++j) {
            if (j > 0) beta += c.log_k[j - 1] + x;
            const double weight = std::exp(ln10 * (beta - top)), z = c.top_charge - static_cast<double>(j);
            sum += weight;
            mean += weight * z;
            square += weight * z * z;
        }
        return {mean / sum, square / sum};
    }
    static double share(const Component& c, double x) {
        double sum = 0, mine = 0, beta = 0;
        for (std::size_t j = 0; j <= c.log_k.size(); ++j) {
            if (j > 0) beta += c.log_k[j - 1] + x;
            const double weight = std::exp(ln10 * beta);
            sum += weight;
            if (static_cast<int>(j) == c.neutral_form) mine = weight;
        }
        return mine / sum;
    }

    /// Alkali held at x, minus what there is.
    double miss(std::size_t i, double v, const State& y, double x) const {
        double held = v * (hydroxide(x) - proton(x)) + bound(i, x) - y[at(i, 1)];
        for (std::size_t k = 0; k < n_; ++k) held -= y[at(i, 2 + k)] * moments(s_.components[k], x).first;
        return held;
    }
    double solve_x(std::size_t i, double v, const State& y) const {
        double low = -2, high = 16, x = guess_[i];
        for (int iteration = 0; iteration < 200; ++iteration) {
            const double f = miss(i, v, y, x);
            (f < 0 ? low : high) = x;
            const double slope = (miss(i, v, y, x + 1e-6) - miss(i, v, y, x - 1e-6)) / 2e-6;
            double next = x - f / slope;
            if (!(next > low && next < high)) next = (low + high) / 2;
            const double moved = std::abs(next - x);
            x = next;
            if (moved < 1e-13 * (1 + std::abs(x))) break;
        }
        return guess_[i] = x;
    }

    Inside inside(std::size_t i, const State& y) const {
        Inside in;
        const double w = y[at(i, 0)];
        in.u = i == 0 ? -std::expm1(-w / s_.options.film_patchy_kg_m2) : w;
        in.volume = volume(i, w);
        if (i > 0) {
            const Layer& l = *cells_[i].layer;
            in.open = l.solute_share_1 * std::pow(1000 * in.volume / cells_[i].depth_m / l.water_full_kg_m3, l.solute_exponent_1);
            in.dry = std::clamp(1 - w, 0.0, 1.0);
        }
        in.x = solve_x(i, in.volume, y);
        in.proton = proton(in.x);
        in.hydroxide = hydroxide(in.x);
        in.strong = in.hydroxide - in.proton;
        const auto& o = s_.options;
        in.drive = o.d_hydrogen_m2_s * in.proton - o.d_hydroxide_m2_s * in.hydroxide;
        in.conductance = o.d_hydrogen_m2_s * in.proton + o.d_hydroxide_m2_s * in.hydroxide;
        for (std::size_t k = 0; k < n_; ++k) {
            const Component& c = s_.components[k];
            const auto [mean, square] = moments(c, in.x);
            const double t = y[at(i, 2 + k)] / in.volume;
            in.total.push_back(t);
            in.mean.push_back(mean);
            in.gas.push_back(c.neutral_form < 0 ? 0 : t * share(c, in.x));
            in.strong -= t * mean;
            in.drive += c.d_m2_s * t * mean;
            in.conductance += c.d_m2_s * t * square;
        }
        const double b = o.background_mol_m3;
        const double big = (std::abs(in.strong) + std::sqrt(in.strong * in.strong + 4 * b * b)) / 2;
        in.cation = in.strong > 0 ? big : b * b / big;
        in.anion = in.strong > 0 ? b * b / big : big;
        in.drive += o.d_strong_cation_m2_s * in.cation - o.d_strong_anion_m2_s * in.anion;
        in.conductance += o.d_strong_cation_m2_s * in.cation + o.d_strong_anion_m2_s * in.anion;
        return in;
    }

    /// Mean of K exp(n (u - 1)) between two potentials.
    static double mean_conductivity(const Layer& l, double a, double b) {
        const double n = l.water_exponent_1, d = n * (a - b), at_b = l.water_conductivity_kg_m_s * std::exp(n * (b - 1));
        return std::abs(d) < 1e-6 ? at_b * (1 + d / 2 + d * d / 6) : at_b * std::expm1(d) / d;
    }

    void rates(const State& scaled, State& f) const {
        State y(size());
        for (std::size_t i = 0; i < size(); ++i) y[i] = scaled[i] * scale_[i];
        std::fill(f.begin(), f.end(), 0.0);
        std::vector<Inside> in;
        for (std::size_t i = 0; i < cells_.size(); ++i) in.push_back(inside(i, y));
        const auto& o = s_.options;
        f[at(0, 0)] -= o.evaporation_kg_m2_s * in[0].u;
        for (std::size_t i = 0; i < cells_.size(); ++i)
            for (std::size_t k = 0; k < n_; ++k) {
                const Component& c = s_.components[k];
                if (c.neutral_form < 0) continue;
                double speed = 0;
                if (i == 0)
                    speed = std::sqrt(c.film_velocity_m_s * c.film_velocity_m_s + c.d_m2_s * c.hydroxide_rate_m3_mol_s * in[0].hydroxide);
                else
                    speed = c.pore_exchange_per_s * cells_[i].layer->air_share_1 * in[i].dry * in[i].volume;
                f[at(i, 2 + k)] -= speed * (in[i].gas[k] - c.air_mol_m3);
            }
        for (std::size_t j = 1; j < cells_.size(); ++j) {
            const std::size_t i = j - 1;
            const Inside &a = in[i], &b = in[j];
            const double ha = cells_[i].depth_m / 2, hb = cells_[j].depth_m / 2;
            const Layer& lb = *cells_[j].layer;
            double water = 0;
            if (i == 0) water = mean_conductivity(lb, a.u, b.u) * (a.u - b.u) / hb;
            else if (cells_[i].layer == cells_[j].layer) water = mean_conductivity(lb, a.u, b.u) * (a.u - b.u) / (ha + hb);
            else water = (a.u - b.u) / (ha / mean_conductivity(*cells_[i].layer, a.u, b.u) + hb / mean_conductivity(lb, a.u, b.u));
            const double stream = water / 1000;
            const double way = 1 / ((i == 0 ? 0 : ha / a.open) + hb / b.open);
            const double field = (b.drive - a.drive) / ((a.conductance + b.conductance) / 2);
            const auto carried = [&](double ca, double cb, double d) {
                const double upwind = stream == 0 ? 0 : std::max(0.0, 1 - 2 * way * d / std::abs(stream));
                return stream * ((1 - upwind) * (ca + cb) / 2 + upwind * (stream > 0 ? ca : cb));
            };
            const double cations = -way * o.d_strong_cation_m2_s * (b.cation - a.cation - field * (a.cation + b.cation) / 2);
            const double anions = -way * o.d_strong_anion_m2_s * (b.anion - a.anion + field * (a.anion + b.anion) / 2);
            std::vector<double> flux = {water, cations - anions + carried(a.strong, b.strong, o.d_strong_cation_m2_s)};
            for (std::size_t k = 0; k < n_; ++k) {
                const double d = s_.components[k].d_m2_s;
                // Diffusion, and what stream and field carry; upstream by so much that nothing is drawn below zero.
                const double pace = way * d, speed_a = stream + pace * field * a.mean[k], speed_b = stream + pace * field * b.mean[k];
                double part_b = 0.5;
                if (speed_b > 2 * pace) part_b = pace / speed_b;
                else if (speed_a < -2 * pace) part_b = 1 + pace / speed_a;
                flux.push_back(pace * (a.total[k] - b.total[k]) + (1 - part_b) * speed_a * a.total[k] + part_b * speed_b * b.total[k]);
            }
            for (std::size_t v = 0; v < flux.size(); ++v) {
                // A cell's first unknown is its potential, not its water.
                const double room_a = v == 0 && i > 0 ? water_room(i) : 1, room_b = v == 0 ? water_room(j) : 1;
                f[at(i, v)] -= flux[v] / room_a;
                f[at(j, v)] += flux[v] / room_b;
            }
        }
        for (std::size_t i = 0; i < size(); ++i) f[i] /= scale_[i];
    }
    double water_room(std::size_t i) const { return (cells_[i].layer->water_full_kg_m3 - cells_[i].layer->water_ambient_kg_m3) * cells_[i].depth_m; }

    /// Differences; every third cell may be moved at once, because a cell feels its neighbours only.
    void slopes(const State& y, State& j) const {
        j.assign(size() * size(), 0.0);
        const std::size_t vars = 2 + n_;
        State up(size()), down(size()), moved = y;
        for (std::size_t first = 0; first < 3; ++first)
            for (std::size_t v = 0; v < vars; ++v) {
                std::vector<double> step(cells_.size());
                for (std::size_t i = first; i < cells_.size(); i += 3) {
                    step[i] = 1e-6 * std::max(1.0, std::abs(y[at(i, v)]));
                    if (v == 1) {
                        // Alkali is moved by what a small change of x holds.
                        State amounts(size());
                        for (std::size_t q = 0; q < size(); ++q) amounts[q] = y[q] * scale_[q];
                        const double vol = volume(i, amounts[at(i, 0)]), x = solve_x(i, vol, amounts);
                        step[i] = std::abs(miss(i, vol, amounts, x + 1e-5) - miss(i, vol, amounts, x - 1e-5)) / 2 / scale_[at(i, 1)];
                    }
                    moved[at(i, v)] = y[at(i, v)] + step[i];
                }
                rates(moved, up);
                for (std::size_t i = first; i < cells_.size(); i += 3) moved[at(i, v)] = y[at(i, v)] - step[i];
                rates(moved, down);
                for (std::size_t i = first; i < cells_.size(); i += 3) {
                    moved[at(i, v)] = y[at(i, v)];
                    const std::size_t from = i == 0 ? 0 : at(i - 1, 0), to = std::min(at(i + 1, 0) + vars, size());
                    for (std::size_t r = from; r < to; ++r) j[r * size() + at(i, v)] = (up[r] - down[r]) / (2 * step[i]);
                }
            }
    }

    const SectionCase& s_;
    std::size_t n_;
    double kw_;
    std::vector<Cell> cells_;
    mutable std::vector<double> guess_;
    State y_, scale_;
    double start_alkali_ = 0;
};

}  // namespace

SecondSolution section_by_odeint(const SectionCase& section, double tolerance_1) { return Section(section).run(tolerance_1, {}); }

SecondSolution section_by(const SectionCase& section, double tolerance_1, const SectionIntegrator& integrator) { return Section(section).run(tolerance_1, integrator); }

}  // namespace hw::test
