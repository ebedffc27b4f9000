// What is said, how soon, and who it belongs to: each rule here picks sentences of the atlas, none is made up on the way.
#include "atlas/incompatible.hpp"
#include "atlas/triage_classes.hpp"
#include "atlas/triage_sentences.hpp"
#include "desk/liquids.hpp"
#include "desk/triage_case.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool met_row_stop(const TriageCase& c) { return !c.met.empty() && c.met[0].severity == chem::Severity::Stop; }
bool met_stop(const TriageCase& c) { return met_row_stop(c) || c.unknown_met; }
bool met_caution(const TriageCase& c) { return !met_stop(c) && ((!c.met.empty() && c.met[0].severity == chem::Severity::Caution) || c.doubtful_met); }
/// On or in a person: the poison line, whatever else is said.
bool on_a_person(const TriageCase& c) { return c.any("people", {"eyes", "skin", "swallowed"}); }
bool in_the_air(const TriageCase& c) { return c.any("people", {"mixed", "fumes", "breathing"}); }
bool people_stop(const TriageCase& c) { return on_a_person(c) || in_the_air(c); }
/// A while ago, dry, and everybody is well: what could come out has gone from the room, but not from the piece.
bool past(const TriageCase& c) { return c.said("people", "none") && !c.moist() && (c.long_ago() || (c.dry() && c.any("when", {"today", "yesterday"}))); }
bool everybody_out(const TriageCase& c) { return c.said("safe", "yes"); }

bool ink(const TriageCase& c) { return c.any("cleaned", {"ink", "dye"}); }
bool body_fluid(const TriageCase& c) { return c.any("cleaned", {"urine", "vomit", "milk"}); }
bool steamed(const TriageCase& c) { return c.has_kind("steam"); }
/// Hot steam on the skin and nothing else: a burn, no poison.
bool scald(const TriageCase& c) { return c.said("people", "skin") && c.kinds.size() == 1 && steamed(c) && !c.declined(); }
bool weak(const TriageCase& c) { return c.any("seen", {"stiff", "shrunken"}); }
bool waits_to_dry(const TriageCase& c) { return c.any("seen", {"darker", "ring", "haze"}); }
bool recent(const TriageCase& c) { return c.any("when", {"now", "today", "yesterday", "days"}); }
bool airbag_hit(const TriageCase& c) { return c.near_airbag() && !c.declined() && (!c.product_none() || c.moist()); }
bool warmed(const TriageCase& c) { return steamed(c) || c.said("since", "hair_dryer"); }

Stop stop_of(std::string_view kind, std::string_view head, std::string inputs) {
    const auto& row = triage_row(atlas::triage_sentences, head);
    Stop s;
    s.kind = std::string(kind);
    s.headline = std::string(row.sentence);
    s.basis = basis_of_row(row, row.why, std::move(inputs));
    return s;
}

void poison_line(const TriageCase& c, bool gas, TriageAdvice& a) {
    if (c.said("people", "swallowed") && !gas) a.say.push_back("call_swallowed");
    else if (!scald(c) && (on_a_person(c) || c.said("people", "breathing"))) a.say.push_back("call_poison");
    else if (gas) a.say.push_back("call_if_unwell");
}

TriageAdvice in_danger_advice(const TriageCase& c) {
    TriageAdvice a;
    const bool gas = met_stop(c) || in_the_air(c);
    if (gas) a.say.push_back(c.in_car() ? "out_of_car" : "fresh_air");
    if (gas && (c.flames() || c.said("people", "fumes"))) a.say.push_back("no_spark");
    if (c.said("people", "eyes")) a.say.push_back("rinse_eyes");
    if (c.said("people", "skin") && steamed(c)) a.say.push_back("cool_burn");
    if (c.said("people", "skin") && !scald(c)) a.say.push_back("rinse_skin");
    poison_line(c, gas, a);
    a.say.push_back("leather_waits");
    if (gas) a.never = {"never_back", "never_add", "never_close"};
    else a.never = {"never_add"};
    a.soon = "now";
    a.soon_because = "u_people";
    a.decision = on_a_person(c) || c.said("people", "breathing") ? "emergency" : "emergency_well";
    return a;
}

bool involved(const TriageCase& c) { return c.any("involved", {"insurer", "retailer", "landlord"}); }

/// Near what may give off gas, or belongs to others, nobody collects traces.
void evidence_from_afar(const TriageCase& c, TriageAdvice& a) {
    if (involved(c)) a.keep = {"keep_door", "keep_papers", "keep_times"};
}

