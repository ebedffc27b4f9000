#include "desk/protect.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "atlas/incompatible.hpp"
#include "atlas/protect_figures.hpp"
#include "atlas/protect_sentences.hpp"
#include "atlas/protect_stops.hpp"
#include "atlas/vapour_limits.hpp"
#include "atlas/work_places.hpp"
#include "core/chem/hazards.hpp"
#include "desk/cautions.hpp"
#include "desk/inspect.hpp"
#include "desk/ledger.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/protect_air.hpp"
#include "desk/rows.hpp"
#include "desk/sheet_facts.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::pair<std::string_view, std::string_view> part_names[] = {
    {"steps", "Before and while"}, {"gloves", "Gloves"}, {"eyes", "Eyes"}, {"breathing", "Breathing"}, {"people", "Who leaves"}, {"fire", "Fire"}, {"waste", "Waste"},
    {"storage", "Storage"}, {"meet", "Never together"}, {"never", "Never"}, {"deferred", "Not ours to decide"}};

/// What the rules look at, and what they write into.
struct Card {
    const ProtectRequest& request;
    const std::vector<Planned>& items;
    const Space& space;
    const std::vector<OnPiece>& residues;
    ProtectAnswer& out;

    [[nodiscard]] bool home() const { return space.kind == "home"; }
    [[nodiscard]] bool car() const { return space.kind == "car"; }
    [[nodiscard]] bool any_code(std::initializer_list<std::string_view> codes) const {
        return std::any_of(items.begin(), items.end(), [&](const Planned& p) { return std::any_of(codes.begin(), codes.end(), [&](std::string_view c) { return has_code(p.facts, c); }); });
    }
    [[nodiscard]] bool sprayed() const {
        return std::any_of(items.begin(), items.end(), [](const Planned& p) { return p.sprayed(); });
    }
    [[nodiscard]] std::string crosslinker(bool only_sprayed) const {
        for (const auto& p : items)
            if (!only_sprayed || p.sprayed())
                if (const auto name = crosslinker_named(p.as_sheet); !name.empty()) return name;
        return any_code({"EUH204"}) && (!only_sprayed || sprayed()) ? "isocyanate (EUH204)" : "";
    }
    [[nodiscard]] bool sensitive() const {
        const auto& h = request.household;
        return h.asthma == Asked::Yes || h.pregnancy == Asked::Yes || h.children == Asked::Yes || h.allergies == Asked::Yes;
    }

    void line(std::string_view part, std::string key, std::string sentence, Basis basis) const {
        for (auto& p : out.parts)
            if (p.key == part) {
                if (std::none_of(p.lines.begin(), p.lines.end(), [&](const SafetyLine& l) { return l.sentence == sentence; })) p.lines.push_back({std::move(key), std::move(sentence), std::move(basis)});
                return;
            }
        throw Bug("no part " + std::string(part));
    }
    void say(std::string_view key, std::string inputs = {}) const {
        const auto& row = row_of(atlas::protect_sentences, key);
        line(row.part, std::string(key), std::string(row.sentence), basis_of_row(row, row.sentence, std::move(inputs)));
    }
};

std::vector<std::string> cut(std::string_view text) {
    std::vector<std::string> out;
    for (std::string_view rest = text; !rest.empty();) {
        const auto at = rest.find('|');
        out.emplace_back(rest.substr(0, at));
        rest = at == std::string_view::npos ? std::string_view{} : rest.substr(at + 1);
    }
    return out;
}

Stop stop_of(std::string_view key, std::string inputs) {
    const auto& row = row_of(atlas::protect_stops, key);
    return {std::string(row.key), std::string(row.headline), cut(row.do_now), cut(row.never), basis_of_row(row, row.headline, std::move(inputs))};
}

std::string sentence_at(std::string_view key) { return std::string(row_of(atlas::protect_sentences, key).sentence); }

// ---- what must never meet

