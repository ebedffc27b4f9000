#include "desk/happening.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <tuple>

#include "atlas/substances.hpp"
#include "core/belief/points.hpp"
#include "core/chem/builder.hpp"
#include "core/chem/conductivity.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/diffusion/sections.hpp"
#include "core/treatment/harm.hpp"
#include "desk/cautions.hpp"
#include "desk/inspect.hpp"
#include "desk/ledger.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/question.hpp"
#include "desk/validate.hpp"
#include "desk/ways.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

std::string at(const char* list, std::size_t i, const char* field) { return std::string(list) + "[" + std::to_string(i) + "]." + field; }

Error under(const Error& e, const std::string& where) { return {e.code, e.message, where + (e.where.empty() ? "" : "." + e.where)}; }

/// The same readings in any order are the same question.
auto order_of(const Look& l) {
    const DropCount d = l.drops.value_or(DropCount{});
    return std::tuple(l.kind, l.at_h, l.value_1, l.plus_minus_1.value_or(-1), l.pass, d.product_ml, d.acid, d.acid_pct, d.drop_ml, d.end_ph);
}

bool of_product(std::string_view kind) { return kind == "product_ph" || kind == "product_ph_tenfold"; }

std::optional<std::size_t> weak_acid(const std::string& name) {
    const auto row = chem::find_substance(name, "");
    if (!row || atlas::substances[*row].kind != "acid" || atlas::substances[*row].system_mol_1 <= 0) return std::nullopt;
    for (std::string_view strong : {"sulfuric acid", "hydrochloric acid", "nitric acid", "phosphoric acid", "sulfamic acid", "sodium hydrogen sulfate", "oxalic acid"})
        if (atlas::substances[*row].name == strong) return std::nullopt;
    return row;
}

/// Kind, range, time and whatever else a reading needs.
std::optional<Error> refused(const Look& look, const std::string& where, const RefineRequest& request, const Question& q) {
    const auto bad = [&](const char* field, std::string message, ErrorCode code = ErrorCode::InvalidInput) { return Error{code, std::move(message), where + "." + field}; };
    if (look.kind.empty()) return bad("kind", "Say what was read: surface_ph, control_ph, product_ph …");
    const auto* kind = look_kind(look.kind);
    if (kind == nullptr) {
        std::string keys;
        for (const auto& row : atlas::look_kinds) keys += (keys.empty() ? "" : ", ") + std::string(row.key);
        return bad("kind", "There is no kind of reading \"" + look.kind + "\". Use one of: " + keys + ".", ErrorCode::NotFound);
    }
    if (!(look.value_1 >= kind->lowest_1 && look.value_1 <= kind->highest_1))
        return bad("value_1", std::string(kind->plain_name) + " lies between " + fixed(kind->lowest_1, kind->lowest_1 < 1 ? 1 : 0) + " and " + fixed(kind->highest_1, 0) + " " + std::string(kind->unit) + "; check the figure.", ErrorCode::OutOfRange);
    if (kind->when == "time" && look.at_h > request.now_h) return bad("at_h", "This reading lies after now. Set now_h to the hours since the first wetting, or correct the time of the reading.");
    if (request.nothing_laid && (of_product(look.kind) || look.kind == "product_drops" || look.kind == "weight_used" || look.kind == "cloth_weight"))
        return bad("kind", "Nothing was laid on, so there is no product to read. Leave this reading out, or say which liquid it was.");
    if (look.kind == "water_drop" && !(q.hide.finish_um > 0)) return bad("kind", "Leather without a finish takes a drop at once: the time tells nothing. Leave it out, or look again whether the class is right.");
    if (look.kind == "cloth_weight" && !(q.story.wiped_1 > 0)) return bad("kind", "No wiping was told. Say how much was wiped off, or leave the weight of the cloth out.");
    if (kind->when == "pass") {
        if (look.pass < 1 || static_cast<std::size_t>(look.pass) > request.passes.size()) return bad("pass", "Say of which pass, 1 the first; " + std::to_string(request.passes.size()) + " were told.");
        if (!(request.passes[static_cast<std::size_t>(look.pass) - 1].blotted_pct > 0)) return bad("pass", "Nothing was blotted off in that pass, so there was nothing to squeeze out. Leave the reading out, or say how much was blotted.");
    }
    if (look.kind == "product_drops") {
        if (!look.drops) return bad("drops", "Say how the drops were counted: millilitres of product, acid, its strength, drop, and where it stopped.");
        if (const std::string why = no_drops(q.liquid, *look.drops); !why.empty()) return bad("kind", why);
    }
    return std::nullopt;
}

