#include "desk/harms.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/finish_films.hpp"
#include "atlas/harm_limits.hpp"
#include "atlas/harm_tests.hpp"
#include "core/chem/solvents.hpp"
#include "core/treatment/harm.hpp"
#include "desk/next_step.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool lasts(Grade g) { return g == Grade::Lasting || g == Grade::Deep; }

/// What a limit is about: the pores beyond it upwards, or downwards with the extract and its difference figure.
bool is_upper(const std::vector<const atlas::LeatherLimitsRow*>& rows, std::size_t limit) { return limit < rows.size() && rows[limit]->side == "upper"; }
bool decides(const std::vector<const atlas::LeatherLimitsRow*>& rows, std::size_t limit) { return limit >= rows.size() || rows[limit]->decides == "yes"; }

HarmOverMembers by_ph(const Question& q, const Ensemble& e, const Assessment& typical, bool alkali) {
    const auto rows = limits_of(q.hide.tannage_key);
    HarmOverMembers out;
    out.told.kind = alkali ? "alkali" : "acid";
    out.told.name = alkali ? "Alkali in the leather" : "Acid in the leather";
    std::vector<double> reached;
    std::vector<std::size_t> deciding(rows.size() + 1);
    for (const auto& o : e.outcomes) {
        Grade grade = Grade::StaysWithin;
        std::size_t by = Held::npos;
        double far = alkali ? -1e300 : 1e300;
        for (std::size_t l = 0; l < o.held.passages.size(); ++l) {
            const Passage& p = o.held.passages[l];
            if (!decides(rows, l) || is_upper(rows, l) != alkali) continue;
            if (l < rows.size() && rows[l]->quantity == "pore") far = alkali ? std::max(far, p.reached) : std::min(far, p.reached);
            if (p.grade > grade) grade = p.grade, by = l;
        }
        if (by != Held::npos) ++deciding[by];
        out.grades.push_back(grade);
        reached.push_back(far);
    }
    tell(out, reached, "pH");
    // The limit that decides most often; where none does, the one that the typical member comes nearest to.
    std::size_t limit = static_cast<std::size_t>(std::max_element(deciding.begin(), deciding.end()) - deciding.begin());
    if (deciding[limit] == 0) {
        double nearest = 1e300;
        for (std::size_t l = 0; l < rows.size(); ++l) {
            if (!decides(rows, l) || is_upper(rows, l) != alkali || rows[l]->quantity != "pore") continue;
            const double room = std::abs(rows[l]->limit_ph - out.told.reached.median);
            if (room < nearest) nearest = room, limit = l;
        }
    }
    const LimitCheck& check = typical.limits[limit];
    out.told.limit = check.name + " (" + (limit < rows.size() ? "pH " : "") + fixed(check.limit.value, 1) + ")";
    out.told.basis = check.basis;
    const Band& r = out.told.reached;
    const std::string farthest = std::string("The ") + (alkali ? "highest" : "lowest") + " pH inside the leather is " + fixed(r.median, 1) + "; in nine of ten cases it lies between " + fixed(std::min(r.low_90, r.high_90), 1) + " and " + fixed(std::max(r.low_90, r.high_90), 1) + ".";
    const bool before = alkali ? q.hide.ph > check.limit.value : q.hide.ph < check.limit.value;
    out.told.sentence = farthest + (before && limit < rows.size() ? " The leather lies past this limit before anything is laid on." : "");
    out.told.test = alkali || !q.hide.ph_read ? test_named("Surface pH") : test_named("Small extract");
    return out;
}

Grade grade_of(treatment::HarmLevel level) {
    switch (level) {
        case treatment::HarmLevel::Within:
        case treatment::HarmLevel::Caution: return Grade::StaysWithin;
        case treatment::HarmLevel::ComesBack: return Grade::ComesBack;
        case treatment::HarmLevel::Lasting: return Grade::Lasting;
        case treatment::HarmLevel::Deep: return Grade::Deep;
        case treatment::HarmLevel::Unknown: break;
    }
    return Grade::Unknown;
}

