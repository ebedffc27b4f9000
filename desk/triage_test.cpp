#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "atlas/triage_classes.hpp"
#include "atlas/triage_decisions.hpp"
#include "atlas/triage_may_i.hpp"
#include "atlas/triage_never_say.hpp"
#include "atlas/triage_questions.hpp"
#include "atlas/triage_reserves.hpp"
#include "atlas/triage_sentences.hpp"
#include "atlas/triage_urgency.hpp"
#include "desk/inspect.hpp"
#include "desk/triage.hpp"
#include "desk/triage_case.hpp"
#include "edge/codec/codec.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

class SetClock : public Clock {
public:
    std::string now_utc() override { return now; }
    std::int64_t now_s() override { return 0; }
    std::string now = "2026-01-02T03:04:05Z";
};

struct Shop {
    test::MemoryStore store;
    SetClock clock;
    test::MemoryJournal journal;
    Ports ports{store, clock};
    Shop() { ports.journal = &journal; }
};

TriageGiven given(std::string question, std::vector<std::string> choices) { return {std::move(question), std::move(choices), std::nullopt, "", ""}; }
TriageGiven counted(std::string question, double number, std::string unit) { return {std::move(question), {}, number, std::move(unit), ""}; }

TriageRequest call(std::vector<TriageGiven> answers) {
    TriageRequest r;
    r.answers = std::move(answers);
    return r;
}

TriageAnswer ask(const TriageRequest& r) {
    static Shop shop;
    auto a = triage(r, shop.ports);
    if (!a.ok()) ADD_FAILURE() << a.error().where << ": " << a.error().message;
    return a.ok() ? *a : TriageAnswer{};
}

bool says(const std::vector<TriageSentence>& all, std::string_view key) {
    return std::any_of(all.begin(), all.end(), [&](const TriageSentence& s) { return s.key == key; });
}

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out(1);
    for (const char c : lower(text)) {
        if (std::isalpha(static_cast<unsigned char>(c)) != 0) out.back() += c;
        else if (!out.back().empty()) out.emplace_back();
    }
    if (out.back().empty()) out.pop_back();
    return out;
}

std::string shown(const TriageRequest& r) { return codec::written(r); }

// ---- what a caller may be told to do

/// Why a sentence under "say now" is no instruction that a worried caller may be given; empty when it is one.
std::string wrong_to_say(std::string_view sentence) {
    static const std::set<std::string> substances{"vinegar", "lemon", "acid", "soda", "bicarbonate", "alcohol", "soap", "detergent", "cleaner", "conditioner", "oil", "cream", "wax", "milk", "enzyme", "bleach", "ammonia", "peroxide", "solvent", "acetone",
                                                  "steam", "wipes", "talc", "starch", "powder", "salt", "lacquer", "polish", "neutraliser", "neutralise", "warm", "hot_water", "dryer", "hairdryer", "saliva", "spirit", "spirits"};
    static const std::set<std::string> acts{"rub", "rubbing", "spray", "apply", "pour", "mix", "add", "brush", "brushing", "scrub", "dab", "wash", "soak", "iron", "heat", "rinse", "wipe", "press", "sprinkle", "treat", "use"};
    static const std::set<std::string> refusals{"no", "not", "never", "without", "stop", "nothing", "neither", "nobody"};
    static const std::set<std::string> means{"cloth", "cloths", "towel", "water", "eyes", "skin"};
    const auto words = words_of(sentence);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (substances.count(words[i]) != 0) return "names " + words[i];
        const bool refused = std::any_of(words.begin() + static_cast<std::ptrdiff_t>(i > 4 ? i - 4 : 0), words.begin() + static_cast<std::ptrdiff_t>(i), [](const std::string& w) { return refusals.count(w) != 0; });
        if (words[i] == "water" && !refused && std::find(words.begin(), words.end(), "plain") == words.end()) return "water that is not plain";
        if (acts.count(words[i]) == 0 || refused) continue;
        if (words[i] == "use" && i > 1 && words[i - 1] == "and") continue;   // "and use neither"
        if (std::none_of(words.begin(), words.end(), [](const std::string& w) { return means.count(w) != 0; })) return "tells to " + words[i] + " with something that is no cloth or water";
        if (words[i] != "rinse" && words[i] != "press" && words[i] != "wipe") return "tells to " + words[i];
    }
    return {};
}

TEST(TriageProperty, TheCheckOfSentencesFindsWhatMustNotBeSaid) {
    for (const char* bad : {"Rub it with vinegar.", "Put baking soda on it.", "Add a little acid.", "Wipe it with a little alcohol.", "Rinse it with water.", "Spray plain water on it.", "Dry it with a hair dryer.", "Press a sponge on it.", "Brush it off."})
        EXPECT_NE(wrong_to_say(bad), "") << bad;
    for (const char* good : {"No rubbing, please.", "Lay a dry white cloth on it and press lightly.", "Rinse the eyes with plain running water."}) EXPECT_EQ(wrong_to_say(good), "") << good;
}

TEST(TriageProperty, NoSentenceThatIsSaidNowPutsAnythingOnTheLeatherButPlainWaterClothAndAir) {
    int now = 0;
    for (const auto& row : atlas::triage_sentences) {
        if (row.kind != "now") continue;
        ++now;
        EXPECT_EQ(wrong_to_say(row.sentence), "") << row.key << ": " << row.sentence;
    }
    EXPECT_GT(now, 30);
}

// The plan was told of "a day ago" whatever the caller had said.
TEST(TriageIssue, WhatThePlanGoesOnWithIsInTheAnswer) {
    const auto a = ask(call({given("people", {"none"}), given("product", {"degreaser"}), given("when", {"now"}), given("seen", {"sticky"})}));
    EXPECT_LE(a.ago_h.value_or(99), 1);
    EXPECT_TRUE(a.tacky);
    EXPECT_FALSE(a.nothing_laid);
    const auto old = ask(call({given("people", {"none"}), given("product", {"none"}), given("when", {"weeks"})}));
    EXPECT_GE(old.ago_h.value_or(0), 168);
    EXPECT_TRUE(old.nothing_laid);
    EXPECT_FALSE(ask(call({given("people", {"none"})})).ago_h.has_value());
}

TEST(TriageProperty, EveryAnswerToMayIButThatOfADampClothIsNo) {
    for (const auto& row : atlas::triage_may_i) {
        if (row.key != "water_yes") { EXPECT_TRUE(row.answer.substr(0, 3) == "No." || row.answer.substr(0, 8) == "Not yet.") << row.key; }
        EXPECT_GT(row.answer.size(), 20U) << row.key << " says no reason";
    }
}

TEST(TriageProperty, NothingThatIsNeverSaidStandsInAnySentence) {
    const auto look = [](std::string_view key, std::string_view text) {
        for (const auto& row : atlas::triage_never_say) EXPECT_EQ(lower(text).find(lower(row.phrase)), std::string::npos) << key << " says \"" << row.phrase << "\": " << text;
        for (const char* word : {"liable", "warranty", "guarantee", "fault", "lifetime", "price", "promise"}) EXPECT_EQ(lower(text).find(word), std::string::npos) << key << ": " << text;
    };
    for (const auto& row : atlas::triage_sentences) look(row.key, row.sentence), look(row.key, row.why);
    for (const auto& row : atlas::triage_may_i) look(row.key, row.answer);   // the caller asks
    for (const auto& row : atlas::triage_classes) look(row.key, row.harm), look(row.key, row.never_add);
    for (const auto& row : atlas::triage_decisions) look(row.key, row.sentence), look(row.key, row.why);
    for (const auto& row : atlas::triage_urgency) look(row.key, row.words);
    for (const auto& row : atlas::triage_questions) look(row.key, row.asks), look(row.key, row.why);
}

