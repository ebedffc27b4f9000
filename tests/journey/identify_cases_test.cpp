// The identification part of the eleven acceptance cases: as told, with tables shaken, with two answers missing, with one false.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

#include "core/leather/covering.hpp"
#include "desk/identify.hpp"
#include "tests/support/identify_cases.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::test {
namespace {

template <class E>
E enum_of(const std::string& word) {
    for (const auto& [value, name] : EnumNames<E>::names)
        if (name == word) return value;
    throw Bug("no word " + word);
}

desk::IdentifyRequest request_of(const IdentifyCase& c) {
    desk::IdentifyRequest r;
    r.place = c.place;
    r.age = c.age;
    r.wear = enum_of<desk::Wear>(c.wear);
    r.exposure = enum_of<desk::Exposure>(c.exposure);
    for (const auto& s : c.saw) {
        r.saw.push_back({s.test, s.answers, s.panel});
        if (!s.panel.empty() && std::find(r.same_as.begin(), r.same_as.end(), s.panel) == r.same_as.end()) r.same_as.push_back(s.panel);
    }
    return r;
}

desk::IdentifyAnswer answer(const desk::IdentifyRequest& r) {
    MemoryStore store;
    FixedClock clock;
    desk::Ports ports{store, clock};
    auto a = desk::identify(r, ports);
    if (!a.ok()) throw Bug(a.error().where + ": " + a.error().message);
    return *a;
}

double chance(const std::vector<desk::CoverShare>& all, const std::string& key) {
    for (const auto& s : all)
        if (s.key == key) return s.chance.value / 100;
    throw Bug("no share " + key);
}

class IdentifyCasesConsistency : public ::testing::TestWithParam<IdentifyCase> {};

TEST_P(IdentifyCasesConsistency, ReachesWhatTheExpertSays) {
    const IdentifyCase c = GetParam();
    const auto a = answer(request_of(c));
    std::printf("%s: %s  [%s]\n", c.name.c_str(), a.sentence.c_str(), a.why_not.c_str());
    if (c.family.empty()) {
        EXPECT_FALSE(a.told);
        EXPECT_FALSE(a.settles.empty());
        return;
    }
    if (!c.missed.empty()) {  // kept in the list: if the tables ever reach it, it must leave the list
        std::printf("  known deviation: %s has %.3f, asked %.2f\n", c.family.c_str(), chance(a.families, c.family), c.least_1);
        EXPECT_FALSE(a.told);
        EXPECT_EQ(a.families.front().key == c.family, c.missed == "told");
        return;
    }
    EXPECT_TRUE(a.told) << a.sentence << a.why_not;
    EXPECT_EQ(a.families.front().key, c.family);
    double together = chance(a.families, c.family);
    for (const auto& other : c.or_also) together += chance(a.families, other);
    EXPECT_GE(together, c.least_1);
}

/// Every entry of the tables by a factor between 1/1.3 and 1.3, rows made to add up again; told pieces of evidence as they are.
TEST_P(IdentifyCasesConsistency, TheFirstStaysFirstInNineOfTenShakenTables) {
    const IdentifyCase c = GetParam();
    if (c.family.empty()) return;
    const auto plain = leather::cover_tables();
    std::mt19937_64 r(30);
    std::uniform_real_distribution<double> log_factor(-std::log(1.3), std::log(1.3));
    const auto shaken_row = [&](std::vector<double>& row) {
        double sum = 0;
        for (double& x : row) sum += x *= std::exp(log_factor(r));
        for (double& x : row) x /= sum;
    };
    const auto shaken_share = [&](double& share) { const double x = share * std::exp(log_factor(r)), y = (1 - share) * std::exp(log_factor(r)); share = x / (x + y); };
    std::vector<std::string> places{""};
    for (const auto& s : c.saw)
        if (std::find(places.begin(), places.end(), s.panel) == places.end()) places.push_back(s.panel);
    leather::CoverContext context{c.place, c.age, "not_known", {}};
    for (std::size_t p = 0; p < places.size(); ++p) context.places.push_back(p == 0 ? leather::CoverPlace{c.wear, c.exposure} : leather::CoverPlace{});
    constexpr int draws = 200;
    int first = 0;
    for (int n = 0; n < draws; ++n) {
        auto t = plain;
        for (auto& test : t.tests) {
            for (auto& row : test.rows) shaken_row(row.start_1);
            for (auto& h : test.hidden) shaken_row(h.row.start_1), shaken_share(h.share_1);
        }
        for (auto& s : t.starts) {
            const bool veil = std::find(t.veils.begin(), t.veils.end(), s.of) != t.veils.end();
            if (veil) shaken_share(s.value_1);
            else s.value_1 *= std::exp(log_factor(r));  // kinds and tannages are made to add up where they are used
        }
        std::vector<belief::Seen> seen;
        for (const auto& s : c.saw) {
            const auto test = leather::test_of(t, s.test).value();
            std::vector<std::size_t> answers;
            for (const auto& x : s.answers) answers.push_back(leather::answer_of(t.tests[test], x).value());
            seen.push_back({static_cast<std::size_t>(std::find(places.begin(), places.end(), s.panel) - places.begin()), leather::chance_of(t, test, answers)});
        }
        const auto shape = leather::shape_of(t);
        const auto post = belief::inferred(shape, leather::prior_of(t, context).value(), seen).value();
        std::map<std::string, double> families;
        for (std::size_t i = 0; i < post.class_sort_1.size(); ++i) {
            const std::string kind(t.kinds[i / shape.sorts]);
            families[kind == "refined_aniline" ? "aniline" : kind == "corrected" ? "pigmented" : kind == "finished_split" ? "coated" : kind] += post.class_sort_1[i];
        }
        first += std::max_element(families.begin(), families.end(), [](const auto& a, const auto& b) { return a.second < b.second; })->first == c.family ? 1 : 0;
    }
    std::printf("%s: first in %d of %d shaken tables\n", c.name.c_str(), first, draws);
    EXPECT_EQ(first >= draws * 9 / 10, c.missed != "first");
}

TEST_P(IdentifyCasesConsistency, WithTwoAnswersMissingNothingWrongIsCalledVeryLikely) {
    const IdentifyCase c = GetParam();
    const auto whole = request_of(c);
    int right = 0, open = 0, wrong = 0;
    for (std::size_t i = 0; i < whole.saw.size(); ++i)
        for (std::size_t j = i + 1; j < whole.saw.size(); ++j) {
            auto r = whole;
            r.saw.erase(r.saw.begin() + static_cast<std::ptrdiff_t>(j));
            r.saw.erase(r.saw.begin() + static_cast<std::ptrdiff_t>(i));
            const auto a = answer(r);
            const bool same = a.families.front().key == c.family;
            (!a.told ? open : same ? right : wrong) += 1;
            if (!same && a.told) std::printf("  without %s and %s: %s\n", whole.saw[i].test.c_str(), whole.saw[j].test.c_str(), a.sentence.c_str());
            EXPECT_TRUE(same || a.families.front().chance.value < 90) << a.sentence;
        }
    std::printf("%s, two missing: right %d, cannot be told %d, wrong %d\n", c.name.c_str(), right, open, wrong);
}

TEST_P(IdentifyCasesConsistency, WithOneFalseAnswerNothingWrongIsCalledCertain) {
    const IdentifyCase c = GetParam();
    const auto whole = request_of(c);
    const auto words = desk::identify_words();
    int right = 0, open = 0, wrong = 0;
    for (std::size_t i = 0; i < whole.saw.size(); ++i)
        for (const auto& test : words.tests) {
            if (test.key != whole.saw[i].test) continue;
            const bool first_seen = std::find(whole.saw[i].answers.begin(), whole.saw[i].answers.end(), test.answers.front().key) != whole.saw[i].answers.end();
            {
                const auto& x = first_seen ? test.answers.back() : test.answers.front();  // the far end of its answers
                auto r = whole;
                r.saw[i].answers = {x.key};
                const auto a = answer(r);
                const bool same = a.families.front().key == c.family;
                (!a.told ? open : same ? right : wrong) += 1;
                if (!same && a.told) std::printf("  %s = %s: %s\n", test.key.c_str(), x.key.c_str(), a.sentence.c_str());
                EXPECT_TRUE(same || a.families.front().chance.value < 97) << a.sentence;
            }
        }
    std::printf("%s, one false: right %d, cannot be told %d, wrong %d\n", c.name.c_str(), right, open, wrong);
}

INSTANTIATE_TEST_SUITE_P(Cases, IdentifyCasesConsistency, ::testing::ValuesIn(identify_cases()), [](const auto& p) { return p.param.name.substr(0, p.param.name.find(' ')); });

TEST(IdentifyProperty, TheOrderOfWhatWasSeenGivesTheSameBits) {
    auto r = request_of(identify_cases().front());
    const auto a = answer(r);
    std::reverse(r.saw.begin(), r.saw.end());
    const auto b = answer(r);
    EXPECT_EQ(a.sentence, b.sentence);
    for (std::size_t i = 0; i < a.kinds.size(); ++i) EXPECT_EQ(a.kinds[i].chance.value, b.kinds[i].chance.value);
    for (std::size_t i = 0; i < a.next.size(); ++i) EXPECT_EQ(a.next[i].bits_1, b.next[i].bits_1);
}

TEST(IdentifyProperty, ATestOfTheTannageDoesNotMoveWhatIsLeather) {
    auto r = request_of(identify_cases()[1]);
    const auto a = answer(r);
    r.saw.push_back({"edge_colour", {"blue_grey"}, ""});
    const auto b = answer(r);
    // Among the kinds of leather it says nothing; only against what has no tannage.
    EXPECT_NEAR(chance(a.kinds, "pigmented") / chance(a.kinds, "corrected"), chance(b.kinds, "pigmented") / chance(b.kinds, "corrected"), 1e-12);
}

TEST(IdentifyProperty, TheFilmOfTheEleventhCaseIsNotCalledLeatherByItself) {
    auto r = request_of(identify_cases().back());
    r.finish_um = 220;
    EXPECT_FALSE(answer(r).is_leather);
    r.thickness_mm = 1.1;
    EXPECT_EQ(answer(r).called, "coated split leather");
    r.thickness_mm = 0.6;
    EXPECT_EQ(answer(r).called, "not leather");
}

TEST(IdentifyProperty, HarmlessTestsComeBeforeTheSwab) {
    const auto a = answer({});
    ASSERT_FALSE(a.next.empty());
    EXPECT_EQ(a.next.front().harm_1, 0);
    for (const auto& n : a.next)
        EXPECT_TRUE(n.test != "swab" || &n == &a.next.back());
    for (const auto& n : a.laboratory) EXPECT_NE(n.test, "swab");
}

}  // namespace
}  // namespace hw::test
