#include "face/cli/spots.hpp"

#include "desk/moment.hpp"
#include "desk/words.hpp"
#include "face/cli/text.hpp"

namespace hw::cli {

namespace {

std::string_view outcome_word(desk::SpotOutcome o) {
    switch (o) {
    case desk::SpotOutcome::Allowed: return "ALLOWED";
    case desk::SpotOutcome::WithCaution: return "CAUTION";
    case desk::SpotOutcome::Not: return "NOT";
    case desk::SpotOutcome::NotYet: break;
    }
    return "not yet";
}

void add_product(std::string& out, const desk::SpotProduct& p) {
    const std::string mixed = p.parts_water > 0 ? " (1 : " + desk::fixed(p.parts_water, 0) + ")" : "";
    wrap(out, (p.step > 0 ? std::to_string(p.step) : std::string("-")) + "  " + p.liquid.name + mixed + ": " + std::string(outcome_word(p.outcome)) + ". " + p.sentence, "  ", "     ");
    wrap(out, p.rung + ". " + p.why, "     ", "     ");
    if (p.step > 0) {
        wrap(out, "Read dry after " + desk::span(3600 * p.wait.judge_h) + (p.wait.again_h > 0 ? ", again after " + desk::span(3600 * p.wait.again_h) : std::string()) + ". " + (p.wait.reasons.empty() ? "" : p.wait.reasons.front().sentence), "     ", "     ");
        wrap(out, p.bound.sentence + (p.wanted > 0 ? " For the claim: " + std::to_string(p.wanted) + " good spots and no bad one." : ""), "     ", "     ");
    }
    wrap(out, "Next: " + p.next, "     ", "     ");
}

}  // namespace

std::string text_of(const desk::SpotAnswer& a) {
    std::string out;
    wrap(out, a.name + ". " + a.sentence, "", "");
    if (!a.agreed_hidden) wrap(out, "Not agreed yet: \"" + a.consent_hidden + "\"", "! ", "  ");
    for (const auto& c : a.classes) {
        wrap(out, c.zone + ": " + (c.panels.empty() ? "no panel may be spotted" : desk::listed(c.panels)), "\n", "");
        if (c.stop) wrap(out, c.stop->headline, "STOP  ", "      ");
        for (const auto& s : c.stops) wrap(out, s.sentence, "STOP  ", "      ");
        for (const auto& s : c.ask_first) wrap(out, s, "! ", "  ");
        std::vector<std::string> places;
        for (const auto& p : c.places) places.push_back(desk::as_clause(p.name));
        if (!places.empty()) wrap(out, "Hidden places: " + desk::listed(places) + ".", "", "");
        wrap(out, c.controls, "", "");
        for (const auto& p : c.products) add_product(out, p);
    }
    if (!a.spots.empty()) out += "\nSpots\n";
    for (const auto& s : a.spots) {
        wrap(out, desk::moment_words(s.at) + "  " + s.product + " on " + s.panel + (s.where == desk::SpotWhere::Edge ? ", edge of the damage" : ", hidden") + ": " + s.sentence, "  ", "    ");
        out += "    id " + s.entry + "\n";
    }
    for (const auto& n : a.notes) wrap(out, n.sentence, "\n", "");
    return out;
}

std::string text_of(const std::vector<desk::SpotDue>& due) {
    std::string out = due.empty() ? "No spot waits to be read.\n" : "";
    for (const auto& d : due) wrap(out, (d.due ? "NOW  " : desk::moment_words(d.at) + " UTC  ") + d.sentence, "", "     ");
    return out;
}

std::string text_of(const std::vector<desk::RateRow>& rates) {
    std::string out = rates.empty() ? "No spot is judged to the end yet.\n" : "";
    for (const auto& r : rates) wrap(out, r.class_name + ", " + (r.product.empty() ? r.family + ", all" : r.product) + ": " + r.sentence, r.product.empty() ? "" : "  ", "    ");
    return out;
}

}  // namespace hw::cli