// ---- the answer space

/// What was said, as far as it can make gas.
struct Meeting {
    std::string_view product, since, label;
    bool asked = false;                      ///< for the product, whatever the answer
    bool of_body = false;                    ///< urine, vomit, blood, sewage
};

/// What must stop, reasoned here from the rules of co-presence by what each product is known for, apart from the tables.
bool must_stop(const Meeting& m) {
    const bool label_read = !m.label.empty() && m.label != "dont_know";
    const std::set<std::string_view> bleaches{"bleach", "drain"};
    const std::set<std::string_view> meets_bleach{"vinegar", "ammonia", "ammonia_glass", "hand_gel", "alcohol", "nail_remover", "disinfecting_wipe", "degreaser", "all_purpose", "washing_soda", "baby_wipe", "oil", "oven", "limescale", "spirit"};
    const std::set<std::string_view> products{"vinegar", "bicarbonate", "soap", "conditioner", "oil", "alcohol", "ammonia", "bleach", "other_cleaner"}, mild{"soap", "oil", "conditioner"};
    if (m.product == "several") return true;
    const bool another = products.count(m.since) != 0, sharp = another && mild.count(m.since) == 0;
    const bool nobody_knows = (m.product.empty() && (m.asked || another)) || m.product == "no_label" || ((m.product == "something_else" || m.product == "scouring_powder" || m.product == "drain") && !label_read);
    const bool was_product = m.product != "none" && m.product != "steam" && m.product != "eraser_foam" && mild.count(m.product) == 0 && !(m.product.empty() && !m.asked);
    if (nobody_knows && (sharp || m.of_body)) return true;
    if (m.since == "other_cleaner" && (was_product || m.of_body)) return true;
    const auto meets = [&](std::string_view a, std::string_view b) { return bleaches.count(a) != 0 && meets_bleach.count(b) != 0; };
    if (meets(m.product, m.since) || meets(m.since, m.product)) return true;
    return m.of_body && (bleaches.count(m.product) != 0 || m.since == "bleach");
}

// ---- what may not be told together

/// Sentences that send a hand to the place.
const std::vector<std::string_view> pressing{"blot", "blot_towel", "if_wet_blot", "damp_cloth"}, touching{"blot", "blot_towel", "if_wet_blot", "damp_cloth", "lift_top", "lift_once", "touch_lift", "beside_ink", "mould_strong", "met_caution"};

std::vector<std::pair<std::string_view, std::string_view>> pairs_that_contradict() {
    std::vector<std::pair<std::string_view, std::string_view>> out;
    const auto not_with = [&](std::string_view one, const std::vector<std::string_view>& others) {
        for (const auto other : others)
            if (one != other) out.emplace_back(one, other);
    };
    for (const std::string_view hands_away : {"air_only", "ask_first", "until_known", "met_leave", "do_nothing", "stop_rubbing", "old_leave_dry", "mould_leave", "mould_large", "after_danger", "remediation_leave", "tell_us", "leather_waits"}) not_with(hands_away, touching);
    for (const std::string_view do_not_press : {"stiff_leave", "sticky_wait", "let_air", "cool_down", "ink_leave", "beside_ink", "touch_lift", "lift_once", "lift_top", "leave_powder", "met_caution", "mould_strong", "old_leave"}) not_with(do_not_press, pressing);
    not_with("no_water", {"damp_cloth"});
    not_with("never_water", {"damp_cloth", "no_water"});
    not_with("wait_look", {"send_today", "send_photo"});
    not_with("fresh_air", {"out_of_car", "car_off", "power_off"});
    not_with("car_doors", {"car_open", "no_flame", "open_window"});
    not_with("car_off", {"power_off"});
    not_with("no_flame", {"open_window"});
    not_with("gloves", {"gloves_eyes"});
    not_with("nobody_sits", {"keep_off"});
    not_with("air_dry", {"air_dry_car"});
    not_with("never_back", {"call_swallowed", "keep_stop", "keep_one", "keep_bottle", "keep_cloths", "keep_photos"});
    not_with("after_danger", {"past_air", "keep_stop", "keep_one", "keep_bottle", "keep_cloths", "keep_photos"});
    not_with("keep_one", {"keep_stop", "keep_photos"});
    not_with("keep_stop", pressing);
    not_with("met_leave", {"bag_cloth", "keep_cloths"});
    not_with("oily_cloths", {"keep_cloths", "bag_cloth"});
    not_with("poison_still", {"call_poison", "call_swallowed"});
    not_with("call_if_unwell", {"call_poison", "call_swallowed"});
    return out;
}

/// What decides, without the words, the dose and the record: for wide nets.
struct Core {
    TriageCase c;
    TriageAdvice a;
    std::optional<Stop> stop;
    [[nodiscard]] bool says(std::string_view key) const {
        for (const auto* list : {&a.say, &a.never, &a.keep})
            if (std::find(list->begin(), list->end(), key) != list->end()) return true;
        return false;
    }
    [[nodiscard]] bool any(const std::vector<std::string_view>& keys) const {
        return std::any_of(keys.begin(), keys.end(), [&](std::string_view key) { return says(key); });
    }
};

Core core_of(const TriageRequest& r) {
    auto c = case_of(r);
    if (!c.ok()) throw Bug(c.error().where + ": " + c.error().message);
    Core out{*c, {}, {}};
    out.a = advice_of(out.c);
    out.stop = triage_stop(out.c);
    return out;
}

int soonness(std::string_view soon) {
    static const std::map<std::string_view, int> order{{"now", 0}, {"day", 1}, {"week", 2}, {"hold", 3}, {"suits", 4}};
    return order.at(soon);
}

/// Sound in itself; the words of each sentence are looked at once, in the table.
void expect_sound_core(const TriageRequest& r, const Core& core, std::set<std::string_view>* told = nullptr) {
    static const auto against = [] {
        std::multimap<std::string_view, std::string_view> out;
        for (const auto& [one, other] : pairs_that_contradict()) out.emplace(one, other);
        return out;
    }();
    std::set<std::string_view> here;
    for (const auto* list : {&core.a.say, &core.a.never, &core.a.keep})
        for (const auto key : *list) ASSERT_TRUE(here.insert(key).second) << "told twice: " << key << " in " << shown(r);
    for (const auto one : here)
        for (auto [at, end] = against.equal_range(one); at != end; ++at) ASSERT_EQ(here.count(at->second), 0U) << one << " and " << at->second << " in " << shown(r);
    if (told != nullptr) told->insert(here.begin(), here.end());
    ASSERT_FALSE(core.a.say.empty() || core.a.never.empty()) << shown(r);
    ASSERT_LE(core.a.say.size(), 12U) << "too much for a caller to keep in mind: " << shown(r);
    if (core.says("wait_look")) { ASSERT_EQ(core.a.soon, "hold") << shown(r); }
    if (core.says("send_today")) { ASSERT_LE(soonness(core.a.soon), 1) << shown(r); }
    if (core.stop && core.stop->kind != "airbag_or_sensor") { ASSERT_FALSE(core.any(touching)) << "a caller sent back to the fumes: " << shown(r); }
}

