#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "core/sheet/facts.hpp"
#include "core/sheet/paper.inc"

namespace hw::sheet {
namespace {

using paper::sheet;
using paper::Typist;

Facts facts_of(const Document& d) { return read(d).value(); }
template <class Write>
Facts facts_with(int section, Write write) {
    return facts_of(sheet([&](int n, Typist& t) { if (n == section) write(t); }));
}
std::vector<std::string> codes_of(const Facts& f) {
    std::vector<std::string> out;
    for (const auto& c : f.codes) out.push_back(c.value.code);
    return out;
}
using Strings = std::vector<std::string>;

// ---- kinds of documents

TEST(SheetRefusal, APileOfPicturesHasNoText) {
    Document scan;
    scan.pages.push_back({595, 842, {}});
    EXPECT_EQ(kind_of(scan), Kind::NoText);
    const auto r = read(scan);
    ASSERT_FALSE(r.ok());
    EXPECT_EQ(r.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(r.error().where, "sheet.no_text");
    EXPECT_EQ(kind_of(Document{}), Kind::NoText) << "no pages at all";
}

TEST(SheetRefusal, ALetterThatNamesAFewSectionsIsNoSheet) {
    Typist t;
    for (int i = 0; i < 3; ++i) {
        t.line("Dear customer, please read section 8 (exposure controls/personal protection) before use.");
        t.title("First aid measures");
        t.line("are on page two of the sheet. Handling and storage are explained there as well.");
        t.title("Transport information");
    }
    EXPECT_EQ(kind_of(t.document), Kind::NotASheet);
    EXPECT_EQ(read(t.document).error().where, "sheet.not_a_sheet");
}

TEST(SheetRefusal, HalfOfTheTitlesMakeASheetOneLessDoesNot) {
    const auto with = [](int titles) {
        Typist t;
        for (int n = 1; n <= titles; ++n) {
            t.title("SECTION " + std::to_string(n) + ": " + paper::titles()[static_cast<std::size_t>(n) - 1]);
            t.line("Words under this title, enough of them for a page with text on it.");
        }
        return kind_of(t.document);
    };
    EXPECT_EQ(with(8), Kind::Sheet);
    EXPECT_EQ(with(7), Kind::NotASheet);
}

// ---- titles

TEST(SectionsProperty, AnyDressOfTheTitlesIsFound) {
    for (const std::string& head : Strings{"SECTION # - ", "#. ", "# ", "Section #: ", "#.0 ", "#) ", "SECTION #. "}) {
        Typist t;
        for (int n = 1; n <= 16; ++n) {
            std::string h = head;
            h.replace(h.find('#'), 1, std::to_string(n));
            t.bold = true;
            t.line(h + paper::titles()[static_cast<std::size_t>(n) - 1]);
            t.bold = false;
            t.line(std::to_string(n) + ".1 A heading of the second order");
            t.line("Some words, see section 3 and section 12 of this sheet.");
        }
        const Facts f = facts_of(t.document);
        for (const Section& s : f.sections) EXPECT_EQ(s.title.page, 1) << head << " section " << s.number;
        EXPECT_NE(f.sections[8].text.find("9.1 A heading"), std::string::npos) << head;
    }
}

TEST(SectionsProperty, TitlesInLettersSetWideApartAreFound) {
    Typist t;
    for (int n = 1; n <= 16; ++n) {
        std::string wide;
        for (const char c : paper::titles()[static_cast<std::size_t>(n) - 1]) (wide += c) += ' ';
        t.line(std::to_string(n) + " . " + wide.substr(0, 90), 40);
        if (wide.size() > 90) t.line(wide.substr(90), 40);
        t.line("Words under the title which say little.");
    }
    EXPECT_EQ(kind_of(t.document), Kind::Sheet);
}

TEST(SectionsProperty, ATableOfContentsIsNotTheSections) {
    Typist t;
    for (int n = 1; n <= 16; ++n) t.line(std::to_string(n) + ". " + paper::titles()[static_cast<std::size_t>(n) - 1] + " ........ " + std::to_string(n / 4 + 2));
    t.new_page();
    for (int n = 1; n <= 16; ++n) {
        t.title(std::to_string(n) + ". " + paper::titles()[static_cast<std::size_t>(n) - 1]);
        t.line("Words of the section itself.");
    }
    for (const Section& s : facts_of(t.document).sections) EXPECT_EQ(s.title.page, 2) << s.number;
}

TEST(SectionsProperty, HeadsAndFeetOfPagesAreNoTextOfASection) {
    Typist t;
    int page = 0;
    const auto frame = [&] {
        if (page++ > 0) t.new_page();
        t.y = 30;
        t.line("Invented Works     Degreaser     Revision date: 2024-03-05");
        t.y = 820;
        t.line("Page " + std::to_string(page) + " of 4");
        t.y = 80;
    };
    for (int n = 1; n <= 16; ++n) {
        if ((n - 1) % 4 == 0) frame();
        t.title("SECTION " + std::to_string(n) + ": " + paper::titles()[static_cast<std::size_t>(n) - 1]);
        t.line("Words of section " + std::to_string(n) + ".");
    }
    const Facts f = facts_of(t.document);
    for (const Section& s : f.sections) {
        EXPECT_EQ(s.text.find("Invented Works"), std::string::npos) << s.number;
        EXPECT_EQ(s.text.find("Page "), std::string::npos) << s.number;
    }
    ASSERT_TRUE(f.revision_date);
    EXPECT_EQ(f.revision_date->value, "2024-03-05") << "but what a head says is read";
}

TEST(SectionsProperty, TwoColumnsAreReadOneAfterTheOther) {
    Typist t;
    const double top = t.y;
    for (int n = 1; n <= 16; ++n) {
        const double x = n <= 8 ? 50 : 310;
        if (n == 9) t.y = top;
        t.bold = true;
        t.line("SECTION " + std::to_string(n) + ": " + paper::titles()[static_cast<std::size_t>(n) - 1].substr(0, 34), x);
        if (paper::titles()[static_cast<std::size_t>(n) - 1].size() > 34) t.line(paper::titles()[static_cast<std::size_t>(n) - 1].substr(34), x);
        t.bold = false;
        if (n == 9) t.line("pH: 7.5 (10 % in water)", x);
        t.line("Words that fill the column from its left edge to", x);
        t.line("its right, as words in a column of a sheet will", x);
        t.line("mark" + std::to_string(n), x);
    }
    const Facts f = facts_of(t.document);
    EXPECT_NE(f.sections[2].text.find("mark3"), std::string::npos);
    EXPECT_EQ(f.sections[2].text.find("mark11"), std::string::npos) << "the other column is not mixed in";
    ASSERT_TRUE(f.ph);
    EXPECT_EQ(*f.ph->value.low_ph, 7.5);
}

TEST(SectionsProperty, PagesOnTheirSideAreTurnedBack) {
    const Document d = sheet([](int n, Typist& t) { if (n == 9) t.line("Flash point: 62 °C"); });
    Document turned;
    for (const Page& p : d.pages) {
        Page q{p.height, p.width, {}};
        for (Word w : p.words) {
            const Word o = w;
            w.x0 = p.height - o.y1; w.x1 = p.height - o.y0; w.y0 = o.x0; w.y1 = o.x1;
            w.turned_deg = 90;
            q.words.push_back(w);
        }
        turned.pages.push_back(q);
    }
    const Facts f = facts_of(turned);
    ASSERT_TRUE(f.flash_point);
    EXPECT_EQ(*f.flash_point->value.celsius, 62);
}

TEST(SectionsProperty, TitlesInTheMarginBesideTheirText) {
    Typist t;
    for (int n = 1; n <= 16; ++n) {
        if (t.y > 700) t.new_page();
        std::istringstream words(std::to_string(n) + " " + paper::titles()[static_cast<std::size_t>(n) - 1]);
        std::vector<std::string> head{""};
        for (std::string w; words >> w;) {
            if (!head.back().empty() && head.back().size() + w.size() > 18) head.emplace_back();
            head.back() += (head.back().empty() ? "" : " ") + w;
        }
        for (std::size_t k = 0; k < std::max<std::size_t>(head.size(), 3); ++k) {
            if (k < head.size()) t.at(50, head[k]);
            t.at(190, k == 0 && n == 9 ? "pH: 8.5" : "Running words of the section that reach to the right edge");
            t.down();
        }
        t.down(0.5);
    }
    ASSERT_EQ(kind_of(t.document), Kind::Sheet);
    const Facts f = facts_of(t.document);
    for (const Section& s : f.sections) EXPECT_GT(s.title.page, 0) << s.number;
    ASSERT_TRUE(f.ph);
    EXPECT_EQ(f.ph->value.low_ph, 8.5);
}

TEST(SectionsProperty, TitlesInTwoLanguages) {
    const Strings french{"Identification de la substance/du mélange et de la société/l'entreprise", "Identification des dangers", "Composition/informations sur les composants", "Premiers secours",
        "Mesures de lutte contre l'incendie", "Mesures à prendre en cas de dispersion accidentelle", "Manipulation et stockage", "Contrôles de l'exposition/protection individuelle", "Propriétés physiques et chimiques", "Stabilité et réactivité"};
    Typist t;
    for (std::size_t n = 0; n < french.size(); ++n) {
        t.title(std::to_string(n + 1) + ". " + french[n] + " / " + paper::titles()[n].substr(0, n == 0 ? 50 : 99));
        if (n == 0) t.line("company/undertaking");
        t.line("Des mots de cette rubrique, sans importance.");
    }
    const Facts f = facts_of(t.document);
    EXPECT_EQ(f.language, "fr");
    for (std::size_t n = 0; n < french.size(); ++n) EXPECT_EQ(f.sections[n].title.page, 1) << n + 1;
}

TEST(SectionsProperty, AWatermarkDisturbsNothing) {
    Document d = sheet([](int n, Typist& t) { if (n == 9) t.line("Flash point: 62 °C"); });
    for (Page& p : d.pages) {
        p.words.push_back({150, 300, 420, 420, 1, "COPY", 95, true, 0});
        p.words.push_back({150, 100, 260, 520, 1, "DRAFT", 90, true, 270});
    }
    EXPECT_EQ(*facts_of(d).flash_point->value.celsius, 62);
}

TEST(SectionsProperty, AFontThatReportsTwiceItsSizeIsSetRight) {
    Document d = sheet([](int n, Typist& t) {
        if (n == 3) {
            t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}});
            t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "25 - 50 %"}});
            t.row({{50, "ethanol"}, {230, "64-17-5"}, {320, "5 - 10 %"}});
        }
    });
    for (Page& p : d.pages)
        for (Word& w : p.words) {
            const double baseline = w.y0 + 0.95 * w.size_pt;
            w.size_pt *= 2;
            w.y0 = baseline - 0.95 * w.size_pt;
            w.y1 = baseline + 0.35 * w.size_pt;
        }
    const Facts f = facts_of(d);
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_EQ(f.ingredients[0].name.value, "acetone");
    EXPECT_EQ(*f.ingredients[1].range->value.high_pct, 10);
}

