#include "desk/spot.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "atlas/leather_classes.hpp"
#include "atlas/spot_places.hpp"
#include "desk/cautions.hpp"
#include "desk/entries.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"
#include "desk/spot_fold.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool in_list(std::string_view list, std::string_view word) { return (";" + std::string(list) + ";").find(";" + std::string(word) + ";") != std::string::npos; }

const PanelNow* panel_of(const InspectAnswer& piece, std::string_view code) {
    const auto it = std::find_if(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == code; });
    return it == piece.panels.end() ? nullptr : &*it;
}

// ---- the card

BenchStep step(std::string title, std::string how, std::string caution = {}, double clock_s = 0, std::string clock_name = {}) {
    BenchStep s;
    s.title = std::move(title);
    s.how = std::move(how);
    s.caution = std::move(caution);
    s.clock_s = clock_s;
    s.clock_name = std::move(clock_name);
    return s;
}

std::string mixed(double parts_water) { return parts_water > 0 ? ", one part in " + fixed(parts_water, 0) + (parts_water == 1 ? " part" : " parts") + " of water" : std::string(); }

std::vector<BenchStep> card_of(const SpotProduct& p) {
    const bool edge = p.next_where == SpotWhere::Edge;
    const std::string strokes = fixed(spot_rule("strokes").limit_n, 0), flexes = fixed(spot_rule("flexes").limit_n, 0);
    std::vector<BenchStep> out;
    out.push_back(step("Gloves, window open", "As the data sheet of the product says. Nothing else that is open stands near.", "Never mix products. Keep spots a hand apart."));
    out.push_back(step("Photograph it", "Straight on and flat along the surface. Note light and angle. Read colour, shine and pH beside the spot."));
    out.push_back(edge ? step("Mask 1 cm²", "At the edge of the real damage. A card with a hole, no tape.") : step("Mask a circle of 2 cm", "A card with a hole, no tape. Beside it one spot of clean water, and one place left alone.", "Never at a seam with an airbag behind it."));
    BenchStep swab = step("Swab, barely wet", p.liquid.name + mixed(p.parts_water) + ". White swab, pressed out. " + strokes + " strokes, counted, always the same force.", "It stings, smells sharp or fumes: stop, air the room.", p.dwell_s, "leave it");
    swab.amount = number(p.g_m2, p.g_m2 / 3, "g/m²", Standing::Estimate, "a barely wet swab, a third either way");
    out.push_back(swab);
    out.push_back(step("Blot", "Fresh white cloth, press, do not rub."));
    BenchStep cloth = step("Read the cloth", "Colour on swab and cloth, dirt apart. Enter it as read wet: it is kept and not judged.", "Colour comes off, or the finish moves: go on with nothing until this spot is dry.");
    cloth.reading = true;
    out.push_back(cloth);
    out.push_back(step("Rinse as the job would", "Same rinse, same blotting. Nothing if the job has none."));
    out.push_back(step("Let it dry", "Room air. Do not help with heat.", "No hair dryer, heater or sun.", 3600 * p.wait.judge_h, "dry for"));
    BenchStep dry = step("Read it dry", "Same light, same angle. Ring, colour, shine, finish under the lens.");
    dry.reading = true;
    out.push_back(dry);
    BenchStep feel = step("Rub, bend, tissue", "Rub with a dry white cloth. Bend by hand " + flexes + " times, beside untouched leather. Press a tissue on.");
    feel.reading = true;
    out.push_back(feel);
    if (p.wait.again_h > 0) {
        BenchStep again = step("Read it again", "All of it once more. The first reading was not the last word.", p.wait.tack_again ? "Tack counts only now." : "", 3600 * (p.wait.again_h - p.wait.judge_h), "then wait");
        again.reading = true;
        out.push_back(again);
    }
    out.push_back(step("Write it down", "Lot on the bottle, dilution, air and humidity of the room. It is kept with the spot."));
    return out;
}

