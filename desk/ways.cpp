#include "desk/ways.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "atlas/decision_losses.hpp"
#include "core/belief/spread.hpp"
#include "core/diffusion/sections.hpp"
#include "core/treatment/moisture.hpp"
#include "desk/assessment.hpp"
#include "desk/ensemble.hpp"
#include "desk/rules.hpp"

namespace hw::desk {

namespace {

double seconds_until_now(const treatment::Course& c) {
    double t = c.first_wait_s;
    for (const auto& l : c.layings) t += l.lasts_s();
    return t;
}

/// How much of the film the cloth leaves, against the usual: the hand that wiped is the hand that blots.
double hand_1(const Known& known, std::size_t member) {
    for (std::size_t d = 0; d < known.unknowns.size(); ++d)
        if (known.unknowns[d].key == "wiped") return belief::quantile(known.unknowns[d].spread, known.u[member][d]);
    return 1;
}

/// A moment is kept at `now`: the wait that spans it becomes two.
void cut_at(std::vector<diffusion::Stage>& stages, double now_s) {
    double t = 0;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const double ends = t + stages[i].duration_s;  // a press takes time too; laying and wiping take none
        if (stages[i].kind == diffusion::Stage::Kind::Wait && t < now_s && now_s < ends) {
            diffusion::Stage rest = stages[i];
            rest.name.clear();
            rest.duration_s = ends - now_s;
            stages[i].duration_s = now_s - t;
            stages.insert(stages.begin() + static_cast<std::ptrdiff_t>(i) + 1, rest);
            return;
        }
        t = ends;
    }
}

treatment::Setting setting_of(const Known& known, std::size_t member, const Proposal& proposal) {
    const double ionic = std::max(proposal.ionic_strength_mol_kg, known.liquids[known.members[member].liquid].ionic_strength_mol_kg);
    treatment::Setting s = treatment::setting(with_proposal(known, member, proposal), known.members[member].hide, ionic, least_share_1);
    cut_at(s.stages, seconds_until_now(known.courses[member]));
    return s;
}

/// The last snapshot at a moment: where two stand at one moment the later one has happened.
std::size_t at_or_before(const diffusion::SectionResult& s, double now_s) {
    std::size_t k = 0;
    while (k + 1 < s.snapshots.size() && s.snapshots[k + 1].at_s <= now_s * (1 + 1e-9) + 1e-6) ++k;
    return k;
}

/// The first snapshot at a moment: what is laid on at that moment has not come yet.
std::size_t first_at(const diffusion::SectionResult& s, double at_s) {
    std::size_t k = 0;
    while (k + 1 < s.snapshots.size() && s.snapshots[k].at_s < at_s * (1 - 1e-9) - 1e-6) ++k;
    return k;
}

/// When a candidate ends, seconds from now.
std::vector<double> ends_s(const Candidate& c) {
    const Proposal& p = c.proposal;
    if (p.layings.empty()) return {p.lasts_s()};
    HW_EXPECTS(!c.last.empty() && c.last.back() + 1 == p.layings.size());
    std::vector<double> out;
    double t = std::max(1.0, p.first_wait_s);
    for (std::size_t j = 0, k = 0; j < p.layings.size(); ++j) {
        t += p.layings[j].lasts_s();
        if (k < c.last.size() && c.last[k] == j) {
            const bool last = j + 1 == p.layings.size();
            HW_EXPECTS(last || p.layings[j].then_s == p.rest_s);
            out.push_back(last ? t + p.rest_s : t);
            ++k;
        }
    }
    return out;
}

double as_read(double ph) { return std::round(ph * 10) / 10; }

struct Cell {
    std::size_t at = 0;
    double thick_m = 0, bottom_um = 0;
    bool grain = false;
};

std::vector<Cell> leather_cells(const treatment::Exposure& e, const leather::Hide& hide) {
    std::vector<Cell> out;
    const auto& s = e.section;
    for (std::size_t i = 0; i < s.top_m.size(); ++i) {
        if (e.layers[static_cast<std::size_t>(s.layer_of[i])].finish) continue;
        const double bottom = s.bottom_m[i] * 1e6 - e.finish_um;
        out.push_back({i, s.bottom_m[i] - s.top_m[i], bottom, bottom <= hide.grain_um + 1});
    }
    return out;
}

/// Deciding limits of the pores against a member from now on.
void against_limits(Under& u, const treatment::Exposure& e, const std::vector<Cell>& cells, const leather::Hide& hide, std::size_t now, std::size_t end, bool& past_grain, bool& past_deep) {
    static const double seen = threshold("seen").limit_ph;
    for (const auto* row : limits_of(hide.tannage_key)) {
        if (row->quantity != "pore" || row->decides != "yes") continue;
        const bool upper = row->side == "upper";
        for (const Cell& c : cells) {
            const double was = e.ph[now][c.at];
            // Where it lies past the limit now, only going further counts as passing it.
            const double line = upper ? std::max(row->limit_ph, was + seen) : std::min(row->limit_ph, was - seen);
            for (std::size_t k = now + 1; k <= end && !u.passes_on_the_way; ++k) u.passes_on_the_way = upper ? e.ph[k][c.at] > line : e.ph[k][c.at] < line;
            const double ends = e.ph[end][c.at];
            if (upper ? ends > row->limit_ph : ends < row->limit_ph) {
                (c.grain ? past_grain : past_deep) = true;
                double& out = c.grain ? u.out_grain_ph : u.out_deep_ph;
                out = std::max(out, std::abs(ends - row->limit_ph));
            }
        }
    }
    u.past_limit = u.passes_on_the_way || past_grain || past_deep;
}

}  // namespace