/// Readings of the piece's panel: the newest trusted ones, as they were timed; the rest is told.
Result<Done> add_of_panel(RefineRequest& request, std::vector<Look>& looks, Happening& out, Ports& ports) {
    if (request.piece.empty()) return Done{};
    HW_TRY(piece, inspect({request.piece, {}}, ports));
    const auto panel = std::find_if(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == request.panel; });
    if (panel == piece.panels.end()) return Error{ErrorCode::NotFound, "This piece has no panel \"" + request.panel + "\".", "panel"};
    Leather& l = request.happened.leather;
    if (l.leather_class.empty() && l.id.empty()) {
        l.leather_class = panel->leather.leather_class;
        l.tannage = panel->leather.tannage;
        l.name = panel->leather.name;
        l.standing = panel->leather.standing;
    }
    l.decayed = l.decayed || panel->leather.decayed;
    if (!l.shrinkage_c) l.shrinkage_c = panel->leather.shrinkage_c;
    // The section is that of one place. A spot is another place, with a dose of its own.
    const auto here = std::count_if(piece.spots.begin(), piece.spots.end(), [&](const SpotNow& s) { return s.zone == panel->zone && !s.reads.empty(); });
    if (here > 0)
        out.notes.push_back({"spots_not_weighed", std::to_string(here) + (here == 1 ? " test spot" : " test spots") + " on this class of panels: kept as evidence, not weighed. Each lies at a place of its own with a dose of its own, and what is followed here is one place.", "note",
                             {"One place is followed", "own", "docs/theory/spots.md", Standing::Derived, panel->zone}});
    for (const auto& r : piece.readings) {
        if (r.panel != request.panel || look_kind(r.kind) == nullptr) continue;
        if (!r.trusted) {
            out.notes.push_back({"not_trusted", r.name + " " + fixed(r.value.value, 1) + " of this panel is not weighed: " + r.trust, "note", {"A pH reading counts with a calibration behind it", "trade", "two buffers on the day of use", Standing::CommonPractice, r.entry}});
            continue;
        }
        const auto read_at = parse_moment(r.at);
        const double ago_h = read_at ? static_cast<double>(ports.clock.now_s() - *read_at) / 3600 : 0;
        Look look;
        look.kind = r.kind;
        look.value_1 = r.value.value;
        look.plus_minus_1 = r.value.plus_minus;
        look.at_h = std::clamp(request.now_h - ago_h, 0.0, request.now_h);
        look.note = r.place;
        looks.push_back(look);
        if (!r.against_control || r.kind != "surface_ph") continue;
        look.kind = "control_ph";
        look.value_1 = r.value.value - r.against_control->value;
        look.plus_minus_1 = std::sqrt(std::max(0.0, r.against_control->plus_minus * r.against_control->plus_minus - r.value.plus_minus * r.value.plus_minus));
        looks.push_back(look);
    }
    return Done{};
}

/// What was read of the hide before it happened counts like any other reading, with what its finish may do to it.
void add_of_leather(Leather& leather, std::vector<Look>& looks) {
    const auto take = [&](std::optional<double>& value, const char* kind) {
        if (!value) return;
        Look l;
        l.kind = kind;
        l.value_1 = *value;
        value.reset();
        // A reading that stands in both places was taken once.
        if (std::none_of(looks.begin(), looks.end(), [&](const Look& k) { return k.kind == l.kind && k.value_1 == l.value_1; })) looks.push_back(l);
    };
    take(leather.surface_ph, "control_ph");
    take(leather.extract_ph, "extract_ph");
}

