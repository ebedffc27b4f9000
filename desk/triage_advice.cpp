// What is said, how soon, and who it belongs to: each rule here picks sentences of the atlas, none is made up on the way.
#include "atlas/incompatible.hpp"
#include "atlas/triage_classes.hpp"
#include "atlas/triage_sentences.hpp"
#include "desk/liquids.hpp"
#include "desk/triage_case.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool met_stop(const TriageCase& c) { return (!c.met.empty() && c.met[0].severity == chem::Severity::Stop) || c.unknown_met; }
bool people_stop(const TriageCase& c) { return c.unwell() || c.said("people", "mixed"); }
/// Days ago, and everybody is well: what could come out has gone from the room, but not from the piece.
bool past(const TriageCase& c) { return c.long_ago() && c.said("people", "none"); }
bool everybody_out(const TriageCase& c) { return c.said("safe", "yes"); }
bool stopped(const TriageCase& c) { return met_stop(c) || people_stop(c); }

bool ink(const TriageCase& c) { return c.any("cleaned", {"ink", "dye"}); }
bool body_fluid(const TriageCase& c) { return c.any("cleaned", {"urine", "vomit_milk"}); }
bool steamed(const TriageCase& c) { return c.has_kind("steam") || c.said("since", "steam"); }
bool met_caution(const TriageCase& c) { return !c.met.empty() && c.met[0].severity == chem::Severity::Caution; }
/// Another product came on top.
bool topped(const TriageCase& c) { return c.any("since", {"vinegar", "bicarbonate", "soap", "conditioner", "oil", "alcohol", "ammonia", "bleach", "other_cleaner"}); }
bool moist(const TriageCase& c) { return c.wet() || c.damp(); }
bool weak(const TriageCase& c) { return c.any("seen", {"stiff", "shrunken"}); }
bool waits_to_dry(const TriageCase& c) { return c.any("seen", {"darker", "ring", "haze"}); }
bool airbag_hit(const TriageCase& c) { return c.near_airbag() && !c.product_none() && !c.declined(); }

Stop stop_of(std::string_view kind, std::string_view head, std::string inputs) {
    const auto& row = triage_row(atlas::triage_sentences, head);
    Stop s;
    s.kind = std::string(kind);
    s.headline = std::string(row.sentence);
    s.basis = basis_of_row(row, row.why, std::move(inputs));
    return s;
}

TriageAdvice in_danger_advice(const TriageCase& c) {
    TriageAdvice a;
    const bool gas = met_stop(c) || c.any("people", {"mixed", "fumes", "breathing"});
    if (gas) a.say.push_back("fresh_air");
    if (c.said("people", "eyes")) a.say.push_back("rinse_eyes");
    if (c.said("people", "skin")) a.say.push_back("rinse_skin");
    if (c.said("people", "swallowed")) a.say.push_back("call_swallowed");
    if (c.any("people", {"fumes", "breathing", "eyes", "skin", "mixed"})) a.say.push_back("call_poison");
    else if (gas && !c.unwell()) a.say.push_back("call_if_unwell");
    if (met_stop(c) && !c.unwell() && !c.said("people", "mixed")) a.say.push_back("keep_apart");
    a.say.push_back("leather_waits");
    if (gas) a.never = {"never_back", "never_add", "never_close"};
    else a.never = {"never_add"};
    a.soon = "now";
    a.soon_because = "u_people";
    a.decision = people_stop(c) ? "emergency" : "emergency_well";
    return a;
}

void evidence(const TriageCase& c, TriageAdvice& a) {
    if (!c.any("involved", {"insurer", "retailer", "landlord"})) return;
    a.keep = {"keep_stop", "keep_photos", "keep_bottle", "keep_cloths", "keep_papers", "keep_times"};
    if (c.product_none()) a.keep.erase(a.keep.begin() + 2, a.keep.begin() + 4);
}

void away(const TriageCase& c, TriageAdvice& a) {
    if (c.any("household", {"children", "pets"})) a.say.push_back("keep_off");
    if (c.any("household", {"asthma", "allergy", "pregnancy"})) a.say.push_back("sensitive_away");
}