// ---- a product on a class

Result<leather::Hide> hide_of(const Leather& l) {
    return leather::hide(l.leather_class, l.tannage.empty() ? "unknown" : l.tannage, {l.thickness_mm, l.finish_um, l.surface_ph, l.extract_ph, l.shrinkage_c});
}

std::string when_words(const std::string& at) { return moment_words(at) + " UTC"; }

/// Outcome, sentence and what comes next, from the spots of it on this class.
void settle(SpotProduct& p, const std::vector<const SpotNow*>& spots, bool agreed_hidden, bool agreed_edge) {
    bool hidden_over = false, edge_over = false;
    const SpotNow* open = nullptr;
    std::string failure, caution;
    for (const SpotNow* s : spots) {
        ++p.made;
        if (s->state != SpotState::Finished) {
            if (open == nullptr) open = s;
            continue;
        }
        p.passed += s->mark == SpotMark::Pass;
        p.caution += s->mark == SpotMark::Caution;
        p.failed += s->mark == SpotMark::Fail;
        if (s->mark == SpotMark::Fail) failure = s->sentence;
        else if (s->mark == SpotMark::Caution) caution = s->sentence;
        if (s->mark != SpotMark::Fail) (s->where == SpotWhere::Hidden ? hidden_over : edge_over) = true;
    }
    p.bound = bound_of(p.passed + p.caution + p.failed, p.caution + p.failed);
    p.next_where = hidden_over ? SpotWhere::Edge : SpotWhere::Hidden;
    if (p.failed > 0) {
        p.outcome = SpotOutcome::Not;
        p.sentence = "Not on this class. " + failure;
        p.next = "Leave it off. Try something milder.";
        return;
    }
    const bool enough = hidden_over && edge_over && p.passed + p.caution >= p.wanted;
    if (enough) {
        p.outcome = p.caution > 0 ? SpotOutcome::WithCaution : SpotOutcome::Allowed;
        p.sentence = p.caution > 0 ? "With caution on this class. " + caution : "Allowed on this class, used as it was tried.";
        p.next = p.caution > 0 ? "Use it on a small part first, dry it, look again." : "Use the same dilution, tool and time.";
        return;
    }
    p.sentence = p.made == 0 ? "No spot of it yet." : hidden_over && edge_over ? std::to_string(p.passed + p.caution) + " of " + std::to_string(p.wanted) + " good spots that the claim needs." : hidden_over ? "Passed in hiding" + std::string(p.caution > 0 ? ", with caution" : "") + ". Hidden leather is cleaner and less worn than the damage." : "Not decided yet.";
    if (open != nullptr && open->state != SpotState::WaitsAgain && open->state != SpotState::Drying) p.next = open->sentence;
    else if (open != nullptr) p.next = "Wait: " + as_clause(open->sentence) + ".";
    else if (hidden_over && !edge_over) {
        p.may_make = agreed_edge;
        p.next = agreed_edge ? "Now one spot of 1 cm² at the edge of the real damage." : "Have the owner agree to a spot at the edge of the damage.";
    } else {
        if (hidden_over && edge_over) p.next_where = SpotWhere::Hidden;
        p.may_make = agreed_hidden;
        p.next = agreed_hidden ? "Make a hidden spot." : "Have the owner agree to test spots first.";
    }
}

/// Mild first; nothing stronger is tried while something milder is open or untried.
void one_after_another(std::vector<SpotProduct>& products) {
    bool milder_open = false;
    int open_step = 0, failed_step = 0;
    for (auto& p : products) {
        if (failed_step > 0 && p.step > failed_step && p.made == 0 && p.may_make) p.next = "Something milder failed here. A hidden spot of this only if nothing else will do.";
        if (p.failed > 0 && p.step > 0 && failed_step == 0) failed_step = p.step;
        const bool later = milder_open && p.step > open_step;
        if (later && p.made == 0) {
            p.may_make = false;
            p.next = "First read what is milder to the end.";
        }
        if (p.step > 0 && p.outcome == SpotOutcome::NotYet && !milder_open && p.passed + p.caution == 0) milder_open = true, open_step = p.step;
    }
}

