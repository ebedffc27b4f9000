// A judgement with something in every kind of member, for tests of doors; nothing in it is computed.
#pragma once

#include <limits>

#include "desk/kept.hpp"

namespace hw::test {

inline desk::Liquid sample_liquid() {
    desk::Liquid l;
    l.name = "Soda, \"strong\", 0.1 %";
    l.family = "cleaner";
    l.ingredients = {{"sodium carbonate", "497-19-8", 0.1, std::nullopt, std::nullopt}, {"sodium chloride", "7647-14-5", std::nullopt, 1.0 / 3, std::nullopt}};
    l.stated_ph = 11.2;
    l.note = "µ, ², line\nfeed, \t and \\";
    return l;
}

inline desk::Leather sample_leather() {
    desk::Leather l;
    l.name = "Armchair";
    l.leather_class = "aniline";
    l.tannage = "chrome";
    l.thickness_mm = 1.2;
    return l;
}

inline desk::JudgeRequest sample_request() {
    desk::JudgeRequest r;
    r.liquid = sample_liquid();
    r.leather = sample_leather();
    r.use.dose = {desk::Amount::ClothWipe, 3, 900};
    r.use.rinse.passes = 2;
    r.title = "Sample";
    return r;
}

inline desk::JudgeAnswer sample_answer() {
    const Basis basis{"A rule", "own", "nowhere", Standing::Derived, "an input"};
    desk::JudgeAnswer a;
    a.grade = desk::Grade::Lasting;
    a.sentence = "A sentence.";
    a.reasons.push_back({"kind", "A reason.", "decides", basis});
    a.stop = desk::Stop{"kind", "A headline.", {"do"}, {"never"}, basis};
    a.leather = sample_leather();
    a.liquid.ph = {11.0625, 0.1, "pH", Standing::Derived, "a band"};
    a.liquid.titration = {{0, 11}, {1e-300, 7.0 / 3}};
    a.profile.depth_um = {0.1, 0.2};
    a.profile.time_s = {0, 1};
    a.profile.ph = {{4.5, 4.6}, {5.5, 5.6}};
    a.profile.film_ph = {9.5, std::numeric_limits<double>::quiet_NaN()};
    a.sources = {basis};
    a.version = "hidewright test";
    return a;
}

}  // namespace hw::test