// ---- the front page

TEST(FrontProperty, ProductAndSupplierInEachDress) {
    const Facts inline_ = facts_with(1, [](Typist& t) { t.line("Product name: Torvik Degreaser 40"); t.line("Supplier: Invented Works Ltd"); });
    const Facts table = facts_with(1, [](Typist& t) { t.row({{50, "Trade name"}, {220, "Torvik Degreaser 40"}}); t.row({{50, "Manufacturer"}, {220, "Invented Works Ltd"}}); });
    const Facts stacked = facts_with(1, [](Typist& t) {
        t.line("1.1 Product identifier"); t.line("Product name"); t.line("Torvik Degreaser 40");
        t.line("1.3 Details of the supplier of the safety data sheet"); t.line("Invented Works Ltd"); });
    const Facts dots = facts_with(1, [](Typist& t) { t.line("Product name ............ Torvik Degreaser 40"); t.line("Supplier . . . . . . . . . Invented Works Ltd"); });
    for (const Facts* f : {&inline_, &table, &stacked, &dots}) {
        ASSERT_TRUE(f->product && f->supplier);
        EXPECT_EQ(f->product->value, "Torvik Degreaser 40");
        EXPECT_EQ(f->supplier->value, "Invented Works Ltd");
        EXPECT_EQ(f->product->place.words, "Torvik Degreaser 40") << "the place is where the value stands";
        EXPECT_EQ(f->product->place.page, 1);
    }
}

TEST(FrontProperty, DatesOfBothContinents) {
    const auto date = [](const std::string& line, bool us = false) {
        return facts_with(16, [&](Typist& t) { if (us) t.line("Prepared under 29 CFR 1910.1200."); t.line(line); }).revision_date->value;
    };
    EXPECT_EQ(date("Revision date: 05.03.2024"), "2024-03-05");
    EXPECT_EQ(date("Revision date: 05/03/2024"), "2024-03-05");
    EXPECT_EQ(date("Revision date: 05/03/2024", true), "2024-05-03");
    EXPECT_EQ(date("Revision date: 13/03/2024", true), "2024-03-13") << "13 is no month";
    EXPECT_EQ(date("Revision date: 2024-03-05"), "2024-03-05");
    EXPECT_EQ(date("Revision date: 5 March 2024"), "2024-03-05");
    EXPECT_EQ(date("Revision date: March 5, 2024"), "2024-03-05");
    EXPECT_EQ(date("Revision date: 5-Mar-2024"), "2024-03-05");
    EXPECT_EQ(date("Print date: 06.03.2025 Revision date: 05.03.2024"), "2024-03-05");
}

TEST(FrontProperty, AVersionIsNoDate) {
    EXPECT_EQ(facts_with(16, [](Typist& t) { t.line("Version 3.1 / Revised: 05.03.2024"); }).revision->value, "3.1");
    EXPECT_FALSE(facts_with(16, [](Typist& t) { t.line("Revision: 05.03.2024"); }).revision);
}

TEST(FrontProperty, ARevisionByLetterBehindADateAndInAFoot) {
    const auto revision = [](const std::string& line) { const auto f = facts_with(1, [&](Typist& t) { t.line(line); }); return f.revision ? f.revision->value : std::string{}; };
    EXPECT_EQ(revision("Revision: B"), "B");
    EXPECT_EQ(revision("Revision: 05-B"), "05-B");
    EXPECT_EQ(revision("Revision date: 31 August 2022, version 3"), "3");
    EXPECT_EQ(revision("Revision: Betty has read it"), "");
    Document d = sheet([](int n, Typist& t) { if (n == 8) t.new_page(); });
    for (Page& p : d.pages) {
        Typist t;
        t.document.pages = {{595, 842, {}}};
        t.y = 20;
        t.line("Invented Works Leather oil rev. 05-B 2023-04-05");
        for (Word w : t.document.pages[0].words) { w.page = static_cast<int>(&p - d.pages.data()) + 1; p.words.push_back(w); }
    }
    ASSERT_GE(d.pages.size(), 2U);
    const Facts f = facts_of(d);
    ASSERT_TRUE(f.revision);
    EXPECT_EQ(f.revision->value, "05-B");
}

TEST(FrontProperty, LabelsSetToTheRightCloseToTheirValues) {
    const Facts f = facts_with(1, [](Typist& t) {
        const auto label = [&](const std::string& text, const std::string& value) {
            if (!text.empty()) t.at(200 - static_cast<double>(text.size()) * 5 + 2.2 * static_cast<double>(std::count(text.begin(), text.end(), ' ')), text);
            t.at(205, value);
            t.down();
        };
        label("Trade name", "Marsh wipes for smooth leather");
        label("Use", "Light cleaning of seats");
        label("Supplier", "Invented Works");
        label("", "Tanner's Row 5");
        label("", "Telephone 956");
    });
    EXPECT_EQ(f.product->value, "Marsh wipes for smooth leather");
    EXPECT_EQ(f.supplier->value, "Invented Works");
}

TEST(FrontProperty, TheUfiIsReadWhereverItStands) {
    EXPECT_EQ(facts_with(1, [](Typist& t) { t.row({{50, "UFI:"}, {220, "N1QV-R02N-J00M-WQD5"}}); }).ufi->value, "N1QV-R02N-J00M-WQD5");
    EXPECT_EQ(facts_with(1, [](Typist& t) { t.line("UFI"); t.line("N1QV-R02N-J00M-WQD5", 56); }).ufi->value, "N1QV-R02N-J00M-WQD5");
    EXPECT_FALSE(facts_with(1, [](Typist& t) { t.line("Order number ABCD-EFGH-1234-5678"); }).ufi) << "sixteen letters alone are none";
}

// ---- section 2

TEST(CodesProperty, PrintedCodesInTheirOrderCombinedOnesWhole) {
    const Facts f = facts_with(2, [](Typist& t) {
        t.line("Skin Corr. 1B, H314; Met. Corr. 1; H290");
        t.line("Signal word: Danger");
        t.line("H314 Causes severe skin burns and eye damage.");
        t.line("P305 + P351 + P338 IF IN EYES: Rinse cautiously with water for several minutes.");
        t.line("P303+P361+P353 IF ON SKIN (or hair): Take off immediately all contaminated clothing.");
        t.line("EUH208 Contains something. May produce an allergic reaction.");
        t.line("H361d, H360FD and H350i are written with their letters.");
    });
    EXPECT_EQ(codes_of(f), (Strings{"H314", "H290", "P305+P351+P338", "P303+P361+P353", "EUH208", "H361d", "H360FD", "H350i"}));
    EXPECT_EQ(f.codes[0].value.wording, "Causes severe skin burns and eye damage.");
    EXPECT_FALSE(f.codes[0].value.from_wording);
    EXPECT_EQ(f.signal_word->value, "danger");
}