struct Planner {
    const SpotRequest& request;
    const InspectAnswer& piece;
    const SpotAnswer& answer;
    Ports& ports;

    Result<SpotProduct> product(const SpotTry& t, const SpotClass& c, const leather::Hide* hide) const {
        SpotProduct p;
        p.liquid = t.liquid;
        p.parts_water = t.parts_water;
        p.purpose = t.purpose;
        p.g_m2 = t.g_m2;
        p.dwell_s = t.dwell_s;
        HW_TRY(strength, strength_of(t.liquid, t.parts_water, t.purpose));
        p.rung = strength.name;
        p.why = strength.why;
        p.basis = strength.basis;
        p.step = strength.step;
        std::optional<double> through_h;
        if (hide != nullptr) {
            HW_TRY(dry, dry_of(*hide, t.g_m2, t.dwell_s, request.air));
            through_h = dry.through_h.value_or(spot_rule("longest_wait").limit_h);
        }
        p.wait = wait_of(strength, c.leather_class, through_h);
        if (request.claim_pct) p.wanted = spots_for(*request.claim_pct);
        std::vector<const SpotNow*> spots;
        for (const auto& s : piece.spots)
            if (s.zone == c.zone && same_product(s, t.liquid, t.parts_water)) spots.push_back(&s);
        settle(p, spots, answer.agreed_hidden, answer.agreed_edge);
        const auto stop = meeting_stop(t.liquid, {}, ports.store);
        if (stop || strength.rung == "bleach" || strength.rung == "not_known") {
            p.step = 0;
            p.may_make = false;
            p.outcome = p.outcome == SpotOutcome::Not || strength.rung != "not_known" ? SpotOutcome::Not : SpotOutcome::NotYet;
            if (stop) p.sentence = "No spot of it. " + stop->headline;
            else if (p.failed == 0) p.sentence = strength.rung == "bleach" ? "No spot of it: " + as_clause(strength.why) + "." : "No spot of it yet: too much of it is not known.";
            p.next = strength.rung == "not_known" && !stop ? "Read its label or sheet, or the liquid itself, first." : "Keep it off.";
        }
        if (p.step > 0 && p.failed == 0) p.card = card_of(p);
        return p;
    }