void meetings(const Card& c) {
    std::vector<chem::Totals> contents;
    std::vector<bool> labels;
    contents.reserve(c.items.size() + c.residues.size());
    for (const auto& p : c.items) {
        contents.push_back(chem::present(portions(p.as_sheet)));
        labels.push_back(p.facts.liquid.label_known);
    }
    for (const auto& r : c.residues) {
        contents.push_back(chem::present(portions(r.liquid)));
        labels.push_back(r.liquid.label_known);
    }
    std::vector<chem::Product> products;
    for (std::size_t i = 0; i < contents.size(); ++i) products.push_back({&contents[i], labels[i]});
    for (const auto& hazard : chem::hazards(products)) {
        const auto& row = atlas::incompatible[hazard.row];
        if (hazard.severity == chem::Severity::Stop) {
            c.out.stops.push_back(stop_from(hazard));
            continue;
        }
        const auto what = chem::advice(hazard);
        c.line("meet", std::string(row.class_a) + "_with_" + std::string(row.class_b), std::string(row.sentence) + (hazard.severity == chem::Severity::Caution ? " " + what.do_now.front() : ""), basis_of_row(row, row.sentence));
    }
    for (const auto& p : c.items)
        if (const auto& f = fact_of(p.facts, "incompatible"); !f.value.empty())
            c.line("meet", "sheet_incompatible", "The sheet of " + p.facts.liquid.name + ": not together with " + as_clause(f.value) + ".", {"Section 10 of the data sheet", "hcs", "page " + std::to_string(f.page), Standing::Published, p.facts.liquid.name});
}

// ---- what is refused

/// A day that is still to come proves nothing.
bool trained(const SafetyTechnician& t, const std::string& now) {
    const auto then = parse_moment(t.trained_on), today = parse_moment(now);
    return then && today && *then <= *today;
}
bool fitted(const SafetyTechnician& t, const std::string& now) {
    constexpr double year_s = 365.25 * 86400;
    const auto then = parse_moment(t.fit_tested_on), today = parse_moment(now);
    return then && today && *then <= *today && static_cast<double>(*today - *then) <= safety_figure("fit_years") * year_s;
}

void refuse_liquids(const Card& c) {
    auto& stops = c.out.stops;
    for (const auto& p : c.items) {
        for (const auto& i : p.facts.ingredients) {
            const auto substance = chem::find_substance(i.name, i.cas);
            if (i.cas == "75-09-2" || (substance && *substance == chem::find_substance("dichloromethane", "75-09-2"))) stops.push_back(stop_of("methylene_chloride", p.facts.liquid.name));
        }
        if (!p.facts.liquid.label_known) stops.push_back(stop_of("no_label", p.facts.liquid.name));
    }
    if (const auto name = c.crosslinker(true); !name.empty()) {
        if (c.home() || c.car() || c.space.kind == "outdoors") stops.push_back(stop_of("never_sprayed_here", name));
        else if (const auto& p = c.request.place; c.space.told.key != "workshop_extract" || (!p.clears_min && p.air_changes_per_h && *p.air_changes_per_h <= 0)) stops.push_back(stop_of("no_extraction", name));
        else {
            if (c.request.place.sprinklers != Asked::Yes) stops.push_back(stop_of("ask_fire_authority", name));
            if (!trained(c.request.technician, c.out.at) || !fitted(c.request.technician, c.out.at)) stops.push_back(stop_of("not_trained", name));
        }
    }
    const auto& air = c.out.air;
    const double of_lel = c.space.shut ? std::max(air.closed_of_lel.value, air.peak_of_lel.value) : air.peak_of_lel.value;
    if (air.computed && of_lel >= safety_figure("lel_share")) {
        Stop s = stop_of("could_ignite", fixed(of_lel, 0) + " % of the lower explosive limit");
        s.headline += " It would come to " + fixed(of_lel, 0) + " % of the lower explosive limit; " + fixed(safety_figure("lel_share"), 0) + " % is not passed.";
        stops.push_back(std::move(s));
    }
    // A half mask keeps back nine parts of ten: past that no mask of this card helps.
    const double times = std::max(air.shift_of_limit.value, air.worst_15_of_short.value);
    if (air.computed && times > safety_figure("half_mask")) {
        Stop s = stop_of("beyond_mask", fixed(times, 0) + " times the limit");
        s.headline += " It would come to " + fixed(times, 0) + " times the limit.";
        stops.push_back(std::move(s));
    }
}