const atlas::PlanRulesRow& plan_rule(std::string_view key) {
    for (const auto& row : atlas::plan_rules)
        if (row.key == key) return row;
    throw Bug("no row " + std::string(key));
}

Basis basis_of_plan_rule(std::string_view key, std::string inputs) {
    const auto& row = plan_rule(key);
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

double press_s() { return 60 * plan_rule("blot_press").limit_min; }

double Proposal::lasts_s() const {
    double t = first_wait_s;
    for (const auto& l : layings) t += l.lasts_s();
    return t + rest_s;
}

treatment::Course with_proposal(const Known& known, std::size_t member, const Proposal& proposal) {
    treatment::Course c = known.courses[member];
    const std::size_t first = c.liquids.size();
    // A second before anything is laid on, so that what there is now is told apart from it.
    const double still = proposal.layings.empty() ? proposal.first_wait_s + proposal.rest_s : std::max(1.0, proposal.first_wait_s);
    (c.layings.empty() ? c.first_wait_s : c.layings.back().then_s) += still;
    c.liquids.insert(c.liquids.end(), proposal.liquids.begin(), proposal.liquids.end());
    const double hand = hand_1(known, member);
    for (treatment::Laying l : proposal.layings) {
        l.liquid += first;
        l.taken_off_1 = std::clamp(1 - (1 - l.taken_off_1) * hand, 0.0, 0.99);
        c.layings.push_back(std::move(l));
    }
    if (!proposal.layings.empty()) c.layings.back().then_s += proposal.rest_s;
    return c;
}

Under under_of(const treatment::Exposure& e, const leather::Hide& hide, std::size_t now, std::size_t end, const Aim& aim, double shift_ph) {
    Under u;
    u.shift_ph = shift_ph;
    const auto cells = leather_cells(e, hide);
    const auto& snapshots = e.section.snapshots;
    const double now_s = snapshots[now].at_s;
    for (std::size_t k = now; k <= end; ++k) {
        double sum = 0, thick = 0, water = 0;
        for (const Cell& c : cells) {
            if (c.grain) sum += e.ph[k][c.at] * c.thick_m, thick += c.thick_m;
            const auto& layer = e.layers[static_cast<std::size_t>(e.section.layer_of[c.at])];
            if (!snapshots[k].liquid_kg_m3.empty()) water += (snapshots[k].liquid_kg_m3[c.at] - layer.water_ambient_kg_m3) * c.thick_m;
        }
        u.surface_ph.push_back(static_cast<float>(e.surface_ph[k] + shift_ph));
        u.grain_ph.push_back(static_cast<float>(sum / thick));
        if (k > now) u.held_g_m2 = std::max(u.held_g_m2, 1000 * water);
        if (snapshots[k].film_kg_m2 > treatment::film_gone_kg_m2) u.film_end_s = (k < end ? snapshots[k + 1].at_s : snapshots[k].at_s) - now_s;
    }
    for (const Cell& c : cells) u.end_ph.push_back(static_cast<float>(e.ph[end][c.at]));
    const auto inside = [&](double ph) { return as_read(ph) >= aim.low_ph && as_read(ph) <= aim.high_ph; };
    const auto outside = [&](double ph) { return std::max({0.0, aim.low_ph - ph, ph - aim.high_ph}); };
    const double by_window = aim.of_readings ? shift_ph : 0, surface_ph = e.surface_ph[end] + by_window, grain_ph = static_cast<double>(u.grain_ph.back()) + by_window;
    u.inside_surface = inside(surface_ph);
    u.inside_depth = inside(grain_ph);
    u.out_surface_ph = outside(surface_ph);
    u.out_grain_ph = outside(grain_ph);
    bool past_grain = false, past_deep = false;
    against_limits(u, e, cells, hide, now, end, past_grain, past_deep);
    u.ends = past_deep ? Ends::Deep : past_grain || !u.inside_depth ? Ends::Grain : !u.inside_surface ? Ends::Surface : Ends::Within;
    u.ring = u.held_g_m2 > plan_rule(aim.vegetable && aim.open ? "ring_share_vegetable" : "ring_share").limit_1 * aim.pass_g_m2;
    u.darkens = u.held_g_m2 > plan_rule("dark_share").limit_1 * aim.pass_g_m2;
    for (const auto& off : e.section.wiped_off)
        if (off.at_s > now_s && off.at_s < snapshots[end].at_s) u.net_g_m2 -= 1000 * off.water_kg_m2;
    u.left_mol_m2 = e.left_mol_m2;
    for (double mol : e.carried_mol_kg) u.carried_mol_m2.push_back(mol * e.dry_kg_m2);
    return u;
}

Result<std::vector<std::vector<Followed>>> follow_all(const Known& known, const std::vector<std::size_t>& which, const std::vector<Candidate>& candidates, const Aim& aim, const Progress& progress) {
    // Members drawn twice from what fits are one and the same: each is solved once.
    std::map<std::size_t, std::size_t> place;
    std::vector<std::size_t> once, at;
    for (std::size_t i : which) {
        const std::size_t same = i < known.solved_as.size() ? known.solved_as[i] : known.members.size() + i;
        const auto [it, fresh] = place.emplace(same, once.size());
        if (fresh) once.push_back(i);
        at.push_back(it->second);
    }
    std::vector<treatment::Setting> settings;
    std::vector<diffusion::SectionCase> cases;
    for (const Candidate& c : candidates)
        for (std::size_t i : once) {
            treatment::Setting s = setting_of(known, i, c.proposal);
            s.options.tolerance_1 = diffusion::ensemble_tolerance_1;
            s.options.mesh_1 = diffusion::ensemble_mesh_1;
            s.options.lean = true;
            cases.push_back({s.components, s.layers, s.stages, s.options});
            settings.push_back(std::move(s));
        }
    HW_TRY(sections, sections_of(cases, progress));
    std::vector<std::vector<Followed>> out;
    for (std::size_t c = 0; c < candidates.size(); ++c) {
        const Proposal& proposal = candidates[c].proposal;
        const std::vector<double> ends = ends_s(candidates[c]);
        std::vector<Followed> followed(ends.size());
        std::vector<std::optional<std::vector<Under>>> solved(once.size());
        for (std::size_t n = 0; n < once.size(); ++n) {
            const std::size_t at_case = c * once.size() + n;
            if (!sections[at_case]) continue;
            const leather::Hide& hide = known.members[once[n]].hide;
            const double now_s = seconds_until_now(known.courses[once[n]]);
            const treatment::Exposure e = treatment::solved(settings[at_case], hide, std::move(*sections[at_case]));
            const std::size_t now = at_or_before(e.section, now_s);
            solved[n].emplace();
            for (std::size_t k = 0; k < ends.size(); ++k) {
                const std::size_t end = k + 1 < ends.size() ? first_at(e.section, now_s + ends[k]) : e.section.snapshots.size() - 1;
                Followed& f = followed[k];
                if (f.at_s.empty()) {
                    for (std::size_t j = now; j <= end; ++j) f.at_s.push_back(e.section.snapshots[j].at_s - e.section.snapshots[now].at_s);
                    f.depth_um = depths_um(e, hide, known.question.hide);
                }
                HW_EXPECTS(end - now + 1 == f.at_s.size());
                Under u = under_of(e, hide, now, end, aim, known.members[once[n]].shift_ph);
                double laid_g_m2 = 0;
                for (std::size_t j = 0; j < proposal.layings.size() && (candidates[c].last.empty() || j <= candidates[c].last[k]); ++j)
                    laid_g_m2 += 1000 * proposal.layings[j].kg_m2 * proposal.liquids[proposal.layings[j].liquid].water_kg_kg;
                // A cloth takes older water as well; that is no room for more.
                if (laid_g_m2 > 0) u.net_g_m2 = std::max(0.0, u.net_g_m2 + laid_g_m2);
                solved[n]->push_back(std::move(u));
            }
        }
        const auto first = std::find_if(solved.begin(), solved.end(), [](const auto& u) { return u.has_value(); });
        if (first == solved.end()) return Error{ErrorCode::NotConverged, "None of the cases could be computed. Shorten the story or lower the amounts.", "known.happened.use"};
        // A case that did not settle is told as its neighbour: they are few, and the cases lie evenly.
        std::optional<std::vector<Under>> last = *first;
        for (auto& u : solved) {
            if (!u) u = last;
            last = u;
        }
        for (std::size_t k = 0; k < ends.size(); ++k)
            for (std::size_t n : at) followed[k].members.push_back((*solved[n])[k]);
        out.push_back(std::move(followed));
    }
    return out;
}

Result<Followed> follow(const Known& known, const std::vector<std::size_t>& which, const Proposal& proposal, const Aim& aim, const Progress& progress) {
    Candidate one{proposal, {}};
    if (!proposal.layings.empty()) one.last.push_back(proposal.layings.size() - 1);
    HW_TRY(all, follow_all(known, which, {one}, aim, progress));
    return std::move(all.front().front());
}

Result<Profile> section_of(const Known& known, std::size_t member, const Proposal& proposal) {
    treatment::Setting s = setting_of(known, member, proposal);
    const leather::Hide& hide = known.members[member].hide;
    HW_TRY(section, diffusion::run_section(s.components, s.layers, s.stages, s.options));
    const double now_s = seconds_until_now(known.courses[member]);
    const std::size_t now = at_or_before(section, now_s);
    treatment::Exposure e = treatment::solved(s, hide, std::move(section));
    const auto drop = [&](auto& list) { list.erase(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(now)); };
    drop(e.ph), drop(e.film_ph), drop(e.surface_ph), drop(e.section.snapshots);
    auto& events = e.section.events;
    events.erase(std::remove_if(events.begin(), events.end(), [&](const auto& x) { return x.at_s < now_s - 1e-6; }), events.end());
    for (auto& x : events) x.at_s -= now_s;
    const double zero = e.section.snapshots.front().at_s;
    for (auto& x : e.section.snapshots) x.at_s -= zero;
    return profile_of(e);
}

std::vector<std::size_t> standing_for(const Followed& f, std::size_t count) {
    std::vector<std::size_t> order(f.members.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return f.members[a].grain_ph.front() < f.members[b].grain_ph.front(); });
    std::vector<std::size_t> out;
    count = std::min(count, order.size());
    for (std::size_t i = 0; i < count; ++i) out.push_back(order[(2 * i + 1) * order.size() / (2 * count)]);
    return out;
}

