// compare: several liquids on one leather, one liquid on several leathers, or one use done in several ways, side by side.
#pragma once

#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "desk/judge.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

/// A way of using the liquid, with a name for the table.
struct NamedUse {
    std::string name;                             ///< "rinsed twice"
    Use use;
};
template <class Visitor>
void describe(Visitor& visit, NamedUse& u) {
    visit("name", u.name, About{.doc = "for the table: \"rinsed twice\""});
    visit("use", u.use, About{});
}

/// Every liquid on every leather in every way of use.
struct CompareRequest {
    std::vector<Liquid> liquids;                  ///< whole, or by id
    std::vector<Leather> leathers;                ///< whole, or by id
    std::vector<NamedUse> uses;                   ///< empty: the usual use
    std::vector<std::string> meets;               ///< ids of liquids that each of them met or will meet on the piece
    int members = 256;                            ///< of each ensemble
};
template <class Visitor>
void describe(Visitor& visit, CompareRequest& r) {
    visit("liquids", r.liquids, About{.doc = "whole, or by id", .required = true});
    visit("leathers", r.leathers, About{.doc = "whole, or by id", .required = true});
    visit("uses", r.uses, About{.doc = "ways of using it; left out: the usual one"});
    visit("meets", r.meets, About{.doc = "ids of liquids that each of them met or will meet on the piece, not rinsed between"});
    visit("members", r.members, About{.doc = "members of each ensemble, a power of two", .minimum = 32, .maximum = 16384});
}

struct CompareRow {
    std::string liquid, leather, use;             ///< names
    Grade grade = Grade::Unknown;
    double answer_1 = 0;                          ///< share of the members that agree
    double passed_1 = 0;                          ///< chance that any deciding limit is passed
    double lasting_1 = 0;                         ///< chance of something that does not come back by itself
    std::string decides;                          ///< name of the kind of harm that decides
    std::string sentence;                         ///< the verdict
    std::string next_test;
    double liquid_ph = 0;                         ///< null: refused
    double reserve_mmol_m2 = 0;                   ///< alkali (acid below zero) left, middle member
    double deepest_um = 0;                        ///< how deep a deciding limit is passed at any time
    double longest_s = 0;                         ///< and for how long, anywhere
    int rank = 0;                                 ///< 1 = mildest
    int rank_by_ph = 0;                           ///< by distance of the liquid's pH from the leather's alone; 0: no pH
    std::string why_not_ph;                       ///< where the two ranks differ: what pH alone leaves out
};
template <class Visitor>
void describe(Visitor& visit, CompareRow& r) {
    visit("liquid", r.liquid, About{});
    visit("leather", r.leather, About{});
    visit("use", r.use, About{});
    visit("grade", r.grade, About{});
    visit("answer_1", r.answer_1, About{.doc = "share of the members that agree"});
    visit("passed_1", r.passed_1, About{.doc = "chance that any deciding limit is passed"});
    visit("lasting_1", r.lasting_1, About{.doc = "chance of something that does not come back by itself"});
    visit("decides", r.decides, About{.doc = "name of the kind of harm that decides"});
    visit("sentence", r.sentence, About{});
    visit("next_test", r.next_test, About{});
    visit("liquid_ph", r.liquid_ph, About{.doc = "as used; null: no pH to state"});
    visit("reserve_mmol_m2", r.reserve_mmol_m2, About{.doc = "alkali left on and in the leather; below zero: acid"});
    visit("deepest_um", r.deepest_um, About{.doc = "how deep a deciding limit is passed at any time"});
    visit("longest_s", r.longest_s, About{.doc = "and for how long, anywhere"});
    visit("rank", r.rank, About{.doc = "1 = mildest"});
    visit("rank_by_ph", r.rank_by_ph, About{.doc = "by how far the liquid's pH lies from the leather's; 0: no pH"});
    visit("why_not_ph", r.why_not_ph, About{.doc = "where the ranks differ: what pH alone leaves out"});
}

struct CompareAnswer {
    std::vector<CompareRow> rows;                 ///< mildest first
    std::string sentence;                         ///< which one, in one sentence
    std::vector<std::string> cautions;
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, CompareAnswer& a) {
    visit("rows", a.rows, About{.doc = "mildest first"});
    visit("sentence", a.sentence, About{});
    visit("cautions", a.cautions, About{});
    visit("version", a.version, About{});
}

/// Judges every combination, at most 60, and ranks them.
/// @error as judge, with the field as the caller named it ("liquids[2].id"); InvalidInput  nothing to compare, or too much
Result<CompareAnswer> compare(const CompareRequest& request, Ports& ports, const Progress& progress = {});

/// The rows as CSV (RFC 4180), one line each, mildest first.
std::string as_csv(const CompareAnswer& answer);

}  // namespace hw::desk