TriageAdvice after_a_stop(const TriageCase& c) {
    TriageAdvice a;
    a.say = past(c) ? std::vector<std::string_view>{"past_air", "after_danger"} : std::vector<std::string_view>{"after_danger"};
    away(c, a);
    a.never = {"never_add", "never_close", "never_heat"};
    if (past(c)) a.photos = {"photo_whole", "photo_label"};
    a.soon = past(c) ? "week" : "day";
    a.soon_because = past(c) ? "u_met" : "u_aired";
    a.decision = c.said("cleaned", "sewage") ? "decline_sewage" : c.said("cleaned", "blood") ? "decline_blood" : airbag_hit(c) ? "refer_car" : c.old() ? "refer_conservator" : past(c) ? "book_week" : "book_day";
    evidence(c, a);
    return a;
}

TriageAdvice declined_advice(const TriageCase& c) {
    TriageAdvice a;
    if (!c.told("people")) a.say.push_back("if_unwell");
    a.say.push_back("remediation_leave");
    away(c, a);
    a.never = {"never_more", "never_rub"};
    a.photos = {"photo_whole"};
    a.soon = "day";
    a.soon_because = "u_refer";
    a.decision = c.said("cleaned", "sewage") ? "decline_sewage" : "decline_blood";
    evidence(c, a);
    return a;
}

/// What protects people and electric parts while it is wet.
void protect(const TriageCase& c, TriageAdvice& a) {
    if (!c.told("people") && !c.product_none()) a.say.push_back("if_unwell");
    if (met_caution(c)) a.say.push_back("met_caution");
    if (c.dry()) return;
    if (c.has_kind("lye") || c.has_kind("strong") || (c.told("product") && c.product_unknown())) a.say.push_back("gloves");
    if (c.has_kind("solvent")) a.say.push_back(c.in_car() ? "car_doors" : "no_flame");
    if (c.in_car()) a.say.push_back("car_off");
    else if (c.powered() || c.near_airbag()) a.say.push_back("power_off");
}

/// What to do with the wet, if anything.
void take_off(const TriageCase& c, TriageAdvice& a) {
    const bool touch_not = c.has_kind("solvent") || c.has_kind("abrasive") || steamed(c) || met_caution(c);
    if (c.has_kind("solvent")) a.say.push_back("let_air");
    if (c.has_kind("abrasive")) a.say.push_back("stop_rubbing");
    if (steamed(c)) a.say.push_back("cool_down");
    else if (c.said("since", "hair_dryer")) a.say.push_back("hot_air_off");
    if (c.has_kind("oil")) {
        a.say.push_back("lift_top");
    } else if (!touch_not && moist(c)) {
        a.say.push_back(body_fluid(c) ? "blot_towel" : "blot");
        if (water_allowed(c)) a.say.push_back("damp_cloth");
        else a.say.push_back("no_water");
    } else if (!touch_not && c.told("product") && !c.product_none()) {
        a.say.push_back("if_wet_blot");
        a.say.push_back("no_water");
    }
    if (c.said("seen", "soaked")) a.say.push_back("let_air_all");
    else if (moist(c)) a.say.push_back("air_dry");
}

void leave(const TriageCase& c, TriageAdvice& a) {
    if (c.said("seen", "sticky")) a.say.push_back("sticky_wait");
    else a.say.push_back("do_nothing");
    if (waits_to_dry(c) && !c.said("seen", "sticky")) a.say.push_back("wait_look");
}