void refuse_mould(const Card& c) {
    const MouldJob& m = c.request.mould;
    std::vector<std::string> why;
    if (m.area_m2 && *m.area_m2 > safety_figure("mould_area")) why.push_back(plain(*m.area_m2) + " m²");
    if (m.hidden == Asked::Yes) why.emplace_back("hidden");
    if (m.sewage == Asked::Yes) why.emplace_back("from sewage or flood water");
    if (m.air_ducts == Asked::Yes) why.emplace_back("in heating or air ducts");
    if (!why.empty()) {
        Stop s = stop_of("refer_mould", listed(why));
        s.headline += " It is " + listed(why) + ".";
        c.out.stops.push_back(std::move(s));
    }
    for (const auto& p : c.items)
        if (names_class(p.as_sheet, "hypochlorite")) c.out.stops.push_back(stop_of("bleach_on_mould", p.facts.liquid.name));
}

// ---- what to wear

void gloves(const Card& c) {
    for (const auto& p : c.items) {
        const std::string& name = p.facts.liquid.name;
        for (const auto& g : p.facts.gloves) {
            std::string how = "For " + name + " the sheet names " + g.material;
            if (g.thickness_mm) how += ", " + plain(*g.thickness_mm) + " mm";
            if (g.breakthrough_min) how += ", " + std::string(g.at_least ? "over " : "") + plain(*g.breakthrough_min) + " min until it comes through";
            c.line("gloves", "gloves_sheet", how + ".", {"Section 8 of the data sheet", "hcs", "page " + std::to_string(g.page), Standing::Published, g.words});
        }
        if (p.facts.gloves.empty()) c.line("gloves", "gloves_nobody", (name.empty() ? "" : name + ": ") + as_clause(sentence_at("gloves_nobody")) + ".", basis_of_row(row_of(atlas::protect_sentences, "gloves_nobody"), "Gloves that nobody names"));
    }
    if (c.any_code({"H317"})) c.say("gloves_sensitiser");
    for (const auto& v : c.out.air.vapours)
        if (std::any_of(atlas::vapour_limits.begin(), atlas::vapour_limits.end(), [&](const auto& l) { return l.substance == v.name && l.skin == "yes"; })) c.say("gloves_skin", v.name);
    if (!c.items.empty()) {
        c.say("gloves_standard");
        c.say("gloves_change");
    }
}

bool extreme(const Planned& p) {
    const auto& f = fact_of(p.facts, "ph");
    return (f.high && *f.high >= safety_figure("eyes_ph_high")) || (f.low && *f.low <= safety_figure("eyes_ph_low"));
}

void eyes(const Card& c) {
    if (c.any_code({"H314", "H318"}) || std::any_of(c.items.begin(), c.items.end(), extreme)) c.say("eyes_corrosive");
    else if (c.any_code({"H319"})) c.say("eyes_irritant");
    if (c.sprayed()) c.say("eyes_spray");
    else c.say("eyes_usual");
}

void breathing(const Card& c) {
    const auto& air = c.out.air;
    if (!c.crosslinker(true).empty()) {
        c.say("breath_air", c.crosslinker(true));
        c.say("breath_programme");
    }
    const bool over = air.over_limit || (c.space.shut && air.over_closed);
    if (over) {
        c.say("breath_over");
        c.say("breath_first");
        const bool helps = std::none_of(c.out.stops.begin(), c.out.stops.end(), [](const Stop& s) { return s.kind == "beyond_mask"; });
        if (helps) c.say("breath_vapour");
    }
    if (c.sprayed() && c.crosslinker(true).empty()) c.say("breath_spray");
    if (over || c.sprayed()) {
        if (!fitted(c.request.technician, c.out.at)) c.say("breath_fit_missing", c.request.technician.fit_tested_on);
        if (c.request.technician.beard == Asked::Yes) c.say("breath_beard");
    }
    if (c.any_code({"H334"})) c.say("breath_sensitiser");
    if (!air.unknown.empty()) c.line("breathing", "breath_unknown", air.unknown + " " + sentence_at("breath_unknown"), basis_of_row(row_of(atlas::protect_sentences, "breath_unknown"), "What is not known counts as the worse"));
    for (const auto& p : c.items)
        if (const auto& f = fact_of(p.facts, "breathing"); !f.value.empty()) c.line("breathing", "breath_sheet", "The sheet of " + p.facts.liquid.name + ": “" + f.value + "”", {"Section 8 of the data sheet", "hcs", "page " + std::to_string(f.page), Standing::Published, p.facts.liquid.name});
    // Of what has no limit, or is not computed, nobody says that it needs no mask. Spores and dust have their own line.
    if (over || c.sprayed() || !air.unknown.empty() || c.request.job != SafetyJob::Liquids) return;
    const bool judged = air.computed && std::all_of(air.vapours.begin(), air.vapours.end(), [](const Vapour& v) { return v.limit || v.short_limit; });
    c.say(air.vapours.empty() ? "water_only" : judged ? "breath_none" : "breath_not_judged");
}