TEST(CodesProperty, StatementsWithoutCodesAreKnownByTheirWording) {
    const Facts f = facts_with(2, [](Typist& t) {
        t.line("Hazard statements:");
        t.line("Highly flammable liquid and vapour. Causes serious eye irritation. May cause drowsi-");
        t.line("ness or dizziness.");
        t.line("IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if");
        t.line("present and easy to do. Continue rinsing. Store locked up.");
    });
    EXPECT_EQ(codes_of(f), (Strings{"H225", "H319", "H336", "P305+P351+P338", "P405"}));
    for (const auto& c : f.codes) {
        EXPECT_TRUE(c.value.from_wording);
        EXPECT_LT(c.confidence, 0.95);
    }
}

TEST(CodesProperty, AWordingInsideALongerOneIsNotCountedTwice) {
    EXPECT_EQ(codes_of(facts_with(2, [](Typist& t) { t.line("Very toxic to aquatic life with long lasting effects."); })), Strings{"H410"});
    EXPECT_EQ(codes_of(facts_with(2, [](Typist& t) { t.line("Causes severe skin burns and eye damage."); })), Strings{"H314"});
}

TEST(CodesProperty, NumbersThatLookLikeCodesAreNone) {
    EXPECT_TRUE(codes_of(facts_with(2, [](Typist& t) { t.line("Tank P100 holds 300 l, DIN H999, pH 7, H2O2, part PH3145 and 2H314."); })).empty());
}

TEST(CodesProperty, NoSignalWordIsSaidOrNotSaid) {
    EXPECT_EQ(facts_with(2, [](Typist& t) { t.line("Signal word: None"); }).signal_word->value, "none");
    EXPECT_FALSE(facts_with(2, [](Typist& t) { t.line("Nothing about it."); }).signal_word);
    EXPECT_EQ(facts_with(2, [](Typist& t) { t.bold = true; t.line("WARNING"); t.bold = false; }).signal_word->value, "warning");
}

// ---- section 3

TEST(CasReference, CheckDigitOfWater) {
    EXPECT_TRUE(cas_is_right("7732-18-5"));           // casrn: 8*1 + 1*2 + 2*3 + 3*4 + 7*5 + 7*6 = 105
    EXPECT_FALSE(cas_is_right("7732-18-6"));
    EXPECT_FALSE(cas_is_right("7732-81-5"));
    EXPECT_FALSE(cas_is_right("0732-18-5"));
    EXPECT_FALSE(cas_is_right("7732-185"));
    EXPECT_FALSE(cas_is_right(""));
}

TEST(IngredientsProperty, AWrongCheckDigitIsToldAndNeverRepaired) {
    const Facts f = facts_with(3, [](Typist& t) {
        t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}});
        t.row({{50, "sodium hydroxide"}, {230, "1310-73-3"}, {320, "2 - 5 %"}});
        t.row({{50, "ethanol"}, {230, "64-17-5"}, {320, "5 - 10 %"}});
    });
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_FALSE(f.ingredients[0].cas);
    EXPECT_EQ(f.ingredients[0].bad_cas->value, "1310-73-3");
    ASSERT_EQ(f.bad_cas.size(), 1U);
    EXPECT_EQ(f.bad_cas[0].value, "1310-73-3");
}

TEST(IngredientsProperty, RangesOpenAndClosed) {
    struct Case { std::string text; double low, high; bool low_open, high_open; };      // -1: that side is open-ended
    for (const Case& c : {Case{">= 10 - < 25 %", 10, 25, false, true}, Case{"≥ 5 - < 10", 5, 10, false, true}, Case{"5–15", 5, 15, false, false}, Case{"<= 3", -1, 3, false, false}, Case{"< 3 %", -1, 3, false, true},
                          Case{"> 60 %", 60, -1, true, false}, Case{"> 1 - ≤ 2,5", 1, 2.5, true, false}, Case{"30 %", 30, 30, false, false}, Case{"10% - 20%", 10, 20, false, false}, Case{"2,5 - 10 %", 2.5, 10, false, false},
                          Case{"1 to 5 %", 1, 5, false, false}, Case{"up to 5 %", -1, 5, false, false}, Case{"<0.1%", -1, 0.1, false, true}, Case{"0.0002 - < 0.0015", 0.0002, 0.0015, false, true}, Case{"10-<20%", 10, 20, false, true}}) {
        const Facts f = facts_with(3, [&](Typist& t) {
            t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}});
            t.row({{50, "acetone"}, {230, "67-64-1"}, {320, c.text}});
        });
        ASSERT_EQ(f.ingredients.size(), 1U) << c.text;
        ASSERT_TRUE(f.ingredients[0].range) << c.text;
        const Range& r = f.ingredients[0].range->value;
        EXPECT_EQ(r.low_pct.value_or(-1), c.low) << c.text;
        EXPECT_EQ(r.high_pct.value_or(-1), c.high) << c.text;
        EXPECT_EQ(r.low_open, c.low_open) << c.text;
        EXPECT_EQ(r.high_open, c.high_open) << c.text;
    }
}

TEST(IngredientsProperty, BoundsAroundALetterAndSharesByWeight) {
    const auto range = [](const std::string& text) {
        const Facts f = facts_with(3, [&](Typist& t) {
            t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Content"}});
            t.row({{50, "acetone"}, {230, "67-64-1"}, {320, text}});
        });
        EXPECT_EQ(f.ingredients.size(), 1U) << text;
        EXPECT_TRUE(f.ingredients[0].range) << text;
        return f.ingredients[0].range ? f.ingredients[0].range->value : Range{};
    };
    for (const char* text : {"2.5 <= x < 10 %", "2.5 ≤ C < 10", "2.5 <= x % < 10", ">= 2.5 - < 10 wt%"}) {
        const Range r = range(text);
        EXPECT_EQ(r.low_pct, 2.5) << text; EXPECT_FALSE(r.low_open) << text;
        EXPECT_EQ(r.high_pct, 10) << text; EXPECT_TRUE(r.high_open) << text;
    }
    EXPECT_TRUE(range("1 < x <= 5").low_open);
    EXPECT_EQ(range("between 1 and 5").high_pct, 5);
    const Range one = range("5 Gew.-%");
    EXPECT_EQ(one.low_pct, 5); EXPECT_EQ(one.high_pct, 5);
}

TEST(IngredientsProperty, ASentenceUnderTheTableASpecificLimitAndAHolderAreNoPartOfARow) {
    const Facts f = facts_with(3, [](Typist& t) {
        t.row({{50, "Chemical name"}, {200, "REACH No."}, {340, "%"}, {400, "Classification"}});
        t.row({{50, "acetone|67-64-1"}, {200, "01-2119471330-49-|XXXX"}, {340, "5 - 10"}, {400, "Flam. Liq. 2, H225|H336: C ≥ 20 %"}});
        t.row({{50, "water|7732-18-5"}, {340, "70 - 80"}});
        t.line("Exact shares are not told where a range is shown.");
    });
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_EQ(f.ingredients[0].reach->value, "01-2119471330-49");
    ASSERT_EQ(f.ingredients[0].codes.size(), 1U);
    EXPECT_EQ(f.ingredients[0].codes[0].value, "H225");
    EXPECT_EQ(f.ingredients[1].name.value, "water");
}

TEST(IngredientsProperty, WrappedRowsWithIdentifiersUnderOneAnother) {
    const Facts f = facts_with(3, [](Typist& t) {
        t.row({{50, "Substance"}, {200, "Identifiers"}, {340, "Classification"}, {480, "%"}});
        t.row({{50, "alcohols, C12-14,|ethoxylated,|sulphates, sodium|salts"}, {200, "CAS: 68891-38-3|EC: 500-234-8|REACH: 01-2119488639-|16"}, {340, "Skin Irrit. 2, H315,|Eye Dam. 1, H318,|Aquatic Chronic 3,|H412"}, {480, "≥ 5 - < 10"}});
        t.row({{50, "2-aminoethanol"}, {200, "CAS: 141-43-5|EC: 205-483-3"}, {340, "Skin Corr. 1B, H314"}, {480, "1 - 5"}});
    });
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_EQ(f.ingredients[0].name.value, "alcohols, C12-14, ethoxylated, sulphates, sodium salts");
    EXPECT_EQ(f.ingredients[0].cas->value, "68891-38-3");
    EXPECT_EQ(f.ingredients[0].ec->value, "500-234-8");
    EXPECT_EQ(f.ingredients[0].reach->value, "01-2119488639-16");
    EXPECT_EQ(f.ingredients[0].codes.size(), 3U);
    EXPECT_TRUE(f.ingredients[0].range->value.high_open);
    EXPECT_EQ(f.ingredients[1].name.value, "2-aminoethanol");
    EXPECT_EQ(f.ingredients[1].codes[0].value, "H314");
}