/// Members are drawn to fit what was read of the product: conditioned before they are drawn, not by weight.
void draw_from_product(Happening& h) {
    double sum = 0, weight = 0, tenfold = 0, tenfold_weight = 0;
    const auto add = [](double& s, double& w, double value, double sd) { s += value / (sd * sd), w += 1 / (sd * sd); };
    for (auto& r : h.readings) {
        if (!of_product(r.look.kind)) continue;
        r.drawn_from = true;
        const double sd = own_sd(*r.kind, r.look, r.look.value_1);
        if (r.look.kind == "product_ph") add(sum, weight, r.look.value_1, sd);
        else add(tenfold, tenfold_weight, r.look.value_1, sd);
    }
    Question& q = h.question;
    if (tenfold_weight > 0) q.liquid.read_ph_tenfold = tenfold / tenfold_weight;
    if (!(weight > 0)) return;
    if (q.liquid.read_ph) add(sum, weight, *q.liquid.read_ph, unknown_row("read_ph").high_1 / half_90_1);
    q.liquid.read_ph = sum / weight;
    q.read_ph_half = half_90_1 / std::sqrt(weight);
}

double use_ends_s(const Question& q) {
    if (q.nothing_laid) return 0;
    const auto& s = q.story;
    return s.repeats * (s.dwell_s + s.rinse_passes * s.rinse_wait_s) + (s.repeats - 1) * s.interval_s;
}

/// Passes by time, their liquids filled in; nothing that must not meet.
Result<Done> add_passes(const RefineRequest& request, const std::vector<Pass>& before, Happening& h, Ports& ports) {
    double free_s = use_ends_s(h.question);
    h.pass_order.resize(request.passes.size());
    std::vector<std::size_t> order(request.passes.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return request.passes[a].at_h < request.passes[b].at_h; });
    const bool open = treatment::is_open(h.question.hide);
    // What the record shows to have lain there before counts as well.
    std::vector<Came> came;
    for (const Pass& pass : before) came.push_back(came_with(pass, open));
    if (!h.question.nothing_laid) came.push_back(as_used(h.question.liquid, h.question.use, open));
    if (const auto met = residue_of(came, 0).met) h.stop = stop_from(*met);
    for (std::size_t i : order) {
        LaidPass pass{request.passes[i], {}, 0};
        auto liquid = resolved(pass.told.liquid, ports.store);
        if (!liquid.ok()) return under(liquid.error(), at("passes", i, "liquid"));
        pass.told.liquid = *liquid;
        constexpr double rounding_s = 1;  // hours are told, seconds are meant
        if (pass.told.at_h * 3600 < free_s - rounding_s) return Error{ErrorCode::InvalidInput, "This pass begins before what came first was over, after " + span(free_s) + ". Correct its time.", at("passes", i, "at_h")};
        free_s = pass.told.at_h * 3600 + pass.told.dwell_s;
        if (free_s > h.now_s + rounding_s) return Error{ErrorCode::InvalidInput, "This pass ends later than now. Correct when it was, or how long ago the first wetting was (now_h).", at("passes", i, "at_h")};
        came.push_back(came_with(pass.told, open));
        if (const auto met = residue_of(came, pass.told.at_h).met; met && !h.stop) h.stop = stop_from(*met);
        auto recipe = reconciled(*liquid, h.question.story.air);
        if (!recipe.ok()) return under(recipe.error(), at("passes", i, "liquid"));
        pass.liquid = recipe->neat;
        chem::Conditions c;
        c.water = h.question.story.air;
        HW_TRY(e, chem::equilibrium(pass.liquid, c));
        pass.ionic_strength_mol_kg = e.ionic_strength_mol_kg;
        h.pass_order[i] = h.passes.size();
        h.passes.push_back(std::move(pass));
    }
    return Done{};
}

/// Moments at which every member is looked at: after each event, and at each reading.
std::vector<double> moments_of(const Happening& h) {
    constexpr std::array shares{0.003, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0};
    std::vector<double> out{h.now_s};
    double t = 0;
    const auto wait = [&](double duration) {
        for (double share : shares) out.push_back(t + share * duration);
        t += duration;
    };
    const auto& s = h.question.story;
    for (int i = 0; i < s.repeats && !h.question.nothing_laid; ++i) {
        wait(s.dwell_s);
        for (int r = 0; r < s.rinse_passes; ++r) wait(s.rinse_wait_s);
        if (i + 1 < s.repeats) wait(s.interval_s);
    }
    for (const auto& pass : h.passes) {
        wait(pass.told.at_h * 3600 - t);
        wait(pass.told.dwell_s);
    }
    wait(h.now_s - t);
    for (const auto& r : h.readings)
        if (r.kind->when == "time") out.push_back(r.look.at_h * 3600);
    // Moments that rounding alone holds apart are one.
    constexpr double one_s = 1e-6;
    std::sort(out.begin(), out.end());
    std::vector<double> apart;
    for (double moment : out)
        if (moment > one_s && (apart.empty() || moment > apart.back() + one_s)) apart.push_back(moment);
    return apart;
}

