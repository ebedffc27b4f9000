#include "desk/cautions.hpp"

#include "atlas/moisture_budgets.hpp"
#include "atlas/substances.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr double open_finish_um = 10;       ///< EN 15987: at most this for aniline; dye lies open to the liquid
constexpr double finish_softens_ph = 9.5;   ///< lower end of the ammonia cleaners that custom keeps off acrylic finishes
constexpr double washing_agents_pct = 0.5;
constexpr double acid_floor_ph = 3.5;       ///< EN 13336, pH of sound upholstery leather

double content_pct(const chem::Totals& t, std::string_view kind) {
    double sum = 0;
    for (const auto& r : t.recognised)
        if (atlas::substances[r.row].kind == kind) sum += r.content_pct;
    return sum;
}

}  // namespace

bool contains_kind(const chem::Totals& liquid, std::string_view kind, double pct) { return content_pct(liquid, kind) > pct; }

std::vector<Reason> not_computed(const chem::Totals& liquid, const leather::Hide& hide, const Use& use, double dose_g_m2, double liquid_ph) {
    std::vector<Reason> out;
    const bool open = hide.finish_um <= open_finish_um;
    for (const auto& row : atlas::moisture_budgets) {
        if (row.leather_class != hide.class_key || dose_g_m2 <= row.pass_g_m2) continue;
        out.push_back({"more_than_a_pass", fixed(dose_g_m2, 0) + " g/m² at once is more than the " + fixed(row.pass_g_m2, 0) + " g/m² that custom allows in a pass on this leather: " +
                                               (open ? "a ring and moved dye are to be expected, whatever the pH." : "keep it out of seams and stitch holes."),
                       "caution", {"So much liquid in one pass", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(hide.class_name)}});
    }
    if (hide.finish_um > 0 && liquid_ph > finish_softens_ph)
        out.push_back({"alkali_on_finish", "What alkali does to the finish film itself is not computed: water-borne films soften in it, in ammonia and amines most. Rub a hidden spot with a damp white cloth and look for colour.", "caution",
                       {"Alkaline cleaners soften and strip acrylic finishes", "trade", "common practice", Standing::CommonPractice, "pH as used " + fixed(liquid_ph, 1)}});
    if (liquid_ph < acid_floor_ph)
        out.push_back({"liquid_below_floor", "At pH " + fixed(liquid_ph, 1) + " the liquid lies below the floor of pH 3.5: it is no rinse, and it can shift dye and attack metal parts.", "caution",
                       {"A rinse is never more acid than sound leather may be", "eu2016_1332", "Appendix II, EN 13336: pH of the extract at least 3.5", Standing::Derived, "pH as used " + fixed(liquid_ph, 1)}});
    double washing = 0;
    for (const char* kind : {"soap", "anionic surfactant", "amphoteric surfactant", "nonionic surfactant", "quaternary"}) washing += content_pct(liquid, kind);
    if (washing >= washing_agents_pct && use.rinse.passes == 0)
        out.push_back({"washing_agents_stay", "Not rinsed: about " + fixed(washing, washing < 10 ? 1 : 0) + " % of washing agents dry in. They draw dirt and damp, and what fat or dye they loosen is not computed.", "note",
                       {"Washing agents left behind re-soil", "trade", "common practice", Standing::CommonPractice, "ingredients"}});
    return out;
}

}  // namespace hw::desk
