// Tables in and out again.
#include <gtest/gtest.h>

#include "base/csv.hpp"

namespace hw::csv {
namespace {

TEST(CsvProperty, WhatIsWrittenIsReadBackExactly) {
    const std::vector<std::vector<std::string>> rows{{"a", "", "c"}, {""}, {"comma, inside", "quote \"x\"", "two\nlines", "two\r\nmore"}, {" spaces ", "=1+1", "\r", "ü°"}};
    std::string text;
    for (const auto& r : rows) text += written(r);
    const auto back = parse(text);
    ASSERT_TRUE(back.ok()) << back.error().message;
    ASSERT_EQ(back->size(), rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ((*back)[i].fields, rows[i]);
}

TEST(CsvProperty, TheGuardIsUndoneForEveryBeginning) {
    for (int a = 1; a < 256; ++a)
        for (const std::string tail : {"", "1", "'", "='", "''=", "-2"}) {
            const std::string field = std::string(1, static_cast<char>(a)) + tail;
            EXPECT_EQ(unguarded(guarded(field)), field);
            EXPECT_EQ(guarded(field)[0] == '\'', std::string("=+-@\t\r'").find(field[0]) != std::string::npos) << field;
        }
    EXPECT_EQ(unguarded(guarded("")), "");
    EXPECT_EQ(unguarded("'tis"), "'tis") << "an apostrophe that no guard put there stays";
}

TEST(CsvConsistency, LinesAreCountedThroughQuotedFields) {
    const auto rows = parse("a,b\n\"x\ny\",2\n\nlast,3");
    ASSERT_TRUE(rows.ok());
    ASSERT_EQ(rows->size(), 3U);
    EXPECT_EQ((*rows)[1].line, 2);
    EXPECT_EQ((*rows)[2].line, 5);
    EXPECT_EQ((*rows)[2].fields, (std::vector<std::string>{"last", "3"}));
}

TEST(CsvRefusal, NamesTheLine) {
    EXPECT_EQ(parse("a\nb\"c\n").error().where, "line 2");
    EXPECT_EQ(parse("a\n\"b").error().where, "line 2");
    EXPECT_EQ(parse("\"a\"b\n").error().where, "line 1");
    EXPECT_EQ(parse(std::string("a\0b", 3)).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(parse(std::string(bytes_limit + 1, 'a')).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(parse(std::string(fields_limit + 2, ',')).error().code, ErrorCode::OutOfRange);
}

}  // namespace
}  // namespace hw::csv