void say_for_leather(const TriageCase& c, TriageAdvice& a) {
    if (c.old()) {
        a.say.push_back("old_leave");
    } else if (c.mould()) {
        a.say.push_back("mould_leave");
    } else if (!c.told("product") && !c.told("wet") && !c.wet() && !c.long_ago()) {
        a.say.push_back("tell_us");
    } else if (c.dry() || (c.product_none() && !moist(c))) {
        leave(c, a);
    } else {
        if (!c.product_none()) a.say.push_back("stop_cleaning");
        take_off(c, a);
        if (c.said("seen", "sticky")) a.say.push_back("sticky_wait");
    }
    if (ink(c)) a.say.push_back("ink_leave");
    if (c.said("since", "bicarbonate")) a.say.push_back("leave_powder");
    if (c.said("seen", "colour_came")) a.say.push_back("bag_cloth");
    if (weak(c)) a.say.push_back("stiff_leave");
    // What met there is known only by the class until the label was read.
    if ((c.product_unknown() || topped(c)) && c.label_counts() && !c.told("label")) a.say.push_back("read_label");
    if (!c.product_none() || c.mould() || moist(c)) away(c, a);
}

void never_for_leather(const TriageCase& c, TriageAdvice& a) {
    a.never = {"never_more", "never_rub", "never_heat"};
    if (!c.dry() && !water_allowed(c) && std::find(a.say.begin(), a.say.end(), "no_water") == a.say.end()) a.never.push_back("never_water");
    if (c.said("seen", "sticky") || (c.has_kind("solvent") && !c.dry())) a.never.push_back("never_cover");
    if (ink(c)) a.never.push_back("never_ink");
    if (c.mould()) a.never.push_back("never_mould");
    if (body_fluid(c)) a.never.push_back("never_enzyme");
    if (c.near_airbag() || (c.in_car() && !c.said("parts", "none"))) a.never.push_back("never_airbag");
    if (c.in_car() && c.has_kind("solvent")) a.never.push_back("never_closed_car");
}

struct Because {
    std::string_view soon, why;
};

Because wet_urgency(const TriageCase& c) {
    if (c.mould()) return moist(c) ? Because{"day", "u_wet"} : Because{"week", "u_mould"};
    const bool bad = c.has_kind("lye") || c.has_kind("strong") || c.has_kind("solvent");
    if (bad && moist(c)) return {"now", "u_strong_wet"};
    if (c.told("product") && c.product_unknown() && moist(c)) return {"now", "u_unknown_wet"};
    if ((bad || (c.told("product") && c.product_unknown())) && !c.dry()) return {"now", "u_not_known"};
    if (c.has_kind("lye")) return {"day", "u_oven"};
    if (body_fluid(c)) return {"day", "u_body_fluid"};
    if (c.said("seen", "soaked")) return {"day", "u_soaked"};
    if ((steamed(c) || c.said("since", "hair_dryer")) && !c.dry()) return {"day", "u_heat_wet"};
    if (moist(c)) return {"day", "u_wet"};
    return {};
}

Because urgency_of(const TriageCase& c) {
    if (const Because b = wet_urgency(c); !b.soon.empty()) return b;
    if (ink(c)) return {"week", "u_ink"};
    if (c.said("seen", "colour_came")) return {"week", "u_bleed"};
    if (c.product_none()) return {"suits", "u_routine"};
    if (!c.dry()) return {"day", "u_not_known"};
    if (c.said("seen", "sticky")) return {"hold", "u_tack"};
    if (waits_to_dry(c)) return {"hold", "u_dark"};
    if (c.product_unknown()) return {"week", "u_not_known"};
    if (c.said("product", "bleach")) return {"week", "u_bleach"};
    if (c.has_kind("strong")) return {"week", "u_strong_dry"};
    if (c.has_kind("oil")) return {"week", "u_oil"};
    return {"suits", "u_dry"};
}

std::string_view booking(std::string_view soon) {
    return soon == "now" ? "book_now" : soon == "day" ? "book_day" : soon == "week" ? "book_week" : soon == "hold" ? "book_hold" : "book_suits";
}

void photographs(const TriageCase& c, TriageAdvice& a) {
    a.photos = {"photo_whole", "photo_close", "photo_edge"};
    if (!c.product_none()) a.photos.insert(a.photos.end(), {"photo_label", "photo_cloth"});
    a.photos.push_back("photo_tag");
    if (c.near_airbag() || c.powered()) a.photos.push_back("photo_parts");
}

}  // namespace

bool in_danger(const TriageCase& c) { return (people_stop(c) || (met_stop(c) && !past(c))) && !everybody_out(c); }