void what_to_wear(const Card& c) {
    gloves(c);
    eyes(c);
    breathing(c);
}

// ---- people, air, waste, fire, store, defer

std::string out_words(const Card& c) {
    const auto& air = c.out.air;
    if (!air.computed || air.closed_of_limit.value <= 0) return sentence_at("people_clear");
    if (!air.back_home_min) return "This air does not clear by itself: windows open before anybody comes back.";
    const double min = air.back_home_min->value;
    if (std::any_of(air.vapours.begin(), air.vapours.end(), [](const Vapour& v) { return !v.limit; }) && min <= 0) return sentence_at("people_clear");
    if (min <= 0) return "The air stays under a tenth of its limits. " + sentence_at("people_clear");
    const auto rounded = [](double m) { return span(std::ceil(m / 5) * 300); };
    std::string mixing;
    if (air.back_home_least_min && rounded(air.back_home_least_min->value) != rounded(min)) mixing = " How well this air mixes is not known: " + rounded(air.back_home_least_min->value) + " if it mixed at once; the longer time counts.";
    return "Back after " + rounded(min) + " from the start at the earliest" + (c.space.shut ? ", counted with everything shut" : "") + ": until then the air is over a tenth of its limits." + mixing + " " + sentence_at("people_clear");
}

void household(const Card& c) {
    const auto& h = c.request.household;
    if (c.home()) {
        const bool asked = h.asthma != Asked::NotAsked && h.pregnancy != Asked::NotAsked && h.children != Asked::NotAsked && h.pets != Asked::NotAsked && h.birds != Asked::NotAsked && h.allergies != Asked::NotAsked && h.sleeps_there != Asked::NotAsked;
        if (!asked && c.request.job != SafetyJob::Mould) {
            c.out.ask_first = sentence_at("people_ask");
            c.say("people_ask");
        }
        c.say("people_home");
    } else {
        c.say("people_out");
    }
    if (h.birds == Asked::Yes) c.say("people_birds");
    if (h.asthma == Asked::Yes) c.say("people_asthma");
    if (h.pregnancy == Asked::Yes) c.say("people_pregnant");
    if (h.children == Asked::Yes) c.say("people_children");
    if (h.pets == Asked::Yes) c.say("people_pets");
    if (h.allergies == Asked::Yes) c.say("people_allergy");
    if (h.sleeps_there == Asked::Yes) c.say("people_sleep");
    if (c.request.job == SafetyJob::Liquids) c.line("people", "people_back", out_words(c), basis_of_figure("home_share", c.out.air.back_home_min ? fixed(c.out.air.back_home_min->value, 0) + " min" : "not computed"));
    if (!c.crosslinker(true).empty()) {
        const auto& room = c.request.place.clears_min;
        const auto& row = row_of(atlas::protect_figures, room ? "booth_clear" : "reentry_isocyanate");
        c.line("people", "reentry", room ? "After spraying nobody goes in without air-fed apparatus until the measured " + plain(*room) + " min have passed." : "After spraying nobody goes in without air-fed apparatus for " + fixed(row.value_1, 0) + " min; measure the clearing time of the booth with smoke.", basis_of_row(row, row.plain_name));
    }
}