void expect_sound(const TriageRequest& r, const TriageAnswer& a) {
    for (const auto& s : a.say) {
        ASSERT_EQ(wrong_to_say(s.sentence), "") << shown(r) << "\n" << s.sentence;
        ASSERT_FALSE(s.basis.source.empty()) << s.key;
        ASSERT_FALSE(s.why.empty()) << s.key;
    }
    ASSERT_FALSE(a.say.empty()) << shown(r);
    ASSERT_FALSE(a.never.empty()) << shown(r);
    for (const auto& m : a.may_i) {
        ASSERT_EQ(m.yes, m.key == "water_yes") << shown(r);
        ASSERT_EQ(m.key == "water_yes", m.key.starts_with("water") && says(a.say, "damp_cloth")) << shown(r);
        if (a.stop && a.stop->kind != "airbag_or_sensor") { ASSERT_NE(m.key, "water_no") << "a caller sent back with dry cloths: " << shown(r); }
    }
    ASSERT_LE(a.say.size(), 12U) << "too much for a caller to keep in mind: " << shown(r);
    if (!a.stop) return;
    for (const auto& s : a.stop->do_now) ASSERT_EQ(wrong_to_say(s), "") << shown(r);
    ASSERT_FALSE(a.stop->headline.empty());
    if (a.stop->kind != "airbag_or_sensor") { ASSERT_FALSE(says(a.say, "damp_cloth") || says(a.say, "blot") || says(a.say, "if_wet_blot")) << "a caller sent back to the fumes: " << shown(r); }
}

std::vector<std::string> choices_of(std::string_view question, bool untold) {
    std::vector<std::string> out;
    if (untold) out.emplace_back();
    for (const auto& q : triage_questions().questions)
        if (q.key == question)
            for (const auto& c : q.choices) out.push_back(c.key);
    return out;
}

/// All answers to these questions together, "not asked" among them.
void each(const std::vector<std::pair<std::string, std::vector<std::string>>>& space, const std::function<void(const TriageRequest&)>& visit) {
    std::vector<std::size_t> at(space.size(), 0);
    for (bool more = true; more;) {
        TriageRequest r;
        r.may_i = {"water"};
        for (std::size_t i = 0; i < space.size(); ++i)
            if (const auto& choice = space[i].second[at[i]]; !choice.empty()) r.answers.push_back(given(space[i].first, {choice}));
        visit(r);
        std::size_t i = 0;
        while (i < space.size() && ++at[i] == space[i].second.size()) at[i++] = 0;
        more = i < space.size();
    }
}

std::string told_for(const TriageRequest& r, std::string_view question) {
    for (const auto& g : r.answers)
        if (g.question == question && !g.choices.empty() && g.choices[0] != "dont_know") return g.choices[0];
    return {};
}

TEST(TriageProperty, EveryProductWithEverythingPutOnSinceStopsExactlyWhereTheyMustNotMeet) {
    int stops = 0, none = 0;
    const std::set<std::string> bodies{"urine", "vomit", "blood", "sewage"};
    each({{"product", choices_of("product", true)}, {"since", choices_of("since", true)}, {"cleaned", {"", "urine", "vomit", "milk", "blood", "sewage", "food"}}, {"label", {"", "none", "dont_know"}}, {"wet", {"", "wet"}}, {"when", {"", "weeks"}}, {"people", {"", "none"}}}, [&](const TriageRequest& r) {
        const auto core = core_of(r);
        expect_sound_core(r, core);
        const bool asked = std::any_of(r.answers.begin(), r.answers.end(), [](const TriageGiven& g) { return g.question == "product"; });
        const std::string product = told_for(r, "product"), since = told_for(r, "since"), label = told_for(r, "label");
        const bool must = must_stop({product, since, label, asked, bodies.count(told_for(r, "cleaned")) != 0});
        ASSERT_EQ(core.stop.has_value(), must) << shown(r) << (core.stop ? core.stop->headline : "");
        must ? ++stops : ++none;
        if (must) { ASSERT_EQ(core.a.soon == "now", !(told_for(r, "when") == "weeks" && told_for(r, "people") == "none" && told_for(r, "wet").empty())) << shown(r); }
    });
    EXPECT_GT(stops, 5000) << "each product with each other, as asked and not asked";
    EXPECT_GT(none, 5000);
}

TEST(TriageProperty, EveryTwoProductsStopExactlyWhereTheyMustNotMeet) {
    const std::set<std::string> meets_bleach{"vinegar", "ammonia_glass", "hand_gel", "nail_remover", "disinfecting_wipe", "degreaser", "all_purpose", "washing_soda", "baby_wipe", "oil", "oven", "limescale", "spirit"};
    const std::set<std::string> unknown{"no_label", "something_else", "scouring_powder", "several", "drain"}, no_product{"none", "steam", "eraser_foam", "soap"};
    int stops = 0;
    for (const auto& a : atlas::triage_classes)
        for (const auto& b : atlas::triage_classes) {
            const std::string one(a.key), other(b.key);
            if (one == other || one == "none" || other == "none") continue;
            const auto r = call({given("people", {"none"}), given("product", {one, other})});
            const auto answer = ask(r);
            expect_sound(r, answer);
            const auto bleach_meets = [&](const std::string& x, const std::string& y) { return (x == "bleach" || x == "drain") && meets_bleach.count(y) != 0; };
            const auto nobody_knows = [&](const std::string& x, const std::string& y) { return unknown.count(x) != 0 && no_product.count(y) == 0 && y != "oil"; };
            const bool must = one == "several" || other == "several" || bleach_meets(one, other) || bleach_meets(other, one) || nobody_knows(one, other) || nobody_knows(other, one);
            ASSERT_EQ(answer.stop.has_value(), must) << one << " and " << other;
            stops += must ? 1 : 0;
        }
    EXPECT_GT(stops, 100);
}

TEST(TriageProperty, EveryProductSurfaceAndWetnessGivesWaterOnlyWhereADropStaysUpOnAnEvenShine) {
    int water = 0;
    each({{"product", choices_of("product", true)}, {"wet", {"", "wet", "damp", "dry"}}, {"surface", {"", "even_shine", "varied", "velvety"}}, {"bead", {"", "stays", "soaks"}}, {"since", {"", "nothing", "hair_dryer"}}, {"cleaned", {"", "dust"}}, {"people", {"none"}}, {"parts", {"", "none", "heater", "airbag"}}, {"piece", {"sofa", "front_seat"}}, {"seen", {"", "cracks"}}}, [&](const TriageRequest& r) {
        const auto core = core_of(r);
        expect_sound_core(r, core);
        if (!core.says("damp_cloth")) return;
        ++water;
        ASSERT_EQ(told_for(r, "surface"), "even_shine") << shown(r);
        ASSERT_EQ(told_for(r, "bead"), "stays") << shown(r);
        ASSERT_TRUE(told_for(r, "wet") == "wet" || told_for(r, "wet") == "damp") << shown(r);
        ASSERT_TRUE(told_for(r, "parts") == "none" || (told_for(r, "parts").empty() && told_for(r, "piece") == "sofa")) << shown(r);
        ASSERT_NE(told_for(r, "seen"), "cracks") << shown(r);
        for (const char* never : {"", "oven", "hand_gel", "nail_remover", "no_label", "something_else", "several", "oil", "steam", "eraser_foam", "scouring_powder", "none", "limescale", "drain", "spirit"}) ASSERT_NE(told_for(r, "product"), never) << shown(r);
        if (told_for(r, "product") == "bleach") { ASSERT_EQ(told_for(r, "cleaned"), "dust") << "first it must be known what the bleach met: " << shown(r); }
    });
    EXPECT_EQ(water, (8 * 2 + 1) * 2 * 3) << "eight classes, known or not what was there, and bleach where it is; wet or damp; on a sofa without or with unasked parts and on a car seat without";
}

