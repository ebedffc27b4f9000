// What a caller said, checked and sorted: what triage decides from. Not for other verbs.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chem/hazards.hpp"
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
    [[nodiscard]] bool has_kind(std::string_view kind) const;     ///< column `kind` of atlas/triage_classes.csv
    /// No product named, or one that nobody knows and whose label was not read.
    [[nodiscard]] bool product_unknown() const;
    [[nodiscard]] bool product_none() const { return said("product", "none"); }
    [[nodiscard]] bool label_counts() const;                      ///< a product was named that can have a label
    [[nodiscard]] bool wet() const { return said("wet", "wet") || said("seen", "soaked"); }
    [[nodiscard]] bool damp() const { return said("wet", "damp"); }
    [[nodiscard]] bool dry() const;                               ///< said, or long enough ago
    [[nodiscard]] bool in_car() const;
    [[nodiscard]] bool near_airbag() const { return any("parts", {"airbag", "sensor"}); }
    [[nodiscard]] bool powered() const { return any("parts", {"motor", "heater", "battery"}); }
    [[nodiscard]] bool unwell() const { return any("people", {"fumes", "breathing", "eyes", "skin", "swallowed"}); }
    [[nodiscard]] bool declined() const { return any("cleaned", {"sewage", "blood"}); }
    [[nodiscard]] bool old() const { return any("special", {"antique", "museum"}); }
    [[nodiscard]] bool mould() const { return said("cleaned", "mould") || said("seen", "mould"); }
    [[nodiscard]] bool large_mould() const;
    [[nodiscard]] bool long_ago() const { return any("when", {"days", "weeks"}); }
    [[nodiscard]] std::optional<double> area_m2() const;

    /// Products together on one place, with no rinse between them. @source hatayama1980; mmwr2020; wadoh (through chem::hazards)
    std::vector<chem::Hazard> met = {};
    bool unknown_met = false;                                     ///< one that nobody knows, and any other
};

/// @error as triage
Result<TriageCase> case_of(const TriageRequest& request);

/// The people-first stop, or that of an airbag.
std::optional<Stop> triage_stop(const TriageCase& c);
/// Whether first aid must come before everything.
bool in_danger(const TriageCase& c);

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

template <class Row>
Basis basis_of_row(const Row& row, std::string_view rule, std::string inputs = {}) {
    return {std::string(rule), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

/// Keys of the product classes that were named.
std::vector<std::string_view> classes_of(const TriageCase& c);

}  // namespace hw::desk
