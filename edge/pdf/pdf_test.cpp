// The print: what stands on the pages, and that nothing foreign can break them. Texts are read back by another program.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <limits>
#include <regex>
#include <thread>

#include "desk/demo.hpp"
#include "desk/print.hpp"
#include "desk/report.hpp"
#include "desk/triage.hpp"
#include "desk/words.hpp"
#include "edge/pdf/catalog.hpp"
#include "edge/pdf/colour.hpp"
#include "edge/pdf/printer.hpp"
#include "edge/pdf/text.hpp"
#include "tests/support/judgement_sample.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::pdf {
namespace {

using desk::Grade;
using desk::KeptJudgement;
using desk::PageKind;
using desk::Paper;

/// A profile with every layer, wetted and dried.
desk::Profile profile() {
    desk::Profile p;
    p.layers = {{"finish", 0, 40}, {"grain", 40, 340}, {"corium", 340, 1240}};
    for (double um = 2.5; um < 1240; um += um < 60 ? 5 : 40) p.depth_um.push_back(um);
    p.time_s = {0, 12, 120, 3600, 86400};
    for (double rise : {0.0, 5.0, 4.0, 2.0, 1.0}) {
        std::vector<double> row;
        for (double um : p.depth_um) row.push_back(4.6 + rise * std::exp(-um / 80));
        p.ph.push_back(row);
    }
    p.film_ph = {9.9, 9.7, 9.5, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN()};
    p.film_um = {80, 70, 40, 0, 0};
    p.surface_reading_ph = {4.6, 9.1, 8.5, 6.4, 5.5};
    p.events = {{0, "wetted"}, {120, "wiped"}, {3600, "dry"}, {86400, "next day"}};
    return p;
}

KeptJudgement kept() {
    KeptJudgement k;
    k.request = test::sample_request();
    k.answer = test::sample_answer();
    k.row = {"0190-id", "Sample", k.request.liquid.name, k.request.leather.name, "lasting", "2026-01-02T03:04:05Z", "hidewright test", false};
    auto& a = k.answer;
    a.stop.reset();
    a.sentence = "Passes a limit in the grain and is still past it after 24 h, down to 260 µm. After 24 h a drop on the surface would read about pH 6.4.";
    a.how_sure = "Fairly sure: in about 6 in 10 of the cases that fit what is known a limit is passed for over an hour.";
    a.use = k.request.use;
    a.profile = profile();
    a.balance = {true, {65, 20, "mmol/m²", Standing::Derived, ""}, {24, 10, "mmol/m²", Standing::Derived, "nine of ten members"}, {1, 1, "mmol/m²", Standing::Derived, ""}, {12, 4, "mmol/m²", Standing::Derived, ""}, {35, 10, "mmol/m²", Standing::Derived, ""}, 6};
    a.limits = {{"Upper end of good leather", "highest pH inside the leather", {6, 0, "pH", Standing::Published, ""}, {9.2, 0.4, "pH", Standing::Derived, ""}, true, true, true, 0.71, 260, 86400, {"A limit", "iso4045", "clause 7", Standing::Published, ""}},
                {"Trade custom", "surface reading at the end", {5, 0, "pH", Standing::CommonPractice, ""}, {5.5, 0.2, "pH", Standing::Derived, ""}, true, true, false, 0.6, 0, 0, {"Custom", "own", "nowhere", Standing::CommonPractice, ""}}};
    a.cautions = {"Try it on a hidden spot first, and read it dry.", "The product's own data sheet and your local rules come first."};
    a.next_test = {"Damp white cloth", 120, "whether something stays", "Wipe, look, wait."};
    a.defaults_used = {"use.rest_h", "use.air_c", "use.humidity_pct", "use.air_speed_m_s", "leather.finish_um"};
    a.leather.thickness_mm = 1.2;
    a.leather.finish_um = 40;
    return k;
}

std::string printed(const KeptJudgement& k, PageKind kind, Paper paper) {
    PdfPrinter printer;
    auto pdf = printer.page(k, kind, paper);
    EXPECT_TRUE(pdf.ok()) << (pdf.ok() ? "" : pdf.error().message);
    return pdf.ok() ? *pdf : std::string();
}

std::string said_by(const std::string& command) {
    std::string out;
    FILE* pipe = ::popen(command.c_str(), "r");
    if (pipe == nullptr) return out;
    char some[4096];
    for (std::size_t n = 0; (n = std::fread(some, 1, sizeof some, pipe)) > 0;) out.append(some, n);
    EXPECT_EQ(::pclose(pipe), 0) << command;
    return out;
}

/// What a reader of poppler-utils says of the file. @param command  with % for the file
std::string read_back(const std::string& pdf, std::string command) {
    const test::ScratchFolder folder;
    const std::string file = folder.name() + "/a.pdf";
    std::ofstream(file, std::ios::binary) << pdf;
    command.replace(command.find('%'), 1, file);
    return said_by(command);
}

/// The text in the order in which it stands in the file, on one line, with plain spaces; a word that a line end parts is joined.
std::string text_of(const std::string& pdf) {
    std::string text = read_back(pdf, "pdftotext -raw % -");
    text = std::regex_replace(text, std::regex("\xc2\xa0"), " ");
    return std::regex_replace(text, std::regex("\\s+"), " ");
}

void expect_in_order(const std::string& text, const std::vector<std::string>& parts) {
    std::size_t at = 0;
    for (const auto& part : parts) {
        const auto found = text.find(part, at);
        ASSERT_NE(found, std::string::npos) << part << "\n" << text.substr(at);
        at = found + part.size();
    }
}

int pages_of(const std::string& pdf) {
    std::smatch found;
    const std::string info = read_back(pdf, "pdfinfo %");
    return std::regex_search(info, found, std::regex("Pages: +([0-9]+)")) ? std::stoi(found[1]) : 0;
}

/// Every word lies inside the page, by the boxes that a reader gives them. @return how many words there are
std::size_t expect_words_on_the_page(const std::string& pdf) {
    const std::string boxes = read_back(pdf, "pdftotext -bbox % -");
    double width = 0, height = 0;
    std::size_t words = 0;
    const std::regex shape("<(page|word)([^>]*)>([^<]*)"), number("(width|height|xMin|xMax|yMin|yMax)=\"([-0-9.]+)\"");
    for (std::sregex_iterator it(boxes.begin(), boxes.end(), shape), end; it != end; ++it) {
        std::map<std::string, double> value;
        const std::string attributes = (*it)[2];
        for (std::sregex_iterator n(attributes.begin(), attributes.end(), number); n != end; ++n) value[(*n)[1]] = std::stod((*n)[2]);
        if ((*it)[1] == "page") {
            width = value["width"];
            height = value["height"];
            continue;
        }
        ++words;
        constexpr double edge = 30;  // narrower than the margin: nothing may run out of its column into it
        EXPECT_GE(value["xMin"], edge) << (*it)[3];
        EXPECT_LE(value["xMax"], width - edge) << (*it)[3];
        EXPECT_GE(value["yMin"], 10) << (*it)[3];
        EXPECT_LE(value["yMax"], height - 10) << (*it)[3];
    }
    return words;
}

TEST(PrintProperty, TheSameJudgementGivesTheSameBytes) {
    for (const auto kind : {PageKind::Owner, PageKind::Technical})
        for (const auto paper : {Paper::A4, Paper::Letter}) {
            const std::string once = printed(kept(), kind, paper);
            EXPECT_EQ(once.substr(0, 5), "%PDF-");
            EXPECT_EQ(once, printed(kept(), kind, paper));
        }
}

TEST(PrintProperty, TheSameBytesComeFromEveryThread) {
    const std::string expected = printed(kept(), PageKind::Owner, Paper::A4);
    std::vector<std::string> got(4);
    std::vector<std::thread> threads;
    for (auto& one : got) threads.emplace_back([&one] { one = printed(kept(), PageKind::Owner, Paper::A4); });
    for (auto& t : threads) t.join();
    for (const auto& one : got) EXPECT_EQ(one, expected);
}

TEST(PrintProperty, PaperHasItsSizeAndTheDateIsThatOfTheRecord) {
    const std::string a4 = read_back(printed(kept(), PageKind::Owner, Paper::A4), "TZ=UTC pdfinfo -isodates %");
    EXPECT_NE(a4.find("595.276 x 841.89 pts (A4)"), std::string::npos) << a4;
    EXPECT_NE(a4.find("2026-01-02T03:04:05"), std::string::npos) << a4;
    EXPECT_NE(a4.find("Tagged:          yes"), std::string::npos) << a4;
    EXPECT_NE(a4.find("Sample (for the owner)"), std::string::npos) << a4;
    const std::string letter = read_back(printed(kept(), PageKind::Technical, Paper::Letter), "pdfinfo %");
    EXPECT_NE(letter.find("612 x 792 pts (letter)"), std::string::npos) << letter;
    KeptJudgement undated = kept();
    undated.row.kept_at = "yesterday";
    EXPECT_EQ(read_back(printed(undated, PageKind::Owner, Paper::A4), "pdfinfo %").find("CreationDate"), std::string::npos);
    EXPECT_NE(printed(kept(), PageKind::Owner, Paper::A4).find("/Lang (en-GB)"), std::string::npos);
}

TEST(PrintProperty, EveryTypefaceIsEmbedded) {
    const std::string fonts = read_back(printed(kept(), PageKind::Technical, Paper::A4), "pdffonts %");
    std::istringstream lines(fonts);
    std::string line;
    std::getline(lines, line);
    const auto column = line.find("emb");
    std::getline(lines, line);
    int seen = 0;
    for (; std::getline(lines, line); ++seen) EXPECT_EQ(line.substr(column, 3), "yes") << line;
    EXPECT_GE(seen, 3);
    EXPECT_NE(fonts.find("Inter-Regular"), std::string::npos);
    EXPECT_NE(fonts.find("Vollkorn"), std::string::npos);
}

TEST(PrintProperty, TheOwnerReadsQuestionAnswerPictureAndWhatToDoInThisOrder) {
    for (const auto paper : {Paper::A4, Paper::Letter}) {
        const std::string pdf = printed(kept(), PageKind::Owner, paper), text = text_of(pdf);
        EXPECT_EQ(pages_of(pdf), 1);
        expect_in_order(text, {"for the owner", "2 January 2026", "Soda, \"strong\", 0.1 %", "Armchair: aniline, chrome tanned", "3 wipes with a damp cloth on 900 cm²", "Do not use it like this",
                               "Passes a limit in the grain and is still past it after 24 h, down to 260 µm.", "How sure", "about 6 in 10 of the cases that fit what is known", "past a limit, lasting: about 6 in 10 (64 %)", "What it means",
                               "What was looked at", "Alkali in the leather", "about 7 in 10", "Inside the leather", "At its worst, 12 s after wetting", "What to do next", "Before use: Keep it off, used like this.", "On the leather already: Blot", "Damp white cloth", "What never to do",
                               "Take care", "Try it on a hidden spot first, and read it dry.", "What was not known", "Solvent on finish and fats", "A passed limit is not proof of damage.", "hidewright test"});
        EXPECT_GT(expect_words_on_the_page(pdf), 300u);
    }
}

TEST(PrintProperty, NoPagePromisesOrBlames) {
    for (const Grade grade : {Grade::StaysWithin, Grade::ComesBack, Grade::Lasting, Grade::Deep, Grade::Unknown}) {
        KeptJudgement k = kept();
        k.answer.grade = grade;
        for (const auto kind : {PageKind::Owner, PageKind::Technical}) {
            const std::string text = text_of(printed(k, kind, Paper::A4));
            for (const char* word : {"will be fine", "like new", "non-toxic", "lifetime", "liable", "fault of", "guarantee"}) EXPECT_EQ(text.find(word), std::string::npos) << word;
            EXPECT_NE(text.find("not proof of damage"), std::string::npos);
        }
    }
}

TEST(PrintProperty, TheTechnicalPagesHoldEveryPart) {
    const std::string pdf = printed(kept(), PageKind::Technical, Paper::A4), text = text_of(pdf);
    expect_in_order(text, {"Do not use it like this", "Passes a limit in the grain", "1024 cases", "What was asked", "sodium carbonate", "CAS 497-19-8", "Because", "Every kind of harm, worst first",
                           "Alkali in the leather (decides)", "Section through the leather", "How far the cases spread", "pH through the leather at its worst", "What the spread comes from", "how open the finish is",
                           "How much alkali stays", "24 ± 10 mmol/m²", "Limits", "Upper end of good leather", "at most 6.0", "Trade custom (shown, does not decide)", "Take care", "What was not known", "Who says so", "ISO 4045", "hidewright test"});
    expect_words_on_the_page(pdf);
    const int pages = pages_of(pdf);
    for (int n = 1; n <= pages; ++n) EXPECT_NE(text.find("page " + std::to_string(n) + " of " + std::to_string(pages)), std::string::npos) << n;
}

TEST(PrintProperty, EachInputCarriesItsMark) {
    std::map<std::string, std::string> marks;
    for (const auto& row : desk::inputs_of(kept())) marks[row.name] = row.mark;
    EXPECT_EQ(marks["liquid"], "given");
    EXPECT_EQ(marks["amount"], "given");
    EXPECT_EQ(marks["rest after"], "default");
    EXPECT_EQ(marks["air"], "default");
    EXPECT_EQ(marks["thickness"], "measured");
    EXPECT_EQ(marks["finish"], "default");
    const std::string text = text_of(printed(kept(), PageKind::Technical, Paper::A4));
    for (const auto& row : desk::inputs_of(kept())) EXPECT_NE(text.find(glued(fit(row.name))), std::string::npos) << row.name;
    KeptJudgement read = kept();
    read.request.leather.surface_ph = 4.6;
    read.request.liquid.read_ph = 11;
    read.request.leather.water_drop = desk::WaterDrop::Minutes2;
    read.answer.defaults_used.pop_back();
    read.answer.defaults_used.push_back("use.dose.amount");
    marks.clear();
    for (const auto& row : desk::inputs_of(read)) marks[row.name] = row.mark;
    EXPECT_EQ(marks["surface pH"], "measured");
    EXPECT_EQ(marks["pH read in the bottle"], "measured");
    EXPECT_EQ(marks["water drop"], "measured");
    EXPECT_EQ(marks["finish"], "measured");
    EXPECT_EQ(marks["amount"], "default in part");
}

TEST(PrintProperty, AStopStandsFirstAndNoFigureMatters) {
    KeptJudgement k = kept();
    k.answer = test::sample_answer();
    k.answer.grade = Grade::Stop;
    k.answer.stop = desk::Stop{"kind", "These two make chlorine.", {"Everyone out, fresh air."}, {"Never go back in."}, {"A rule", "own", "nowhere", Standing::Derived, ""}};
    k.answer.harms.clear();
    k.answer.sure = {};
    k.answer.profile = {};
    for (const auto kind : {PageKind::Owner, PageKind::Technical}) {
        const std::string pdf = printed(k, kind, Paper::Letter), text = text_of(pdf);
        expect_in_order(text, {"STOP", "These two make chlorine.", "Do this now", "Everyone out, fresh air.", "Never", "Never go back in."});
        expect_words_on_the_page(pdf);
    }
    expect_in_order(text_of(printed(k, PageKind::Technical, Paper::A4)), {"STOP", "What was asked", "does not matter here"});
}

TEST(PrintProperty, AnAnswerWithNothingButItsGradePrintsWell) {
    KeptJudgement k;
    k.answer.sentence = "Cannot be told: too much of it is not known.";
    k.answer.version = "hidewright test";
    for (const auto kind : {PageKind::Owner, PageKind::Technical}) {
        const std::string pdf = printed(k, kind, Paper::A4);
        EXPECT_NE(text_of(pdf).find("Not known yet: test first"), std::string::npos);
        expect_words_on_the_page(pdf);
    }
}

TEST(PrintProperty, InventedDataIsMarkedOnEveryPage) {
    KeptJudgement by_row = kept(), by_liquid = kept();
    by_row.row.demo = true;
    by_liquid.request.liquid.standing = Standing::Invented;
    for (const auto& k : {by_row, by_liquid})
        for (const auto kind : {PageKind::Owner, PageKind::Technical}) {
            const std::string pdf = printed(k, kind, Paper::A4);
            for (int n = 1; n <= pages_of(pdf); ++n)
                EXPECT_NE(read_back(pdf, "pdftotext -f " + std::to_string(n) + " -l " + std::to_string(n) + " % -").find("Demo: invented data"), std::string::npos) << n;
        }
    EXPECT_EQ(text_of(printed(kept(), PageKind::Owner, Paper::A4)).find("invented data"), std::string::npos);
}

TEST(PrintProperty, LongAndHostileTextBreaksNeitherTheLayoutNorThePage) {
    const std::string markup = "<b>bold</b> & <span foreground='red'>red</span> &amp;", word(900, 'W');
    const std::string odd = "\x01\x07\x1b[31m red\r\n\t \xff\xfe broken \xe2\x80\xae backwards \xe2\x80\x8b e\xcc\x81\xcc\x81\xcc\x81\xcc\x81\xcc\x81\xcc\x81 \xf0\x9f\xa7\xaa \xe6\xbc\xa2";
    for (const auto& text : {markup, word, odd, markup + odd + word}) {
        KeptJudgement k = kept();
        k.row.title = text;
        k.request.liquid.name = text;
        k.request.liquid.family = text;
        k.request.leather.name = text;
        k.answer.leather.name = text;
        k.request.liquid.ingredients.assign(40, {text, text, 1.0, std::nullopt, std::nullopt});
        k.answer.sentence = text;
        k.answer.harms[0].sentence = text;
        k.answer.harms[0].name = text;
        k.answer.limits[0].name = text;
        k.answer.cautions.push_back(text);
        for (const auto paper : {Paper::A4, Paper::Letter}) {
            const std::string owner = printed(k, PageKind::Owner, paper), whole = printed(k, PageKind::Technical, paper);
            EXPECT_EQ(pages_of(owner), 1);
            expect_words_on_the_page(owner);
            expect_words_on_the_page(whole);
            if (text == markup) { EXPECT_NE(text_of(whole).find("<b>bold</b> & <span"), std::string::npos); }
            EXPECT_EQ(text_of(whole).find("\x1b"), std::string::npos);
        }
    }
}

TEST(PrintProperty, TablesRunOnOverPagesWithTheirTitles) {
    KeptJudgement k = kept();
    k.request.liquid.ingredients.assign(120, {"sodium carbonate", "497-19-8", 0.1, std::nullopt, std::nullopt});
    const std::string pdf = printed(k, PageKind::Technical, Paper::A4);
    for (const char* n : {"1", "2", "3"}) {
        const std::string page = read_back(pdf, std::string("pdftotext -f ") + n + " -l " + n + " % -");
        EXPECT_NE(page.find("Input"), std::string::npos) << n;
        EXPECT_NE(page.find("Mark"), std::string::npos) << n;
    }
}

TEST(PrintProperty, JudgedDemoLiquidsPrintOnEveryPaper) {
    test::MemoryStore store;
    test::FixedClock clock;
    PdfPrinter printer;
    desk::Ports ports{store, clock, &printer};
    for (auto& l : desk::demo_liquids()) ASSERT_TRUE(store.keep_liquid(l).ok());
    for (auto& l : desk::demo_leathers()) ASSERT_TRUE(store.keep_leather(l).ok());
    for (auto request : desk::demo_requests()) {
        request.members = 32;
        for (const auto kind : {PageKind::Owner, PageKind::Technical}) {
            const auto answer = desk::print({"", request, kind, kind == PageKind::Owner ? Paper::Letter : Paper::A4}, ports);
            ASSERT_TRUE(answer.ok()) << answer.error().message;
            EXPECT_EQ(answer->file_name, kind == PageKind::Owner ? "judgement-owner.pdf" : "judgement-technical.pdf");
            if (kind == PageKind::Owner) { EXPECT_EQ(pages_of(answer->pdf), 1) << request.title; }
            expect_words_on_the_page(answer->pdf);
        }
    }
    EXPECT_TRUE(store.judgements({})->empty()) << "a print keeps nothing";
}

TEST(PrintRefusal, NamesTheFieldThatIsWrong) {
    test::MemoryStore store;
    test::FixedClock clock;
    PdfPrinter printer;
    desk::Ports without{store, clock}, ports{store, clock, &printer};
    EXPECT_EQ(desk::parse_paper("a5").error().where, "paper");
    EXPECT_EQ(desk::parse_paper("A4").error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(desk::parse_page_kind("").error().where, "page");
    EXPECT_EQ(*desk::parse_paper("letter"), Paper::Letter);
    EXPECT_EQ(*desk::parse_page_kind("technical"), PageKind::Technical);
    EXPECT_EQ(desk::print({"no", std::nullopt, PageKind::Owner, Paper::A4}, ports).error().code, ErrorCode::NotFound);
    EXPECT_EQ(desk::print({"", std::nullopt, PageKind::Owner, Paper::A4}, ports).error().where, "id");
    EXPECT_EQ(desk::print({"no", std::nullopt, PageKind::Owner, Paper::A4}, without).error().code, ErrorCode::Unavailable);
    EXPECT_EQ(with_language("not a PDF").error().code, ErrorCode::Unavailable);
}

TEST(PrintProperty, TheFileNameHoldsNothingThatAUserTyped) {
    test::FixedClock clock;
    PdfPrinter printer;
    class Odd : public test::MemoryStore {
    public:
        Result<KeptJudgement> judgement(const std::string& id) override {
            KeptJudgement k = kept();
            k.row.id = id;
            return k;
        }
    } store;
    desk::Ports ports{store, clock, &printer};
    EXPECT_EQ(desk::print({"0190-ab", std::nullopt, PageKind::Owner, Paper::A4}, ports)->file_name, "judgement-0190-ab-owner.pdf");
    EXPECT_EQ(desk::print({"a\"\r\nX: y/../ü", std::nullopt, PageKind::Technical, Paper::A4}, ports)->file_name, "judgement-aXy-technical.pdf");
}

desk::TriageAnswer called(const std::vector<desk::TriageGiven>& answers) {
    test::MemoryStore store;
    test::FixedClock clock;
    desk::Ports ports{store, clock};
    desk::TriageRequest r;
    r.caller = "Ada Example";
    r.name = "Sofa of the call";
    r.answers = answers;
    for (const auto& m : desk::triage_questions().may_i) r.may_i.push_back(m.key);
    auto a = desk::triage(r, ports);
    EXPECT_TRUE(a.ok()) << (a.ok() ? "" : a.error().message);
    return a.ok() ? *a : desk::TriageAnswer{};
}

std::string page_of(const desk::TriageAnswer& call, Paper paper) {
    PdfPrinter printer;
    auto pdf = printer.page(call, paper);
    EXPECT_TRUE(pdf.ok()) << (pdf.ok() ? "" : pdf.error().message);
    return pdf.ok() ? *pdf : std::string();
}

desk::TriageGiven told(const char* question, std::vector<std::string> choices) { return {question, std::move(choices), std::nullopt, "", ""}; }

TEST(PrintProperty, ACallStandsOnOnePageWithEverySentenceAndTheSameBytes) {
    const std::vector<desk::TriageGiven> wet{told("people", {"none"}), told("piece", {"sofa"}), told("product", {"degreaser"}), told("wet", {"wet"}), told("since", {"nothing"}), told("surface", {"even_shine"}), told("bead", {"stays"}), told("involved", {"insurer"}), {"dose", {}, 30, "ml", ""}, {"area", {}, 40, "hands", ""}};
    const std::vector<desk::TriageGiven> danger{told("people", {"mixed", "breathing", "eyes"}), told("product", {"bleach", "vinegar"})};
    for (const auto paper : {Paper::A4, Paper::Letter})
        for (const auto& answers : {wet, danger, std::vector<desk::TriageGiven>{}}) {
            const auto call = called(answers);
            const std::string pdf = page_of(call, paper), text = text_of(pdf);
            EXPECT_EQ(pdf, page_of(call, paper));
            EXPECT_EQ(pages_of(pdf), 1);
            EXPECT_GT(expect_words_on_the_page(pdf), 100U);
            for (const auto* list : {&call.say, &call.never, &call.photos, &call.evidence_keep})
                for (const auto& s : *list) EXPECT_NE(text.find(s.sentence), std::string::npos) << s.sentence << "\n" << text;
            for (const auto& m : call.may_i) EXPECT_NE(text.find(m.answer), std::string::npos) << m.answer;
            if (call.stop) expect_in_order(text, {"STOP", call.stop->headline, call.say[0].sentence});
            else expect_in_order(text, {"How soon: " + call.urgency.words, call.say[0].sentence});
        }
}

TEST(PrintProperty, HostileWordsOfACallerBreakNothing) {
    std::vector<desk::TriageGiven> answers;
    for (const char* q : {"people", "piece", "product", "label", "since", "when", "tag"}) answers.push_back({q, {}, std::nullopt, "", std::string(3900, 'W') + "\n\t\xe2\x80\xae <b>&"});
    const auto call = called(answers);
    const std::string pdf = page_of(call, Paper::Letter);
    EXPECT_EQ(pages_of(pdf), 1);
    expect_words_on_the_page(pdf);
}

TEST(PrintTextProperty, ForeignTextIsMadeFitToBeSet) {
    EXPECT_EQ(fit(" a\r\n\tb\x01\x7f c "), "a b c");
    EXPECT_EQ(fit("a\xe2\x80\xae\xe2\x80\x8b" "b"), "ab");
    EXPECT_EQ(fit("abcdef", 3), "abc…");
    EXPECT_EQ(fit("abc", 3), "abc");
    EXPECT_EQ(fit("x\xff"), "x\xef\xbf\xbd");
    EXPECT_EQ(fit("e\xcc\x81\xcc\x81\xcc\x81\xcc\x81"), "e\xcc\x81\xcc\x81");
    EXPECT_EQ(fit("µ ² ≥ −"), "µ ² ≥ −");
    EXPECT_EQ(glued("down to 30 µm, pH 4.6, 6 ± 1 mmol/m² on 3 mills"), "down to 30\u00a0µm, pH\u00a04.6, 6\u00a0±\u00a01\u00a0mmol/m² on 3 mills");
    EXPECT_EQ(whole_units("24 mmol/m² of").size(), 1u);
}

TEST(PrintColourProperty, TextReachesSevenToOneAndPhRunsFromRedToBlue) {
    for (const Colour ground : {white, sunk}) {
        EXPECT_GE(contrast(ink, ground), 7);
        EXPECT_GE(contrast(ink_soft, ground), 7);
    }
    EXPECT_GE(contrast(accent, accent_wash), 7);
    EXPECT_GE(contrast(accent, white), 7);
    EXPECT_GE(contrast(warn, warn_wash), 7);
    EXPECT_GE(contrast(warn, white), 7);
    EXPECT_GT(ph_colour(2).r, ph_colour(2).b);
    EXPECT_GT(ph_colour(7).g, ph_colour(7).r);
    EXPECT_GT(ph_colour(11).b, ph_colour(11).r);
}

}  // namespace
}  // namespace hw::pdf