TEST(TriageProperty, AllTriplesOfAnswersThatTurnTheAdviceAreSoundAndFirstAidComesFirst) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const char* q : {"people", "safe", "product", "label", "since", "wet", "when", "cleaned", "seen", "surface", "bead", "parts", "special", "household"})
        for (const auto& c : choices_of(q, false))
            if (c != "dont_know") all.emplace_back(q, c);
    all.insert(all.end(), {{"piece", "front_seat"}, {"piece", "steering_wheel"}, {"involved", "insurer"}, {"sun_heat", "fire"}});
    int danger = 0;
    std::set<std::string_view> told;
    for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t k = i + 1; k < all.size(); ++k)
            for (std::size_t m = k + 1; m < all.size(); ++m) {
                if (all[i].first == all[k].first || all[k].first == all[m].first) continue;
                const auto r = call({given(all[i].first, {all[i].second}), given(all[k].first, {all[k].second}), given(all[m].first, {all[m].second})});
                const auto core = core_of(r);
                expect_sound_core(r, core, &told);
                if (::testing::Test::HasFatalFailure()) return;
                if (!in_danger(core.c)) continue;
                ++danger;
                ASSERT_TRUE(core.stop) << shown(r);
                ASSERT_TRUE(core.a.photos.empty()) << "pictures while somebody is in danger: " << shown(r);
                ASSERT_EQ(core.a.soon, "now") << shown(r);
                ASSERT_TRUE(matters(core.c, "safe")) << shown(r);
            }
    EXPECT_GT(danger, 1000);
    // More answers where three do not reach.
    each({{"product", choices_of("product", false)}, {"wet", {"wet", "dry"}}, {"when", {"", "weeks"}}, {"since", {"nothing", "conditioner", "oil", "bicarbonate", "bleach", "dont_know"}}, {"cleaned", {"dust", "ink", "mould", "vomit", "sewage"}}, {"seen", {"nothing", "ring", "sticky", "stiff", "shrunken", "colour_came"}}, {"surface", {"even_shine"}}, {"bead", {"stays"}}, {"people", {"none"}}, {"involved", {"insurer"}}},
         [&](const TriageRequest& r) {
             if (::testing::Test::HasFatalFailure()) return;
             expect_sound_core(r, core_of(r), &told);
         });
    for (const char* wetness : {"wet", "dry"})
        for (const char* product : {"none", "bleach", "all_purpose"}) {
            const auto r = call({given("people", {"none"}), given("product", {product}), given("cleaned", {"mould"}), given("wet", {wetness}), given("since", {"nothing"}), counted("area", 100, "hands")});
            expect_sound_core(r, core_of(r), &told);
        }
    // A pair whose halves are never told could not have been found.
    for (const auto& [one, other] : pairs_that_contradict())
        for (const auto key : {one, other}) EXPECT_TRUE(told.count(key) != 0) << key << " is never told";
}

// ---- the kinds of mistake that a reader found

bool gloves(const Core& c) { return c.any({"gloves", "gloves_eyes", "met_caution", "mould_strong"}); }
bool flames(const Core& c) { return c.any({"no_flame", "car_doors", "no_spark"}); }
bool airs(const Core& c) { return c.any({"no_flame", "car_doors", "open_window", "car_open", "met_caution", "met_leave", "until_known", "fresh_air"}); }
bool poison(const Core& c) { return c.any({"call_poison", "call_swallowed", "poison_still"}); }

void expect_no_less(const TriageRequest& r, const Core& before, const Core& after) {
    if (gloves(before)) { ASSERT_TRUE(gloves(after)) << "no gloves: " << shown(r); }
    if (flames(before)) { ASSERT_TRUE(flames(after)) << "no word of flames: " << shown(r); }
    if (airs(before)) { ASSERT_TRUE(airs(after)) << "no word of air: " << shown(r); }
    if (before.says("nobody_sits")) { ASSERT_TRUE(after.says("nobody_sits")) << "somebody sits on it: " << shown(r); }
    ASSERT_LE(soonness(after.a.soon), soonness(before.a.soon)) << "later than before: " << shown(r);
    if (!before.says("damp_cloth")) { ASSERT_FALSE(after.says("damp_cloth")) << "water: " << shown(r); }
}

TEST(TriageProperty, ALabelThatNamesADangerNeverLowersTheCaution) {
    int tried = 0;
    each({{"product", choices_of("product", false)}, {"wet", {"", "wet", "damp", "dry"}}, {"since", {"", "nothing", "soap", "dont_know"}}, {"cleaned", {"", "dust"}}, {"people", {"none"}}, {"surface", {"even_shine"}}, {"bead", {"stays"}}}, [&](const TriageRequest& r) {
        const auto before = core_of(r);
        for (const char* names : {"chlorine", "ammonia", "acid", "peroxide", "solvent", "lye"}) {
            TriageRequest more = r;
            more.answers.push_back(given("label", {names}));
            const auto after = core_of(more);
            if (after.stop || before.c.unknown_met || before.says("met_caution") || before.says("met_leave")) continue;   // the suspicion of the unknown may be lifted
            expect_no_less(more, before, after);
            ++tried;
            if (!after.c.label_counts() || after.c.dry()) continue;
            const std::string_view n = names;
            if (n == "lye" || n == "chlorine") { ASSERT_TRUE(gloves(after) && after.says("nobody_sits") && after.a.soon == "now") << shown(more); }
            if (n == "solvent") { ASSERT_TRUE(flames(after) && after.a.soon == "now") << shown(more); }
            if (n == "acid" && told_for(r, "product") == "something_else") { ASSERT_TRUE(after.says("gloves_eyes") && after.a.soon == "now") << shown(more); }
        }
    });
    EXPECT_GT(tried, 3000);
    for (const double ph : {1.5, 13.2}) {
        const auto core = core_of(call({given("people", {"none"}), given("product", {"all_purpose"}), given("wet", {"wet"}), given("since", {"nothing"}), given("surface", {"even_shine"}), given("bead", {"stays"}), {"label", {"none"}, ph, "ph", ""}}));
        EXPECT_TRUE(core.says("gloves_eyes") && core.a.soon == "now" && !core.says("damp_cloth")) << ph;
    }
}

TEST(TriageProperty, WhatWasPutOnAfterwardsCountsAsAProduct) {
    const std::pair<const char*, const char*> same[] = {{"bleach", "bleach"}, {"alcohol", "hand_gel"}, {"ammonia", "ammonia_glass"}, {"oil", "oil"}, {"soap", "soap"}, {"vinegar", "vinegar"}, {"other_cleaner", "something_else"}};
    int tried = 0;
    for (const auto& row : atlas::triage_classes)
        for (const auto& [since, as] : same)
            for (const char* piece : {"sofa", "front_seat"})
                for (const char* wetness : {"wet", "dry"}) {
                    const auto alone = core_of(call({given("people", {"none"}), given("piece", {piece}), given("product", {as}), given("wet", {wetness}), given("since", {"nothing"}), given("cleaned", {"dust"})}));
                    const auto r = call({given("people", {"none"}), given("piece", {piece}), given("product", {std::string(row.key)}), given("wet", {wetness}), given("since", {since}), given("cleaned", {"dust"})});
                    const auto later = core_of(r);
                    if (later.stop) continue;
                    expect_no_less(r, alone, later);
                    ++tried;
                    const std::string_view never = std::string_view(since) == "other_cleaner" ? "" : as;
                    if (never.empty() || triage_row(atlas::triage_classes, never).never_add.empty()) continue;
                    ASSERT_TRUE(::hw::desk::says(ask(r).never, "class." + std::string(never))) << shown(r);
                }
    EXPECT_GT(tried, 200);
}

