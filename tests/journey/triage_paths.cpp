// Prints docs/reference/triage-paths.md: calls over every class of product, answered by the program, to be read and criticised.
#include <iostream>
#include <string>
#include <vector>

#include "atlas/triage_classes.hpp"
#include "desk/triage.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

using Answers = std::vector<TriageGiven>;

TriageGiven given(std::string question, std::vector<std::string> choices) { return {std::move(question), std::move(choices), std::nullopt, "", ""}; }
TriageGiven hands(double n) { return {"area", {}, n, "hands", ""}; }

const TriageGiven well = given("people", {"none"}), untouched = given("since", {"nothing"}), wet = given("wet", {"wet"}), dry = given("wet", {"dry"}), shiny = given("surface", {"even_shine"});

/// What befalls each product in turn.
std::vector<Answers> stories() {
    return {
        {well, wet, untouched, shiny, given("bead", {"stays"})},
        {well, wet, untouched, given("surface", {"velvety"})},
        {well, wet, untouched, given("surface", {"dont_know"})},
        {well, dry, given("when", {"yesterday"}), untouched, given("seen", {"darker", "ring"}), given("surface", {"varied"})},
        {well, dry, given("when", {"today"}), untouched, given("seen", {"sticky"}), shiny},
        {well, given("wet", {"damp"}), untouched, given("seen", {"colour_came"}), shiny},
        {well, dry, given("when", {"weeks"}), given("seen", {"nothing"})},
        {well, wet, given("since", {"vinegar"}), shiny},
        {well, wet, given("since", {"bleach"}), shiny},
        {well, wet, given("since", {"ammonia"}), shiny},
        {given("people", {"dont_know"}), given("wet", {"dont_know"}), given("since", {"conditioner"})},
        {well, wet, given("since", {"hair_dryer"}), shiny},
        {given("people", {"eyes"}), wet},
        {well, given("piece", {"front_seat"}), given("parts", {"airbag"}), wet, untouched, shiny, given("bead", {"stays"})},
    };
}

