#include "desk/next_step.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "desk/rules.hpp"

namespace hw::desk {

NextTest hidden_spot() {
    return {"Hidden spot", 1440, "what it does to finish and colour", "One drop on a hidden spot, two minutes, blot with a white cloth; read colour, tack and shine at once and again dry after 24 h."};
}

std::vector<OpenQuestion> open_questions(const Use& use, const leather::Hide& hide, const Variant& harsh, bool alkali) {
    std::vector<OpenQuestion> out;
    out.push_back({{1, 1, harsh.permeability, 1, 0}, {"Water drop", 3, "how open the finish is", "One drop of clean water on a hidden spot: under 10 s to darken, under 2 min, under 10 min, or not at all."}});
    if (use.dose.amount == Amount::Grams) out.push_back({{1, harsh.wiped_kept, 1, 1, 0}, {"Weigh the cloth", 3, "how much the cloth took off again", "Weigh the cloth before and after wiping."}});
    else out.push_back({{harsh.dose, harsh.wiped_kept, 1, 1, 0}, {"Weigh what was used", 3, "how much came onto the leather", "If it is still to come: weigh the bottle before and after. If it is done: ask how many pulls or wipes, and measure the area."}});
    // Where the hide starts counts both ways: nearer to the limit, or nearer to what decays.
    for (const double shift : {(alkali ? 1 : -1) * hide.ph_spread, (alkali ? -1 : 1) * hide.ph_spread}) {
        if (!hide.ph_read) out.push_back({{1, 1, 1, 1, shift}, {"Surface pH", 5, "where this hide really starts", "A drop of clean water on a hidden spot, flat electrode, read when it drifts less than 0.02 a minute."}});
        else if (hide.ph_spread >= 0.5) out.push_back({{1, 1, 1, 1, shift}, {"Small extract", 75, "where the hide starts below its finish", "25 mg from a hidden edge in 0.5 mL of pure water, read after an hour."}});
    }
    out.push_back({{1, 1, 1, harsh.buffering, 0}, {"Reading next day", 1440, "how much this hide takes up", "On the place itself if it is wet already, else on a hidden spot treated just so: next day a drop of clean water, flat electrode; compare with the reading given here."}});
    return out;
}

NextTest next_test(const std::vector<OpenQuestion>& questions, const std::vector<Assessment>& answers, const Assessment& central) {
    const double seen_ph = threshold("seen").limit_ph;
    const auto rise = [](const Assessment& a, std::size_t cell) { return a.exposure.ph.back()[cell] - a.hide.ph; };  // another start alone is no other answer
    std::size_t best = questions.size();
    std::pair<int, double> most{0, seen_ph};
    for (std::size_t q = 0; q < questions.size(); ++q) {
        const auto& e = answers[q].exposure;
        double moved = 0;
        for (std::size_t i = 0; i < e.ph.back().size(); ++i)
            if (!e.layers[static_cast<std::size_t>(e.section.layer_of[i])].finish) moved = std::max(moved, std::abs(rise(answers[q], i) - rise(central, i)));
        const std::pair<int, double> now{std::abs(static_cast<int>(answers[q].grade) - static_cast<int>(central.grade)), moved};
        if (now > most) most = now, best = q;
    }
    return best < questions.size() ? questions[best].test : hidden_spot();
}

}  // namespace hw::desk
