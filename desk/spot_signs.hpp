// The signs of a tested spot and the verdict on them. Knows of no piece: a spot on an off-cut is read the same way.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// How much of a sign is seen or felt.
enum class SignLevel { NotRead, None, Slight, Plain };
/// Where grades come from.
enum class GradesBy { Eye, Photo };
enum class SpotMark { NotJudged, Pass, Caution, Fail };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SignLevel> {
    static constexpr std::array<std::pair<desk::SignLevel, std::string_view>, 4> names{
        {{desk::SignLevel::NotRead, "not_read"}, {desk::SignLevel::None, "none"}, {desk::SignLevel::Slight, "slight"}, {desk::SignLevel::Plain, "plain"}}};
};
template <>
struct hw::EnumNames<hw::desk::GradesBy> {
    static constexpr std::array<std::pair<desk::GradesBy, std::string_view>, 2> names{{{desk::GradesBy::Eye, "eye"}, {desk::GradesBy::Photo, "photo"}}};
};
template <>
struct hw::EnumNames<hw::desk::SpotMark> {
    static constexpr std::array<std::pair<desk::SpotMark, std::string_view>, 4> names{
        {{desk::SpotMark::NotJudged, "not_judged"}, {desk::SpotMark::Pass, "pass"}, {desk::SpotMark::Caution, "caution"}, {desk::SpotMark::Fail, "fail"}}};
};