TEST(IngredientsProperty, ATableOverAPageBreakWithItsHeadRepeated) {
    Typist t;
    for (int n = 1; n <= 16; ++n) {
        t.title("SECTION " + std::to_string(n) + ": " + paper::titles()[static_cast<std::size_t>(n) - 1]);
        if (n != 3) { t.line("Words of this section."); continue; }
        const auto head = [&] { t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}, {420, "Classification"}}); };
        head();
        t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "25 - 50 %"}, {420, "Flam. Liq. 2, H225,|Eye Irrit. 2, H319,"}});
        t.new_page();
        head();
        t.row({{420, "STOT SE 3, H336,|EUH066"}});
        t.row({{50, "ethanol"}, {230, "64-17-5"}, {320, "5 - 10 %"}, {420, "Flam. Liq. 2, H225"}});
    }
    const Facts f = facts_of(t.document);
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_EQ(f.ingredients[0].codes.size(), 4U) << "what goes on over the page belongs to the row before it";
    EXPECT_EQ(f.ingredients[1].name.value, "ethanol");
}

TEST(IngredientsProperty, BlocksOfLabelsAndSentences) {
    const Facts blocks = facts_with(3, [](Typist& t) {
        for (const auto& [name, cas, range] : {std::tuple{"acetone", "67-64-1", "25 - 50 %"}, {"ethanol", "64-17-5", "5 - < 10 %"}}) {
            t.line(std::string("Chemical name: ") + name);
            t.line(std::string("CAS No.: ") + cas);
            t.line(std::string("Concentration: ") + range);
        }
    });
    const Facts sentences = facts_with(3, [](Typist& t) {
        t.line("• acetone (CAS 67-64-1): 25 - 50 %");
        t.line("• ethanol (CAS 64-17-5): 5 - < 10 %");
    });
    for (const Facts* f : {&blocks, &sentences}) {
        ASSERT_EQ(f->ingredients.size(), 2U);
        EXPECT_EQ(f->ingredients[0].name.value, "acetone");
        EXPECT_EQ(f->ingredients[1].cas->value, "64-17-5");
        EXPECT_EQ(*f->ingredients[1].range->value.low_pct, 5);
        EXPECT_TRUE(f->ingredients[1].range->value.high_open);
    }
    EXPECT_LT(sentences.ingredients[0].confidence, blocks.ingredients[0].confidence);
}

TEST(IngredientsProperty, ATradeSecretHasNoNumberAndKeepsItsRange) {
    const Facts f = facts_with(3, [](Typist& t) {
        t.row({{50, "Ingredient"}, {230, "CAS number"}, {320, "% by weight"}});
        t.row({{50, "surfactant"}, {230, "Trade secret"}, {320, "5 - 10"}});
        t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "Proprietary"}});
    });
    ASSERT_EQ(f.ingredients.size(), 2U);
    EXPECT_TRUE(f.ingredients[0].trade_secret);
    EXPECT_FALSE(f.ingredients[0].cas);
    EXPECT_EQ(*f.ingredients[0].range->value.high_pct, 10);
    EXPECT_TRUE(f.ingredients[1].trade_secret);
    EXPECT_FALSE(f.ingredients[1].range);
}

// ---- section 9

TEST(PropertiesProperty, PhWithItsConditions) {
    const auto ph = [](const std::string& line) { return facts_with(9, [&](Typist& t) { t.line(line); }).ph->value; };
    Ph p = ph("pH: 12.0 - 12.6 (1 % in water, 20 °C)");
    EXPECT_EQ(*p.low_ph, 12.0); EXPECT_EQ(*p.high_ph, 12.6); EXPECT_EQ(*p.concentration_pct, 1); EXPECT_EQ(*p.celsius, 20);
    p = ph("pH (10 g/l, 20 °C): 7,5");
    EXPECT_EQ(*p.low_ph, 7.5); EXPECT_EQ(*p.high_ph, 7.5); EXPECT_EQ(*p.concentration_pct, 1);
    p = ph("pH value 9.5");
    EXPECT_EQ(*p.low_ph, 9.5); EXPECT_FALSE(p.concentration_pct);
    p = ph("pH: > 12");
    EXPECT_EQ(*p.low_ph, 12); EXPECT_FALSE(p.high_ph);
    EXPECT_TRUE(ph("pH: not applicable").not_applicable);
    EXPECT_FALSE(facts_with(9, [](Typist& t) { t.line("pH: no data available"); }).ph);
}

TEST(PropertiesIssue, ThePhOfADilutionIsNotThatOfTheBottle) {
    // A strong alkali measured 1:100 was taken for the liquid in the bottle.
    const auto ph = [](const std::string& line) { return facts_with(9, [&](Typist& t) { t.line(line); }).ph->value; };
    struct Case { std::string line; double pct; bool unclear; };
    for (const Case& c : {Case{"pH: 11.0 (1:100 dilution)", 1, true}, Case{"pH: 11.0 (1 : 10 in Wasser)", 10, true}, Case{"pH-Wert: 11,0 (1:10 in Wasser)", 10, true}, Case{"pH: 11.0 (1 + 9)", 10, false}, Case{"pH: 11.0 (1:1 in water)", 50, false},
                          Case{"pH: 11.0 (1/100)", 1, true}, Case{"pH: 11.0 (1 in 20)", 5, false}, Case{"pH: 11.0 (10 g/l)", 1, false}, Case{"pH: 11.0 (10 g / l, 20 °C)", 1, false}, Case{"pH: 11.0 (1 g/100 ml)", 1, false},
                          Case{"pH: 11.0 (100 mg/l)", 0.01, false}, Case{"pH: 11.0 (solution at 1 %)", 1, false}, Case{"pH: 11,0 (10 ml/l)", 1, false}, Case{"pH (1:10): 11.0", 10, true}, Case{"pH: 11.0 (1%ige Lösung)", 1, false}}) {
        const Ph p = ph(c.line);
        EXPECT_EQ(p.low_ph, 11.0) << c.line;
        EXPECT_EQ(p.high_ph, 11.0) << c.line;
        ASSERT_TRUE(p.concentration_pct.has_value()) << c.line;
        EXPECT_DOUBLE_EQ(*p.concentration_pct, c.pct) << c.line;
        EXPECT_EQ(p.unclear, c.unclear) << c.line;
    }
    for (const char* line : {"pH: 11.0 (verdünnt)", "pH: 11,0 verdünnt", "pH: 11.0 (dilué)", "pH: 11,0 (diluido)", "pH: 11.0 (aqueous solution)", "pH: 11.0 (wässrige Lösung, 20 °C)", "pH: 11.0 (diluted)", "pH: 11.0 (en solución acuosa)", "pH: 11.0 (solution dans l'eau)"}) {
        const Ph p = ph(line);
        EXPECT_EQ(p.low_ph, 11.0) << line;
        EXPECT_TRUE(p.diluted) << line;
        EXPECT_FALSE(p.concentration_pct.has_value()) << line;
    }
    for (const char* line : {"pH: 11.0 (undiluted)", "pH: 11.0 (unverdünnt, 20 °C)", "pH: 11,0 (non dilué)", "pH: 11,0 (sin diluir)", "pH: 11.0 (as supplied, 68 °F)", "pH: 11.0 (concentrate)", "pH: 11,5 à 12,5 (pur, à 20 °C)", "pH: 10 - 11 bei 20 °C", "pH: 11.0 (20 °C, DIN 19268)",
                             "pH: 11.0 (ISO 4316:1977)", "pH: 7/8", "pH: 11.0", "pH value at 25 °C: 9.5 - 10.5"}) {
        const Ph p = ph(line);
        EXPECT_FALSE(p.concentration_pct.has_value()) << line;
        EXPECT_FALSE(p.diluted) << line;
        EXPECT_FALSE(p.unclear) << line;
    }
    for (const char* line : {"pH: 11.0 (after brewing)", "pH: 11.0 (foam)", "pH: 11.0 (concentrate, 1 %)", "pH: 9 (1 % in water); 12.5"}) {
        const Facts f = facts_with(9, [&](Typist& t) { t.line(line); });
        EXPECT_TRUE(f.ph->value.unclear) << line;
        EXPECT_LT(f.ph->confidence, 0.8) << line << ": a person should look";
    }
    for (const char* line : {"pH: 12.5 (concentrate), 9 (1 % in water)", "pH: 12.5 (concentrate); 10.0 (1:20)", "pH: 10.0 (1:20); 12.5 (undiluted)"}) {
        const Ph p = ph(line);
        EXPECT_EQ(p.low_ph, 12.5) << line << ": each figure has its own condition";
        EXPECT_FALSE(p.concentration_pct.has_value() || p.diluted || p.unclear) << line;
    }
}

