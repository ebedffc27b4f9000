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

inline std::vector<desk::Harm> sample_harms() {
    desk::Harm h;
    h.kind = "alkali";
    h.name = "Alkali in the leather";
    h.grade = desk::Grade::Lasting;
    h.chance_1 = 0.71;
    h.lasting_1 = 0.64;
    h.sentence = "The highest pH inside the leather is 8.8.";
    h.limit = "Upper end of good leather (pH 6.0)";
    h.reached = desk::Band{8.8, 8.1, 9.2, 6.9, 9.7, "pH"};
    h.decides = true;
    h.test = {"Damp white cloth", 120, "whether something stays", "Wipe, look, wait."};
    h.basis = {"A limit of a kind of harm", "own", "nowhere", Standing::Estimate, "an input"};
    std::vector<desk::Harm> out{h};
    h.kind = "residue";
    h.name = "What stays on the surface";
    h.grade = desk::Grade::ComesBack;
    h.chance_1 = 0.35;
    h.lasting_1 = 0;
    h.sentence = "1.2 g/m² dries in.";
    h.limit = "More than 2 g/m² is felt";
    h.reached = desk::Band{1.2, 1, 1.5, 0.7, 2.6, "g/m²"};
    h.decides = false;
    out.push_back(h);
    h.kind = "solvent";
    h.name = "Solvent on finish and fats";
    h.grade = desk::Grade::Unknown;
    h.chance_1.reset();
    h.lasting_1.reset();
    h.sentence = "Not all of it is known.";
    h.limit.clear();
    h.reached = {};
    out.push_back(h);
    return out;
}

inline desk::Sure sample_sure() {
    desk::Sure s;
    s.members = 1024;
    s.answer_1 = 0.64;
    s.sampling_1 = 0.015;
    s.chances = {{desk::Grade::StaysWithin, 0.06}, {desk::Grade::ComesBack, 0.23}, {desk::Grade::Lasting, 0.64}, {desk::Grade::Deep, 0.07}};
    s.influences_of = "the highest pH inside the leather";
    s.influences = {{"finish", "how open the finish is", "a third to three times the class", 0.52, 0.02, "Water drop", {"A range", "own", "nowhere", Standing::Estimate, ""}},
                    {"air", "how dry the air is", "within 10 % of the humidity given", 0.01, 0.02, "", {"A range", "own", "nowhere", Standing::Estimate, ""}}};
    s.fans = {{"depth_worst", "pH through the leather at its worst", "depth_um", "pH", {0, 50, 300, 1100}, {8.8, 6.1, 4.7, 4.6}, {8.1, 5.6, 4.6, 4.5}, {9.2, 6.8, 4.8, 4.7}, {6.9, 4.9, 4.5, 4.4}, {9.7, 7.6, 5.0, 4.8}},
              {"surface", "What a drop of water on the surface would read", "time_s", "pH", {0, 60, 3600, 86400}, {4.6, 8.8, 6.2, 5.1}, {4.5, 8.1, 5.8, 4.9}, {4.7, 9.2, 6.6, 5.3}, {4.4, 6.9, 5.2, 4.7}, {4.8, 9.7, 7.4, 5.7}}};
    return s;
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
    a.harms = sample_harms();
    a.sure = sample_sure();
    a.sources = {basis};
    a.version = "hidewright test";
    return a;
}

}  // namespace hw::test
