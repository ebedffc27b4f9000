#include "desk/ensemble.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <thread>

#include "core/diffusion/sections.hpp"
#include "core/treatment/moisture.hpp"
#include "desk/next_step.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// Alkali that the grain takes up before the nearest deciding limit of the pores that way; none where no limit lies ahead.
double takes_grain(const leather::Hide& hide, bool alkali) {
    std::optional<double> nearest;
    for (const auto* row : limits_of(hide.tannage_key)) {
        if (row->quantity != "pore" || row->decides != "yes" || (row->side == "upper") != alkali) continue;
        const double limit = row->limit_ph;
        if (alkali ? limit > hide.ph : limit < hide.ph)
            if (!nearest || (alkali ? limit < *nearest : limit > *nearest)) nearest = limit;
    }
    if (!nearest) return 0;
    return hide.dry_density_kg_m3 * hide.grain_um * 1e-6 * std::abs(leather::alkali_between(hide, hide.ph, *nearest));
}

/// One cell of every member. A thicker member has deeper cells; they stand for the same part of the leather.
std::vector<double> at_cell(const Ensemble& e, std::size_t moment, std::size_t cell) {
    std::vector<double> out;
    for (const auto& o : e.outcomes) out.push_back(static_cast<double>(o.ph[moment][cell]));
    return out;
}

void add_five(Fan& f, const std::vector<double>& values) {
    const auto five = belief::five(values);
    f.median.push_back(five.median);
    f.low_50.push_back(five.low_50);
    f.high_50.push_back(five.high_50);
    f.low_90.push_back(five.low_90);
    f.high_90.push_back(five.high_90);
}

Fan through_leather(const Ensemble& e, std::size_t moment, const char* key, const std::string& title) {
    Fan f;
    f.key = key;
    f.title = title;
    f.along = "depth_um";
    f.unit = "pH";
    for (std::size_t c = 0; c < e.depth_um.size(); ++c) {
        f.at.push_back(e.depth_um[c]);
        add_five(f, at_cell(e, moment, c));
    }
    return f;
}

/// The moment at which the middle member lies farthest from where it started, anywhere inside.
std::size_t worst_moment(const Ensemble& e) {
    std::size_t worst = 0;
    double most = -1;
    for (std::size_t k = 0; k < e.moment_s.size(); ++k) {
        std::vector<double> far;
        for (const auto& o : e.outcomes) {
            double away = 0;
            for (std::size_t c = 0; c < o.ph[k].size(); ++c) away = std::max(away, std::abs(static_cast<double>(o.ph[k][c] - o.ph[0][c])));
            far.push_back(away);
        }
        const double middle = belief::quantiles(far, {0.5})[0];
        if (middle > most) most = middle, worst = k;
    }
    return worst;
}

std::vector<Fan> fans_of(const Ensemble& e) {
    std::vector<Fan> out;
    const std::size_t worst = worst_moment(e);
    out.push_back(through_leather(e, worst, "depth_worst", "pH through the leather at its farthest, " + span(e.moment_s[worst]) + " after wetting"));
    out.push_back(through_leather(e, e.moment_s.size() - 1, "depth_end", "pH through the leather at the end, " + span(e.moment_s.back()) + " after wetting"));
    // The top hundredth of a millimetre or so: the second cell, clear of the skin under the film.
    const std::size_t upper = std::min<std::size_t>(1, e.depth_um.size() - 1);
    Fan surface, within;
    surface.key = "surface";
    surface.title = "What a drop of water on the surface would read";
    within.key = "upper_leather";
    within.title = "pH in the upper leather, " + fixed(e.depth_um[upper], 0) + " µm below the finish";
    for (Fan* f : {&surface, &within}) {
        f->along = "time_s";
        f->unit = "pH";
    }
    for (std::size_t k = 0; k < e.moment_s.size(); ++k) {
        if (!surface.at.empty() && e.moment_s[k] <= surface.at.back()) continue;  // two outputs at one event
        surface.at.push_back(e.moment_s[k]);
        within.at.push_back(e.moment_s[k]);
        std::vector<double> reading;
        for (const auto& o : e.outcomes) reading.push_back(static_cast<double>(o.surface_ph[k]));
        add_five(surface, reading);
        add_five(within, at_cell(e, k, upper));
    }
    out.push_back(surface);
    out.push_back(within);
    return out;
}