namespace {
double table_loss(Ends ends) {
    constexpr std::array<std::string_view, 4> states{"within", "surface", "grain", "deep"};
    for (const auto& row : atlas::decision_losses)
        if (row.key == "leave_alone" && row.state == states[static_cast<std::size_t>(ends)]) return row.loss_min;
    throw Bug("no loss of a state left alone");
}
}  // namespace

double loss_of(const Under& u) {
    static const double full = plan_rule("full_outside").limit_ph;
    static const std::array<double, 4> table{table_loss(Ends::Within), table_loss(Ends::Surface), table_loss(Ends::Grain), table_loss(Ends::Deep)};
    const auto grown = [&](double from, double to, double out_ph) { return from + (to - from) * std::min(1.0, out_ph / full); };
    const double surface = grown(table[0], table[1], u.out_surface_ph);
    switch (u.ends) {
        case Ends::Within: return table[0];
        case Ends::Surface: return surface;
        case Ends::Grain: return grown(surface, table[2], u.out_grain_ph);
        case Ends::Deep: return grown(grown(surface, table[2], u.out_grain_ph), table[3], u.out_deep_ph);
    }
    throw Bug("an end without a loss");
}

std::vector<double> losses_of(const Followed& f, double work_min, double wait_h) {
    static const double waiting = plan_rule("waiting").limit_min, ring = plan_rule("ring_loss").limit_min, passed = plan_rule("pass_limit_loss").limit_min;
    std::vector<double> out;
    for (const auto& m : f.members) out.push_back(work_min + wait_h * waiting + loss_of(m) + (m.ring ? ring : 0) + (m.passes_on_the_way ? passed : 0));
    return out;
}

double mean_of(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size()); }

}  // namespace hw::desk