TEST(PropertiesIssue, SignsAndSmallFiguresAreKept) {
    // "< 0.1 hPa" was shown as exactly 0.1, and 0.02 mmHg as nothing.
    const Facts f = facts_with(9, [](Typist& t) { t.line("Vapour pressure: < 0.1 hPa"); t.line("Density: > 1.2 g/ml"); t.line("VOC content: max. 30 g/l"); });
    EXPECT_FALSE(f.vapour_pressure_hpa->value.low.has_value());
    EXPECT_EQ(f.vapour_pressure_hpa->value.high, 0.1);
    EXPECT_EQ(f.density->value.g_ml.low, 1.2);
    EXPECT_FALSE(f.density->value.g_ml.high.has_value());
    EXPECT_FALSE(f.voc->value.value.low.has_value());
    EXPECT_EQ(f.voc->value.value.high, 30);
    const auto pressure = [](const std::string& line) { return facts_with(9, [&](Typist& t) { t.line(line); }).vapour_pressure_hpa->value; };
    EXPECT_DOUBLE_EQ(*pressure("Vapour pressure: 0.02 mmHg").low, 0.03);
    EXPECT_DOUBLE_EQ(*pressure("Vapour pressure: 0.50 mmHg").low, 0.67);
    EXPECT_DOUBLE_EQ(*pressure("Vapour pressure: 17.5 mmHg").low, 23.3);
    EXPECT_EQ(pressure("Vapour pressure: 20 - 30 hPa").low, 20);
    EXPECT_EQ(pressure("Vapour pressure: 20 - 30 hPa").high, 30);
}

TEST(PropertiesProperty, TemperaturesInEitherScale) {
    const auto flash = [](const std::string& line) { return facts_with(9, [&](Typist& t) { t.line(line); }).flash_point->value; };
    EXPECT_EQ(*flash("Flash point: 62 °C (closed cup)").celsius, 62);
    EXPECT_EQ(*flash("Flash point (closed cup): 144 °F").celsius, 62.2);
    EXPECT_EQ(*flash("Flash point: < -4 °C").celsius, -4);
    EXPECT_EQ(flash("Flash point: < -4 °C").sign, '<');
    EXPECT_EQ(flash("Flash point: > 93 °C (199 °F)").sign, '>');
    EXPECT_EQ(*flash("Flash point: 199 °F (93 °C)").celsius, 93) << "the Celsius figure is not computed where it stands";
    EXPECT_TRUE(flash("Flash point: not applicable").not_applicable);
    const Facts f = facts_with(9, [](Typist& t) { t.line("Boiling point or initial boiling point and boiling range: 98 - 104 °C"); });
    EXPECT_EQ(*f.boiling_c->value.low, 98); EXPECT_EQ(*f.boiling_c->value.high, 104);
}

TEST(PropertiesProperty, UnitsOfPressureDensityAndVoc) {
    const Facts f = facts_with(9, [](Typist& t) {
        t.row({{50, "Vapour pressure"}, {250, "17.5 mmHg @ 68 °F"}});
        t.row({{50, "Relative density (water = 1)"}, {250, "1.02 (20 °C)"}});
        t.row({{50, "VOC content"}, {250, "420 g/l"}});
        t.row({{50, "Physical state"}, {250, "viscous liquid"}});
    });
    EXPECT_EQ(f.vapour_pressure_hpa->value.low, 23.3);
    EXPECT_EQ(*f.density->value.g_ml.low, 1.02); EXPECT_EQ(*f.density->value.celsius, 20);
    EXPECT_EQ(f.voc->value.value.high, 420); EXPECT_EQ(f.voc->value.unit, "g/l");
    EXPECT_EQ(f.state->value, "liquid");
    EXPECT_EQ(*facts_with(9, [](Typist& t) { t.line("Density: 1020 kg/m³"); }).density->value.g_ml.low, 1.02);
    const Facts both = facts_with(9, [](Typist& t) {
        t.line("Density: 0.98 g/mL (8.2 lb/gal)");
        t.line("VOC content: 4.98 lb/gal (597 g/l)");
        t.line("Boiling point: 78 - 100 degrees C");
    });
    EXPECT_EQ(*both.density->value.g_ml.low, 0.98); EXPECT_EQ(*both.density->value.g_ml.high, 0.98) << "one density in two units";
    EXPECT_EQ(both.voc->value.value.high, 597); EXPECT_EQ(both.voc->value.unit, "g/l");
    EXPECT_EQ(*both.boiling_c->value.low, 78); EXPECT_EQ(*both.boiling_c->value.high, 100);
}

TEST(PropertiesProperty, DecimalCommasAndThousands) {
    const Facts f = facts_with(9, [](Typist& t) { t.line("Density: 1,02 g/cm³ (20 °C)"); t.line("Vapour pressure: 1.200 hPa"); t.line("pH: 5,2 - 5,8"); });
    EXPECT_EQ(*f.density->value.g_ml.low, 1.02);
    EXPECT_EQ(*f.ph->value.high_ph, 5.8);
    EXPECT_EQ(f.vapour_pressure_hpa->value.low, 1200) << "where commas stand for decimals, a point before three figures marks thousands";
    EXPECT_EQ(facts_with(9, [](Typist& t) { t.line("Vapour pressure: 1.200 hPa"); t.line("pH: 5.2 - 5.8"); }).vapour_pressure_hpa->value.low, 1.2);
}

TEST(PropertiesProperty, ALabelWrappedInItsColumn) {
    const Facts f = facts_with(9, [](Typist& t) { t.row({{50, "Boiling point or initial|boiling point and boiling|range"}, {230, "98 - 104 °C"}}); t.row({{50, "Flash point"}, {230, "62 °C"}}); });
    EXPECT_EQ(*f.boiling_c->value.high, 104);
    EXPECT_EQ(*f.flash_point->value.celsius, 62);
}

TEST(PropertiesProperty, LigaturesAreLetters) {
    const Facts f = facts_with(9, [](Typist& t) { t.line("\xEF\xAC\x82" "ash point: 62 °C"); });       // the ligature of f and l
    EXPECT_EQ(*f.flash_point->value.celsius, 62);
}

// ---- sections 7, 8, 10, 13, 14

TEST(LimitsProperty, TablesAndLinesSayWhoseLimitItIs) {
    const auto three = [](Typist& t) {
        t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "%"}});
        t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "25 - 50"}});
    };
    const Facts table = facts_of(sheet([&](int n, Typist& t) {
        if (n == 3) three(t);
        if (n != 8) return;
        t.row({{50, "Substance"}, {160, "CAS No."}, {240, "Basis"}, {330, "Type"}, {430, "ppm"}, {490, "mg/m³"}});
        t.row({{50, "acetone"}, {160, "67-64-1"}, {240, "EU IOELV"}, {330, "TWA (8 h)"}, {430, "500"}, {490, "1210"}});
        t.row({{50, "acetone"}, {160, "67-64-1"}, {240, "UK EH40"}, {330, "STEL (15 min)"}, {430, "1500"}, {490, "3620"}});
        t.line("8.2 Exposure controls");
        t.line("Gloves of nitrile, breakthrough time 480 min, thickness 0.4 mm.");
    }));
    const Facts lines = facts_of(sheet([&](int n, Typist& t) {
        if (n == 3) three(t);
        if (n != 8) return;
        t.line("acetone (CAS 67-64-1)");
        t.line("EU IOELV, TWA (8 h): 500 ppm, 1210 mg/m³");
        t.line("UK EH40, STEL (15 min): 1500 ppm,");
        t.line("3620 mg/m³");
    }));
    for (const Facts* f : {&table, &lines}) {
        ASSERT_EQ(f->limits.size(), 2U);
        EXPECT_EQ(f->limits[0].value.cas, "67-64-1"); EXPECT_EQ(f->limits[0].value.jurisdiction, "EU"); EXPECT_EQ(f->limits[0].value.kind, "twa");
        EXPECT_EQ(*f->limits[0].value.ppm, 500); EXPECT_EQ(*f->limits[0].value.mg_m3, 1210);
        EXPECT_EQ(f->limits[1].value.jurisdiction, "UK"); EXPECT_EQ(f->limits[1].value.kind, "stel"); EXPECT_EQ(*f->limits[1].value.mg_m3, 3620);
    }
}

/// Limits of section 8 as "CAS jurisdiction kind ppm mg", sorted.
template <class Write>
Strings limits_with(Write write) {
    const Facts f = facts_of(sheet([&](int n, Typist& t) {
        if (n == 3) {
            t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "%"}});
            t.row({{50, "ethanol"}, {230, "64-17-5"}, {320, "25 - 50"}});
            t.row({{50, "propan-2-ol"}, {230, "67-63-0"}, {320, "5 - 10"}});
        }
        if (n == 8) write(t);
    }));
    Strings out;
    const auto whole = [](const std::optional<double>& x) { return x ? std::to_string(static_cast<long>(*x)) : std::string("-"); };
    for (const auto& l : f.limits) out.push_back(l.value.cas + " " + l.value.jurisdiction + " " + l.value.kind + " " + whole(l.value.ppm) + " " + whole(l.value.mg_m3));
    std::sort(out.begin(), out.end());
    return out;
}

TEST(LimitsProperty, HeadsOverPairsOfColumns) {
    const Strings want{"64-17-5 FR stel 5000 9500", "64-17-5 FR twa 1000 1900"};
    EXPECT_EQ(limits_with([](Typist& t) {          // set to the middle of their pair
        t.row({{190, "VLEP 8 h"}, {350, "VLCT"}}, 0);
        t.row({{50, "Substance"}, {160, "mg/m³"}, {240, "ppm"}, {320, "mg/m³"}, {400, "ppm"}});
        t.row({{50, "ethanol"}, {160, "1900"}, {240, "1000"}, {320, "9500"}, {400, "5000"}});
    }), want);
    EXPECT_EQ(limits_with([](Typist& t) {          // set to the left of it, the name beside
        t.row({{50, "Substance"}, {160, "VLEP 8 h"}, {320, "VLCT"}}, 0);
        t.row({{160, "mg/m³"}, {240, "ppm"}, {320, "mg/m³"}, {400, "ppm"}});
        t.row({{50, "ethanol"}, {160, "1 900"}, {240, "1 000"}, {320, "9 500"}, {400, "5 000"}});
    }), want);
}