/// Shares of the variance, those of one group told of together, largest first.
std::vector<Influence> influences_of(const Draw& draw, const std::vector<double>& y) {
    const auto indices = belief::first_order(draw.u, y);
    std::map<std::string, Influence> by_group;
    std::vector<std::string> order;
    for (std::size_t d = 0; d < draw.unknowns.size(); ++d) {
        const Unknown& unknown = draw.unknowns[d];
        auto [at, fresh] = by_group.try_emplace(unknown.group);
        Influence& i = at->second;
        const double largest = i.share_1;
        if (fresh) order.push_back(unknown.group);
        if (fresh || indices[d].share_1 > largest) {
            // The largest of a group speaks for it.
            i.key = unknown.group;
            i.name = unknown.name;
            i.range = unknown.range;
            i.settled_by = unknown.settled_by;
            i.basis = unknown.basis;
        }
        i.share_1 += indices[d].share_1;
        i.plus_minus_1 = std::hypot(i.plus_minus_1, indices[d].plus_minus_1);
    }
    std::vector<Influence> out;
    for (const auto& group : order) out.push_back(by_group[group]);
    std::stable_sort(out.begin(), out.end(), [](const Influence& a, const Influence& b) { return a.share_1 > b.share_1; });
    return out;
}

}  // namespace

int section_threads() { return static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, 8U)); }

Result<std::vector<std::optional<diffusion::SectionResult>>> sections_of(const std::vector<diffusion::SectionCase>& cases, const Progress& progress) {
    std::vector<std::optional<diffusion::SectionResult>> out;
    bool cancelled = false;
    const Progress watched = progress ? Progress([&](double share, const char* doing) { return !(cancelled = cancelled || !progress(share, doing)); }) : Progress{};
    auto all = diffusion::run_sections(cases, section_threads(), watched);
    if (all.ok()) {
        for (auto& s : *all) out.emplace_back(std::move(s));
        return out;
    }
    if (cancelled || all.error().code != ErrorCode::NotConverged) return all.error();
    if (cases.size() == 1) return std::vector<std::optional<diffusion::SectionResult>>(1);
    const auto middle = cases.begin() + static_cast<std::ptrdiff_t>(cases.size() / 2);
    for (const auto& half : {std::vector(cases.begin(), middle), std::vector(middle, cases.end())}) {
        HW_TRY(some, sections_of(half, progress));
        std::move(some.begin(), some.end(), std::back_inserter(out));
    }
    return out;
}

Result<Outcome> outcome_of(const treatment::Exposure& e, const leather::Hide& hide, bool alkali) {
    Outcome o;
    HW_TRY(x, extracts(hide, e));
    o.held = held_against_limits(e, hide, x.before, x.after);
    o.farthest_ph = hide.ph;
    const auto& s = e.section;
    std::vector<std::size_t> cells;
    for (std::size_t i = 0; i < s.top_m.size(); ++i)
        if (!e.layers[static_cast<std::size_t>(s.layer_of[i])].finish) cells.push_back(i);
    for (std::size_t k = 0; k < e.ph.size(); ++k) {
        std::vector<float> row;
        for (std::size_t i : cells) {
            const double ph = e.ph[k][i];
            row.push_back(static_cast<float>(ph));
            o.farthest_ph = alkali ? std::max(o.farthest_ph, ph) : std::min(o.farthest_ph, ph);
        }
        o.ph.push_back(std::move(row));
        o.surface_ph.push_back(static_cast<float>(e.surface_ph[k]));
    }
    o.wetted_um = treatment::wetted_um(e);
    o.surface_wet_s = treatment::surface_wet_s(e);
    o.left_mol_m2 = e.left_mol_m2;
    o.takes_grain_mol_m2 = takes_grain(hide, alkali);
    return o;
}