void steps(const Card& c) {
    if (c.car()) {
        c.say("car_open");
        c.say("car_swabs");
        c.say("defer_srs");
    } else if (c.home()) {
        c.say("room_air");
    } else if (c.space.told.key == "workshop_extract") {
        c.say("extract_on");
    } else if (c.space.kind == "outdoors") {
        c.say("outdoors");
    }
    const auto& air = c.out.air;
    if (air.computed && (air.over_limit || (c.space.shut && air.over_closed)) && air.flow_m3_h)
        c.line("steps", "flow", "Fresh air that would keep it at its limits while it goes on: " + fixed(air.flow_m3_h->value, 0) + " m³/h, that is " + fixed(air.flow_changes->value, 0) + " changes of this space in an hour.", {"Dilution: G V K / (M C), summed over the vapours", "acgih_vent", "dilution ventilation", Standing::FromMemory, "mixing factor " + plain(c.space.mixing_1)});
    if (air.clears_min && air.computed)
        c.line("steps", "clears", "After the last of it has left the surface: " + span(air.clears_min->value * 60) + " until a hundredth is left" + (c.space.clears_h ? ", as measured." : air.clears_least_min ? ", taken that the air mixes slowly; " + span(air.clears_least_min->value * 60) + " if it mixed at once." : ", if the air mixes as taken here."), basis_of_figure("clear_to", plain(c.space.changes_per_h) + " air changes, mixing factor " + plain(c.space.mixing_1)));
}

void waste(const Card& c) {
    for (const auto& p : c.items) {
        const auto& f = fact_of(p.facts, "disposal");
        if (!f.value.empty()) c.line("waste", "waste_sheet", p.facts.liquid.name + ": “" + f.value + "”", {"Section 13 of the data sheet", "hcs", "page " + std::to_string(f.page), Standing::Published, p.facts.liquid.name});
        else c.say("waste_nobody", p.facts.liquid.name);
    }
    if (!c.out.air.vapours.empty()) {
        c.say("waste_tin");
        c.say("waste_oil");
        c.say("waste_wipes_us");
    }
    if (!c.crosslinker(false).empty()) c.say("waste_crosslinker", c.crosslinker(false));
    c.say("waste_drain");
    c.say("waste_local");
}

void fire(const Card& c) {
    const auto flash = flash_of(c.items);
    const double counts_as_flammable_c = safety_figure("flammable_to");
    if (flash && flash->celsius <= counts_as_flammable_c) {
        c.line("fire", "flash", "Flash point " + fixed(flash->celsius, 0) + " °C (" + flash->of + "): " + as_clause(sentence_at("fire_flash")) + ".", flash->basis);
        c.say("fire_supply");
        if (c.car()) c.say("fire_car");
    } else if (c.any_code({"H224", "H225", "H226", "H222", "H223"})) {
        c.say("fire_flash");
        c.say("fire_supply");
    } else if (!c.out.air.unknown.empty()) {
        c.say("fire_unknown");
        c.say("fire_supply");
    } else {
        c.say("fire_none", flash ? fixed(flash->celsius, 0) + " °C" : "none named");
    }
    if (c.sprayed() && (flash || !c.out.air.unknown.empty())) c.say("fire_mist");
    for (const auto& v : c.out.air.vapours)
        if (v.lel && v.slow) c.line("fire", "upper_bound", "Air of 20 °C cannot hold as much " + v.name + " as is computed: what is said of it is an upper bound.", {"Vapour pressure over that of the air", "recalled", "atlas table vapours", Standing::FromMemory, fixed(v.saturated_ppm->value, 0) + " ppm"});
}

void storage(const Card& c) {
    for (const auto& p : c.items)
        if (const auto& f = fact_of(p.facts, "storage"); !f.value.empty()) c.line("storage", "storage_sheet", p.facts.liquid.name + ": “" + f.value + "”", {"Section 7 of the data sheet", "hcs", "page " + std::to_string(f.page), Standing::Published, p.facts.liquid.name});
    c.say("store_closed");
    const auto flash = flash_of(c.items);
    if (flash && flash->celsius <= safety_figure("flammable_to")) c.say("store_flammable");
    c.say("store_apart");
}

void deferred(const Card& c) {
    if (c.sprayed()) {
        c.say("defer_fire");
        c.say("defer_air");
    }
    if (!c.items.empty()) c.say("defer_waste");
    c.say("defer_medical");
    if (!c.crosslinker(false).empty()) c.say("defer_licence", c.crosslinker(false));
}

// ---- the household's page

