// docs/reference/demo-answers.md is read and argued by people; what it says must be what the program says.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "desk/demo.hpp"
#include "desk/words.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> out;
    std::stringstream in(line);
    for (std::string cell; std::getline(in, cell, '|');) {
        const auto from = cell.find_first_not_of(' '), to = cell.find_last_not_of(' ');
        out.push_back(from == std::string::npos ? "" : cell.substr(from, to - from + 1));
    }
    return out;
}

TEST(DemoAnswersJourney, EveryRowOfTheArguedTableIsWhatJudgeAnswers) {
    std::ifstream in(HW_DEMO_ANSWERS);
    ASSERT_TRUE(in.is_open());
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    std::size_t rows = 0;
    for (std::string line; std::getline(in, line);) {
        const auto cells = cells_of(line);
        if (cells.size() < 6 || cells[1].rfind("demo_", 0) != 0) continue;
        JudgeRequest r;
        for (const auto& l : demo_liquids())
            if (l.id == cells[1]) r.liquid = l;
        for (const auto& l : demo_leathers())
            if (l.id == cells[2]) r.leather = l;
        ASSERT_FALSE(r.liquid.id.empty() || r.leather.id.empty()) << line;
        const auto a = judge(r, ports);
        ASSERT_TRUE(a.ok()) << a.error().message;
        EXPECT_EQ(std::string(grade_word(a->grade)), cells[3]) << line;
        const std::string agree = a->sure.members == 0 ? "–" : fixed(100 * a->sure.answer_1, 0) + " %";
        EXPECT_EQ(agree, cells[4]) << line;
        ++rows;
    }
    EXPECT_EQ(rows, 2 * demo_liquids().size());
}

}  // namespace