treatment::Course course_at(const Happening& h, const Member& m, const MemberLiquid& liquid, double until_s) {
    treatment::Course c = treatment::course_of(liquid.as_used, m.story);
    if (h.question.nothing_laid) c.layings.clear();
    double t = use_ends_s(h.question);
    const auto wait_until = [&](double moment) { (c.layings.empty() ? c.first_wait_s : c.layings.back().then_s) = std::max(0.0, moment - t); };
    for (const auto& pass : h.passes) {
        const double begins = pass.told.at_h * 3600;
        wait_until(begins);
        c.liquids.push_back(pass.liquid);
        c.layings.push_back({c.liquids.size() - 1, pass.told.g_m2 / 1000, pass.told.dwell_s, pass.told.blotted_pct / 100, "laid on", "blotted", 0, pass.told.blotted_pct > 0 ? press_s() : 0});
        t = begins + c.layings.back().lasts_s();
    }
    wait_until(until_s);
    return c;
}

/// What a meter in the squeezed-out blotter of each pass would show, of acids and bases alone.
Result<std::vector<double>> rinses_of(const Happening& h, const treatment::Setting& setting, const std::vector<diffusion::WipedOff>& off) {
    std::vector<double> out;
    HW_EXPECTS(off.size() >= h.passes.size());
    for (std::size_t p = off.size() - h.passes.size(); p < off.size(); ++p) {
        if (!(off[p].water_kg_m2 > 0)) {
            out.push_back(0);
            continue;
        }
        HW_TRY(c, chem::conductivity(treatment::taken_off_liquid(setting, off[p])));
        out.push_back(c.us_cm);
    }
    return out;
}

double surface_at(const Solved& s, std::size_t member, double at_s) {
    const auto& ph = s.outcomes[member].surface_ph;
    const auto later = std::upper_bound(s.moment_s.begin(), s.moment_s.end(), at_s);
    if (later == s.moment_s.end()) return ph.back();
    if (later == s.moment_s.begin()) return ph.front();
    const auto k = static_cast<std::size_t>(later - s.moment_s.begin());
    const double share = (at_s - s.moment_s[k - 1]) / (s.moment_s[k] - s.moment_s[k - 1]);
    return (1 - share) * static_cast<double>(ph[k - 1]) + share * static_cast<double>(ph[k]);
}

/// Drops until the strip says stop, and how many more or fewer where it errs.
struct Drops {
    double count = 0, half = 0;
};
Result<Drops> drops_of(const chem::Totals& neat, const DropCount& d, double strip_half, Temperature water) {
    const auto acid = weak_acid(d.acid);
    HW_EXPECTS(acid.has_value());
    const auto count = [&](double end_ph) -> Result<double> {
        chem::Conditions c;
        c.water = water;
        HW_TRY(now, chem::equilibrium(neat, c));
        if (now.ph <= end_ph) return 0.0;
        // In ever wider steps: far beyond what is there the titration leaves the range of its activities.
        std::optional<double> mol;
        double most_mol_kg = 0;
        for (double most : {0.25, 1.0, 4.0}) {
            const auto found = chem::amount_to_ph(neat, *acid, end_ph, most, water);
            if (!found.ok()) break;
            most_mol_kg = most;
            mol = *found;
            if (mol) break;
        }
        const double kg_water = d.product_ml * 1e-3 * neat.water_kg_kg;
        const double acid_g = mol.value_or(most_mol_kg) * kg_water * atlas::substances[*acid].molar_mass_g_mol;
        return acid_g * 100 / d.acid_pct / d.drop_ml;  // a gram of thin acid is a millilitre
    };
    HW_TRY(at_end, count(d.end_ph));
    HW_TRY(early, count(d.end_ph + strip_half));
    HW_TRY(late, count(d.end_ph - strip_half));
    return Drops{at_end, std::abs(late - early) / 2};
}

}  // namespace