namespace hw::desk {

/// A measured colour, CIELAB; before and after under the same light.
struct LabRead {
    double l_1 = 0, a_1 = 0, b_1 = 0;
};
template <class Visitor>
void describe(Visitor& visit, LabRead& c) {
    visit("l_1", c.l_1, About{.minimum = 0, .maximum = 100, .required = true});
    visit("a_1", c.a_1, About{.minimum = -150, .maximum = 150, .required = true});
    visit("b_1", c.b_1, About{.minimum = -150, .maximum = 150, .required = true});
}

/// What was read of a spot. What is left out was not read.
struct SpotSigns {
    std::optional<double> transfer_grade;         ///< 1 to 5 in half steps, as the grey scale says
    std::optional<double> change_grade;
    std::optional<double> rub_dry_grade, rub_wet_grade;
    GradesBy grades_by = GradesBy::Eye;
    SignLevel ring = SignLevel::NotRead;
    SignLevel tack = SignLevel::NotRead;
    SignLevel bend = SignLevel::NotRead;
    SignLevel film = SignLevel::NotRead;
    std::optional<LabRead> colour_before, colour; ///< of the spot
    std::optional<LabRead> cloth_before, cloth;   ///< of the white cloth
    std::optional<double> gloss_before_gu, gloss_gu;
    std::optional<double> surface_ph, control_ph;
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, SpotSigns& s) {
    visit("transfer_grade", s.transfer_grade, About{.doc = "colour on the white cloth: 1 to 5 in half steps, as the grey scale for staining says", .minimum = 1, .maximum = 5});
    visit("change_grade", s.change_grade, About{.doc = "change of colour: 1 to 5 in half steps, as the grey scale for change says", .minimum = 1, .maximum = 5});
    visit("rub_dry_grade", s.rub_dry_grade, About{.doc = "staining of a dry cloth rubbed on it", .minimum = 1, .maximum = 5});
    visit("rub_wet_grade", s.rub_wet_grade, About{.doc = "staining of a damp cloth rubbed on it, read dry", .minimum = 1, .maximum = 5});
    visit("grades_by", s.grades_by, About{.doc = "eye: the scale was held to it; photo: estimated from a photograph"});
    visit("ring", s.ring, About{.doc = "none, slight (seen from 30 cm only), plain (seen from a metre)"});
    visit("tack", s.tack, About{.doc = "none, slight (a tissue drags), plain (fibres stick)"});
    visit("bend", s.bend, About{.doc = "none (as untouched leather), slight, plain (it crackles or creases)"});
    visit("film", s.film, About{.doc = "finish swollen, soft, lifted or crazed: none, or else"});
    visit("colour_before", s.colour_before, About{});
    visit("colour", s.colour, About{.doc = "of the dry spot"});
    visit("cloth_before", s.cloth_before, About{});
    visit("cloth", s.cloth, About{.doc = "of the white cloth, dry"});
    visit("gloss_before_gu", s.gloss_before_gu, About{.doc = "at 60 degrees", .minimum = 0, .maximum = 200});
    visit("gloss_gu", s.gloss_gu, About{.minimum = 0, .maximum = 200});
    visit("surface_ph", s.surface_ph, About{.doc = "one drop of clean water on the dry spot", .minimum = 1.5, .maximum = 11});
    visit("control_ph", s.control_ph, About{.doc = "the same on untouched leather", .minimum = 1.5, .maximum = 11});
    visit("note", s.note, About{});
}

/// One sign beside its limit.
struct SpotSign {
    std::string key, name;                        ///< of atlas/spot_limits.csv
    SpotMark mark = SpotMark::NotJudged;
    std::string read;                             ///< in words, with what it was read by
    std::string limit;                            ///< what passes
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, SpotSign& s) {
    visit("key", s.key, About{});
    visit("name", s.name, About{});
    visit("mark", s.mark, About{});
    visit("read", s.read, About{});
    visit("limit", s.limit, About{.doc = "what passes"});
    visit("basis", s.basis, About{});
}

struct SpotVerdict {
    SpotMark mark = SpotMark::NotJudged;
    std::string sentence;
    std::vector<SpotSign> signs;                  ///< worst first
    std::vector<std::string> missing;             ///< names of signs that a pass needs and that were not read
    std::vector<std::string> silent;              ///< names of signs that were not read and that this says nothing about
};
template <class Visitor>
void describe(Visitor& visit, SpotVerdict& v) {
    visit("mark", v.mark, About{.doc = "the worst sign decides; a pass needs every sign that is missing"});
    visit("sentence", v.sentence, About{});
    visit("signs", v.signs, About{.doc = "worst first"});
    visit("missing", v.missing, About{.doc = "what a pass still needs"});
    visit("silent", v.silent, About{.doc = "not read: nothing is said about it"});
}

/// Why a reading may not be judged.
struct SpotTime {
    bool dry = true;
    bool tack_counts = true;                      ///< solvents: only from the second reading on
    std::string why_not;                          ///< a sentence, where it is not dry
};

/// @error InvalidInput  a grade between the steps; a colour or shine without its other half; nothing read
Result<Done> good_signs(const SpotSigns& signs);

/// The verdict of one reading. What is read wet is kept and never judged.
/// @source iso11640, how a rub is read: the cloth dry, by the grey scale for staining; a hand rub is no test to it
/// @see docs/theory/spots.md
SpotVerdict verdict_of(const SpotSigns& signs, const SpotTime& time);

/// A sign, for whoever reads one.
struct SignWords {
    std::string key, name, kind, unit, how;
    std::string pass_words, caution_words, fail_words;
    bool needed = false;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, SignWords& w) {
    visit("key", w.key, About{});
    visit("name", w.name, About{});
    visit("kind", w.kind, About{.doc = "grade, words or figure"});
    visit("unit", w.unit, About{});
    visit("how", w.how, About{});
    visit("pass_words", w.pass_words, About{});
    visit("caution_words", w.caution_words, About{.doc = "empty: there is nothing between"});
    visit("fail_words", w.fail_words, About{});
    visit("needed", w.needed, About{.doc = "a pass needs it"});
    visit("basis", w.basis, About{});
}
std::vector<SignWords> sign_words();

std::string_view mark_word(SpotMark mark);
SpotMark worse_of(SpotMark a, SpotMark b);

}  // namespace hw::desk