/// The film that a member believes the finish to be, of those that the class may carry.
std::string_view film_of(const leather::Hide& hide, double u) {
    const auto films = chem::films_of(hide.class_key);
    if (films.empty() || hide.finish_um <= 0) return {};
    std::vector<double> chances;
    for (const auto& f : films) chances.push_back(f.chance_1);
    return atlas::finish_films[films[belief::pick(chances, u)].film].key;
}

treatment::HarmInput input_of(const Question& q, const Ensemble& e, std::size_t member, bool ph_known) {
    const Member& m = e.draw.members[member];
    const Outcome& o = e.outcomes[member];
    const MemberLiquid& liquid = e.draw.liquids[m.liquid];
    treatment::HarmInput in{liquid.as_used, m.hide, m.story, film_of(m.hide, m.film_u)};
    if (ph_known) {
        in.liquid_ph = liquid.ph;
        in.alkali_left_mol_m2 = o.left_mol_m2;
        in.alkali_takes_grain_mol_m2 = o.takes_grain_mol_m2;
    }
    in.wetted_to_um = o.wetted_um;
    in.surface_wet_s = o.surface_wet_s;
    in.label_known = q.liquid.label_known;
    in.radius_1 = m.film_radius_1;
    in.release_1 = m.film_release_1;
    in.activity_1 = m.solvent_activity_1;
    return in;
}

/// "pH", "g/m²" … of a quantity, by the ending of its name; empty for a pure number.
std::string unit_of(std::string_view name) {
    const auto ends = [&](std::string_view end) { return name.size() > end.size() && name.substr(name.size() - end.size()) == end; };
    if (ends("_mmol_m2")) return "mmol/m²";
    if (ends("_g_m2")) return "g/m²";
    if (ends("_pct")) return "%";
    if (ends("_ph")) return "pH";
    if (ends("_n")) return "strokes";
    return "1";
}

std::size_t quantity_named(std::string_view name) {
    for (std::size_t i = 0; i < treatment::harm_quantities; ++i)
        if (treatment::harm_quantity_name(static_cast<treatment::HarmQuantity>(i)) == name) return i;
    throw Bug("no quantity " + std::string(name));
}

struct KindName {
    treatment::HarmKind kind;
    const char* name;
    bool counts;  ///< what this liquid does; what any liquid would do in this amount, what rubbing or many uses do, stands beside the answer
};
constexpr std::array<KindName, treatment::harm_kinds> kind_names{{{treatment::HarmKind::Solvent, "Solvent on finish and fats", true},
                                                                  {treatment::HarmKind::Residue, "What stays on the surface", false},
                                                                  {treatment::HarmKind::Colour, "Dye and colour", true},
                                                                  {treatment::HarmKind::Water, "Water", false},
                                                                  {treatment::HarmKind::Abrasion, "Rubbing", false},
                                                                  {treatment::HarmKind::Repeated, "Used again and again", false},
                                                                  {treatment::HarmKind::Tannage, "The tannage", false}}};