TEST(TriageProperty, BleachOnWhatABodyLeftStopsWhoeverClears) {
    for (const char* fluid : {"urine", "vomit", "blood", "sewage"})
        for (const bool since : {false, true})
            for (const char* wetness : {"", "wet", "damp"}) {
                TriageRequest r = call({given("people", {"none"}), given("cleaned", {fluid}), given("product", {since ? "none" : "bleach"})});
                if (since) r.answers.push_back(given("since", {"bleach"}));
                if (*wetness != 0) r.answers.push_back(given("wet", {wetness}));
                const auto a = ask(r);
                ASSERT_TRUE(a.stop) << shown(r);
                EXPECT_NE(a.stop->headline.find(fluid), std::string::npos) << a.stop->headline;
                EXPECT_EQ(a.decision.path, Path::Emergency) << shown(r);
                EXPECT_TRUE(says(a.say, "fresh_air")) << shown(r);
            }
    EXPECT_FALSE(ask(call({given("product", {"bleach"}), given("cleaned", {"milk"})})).stop);
}

TEST(TriageProperty, BleachAndTheUnknownAreNotTouchedBeforeItIsKnownWhatElseIsThere) {
    for (const char* product : {"bleach", "no_label", "something_else", "drain"})
        for (const char* since : {"", "dont_know"}) {
            TriageRequest r = call({given("people", {"none"}), given("product", {product}), given("wet", {"wet"})});
            if (*since != 0) r.answers.push_back(given("since", {since}));
            const auto a = ask(r);
            const auto core = core_of(r);
            EXPECT_FALSE(core.any(touching)) << shown(r);
            EXPECT_TRUE(core.says(*since == 0 ? "ask_first" : "until_known")) << shown(r);
            EXPECT_EQ(a.next.at(0).question, *since == 0 ? "since" : "cleaned") << shown(r);
        }
    EXPECT_TRUE(core_of(call({given("people", {"none"}), given("product", {"bleach"}), given("wet", {"wet"}), given("since", {"nothing"}), given("cleaned", {"dust"})})).says("blot"));
}

TEST(TriageProperty, WhoGotItInTheEyesOnTheSkinOrSwallowedItKeepsThePoisonLineWhateverSafeSays) {
    each({{"people", {"eyes", "skin", "swallowed"}}, {"safe", {"", "yes", "not_yet", "dont_know"}}, {"product", choices_of("product", true)}, {"wet", {"", "wet", "dry"}}, {"cleaned", {"", "mould", "sewage"}}, {"since", {"", "nothing", "bleach"}}}, [&](const TriageRequest& r) {
        const auto core = core_of(r);
        const bool burn = told_for(r, "product") == "steam" && told_for(r, "people") == "skin" && told_for(r, "since") != "bleach" && told_for(r, "cleaned") != "sewage";
        ASSERT_EQ(poison(core), !burn) << shown(r);
        if (burn && told_for(r, "safe") != "yes") { ASSERT_TRUE(core.says("cool_burn")); }
    });
    // Then the leather as for anybody.
    for (const char* people : {"eyes", "skin", "swallowed"}) {
        const auto hurt = core_of(call({given("people", {people}), given("safe", {"yes"}), given("product", {"oven"}), given("wet", {"wet"})})), well = core_of(call({given("people", {"none"}), given("product", {"oven"}), given("wet", {"wet"})}));
        EXPECT_EQ(hurt.a.soon, "now");
        EXPECT_TRUE(hurt.says("gloves_eyes") && hurt.says("blot"));
        EXPECT_EQ(hurt.a.say.size(), well.a.say.size() + 1) << "the poison line, and all the rest";
    }
}

TEST(TriageProperty, NoWetHandGoesToASwitchOrAPlug) {
    int named = 0;
    for (const auto& row : atlas::triage_sentences) {
        if (row.kind != "now") continue;
        const std::string text = lower(row.sentence);
        for (const char* word : {"plug", "switch", "fuse", "appliance", "heater runs"})
            if (text.find(word) != std::string::npos) {
                ++named;
                EXPECT_TRUE(text.find("dry hands") != std::string::npos || text.find("touch no switch") != std::string::npos) << row.key << ": " << row.sentence;
            }
    }
    EXPECT_GE(named, 5);
    for (const char* part : {"motor", "heater"}) {
        const auto soaked = core_of(call({given("people", {"none"}), given("piece", {"recliner"}), given("parts", {part}), given("product", {"all_purpose"}), given("seen", {"soaked"})}));
        EXPECT_EQ(soaked.a.say.at(0), "power_off") << "before anything else";
        EXPECT_EQ(soaked.a.decision, "refer_electric");
        EXPECT_TRUE(core_of(call({given("people", {"none"}), given("parts", {part}), given("cleaned", {"sewage"}), given("wet", {"wet"})})).says("power_off"));
    }
    EXPECT_TRUE(core_of(call({given("people", {"none"}), given("parts", {"battery"}), given("product", {"all_purpose"}), given("seen", {"soaked"})})).says("battery_off"));
}

TEST(TriageProperty, WhatBurnsIsNotSatOnAlsoWhenItIsDryAndWhatEvaporatesInACarIsAired) {
    for (const char* product : {"oven", "degreaser", "bleach", "limescale", "drain", "no_label", "something_else"})
        for (const char* when : {"now", "yesterday", "weeks"})
            EXPECT_TRUE(core_of(call({given("people", {"none"}), given("product", {product}), given("wet", {"dry"}), given("when", {when})})).says("nobody_sits")) << product << " " << when;
    for (const char* product : {"oven", "degreaser", "bleach", "limescale", "drain", "ammonia_glass", "hand_gel", "nail_remover", "spirit", "no_label"}) {
        EXPECT_TRUE(core_of(call({given("people", {"none"}), given("piece", {"front_seat"}), given("product", {product}), given("wet", {"wet"})})).any({"car_doors", "car_open"})) << product;
        EXPECT_TRUE(core_of(call({given("people", {"none"}), given("piece", {"sofa"}), given("product", {product}), given("wet", {"wet"})})).any({"no_flame", "open_window"})) << product;
    }
    const auto fumes = core_of(call({given("people", {"fumes"}), given("piece", {"front_seat"}), given("product", {"nail_remover"})}));
    EXPECT_TRUE(fumes.says("out_of_car") && fumes.says("no_spark"));
}

