#include "desk/triage_case.hpp"

#include <cmath>
#include <iterator>
#include <set>

#include "atlas/owner_wishes.hpp"
#include "atlas/piece_families.hpp"
#include "atlas/triage_choices.hpp"
#include "atlas/triage_classes.hpp"
#include "atlas/triage_contents.hpp"
#include "atlas/triage_figures.hpp"
#include "atlas/triage_may_i.hpp"
#include "atlas/triage_questions.hpp"
#include "atlas/triage_sentences.hpp"
#include "atlas/triage_units.hpp"
#include "desk/moment.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::string_view not_known = "dont_know";

template <class Rows>
bool stands_in(const Rows& rows, std::string_view key) {
    return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.key == key; });
}

bool is_choice(std::string_view question, std::string_view key) {
    if (key == not_known) return true;
    if (question == "product") return stands_in(atlas::triage_classes, key);
    if (question == "wishes") return stands_in(atlas::owner_wishes, key);
    if (question == "piece" && stands_in(atlas::piece_families, key)) return true;
    return std::any_of(atlas::triage_choices.begin(), atlas::triage_choices.end(), [&](const auto& row) { return row.question == question && row.key == key; });
}

const atlas::TriageUnitsRow* unit_of(std::string_view question, std::string_view key) {
    for (const auto& row : atlas::triage_units)
        if (row.question == question && (key.empty() || row.key == key)) return &row;
    return nullptr;
}

Result<Done> good_number(const TriageGiven& g, const std::string& at, const std::string& name) {
    if (!g.number_1) return g.unit.empty() ? Result<Done>(Done{}) : Error{ErrorCode::InvalidInput, "A unit stands without a number. Give the number, or leave the unit out.", at + "number_1"};
    if (unit_of(g.question, "") == nullptr) return Error{ErrorCode::InvalidInput, "\"" + name + "\" takes no number. Pick choices, or write it as text.", at + "number_1"};
    const auto* unit = unit_of(g.question, g.unit);
    if (unit == nullptr) return Error{ErrorCode::NotFound, "There is no unit \"" + g.unit + "\" for \"" + name + "\". Choose one of /api/triage_questions.", at + "unit"};
    if (!std::isfinite(*g.number_1) || *g.number_1 < unit->least_1 || *g.number_1 > unit->most_1)
        return Error{ErrorCode::OutOfRange, "\"" + name + "\" lies from " + fixed(unit->least_1, unit->least_1 < 1 && unit->least_1 > 0 ? 1 : 0) + " to " + fixed(unit->most_1, 0) + " " + std::string(unit->plain_name) + "; ask again, or leave it out.", at + "number_1"};
    return Done{};
}

Result<Done> good_choices(const TriageGiven& g, const std::string& at, bool several) {
    for (std::size_t i = 0; i < g.choices.size(); ++i) {
        const std::string where = at + "choices[" + std::to_string(i) + "]";
        if (!is_choice(g.question, g.choices[i])) return Error{ErrorCode::NotFound, "There is no answer \"" + g.choices[i] + "\" to this question. Choose one of /api/triage_questions.", where};
        if (std::find(g.choices.begin(), g.choices.begin() + static_cast<std::ptrdiff_t>(i), g.choices[i]) != g.choices.begin() + static_cast<std::ptrdiff_t>(i))
            return Error{ErrorCode::InvalidInput, "This answer stands twice. Leave one out.", where};
    }
    if (g.choices.size() < 2) return Done{};
    if (!several) return Error{ErrorCode::InvalidInput, "Only one answer fits here. Keep the one that the caller meant.", at + "choices"};
    // Who says "none of these" and something else as well has said something.
    for (const std::string_view alone : {not_known, std::string_view("none"), std::string_view("nothing")})
        if (std::find(g.choices.begin(), g.choices.end(), alone) != g.choices.end())
            return Error{ErrorCode::InvalidInput, "\"" + std::string(alone) + "\" stands beside another answer. Leave one of them out.", at + "choices"};
    return Done{};
}

