// diagnose: what made the damage, how sure that is, what speaks for and against, and which test tells the rivals apart.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "desk/piece.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

enum class Saw { There, NotThere };
enum class HowSure { Clear, Possible, CannotTell };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Saw> {
    static constexpr std::array<std::pair<desk::Saw, std::string_view>, 2> names{{{desk::Saw::There, "there"}, {desk::Saw::NotThere, "not_there"}}};
};
template <>
struct hw::EnumNames<hw::desk::HowSure> {
    static constexpr std::array<std::pair<desk::HowSure, std::string_view>, 3> names{
        {{desk::HowSure::Clear, "clear"}, {desk::HowSure::Possible, "possible"}, {desk::HowSure::CannotTell, "cannot_tell"}}};
};

namespace hw::desk {

struct CoveringChance {
    std::string key;                              ///< leather class, coated_textile or unknown
    double chance_1 = 1;
};
template <class Visitor>
void describe(Visitor& visit, CoveringChance& c) {
    visit("key", c.key, About{.doc = "leather class, coated_textile or unknown", .required = true});
    visit("chance_1", c.chance_1, About{.doc = "how sure; they are brought to a sum of 1", .minimum = 0, .maximum = 1});
}

struct SignSeen {
    std::string sign;                             ///< key of atlas/signs.csv
    Saw saw = Saw::There;
};
template <class Visitor>
void describe(Visitor& visit, SignSeen& s) {
    visit("sign", s.sign, About{.doc = "one of the signs of the table", .required = true});
    visit("saw", s.saw, About{.doc = "not_there: looked for, and it is not there"});
}

struct DamageReading {
    std::string kind;                             ///< of atlas/sign_readings.csv, or shrinkage
    double value_1 = 0;
    std::optional<double> control_1;              ///< the same on a sheltered place
};
template <class Visitor>
void describe(Visitor& visit, DamageReading& r) {
    visit("kind", r.kind, About{.doc = "surface_ph, colour_l, colour_b, gloss_60, water_drop (s), rub_grade, blotter_oil (0 none to 3 heavy), tissue_tack (0 to 2), weak_depth (mm), shrinkage (°C) or air_humidity (%)", .required = true});
    visit("value_1", r.value_1, About{.doc = "on the damage", .minimum = -150, .maximum = 3600, .required = true});
    visit("control_1", r.control_1, About{.doc = "the same on a sheltered place", .minimum = -150, .maximum = 3600});
}

struct DiagnoseRequest {
    std::string piece;                            ///< its entries are read first
    std::vector<std::string> panels;              ///< codes; empty: every panel with a condition
    std::vector<CoveringChance> covering;         ///< empty: as the piece says, or unknown
    std::string tannage;
    Exposure exposure = Exposure::NotSaid;
    std::optional<double> age_years;
    std::vector<SignSeen> saw;                    ///< what is typed here wins over the piece
    std::vector<DamageReading> readings;
    std::optional<double> damp_days;              ///< how long it stood in that air
    std::optional<double> light_mlx_h_year;       ///< daylight that falls on it in a year
    bool keep = false;                            ///< write the answer into the piece
};
template <class Visitor>
void describe(Visitor& visit, DiagnoseRequest& r) {
    visit("piece", r.piece, About{.doc = "id; its entries are read first"});
    visit("panels", r.panels, About{.doc = "codes; left out: every panel with a condition"});
    visit("covering", r.covering, About{.doc = "left out: as the piece says, or unknown"});
    visit("tannage", r.tannage, About{.doc = "chrome, vegetable, wet_white or unknown"});
    visit("exposure", r.exposure, About{});
    visit("age_years", r.age_years, About{.minimum = 0, .maximum = 500});
    visit("saw", r.saw, About{.doc = "what is typed here wins over the piece"});
    visit("readings", r.readings, About{});
    visit("damp_days", r.damp_days, About{.doc = "how long it stood in that air", .minimum = 0, .maximum = 3650});
    visit("light_mlx_h_year", r.light_mlx_h_year, About{.doc = "million lux hours of daylight on it in a year", .minimum = 0, .maximum = 200});
    visit("keep", r.keep, About{.doc = "write the answer into the piece"});
}

/// One sign and what it does to the odds of a cause: the difference when it is left out.
struct Speaks {
    std::string sign, sentence;
    double log_odds_1 = 0;
};
template <class Visitor>
void describe(Visitor& visit, Speaks& s) {
    visit("sign", s.sign, About{});
    visit("sentence", s.sentence, About{});
    visit("log_odds_1", s.log_odds_1, About{.doc = "natural logarithm of the odds with it, less that without it"});
}

struct CauseAnswer {
    std::string key, name, words;
    Number chance;                                ///< %
    double low_pct = 0, high_pct = 100;           ///< 90 % of the draws with every entry varied
    std::vector<Speaks> speaks_for, speaks_against;
    std::string active, treatment, owner;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, CauseAnswer& c) {
    visit("key", c.key, About{});
    visit("name", c.name, About{});
    visit("words", c.words, About{.doc = "very likely … unlikely"});
    visit("chance", c.chance, About{.doc = "%, whatever the other causes do"});
    visit("low_pct", c.low_pct, About{.doc = "90 % of the draws with every entry of the tables varied"});
    visit("high_pct", c.high_pct, About{});
    visit("speaks_for", c.speaks_for, About{});
    visit("speaks_against", c.speaks_against, About{});
    visit("active", c.active, About{.doc = "whether it still goes on, and how one would know"});
    visit("treatment", c.treatment, About{});
    visit("owner", c.owner, About{});
    visit("basis", c.basis, About{});
}

struct SeparatingTest {
    std::string key, name, how;
    double work_min = 0, wait_h = 0, harm_min = 0;
    double tells_bits = 0;                        ///< of which of the leading causes are present
    std::vector<std::string> signs, questions;
};
template <class Visitor>
void describe(Visitor& visit, SeparatingTest& t) {
    visit("key", t.key, About{});
    visit("name", t.name, About{});
    visit("how", t.how, About{});
    visit("work_min", t.work_min, About{});
    visit("wait_h", t.wait_h, About{});
    visit("harm_min", t.harm_min, About{.doc = "its harm, as minutes of work"});
    visit("tells_bits", t.tells_bits, About{.doc = "expected; exact by its outcomes"});
    visit("signs", t.signs, About{});
    visit("questions", t.questions, About{.doc = "yes or no, one for each sign"});
}

struct DiagnoseAnswer {
    std::string sentence;
    HowSure sure = HowSure::CannotTell;
    std::string why_sure;
    std::vector<CauseAnswer> causes;              ///< likeliest first
    std::string together;                         ///< two causes at once; empty = not supported
    double both_pct = 0;
    std::string differs;                          ///< how treatment differs between the first two
    std::vector<SeparatingTest> tests;            ///< best first
    std::vector<CoveringChance> covering;         ///< with what was seen
    std::vector<Reason> findings;
    std::vector<std::string> first, never;        ///< people first; what not to do
    std::string owner;                            ///< a paragraph in plain words
    std::vector<SignSeen> heard;
    std::string kept;                             ///< id of the entry
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, DiagnoseAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("sure", a.sure, About{});
    visit("why_sure", a.why_sure, About{});
    visit("causes", a.causes, About{.doc = "likeliest first"});
    visit("together", a.together, About{.doc = "two causes at once; empty: not supported"});
    visit("both_pct", a.both_pct, About{.doc = "that the first two are both present"});
    visit("differs", a.differs, About{.doc = "how treatment differs between the first two"});
    visit("tests", a.tests, About{.doc = "what would tell the first causes apart, best first"});
    visit("covering", a.covering, About{.doc = "with what was seen"});
    visit("findings", a.findings, About{});
    visit("first", a.first, About{.doc = "people before leather"});
    visit("never", a.never, About{});
    visit("owner", a.owner, About{.doc = "a paragraph in plain words"});
    visit("heard", a.heard, About{.doc = "signs that counted"});
    visit("kept", a.kept, About{.doc = "id of the entry"});
    visit("version", a.version, About{});
}

/// @error InvalidInput  a reading without its control, keep without a piece
/// @error NotFound      no such piece, panel, sign, kind, covering or tannage
/// @error OutOfRange    more signs at once than can be weighed
Result<DiagnoseAnswer> diagnose(const DiagnoseRequest& request, Ports& ports);

/// A sign that can be looked for, with its question.
struct DamageSign {
    std::string key, group, question, statement;
};
template <class Visitor>
void describe(Visitor& visit, DamageSign& s) {
    visit("key", s.key, About{});
    visit("group", s.group, About{.doc = "place, look, reading or told"});
    visit("question", s.question, About{.doc = "yes or no"});
    visit("statement", s.statement, About{});
}
std::vector<DamageSign> damage_signs();

/// Days to visible mould at a humidity: the printed growth points, and a straight line of the logarithm between them.
/// @param humidity_pct  70 to 100 @error OutOfRange  below 70: nothing is printed there
/// @source cci8_1, time to visible growth
Result<double> mould_days(double humidity_pct);

/// Whether anything the sentence says is among what is never said of a cause (tests read every sentence with it).
std::vector<std::string> never_about(const std::vector<std::string>& about);

}  // namespace hw::desk
