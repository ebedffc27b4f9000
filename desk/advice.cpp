#include "desk/advice.hpp"

#include <algorithm>
#include <initializer_list>

#include "desk/harms.hpp"
#include "desk/next_step.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool has_reason(const JudgeAnswer& a, std::initializer_list<std::string_view> kinds) {
    return std::any_of(a.reasons.begin(), a.reasons.end(), [&](const Reason& r) { return std::find(kinds.begin(), kinds.end(), r.kind) != kinds.end(); });
}

bool nobody_said(const JudgeAnswer& a, std::string_view field) { return std::find(a.defaults_used.begin(), a.defaults_used.end(), field) != a.defaults_used.end(); }

std::string first_words(Grade grade) {
    switch (grade) {
        case Grade::StaysWithin: return "No limit is passed, used like this";
        case Grade::ComesBack: return "Passes a limit for a while, then comes back";
        case Grade::Lasting: return "Do not use it like this";
        case Grade::Deep: return "Keep it off, it goes deep";
        case Grade::Unknown: return "Not known yet: test first";
        case Grade::Stop: return "Stop: read this first";
    }
    throw Bug("a grade without first words");
}

/// What a mild grade leaves out, as clauses behind it; empty where nothing is left out.
std::string beside(const JudgeAnswer& a) {
    std::string out;
    if (const auto graver = graver_than_answer(a); !graver.empty()) out = "; but mind: " + in_clauses(graver);
    if (finish_not_judged(a)) out += "; the finish itself was not judged";
    const auto unknown = std::count_if(a.harms.begin(), a.harms.end(), [](const Harm& h) { return h.grade == Grade::Unknown; });
    if (unknown > 0) out += std::string("; ") + (unknown == 1 ? "one thing is" : std::to_string(unknown) + " things are") + " not known";
    else if (has_reason(a, {"not_known", "unknown_part"})) out += "; part of it is not known";
    if (!out.empty()) return out;
    if (has_reason(a, {"solvent"})) return "; test the finish first";
    if (has_reason(a, {"more_than_a_pass", "more_than_holds"})) return "; use less at a time";
    if (has_reason(a, {"liquid_below_floor"})) return "; mind dye and metal";
    return {};
}

std::string before_use(const JudgeAnswer& a) {
    if (has_reason(a, {"oxidiser"})) return "Keep it off.";
    if (a.grade == Grade::Lasting || a.grade == Grade::Deep) return "Keep it off, used like this.";
    if (a.grade == Grade::Unknown && a.next_test.name != "Hidden spot") return "Keep it off until this is done: " + as_clause(a.next_test.name) + ".";
    const bool clear = a.grade == Grade::StaysWithin && is_settled(a.sure.answer_1) && beside(a).empty();
    if (!clear) return "Do the hidden spot first.";
    if (!assumed_amounts(a).empty()) return "Do the hidden spot first, with the amount you mean to use.";
    return "Use it as planned, after a hidden spot.";
}

std::string on_it_already(const JudgeAnswer& a) {
    std::string out = has_reason(a, {"corrosive_alkali", "corrosive_acid"}) ? "Gloves and eye protection on. " : "";
    out += "Blot with a dry white cloth; do not rub. No acid, no heat, nothing else on top.";
    const bool softens = finish_not_judged(a) || has_reason(a, {"solvent"}) || std::any_of(a.harms.begin(), a.harms.end(), [](const Harm& h) { return h.kind == "solvent" && h.grade != Grade::StaysWithin; });
    if (softens) out += " Where the finish feels soft or sticky, leave it alone.";
    return out;
}

}  // namespace

bool finish_not_judged(const JudgeAnswer& a) { return has_reason(a, {"alkali_on_finish"}); }

std::string assumed_amounts(const JudgeAnswer& a) {
    std::string out;
    const auto add = [&](const std::string& amount) { out += (out.empty() ? "" : ", ") + amount; };
    if (nobody_said(a, "use.dose.count") || nobody_said(a, "use.dose.area_cm2")) add(to_band(a.dose.value, a.dose.plus_minus) + " g/m²");
    if (nobody_said(a, "use.dwell_s")) add(span(a.use.dwell_s) + " until wiped");
    if (nobody_said(a, "use.wiped_off_pct")) add(fixed(a.use.wiped_off_pct, 0) + " % wiped off");
    return out;
}

std::string advice(const JudgeAnswer& a) {
    if (a.grade == Grade::Stop) return first_words(a.grade);
    if (has_reason(a, {"oxidiser"})) return "Keep it off: it bleaches";
    if (a.grade != Grade::StaysWithin && a.grade != Grade::ComesBack) return first_words(a.grade);
    if (cannot_be_told(a.sure)) return first_words(Grade::Unknown);
    return first_words(a.grade) + beside(a);
}

std::vector<std::string> do_now(const JudgeAnswer& a) {
    if (a.stop) return a.stop->do_now;
    return {"Before use: " + before_use(a), "On the leather already: " + on_it_already(a)};
}

}  // namespace hw::desk