Result<Done> good_answers(const TriageRequest& r) {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < r.answers.size(); ++i) {
        const TriageGiven& g = r.answers[i];
        const std::string at = "answers[" + std::to_string(i) + "].";
        if (!stands_in(atlas::triage_questions, g.question)) return Error{ErrorCode::NotFound, "There is no question \"" + g.question + "\". Choose one of /api/triage_questions.", at + "question"};
        if (!seen.insert(g.question).second) return Error{ErrorCode::InvalidInput, "This question is answered twice. Keep the answer that stands.", at + "question"};
        const auto& q = triage_row(atlas::triage_questions, g.question);
        HW_TRY(chosen, good_choices(g, at, q.several == "yes"));
        HW_TRY(counted, good_number(g, at, std::string(q.plain_name)));
        static_cast<void>(chosen), static_cast<void>(counted);
        if (!g.text.empty() && q.takes_text != "yes") return Error{ErrorCode::InvalidInput, "\"" + std::string(q.plain_name) + "\" takes no text. Pick a choice.", at + "text"};
    }
    return Done{};
}

Result<Done> good_rest(const TriageRequest& r) {
    for (std::size_t i = 0; i < r.may_i.size(); ++i)
        if (r.may_i[i] != "water" && (r.may_i[i].starts_with("water_") || !stands_in(atlas::triage_may_i, r.may_i[i])))
            return Error{ErrorCode::NotFound, "Nothing is known of \"" + r.may_i[i] + "\". Choose one of /api/triage_questions.", "may_i[" + std::to_string(i) + "]"};
    for (std::size_t i = 0; i < r.told.size(); ++i) {
        const std::string at = "told[" + std::to_string(i) + "].";
        const std::string_view key = r.told[i].key;
        constexpr std::string_view asked = "may_i.", done = "done.", of_class = "class.";
        const bool known = key.starts_with(done) ? stands_in(atlas::triage_may_i, key.substr(done.size())) : key.starts_with(asked) ? stands_in(atlas::triage_may_i, key.substr(asked.size())) : key.starts_with(of_class) ? stands_in(atlas::triage_classes, key.substr(of_class.size())) : stands_in(atlas::triage_sentences, key);
        if (!known) return Error{ErrorCode::NotFound, "There is no sentence \"" + r.told[i].key + "\". Send told back as the last answer had it.", at + "key"};
        if (!parse_moment(r.told[i].at)) return Error{ErrorCode::InvalidInput, "This time cannot be read. Send told back as the last answer had it.", at + "at"};
    }
    return Done{};
}

// ---- what met on the piece

/// Something that touched the place, as chemistry takes it.
struct Touched {
    chem::Totals contents;
    bool known = true;
    bool mild = false;                                            ///< soap, oil, conditioner: beside what is only possibly bleach, no alarm
    bool of_body = false;                                         ///< was there before, or was what was cleaned off
};

void put_in(Touched& to, std::string_view what) {
    std::vector<chem::Portion> portions;
    for (const auto& row : atlas::triage_contents)
        if (row.what == what) portions.push_back({std::string(row.ingredient), "", std::nullopt, std::nullopt});
    const chem::Totals more = chem::present(portions);
    to.contents.recognised.insert(to.contents.recognised.end(), more.recognised.begin(), more.recognised.end());
    to.contents.unknown.insert(to.contents.unknown.end(), more.unknown.begin(), more.unknown.end());
}

/// What a thing put on later is: the class of a product, or a name of its own.
std::string_view same_as(std::string_view since) {
    if (since == "soap" || since == "vinegar" || since == "oil" || since == "bleach" || since == "bicarbonate") return since;
    if (since == "alcohol") return "hand_gel";
    if (since == "ammonia") return "ammonia_glass";
    return {};
}

Touched touch(std::string_view what) {
    Touched t;
    put_in(t, what);
    return t;
}

std::vector<Touched> named(const TriageCase& c) {
    std::vector<Touched> out;
    for (const auto key : classes_of(c)) {
        const auto& row = triage_row(atlas::triage_classes, key);
        if (row.kind == "none" || row.kind == "steam" || key == "eraser_foam") continue;
        Touched t = touch(key);
        t.known = !(row.kind == "unknown" || key == "scouring_powder" || key == "drain");
        t.mild = row.kind == "oil" || key == "soap";
        out.push_back(std::move(t));
    }
    // Nobody says what was put on, but something was.
    if (!c.told("product") && (c.given("product") != nullptr || c.topped())) {
        Touched t;
        t.known = false;
        out.push_back(std::move(t));
    }
    return out;
}

std::vector<Touched> put_on_since(const TriageCase& c) {
    std::vector<Touched> out;
    const auto* since = c.given("since");
    if (since == nullptr) return out;
    for (const auto& what : since->choices) {
        if (what == "nothing" || what == "water" || what == "hair_dryer" || what == "steam" || what == "more_same" || what == not_known) continue;
        Touched t = touch(same_as(what));
        t.known = what != "other_cleaner";
        t.mild = what == "soap" || what == "oil" || what == "conditioner";
        out.push_back(std::move(t));
    }
    return out;
}