std::string class_of(const Planned& p) {
    if (!crosslinker_named(p.as_sheet).empty()) return "class_crosslinker";
    if (p.facts.ingredients.empty() && p.facts.liquid.family != "water") return "class_unknown";
    const bool flammable_share = [&] {
        double pct = 0;
        for (const auto& i : p.as_sheet.ingredients) {
            Liquid alone;
            alone.ingredients = {i};
            if (names_class(alone, "alcohol") || names_class(alone, "solvent")) pct += i.content_pct.value_or(0);
        }
        return pct / (1 + p.item.parts_water) > safety_figure("diluted_fire");
    }();
    if (flammable_share) return names_class(p.as_sheet, "solvent") ? "class_solvent" : "class_alcohol";
    if (const auto& ph = fact_of(p.facts, "ph"); ph.low && *ph.low > safety_figure("alkali_ph")) return "class_alkali";
    return names_class(p.as_sheet, "acid") ? "class_acid" : "class_water";
}

HouseholdNote note_of(const Card& c) {
    HouseholdNote n;
    const bool mould = c.request.job == SafetyJob::Mould, dust = c.request.job == SafetyJob::Dust;
    n.title = "While we work on your leather";
    std::set<std::string> classes;
    for (const auto& p : c.items) classes.insert(class_of(p));
    if (mould) classes.insert("class_mould");
    if (dust) classes.insert("class_dust");
    for (const auto& key : classes) {
        std::string text = sentence_at(key);
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
        n.uses.push_back(text + ".");
    }
    for (const auto& part : c.out.parts)
        if (part.key == "people")
            for (const auto& l : part.lines)
                if (l.key != "people_ask" && l.key != "people_ask_mould" && l.key != "reentry" && l.key != "people_out") n.stay_out.push_back(l.sentence);
    if (n.stay_out.empty() || dust) n.stay_out.push_back(sentence_at("people_clear"));
    n.please.push_back(sentence_at("note_open"));
    n.please.push_back(sentence_at("note_dry"));
    if (mould) {
        n.please.push_back(sentence_at("note_mould"));
        n.please.push_back(sentence_at("mould_air"));
    }
    if (dust) n.please.push_back(sentence_at("note_dust"));
    n.watch.push_back(sentence_at("note_signs"));
    if (!c.crosslinker(false).empty() || c.any_code({"H334"})) n.watch.push_back(sentence_at("note_later"));
    n.call = {sentence_at("note_call"), sentence_at("note_call_us")};
    return n;
}

// ---- whole cards

void liquids_card(const Card& c) {
    refuse_liquids(c);
    meetings(c);
    steps(c);
    what_to_wear(c);
    household(c);
    fire(c);
    waste(c);
    storage(c);
    deferred(c);
}

void mould_card(const Card& c) {
    const auto& h = c.request.household;
    if (h.asthma == Asked::NotAsked) c.out.ask_first = sentence_at("people_ask_mould");
    refuse_mould(c);
    refuse_liquids(c);
    meetings(c);
    c.say("people_ask_mould");
    if (c.sensitive()) c.say("people_sensitive_out");
    for (const auto* key : {"mould_is", "mould_isolate", "mould_dry", "mould_vacuum", "mould_clean", "mould_store", "mould_air"}) c.say(key);
    c.say("gloves_mould");
    c.say("eyes_mould");
    c.say("breath_mould");
    household(c);
    c.say("waste_mould");
    for (const auto* key : {"mould_never_bleach", "mould_never_claim", "defer_biocide", "defer_medical"}) c.say(key);
    if (!c.items.empty()) {
        steps(c);
        what_to_wear(c);
        fire(c);
        waste(c);
        storage(c);
    }
    if (c.request.mould.humidity_pct) {
        const double hours = air::mould_growth_h(*c.request.mould.humidity_pct);
        const std::string at = "At " + plain(*c.request.mould.humidity_pct) + " % relative humidity ";
        c.out.mould_sentence = std::isfinite(hours) ? at + "mould is seen after about " + fixed(hours / 24, hours < 48 ? 1 : 0) + " days; at under " + fixed(safety_figure("mould_humidity"), 0) + " % it does not grow."
                                                    : at + "the printed times name no growth: they begin at 70 %.";
        c.line("steps", "mould_growth", c.out.mould_sentence, {"Printed growth times, the logarithm of time straight between them", "cci8_1", "growth times", Standing::Derived, plain(*c.request.mould.humidity_pct) + " %"});
    }
}

