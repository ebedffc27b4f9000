#include "edge/codec/calendar.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace {

using namespace hw;

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::size_t from = 0;
    for (std::size_t at; (at = text.find("\r\n", from)) != std::string::npos; from = at + 2) out.push_back(text.substr(from, at - from));
    EXPECT_EQ(from, text.size()) << "the last line ends as every line";
    return out;
}

desk::SpotDue due(const std::string& sentence) {
    desk::SpotDue d;
    d.spot = "00000000-0000-7000-8000-000000000001";
    d.what = "Read it dry";
    d.at = "2026-03-02T13:00:00Z";
    d.sentence = sentence;
    d.place = "Underside border";
    return d;
}

TEST(CalendarProperty, NoLineIsLongerThanSeventyFiveOctetsAndUnfoldingGivesItBack) {
    std::string text;
    for (int i = 0; i < 60; ++i) {
        text += i % 3 == 0 ? "ü" : i % 3 == 1 ? "€" : "a,";
        const std::string folded = codec::folded(text);
        std::string back;
        for (const auto& line : lines_of(folded)) {
            EXPECT_LE(line.size(), 75u);
            back += back.empty() ? line : line.substr(1);
            // A character that was cut would begin with a byte that continues one.
            const std::size_t first = back.size() == line.size() ? 0 : 1;
            if (line.size() > first) {
                EXPECT_NE(static_cast<unsigned char>(line[first]) & 0xC0U, 0x80U);
            }
        }
        EXPECT_EQ(back, text);
    }
}

TEST(CalendarConsistency, AnEventHasWhatTheStandardWants) {
    const std::string file = codec::calendar_written({due("Read it dry: wash, mild; on seat\nof Sofa \\ red.")}, "2026-03-02T09:00:00.123Z");
    const auto lines = lines_of(file);
    ASSERT_GE(lines.size(), 10u);
    EXPECT_EQ(lines.front(), "BEGIN:VCALENDAR");
    EXPECT_EQ(lines[1], "VERSION:2.0");
    EXPECT_EQ(lines.back(), "END:VCALENDAR");
    const auto has = [&](const std::string& line) { return std::find(lines.begin(), lines.end(), line) != lines.end(); };
    EXPECT_TRUE(has("UID:00000000-0000-7000-8000-000000000001-dry@hidewright"));
    EXPECT_TRUE(has("DTSTAMP:20260302T090000Z"));
    EXPECT_TRUE(has("DTSTART:20260302T130000Z"));
    EXPECT_TRUE(has("SUMMARY:Read it dry: wash\\, mild\\; on seat\\nof Sofa \\\\ red."));
    EXPECT_FALSE(has("BEGIN:VALARM"));
    EXPECT_EQ(codec::calendar_written({}, "2026-03-02T09:00:00Z").find("VEVENT"), std::string::npos);
}

}  // namespace