std::vector<Touched> touched(const TriageCase& c) {
    std::vector<Touched> out = named(c), since = put_on_since(c);
    // A label that was read speaks for all that was named; where only what came later has a label, for that.
    if (const auto* label = c.given("label"); label != nullptr && c.told("label") && c.label_counts()) {
        const bool later = out.empty();
        for (auto& t : later ? since : out) {
            // A spray that names chlorine is of the kind with bleach, and holds nothing that bleach meets.
            if (!later && out.size() == 1 && c.said("label", "chlorine") && !c.has_kind("acid") && !c.has_kind("corrosive") && !c.has_kind("solvent") && !c.has_kind("oil")) t.contents = {};
            for (const auto& says : label->choices) put_in(t, "says_" + says);
            if (!later && c.told("product") && !c.said("product", "no_label") && !c.said("product", "several")) t.known = true;
        }
    }
    out.insert(out.end(), std::make_move_iterator(since.begin()), std::make_move_iterator(since.end()));
    for (const std::string_view fluid : {"urine", "vomit", "sewage", "blood"})
        if (c.said("cleaned", fluid)) {
            out.push_back(touch(fluid));
            out.back().of_body = true;
        }
    return out;
}

std::vector<chem::Product> products_of(const std::vector<Touched>& all, bool mild_too) {
    std::vector<chem::Product> out;
    for (const auto& t : all)
        if (mild_too || !t.mild) out.push_back({&t.contents, t.known});
    return out;
}

std::vector<chem::Totals> one_by_one(const chem::Totals& contents) {
    std::vector<chem::Totals> out;
    for (const auto& r : contents.recognised) {
        out.emplace_back();
        out.back().recognised = {r};
    }
    return out;
}

/// What stands in one bottle has met already, or is one of several kinds of it: a caution is for two, and not for what was cleaned off.
bool across(const std::vector<Touched>& all, std::size_t row) {
    for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t k = i + 1; k < all.size(); ++k) {
            if (all[i].of_body || all[k].of_body) continue;
            for (const auto& a : one_by_one(all[i].contents))
                for (const auto& b : one_by_one(all[k].contents))
                    for (const auto& h : chem::hazards({{&a, true}, {&b, true}}))
                        if (h.row == row) return true;
        }
    return false;
}

std::vector<chem::Hazard> met_of(const std::vector<Touched>& all) {
    const auto sure = chem::hazards(products_of(all, true)), perhaps = chem::hazards(products_of(all, false));
    std::vector<chem::Hazard> out;
    for (const auto& h : sure) {
        const bool alarm = !h.from_unknown || std::any_of(perhaps.begin(), perhaps.end(), [&](const chem::Hazard& p) { return p.row == h.row; });
        if (h.severity == chem::Severity::Stop ? alarm : across(all, h.row)) out.push_back(h);
    }
    return out;
}

/// The kinds of everything that came onto the place.
std::vector<std::string_view> kinds_of(const TriageCase& c) {
    std::vector<std::string_view> out;
    bool expected_acid = false, nobody_knows = false;
    for (const auto key : classes_of(c)) {
        const std::string_view kind = triage_row(atlas::triage_classes, key).kind;
        out.push_back(kind);
        expected_acid = expected_acid || kind == "acid" || kind == "mild" || kind == "wipe";
        nobody_knows = nobody_knows || kind == "unknown" || kind == "abrasive";
    }
    constexpr std::pair<std::string_view, std::string_view> later[] = {{"soap", "alkali"}, {"vinegar", "acid"}, {"oil", "oil"}, {"bleach", "bleach"}, {"alcohol", "solvent"}, {"ammonia", "alkali"}, {"other_cleaner", "unknown"}, {"steam", "steam"}};
    for (const auto& [since, kind] : later)
        if (c.said("since", since)) out.push_back(kind);
    if (!c.label_counts()) return out;
    if (c.said("label", "lye")) out.push_back("lye");
    if (c.said("label", "chlorine")) out.push_back("bleach");
    if (c.said("label", "acid") && !expected_acid) out.push_back("corrosive");
    if (c.said("label", "solvent")) out.push_back(nobody_knows ? "solvent" : "flammable");
    if (const auto* label = c.given("label"); label != nullptr && label->number_1) {
        if (*label->number_1 >= triage_row(atlas::triage_figures, "burning_alkali").low_1) out.push_back("lye");
        if (*label->number_1 <= triage_row(atlas::triage_figures, "burning_acid").high_1) out.push_back("corrosive");
    }
    return out;
}

}  // namespace