std::vector<Answers> others() {
    const TriageGiven spray = given("product", {"all_purpose"});
    return {
        {},
        {well},
        {given("people", {"dont_know"})},
        {given("people", {"mixed"})},
        {given("people", {"mixed"}), given("safe", {"yes"}), given("product", {"bleach", "vinegar"})},
        {given("people", {"mixed", "breathing"}), given("product", {"bleach", "ammonia_glass"})},
        {given("people", {"swallowed"}), given("product", {"oven"})},
        {given("people", {"skin"}), given("product", {"oven"}), wet},
        {given("people", {"fumes"}), given("safe", {"yes"}), given("product", {"nail_remover"}), given("piece", {"front_seat"})},
        {well, given("product", {"bleach", "vinegar"}), given("when", {"weeks"})},
        {well, given("product", {"something_else"}), given("label", {"none"}), given("since", {"vinegar"})},
        {well, given("product", {"something_else"}), given("label", {"chlorine"}), given("since", {"vinegar"})},
        {well, given("product", {"scouring_powder"}), given("label", {"chlorine"}), given("cleaned", {"urine"})},
        {well, given("product", {"washing_soda"}), given("since", {"vinegar"}), wet, shiny, given("bead", {"stays"})},
        {well, given("product", {"none"}), given("cleaned", {"urine"}), wet},
        {well, given("product", {"none"}), given("cleaned", {"urine"}), wet, given("seen", {"soaked"})},
        {well, given("product", {"none"}), given("cleaned", {"vomit"}), wet, given("household", {"children", "pregnancy"})},
        {well, given("product", {"none"}), given("cleaned", {"urine"}), given("since", {"bleach"})},
        {well, given("product", {"none"}), given("cleaned", {"food"}), wet, shiny},
        {well, given("product", {"none"}), given("cleaned", {"ink"}), dry, shiny},
        {well, given("product", {"none"}), given("cleaned", {"dye"}), dry, shiny},
        {well, spray, given("cleaned", {"ink"}), wet, untouched, shiny, given("bead", {"stays"})},
        {well, given("product", {"hand_gel"}), given("cleaned", {"ink"}), wet, shiny},
        {well, given("product", {"none"}), given("cleaned", {"mould"}), hands(6), given("household", {"asthma"})},
        {well, given("product", {"none"}), given("cleaned", {"mould"}), hands(80)},
        {well, given("product", {"bleach"}), given("cleaned", {"mould"}), wet},
        {well, given("product", {"none"}), given("cleaned", {"sewage"})},
        {well, given("product", {"none"}), given("cleaned", {"blood"})},
        {well, spray, wet, untouched, shiny, given("bead", {"stays"}), given("special", {"antique"})},
        {well, spray, dry, given("special", {"museum"})},
        {well, spray, dry, given("seen", {"lighter"}), given("involved", {"insurer"})},
        {well, spray, given("wet", {"damp"}), given("seen", {"colour_came"}), given("involved", {"landlord"})},
        {well, given("product", {"none"}), given("seen", {"cracks", "stiff"}), given("cleaned", {"body_oil"}), dry, given("involved", {"retailer"})},
        {well, given("piece", {"recliner"}), given("parts", {"motor"}), spray, wet, untouched, shiny, given("bead", {"stays"})},
        {well, given("piece", {"front_seat"}), spray, wet, untouched, shiny, given("bead", {"stays"})},
        {well, given("piece", {"front_seat"}), given("parts", {"none"}), spray, wet, untouched, shiny, given("bead", {"stays"})},
        {well, given("piece", {"rear_bench"}), given("product", {"nail_remover"}), wet},
        {well, spray, wet, given("since", {"bicarbonate"}), shiny},
        {well, spray, wet, given("since", {"soap"}), shiny},
        {well, given("product", {"degreaser"}), wet, given("since", {"more_same"}), shiny, given("bead", {"stays"})},
        {well, spray, wet, given("since", {"water"}), shiny, given("bead", {"soaks"})},
        {well, given("product", {"steam"}), given("seen", {"shrunken"}), dry},
        {well, spray, wet, untouched, shiny, given("bead", {"stays"}), given("seen", {"cracks"})},
        // What a reader missed.
        {well, given("product", {"something_else"}), given("label", {"lye"}), wet, untouched, given("cleaned", {"food"})},
        {well, given("product", {"something_else"}), given("label", {"chlorine"}), wet, untouched, given("cleaned", {"food"})},
        {well, given("product", {"something_else"}), given("label", {"acid"}), wet, untouched, given("cleaned", {"food"})},
        {well, given("product", {"something_else"}), given("label", {"solvent"}), wet, untouched, given("cleaned", {"food"}), given("piece", {"front_seat"})},
        {well, spray, given("label", {"chlorine"}), wet, given("since", {"dont_know"})},
        {well, given("product", {"bleach"}), wet, untouched, given("cleaned", {"food"}), shiny, given("bead", {"stays"})},
        {well, given("product", {"bleach"}), wet, given("since", {"dont_know"})},
        {well, given("product", {"bleach"}), given("cleaned", {"vomit"}), wet},
        {well, given("product", {"bleach"}), given("cleaned", {"sewage"}), wet},
        {well, given("product", {"bleach"}), given("cleaned", {"sewage"}), given("safe", {"yes"})},
        {well, given("product", {"oven", "bleach"}), wet},
        {given("people", {"swallowed"}), given("safe", {"yes"}), given("product", {"oven"}), wet},
        {given("people", {"eyes"}), given("safe", {"yes"}), given("product", {"degreaser"}), wet},
        {given("people", {"mixed"}), given("safe", {"not_yet"})},
        {given("people", {"skin"}), given("product", {"steam"})},
        {given("people", {"fumes"}), given("product", {"nail_remover"}), given("piece", {"front_seat"})},
        {well, spray, wet, given("since", {"alcohol"}), given("piece", {"front_seat"})},
        {well, spray, wet, given("since", {"other_cleaner"})},
        {well, spray, wet, untouched, given("seen", {"stiff"})},
        {well, given("product", {"oven"}), wet, untouched, given("seen", {"shrunken", "colour_came"})},
        {well, given("product", {"bleach", "vinegar"}), dry, given("when", {"yesterday"})},
        {well, given("product", {"bleach", "vinegar"}), dry, given("when", {"now"})},
        {well, given("piece", {"recliner"}), given("parts", {"motor"}), spray, given("seen", {"soaked"})},
        {well, given("piece", {"recliner"}), given("parts", {"battery"}), spray, given("seen", {"soaked"})},
        {well, given("product", {"none"}), given("cleaned", {"sewage"}), given("parts", {"motor"}), wet, given("involved", {"insurer"})},
        {well, given("piece", {"front_seat"}), given("parts", {"sensor"}), given("product", {"none"}), given("cleaned", {"urine"}), wet},
        {well, given("product", {"oven"}), wet, untouched, given("special", {"antique"})},
        {well, given("product", {"nail_remover"}), wet, given("sun_heat", {"fire"})},
        {well, given("product", {"vinegar"}), dry, given("when", {"weeks"}), given("seen", {"darker", "ring"})},
    };
}