TEST(TriageProperty, AMeetingThatIsOverIsAiredAndAMildOneEmptiesNoHouse) {
    const auto at = [](const char* product, const char* since, const char* wetness, const char* when) {
        return core_of(call({given("people", {"none"}), given("product", {product}), given("since", {since}), given("wet", {wetness}), given("when", {when})}));
    };
    for (const char* when : {"today", "yesterday", "days", "weeks"}) EXPECT_TRUE(at("bleach", "vinegar", "dry", when).says("past_air")) << when;
    EXPECT_TRUE(at("bleach", "vinegar", "dry", "now").says("fresh_air"));
    for (const char* when : {"now", "yesterday", "weeks"}) EXPECT_TRUE(at("bleach", "vinegar", "wet", when).says("fresh_air")) << when;
    for (const char* since : {"conditioner", "oil", "soap"}) {
        EXPECT_FALSE(at("something_else", since, "wet", "now").stop) << since;
        EXPECT_TRUE(at("something_else", since, "wet", "now").says("met_leave")) << since;
    }
    EXPECT_TRUE(at("bleach", "soap", "wet", "now").says("met_leave")) << "some soaps hold amines: the label first";
    EXPECT_TRUE(at("bleach", "bleach", "wet", "now").says("met_leave")) << "some mould sprays are acid";
}

TEST(TriageProperty, AnAirbagStopsAlsoWhereNothingButUrineIsWet) {
    EXPECT_TRUE(core_of(call({given("people", {"none"}), given("product", {"none"}), given("cleaned", {"urine"}), given("parts", {"sensor"}), given("wet", {"wet"})})).stop);
    EXPECT_TRUE(core_of(call({given("people", {"none"}), given("product", {"vinegar"}), given("piece", {"steering_wheel"})})).stop) << "there always is one";
}

/// All that a caller or the next verb gets, by keys.
std::string outcome(const Core& core) {
    std::string out = core.stop ? core.stop->kind : "-";
    for (const auto* list : {&core.a.say, &core.a.never, &core.a.photos, &core.a.keep})
        for (const auto key : *list) out += "," + std::string(key);
    for (const auto key : {core.a.soon, core.a.soon_because, core.a.decision}) out += "|" + std::string(key);
    for (const auto key : products_put_on(core.c)) out += "+" + std::string(key);
    return out + dose_of(core.c).sentence + codec::written(judge_from(core.c));
}

TEST(TriageProperty, AQuestionThatIsLeftOutCouldNotHaveChangedAnything) {
    int tried = 0;
    const auto questions = triage_questions().questions;
    const auto look = [&](const TriageRequest& r) {
        const auto core = core_of(r);
        const std::string before = outcome(core);
        for (const auto& q : questions) {
            if (core.c.given(q.key) != nullptr || matters(core.c, q.key)) continue;
            for (const auto& c : q.choices) {
                TriageRequest more = r;
                more.answers.push_back(given(q.key, {c.key}));
                ASSERT_EQ(outcome(core_of(more)), before) << q.key << " " << c.key << " in " << shown(r);
                ++tried;
            }
            if (q.units.empty()) continue;
            TriageRequest more = r;
            more.answers.push_back(counted(q.key, q.units[0].most_1, q.units[0].key));
            ASSERT_EQ(outcome(core_of(more)), before) << q.key << " in " << shown(r);
        }
    };
    each({{"product", choices_of("product", true)}, {"wet", {"wet", "dry"}}, {"surface", {"", "even_shine"}}, {"since", {"", "nothing"}}, {"cleaned", {"", "mould", "sewage"}}, {"people", {"none", "fumes"}}}, look);
    each({{"product", choices_of("product", true)}, {"wet", {"wet"}}, {"since", {"nothing"}}, {"people", {"skin"}}, {"safe", {"", "yes"}}}, look);
    EXPECT_GT(tried, 2000);
}

TEST(TriageProperty, NothingSaidIsAnswerEnoughAndEveryAnswerMayBeDontKnow) {
    const auto nothing = ask(call({}));
    EXPECT_FALSE(nothing.stop);
    EXPECT_EQ(nothing.next.at(0).question, "people");
    std::vector<TriageGiven> all;
    for (const auto& q : triage_questions().questions) all.push_back(given(q.key, {"dont_know"}));
    const auto a = ask(call(all));
    EXPECT_FALSE(a.stop);
    EXPECT_TRUE(a.next.empty());
    EXPECT_EQ(a.left, 0);
    EXPECT_TRUE(says(a.say, "if_unwell")) << "nobody said that everybody is well";
    EXPECT_GE(a.defaults.size(), 4U);
    for (const auto& h : a.heard) EXPECT_FALSE(h.known);
}

// ---- the record

TEST(TriageProperty, EachSentenceKeepsTheTimeAtWhichItWasFirstTold) {
    Shop shop;
    auto first = triage(call({given("people", {"none"}), given("product", {"degreaser"}), given("wet", {"wet"})}), shop.ports);
    ASSERT_TRUE(first.ok());
    shop.clock.now = "2026-01-02T03:09:00Z";
    TriageRequest later = call({given("people", {"none"}), given("product", {"degreaser"}), given("wet", {"dry"}), given("seen", {"sticky"})});
    later.told = first->told;
    later.told[0].sentence = "Something else.";
    const auto second = triage(later, shop.ports);
    ASSERT_TRUE(second.ok());
    EXPECT_NE(second->told[0].sentence, "Something else.") << "what was told is what the program says";
    for (const auto& t : first->told) {
        const auto same = std::find_if(second->told.begin(), second->told.end(), [&](const TriageTold& s) { return s.key == t.key; });
        ASSERT_NE(same, second->told.end()) << "told and forgotten: " << t.key;
        EXPECT_EQ(same->at, "2026-01-02T03:04:05Z");
    }
    for (const auto& s : second->say)
        if (s.key == "sticky_wait") { EXPECT_EQ(s.at, "2026-01-02T03:09:00Z"); }
    EXPECT_TRUE(says(second->say, "sticky_wait"));
}

TriageRequest kept_call() {
    TriageRequest r = call({given("people", {"none"}), given("piece", {"armchair"}), given("product", {"bleach"}), given("since", {"vinegar"}), given("wishes", {"even", "cost"})});
    r.caller = "Ada Example";
    r.name = "Armchair of the call";
    r.keep = true;
    r.piece = "00000000-0000-7000-8000-0000000000aa";
    r.device = "phone";
    return r;
}

TEST(TriageProperty, ACallBecomesAPieceOnceHoweverOftenItIsSent) {
    Shop shop;
    const TriageRequest r = kept_call();
    const auto first = triage(r, shop.ports);
    ASSERT_TRUE(first.ok()) << first.error().message;
    EXPECT_EQ(first->piece, r.piece);
    const auto entries = shop.journal.entries(r.piece);
    ASSERT_TRUE(entries.ok());
    shop.clock.now = "2026-01-02T05:00:00Z";
    ASSERT_TRUE(triage(r, shop.ports).ok());
    EXPECT_EQ(shop.journal.entries(r.piece)->size(), entries->size());
    std::string all;
    for (const auto& k : *entries) {
        EXPECT_EQ(k.entry.at, "2026-01-02T03:04:05Z");
        if (k.entry.said) all += k.entry.said->text + "\n";
    }
    for (const auto& s : first->say) EXPECT_NE(all.find(s.sentence), std::string::npos) << "not on record word for word: " << s.sentence;
    EXPECT_NE(all.find("Stop: "), std::string::npos);
    const auto piece = inspect({r.piece, {}}, shop.ports);
    ASSERT_TRUE(piece.ok());
    EXPECT_EQ(piece->make_up.family, "armchair");
    EXPECT_TRUE(std::any_of(entries->begin(), entries->end(), [](const KeptEntry& k) { return k.entry.said && k.entry.said->wishes == std::vector<std::string>{"even", "cost"}; }));
    // What is said later comes on top.
    TriageRequest more = r;
    more.answers.push_back(given("safe", {"yes"}));
    more.told = first->told;
    ASSERT_TRUE(triage(more, shop.ports).ok());
    EXPECT_GT(shop.journal.entries(r.piece)->size(), entries->size());
}

