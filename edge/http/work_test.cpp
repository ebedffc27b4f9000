// Long work: begun, looked at, ended; a person's own; limited in number.
#include "edge/http/work.hpp"

#include <gtest/gtest.h>

#include <condition_variable>

namespace hw::http {
namespace {

/// A job that runs until the gate opens or somebody cancels it.
class Gate {
public:
    Works::Job job(std::string answer = "{}") {
        return [this, answer](const Progress& progress) -> Result<std::string> {
            while (true) {
                if (!progress(0.5, "waiting")) return Error{ErrorCode::NotConverged, "stopped", ""};
                std::unique_lock lock(guard_);
                if (changed_.wait_for(lock, std::chrono::milliseconds(2), [this] { return open_; })) return answer;
            }
        };
    }
    void open() {
        const std::scoped_lock lock(guard_);
        open_ = true;
        changed_.notify_all();
    }

private:
    std::mutex guard_;
    std::condition_variable changed_;
    bool open_ = false;
};

Works::State finished(Works& works, const std::string& id, const std::string& person) {
    for (int i = 0; i < 5000; ++i) {
        const auto state = works.state(id, person, false);
        EXPECT_TRUE(state.ok());
        if (!state.ok() || state->finished) return *state;
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    ADD_FAILURE() << "it never ended";
    return {};
}

TEST(WorksProperty, AJobTellsHowFarItIsAndItsAnswer) {
    Gate gate;
    Works works;
    const auto id = works.begin("ben", gate.job(R"({"a": 1})"));
    ASSERT_TRUE(id.ok());
    EXPECT_EQ(id->size(), 32u) << "nobody guesses it";
    const auto running = works.state(*id, "ben", false);
    ASSERT_TRUE(running.ok());
    EXPECT_FALSE(running->finished);
    EXPECT_TRUE(running->answer.empty());
    gate.open();
    const auto state = finished(works, *id, "ben");
    EXPECT_EQ(state.answer, R"({"a": 1})");
    EXPECT_FALSE(state.error.has_value());
    EXPECT_EQ(state.done_1, 1);
}

TEST(WorksProperty, ACancelEndsIt) {
    Gate gate;
    Works works;
    const auto id = works.begin("ben", gate.job());
    ASSERT_TRUE(id.ok());
    ASSERT_TRUE(works.cancel(*id, "ben", false).ok());
    const auto state = finished(works, *id, "ben");
    ASSERT_TRUE(state.error.has_value());
    EXPECT_EQ(state.error->code, ErrorCode::NotConverged);
    EXPECT_TRUE(state.answer.empty());
}

TEST(WorksRefusal, SomebodyElsesIsUnknownButNotToAnOwner) {
    Gate gate;
    Works works;
    const auto id = works.begin("ben", gate.job());
    ASSERT_TRUE(id.ok());
    EXPECT_EQ(works.state(*id, "carla", false).error().code, ErrorCode::NotFound);
    EXPECT_EQ(works.cancel(*id, "carla", false).error().code, ErrorCode::NotFound);
    EXPECT_TRUE(works.state(*id, "ada", true).ok());
    EXPECT_EQ(works.state("0123", "ben", false).error().code, ErrorCode::NotFound);
}

TEST(WorksRefusal, AThirdOfOnePersonIsNotBegun) {
    Gate gate;
    Works works;
    ASSERT_TRUE(works.begin("ben", gate.job()).ok());
    const auto second = works.begin("ben", gate.job());
    ASSERT_TRUE(second.ok());
    EXPECT_EQ(works.begin("ben", gate.job()).error().code, ErrorCode::Unavailable);
    EXPECT_TRUE(works.begin("carla", gate.job()).ok());
    ASSERT_TRUE(works.cancel(*second, "ben", false).ok());
    finished(works, *second, "ben");
    EXPECT_TRUE(works.begin("ben", gate.job()).ok()) << "one has ended";
}

TEST(WorksProperty, WhatIsThrownIsToldAndEndsNothingElse) {
    Works works;
    const auto id = works.begin("ben", [](const Progress&) -> Result<std::string> { throw Bug("a secret of the inside"); });
    ASSERT_TRUE(id.ok());
    const auto state = finished(works, *id, "ben");
    ASSERT_TRUE(state.error.has_value());
    EXPECT_EQ(state.error->code, ErrorCode::Bug);
    EXPECT_EQ(state.error->message.find("secret"), std::string::npos);
}

TEST(WorksProperty, EndingTheProgramEndsTheWork) {
    Gate gate;
    {
        Works works;
        ASSERT_TRUE(works.begin("ben", gate.job()).ok());
    }  // does not hang
    Works works;
    works.stop();
    EXPECT_EQ(works.begin("ben", gate.job()).error().code, ErrorCode::Unavailable);
}

}  // namespace
}  // namespace hw::http