std::string no_drops(const Liquid& product, const DropCount& drops) {
    if (!product.label_known) return "A product without a label may hold chlorine bleach: no acid goes into it. Read its pH instead, neat and one part in ten.";
    for (const auto& [kind, name] : {std::pair{"hypochlorite", "chlorine bleach: with acid it gives off chlorine"}, {"sulfite", "sulfite: with acid it gives off sulfur dioxide"}, {"sulfide", "sulfide: with acid it gives off hydrogen sulfide"}})
        if (names_class(product, kind)) return std::string("It holds, or may hold, ") + name + ". Nobody counts drops of acid into it. Read its pH instead, neat and one part in ten.";
    if (nothing_known(product)) return "Nothing that is in it is known, so it may hold chlorine bleach: no acid goes into it. Read its pH instead, neat and one part in ten.";
    if (!weak_acid(drops.acid)) return "Only a weak acid is counted into a product: acetic or citric acid. \"" + drops.acid + "\" is not known as one.";
    std::vector<chem::Portion> acid{{drops.acid, "", drops.acid_pct, std::nullopt}};
    const chem::Totals in_product = chem::present(portions(product)), in_acid = chem::present(acid);
    for (const auto& hazard : chem::hazards({{&in_product, true}, {&in_acid, true}}))
        if (hazard.severity == chem::Severity::Stop) return stop_from(hazard).headline + " Nobody counts drops of acid into it. Read its pH instead, neat and one part in ten.";
    return "";
}

Result<std::vector<Pass>> passes_of_panel(RefineRequest& request, Ports& ports) {
    std::vector<Pass> before;
    if (request.piece.empty() || request.panel.empty() || ports.journal == nullptr) return before;
    HW_TRY(entries, ports.journal->entries(request.piece));
    const auto of_record = laid_on(entries, request.panel, ports.clock.now_s(), request.now_h);
    const Use& use = request.happened.use;
    const double over_h = request.nothing_laid ? 0 : (use.repeats * (use.dwell_s + use.rinse.passes * use.rinse.wait_s) / 3600 + (use.repeats - 1) * use.interval_h);
    take_in(request.passes, of_record, over_h);
    std::copy_if(of_record.begin(), of_record.end(), std::back_inserter(before), [&](const Pass& p) { return p.at_h < over_h; });
    return before;
}