TEST(TriageProperty, APieceOfNoFamilyIsBegunToBeDrawn) {
    Shop shop;
    TriageRequest r = call({given("piece", {"other"})});
    r.keep = true;
    const auto a = triage(r, shop.ports);
    ASSERT_TRUE(a.ok()) << a.error().message;
    const auto piece = inspect({a->piece, {}}, shop.ports);
    ASSERT_TRUE(piece.ok());
    EXPECT_EQ(piece->make_up.family, "free");
    EXPECT_NE(piece->make_up.note.find("to be drawn"), std::string::npos);
}

TEST(TriageProperty, ALabelThatWasReadCountsMoreThanTheClass) {
    const auto with = [](std::vector<std::string> product, std::vector<std::string> label, const char* since) {
        return ask(call({given("people", {"none"}), given("product", std::move(product)), given("label", std::move(label)), given("since", {since})})).stop.has_value();
    };
    EXPECT_FALSE(with({"all_purpose"}, {"chlorine"}, "nothing")) << "what stands in one bottle has not met";
    EXPECT_TRUE(with({"all_purpose"}, {"chlorine"}, "vinegar"));
    EXPECT_TRUE(with({"all_purpose"}, {"chlorine", "acid"}, "nothing")) << "two labels, or a label that must be read again";
    EXPECT_TRUE(with({"vinegar", "degreaser"}, {"chlorine"}, "nothing")) << "one of the two labels";
    EXPECT_TRUE(with({"vinegar"}, {"chlorine"}, "nothing"));
    EXPECT_FALSE(with({"all_purpose"}, {"none"}, "vinegar"));
    EXPECT_TRUE(with({"bleach"}, {"none"}, "vinegar")) << "bleach is bleach";
    EXPECT_TRUE(with({"no_label"}, {"none"}, "vinegar")) << "there was no label to read";
}

// ---- refusals

TEST(TriageRefusal, WhatCannotBeReadNamesItsFieldAndTheRemedy) {
    struct Case {
        TriageRequest request;
        ErrorCode code;
        const char* where;
        const char* remedy;
    };
    const auto with = [](auto change) {
        TriageRequest r;
        change(r);
        return r;
    };
    const std::vector<Case> cases{
        {call({given("colour", {"red"})}), ErrorCode::NotFound, "answers[0].question", "/api/triage_questions"},
        {call({given("wet", {"soggy"})}), ErrorCode::NotFound, "answers[0].choices[0]", "/api/triage_questions"},
        {call({given("wet", {"wet"}), given("wet", {"dry"})}), ErrorCode::InvalidInput, "answers[1].question", "Keep the answer"},
        {call({given("wet", {"wet", "dry"})}), ErrorCode::InvalidInput, "answers[0].choices", "Keep the one"},
        {call({given("people", {"none", "eyes"})}), ErrorCode::InvalidInput, "answers[0].choices", "Leave one"},
        {call({given("seen", {"dont_know", "ring"})}), ErrorCode::InvalidInput, "answers[0].choices", "Leave one"},
        {call({given("seen", {"ring", "ring"})}), ErrorCode::InvalidInput, "answers[0].choices[1]", "Leave one"},
        {call({counted("dose", 0, "ml")}), ErrorCode::OutOfRange, "answers[0].number_1", "1 to 5000 ml"},
        {call({counted("dose", 6000, "ml")}), ErrorCode::OutOfRange, "answers[0].number_1", "1 to 5000 ml"},
        {call({counted("dose", std::nan(""), "ml")}), ErrorCode::OutOfRange, "answers[0].number_1", "Give a value"},
        {call({counted("dose", 5, "buckets")}), ErrorCode::NotFound, "answers[0].unit", "/api/triage_questions"},
        {call({counted("area", 0.1, "hands")}), ErrorCode::OutOfRange, "answers[0].number_1", "0.2 to 400 hands"},
        {call({counted("label", 15, "ph")}), ErrorCode::OutOfRange, "answers[0].number_1", "0 to 14"},
        {call({counted("wet", 1, "")}), ErrorCode::InvalidInput, "answers[0].number_1", "takes no number"},
        {call({{"dose", {}, std::nullopt, "ml", ""}}), ErrorCode::InvalidInput, "answers[0].number_1", "Give the number"},
        {call({{"wet", {"wet"}, std::nullopt, "", "quite"}}), ErrorCode::InvalidInput, "answers[0].text", "Pick a choice"},
        {with([](TriageRequest& r) { r.may_i = {"magic"}; }), ErrorCode::NotFound, "may_i[0]", "/api/triage_questions"},
        {with([](TriageRequest& r) { r.told = {{"rub_it_in", "2026-01-02T03:04:05Z", ""}}; }), ErrorCode::NotFound, "told[0].key", "as the last answer had it"},
        {with([](TriageRequest& r) { r.told = {{"blot", "yesterday", ""}}; }), ErrorCode::InvalidInput, "told[0].at", "as the last answer had it"},
    };
    Shop shop;
    for (const auto& c : cases) {
        const auto a = triage(c.request, shop.ports);
        ASSERT_FALSE(a.ok()) << shown(c.request);
        EXPECT_EQ(a.error().code, c.code) << a.error().message;
        EXPECT_EQ(a.error().where, c.where) << a.error().message;
        EXPECT_NE(a.error().message.find(c.remedy), std::string::npos) << a.error().message;
    }
    TriageRequest keep;
    keep.keep = true;
    shop.ports.journal = nullptr;
    EXPECT_EQ(triage(keep, shop.ports).error().code, ErrorCode::Unavailable);
    EXPECT_EQ(print_triage({}, Paper::A4, shop.ports).error().code, ErrorCode::Unavailable);
}

// ---- the dose

TriageRequest dosed(const char* product, double ml, double hands) {
    return call({given("people", {"none"}), given("product", {product}), counted("dose", ml, "ml"), counted("area", hands, "hands")});
}

TEST(TriageConsistency, TheBandsOfADoseFollowFromTheirFactorsByTheFormulaOfTheTheoryPage) {
    const auto a = ask(dosed("degreaser", 30, 43));
    ASSERT_TRUE(a.dose.known) << a.dose.sentence;
    // Middle: 30 g x sqrt(0.1 x 0.65) mmol/g / (43 x sqrt(150 x 200) cm2), of which sqrt(0.2 x 0.7) stays.
    const double applied = 30 * std::sqrt(0.1 * 0.65) / (43 * std::sqrt(150.0 * 200.0) / 1e4);
    EXPECT_NEAR(a.dose.applied.median, applied, 1e-9 * applied);
    EXPECT_NEAR(a.dose.left.median, applied * std::sqrt(0.2 * 0.7), 1e-9 * applied);
    const double s = std::sqrt(std::pow(std::log(4.0), 2) + std::pow(std::log(6.5), 2) + std::pow(std::log(2.0), 2) + std::pow(std::log(200.0 / 150.0), 2)) / (2 * 1.644854);
    EXPECT_NEAR(std::log(a.dose.applied.high_90 / a.dose.applied.median), 1.644854 * s, 1e-6);
    EXPECT_NEAR(std::log(a.dose.applied.median / a.dose.applied.low_50), 0.674490 * s, 1e-6);
}