void dust_card(const Card& c) {
    refuse_liquids(c);
    meetings(c);
    c.say("dust_wet");
    c.say("gloves_dust");
    c.say("eyes_usual");
    c.say("breath_dust");
    household(c);
    if (!c.items.empty()) {
        steps(c);
        what_to_wear(c);
        fire(c);
        waste(c);
        storage(c);
    }
    c.say("waste_local");
    c.say("defer_medical");
}

/// People's air first, then fire, then papers.
int urgency(const Stop& s) {
    if (s.kind.find("_with_") != std::string::npos) return 0;
    constexpr std::string_view order[] = {"methylene_chloride", "never_sprayed_here", "no_extraction", "could_ignite", "beyond_mask", "refer_mould", "bleach_on_mould", "no_label", "not_trained", "ask_fire_authority"};
    for (std::size_t i = 0; i < std::size(order); ++i)
        if (s.kind == order[i]) return static_cast<int>(i) + 1;
    return 99;
}

std::string sentence_of(const Card& c) {
    if (!c.out.stops.empty()) return c.out.stops.front().headline;
    if (!c.out.ask_first.empty()) return c.out.ask_first;
    if (c.request.job == SafetyJob::Mould) return c.sensitive() ? sentence_at("people_sensitive_out") : "Dry first, then vacuum with a HEPA filter, masked, gloved and goggled.";
    if (c.request.job == SafetyJob::Dust) return sentence_at("breath_dust");
    const auto& air = c.out.air;
    if (c.space.shut && (air.over_limit || air.over_closed)) return air.sentence + " " + (c.car() ? "All doors open and extraction before the lid comes off." : "Windows open on two sides before the lid comes off.");
    return air.sentence;
}

std::vector<Basis> sources_of(const ProtectAnswer& a) {
    std::vector<Basis> out;
    const auto add = [&](const Basis& b) {
        if (!b.source.empty() && std::none_of(out.begin(), out.end(), [&](const Basis& o) { return o.source == b.source && o.locator == b.locator; })) out.push_back(b);
    };
    for (const auto& s : a.stops) add(s.basis);
    for (const auto& v : a.air.vapours) {
        if (v.limit) add(v.limit->basis);
        if (v.short_limit) add(v.short_limit->basis);
        if (v.lel_basis) add(*v.lel_basis);
    }
    if (a.air.computed) {
        add({"One well-mixed box: release, evaporation, air changes", "own", "docs/theory/room-air.md", Standing::Derived, ""});
        if (a.air.vapours.size() > 1) {
            add({"Mixtures: the sum of level over limit", "osha_1000d", "(d)(2)", Standing::Published, ""});
            add({"Lower explosive limit of a mixture", "lechatelier1891", "rule of mixtures", Standing::FromMemory, ""});
        }
    }
    for (const auto& p : a.parts)
        for (const auto& l : p.lines) add(l.basis);
    return out;
}

/// What still lies on the piece, and, where nothing is planned, what was laid on it last.
Result<std::vector<OnPiece>> from_piece(ProtectRequest& request, Ports& ports) {
    std::vector<OnPiece> there;
    const bool planned = !request.items.empty();
    if (request.piece.empty()) return there;
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "Pieces are not kept here.", "piece"};
    HW_TRY(piece, inspect({request.piece, {}}, ports));
    HW_TRY(entries, ports.journal->entries(request.piece));
    constexpr double now_h = 876'600;  // a century on any clock, so that no entry lies before its beginning
    for (const auto& panel : piece.panels) {
        std::vector<Came> came;
        const auto passes = laid_on(entries, panel.code, ports.clock.now_s(), now_h);
        for (const auto& pass : passes) came.push_back(came_with(pass, is_open(panel.leather, ports.store)));
        for (const auto& thing : residue_of(came, now_h).there)
            if (counts(thing)) there.push_back(thing);
        if (planned || passes.empty()) continue;
        const Pass& last = passes.back();
        PlannedItem item;
        item.liquid = last.liquid;
        item.grams = last.g_m2 * panel.area.value / 1e4;
        const auto same = std::find_if(request.items.begin(), request.items.end(), [&](const PlannedItem& i) { return i.liquid.name == item.liquid.name; });
        if (same != request.items.end()) *same->grams += *item.grams;
        else request.items.push_back(item);
    }
    if (request.title.empty()) request.title = piece.name;
    return there;
}