Result<Happening> happening_of(const RefineRequest& given, Ports& ports) {
    Happening h;
    RefineRequest request = given;
    if (request.nothing_laid) {
        // Nothing that was told of a liquid is read.
        request.happened.liquid = Liquid{};
        request.happened.liquid.name = "water";
        request.happened.liquid.family = "water";
        request.happened.meets.clear();
        request.happened.use.dose = Dose{};
    }
    HW_TRY(before, passes_of_panel(request, ports));
    std::vector<Look> looks = request.readings;
    const std::size_t given_looks = looks.size();
    HW_TRY(panel, add_of_panel(request, looks, h, ports));
    static_cast<void>(panel);
    request.happened.members = request.members;
    auto asked = asked_of(request.happened, ports);
    if (!asked.ok()) return asked.error().where == "members" ? asked.error() : under(asked.error(), "happened");
    if (asked->stop) {
        h.stop = asked->stop;
        h.question.liquid = asked->request.liquid;
        return h;
    }
    if (const auto bad = out_of_range(request)) return *bad;
    Question& q = h.question;
    q.liquid = asked->request.liquid;
    q.leather = asked->request.leather;
    q.use = asked->request.use;
    q.told = true;
    q.nothing_laid = request.nothing_laid;
    add_of_leather(q.leather, looks);
    const Leather& l = q.leather;
    auto hide = leather::hide(l.leather_class, l.tannage, {l.thickness_mm, l.finish_um, std::nullopt, std::nullopt, l.shrinkage_c});
    if (!hide.ok()) return under(hide.error(), "happened");
    q.hide = *hide;
    auto story = story_of(q.use);
    if (!story.ok()) return under(story.error(), "happened");
    q.story = *story;
    h.now_s = request.now_h * 3600;
    if (use_ends_s(q) > h.now_s) return Error{ErrorCode::InvalidInput, "By then the use was not over: it takes " + span(use_ends_s(q)) + ". Give the hours since the first wetting.", "now_h"};

    for (std::size_t i = 0; i < looks.size(); ++i) {
        if (const auto bad = refused(looks[i], "readings[" + std::to_string(i) + "]", request, q)) return *bad;
        const auto* kind = look_kind(looks[i].kind);
        h.readings.push_back({looks[i], kind, {in_scale(*kind, looks[i].value_1), kind->scale == "ratio" && looks[i].value_1 >= kind->highest_1}, i < given_looks ? i : Sighted::none, false});
    }
    std::stable_sort(h.readings.begin(), h.readings.end(), [](const Sighted& a, const Sighted& b) { return order_of(a.look) < order_of(b.look); });
    HW_TRY(passes, add_passes(request, before, h, ports));
    static_cast<void>(passes);
    if (h.stop) return h;
    h.no_water = asked->no_water;
    if (!h.no_water) {
        // Whatever was read of it, wherever that was written down.
        Leather read = asked->request.leather;
        for (const auto& r : h.readings)
            if (r.look.kind == "surface_ph" || r.look.kind == "control_ph" || r.look.kind == "extract_ph") read.surface_ph = std::min(read.surface_ph.value_or(14), r.look.value_1);
        h.no_water = no_water(read, q.hide);
    }
    if (h.no_water) h.notes.push_back({h.no_water->kind, h.no_water->headline, "caution", h.no_water->basis});
    h.by_sheet = q;
    draw_from_product(h);
    h.output_s = moments_of(h);
    HW_TRY(drawn, draw(q, static_cast<std::size_t>(request.members)));
    h.unknowns = std::move(drawn.unknowns);
    h.prior = std::move(drawn.u);
    return h;
}

Result<Solved> solved_at(const Happening& h, const std::vector<std::vector<double>>& u, double until_s, const Progress& progress) {
    Solved out;
    HW_TRY(drawn, draw_at(h.question, h.unknowns, u));
    out.draw = std::move(drawn);
    std::vector<treatment::Setting> settings;
    std::vector<diffusion::SectionCase> cases;
    double strongest = 0;
    for (const auto& pass : h.passes) strongest = std::max(strongest, pass.ionic_strength_mol_kg);
    for (const Member& m : out.draw.members) {
        const MemberLiquid& liquid = out.draw.liquids[m.liquid];
        out.courses.push_back(course_at(h, m, liquid, until_s));
        treatment::Setting s = treatment::setting(out.courses.back(), m.hide, std::max(strongest, liquid.ionic_strength_mol_kg), least_share_1);
        s.options.tolerance_1 = diffusion::ensemble_tolerance_1;
        s.options.mesh_1 = diffusion::ensemble_mesh_1;
        s.options.lean = true;
        s.options.output_s = h.output_s;
        if (until_s > h.now_s) s.options.output_s.push_back(until_s);
        cases.push_back({s.components, s.layers, s.stages, s.options});
        settings.push_back(std::move(s));
    }
    HW_TRY(sections, sections_of(cases, progress));
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const Member& m = out.draw.members[i];
        out.settled.push_back(sections[i].has_value());
        out.outcomes.emplace_back();
        out.cloth_kg_m2.push_back(0);
        out.taken_up_mol_kg.push_back(0);
        out.carried_mol_kg.emplace_back();
        out.rinse_us_cm.emplace_back();
        if (!sections[i]) continue;
        const bool first = out.moment_s.empty();
        if (first)
            for (const auto& s : sections[i]->snapshots) out.moment_s.push_back(s.at_s);
        HW_EXPECTS(sections[i]->snapshots.size() == out.moment_s.size());
        const treatment::Exposure e = treatment::solved(settings[i], m.hide, std::move(*sections[i]));
        HW_TRY(outcome, outcome_of(e, m.hide, out.draw.liquids[m.liquid].ph > m.hide.ph));
        out.outcomes.back() = std::move(outcome);
        if (!e.section.wiped_off.empty()) out.cloth_kg_m2.back() = e.section.wiped_off.front().water_kg_m2;
        out.taken_up_mol_kg.back() = e.taken_up_mol_kg;
        out.carried_mol_kg.back() = e.carried_mol_kg;
        if (std::any_of(h.readings.begin(), h.readings.end(), [](const Sighted& r) { return r.kind->when == "pass"; })) {
            HW_TRY(rinses, rinses_of(h, settings[i], e.section.wiped_off));
            out.rinse_us_cm.back() = std::move(rinses);
        }
        if (first) out.depth_um = depths_um(e, m.hide, h.question.hide);
    }
    if (out.moment_s.empty()) return Error{ErrorCode::NotConverged, "The section could not be solved for any case. Check the amounts.", "happened.use"};
    return out;
}

