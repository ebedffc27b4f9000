#include "core/diffusion/section_run.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <memory>
#include <utility>

namespace hw::diffusion {

namespace {

using engine::LaneEngine;

// A member of an ensemble need not be solved far beyond its step tolerance; the balance does not suffer, the engine sees to that.
constexpr double members_newton_1 = 1e-4;
// Without a wish of the caller, outputs of a wait lie denser at its start: shares of its duration.
constexpr std::array output_shares{0.003, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0};

/// Numbers of all lanes side by side, kept for the engine that points at them.
class Arrays {
public:
    explicit Arrays(std::size_t lanes) : lanes_(lanes) {}
    /// One number per lane.
    template <class Of>
    const double* per_lane(const Of& of) {
        auto row = std::make_unique<double[]>(lanes_);
        for (std::size_t l = 0; l < lanes_; ++l) row[l] = of(l);
        rows_.push_back(std::move(row));
        return rows_.back().get();
    }
    double* room(std::size_t n) {
        rows_.push_back(std::make_unique<double[]>(n * lanes_));
        return rows_.back().get();
    }

private:
    std::size_t lanes_;
    std::vector<std::unique_ptr<double[]>> rows_;
};

/// Cells of the layers of one lane.
struct Mesh {
    std::vector<double> dz, top;
    std::vector<int> layer;
};

int cells_of(const Layer& layer, const Options& o) { return std::max(1, static_cast<int>(std::lround(layer.cells * o.mesh_1))); }

Mesh mesh_of(const CaseView& view) {
    Mesh m;
    double at = 0;
    for (std::size_t l = 0; l < view.layers->size(); ++l) {
        const Layer& layer = (*view.layers)[l];
        const int cells = cells_of(layer, *view.options);
        // A finer mesh keeps the same stretch over the layer.
        const double growth = std::pow(layer.growth_1, 1.0 / view.options->mesh_1);
        double sum = 0, piece = 1;
        for (int i = 0; i < cells; ++i, piece *= growth) sum += piece;
        piece = layer.thickness_m / sum;
        for (int i = 0; i < cells; ++i, piece *= growth) {
            m.dz.push_back(piece);
            m.top.push_back(at);
            m.layer.push_back(static_cast<int>(l));
            at += piece;
        }
    }
    return m;
}

/// The whole run of a pack: the engine, its input, and what is counted beside it.
class Run {
public:
    Run(const std::vector<CaseView>& views, LaneEngine* (*make)(const engine::Setup&));
    std::optional<Error> play(const Progress& progress, bool& cancelled);
    std::vector<SectionResult> take();

private:
    [[nodiscard]] const Options& o(std::size_t lane) const { return *views_[lane].options; }
    void snapshot(double t);
    std::optional<Error> wait(double& t, double duration, const Progress& progress, bool& cancelled, bool only_end = false);
    void lay(std::size_t stage);
    std::vector<double> film_now();                     ///< kg/m2 per lane
    void close_ledger(std::size_t lane);