bool hands_off(const TriageCase& c) { return stopped(c) || c.declined(); }

std::optional<Stop> triage_stop(const TriageCase& c) {
    if (!c.met.empty() && c.met[0].severity == chem::Severity::Stop) {
        Stop s = stop_from(c.met[0]);
        if (!c.met[0].from_unknown) s.headline = "Such products usually hold what must not meet: " + as_clause(s.headline) + ".";
        return s;
    }
    if (c.said("product", "several")) return stop_of("several_met", "head_several", "several products");
    if (c.unknown_met) return stop_of("unknown_with_another", "head_unknown_with_another", "a product that is not known, and another");
    if (c.said("people", "mixed")) return stop_of("mixed", "head_mixed", "two products");
    if (c.said("people", "breathing")) return stop_of("unwell", "head_breathing", "what the caller says");
    if (c.said("people", "swallowed")) return stop_of("swallowed", "head_swallowed", "what the caller says");
    if (c.any("people", {"eyes", "skin"})) return stop_of("on_a_person", "head_eyes", "what the caller says");
    if (c.said("people", "fumes")) return stop_of("fumes", "head_fumes", "what the caller says");
    if (airbag_hit(c)) return stop_of("airbag_or_sensor", "head_airbag", "what the caller says");
    return std::nullopt;
}

bool water_if_bead_stays(const TriageCase& c) {
    if (stopped(c) || !moist(c) || !c.told("product") || c.product_unknown() || c.product_none()) return false;
    if (c.told("surface") && !c.said("surface", "even_shine")) return false;
    for (const auto key : classes_of(c)) {
        const auto kind = triage_row(atlas::triage_classes, key).kind;
        if (kind != "alkali" && kind != "strong" && kind != "acid" && kind != "wipe" && kind != "mild") return false;
    }
    // Water goes only where nothing else was put on since, and where it can do no other harm.
    if (!c.told("since") || topped(c) || met_caution(c) || c.any("since", {"hair_dryer", "steam"})) return false;
    if (c.near_airbag() || c.powered() || (c.in_car() && !c.said("parts", "none"))) return false;
    if (ink(c) || body_fluid(c) || c.mould() || c.declined() || c.old()) return false;
    return !c.any("seen", {"sticky", "colour_came", "stiff", "shrunken", "cracks", "nap_gone", "soaked"});
}

bool water_allowed(const TriageCase& c) { return water_if_bead_stays(c) && c.said("surface", "even_shine") && c.said("bead", "stays"); }

TriageAdvice advice_of(const TriageCase& c) {
    if (in_danger(c)) return in_danger_advice(c);
    if (stopped(c)) return after_a_stop(c);
    if (c.declined()) return declined_advice(c);
    TriageAdvice a;
    protect(c, a);
    say_for_leather(c, a);
    never_for_leather(c, a);
    photographs(c, a);
    const Because because = urgency_of(c);
    a.soon = because.soon;
    a.soon_because = because.why;
    a.decision = airbag_hit(c) ? "refer_car" : c.large_mould() ? "refer_mould" : c.old() ? "refer_conservator" : booking(because.soon);
    evidence(c, a);
    return a;
}

bool matters(const TriageCase& c, std::string_view q) {
    const auto among = [&](std::initializer_list<std::string_view> those) { return std::find(those.begin(), those.end(), q) != those.end(); };
    if (q == "safe") return people_stop(c) || (met_stop(c) && !past(c));
    if (q == "label" && !c.label_counts()) return false;
    if (among({"people", "product", "label", "since", "when", "cleaned", "involved", "household"})) return true;
    if (c.declined()) return false;
    if (among({"piece", "parts", "special", "tag", "wishes", "deadline"})) return true;
    if (stopped(c)) return false;
    if (q == "bead") return water_if_bead_stays(c);
    if (q == "area" && c.mould()) return true;
    if (among({"neat", "dose", "area", "left_on", "wiped"})) return !c.told("product") || has_liquid(c);
    return true;
}

}  // namespace hw::desk