    std::vector<SpotPlace> places() const {
        std::vector<SpotPlace> out;
        for (const auto& row : atlas::spot_places)
            if (in_list(row.families, piece.make_up.family))
                out.push_back({std::string(row.key), std::string(row.plain_name), std::string(row.note), {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), piece.family_name}});
        return out;
    }

    /// What is asked for, and what has spots on this class already, each once.
    std::vector<SpotTry> tries(const std::vector<SpotTry>& asked, const SpotClass& c) const {
        std::vector<SpotTry> out;
        const auto there = [&](const SpotNow& s) { return std::any_of(out.begin(), out.end(), [&](const SpotTry& t) { return same_product(s, t.liquid, t.parts_water); }); };
        for (const auto& t : asked) {
            const bool twice = std::any_of(out.begin(), out.end(), [&](const SpotTry& o) { return o.parts_water == t.parts_water && (t.liquid.id.empty() ? o.liquid.name == t.liquid.name : o.liquid.id == t.liquid.id); });
            if (!twice) out.push_back(t);
        }
        for (const auto& e : piece.entries) {  // newest first: the latest amounts
            if (e.state != EntryState::Stands || !e.entry.spot_made || e.entry.spot_made->kind != SpotKind::Product) continue;
            const SpotMade& m = *e.entry.spot_made;
            const auto now = std::find_if(piece.spots.begin(), piece.spots.end(), [&](const SpotNow& s) { return s.entry == e.entry.id; });
            if (now == piece.spots.end() || now->zone != c.zone || there(*now)) continue;
            out.push_back({m.liquid, m.parts_water, m.purpose, m.g_m2, m.dwell_s});
        }
        return out;
    }

    std::string controls(const SpotClass& c) const {
        const SpotNow *water = nullptr, *alone = nullptr;
        for (const auto& s : piece.spots) {
            if (s.zone != c.zone) continue;
            if (s.kind == SpotKind::Water) water = &s;
            if (s.kind == SpotKind::Untouched) alone = &s;
        }
        std::string out = water == nullptr ? "Make one spot of clean water beside the first: what water alone does, everything with water does too."
                          : water->mark == SpotMark::Fail ? "Clean water alone failed here: nothing with water in it. " + water->sentence
                                                          : "Clean water: " + as_clause(water->sentence) + ".";
        return out + (alone == nullptr ? " Mark one place that is left alone." : " One place is left alone.");
    }

    Result<SpotClass> class_of(const Zone& zone, const std::vector<SpotTry>& asked) const {
        SpotClass c;
        c.zone = zone.name;
        const PanelNow* like = nullptr;
        std::set<std::string> behind;
        for (const auto& code : zone.panels) {
            const PanelNow* panel = panel_of(piece, code);
            if (panel == nullptr) continue;
            if (auto stops = what_stops(piece, code, "spot")) {
                c.stops.push_back(std::move(*stops));
                continue;
            }
            for (const auto& q : panel->questions)
                if (q.kind == "airbag") behind.insert(code);
            if (!behind.count(code)) {
                if (like == nullptr) like = panel;
                c.panels.push_back(code);
            }
        }
        if (!behind.empty()) c.ask_first.push_back("Look for the label of an airbag first, then enter what is there: " + listed({behind.begin(), behind.end()}) + ".");
        if (like == nullptr) like = zone.panels.empty() ? nullptr : panel_of(piece, zone.panels.front());
        if (like != nullptr) c.leather_class = like->leather.leather_class;
        c.places = places();
        std::optional<leather::Hide> hide;
        if (like != nullptr && !c.leather_class.empty()) {
            auto made = hide_of(like->leather);
            if (made.ok()) {
                hide = *made;
                c.stop = no_water(like->leather, *hide);
            }
        }
        if (c.leather_class.empty()) c.ask_first.push_back("This is not entered as leather: what is known of leather does not hold here.");
        for (const auto& t : tries(asked, c)) {
            HW_TRY(p, product(t, c, hide ? &*hide : nullptr));
            if (c.stop || c.panels.empty()) p.may_make = false, p.card.clear(), p.next = c.stop ? c.stop->headline : "No panel of this class may be spotted now.";
            c.products.push_back(std::move(p));
        }
        std::stable_sort(c.products.begin(), c.products.end(), [](const SpotProduct& a, const SpotProduct& b) {
            const auto order = [](const SpotProduct& p) { return p.step == 0 ? 99 : p.step; };
            return order(a) < order(b);
        });
        one_after_another(c.products);
        c.controls = controls(c);
        return c;
    }
};

bool has_agreed(const InspectAnswer& piece, SpotWhere where) {
    return std::any_of(piece.entries.begin(), piece.entries.end(), [&](const EntryNow& e) {
        return e.state == EntryState::Stands && e.entry.agreed && std::find(e.entry.agreed->consents.begin(), e.entry.agreed->consents.end(), consent_to(where)) != e.entry.agreed->consents.end();
    });
}

