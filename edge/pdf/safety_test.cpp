// The safety card and the note for the household: one page each, same card, same bytes.
#include <gtest/gtest.h>

#include "edge/pdf/printer.hpp"
#include "desk/protect.hpp"

namespace hw::pdf {
namespace {

desk::ProtectAnswer card(int lines_each) {
    desk::ProtectAnswer a;
    a.version = "hidewright";
    a.at = "2026-01-02T03:04:05Z";
    a.sentence = "The air stays under the limits that were found.";
    a.place.name = "room";
    for (const char* name : {"Before and while", "Gloves", "Eyes", "Breathing", "Who leaves", "Fire", "Waste", "Storage"}) {
        desk::SafetyPart p;
        p.key = p.name = name;
        for (int i = 0; i < lines_each; ++i) p.lines.push_back({"k", "Line " + std::to_string(i) + ": windows open before the lid comes off, and nobody stays who does not work there.", {}});
        a.parts.push_back(p);
    }
    a.note.title = "While we work on your leather";
    for (int i = 0; i < lines_each; ++i) a.note.stay_out.push_back("Person " + std::to_string(i) + " stays out until it is dry and nothing smells.");
    return a;
}

/// Objects that are pages, by the page tree's own count.
std::string pages_told(const std::string& pdf) {
    const auto at = pdf.find("/Count ");
    return at == std::string::npos ? "none" : pdf.substr(at + 7, pdf.find_first_not_of("0123456789", at + 7) - at - 7);
}

TEST(SafetyPaperProperty, CardAndNoteAreOnePageAndTheSameBytesTwice) {
    PdfPrinter printer;
    for (const auto kind : {desk::PageKind::Technical, desk::PageKind::Owner})
        for (const auto paper : {desk::Paper::A4, desk::Paper::Letter})
            for (const int lines : {1, 6}) {
                auto a = card(lines);
                const auto one = printer.page(a, kind, paper), two = printer.page(a, kind, paper);
                ASSERT_TRUE(one.ok() && two.ok());
                EXPECT_EQ(*one, *two);
                EXPECT_EQ(pages_told(*one), "1");
                a.at = "2026-01-03T03:04:05Z";
                EXPECT_NE(*printer.page(a, kind, paper), *one);
            }
}

TEST(SafetyPaperRefusal, MoreThanOnePageHoldsIsRefusedNotCutOff) {
    PdfPrinter printer;
    const auto a = printer.page(card(80), desk::PageKind::Technical, desk::Paper::A4);
    ASSERT_FALSE(a.ok());
    EXPECT_EQ(a.error().where, "items");
}

}  // namespace
}  // namespace hw::pdf
