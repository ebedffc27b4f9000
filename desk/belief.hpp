// How sure an answer is: what the members of the ensemble say, and each kind of harm with its chance.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// The scale of answers, mildest first. Limits are limits, not damage: no rate law for damage exists.
enum class Grade { StaysWithin, ComesBack, Lasting, Deep, Unknown, Stop };

/// A quantity over the members: the middle one, and the bands that hold half and nine tenths of them.
struct Band {
    double median = 0;
    double low_50 = 0, high_50 = 0;
    double low_90 = 0, high_90 = 0;
    std::string unit;
};
template <class Visitor>
void describe(Visitor& visit, Band& b) {
    visit("median", b.median, About{});
    visit("low_50", b.low_50, About{.doc = "half of the members lie between low_50 and high_50"});
    visit("high_50", b.high_50, About{});
    visit("low_90", b.low_90, About{.doc = "nine of ten members lie between low_90 and high_90"});
    visit("high_90", b.high_90, About{});
    visit("unit", b.unit, About{});
}

/// Bands along depth or time.
struct Fan {
    std::string key;                              ///< "depth_worst", "depth_end", "surface", "upper_leather"
    std::string title;                            ///< for people: "pH through the leather at its worst, 14 min after wetting"
    std::string along;                            ///< "depth_um" from the top of the leather, or "time_s"
    std::string unit;                             ///< of the values: "pH"
    std::vector<double> at;
    std::vector<double> median, low_50, high_50, low_90, high_90;
};
template <class Visitor>
void describe(Visitor& visit, Fan& f) {
    visit("key", f.key, About{.doc = "depth_worst, depth_end, surface or upper_leather"});
    visit("title", f.title, About{});
    visit("along", f.along, About{.doc = "depth_um, from the top of the leather, or time_s"});
    visit("unit", f.unit, About{});
    visit("at", f.at, About{});
    visit("median", f.median, About{});
    visit("low_50", f.low_50, About{});
    visit("high_50", f.high_50, About{});
    visit("low_90", f.low_90, About{});
    visit("high_90", f.high_90, About{});
}

/// How many of the members come to a grade.
struct Chance {
    Grade grade = Grade::Unknown;
    double share_1 = 0;
};

/// One thing that is not known, and how much of the spread of the answer it makes by itself.
struct Influence {
    std::string key;                              ///< "finish", "dose", "wiping", "buffering", "start_ph", "air", "liquid"
    std::string name;                             ///< for people: "how open the finish is"
    std::string range;                            ///< what was drawn from: "a third to three times the class"
    double share_1 = 0;                           ///< first-order index
    double plus_minus_1 = 0;                      ///< its standard error
    std::string settled_by;                       ///< name of the test that would settle it; empty: none
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, Influence& i) {
    visit("key", i.key, About{});
    visit("name", i.name, About{});
    visit("range", i.range, About{.doc = "what was drawn from"});
    visit("share_1", i.share_1, About{.doc = "share of the variance that it makes alone (first-order index)"});
    visit("plus_minus_1", i.plus_minus_1, About{.doc = "standard error"});
    visit("settled_by", i.settled_by, About{.doc = "name of the test that would settle it; may be empty"});
    visit("basis", i.basis, About{});
}

/// The next thing to do that would settle most.
struct NextTest {
    std::string name;
    int minutes = 0;
    std::string settles;
    std::string how;
};
template <class Visitor>
void describe(Visitor& visit, NextTest& t) {
    visit("name", t.name, About{});
    visit("minutes", t.minutes, About{});
    visit("settles", t.settles, About{});
    visit("how", t.how, About{});
}

/// One kind of harm: how far it goes in the middle member, and the chance that its limit is passed.
struct Harm {
    std::string kind;                             ///< "alkali", "acid", "solvent", "residue", "colour", "water", "abrasion", "repeated", "tannage"
    std::string name;                             ///< for people: "Solvent on the finish"
    Grade grade = Grade::Unknown;
    std::optional<double> chance_1;               ///< share of the members in which the limit is passed at all; empty: not known
    std::optional<double> lasting_1;              ///< share in which it does not come back by itself; empty: not known
    std::string sentence;                         ///< the deciding reason, with its figures
    std::string limit;                            ///< the limit in words, with its figure
    Band reached;                                 ///< what is held against the limit; unit empty: nothing was computed
    bool decides = false;                         ///< the answer's grade is this one's
    NextTest test;                                ///< would settle this one
    Basis basis;
};

/// What all members together say.
struct Sure {
    int members = 0;                              ///< 0: nothing was drawn
    double answer_1 = 0;                          ///< share of the members that come to the answer's grade
    double sampling_1 = 0;                        ///< standard error of that share from the number of members
    std::vector<Chance> chances;                  ///< mildest grade first; grades that no member comes to are left out
    std::string influences_of;                    ///< of what the shares below are: "the highest pH inside the leather"
    std::vector<Influence> influences;            ///< largest first
    std::vector<Fan> fans;
};

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Grade> {
    static constexpr std::array<std::pair<desk::Grade, std::string_view>, 6> names{
        {{desk::Grade::StaysWithin, "stays_within"}, {desk::Grade::ComesBack, "comes_back"},
         {desk::Grade::Lasting, "lasting"}, {desk::Grade::Deep, "deep"},
         {desk::Grade::Unknown, "unknown"}, {desk::Grade::Stop, "stop"}}};
};

namespace hw::desk {

template <class Visitor>
void describe(Visitor& visit, Chance& c) {
    visit("grade", c.grade, About{});
    visit("share_1", c.share_1, About{});
}
template <class Visitor>
void describe(Visitor& visit, Harm& h) {
    visit("kind", h.kind, About{.doc = "alkali, acid, solvent, residue, colour, water, abrasion, repeated or tannage"});
    visit("name", h.name, About{});
    visit("grade", h.grade, About{});
    visit("chance_1", h.chance_1, About{.doc = "share of the members in which its limit is passed at all; null: not known"});
    visit("lasting_1", h.lasting_1, About{.doc = "share in which it does not come back by itself; null: not known"});
    visit("sentence", h.sentence, About{});
    visit("limit", h.limit, About{});
    visit("reached", h.reached, About{.doc = "what is held against the limit; without a unit nothing was computed"});
    visit("decides", h.decides, About{.doc = "the answer's grade is this one's"});
    visit("test", h.test, About{.doc = "would settle this one"});
    visit("basis", h.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Sure& s) {
    visit("members", s.members, About{.doc = "0: nothing was drawn"});
    visit("answer_1", s.answer_1, About{.doc = "share of the members that come to the answer's grade"});
    visit("sampling_1", s.sampling_1, About{.doc = "standard error of that share from the number of members"});
    visit("chances", s.chances, About{.doc = "mildest grade first"});
    visit("influences_of", s.influences_of, About{});
    visit("influences", s.influences, About{.doc = "largest first"});
    visit("fans", s.fans, About{});
}

}  // namespace hw::desk