std::vector<SpotDue> due_of(const InspectAnswer& piece) {
    std::vector<SpotDue> out;
    for (const auto& s : piece.spots) {
        if (s.state == SpotState::Finished) continue;
        const bool again = s.state == SpotState::WaitsAgain || s.state == SpotState::ReadAgainNow;
        SpotDue d;
        d.piece = piece.piece;
        d.piece_name = piece.name;
        d.spot = s.entry;
        d.panel = s.panel;
        d.panel_name = s.panel_name;
        d.product = s.kind == SpotKind::Water ? "clean water (control)" : s.product;
        d.place = s.where == SpotWhere::Edge ? "edge of the damage" : s.place;
        d.what = again ? "Read it again" : "Read it dry";
        d.at = again ? s.again_at : s.dry_at;
        d.due = s.state == SpotState::ReadNow || s.state == SpotState::ReadAgainNow;
        d.sentence = d.what + ": " + d.product + " on " + s.panel_name + ", " + piece.name + ".";
        out.push_back(std::move(d));
    }
    std::stable_sort(out.begin(), out.end(), [](const SpotDue& a, const SpotDue& b) { return a.at < b.at; });
    return out;
}

}  // namespace

Result<SpotAnswer> spot(const SpotRequest& request, Ports& ports) {
    if (const auto bad = out_of_range(request)) return *bad;
    for (std::size_t i = 0; i < request.entries.size(); ++i) {
        const Did did = request.entries[i].did;
        if (did != Did::SpotMade && did != Did::SpotRead && did != Did::Agreed && did != Did::TakeBack)
            return Error{ErrorCode::InvalidInput, "Only spots, what was agreed, and taking back are entered here. Send the rest to inspect.", "entries[" + std::to_string(i) + "].did"};
    }
    HW_TRY(piece, inspect({request.piece, request.entries}, ports));
    if (!request.panel.empty() && panel_of(piece, request.panel) == nullptr) return Error{ErrorCode::NotFound, "This piece has no panel \"" + request.panel + "\".", "panel"};
    SpotAnswer a;
    a.piece = piece.piece;
    a.name = piece.name;
    a.last = piece.last;
    a.version = piece.version;
    a.now = moment(ports.clock.now_s());
    a.agreed_hidden = has_agreed(piece, SpotWhere::Hidden);
    a.agreed_edge = has_agreed(piece, SpotWhere::Edge);
    a.consent_hidden = std::string(consent_to(SpotWhere::Hidden));
    a.consent_edge = std::string(consent_to(SpotWhere::Edge));
    a.disclosure = piece.disclosure;
    a.spots = piece.spots;
    a.signs = sign_words();
    std::vector<SpotTry> asked;
    for (std::size_t i = 0; i < request.products.size(); ++i) {
        SpotTry t = request.products[i];
        auto whole = resolved(t.liquid, ports.store);
        if (!whole.ok()) return Error{whole.error().code, whole.error().message, "products[" + std::to_string(i) + "]." + whole.error().where};
        t.liquid = std::move(*whole);
        asked.push_back(std::move(t));
    }
    const Planner planner{request, piece, a, ports};
    const PanelNow* only = request.panel.empty() ? nullptr : panel_of(piece, request.panel);
    for (const auto& zone : piece.zones) {
        if (only != nullptr && only->zone != zone.name) continue;
        auto c = planner.class_of(zone, asked);
        if (!c.ok()) return c.error();
        a.classes.push_back(std::move(*c));
    }
    if (only != nullptr && only->zone.empty()) a.notes.push_back({"no_class", "What " + only->name + " is made of is not said yet: enter it first, then a spot of one panel speaks for its class.", "caution", {"Panels that share kind, finish, wear and use are one class", "trade", "a spot speaks for its class", Standing::CommonPractice, only->code}});
    if (only == nullptr && piece.zones.empty()) a.notes.push_back({"no_class", "Nothing is said yet of what the panels are made of: enter it first.", "caution", {"Panels that share kind, finish, wear and use are one class", "trade", "a spot speaks for its class", Standing::CommonPractice, piece.name}});
    a.notes.push_back({"hidden_is_not_worn", "Hidden leather is cleaner, less worn and less oily than the damage. That is why a spot at its edge comes second.", "note", {"One hidden spot is never the same as a worn visible one", "trade", "hidden spot first, then 1 cm2 at the edge of the damage", Standing::CommonPractice, ""}});
    const auto due = due_of(piece);
    const auto now = std::find_if(due.begin(), due.end(), [](const SpotDue& d) { return d.due; });
    if (now != due.end()) a.sentence = "Due now. " + now->sentence;
    else if (!due.empty()) a.sentence = "Next, from " + when_words(due.front().at) + " on. " + due.front().sentence;
    else if (!a.agreed_hidden) a.sentence = "Have the owner agree to test spots first.";
    else a.sentence = a.spots.empty() ? "No spot is made yet." : "Nothing is due.";
    return a;
}