TEST(LimitsProperty, ColumnsNobodyAsksForDisturbNothing) {
    EXPECT_EQ(limits_with([](Typist& t) {
        t.row({{50, "Stoff"}, {130, "CAS-Nr."}, {210, "Dauer"}, {280, "ml/m³"}, {340, "mg/m³"}, {400, "Fruchtschädigung"}});
        t.line("TRGS 900", 50);
        t.row({{50, "Ethanol"}, {130, "64-17-5"}, {210, "8 h"}, {280, "200"}, {340, "380"}, {400, "Y"}});
        t.row({{50, "Ethanol"}, {130, "64-17-5"}, {210, "15 min"}, {280, "800"}, {340, "1520"}, {400, "Y"}});
    }), (Strings{"64-17-5 DE stel 800 1520", "64-17-5 DE twa 200 380"}));
}

TEST(LimitsProperty, WhoseTheyAreIsSaidAboveOrBelow) {
    const Strings want{"64-17-5 UK twa 1000 1920", "67-63-0 UK stel 500 1250", "67-63-0 UK twa 400 999"};
    const auto rows = [](Typist& t) {
        t.row({{50, "Substance"}, {160, "CAS No."}, {240, "Long-term ppm"}, {320, "Long-term mg/m³"}, {410, "STEL ppm"}, {480, "STEL mg/m³"}});
        t.row({{50, "ethanol"}, {160, "64-17-5"}, {240, "1000"}, {320, "1920"}, {410, "-"}, {480, "-"}});
        t.row({{50, "propan-2-ol"}, {160, "67-63-0"}, {240, "400"}, {320, "999"}, {410, "500"}, {480, "1250"}});
    };
    EXPECT_EQ(limits_with([&](Typist& t) { t.line("Workplace exposure limits (EH40/2005)"); t.down(0.5); rows(t); }), want);
    EXPECT_EQ(limits_with([&](Typist& t) { rows(t); t.down(); t.line("Limits are taken from the list EH40/2005 as amended."); }), want);
    EXPECT_EQ(limits_with([](Typist& t) {
        t.line("United Kingdom");
        t.line("ethanol (CAS 64-17-5): 8 h TWA 1000 ppm, 1920 mg/m³");
        t.line("propan-2-ol (CAS 67-63-0): 8 h TWA 400 ppm, 999 mg/m³; STEL (15 min)");
        t.line("500 ppm, 1250 mg/m³");
    }), want) << "a heading, then a line for each; the last one broken behind its kind";
}

TEST(LimitsProperty, AuthoritiesAsColumnsAndAsGroupsOfRows) {
    EXPECT_EQ(limits_with([](Typist& t) {
        t.row({{50, "Component"}, {160, "OSHA PEL"}, {290, "ACGIH TLV"}, {420, "NIOSH REL"}});
        t.row({{50, "propan-2-ol"}, {160, "TWA 400 ppm"}, {290, "TWA 200 ppm|STEL 400 ppm"}, {420, "TWA 400 ppm"}});
    }), (Strings{"67-63-0 US-ACGIH stel 400 -", "67-63-0 US-ACGIH twa 200 -", "67-63-0 US-NIOSH twa 400 -", "67-63-0 US-OSHA twa 400 -"}));
    EXPECT_EQ(limits_with([](Typist& t) {
        t.row({{50, "Substance"}, {200, "CAS No."}, {300, "Type"}, {400, "ppm"}, {470, "mg/m³"}});
        t.line("European Union");
        t.row({{50, "ethanol"}, {200, "64-17-5"}, {300, "8 h"}, {400, "300"}, {470, "570"}});
        t.line("Germany (TRGS 900)");
        t.row({{50, "ethanol"}, {200, "64-17-5"}, {300, "8 h"}, {400, "200"}, {470, "380"}});
        t.row({{50, "ethanol"}, {200, "64-17-5"}, {300, "15 min"}, {400, "800"}, {470, "1520"}});
    }), (Strings{"64-17-5 DE stel 800 1520", "64-17-5 DE twa 200 380", "64-17-5 EU twa 300 570"}));
}

TEST(LimitsProperty, BlocksOfLabelsAndRowsWithoutHeads) {
    EXPECT_EQ(limits_with([](Typist& t) {
        t.row({{50, "Substance:"}, {200, "propan-2-ol"}});
        t.row({{50, "CAS No.:"}, {200, "67-63-0"}});
        t.row({{50, "Source:"}, {200, "EH40 (United Kingdom)"}});
        t.row({{50, "Long-term (8 h):"}, {200, "400 ppm, 999 mg/m³"}});
        t.row({{50, "Short-term (15 min):"}, {200, "500 ppm, 1250 mg/m³"}});
    }), (Strings{"67-63-0 UK stel 500 1250", "67-63-0 UK twa 400 999"}));
    EXPECT_EQ(limits_with([](Typist& t) {
        t.line("propan-2-ol (67-63-0)");
        t.row({{60, "OSHA PEL"}, {200, "400 ppm"}, {300, "980 mg/m³"}});
        t.row({{60, "ACGIH TLV-TWA"}, {200, "200 ppm"}});
        t.row({{60, "ACGIH TLV-STEL"}, {200, "400 ppm"}});
        t.line("ethanol (64-17-5)");
        t.row({{60, "OSHA PEL"}, {200, "1000 ppm"}, {300, "1900 mg/m³"}});
    }), (Strings{"64-17-5 US-OSHA twa 1000 1900", "67-63-0 US-ACGIH stel 400 -", "67-63-0 US-ACGIH twa 200 -", "67-63-0 US-OSHA twa 400 980"}));
}


