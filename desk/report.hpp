// A judgement as a document: what a page says, in words, free of layout. The print draws it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "desk/kept.hpp"

namespace hw::desk {

/// The words that stand on every page about limits.
inline constexpr std::string_view not_proof = "A passed limit is not proof of damage. An answer inside the limits is no promise that nothing changes.";
inline constexpr std::string_view demo_mark = "Demo: invented data";

/// Whether anything of it is invented for the demo.
bool is_demo(const KeptJudgement& judgement);

/// One input of the question in words. `mark` is "given", "default", "default in part", "measured", or
/// "does not matter here" where a stop stands before every figure.
struct InputRow {
    std::string name;
    std::string value;
    std::string mark;
};
std::vector<InputRow> inputs_of(const KeptJudgement& judgement);

/// The use in one line: "8 sprays on 900 cm², neat, left for 2 min, 50 % wiped off, not rinsed".
std::string use_in_words(const Use& use);
/// Leather class and tannage in plain words, from the keys.
std::string leather_in_words(const Leather& leather);

/// A name that a table of limits, a kind of harm or a reading has, in one line with its number.
std::string number_in_words(const Number& number);

/// What was not known: kinds of harm that were not computed, what nobody said, what the sheet leaves open.
std::vector<std::string> not_known(const JudgeAnswer& answer);

/// The page in plain words.
struct OwnerReport {
    std::string liquid, piece, use;               ///< what was asked
    std::string advice;                           ///< the first line: what to do
    std::string answer, more;                     ///< the verdict sentence, and what follows it
    std::string how_sure;
    std::vector<std::string> means, next, never, cautions, unknown;
};
OwnerReport owner_report(const KeptJudgement& judgement);

/// Where the leather begins in the depths of a profile, which count from the top of the finish.
double leather_top_um(const Profile& profile);
/// Index of the moment at which the leather lies farthest from the pH that it began with; 0 when no move of it could be seen.
std::size_t worst_moment(const Profile& profile);
/// pH at a depth, straight lines between cells. @param depth_um  from the top of the finish
double ph_at(const Profile& profile, std::size_t moment, double depth_um);
/// The picture of the section in words: at its worst, and at the end.
std::string section_in_words(const Profile& profile);
/// A fan in one or two sentences.
std::string fan_in_words(const Fan& fan);
/// "30 µm", "1.2 mm".
std::string depth_in_words(double um);

}  // namespace hw::desk