    const std::vector<CaseView>& views_;
    std::size_t lanes_, n_, cells_ = 0;                 ///< cells of the leather, the film apart
    Arrays arrays_;
    std::vector<Mesh> meshes_;
    std::vector<engine::LayerSetup> layers_;
    std::vector<int> layer_of_{-1};
    std::unique_ptr<LaneEngine> engine_;
    std::vector<SectionResult> out_;
    double whole_ = 0;
    int steps_ = 0, rejected_ = 0;
    std::size_t next_output_ = 0;
    std::vector<double> drawn_;                         ///< per lane: what the cloth that is pressed on has drawn, kg/m2; empty: no cloth
    // [variable][lane]
    std::vector<double> leather0_, film0_, laid_, wiped_, water_laid_, water_wiped_;
    std::vector<double> x_, bound_, liquid_, total_, film_kg_, film_x_, film_strong_, reading_;
};

Run::Run(const std::vector<CaseView>& views, LaneEngine* (*make)(const engine::Setup&)) : views_(views), lanes_(views.size()), n_(views.front().components->size()), arrays_(lanes_) {
    for (const auto& v : views_) meshes_.push_back(mesh_of(v));
    cells_ = meshes_.front().dz.size();
    layer_of_.insert(layer_of_.end(), meshes_.front().layer.begin(), meshes_.front().layer.end());
    engine::Setup s;
    s.components = static_cast<int>(n_);
    s.layers = static_cast<int>(views_.front().layers->size());
    s.cells = static_cast<int>(cells_) + 1;
    s.electroneutral = o(0).electroneutral;
    s.fixed_surface = o(0).fixed_surface;
    s.tolerance = o(0).tolerance_1;
    if (lanes_ > 1) s.newton_left = members_newton_1 * s.tolerance;
    const auto component = [&](std::size_t l, std::size_t k) -> const Component& { return (*views_[l].components)[k]; };
    for (std::size_t k = 0; k < n_; ++k) {
        engine::ComponentSetup& c = s.component[k];
        c.top = component(0, k).top_charge;
        c.steps = static_cast<int>(component(0, k).log_k.size());
        c.neutral = component(0, k).neutral_form;
        for (std::size_t i = 0; i < component(0, k).log_k.size(); ++i) c.k[i] = arrays_.per_lane([&](std::size_t l) { return std::pow(10.0, component(l, k).log_k[i]); });
        c.d = arrays_.per_lane([&](std::size_t l) { return component(l, k).d_m2_s; });
        c.air = arrays_.per_lane([&](std::size_t l) { return component(l, k).air_mol_m3; });
        c.velocity = arrays_.per_lane([&](std::size_t l) { return component(l, k).film_velocity_m_s; });
        c.hydroxide = arrays_.per_lane([&](std::size_t l) { return component(l, k).hydroxide_rate_m3_mol_s; });
        c.pore = arrays_.per_lane([&](std::size_t l) { return component(l, k).pore_exchange_per_s; });
    }
    const auto layer = [&](std::size_t l, std::size_t i) -> const Layer& { return (*views_[l].layers)[i]; };
    for (std::size_t i = 0; i < views_.front().layers->size(); ++i) {
        engine::LayerSetup f;
        f.sites = static_cast<int>(layer(0, i).sites.size());
        f.finish = layer(0, i).finish;
        f.curved = layer(0, i).water_exponent_1 > 0;
        for (std::size_t k = 0; k < layer(0, i).sites.size(); ++k) {
            f.amount[k] = arrays_.per_lane([&](std::size_t l) { return layer(l, i).sites[k].amount_mol_kg; });
            f.opener[k] = arrays_.per_lane([&](std::size_t l) { return std::pow(10.0, layer(l, i).sites[k].pka_1); });
        }
        const auto number = [&](double Layer::*member) { return arrays_.per_lane([&](std::size_t l) { return layer(l, i).*member; }); };
        f.dry = number(&Layer::dry_density_kg_m3);
        f.ambient = number(&Layer::water_ambient_kg_m3);
        f.full = number(&Layer::water_full_kg_m3);
        f.conductivity = number(&Layer::water_conductivity_kg_m_s);
        f.exponent = number(&Layer::water_exponent_1);
        f.share = number(&Layer::solute_share_1);
        f.solute_exponent = number(&Layer::solute_exponent_1);
        f.air = number(&Layer::air_share_1);
        layers_.push_back(f);
    }
    s.layer = layers_.data();
    s.layer_of = layer_of_.data();
    double *dz = arrays_.room(cells_ + 1), *x = arrays_.room(cells_ + 1), *total = arrays_.room((cells_ + 1) * std::max<std::size_t>(n_, 1)), *reference = arrays_.room(std::max<std::size_t>(n_, 1));
    for (std::size_t l = 0; l < lanes_; ++l) {
        for (std::size_t k = 0; k < n_; ++k) reference[k * lanes_ + l] = 1e-3;
        for (std::size_t i = 0; i <= cells_; ++i) {
            const Layer& in = layer(l, static_cast<std::size_t>(std::max(layer_of_[i], 0)));
            dz[i * lanes_ + l] = i == 0 ? 0 : meshes_[l].dz[i - 1];
            x[i * lanes_ + l] = in.start_x;
            for (std::size_t k = 0; k < n_; ++k) {
                const double t = k < in.start_mol_m3.size() ? in.start_mol_m3[k] : 0.0;
                total[(i * n_ + k) * lanes_ + l] = t;
                reference[k * lanes_ + l] = std::max(reference[k * lanes_ + l], t);
            }
        }
        for (const Stage& stage : *views_[l].story)
            if (stage.kind == Stage::Kind::Lay)
                for (std::size_t k = 0; k < n_; ++k) reference[k * lanes_ + l] = std::max(reference[k * lanes_ + l], stage.liquid.total_mol_m3[k]);
    }
    s.dz = dz;
    s.start_x = x;
    s.start_total = total;
    s.reference = reference;
    const auto option = [&](double Options::*member) { return arrays_.per_lane([&](std::size_t l) { return o(l).*member; }); };
    s.background = option(&Options::background_mol_m3);
    s.evaporation = option(&Options::evaporation_kg_m2_s);
    s.patchy = option(&Options::film_patchy_kg_m2);
    s.film_left = option(&Options::film_left_kg_m2);
    s.kw = arrays_.per_lane([&](std::size_t l) { return std::pow(10.0, o(l).log_kw_1); });
    s.d_cation = option(&Options::d_strong_cation_m2_s);
    s.d_anion = option(&Options::d_strong_anion_m2_s);
    s.d_hydrogen = option(&Options::d_hydrogen_m2_s);
    s.d_hydroxide = option(&Options::d_hydroxide_m2_s);
    s.drop = option(&Options::drop_kg_m2);
    s.reading_depth = option(&Options::reading_depth_m);
    engine_.reset(make(s));

    for (const Stage& stage : *views_.front().story)
        if (stage.kind == Stage::Kind::Wait || stage.kind == Stage::Kind::Press) whole_ += stage.duration_s;
    const std::size_t variables = (n_ + 1) * lanes_;
    for (auto* row : {&leather0_, &film0_, &laid_, &wiped_}) row->assign(variables, 0.0);
    for (auto* row : {&water_laid_, &water_wiped_, &film_kg_, &film_x_, &film_strong_, &reading_}) row->assign(lanes_, 0.0);
    x_.assign(cells_ * lanes_, 0.0);
    liquid_ = x_;
    if (!o(0).lean) {
        bound_ = x_;
        total_.assign(cells_ * n_ * lanes_, 0.0);
    }
    out_.resize(lanes_);
    std::size_t outputs = 1 + o(0).output_s.size();
    for (const Stage& stage : *views_.front().story) outputs += stage.kind == Stage::Kind::Wait ? output_shares.size() : 1;
    for (std::size_t l = 0; l < lanes_; ++l) {
        out_[l].snapshots.reserve(outputs);
        out_[l].top_m = meshes_[l].top;
        for (std::size_t i = 0; i < cells_; ++i) out_[l].bottom_m.push_back(meshes_[l].top[i] + meshes_[l].dz[i]);
        out_[l].layer_of = meshes_[l].layer;
    }
    engine_->held(leather0_.data(), film0_.data());
}

void Run::snapshot(double t) {
    engine::Moment m;
    m.x = x_.data();
    m.liquid_kg_m3 = liquid_.data();
    m.bound = bound_.empty() ? nullptr : bound_.data();
    m.total = total_.empty() ? nullptr : total_.data();
    m.film_kg_m2 = film_kg_.data();
    m.film_x = film_x_.data();
    m.film_strong = film_strong_.data();
    m.reading_x = reading_.data();
    engine_->moment(m);
    for (std::size_t l = 0; l < lanes_; ++l) {
        Snapshot s;
        s.at_s = t;
        const auto row = [&](const double* from) {
            std::vector<double> out(cells_);
            for (std::size_t i = 0; i < cells_; ++i) out[i] = from[i * lanes_ + l];
            return out;
        };
        s.x = row(x_.data());
        s.liquid_kg_m3 = row(liquid_.data());
        if (!bound_.empty()) s.bound_mol_kg = row(bound_.data());
        if (!o(0).lean)
            for (std::size_t k = 0; k < n_; ++k) s.total_mol_m3.push_back(row(total_.data() + k * cells_ * lanes_));
        s.film_kg_m2 = film_kg_[l];
        s.film_x = film_x_[l];
        s.film_strong_mol_m2 = film_strong_[l];
        s.reading_x = reading_[l];
        out_[l].snapshots.push_back(std::move(s));
    }
}

void Run::lay(std::size_t stage) {
    std::vector<double> kg(lanes_), strong(lanes_), totals(std::max<std::size_t>(n_, 1) * lanes_);
    for (std::size_t l = 0; l < lanes_; ++l) {
        const Stage& s = (*views_[l].story)[stage];
        kg[l] = s.kg_m2;
        strong[l] = s.liquid.strong_mol_m3;
        laid_[l] += s.kg_m2 / 1000 * s.liquid.strong_mol_m3;
        water_laid_[l] += s.kg_m2;
        for (std::size_t k = 0; k < n_; ++k) {
            totals[k * lanes_ + l] = s.liquid.total_mol_m3[k];
            laid_[(k + 1) * lanes_ + l] += s.kg_m2 / 1000 * s.liquid.total_mol_m3[k];
        }
    }
    engine_->lay(kg.data(), strong.data(), totals.data());
}

std::vector<double> Run::film_now() {
    engine::Moment m;
    m.film_kg_m2 = film_kg_.data();
    m.film_x = film_x_.data();
    m.film_strong = film_strong_.data();
    m.reading_x = reading_.data();
    engine_->moment(m);
    return film_kg_;
}

std::optional<Error> Run::wait(double& t, double duration, const Progress& progress, bool& cancelled, bool only_end) {
    const double end = t + duration;
    std::vector<double> marks;
    const auto& wished = o(0).output_s;
    if (wished.empty() && only_end) {
        marks.push_back(end);
    } else if (wished.empty()) {
        for (double f : output_shares) marks.push_back(t + f * duration);
    } else {
        for (; next_output_ < wished.size() && wished[next_output_] <= end; ++next_output_)
            if (wished[next_output_] > t) marks.push_back(wished[next_output_]);
        if (marks.empty() || marks.back() < end) marks.push_back(end);
    }
    const Error stuck{ErrorCode::NotConverged, "The section could not be solved at this step. Check the amounts.", "use"};
    constexpr double least_step_s = 1e-9;
    double h = std::min(1e-3, duration / 1000);
    for (double mark : marks) {
        while (t < mark) {
            if (++steps_ > o(0).max_time_steps) return Error{ErrorCode::NotConverged, "The section did not settle within its step budget. Shorten the story or lower the amounts.", "use"};
            const double left = mark - t;
            const double take = h >= left ? left : (h > left / 2 ? left / 2 : h);
            double error = 0;
            const bool solved = engine_->step(take, error);
            if (!solved || error > 1) {
                h = solved ? take * std::clamp(0.9 / std::cbrt(error), 0.1, 0.5) : take / 4;
                ++rejected_;
                engine_->start_again();
                if (h < least_step_s) return stuck;
                continue;
            }
            t = take == left ? mark : t + take;
            const double grow = std::clamp(0.9 / std::cbrt(std::max(error, 1e-6)), 0.3, 3.0);
            h = take < h ? std::max(h, take * grow) : take * grow;
            if (progress && steps_ % 20 == 0 && !progress(whole_ > 0 ? t / whole_ : 0, "solving the section")) {
                cancelled = true;
                return Error{ErrorCode::NotConverged, "Cancelled.", "use"};
            }
        }
        snapshot(t);
    }
    t = end;
    return std::nullopt;
}

std::optional<Error> Run::play(const Progress& progress, bool& cancelled) {
    double t = 0;
    snapshot(0);
    const auto& story = *views_.front().story;
    for (std::size_t k = 0; k < story.size(); ++k) {
        const Stage& stage = story[k];
        if (!stage.name.empty())
            for (auto& out : out_) out.events.push_back({t, stage.name});
        if (stage.kind == Stage::Kind::Lay) {
            drawn_.clear();
            lay(k);
            snapshot(t);
        } else if (stage.kind == Stage::Kind::Wipe) {
            std::vector<double> share(lanes_);
            for (std::size_t l = 0; l < lanes_; ++l) share[l] = (*views_[l].story)[k].share_1;
            if (!drawn_.empty()) {
                // The cloth keeps what it drew, and its share of what lay there before.
                const auto film = film_now();
                for (std::size_t l = 0; l < lanes_; ++l)
                    if (const double drawn = std::clamp(drawn_[l], 0.0, film[l]); film[l] > 0) share[l] = (share[l] * (film[l] - drawn) + drawn) / film[l];
                drawn_.clear();
            }
            const auto gone_before = wiped_, water_before = water_wiped_;
            engine_->wipe(share.data(), wiped_.data(), wiped_.data() + lanes_, water_wiped_.data());
            snapshot(t);
            for (std::size_t l = 0; l < lanes_; ++l) {
                WipedOff off{t, water_wiped_[l] - water_before[l], film_x_[l], wiped_[l] - gone_before[l], {}};
                for (std::size_t c = 1; c <= n_; ++c) off.total_mol_m2.push_back(wiped_[c * lanes_ + l] - gone_before[c * lanes_ + l]);
                out_[l].wiped_off.push_back(std::move(off));
            }
        } else if (stage.kind == Stage::Kind::Press) {
            std::vector<double> filled(lanes_);
            for (std::size_t l = 0; l < lanes_; ++l) filled[l] = (*views_[l].story)[k].filled_1;
            const auto before = film_now();
            engine_->press(filled.data());
            auto bad = wait(t, stage.duration_s, progress, cancelled, true);
            engine_->press(nullptr);
            if (bad) return bad;
            drawn_ = film_now();
            for (std::size_t l = 0; l < lanes_; ++l) drawn_[l] -= before[l];
        } else if (auto bad = wait(t, stage.duration_s, progress, cancelled)) {
            return bad;
        }
    }
    for (std::size_t l = 0; l < lanes_; ++l) close_ledger(l);
    return std::nullopt;
}

void Run::close_ledger(std::size_t l) {
    std::vector<double> leather(leather0_.size()), film(film0_.size()), air(std::max<std::size_t>(n_, 1) * lanes_), evaporated(lanes_), water((cells_ + 1) * lanes_);
    engine_->held(leather.data(), film.data());
    engine_->given_up(air.data(), evaporated.data(), water.data());
    const auto at = [&](const std::vector<double>& row, std::size_t v) { return row[v * lanes_ + l]; };
    Ledger& ledger = out_[l].ledger;
    ledger.laid_strong_mol_m2 = at(laid_, 0);
    ledger.wiped_strong_mol_m2 = at(wiped_, 0);
    ledger.in_leather_strong_mol_m2 = at(leather, 0) - at(leather0_, 0);
    ledger.in_film_strong_mol_m2 = at(film, 0) - at(film0_, 0);
    for (std::size_t v = 1; v <= n_; ++v) {
        ledger.gained_mol_m2.push_back(at(leather, v) + at(film, v) - at(leather0_, v) - at(film0_, v));
        ledger.lost_to_air_mol_m2.push_back(air[(v - 1) * lanes_ + l]);
    }
    ledger.water_laid_kg_m2 = water_laid_[l];
    ledger.water_wiped_kg_m2 = water_wiped_[l];
    ledger.water_evaporated_kg_m2 = evaporated[l];
    for (std::size_t i = 0; i < cells_; ++i) {
        const Layer& layer = (*views_[l].layers)[static_cast<std::size_t>(meshes_[l].layer[i])];
        ledger.water_in_leather_kg_m2 += (layer.water_full_kg_m3 - layer.water_ambient_kg_m3) * meshes_[l].dz[i] * at(water, i + 1);
    }
    if (!o(l).fixed_surface) {
        for (std::size_t v = 0; v <= n_; ++v) {
            const double lost = v == 0 ? 0 : air[(v - 1) * lanes_ + l];
            const double miss = at(leather, v) + at(film, v) + at(wiped_, v) + lost - at(leather0_, v) - at(film0_, v) - at(laid_, v);
            // Alkali balances against every acid and base that was laid on: a liquid of ammonia alone brings no strong charge.
            double scale = std::abs(at(laid_, v)) + std::abs(at(leather0_, v)) + std::abs(at(film0_, v)) + std::abs(lost) + 1e-12;
            if (v == 0)
                for (std::size_t k = 1; k <= n_; ++k) scale += std::abs(at(laid_, k));
            ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(miss) / scale);
        }
        const double water_miss = at(water, 0) + ledger.water_in_leather_kg_m2 + evaporated[l] + water_wiped_[l] - water_laid_[l];
        ledger.worst_balance_1 = std::max(ledger.worst_balance_1, std::abs(water_miss) / (water_laid_[l] + 1e-9));
    }
    out_[l].report = {Outcome::Converged, steps_, ledger.worst_balance_1};
    out_[l].rejected_steps = rejected_;
}

std::vector<SectionResult> Run::take() { return std::move(out_); }

}  // namespace