void evidence(const TriageCase& c, TriageAdvice& a) {
    if (!involved(c)) return;
    if (!c.moist() && (c.dry() || c.product_none())) a.keep = {"keep_stop", "keep_photos"};
    else a.keep = {"keep_one"};
    if (!c.product_none()) a.keep.push_back("keep_bottle");
    if (!c.product_none() && !c.has_kind("oil") && !met_caution(c)) a.keep.push_back("keep_cloths");
    a.keep.insert(a.keep.end(), {"keep_papers", "keep_times"});
}

void away(const TriageCase& c, TriageAdvice& a) {
    if (c.any("household", {"children", "pets"}) && !c.burns()) a.say.push_back("keep_off");
    if (c.any("household", {"asthma", "allergy", "pregnancy"})) a.say.push_back("sensitive_away");
}

TriageAdvice after_a_stop(const TriageCase& c) {
    TriageAdvice a;
    if (on_a_person(c) || c.said("people", "breathing")) a.say.push_back("poison_still");
    if (past(c)) {
        a.say.insert(a.say.end(), {"past_air", "do_nothing"});
    } else {
        a.say.push_back("after_danger");
        if (c.flames() || c.said("people", "fumes")) a.say.push_back("no_spark");
    }
    if (c.burns()) a.say.push_back("nobody_sits");
    away(c, a);
    a.never = {"never_add", "never_close", "never_heat"};
    if (past(c)) a.photos = {"photo_whole", "photo_label"};
    a.soon = past(c) ? "week" : "day";
    a.soon_because = past(c) ? "u_met" : "u_aired";
    a.decision = c.said("cleaned", "sewage") ? "decline_sewage" : c.said("cleaned", "blood") ? "decline_blood" : airbag_hit(c) ? "refer_car" : c.old() ? "refer_conservator" : past(c) ? "book_week" : "book_day";
    evidence_from_afar(c, a);
    return a;
}

/// What is electric, before a hand goes near.
void electric(const TriageCase& c, TriageAdvice& a) {
    if (c.dry()) return;
    if (c.in_car()) a.say.push_back("car_off");
    else if (c.any("parts", {"motor", "heater"}) || c.near_airbag()) a.say.push_back("power_off");
    if (c.said("parts", "battery")) a.say.push_back("battery_off");
}

TriageAdvice declined_advice(const TriageCase& c) {
    TriageAdvice a;
    if (!c.told("people")) a.say.push_back("if_unwell");
    if (on_a_person(c)) a.say.push_back("poison_still");
    electric(c, a);
    a.say.push_back("remediation_leave");
    away(c, a);
    a.never = {"never_more", "never_rub"};
    a.photos = {"photo_whole"};
    a.soon = "day";
    a.soon_because = "u_refer";
    a.decision = c.said("cleaned", "sewage") ? "decline_sewage" : "decline_blood";
    evidence_from_afar(c, a);
    return a;
}

/// Air and flames.
void air(const TriageCase& c, TriageAdvice& a) {
    const bool stings = c.burns() || c.said("product", "ammonia_glass") || c.said("since", "ammonia") || (c.label_counts() && c.said("label", "ammonia"));
    if (c.flames()) a.say.push_back(c.in_car() ? "car_doors" : "no_flame");
    else if (stings) a.say.push_back(c.in_car() ? "car_open" : "open_window");
    if (c.any("sun_heat", {"radiator", "fire"})) a.say.push_back("heat_away");
}

/// What protects people and electric parts.
void protect(const TriageCase& c, TriageAdvice& a) {
    if (c.said("since", "hair_dryer") && !c.dry()) a.say.push_back("hot_air_off");
    if (!c.told("people") && !c.product_none()) a.say.push_back("if_unwell");
    if (on_a_person(c) && !scald(c)) a.say.push_back("poison_still");
    electric(c, a);
    if (!c.dry()) air(c, a);
    if (c.burns()) a.say.push_back("nobody_sits");
    if (c.dry()) return;
    if (c.any_kind({"lye", "corrosive"})) a.say.push_back("gloves_eyes");
    else if (c.burns() || c.said("product", "washing_soda") || (c.label_counts() && c.any("label", {"peroxide", "ammonia"}))) a.say.push_back("gloves");
    if (asks_first(c)) a.say.push_back(c.given("since") != nullptr && !c.told("since") ? "until_known" : c.given("cleaned") != nullptr && !c.told("cleaned") ? "until_known" : "ask_first");
    else if (met_caution(c)) a.say.push_back(c.old() || c.mould() || (c.doubtful_met && c.label_counts() && !c.told("label")) ? "met_leave" : "met_caution");
}