TEST(TriageProperty, MoreProductOnLessLeatherIsMoreAndDilutionIsLess) {
    double last = 0;
    for (const double ml : {1.0, 5.0, 30.0, 200.0}) {
        const auto a = ask(dosed("degreaser", ml, 40));
        EXPECT_GT(a.dose.left.low_90, last);
        last = a.dose.left.low_90;
        EXPECT_LT(a.dose.left.median, a.dose.applied.median) << "a cloth takes some off";
        EXPECT_GT(ask(dosed("degreaser", ml, 20)).dose.left.median, a.dose.left.median);
        auto thin = dosed("degreaser", ml, 40);
        thin.answers.push_back(counted("neat", 10, "parts"));
        EXPECT_NEAR(ask(thin).dose.left.median * 11 / (a.dose.left.median / std::sqrt(0.7 * 1.4)), 1, 1e-9);
    }
    EXPECT_FALSE(ask(dosed("vinegar", 10, 10)).dose.alkali);
    EXPECT_FALSE(ask(dosed("eraser_foam", 10, 10)).dose.known) << "nothing to reckon with";
    EXPECT_NE(ask(call({given("product", {"degreaser"})})).dose.sentence.find("how much"), std::string::npos) << "what is missing is named";
}

// ---- the acceptance cases, from the caller's words

std::string everything(const TriageAnswer& a) {
    std::string out = a.urgency.words + a.urgency.sentence + a.decision.sentence + a.dose.sentence + a.judge_sentence;
    for (const auto* list : {&a.say, &a.never, &a.photos, &a.evidence_keep})
        for (const auto& s : *list) out += "\n" + s.sentence + " " + s.why;
    for (const auto& m : a.may_i) out += "\n" + m.answer;
    return lower(out);
}

TEST(TriageJourney, AClubChairDarkenedByAConcentrateThreeDaysAgoIsLeftToDryAndBooked) {
    TriageRequest r = call({given("people", {"none"}), given("piece", {"armchair"}), given("product", {"all_purpose"}), given("since", {"nothing"}), given("wet", {"dry"}), given("when", {"days"}), given("seen", {"darker"}), given("surface", {"varied"}),
                            given("neat", {"neat"}), counted("dose", 40, "ml"), counted("area", 1800, "cm2"), counted("left_on", 8, "min"), given("wiped", {"dry_cloth"})});
    r.caller = "Ada Example";
    r.may_i = {"vinegar", "conditioner", "hair_dryer"};
    const auto a = ask(r);
    EXPECT_FALSE(a.stop) << "no fumes";
    EXPECT_EQ(a.urgency.soon, Soon::Hold);
    EXPECT_EQ(a.decision.path, Path::Book);
    EXPECT_TRUE(says(a.say, "do_nothing") && says(a.say, "wait_look")) << "dry and shaded";
    EXPECT_TRUE(says(a.never, "never_heat") && says(a.never, "never_more"));
    ASSERT_EQ(a.may_i.size(), 3U);
    for (const auto& m : a.may_i) EXPECT_FALSE(m.yes) << m.key;
    ASSERT_TRUE(a.dose.known);
    // What the sheet and a weighed cloth give later, 17.8 mmol/m2, must lie in what is said on the phone.
    EXPECT_LT(a.dose.left.low_90, 17.8);
    EXPECT_GT(a.dose.left.high_90, 17.8);
    EXPECT_EQ(a.judge.leather.leather_class, "aniline");
    EXPECT_EQ(a.judge.use.dose.area_cm2, 1800);
    EXPECT_EQ(everything(a).find("patina"), std::string::npos);
}

TEST(TriageJourney, AStickySofaAfterADegreaserIsNotSatOnCoveredOrTreatedAndWaits) {
    TriageRequest r = call({given("people", {"none"}), given("piece", {"sofa"}), given("product", {"degreaser"}), given("since", {"nothing"}), given("wet", {"dry"}), given("when", {"yesterday"}), given("seen", {"sticky", "dull"}), given("surface", {"even_shine"}),
                            counted("dose", 30, "ml"), counted("area", 7500, "cm2"), counted("left_on", 10, "min"), given("wiped", {"damp_cloth"})});
    r.may_i = {"vinegar", "conditioner"};
    const auto a = ask(r);
    EXPECT_FALSE(a.stop);
    EXPECT_EQ(a.urgency.soon, Soon::Hold);
    EXPECT_EQ(a.urgency.from_h, 48);
    EXPECT_TRUE(says(a.say, "sticky_wait")) << "no sitting, no cover, air";
    EXPECT_TRUE(says(a.never, "never_cover"));
    EXPECT_TRUE(says(a.never, "class.degreaser")) << "nobody adds acid";
    ASSERT_TRUE(a.dose.known);
    EXPECT_LT(a.dose.left.low_90, 2.1 / 0.75);
    EXPECT_GT(a.dose.left.high_90, 2.1 / 0.75);
    for (const char* wrong : {"dried out", "needs conditioner", "will reverse", "undo the alkali"}) EXPECT_EQ(everything(a).find(wrong), std::string::npos) << wrong;
}

TEST(TriageJourney, AWingChairRottedByYearsOfSkinOilHasNoHurryAndNoNameOfADecay) {
    TriageRequest r = call({given("people", {"none"}), given("piece", {"wing_chair"}), given("product", {"none"}), given("cleaned", {"body_oil"}), given("seen", {"darker", "cracks"}), given("wet", {"dry"}), given("surface", {"varied"})});
    r.may_i = {"bicarbonate"};
    const auto a = ask(r);
    EXPECT_FALSE(a.stop);
    EXPECT_EQ(a.urgency.soon, Soon::Suits);
    EXPECT_EQ(a.decision.path, Path::Book);
    EXPECT_TRUE(a.judge_sentence.empty()) << "there is no liquid to judge";
    EXPECT_FALSE(a.may_i.at(0).yes);
    for (const char* wrong : {"red rot", "neutralise"}) EXPECT_EQ(everything(a).find(wrong), std::string::npos) << wrong;
}

TEST(TriageJourney, HomeRemediesThatWereDoneAlreadyAreRefusedWithTheirReason) {
    const auto a = ask(call({given("people", {"none"}), given("product", {"all_purpose"}), given("since", {"hair_dryer", "bicarbonate", "soap", "conditioner"}), given("wet", {"wet"}), given("surface", {"even_shine"}), given("bead", {"stays"})}));
    std::set<std::string> refused;
    for (const auto& m : a.may_i) {
        EXPECT_FALSE(m.yes) << m.key;
        refused.insert(m.key);
    }
    EXPECT_EQ(refused, (std::set<std::string>{"hair_dryer", "bicarbonate", "more_soap", "conditioner"}));
    EXPECT_FALSE(says(a.say, "damp_cloth"));
    EXPECT_TRUE(says(a.say, "hot_air_off") && says(a.say, "leave_powder") && says(a.say, "read_label"));
    EXPECT_EQ(a.next.at(0).question, "label") << "what met there is on it";
}

TEST(TriageJourney, TheLiquidOfEveryClassThatIsHandedOnCanBeJudged) {
    Shop shop;
    for (const auto& row : atlas::triage_classes) {
        auto a = ask(call({given("people", {"none"}), given("product", {std::string(row.key)}), counted("dose", 10, "ml"), counted("area", 5, "hands")}));
        if (a.judge_sentence.empty()) continue;
        a.judge.members = 32;
        const auto judged = judge(a.judge, shop.ports);
        EXPECT_TRUE(judged.ok()) << row.key << ": " << judged.error().where << " " << judged.error().message;
    }
}

}  // namespace
}  // namespace hw::desk