std::optional<Error> refused(const CaseView& view) {
    if (view.layers->empty()) return Error{ErrorCode::InvalidInput, "A section needs at least one layer.", "layers"};
    if (view.components->size() > static_cast<std::size_t>(max_components)) return Error{ErrorCode::InvalidInput, "At most six acid-base systems travel at once.", "components"};
    for (const Component& c : *view.components)
        if (c.log_k.size() > static_cast<std::size_t>(max_steps)) return Error{ErrorCode::InvalidInput, "At most six protons per acid: " + c.name + ".", "components"};
    for (const Layer& layer : *view.layers) {
        if (!(layer.thickness_m > 0) || layer.cells < 1) return Error{ErrorCode::InvalidInput, "Layer " + layer.name + " has no thickness or no cells.", "layers"};
        if (layer.sites.size() > static_cast<std::size_t>(engine::most_sites)) return Error{ErrorCode::InvalidInput, "At most " + std::to_string(engine::most_sites) + " kinds of site in a layer.", "layers"};
    }
    for (const Stage& stage : *view.story)
        if (stage.kind == Stage::Kind::Lay && stage.liquid.total_mol_m3.size() != view.components->size())
            return Error{ErrorCode::InvalidInput, "A liquid laid on lists one total per component.", "story"};
    return std::nullopt;
}

Result<std::vector<SectionResult>> run_lanes(const std::vector<CaseView>& lanes, LaneEngine* (*make)(const engine::Setup&), const Progress& progress, bool& cancelled) {
    Run run(lanes, make);
    if (auto bad = run.play(progress, cancelled)) return *bad;
    return run.take();
}

}  // namespace hw::diffusion