/// The cloth for what is wet, as hard as the place bears it.
void cloth(const TriageCase& c, TriageAdvice& a) {
    const bool strong = c.any_kind({"lye", "strong", "bleach", "corrosive"});
    if (asks_first(c) || met_caution(c)) return;
    if (c.any("seen", {"sticky", "shrunken"})) {
        a.say.push_back("air_only");
    } else if (steamed(c)) {
        a.say.push_back("cool_down");
    } else if (c.has_kind("solvent") && !strong) {
        a.say.push_back("let_air");
        if (c.any("product", {"hand_gel"}) && !c.said("seen", "stiff") && !ink(c)) a.say.push_back("lift_once");
    } else if (c.has_kind("abrasive") && !c.topped()) {
        a.say.push_back("stop_rubbing");
    } else if (c.said("seen", "stiff") || c.has_kind("solvent") || c.has_kind("abrasive") || c.said("since", "bicarbonate")) {
        a.say.push_back(ink(c) ? "beside_ink" : "touch_lift");
    } else if (c.has_kind("oil")) {
        a.say.push_back(ink(c) ? "beside_ink" : "lift_top");
    } else if (!c.moist() && (!c.told("product") || c.product_none())) {
        return;
    } else if (ink(c)) {
        a.say.insert(a.say.end(), {"beside_ink", "no_water"});
    } else if (!c.moist()) {
        a.say.insert(a.say.end(), {"if_wet_blot", "no_water"});
    } else {
        a.say.push_back(body_fluid(c) ? "blot_towel" : "blot");
        a.say.push_back(water_allowed(c) ? "damp_cloth" : "no_water");
    }
}

void take_off(const TriageCase& c, TriageAdvice& a) {
    if (!c.product_none()) a.say.push_back("stop_cleaning");
    cloth(c, a);
    if (c.said("seen", "soaked")) a.say.push_back("let_air_all");
    else if (c.moist()) a.say.push_back(c.in_car() ? "air_dry_car" : "air_dry");
    if (c.said("seen", "sticky")) a.say.push_back("sticky_wait");
}

void leave(const TriageCase& c, TriageAdvice& a) {
    a.say.push_back(c.said("seen", "sticky") ? "sticky_wait" : "do_nothing");
    if (!waits_to_dry(c) && !c.said("seen", "sticky")) return;
    if (a.soon == "now" || a.soon == "day") a.say.push_back("send_today");
    else if (a.soon == "hold" && !c.said("seen", "sticky")) a.say.push_back("wait_look");
    else if (a.soon != "hold") a.say.push_back("send_photo");
}

void say_for_mould(const TriageCase& c, TriageAdvice& a) {
    if (c.large_mould()) a.say.push_back("mould_large");
    else if (c.burns() && !c.dry() && !asks_first(c) && !met_caution(c)) a.say.push_back("mould_strong");
    else a.say.push_back("mould_leave");
}

void say_for_cloths(const TriageCase& c, TriageAdvice& a) {
    if (c.has_kind("oil")) a.say.push_back("oily_cloths");
    else if (c.said("seen", "colour_came") && !met_caution(c)) a.say.push_back("bag_cloth");
}

void say_for_leather(const TriageCase& c, TriageAdvice& a) {
    if (c.old()) {
        a.say.push_back(c.dry() || asks_first(c) || met_caution(c) || c.any("seen", {"sticky", "stiff", "shrunken"}) ? "old_leave_dry" : "old_leave");
    } else if (c.mould()) {
        say_for_mould(c, a);
    } else if (!c.told("product") && !c.topped() && !c.told("wet") && !c.wet() && !c.long_ago()) {
        a.say.push_back("tell_us");
    } else if (c.dry() || (c.product_none() && !c.moist())) {
        leave(c, a);
    } else {
        take_off(c, a);
    }
    if (ink(c) && std::find(a.say.begin(), a.say.end(), "beside_ink") == a.say.end()) a.say.push_back("ink_leave");
    if (c.said("since", "bicarbonate")) a.say.push_back("leave_powder");
    say_for_cloths(c, a);
    if (weak(c)) a.say.push_back("stiff_leave");
    // What met there is known only by the class until the label was read.
    if ((c.product_unknown() || c.topped()) && c.label_counts() && !c.told("label")) a.say.push_back("read_label");
    if (!c.product_none() || c.mould() || c.moist()) away(c, a);
}