Result<std::vector<Sight>> sights_of(const Happening& h, const Solved& s, const Look& look) {
    const auto* kind = look_kind(look.kind);
    HW_EXPECTS(kind != nullptr);
    const Question& q = h.question;
    const double area_m2 = q.use.dose.area_cm2 * 1e-4;
    std::vector<Drops> drops;
    std::vector<double> product;
    if (look.kind == "product_drops") {
        for (const auto& liquid : s.draw.liquids) {
            HW_TRY(one, drops_of(liquid.neat, look.drops.value_or(DropCount{}), kind->half_end_ph, q.story.air));
            drops.push_back(one);
        }
    } else if (of_product(look.kind)) {
        chem::Conditions c;
        c.water = q.story.air;
        for (const auto& liquid : s.draw.liquids) {
            HW_TRY(e, chem::equilibrium(look.kind == "product_ph" ? liquid.neat : chem::diluted(liquid.neat, 9, 0), c));
            product.push_back(e.ph);
        }
    }
    std::vector<Sight> out;
    for (std::size_t i = 0; i < s.draw.members.size(); ++i) {
        const Member& m = s.draw.members[i];
        double expected = 0, more = 0;
        if (!s.settled[i]) {
            out.emplace_back();
            continue;
        }
        if (look.kind == "surface_ph") expected = surface_at(s, i, look.at_h * 3600) + m.shift_ph;
        else if (look.kind == "control_ph") expected = m.sheltered_ph + m.shift_ph;
        else if (look.kind == "extract_ph" || look.kind == "extract_place_ph") {
            leather::Hide hide = m.hide;
            if (look.kind == "extract_ph") hide.ph = m.sheltered_ph;
            HW_TRY(x, leather::extract(hide, look.kind == "extract_ph" ? 0 : s.taken_up_mol_kg[i], look.kind == "extract_ph" ? std::vector<double>{} : s.carried_mol_kg[i]));
            expected = x.ph;
        } else if (look.kind == "product_drops") expected = drops[m.liquid].count, more = drops[m.liquid].half;
        else if (of_product(look.kind)) expected = product[m.liquid];
        else if (look.kind == "weight_used") expected = 1000 * m.story.dose_kg_m2 * area_m2 * m.area_1 * m.story.repeats;
        else if (look.kind == "cloth_weight") expected = 1000 * s.cloth_kg_m2[i] * area_m2 * m.area_1;
        else if (look.kind == "thickness") expected = m.hide.thickness_mm;
        else if (look.kind == "water_drop") expected = threshold("drop_darkens").limit_g_m2 / 1000 * m.hide.finish_um * 1e-6 / (m.hide.finish_water_kg_m_s * m.story.permeability_1);
        else if (look.kind == "rinse_conductivity") {
            // Neutral salts come on top: most likely as much again.
            constexpr double with_salts = 2;
            expected = with_salts * s.rinse_us_cm[i][h.pass_order[static_cast<std::size_t>(look.pass) - 1]];
        } else throw Bug("nothing shows " + look.kind);
        out.push_back({in_scale(*kind, expected), own_sd(*kind, look, expected, more)});
    }
    return out;
}

Result<std::vector<std::vector<Sight>>> sights_of(const Happening& h, const Solved& s) {
    std::vector<std::vector<Sight>> out(s.draw.members.size());
    for (const auto& r : h.readings) {
        if (r.drawn_from) continue;
        HW_TRY(one, sights_of(h, s, r.look));
        for (std::size_t i = 0; i < out.size(); ++i)
            if (s.settled[i]) out[i].push_back(one[i]);
    }
    return out;
}

}  // namespace hw::desk