TEST(LimitsProperty, EachAuthorityInItsCellWithBothUnits) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Chemical Name"}, {180, "OSHA PEL"}, {300, "ACGIH TLV"}, {420, "NIOSH REL"}});
    t.row({{50, "propan-2-ol|67-63-0"}, {180, "TWA: 400 ppm|TWA: 980 mg/m3"}, {300, "STEL: 400 ppm|TWA: 200 ppm"}, {420, "TWA: 400 ppm|TWA: 980 mg/m3|STEL: 500 ppm|STEL: 1225 mg/m3"}});
    t.row({{50, "ethanol|64-17-5"}, {180, "TWA: 1000 ppm|TWA: 1900 mg/m3"}, {300, "STEL: 1000 ppm"}, {420, "TWA: 1000 ppm|TWA: 1900 mg/m3"}});
}), (Strings{"64-17-5 US-ACGIH stel 1000 -", "64-17-5 US-NIOSH twa 1000 1900", "64-17-5 US-OSHA twa 1000 1900", "67-63-0 US-ACGIH stel 400 -", "67-63-0 US-ACGIH twa 200 -", "67-63-0 US-NIOSH stel 500 1225", "67-63-0 US-NIOSH twa 400 980", "67-63-0 US-OSHA twa 400 980"})); }
TEST(LimitsProperty, FactorsOfPeaksAreNoValues) { EXPECT_EQ(limits_with([](Typist& t) {
    t.line("Ethanol (64-17-5)"); t.line("AGW: 380 mg/m³, 200 ml/m³; 4(II); DFG, Y");
    t.line("Propan-2-ol (67-63-0)"); t.line("AGW (Deutschland) Langzeitwert: 500 mg/m³, 200 ml/m³"); t.line("2(II);DFG, Y");
}), (Strings{"64-17-5 DE twa 200 380", "67-63-0 DE twa 200 500"})); }
TEST(LimitsProperty, TwoKindsInOneSentence) { EXPECT_EQ(limits_with([](Typist& t) {
    t.line("Etanol (CAS 64-17-5): VLA-EC 1000 ppm, 1910 mg/m³ (INSST).");
    t.line("Propan-2-ol (CAS 67-63-0): VLA-ED 200 ppm, 500 mg/m³; VLA-EC 400 ppm, 1000 mg/m³ (INSST).");
}), (Strings{"64-17-5 ES stel 1000 1910", "67-63-0 ES stel 400 1000", "67-63-0 ES twa 200 500"})); }
TEST(LimitsProperty, KindsBehindTheirFigures) { EXPECT_EQ(limits_with([](Typist& t) {
    t.line("propan-2-ol (67-63-0): 20 ppm / 98 mg/m³ (8 h), 50 ppm / 246 mg/m³ (15 min), UE 2000/39/CE");
}), (Strings{"67-63-0 EU stel 50 246", "67-63-0 EU twa 20 98"})); }
TEST(LimitsProperty, TheAuthorityInTheLastColumn) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Substance"}, {160, "TWA (8 h)"}, {300, "STEL (15 min)"}, {430, "Source"}});
    t.row({{50, "propan-2-ol"}, {160, "400 ppm|999 mg/m³"}, {300, "500 ppm|1250 mg/m³"}, {430, "EH40"}});
    t.row({{50, "ethanol"}, {160, "1000 ppm|1920 mg/m³"}, {300, "-"}, {430, "EH40"}});
}), (Strings{"64-17-5 UK twa 1000 1920", "67-63-0 UK stel 500 1250", "67-63-0 UK twa 400 999"})); }
TEST(LimitsProperty, AuthoritiesOverPairsOfUnits) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{160, "OSHA PEL"}, {320, "ACGIH TLV"}}, 0);
    t.row({{50, "Substance"}, {160, "ppm"}, {240, "mg/m³"}, {320, "ppm"}, {400, "mg/m³"}});
    t.row({{50, "propan-2-ol"}, {160, "400"}, {240, "980"}, {320, "200"}, {400, "492"}});
}), (Strings{"67-63-0 US-ACGIH twa 200 492", "67-63-0 US-OSHA twa 400 980"})); }
TEST(LimitsProperty, AuthoritiesOverKinds) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{160, "OSHA"}, {320, "ACGIH"}}, 0);
    t.row({{50, "Substance"}, {160, "TWA"}, {240, "STEL"}, {320, "TWA"}, {400, "STEL"}});
    t.row({{50, "propan-2-ol"}, {160, "400 ppm"}, {240, "500 ppm"}, {320, "200 ppm"}, {400, "400 ppm"}});
}), (Strings{"67-63-0 US-ACGIH stel 400 -", "67-63-0 US-ACGIH twa 200 -", "67-63-0 US-OSHA stel 500 -", "67-63-0 US-OSHA twa 400 -"})); }
TEST(LimitsProperty, BothUnitsUnderOneHead) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Stoff"}, {200, "CAS-Nr."}, {300, "AGW ml/m³ / mg/m³"}, {430, "Bemerkung"}});
    t.row({{50, "Propan-2-ol"}, {200, "67-63-0"}, {300, "200 / 500"}, {430, "DFG, Y"}});
    t.row({{50, "Ethanol"}, {200, "64-17-5"}, {300, "200 / 380"}, {430, "DFG, Y"}});
}), (Strings{"64-17-5 DE twa 200 380", "67-63-0 DE twa 200 500"})); }
TEST(LimitsProperty, TheOtherUnitInBrackets) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Substance"}, {160, "Country"}, {260, "8 h, ppm (mg/m³)"}, {400, "15 min, ppm (mg/m³)"}});
    t.row({{50, "propan-2-ol"}, {160, "UK"}, {260, "400 (999)"}, {400, "500 (1250)"}});
}), (Strings{"67-63-0 UK stel 500 1250", "67-63-0 UK twa 400 999"})); }
TEST(LimitsProperty, ACeilingByItsLetter) { EXPECT_EQ(limits_with([](Typist& t) {
    t.line("ethanol (64-17-5): OSHA PEL C 50 ppm; NIOSH REL ceiling 30 ppm; ACGIH TLV 20 ppm TWA");
}), (Strings{"64-17-5 US-ACGIH twa 20 -", "64-17-5 US-NIOSH ceiling 30 -", "64-17-5 US-OSHA ceiling 50 -"})); }
TEST(LimitsProperty, RowsWithoutHeadsAndBlanksAmongThousands) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Propan-2-ol"}, {160, "67-63-0"}, {240, "VLEP 8h"}, {330, "500 mg/m³"}, {420, "200 ppm"}});
    t.row({{240, "VLCT"}, {330, "980 mg/m³"}, {420, "400 ppm"}});
    t.row({{50, "Ethanol"}, {160, "64-17-5"}, {240, "VLEP 8h"}, {330, "1 900 mg/m³"}, {420, "1 000 ppm"}});
}), (Strings{"64-17-5 FR twa 1000 1900", "67-63-0 FR stel 400 980", "67-63-0 FR twa 200 500"})); }
TEST(LimitsProperty, TheUnitWithTheLabel) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Propan-2-ol"}, {160, "67-63-0"}});
    t.row({{50, "VLEP-8h (mg/m³)"}, {200, "500"}});
    t.row({{50, "VLEP-8h (ppm)"}, {200, "200"}});
    t.row({{50, "VLCT (mg/m³)"}, {200, "980"}});
    t.row({{50, "VLCT (ppm)"}, {200, "400"}});
}), (Strings{"67-63-0 FR stel 400 980", "67-63-0 FR twa 200 500"})); }
TEST(LimitsProperty, HeadsOfSeveralWords) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Nombre"}, {170, "Valor límite, 8 horas"}, {320, "Valor límite, 15 minutos"}, {470, "País"}});
    t.row({{50, "Propan-2-ol"}, {170, "200 ppm (500 mg/m3)"}, {320, "400 ppm (1000 mg/m3)"}, {470, "España"}});
    t.row({{50, "Ethanol"}, {170, "-"}, {320, "1000 ppm (1910 mg/m3)"}, {470, "España"}});
}), (Strings{"64-17-5 ES stel 1000 1910", "67-63-0 ES stel 400 1000", "67-63-0 ES twa 200 500"})); }

TEST(LimitsProperty, CountriesByTheirCodesDirectivesByTheirNumbers) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Stoff"}, {160, "CAS-Nr."}, {240, "Land"}, {300, "Typ"}, {400, "ppm"}, {470, "mg/m³"}});
    t.row({{50, "Ethanol"}, {160, "64-17-5"}, {240, "DE"}, {300, "8 h"}, {400, "200"}, {470, "380"}});
    t.row({{50, "Propan-2-ol"}, {160, "67-63-0"}, {240, "2000/39/EG"}, {300, "Kurzzeitgrenzwert"}, {400, "400"}, {470, "1000"}});
}), (Strings{"64-17-5 DE twa 200 380", "67-63-0 EU stel 400 1000"})); }
TEST(LimitsProperty, LimitsBehindTheWordsOnProtection) { EXPECT_EQ(limits_with([](Typist& t) {
    t.line("Engineering controls");
    t.line("Local exhaust at the bench; see the permissible exposure limits below.");
    t.line("propan-2-ol (67-63-0): OSHA PEL 400 ppm, 980 mg/m 3");
}), (Strings{"67-63-0 US-OSHA twa 400 980"})); }

TEST(LimitsProperty, HoursAndMinutesAreNoValues) { EXPECT_EQ(limits_with([](Typist& t) {
    t.row({{50, "Substance"}, {160, "CAS No."}, {250, "Country"}, {330, "ppm"}, {430, "mg/m³"}});
    t.row({{50, "propan-2-ol"}, {160, "67-63-0"}, {250, "UK"}, {330, "8 h: 400|15 min: 500"}, {430, "8 h: 999|15 min: 1250"}});
}), (Strings{"67-63-0 UK stel 500 1250", "67-63-0 UK twa 400 999"})); }

TEST(LimitsProperty, FiguresUnderOneAnotherAreNeverJoined) {
    for (const char* two : {"400|500", "50|100", "400 500", "1|900"}) {
        const Facts f = facts_of(sheet([&](int n, Typist& t) {
            if (n != 8) return;
            t.row({{50, "Substance"}, {160, "CAS No."}, {250, "Country"}, {330, "ppm"}, {430, "mg/m³"}});
            t.row({{50, "propan-2-ol"}, {160, "67-63-0"}, {250, "UK"}, {330, two}, {430, "1 999"}});
        }));
        for (const auto& l : f.limits) {
            EXPECT_LE(l.value.ppm.value_or(0), 900) << two;
            EXPECT_TRUE(!l.value.mg_m3 || *l.value.mg_m3 == 1999) << two;
        }
    }
}

TEST(LimitsProperty, NamesInTheMiddleOfTheirRows) {
    for (const int rows : {2, 3}) {
        const Strings got = limits_with([&](Typist& t) {
            t.row({{50, "Substance"}, {160, "CAS No."}, {250, "Country"}, {330, "Type"}, {400, "ppm"}, {470, "mg/m³"}});
            for (int k = 0; k < 2; ++k) {
                const double top = t.y;
                t.y = top + 8 * (rows - 1);
                t.at(50, k == 0 ? "propan-2-ol" : "ethanol"); t.at(160, k == 0 ? "67-63-0" : "64-17-5");
                for (int r = 0; r < rows; ++r) {
                    t.y = top + 16 * r;
                    t.at(250, r < 2 ? "UK" : "Germany"); t.at(330, r == 1 ? "STEL" : "TWA"); t.at(400, std::to_string(100 * (k + 1) + r)); t.at(470, std::to_string(500 * (k + 1) + r));
                }
                t.y = top + 16 * rows;
            }
        });
        Strings want{"64-17-5 UK stel 201 1001", "64-17-5 UK twa 200 1000", "67-63-0 UK stel 101 501", "67-63-0 UK twa 100 500"};
        if (rows == 3) want.insert(want.end(), {"64-17-5 DE twa 202 1002", "67-63-0 DE twa 102 502"});
        std::sort(want.begin(), want.end());
        EXPECT_EQ(got, want) << rows;
    }
}