void never_for_leather(const TriageCase& c, TriageAdvice& a) {
    a.never = {"never_more", "never_rub", "never_heat"};
    if (!c.dry() && !water_allowed(c) && std::find(a.say.begin(), a.say.end(), "no_water") == a.say.end()) a.never.push_back("never_water");
    if (c.said("seen", "sticky") || (c.has_kind("solvent") && !c.dry())) a.never.push_back("never_cover");
    if (ink(c)) a.never.push_back("never_ink");
    if (c.mould()) a.never.push_back("never_mould");
    if (body_fluid(c)) a.never.push_back("never_enzyme");
    if (c.near_airbag() || (c.in_car() && !c.said("parts", "none"))) a.never.push_back("never_airbag");
    if (c.in_car() && c.flames()) a.never.push_back("never_closed_car");
}

struct Because {
    std::string_view soon, why;
};

Because strong_urgency(const TriageCase& c) {
    const bool bad = c.any_kind({"lye", "strong", "bleach", "corrosive", "solvent"});
    if (c.moist()) {
        if (bad) return {"now", "u_strong_wet"};
        if (c.suspect()) return {"now", c.said("product", "scouring_powder") ? "u_powder_wet" : c.product_unknown() ? "u_unknown_wet" : "u_flammable_wet"};
        if (c.has_kind("flammable")) return {"now", "u_flammable_wet"};
    }
    if ((bad || c.suspect() || c.has_kind("flammable")) && !c.dry()) return {"now", "u_not_known"};
    if (c.any_kind({"lye", "corrosive"})) return {"day", "u_oven"};
    return {};
}

Because wet_urgency(const TriageCase& c) {
    if (const Because b = strong_urgency(c); !b.soon.empty()) return b;
    if (c.mould()) return c.moist() ? Because{"day", "u_wet"} : Because{"week", "u_mould"};
    if (body_fluid(c)) return {"day", "u_body_fluid"};
    if (c.said("seen", "soaked")) return {"day", "u_soaked"};
    if (warmed(c) && c.said("seen", "shrunken") && c.dry()) return {c.said("when", "weeks") ? "week" : "day", "u_shrunken"};
    if (warmed(c) && !c.dry()) return {"day", "u_heat_wet"};
    if (c.moist()) return {"day", "u_wet"};
    return {};
}

Because urgency_of(const TriageCase& c) {
    if (const Because b = wet_urgency(c); !b.soon.empty()) return b;
    if (ink(c)) return {"week", "u_ink"};
    if (c.said("seen", "colour_came")) return {"week", "u_bleed"};
    if (c.has_kind("bleach")) return {"week", "u_bleach"};
    // What changed of late is judged when it has settled; what is so for weeks does not change by waiting.
    const bool settles = c.product_none() ? recent(c) : !c.said("when", "weeks");
    if (!c.product_none() && !c.dry()) return {"day", "u_not_known"};
    if (settles && c.said("seen", "sticky")) return {"hold", "u_tack"};
    if (settles && waits_to_dry(c)) return {"hold", "u_dark"};
    if (c.product_none()) return {"suits", "u_routine"};
    if (c.suspect()) return {"week", "u_not_known"};
    if (c.has_kind("strong")) return {"week", "u_strong_dry"};
    if (c.has_kind("oil")) return {"week", "u_oil"};
    return {"suits", "u_dry"};
}

std::string_view booking(const TriageCase& c, std::string_view soon) {
    if (soon == "now") return c.has_kind("solvent") && !c.burns() ? "book_now_air" : "book_now";
    return soon == "day" ? "book_day" : soon == "week" ? "book_week" : soon == "hold" ? "book_hold" : "book_suits";
}

std::string_view decision_of(const TriageCase& c, std::string_view soon) {
    const bool electric_wet = c.powered() && c.said("seen", "soaked");
    if (airbag_hit(c) || (electric_wet && c.in_car())) return "refer_car";
    if (electric_wet) return "refer_electric";
    if (c.large_mould()) return "refer_mould";
    return c.old() ? "refer_conservator" : booking(c, soon);
}

void photographs(const TriageCase& c, TriageAdvice& a) {
    a.photos = {"photo_whole", "photo_close", "photo_edge"};
    if (!c.product_none()) a.photos.insert(a.photos.end(), {"photo_label", "photo_cloth"});
    a.photos.push_back("photo_tag");
    if (c.near_airbag() || c.powered()) a.photos.push_back("photo_parts");
}

}  // namespace

bool in_danger(const TriageCase& c) { return (people_stop(c) || (met_stop(c) && !past(c))) && !everybody_out(c); }