const TriageGiven* TriageCase::given(std::string_view question) const {
    for (const auto& g : request->answers)
        if (g.question == question) return &g;
    return nullptr;
}
bool TriageCase::said(std::string_view question, std::string_view choice) const {
    const auto* g = given(question);
    return g != nullptr && std::find(g->choices.begin(), g->choices.end(), choice) != g->choices.end();
}
bool TriageCase::told(std::string_view question) const {
    const auto* g = given(question);
    return g != nullptr && !g->choices.empty() && !said(question, not_known);
}
bool TriageCase::any(std::string_view question, std::initializer_list<std::string_view> choices) const {
    return std::any_of(choices.begin(), choices.end(), [&](std::string_view choice) { return said(question, choice); });
}

std::vector<std::string_view> classes_of(const TriageCase& c) {
    std::vector<std::string_view> out;
    for (const auto& row : atlas::triage_classes)
        if (c.said("product", row.key)) out.push_back(row.key);
    return out;
}

std::vector<std::string_view> products_put_on(const TriageCase& c) {
    auto out = classes_of(c);
    const auto add = [&](std::string_view key) {
        if (!key.empty() && std::find(out.begin(), out.end(), key) == out.end()) out.push_back(key);
    };
    if (const auto* since = c.given("since"))
        for (const auto& what : since->choices)
            if (what != "bicarbonate") add(same_as(what));
    if (c.has_kind("bleach")) add("bleach");
    return out;
}

bool TriageCase::label_counts() const {
    const auto named = classes_of(*this);
    return any("since", {"soap", "conditioner", "oil", "alcohol", "ammonia", "bleach", "other_cleaner"}) ||
           std::any_of(named.begin(), named.end(), [](std::string_view key) { return triage_row(atlas::triage_classes, key).has_label == "yes"; });
}

bool TriageCase::product_unknown() const {
    if (!told("product") || any("product", {"no_label", "several"}) || said("since", "other_cleaner")) return true;
    return any("product", {"something_else", "scouring_powder", "drain"}) && !told("label");
}

bool TriageCase::suspect() const {
    if (told("product") || topped()) {
        if (product_unknown()) return true;
        return any("product", {"something_else", "scouring_powder", "drain"}) && !said("label", "none");
    }
    return said("product", not_known);
}

bool TriageCase::dry() const { return said("wet", "dry") || (!told("wet") && long_ago() && !wet()); }

bool TriageCase::in_car() const {
    const auto* piece = given("piece");
    if (piece == nullptr || piece->choices.empty()) return false;
    for (const auto& row : atlas::piece_families)
        if (row.key == piece->choices[0]) return row.group_key == "car";
    return false;
}

std::optional<double> TriageCase::area_m2() const {
    const auto* area = given("area");
    if (area == nullptr || !area->number_1) return std::nullopt;
    if (area->unit == "cm2") return *area->number_1 / 1e4;
    const auto& hand = triage_row(atlas::triage_figures, "hand");
    return *area->number_1 * std::sqrt(hand.low_1 * hand.high_1) / 1e4;
}

bool TriageCase::large_mould() const { return mould() && area_m2().value_or(0) > triage_row(atlas::triage_figures, "large_mould").low_1; }

Result<TriageCase> case_of(const TriageRequest& request) {
    if (const auto bad = out_of_range(request)) return *bad;
    HW_TRY(answers, good_answers(request));
    HW_TRY(rest, good_rest(request));
    static_cast<void>(answers), static_cast<void>(rest);
    TriageCase c;
    c.request = &request;
    c.kinds = kinds_of(c);
    const auto all = touched(c);
    c.met = met_of(all);
    const auto count = [&](auto what) { return std::count_if(all.begin(), all.end(), what); };
    const bool unknown = count([](const Touched& t) { return !t.known; }) > 0;
    c.unknown_met = c.said("product", "several") || (unknown && count([](const Touched& t) { return !t.mild; }) > 1);
    c.doubtful_met = (unknown || c.has_kind("bleach")) && count([](const Touched& t) { return !t.of_body; }) > 1;
    return c;
}

}  // namespace hw::desk
