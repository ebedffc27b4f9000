// What a caller said, checked and sorted: what triage decides from. Not for other verbs.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chem/hazards.hpp"
#include "desk/rows.hpp"
#include "desk/triage.hpp"

namespace hw::desk {

/// Answers by question. Empty: not asked yet, or "don't know".
struct TriageCase {
    const TriageRequest* request = nullptr;

    [[nodiscard]] const TriageGiven* given(std::string_view question) const;
    /// Whether that choice was made.
    [[nodiscard]] bool said(std::string_view question, std::string_view choice) const;
    /// Whether any but "don't know" was.
    [[nodiscard]] bool told(std::string_view question) const;
    [[nodiscard]] bool any(std::string_view question, std::initializer_list<std::string_view> choices) const;

    // ---- what follows at once
    /// Of anything that came onto the place: the product, what its label says, what was put on afterwards. Column `kind` of
    /// atlas/triage_classes.csv; `flammable` besides, of a known product whose label names alcohol or solvent.
    [[nodiscard]] bool has_kind(std::string_view kind) const { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); }
    [[nodiscard]] bool any_kind(std::initializer_list<std::string_view> those) const {
        return std::any_of(those.begin(), those.end(), [&](std::string_view kind) { return has_kind(kind); });
    }
    /// Another product came on top.
    [[nodiscard]] bool topped() const { return any("since", {"vinegar", "bicarbonate", "soap", "conditioner", "oil", "alcohol", "ammonia", "bleach", "other_cleaner"}); }
    /// No product named, or one that nobody knows and whose label was not read.
    [[nodiscard]] bool product_unknown() const;
    /// A product was put on that nobody knows, or whose label names what harms. A label that was read takes nothing back but the doubt.
    [[nodiscard]] bool suspect() const;
    [[nodiscard]] bool product_none() const { return said("product", "none") && !topped(); }
    [[nodiscard]] bool label_counts() const;                      ///< a product was named that can have a label
    /// What goes on burning skin and leather as long as it lies there.
    [[nodiscard]] bool burns() const { return any_kind({"lye", "strong", "bleach", "corrosive"}) || suspect(); }
    [[nodiscard]] bool flames() const { return any_kind({"solvent", "flammable"}) || suspect(); }
    [[nodiscard]] bool wet() const { return said("wet", "wet") || said("seen", "soaked"); }
    [[nodiscard]] bool moist() const { return wet() || said("wet", "damp"); }
    [[nodiscard]] bool dry() const;                               ///< said, or long enough ago
    [[nodiscard]] bool in_car() const;
    /// A steering wheel always has one.
    [[nodiscard]] bool near_airbag() const { return any("parts", {"airbag", "sensor"}) || said("piece", "steering_wheel"); }
    [[nodiscard]] bool powered() const { return any("parts", {"motor", "heater", "battery"}); }
    [[nodiscard]] bool unwell() const { return any("people", {"fumes", "breathing", "eyes", "skin", "swallowed"}); }
    [[nodiscard]] bool declined() const { return any("cleaned", {"sewage", "blood"}); }
    [[nodiscard]] bool old() const { return any("special", {"antique", "museum"}); }
    [[nodiscard]] bool mould() const { return said("cleaned", "mould") || said("seen", "mould"); }
    [[nodiscard]] bool large_mould() const;
    [[nodiscard]] bool long_ago() const { return any("when", {"days", "weeks"}); }
    [[nodiscard]] std::optional<double> area_m2() const;

    std::vector<std::string_view> kinds = {};
    /// Products together on one place, with no rinse between them. @source hatayama1980; mmwr2020; wadoh (through chem::hazards)
    std::vector<chem::Hazard> met = {};
    bool unknown_met = false;                                     ///< one that nobody knows, and any other that can give off gas
    bool doubtful_met = false;                                    ///< one that nobody knows, or bleach, and another that is not known to give off gas with it
};

/// @error as triage
Result<TriageCase> case_of(const TriageRequest& request);

/// The people-first stop, or that of an airbag.
std::optional<Stop> triage_stop(const TriageCase& c);
/// Whether first aid must come before everything.
bool in_danger(const TriageCase& c);

/// Bleach, or what may be: nobody touches it before it is known what else is there.
bool asks_first(const TriageCase& c);

/// Whether nobody is to touch the leather: after a stop, and where it belongs to others.
bool hands_off(const TriageCase& c);

/// What is said, by keys of atlas/triage_sentences.csv, triage_urgency.csv and triage_decisions.csv.
struct TriageAdvice {
    std::vector<std::string_view> say, never, photos, keep;
    std::string_view soon, soon_because, decision;
};
TriageAdvice advice_of(const TriageCase& c);

/// Whether an answer to a question that is open can still change anything.
bool matters(const TriageCase& c, std::string_view question);

/// Whether a damp cloth would be allowed if the drop of water stayed up.
bool water_if_bead_stays(const TriageCase& c);
bool water_allowed(const TriageCase& c);

TriageDose dose_of(const TriageCase& c);
/// Whether there is a liquid to judge.
bool has_liquid(const TriageCase& c);
JudgeRequest judge_from(const TriageCase& c);

/// A row of one of the tables by its key; an unknown key is a bug.
template <class Rows>
const typename Rows::value_type& triage_row(const Rows& rows, std::string_view key) {
    for (const auto& row : rows)
        if (row.key == key) return row;
    throw Bug("no row " + std::string(key));
}

/// Keys of the product classes that were named.
std::vector<std::string_view> classes_of(const TriageCase& c);
/// Those, and what the things put on afterwards and the label are like.
std::vector<std::string_view> products_put_on(const TriageCase& c);

}  // namespace hw::desk