HarmOverMembers by_kind(const KindName& kind, const Question& q, const Ensemble& e, bool ph_known, const std::vector<std::array<treatment::HarmMeasure, treatment::harm_kinds>>& measures,
                        const std::vector<treatment::HarmQuantities>& quantities) {
    HarmOverMembers out;
    out.counts = kind.counts;
    out.told.kind = std::string(treatment::harm_kind_key(kind.kind));
    out.told.name = kind.name;
    const auto of = [&](std::size_t i) -> const treatment::HarmMeasure& { return measures[i][static_cast<std::size_t>(kind.kind)]; };
    std::vector<Grade> grades;
    std::size_t unknown = 0;
    for (std::size_t i = 0; i < measures.size(); ++i) {
        grades.push_back(grade_of(of(i).level));
        unknown += grades.back() == Grade::Unknown;
    }
    const bool known = unknown == 0;
    const Grade grade = known ? middle_grade(grades) : Grade::Unknown;
    const std::size_t spokesman = nearest_of(e, grades, grade);
    const auto& m = of(spokesman);
    const auto input = input_of(q, e, spokesman, ph_known);
    out.told.sentence = (m.level == treatment::HarmLevel::Caution ? "Mind: " : "") + treatment::harm_sentence(m, input, quantities[spokesman]);
    if (m.limit != treatment::HarmMeasure::none) {
        const auto& row = atlas::harm_limits[m.limit];
        const std::string unit = unit_of(row.quantity);
        out.told.limit = std::string(row.plain_name) + " (" + fixed(m.limit_value, m.limit_value < 10 ? 1 : 0) + (unit == "1" ? "" : unit == "pH" ? "" : " " + unit) + ")";
        out.told.basis = {std::string(row.mechanism), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.plain_name)};
        if (known) {
            out.grades = grades;
            std::vector<double> reached;
            const std::size_t quantity = quantity_named(row.quantity);
            for (const auto& values : quantities) reached.push_back(values.value[quantity]);
            const bool whole = std::all_of(reached.begin(), reached.end(), [](double v) { return std::isfinite(v); });
            tell(out, whole ? reached : std::vector<double>(reached.size(), 0.0), whole ? unit : "");
        }
    } else if (known) {
        out.grades = grades;
        tell(out, std::vector<double>(grades.size(), 0.0), "");
        out.told.basis = {"Nothing in the liquid acts this way", "own", "docs/theory/harm.md", Standing::Derived, "ingredients"};
    }
    if (!known) {
        out.told.grade = Grade::Unknown;
        if (out.told.basis.source.empty()) out.told.basis = {"What is not known of the liquid or the use is not guessed", "own", "docs/theory/harm.md", Standing::Estimate, "ingredients, use"};
    }
    const auto& test = atlas::harm_tests[treatment::harm_test(kind.kind, q.hide)];
    constexpr double seconds_a_minute = 60, minutes_an_hour = 60;
    out.told.test = {std::string(test.name), static_cast<int>(std::lround(test.work_s / seconds_a_minute + minutes_an_hour * test.wait_h)), as_clause(std::string(test.settles)), std::string(test.how)};
    return out;
}

}  // namespace

std::vector<const Harm*> graver_than_answer(const JudgeAnswer& a) {
    std::vector<const Harm*> out;
    if (a.grade == Grade::Unknown || a.grade == Grade::Stop) return out;
    for (const auto& h : a.harms)
        if (h.grade != Grade::Unknown && h.grade > a.grade) out.push_back(&h);
    return out;
}

std::string in_clauses(const std::vector<const Harm*>& harms) {
    std::string out;
    for (const Harm* h : harms) out += (out.empty() ? "" : ", ") + as_clause(h->name) + " (" + std::string(grade_alone(h->grade)) + ")";
    return out;
}

void tell(HarmOverMembers& harm, std::vector<double> reached, const std::string& unit) {
    const auto n = static_cast<double>(harm.grades.size());
    const auto share = [&](const auto& is) { return static_cast<double>(std::count_if(harm.grades.begin(), harm.grades.end(), is)) / n; };
    harm.told.grade = middle_grade(harm.grades);
    harm.told.chance_1 = share([](Grade g) { return g != Grade::StaysWithin; });
    harm.told.lasting_1 = share(lasts);
    harm.told.reached = band_of(reached, unit);
    harm.reached = std::move(reached);
}

std::vector<HarmOverMembers> harms_of(const Question& q, const Ensemble& e, const Assessment& typical, bool ph_known) {
    std::vector<HarmOverMembers> out;
    if (ph_known) {
        out.push_back(by_ph(q, e, typical, true));
        out.push_back(by_ph(q, e, typical, false));
    }
    std::vector<std::array<treatment::HarmMeasure, treatment::harm_kinds>> measures;
    std::vector<treatment::HarmQuantities> quantities;
    for (std::size_t i = 0; i < e.outcomes.size(); ++i) {
        const auto input = input_of(q, e, i, ph_known);
        quantities.push_back(treatment::harm_quantities_of(input));
        measures.push_back(treatment::harms(input, quantities.back()));
    }
    for (const auto& kind : kind_names) out.push_back(by_kind(kind, q, e, ph_known, measures, quantities));
    return out;
}

}  // namespace hw::desk