TEST(TransportProperty, RowsOneLineAndNotRegulated) {
    const Facts rows = facts_with(14, [](Typist& t) { t.row({{50, "UN number"}, {250, "UN 1263"}}); t.row({{50, "Transport hazard class(es)"}, {250, "3"}}); t.row({{50, "Packing group"}, {250, "II"}}); });
    const Facts line = facts_with(14, [](Typist& t) { t.line("ADR: UN 1263, PAINT, 3, II"); });
    for (const Facts* f : {&rows, &line}) {
        ASSERT_TRUE(f->transport.un && f->transport.transport_class && f->transport.packing_group);
        EXPECT_EQ(f->transport.un->value, "1263"); EXPECT_EQ(f->transport.transport_class->value, "3"); EXPECT_EQ(f->transport.packing_group->value, "II");
    }
    const Facts none = facts_with(14, [](Typist& t) { t.line("Not classified as dangerous for transport."); });
    EXPECT_TRUE(none.transport.not_dangerous);
    EXPECT_FALSE(none.transport.un);
}

TEST(HandlingProperty, StorageDisposalAndWhatItMustNotMeet) {
    const Facts f = facts_of(sheet([](int n, Typist& t) {
        if (n == 7) t.line("Storage: Store between 5 and 30 °C, away from acids.");
        if (n == 10) t.line("Incompatible materials: Strong acids, strong oxidising agents");
        if (n == 13) t.line("Waste treatment methods: Hand over to a licensed collector.");
    }));
    EXPECT_NE(f.storage->value.find("away from acids"), std::string::npos);
    EXPECT_NE(f.incompatible->value.find("strong oxidising"), std::string::npos);
    EXPECT_NE(f.disposal->value.find("licensed collector"), std::string::npos);
}

// ---- contradictions

Facts contradictory(const std::string& codes, const std::string& ph, const std::vector<std::array<std::string, 4>>& rows) {
    return facts_of(sheet([&](int n, Typist& t) {
        if (n == 2) t.line(codes);
        if (n == 9) t.line(ph);
        if (n != 3) return;
        t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}, {430, "Classification"}});
        for (const auto& r : rows) t.row({{50, r[0]}, {230, r[1]}, {320, r[2]}, {430, r[3]}});
    }));
}
Strings keys_of(const Facts& f) {
    Strings out;
    for (const auto& c : f.contradictions) out.push_back(c.key);
    return out;
}

TEST(ContradictionsProperty, EachIsFoundAndNoneWhereAllIsWell) {
    const std::array<std::string, 4> soda{"sodium hydroxide", "1310-73-2", "2 - 5 %", "H314"}, acetone{"acetone", "67-64-1", "60 - 70 %", "H225"}, ethanol{"ethanol", "64-17-5", "40 - 50 %", "H225"};
    EXPECT_EQ(keys_of(contradictory("Signal word: Danger, H314", "pH: 13", {soda})), Strings{});
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H315", "pH: 13", {soda})), Strings{"ph_without_corrosive"});
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H315", "pH: 11.4", {soda})), Strings{});
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H315. Not corrosive by its alkali reserve.", "pH: 13", {soda})), Strings{}) << "a reason is stated";
    EXPECT_EQ(keys_of(contradictory("H225", "pH: 7", {acetone, ethanol})), Strings{}) << "60 and 40 add up";
    EXPECT_EQ(keys_of(contradictory("H225", "pH: 7", {acetone, ethanol, {"butanone", "78-93-3", "1 - 2 %", "H225"}})), Strings{"over_100"});
    EXPECT_EQ(keys_of(contradictory("Signal word: None. The mixture is not classified as hazardous.", "pH: 7", {{"rosin", "8050-09-7", "5 - 10 %", "H317"}})), Strings{"two_against_three"});
    EXPECT_EQ(keys_of(contradictory("Signal word: None. The mixture is not classified as hazardous.", "pH: 7", {{"rosin", "8050-09-7", "0.1 - 0.5 %", "H317"}})), Strings{});
    EXPECT_EQ(keys_of(contradictory("H317 H225", "pH: 7", {acetone})), Strings{"two_against_three"}) << "nothing in section 3 sensitises";
    const Facts f = contradictory("Signal word: Warning, H315", "pH: 13", {soda});
    EXPECT_EQ(f.contradictions[0].finding.basis.source, "clp");
    EXPECT_EQ(f.contradictions[0].places[0].page, f.ph->place.page);
}

TEST(ContradictionsIssue, AnOpenEndAndCorrodedMetalsDoNotSilenceABurningPh) {
    const std::array<std::string, 4> soda{"sodium hydroxide", "1310-73-2", "2 - 5 %", "H314"};
    const Facts over = contradictory("Signal word: Warning, H315", "pH: > 12", {soda});
    ASSERT_EQ(keys_of(over), Strings{"ph_without_corrosive"});
    EXPECT_NE(over.contradictions[0].finding.sentence.find("pH over 12"), std::string::npos) << over.contradictions[0].finding.sentence;
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H315", "pH: < 2", {soda})), Strings{"ph_without_corrosive"});
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H290", "pH: 13", {soda})), Strings{"ph_without_corrosive"}) << "metals are not skin";
    EXPECT_EQ(keys_of(contradictory("Signal word: Danger, H318", "pH: > 12", {soda})), Strings{});
    EXPECT_EQ(keys_of(contradictory("Signal word: Warning, H315", "pH: > 9", {soda})), Strings{}) << "what is printed counts, not what might be";
}

// ---- what holds for every sheet

TEST(SheetProperty, AnyScrapOfADocumentIsAnsweredAndNoCasIsInvented) {
    const Document whole = sheet([](int n, Typist& t) {
        if (n == 3) {
            t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}});
            t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "25 - 50 %"}});
            t.row({{50, "ethanol"}, {230, "64-17-5"}, {320, "5 - 10 %"}});
        }
        if (n == 9) t.line("pH: 7 - 8 (20 °C)");
    });
    unsigned seed = 1;
    const auto next = [&] { return seed = seed * 1664525U + 1013904223U; };
    for (int run = 0; run < 200; ++run) {
        Document scrap = whole;
        for (Page& p : scrap.pages)
            for (std::size_t i = p.words.size(); i-- > 0;) {
                const unsigned r = next() >> 16U;
                if (r % 7 == 0) p.words.erase(p.words.begin() + static_cast<std::ptrdiff_t>(i));
                else if (r % 11 == 0) p.words[i].text = p.words[i].text.substr(0, p.words[i].text.size() / 2);
                else if (r % 13 == 0) { p.words[i].x0 -= r % 300; p.words[i].y0 += r % 50; }
                else if (r % 17 == 0) p.words[i].text += "\xE2\x89";
            }
        const auto read_back = read(scrap);
        if (!read_back.ok()) continue;
        for (const Ingredient& i : read_back->ingredients)
            if (i.cas) { EXPECT_TRUE(i.cas->value == "67-64-1" || i.cas->value == "64-17-5") << i.cas->value; }
    }
}

TEST(SheetProperty, EveryFactNamesAPlaceOnThePaperAndAConfidence) {
    const Document d = sheet([](int n, Typist& t) {
        if (n == 1) t.line("Product name: Degreaser");
        if (n == 2) t.line("Signal word: Danger H314 H290");
        if (n == 3) { t.row({{50, "Chemical name"}, {230, "CAS No."}, {320, "Concentration"}}); t.row({{50, "acetone"}, {230, "67-64-1"}, {320, "25 - 50 %"}}); }
        if (n == 9) t.line("Flash point: 62 °C");
    });
    const Facts f = facts_of(d);
    const auto check = [&](const Place& p, double confidence, const char* what) {
        ASSERT_GE(p.page, 1) << what;
        ASSERT_LE(p.page, static_cast<int>(d.pages.size())) << what;
        EXPECT_GE(p.x0, 0) << what; EXPECT_LE(p.x1, 595) << what; EXPECT_LT(p.x0, p.x1) << what; EXPECT_LT(p.y0, p.y1) << what;
        EXPECT_FALSE(p.words.empty()) << what;
        EXPECT_GT(confidence, 0) << what; EXPECT_LE(confidence, 1) << what;
    };
    check(f.product->place, f.product->confidence, "product");
    check(f.signal_word->place, f.signal_word->confidence, "signal word");
    check(f.codes.at(0).place, f.codes[0].confidence, "code");
    check(f.flash_point->place, f.flash_point->confidence, "flash point");
    check(f.ingredients.at(0).place, f.ingredients[0].confidence, "ingredient");
    check(f.ingredients[0].cas->place, f.ingredients[0].cas->confidence, "CAS");
    EXPECT_EQ(f.ingredients[0].cas->place.words, "67-64-1");
    check(f.ingredients[0].range->place, f.ingredients[0].range->confidence, "range");
}

}  // namespace
}  // namespace hw::sheet