std::string joined(const std::vector<TriageHeard>& heard) {
    std::string out;
    for (const auto& h : heard) out += (out.empty() ? "" : "; ") + h.name + ": " + h.words;
    return out.empty() ? "nothing yet" : out;
}

bool usual(const std::string& key) { return key == "never_more" || key == "never_rub" || key == "never_heat"; }

void print(int number, Answers answers, Ports& ports) {
    TriageRequest r;
    r.answers = std::move(answers);
    const auto a = triage(r, ports);
    if (!a.ok()) throw Bug(a.error().where + ": " + a.error().message);
    std::cout << "**" << number << ".** " << joined(a->heard) << "\n\n";
    if (a->stop) std::cout << "- STOP: " << a->stop->headline << "\n";
    std::cout << "- Say now:";
    for (const auto& s : a->say) std::cout << " “" << s.sentence << "”";
    std::cout << "\n- Never:";
    bool three = false;
    for (const auto& s : a->never) {
        if (!usual(s.key)) std::cout << " “" << s.sentence << "”";
        else if (!three) std::cout << " the usual three.", three = true;
    }
    for (const auto& m : a->may_i) std::cout << "\n- Done already: " << m.answer;
    std::cout << "\n- How soon: " << a->urgency.words << " (" << a->urgency.sentence << ") " << a->decision.sentence << (a->decision.to_whom.empty() ? "" : " → " + a->decision.to_whom)
              << "\n- Evidence: " << (a->evidence ? "yes, keep the traces" : "no") << "; questions left: " << a->left << (a->next.empty() ? "" : ", next: " + a->next.front().asks) << "\n\n";
}

}  // namespace

int main() {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    int number = 0;
    std::cout << R"(# Paths through a call

<!-- Made by the program `triage_paths` from the verb itself; `TriagePaths.AreFresh` compares. The section below is written by hand. -->

What `triage` tells the caller, path by path, to be read and criticised. Each path gives what was said, in the order of the answers, then
the stop if there is one, the sentences to read out, what never to do, how soon and who, and whether traces must be kept. A product "by its
class" is judged by what such products usually hold. "The usual three" under *never* are: “Nothing else on it: no second cleaner, no vinegar,
no soda, no alcohol, no milk, no oil, no conditioner.” “No rubbing and no brushing.” “No hair dryer, no heater, no iron, no sun.”

)";
    for (const auto& row : atlas::triage_classes) {
        std::cout << "## " << row.plain_name << "\n\n";
        for (Answers story : stories()) {
            story.insert(story.begin() + 1, given("product", {std::string(row.key)}));
            print(++number, std::move(story), ports);
        }
    }
    std::cout << "## Other calls\n\n";
    for (const auto& story : others()) print(++number, story, ports);
    return 0;
}