bool hands_off(const TriageCase& c) { return met_stop(c) || in_the_air(c) || c.declined() || in_danger(c); }

bool asks_first(const TriageCase& c) {
    return !c.dry() && (c.has_kind("bleach") || (c.suspect() && (c.told("product") || c.topped()))) && (!c.told("since") || !c.told("cleaned")) && !met_caution(c);
}

std::optional<Stop> triage_stop(const TriageCase& c) {
    if (met_row_stop(c)) {
        Stop s = stop_from(c.met[0]);
        const auto& row = atlas::incompatible[c.met[0].row];
        if (c.met[0].from_unknown || (row.class_a != "hypochlorite" && row.class_b != "hypochlorite")) return s;
        // The caller knows the products, not what is in them: the reason stands beside.
        s.basis.inputs = as_clause(s.headline) + ", which such products usually hold";
        s.headline = std::string(triage_row(atlas::triage_sentences, c.any("cleaned", {"urine", "vomit", "sewage", "blood"}) ? "head_bleach_fluid" : "head_bleach").sentence);
        return s;
    }
    if (c.said("product", "several")) return stop_of("several_met", "head_several", "several products");
    if (c.unknown_met) return stop_of("unknown_with_another", "head_unknown_with_another", "a product that is not known, and another");
    if (c.said("people", "mixed")) return stop_of("mixed", "head_mixed", "two products");
    if (c.said("people", "breathing")) return stop_of("unwell", "head_breathing", "what the caller says");
    if (in_danger(c) && c.said("people", "swallowed")) return stop_of("swallowed", "head_swallowed", "what the caller says");
    if (in_danger(c) && on_a_person(c)) return stop_of("on_a_person", "head_eyes", "what the caller says");
    if (c.said("people", "fumes")) return stop_of("fumes", "head_fumes", "what the caller says");
    if (airbag_hit(c)) return stop_of("airbag_or_sensor", "head_airbag", "what the caller says");
    return std::nullopt;
}

bool water_if_bead_stays(const TriageCase& c) {
    if (hands_off(c) || !c.moist() || !c.told("product") || c.suspect() || c.product_none() || asks_first(c)) return false;
    if (c.told("surface") && !c.said("surface", "even_shine")) return false;
    for (const auto kind : c.kinds)
        if (kind != "alkali" && kind != "strong" && kind != "bleach" && kind != "acid" && kind != "wipe" && kind != "mild") return false;
    // Water goes only where nothing else was put on since, and where it can do no other harm.
    if (!c.told("since") || c.topped() || met_caution(c) || c.any("since", {"hair_dryer", "steam"})) return false;
    if (c.near_airbag() || c.powered() || (c.in_car() && !c.said("parts", "none"))) return false;
    if (ink(c) || body_fluid(c) || c.mould() || c.old()) return false;
    return !c.any("seen", {"sticky", "colour_came", "stiff", "shrunken", "cracks", "nap_gone", "soaked"});
}

bool water_allowed(const TriageCase& c) { return water_if_bead_stays(c) && c.said("surface", "even_shine") && c.said("bead", "stays"); }

TriageAdvice advice_of(const TriageCase& c) {
    if (in_danger(c)) return in_danger_advice(c);
    if (met_stop(c) || in_the_air(c)) return after_a_stop(c);
    if (c.declined()) return declined_advice(c);
    TriageAdvice a;
    const Because because = urgency_of(c);
    a.soon = because.soon;
    a.soon_because = because.why;
    a.decision = decision_of(c, because.soon);
    protect(c, a);
    say_for_leather(c, a);
    never_for_leather(c, a);
    photographs(c, a);
    evidence(c, a);
    return a;
}

bool matters(const TriageCase& c, std::string_view q) {
    const auto among = [&](std::initializer_list<std::string_view> those) { return std::find(those.begin(), those.end(), q) != those.end(); };
    if (q == "safe") return people_stop(c) || (met_stop(c) && !past(c));
    if (q == "label" && !c.label_counts()) return false;
    if (among({"people", "product", "label", "since", "when", "cleaned", "involved", "household", "piece", "parts"})) return true;
    if (hands_off(c) && among({"wet", "seen"})) return true;
    if (c.declined()) return false;
    if (among({"special", "tag", "wishes", "deadline"})) return true;
    if (hands_off(c)) return false;
    if (q == "bead") return water_if_bead_stays(c);
    if (q == "area" && c.mould()) return true;
    if (among({"neat", "dose", "area", "left_on", "wiped"})) return !c.told("product") || has_liquid(c);
    return true;
}

}  // namespace hw::desk