Result<std::vector<SpotDue>> spots_due(Ports& ports) {
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    HW_TRY(rows, ports.journal->pieces_with_spots());
    std::vector<SpotDue> out;
    for (const auto& row : rows) {
        HW_TRY(piece, inspect({row.id, {}}, ports));
        for (auto& d : due_of(piece)) {
            d.demo = row.demo;
            out.push_back(std::move(d));
        }
    }
    std::stable_sort(out.begin(), out.end(), [](const SpotDue& a, const SpotDue& b) { return a.at < b.at; });
    return out;
}

Result<std::vector<RateRow>> spot_rates(Ports& ports) {
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    HW_TRY(rows, ports.journal->pieces_with_spots());
    std::vector<Tried> tried;
    for (const auto& row : rows) {
        if (row.demo) continue;
        HW_TRY(piece, inspect({row.id, {}}, ports));
        for (const auto& s : piece.spots)
            if (s.kind == SpotKind::Product && s.state == SpotState::Finished && !s.leather_class.empty()) tried.push_back({s.liquid_id.empty() ? s.product : s.liquid_id, s.product, s.family.empty() ? "no kind said" : s.family, s.leather_class, s.mark});
    }
    return rates_of(tried);
}

SpotsSay spots_say(const InspectAnswer& piece, const std::string& panel, const Liquid& liquid, double parts_water) {
    SpotsSay out;
    const PanelNow* p = panel_of(piece, panel);
    for (const auto& s : piece.spots) {
        if (p == nullptr || s.zone != p->zone || (s.zone.empty() && s.panel != panel) || !same_liquid(s, liquid) || s.state != SpotState::Finished) continue;
        // What failed thinner fails as it is; what passed says nothing of another dilution.
        if (s.mark == SpotMark::Fail && s.parts_water >= parts_water) ++out.failed, out.failure = s.sentence;
        if (s.parts_water != parts_water) continue;
        out.passed += s.mark == SpotMark::Pass;
        out.caution += s.mark == SpotMark::Caution;
    }
    out.bound = bound_of(out.passed + out.caution + out.failed, out.caution + out.failed);
    return out;
}

double water_borne_g_m2(const InspectAnswer& piece, const std::string& panel) {
    const PanelNow* p = panel_of(piece, panel);
    if (p == nullptr) return 0;
    double borne = 0, least_failed = INFINITY;
    for (const auto& s : piece.spots) {
        // Water itself, or a product with next to nothing but water: what fails of a solvent says nothing about water.
        if (s.kind != SpotKind::Water || s.zone != p->zone || s.state != SpotState::Finished) continue;
        if (s.mark == SpotMark::Fail) least_failed = std::min(least_failed, s.g_m2);
        else if (s.mark == SpotMark::Pass) borne = std::max(borne, s.g_m2);
    }
    return borne < least_failed ? borne : 0;
}

std::vector<std::string> failed_on(const InspectAnswer& piece, const std::string& panel) {
    const PanelNow* p = panel_of(piece, panel);
    std::set<std::string> out;
    for (const auto& s : piece.spots)
        if (p != nullptr && s.zone == p->zone && s.state == SpotState::Finished && s.mark == SpotMark::Fail) out.insert(s.product);
    return {out.begin(), out.end()};
}

}  // namespace hw::desk