std::string goes_on_words(GoesOn way) {
    switch (way) {
        case GoesOn::Cloth: return "with a cloth";
        case GoesOn::Swab: return "with swabs";
        case GoesOn::Brush: return "with a brush";
        case GoesOn::Foam: return "as foam";
        case GoesOn::Spray: return "sprayed";
        case GoesOn::Airbrush: return "with an airbrush";
    }
    return {};
}

}  // namespace

std::vector<SafetyPlaceNow> safety_places() {
    std::vector<SafetyPlaceNow> out;
    for (const auto& row : atlas::work_places) {
        SafetyPlace place;
        place.key = std::string(row.key);
        std::vector<std::string> defaults;
        out.push_back(space_of(place, defaults).value().told);
    }
    return out;
}

Result<ProtectAnswer> protect(const ProtectRequest& given, Ports& ports) {
    if (const auto bad = out_of_range(given)) return *bad;
    ProtectRequest request = given;
    ProtectAnswer out;
    out.at = ports.clock.now_utc();
    out.version = std::string(program_version);
    for (const auto& [key, name] : part_names) out.parts.push_back({std::string(key), std::string(name), {}});
    const bool told_items = !request.items.empty();
    HW_TRY(residues, from_piece(request, ports));
    if (!told_items && !request.items.empty()) out.defaults_used.push_back("Nothing was planned: what was laid on the piece last is taken as planned again.");
    if (request.job == SafetyJob::Liquids && request.items.empty()) return Error{ErrorCode::InvalidInput, "Say what is planned: a liquid and how much of it.", "items"};
    out.title = request.title;
    HW_TRY(space, space_of(request.place, out.defaults_used));
    out.place = space.told;
    std::vector<Planned> items;
    for (std::size_t i = 0; i < request.items.size(); ++i) {
        HW_TRY(one, planned_of(request.items[i], i, out.defaults_used, ports));
        items.push_back(one);
        out.facts.push_back(one.facts);
        out.demo = out.demo || one.facts.liquid.standing == Standing::Invented;
        const auto& item = request.items[i];
        out.items.push_back({one.facts.liquid.name, (item.ml ? plain(*item.ml) + " ml" : fixed(*item.grams, *item.grams < 10 ? 1 : 0) + " g") + " over " + plain(item.over_min) + " min" + (item.parts_water > 0 ? ", one part in " + plain(item.parts_water + 1) : ""), goes_on_words(item.goes_on), one.facts.sheet_sentence});
    }
    HW_TRY(own, ports.store.own_limits());
    out.air = air_of(items, space, own);
    const Card card{request, items, space, residues, out};
    switch (request.job) {
        case SafetyJob::Liquids: liquids_card(card); break;
        case SafetyJob::Mould: mould_card(card); break;
        case SafetyJob::Dust: dust_card(card); break;
    }
    std::vector<Stop> stops;
    for (auto& s : out.stops)
        if (std::none_of(stops.begin(), stops.end(), [&](const Stop& o) { return o.kind == s.kind; })) stops.push_back(std::move(s));
    std::stable_sort(stops.begin(), stops.end(), [](const Stop& a, const Stop& b) { return urgency(a) < urgency(b); });
    out.stops = std::move(stops);
    out.sentence = sentence_of(card);
    out.note = note_of(card);
    out.parts.erase(std::remove_if(out.parts.begin(), out.parts.end(), [](const SafetyPart& p) { return p.lines.empty(); }), out.parts.end());
    out.sources = sources_of(out);
    return out;
}

Result<PrintAnswer> print_safety(const ProtectRequest& request, PageKind kind, Paper paper, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    HW_TRY(answer, protect(request, ports));
    HW_TRY(pdf, ports.printer->page(answer, kind, paper));
    return PrintAnswer{std::move(pdf), kind == PageKind::Owner ? "note-for-the-home.pdf" : "safety-card.pdf"};
}

}  // namespace hw::desk