std::vector<double> depths_um(const treatment::Exposure& e, const leather::Hide& solved, const leather::Hide& central) {
    std::vector<double> out;
    const double grain = central.grain_um, thick = solved.thickness_mm * 1000 - solved.finish_um, whole = central.thickness_mm * 1000 - central.finish_um;
    for (std::size_t c = 0; c < e.section.top_m.size(); ++c) {
        if (e.layers[static_cast<std::size_t>(e.section.layer_of[c])].finish) continue;
        const double middle = (e.section.top_m[c] + e.section.bottom_m[c]) / 2 * 1e6 - e.finish_um;
        out.push_back(middle <= grain ? middle : grain + (middle - grain) * (whole - grain) / (thick - grain));
    }
    return out;
}

Result<Ensemble> solve_ensemble(const Question& question, int members, const Progress& progress) {
    Ensemble e;
    HW_TRY(drawn, draw(question, static_cast<std::size_t>(members)));
    e.draw = std::move(drawn);
    std::vector<treatment::Setting> settings;
    std::vector<diffusion::SectionCase> cases;
    for (const Member& m : e.draw.members) {
        const MemberLiquid& liquid = e.draw.liquids[m.liquid];
        treatment::Setting s = treatment::setting(liquid.as_used, m.hide, m.story, liquid.ionic_strength_mol_kg, least_share_1);
        s.options.tolerance_1 = diffusion::ensemble_tolerance_1;
        s.options.mesh_1 = diffusion::ensemble_mesh_1;
        s.options.lean = true;
        cases.push_back({s.components, s.layers, s.stages, s.options});
        settings.push_back(std::move(s));
    }
    HW_TRY(sections, diffusion::run_sections(cases, section_threads(), progress));
    for (const auto& s : sections.front().snapshots) e.moment_s.push_back(s.at_s);
    for (std::size_t i = 0; i < sections.size(); ++i) {
        HW_EXPECTS(sections[i].snapshots.size() == e.moment_s.size());
        const Member& m = e.draw.members[i];
        const bool alkali = e.draw.liquids[m.liquid].ph > m.hide.ph;
        const treatment::Exposure exposure = treatment::solved(settings[i], m.hide, std::move(sections[i]));
        HW_TRY(outcome, outcome_of(exposure, m.hide, alkali));
        e.outcomes.push_back(std::move(outcome));
        if (i == 0) e.depth_um = depths_um(exposure, m.hide, question.hide);
    }
    return e;
}

Grade middle_grade(const std::vector<Grade>& grades) {
    HW_EXPECTS(!grades.empty());
    std::vector<Grade> sorted = grades;
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>((sorted.size() - 1) / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    return *middle;
}

std::size_t nearest_of(const Ensemble& e, const std::vector<Grade>& grades, Grade grade) {
    std::size_t best = grades.size();
    double least = 1e300;
    for (std::size_t i = 0; i < grades.size(); ++i) {
        if (grades[i] != grade) continue;
        double away = 0;
        for (double u : e.draw.u[i]) away += (u - 0.5) * (u - 0.5);
        if (away < least) least = away, best = i;
    }
    return best;
}

Band band_of(const std::vector<double>& values, std::string unit) {
    const auto five = belief::five(values);
    return {five.median, five.low_50, five.high_50, five.low_90, five.high_90, std::move(unit)};
}

Sure sure_of(const Ensemble& e, const std::vector<Grade>& grades, Grade answer, const std::vector<double>& reached, const std::string& reached_name) {
    Sure out;
    out.members = static_cast<int>(grades.size());
    for (const auto& [grade, word] : EnumNames<Grade>::names) {
        const auto n = std::count(grades.begin(), grades.end(), grade);
        if (n > 0) out.chances.push_back({grade, static_cast<double>(n) / static_cast<double>(grades.size())});
        if (grade == answer) out.answer_1 = static_cast<double>(n) / static_cast<double>(grades.size());
    }
    out.sampling_1 = belief::share_error(out.answer_1, grades.size());
    const bool settled = is_settled(out.answer_1);
    out.influences_of = settled ? reached_name : "the answer";
    std::vector<double> y = reached;
    if (!settled)
        for (std::size_t i = 0; i < grades.size(); ++i) y[i] = static_cast<double>(grades[i]);
    out.influences = influences_of(e.draw, y);
    out.fans = fans_of(e);
    return out;
}

}  // namespace hw::desk
