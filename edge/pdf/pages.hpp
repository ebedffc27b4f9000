// The kinds of page, drawn on sheets.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "desk/kept.hpp"
#include "desk/meet.hpp"
#include "desk/protect.hpp"
#include "desk/rebalance.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "desk/shelf.hpp"
#include "edge/pdf/sheet.hpp"

namespace hw::pdf {

inline constexpr double margin = 46;

/// One page in plain words: set smaller, step by step, until it fits.
Result<std::string> owner_page(const desk::KeptJudgement& judgement, desk::Paper paper);
/// The bench card in large type, then the plan behind it. @param at  ISO 8601, of the plan
Result<std::string> bench_pages(const desk::RebalanceRequest& request, const desk::RebalanceAnswer& answer, const std::string& at, desk::Paper paper);
/// As many pages as it takes, numbered n of m.
Result<std::string> technical_pages(const desk::KeptJudgement& judgement, desk::Paper paper);

/// A call, on one page.
Result<std::string> call_page(const desk::TriageAnswer& call, desk::Paper paper);

/// The chart of the shelf across as many pages as it takes, each with its heads; then what must never meet. @param at  ISO 8601
Result<std::string> chart_pages(const desk::TouchAnswer& chart, const desk::ShelfMeetings& meetings, const std::string& at, desk::WallPaper paper);
/// How drops are counted, large, on one page. @param at  ISO 8601
Result<std::string> drops_page(const desk::TitrateAnswer& how, const std::string& at, desk::Paper paper);

/// The safety card of a job, on one page: set smaller, step by step, until it fits.
Result<std::string> safety_page(const desk::ProtectAnswer& card, desk::Paper paper);
/// The note for the household, on one page.
Result<std::string> household_page(const desk::ProtectAnswer& card, desk::Paper paper);

/// Labels of the shelf, two by six on a page, with lines to cut along. @param at  ISO 8601
Result<std::string> label_pages(const std::vector<desk::ShelfLabel>& labels, const std::string& at, desk::Paper paper);

/// Small type of a size, for labels and tables.
Type label(double size, bool strong = false, Colour colour = ink);
/// Headings and verdicts.
Type serif(double size, bool strong = true, Colour colour = ink);
/// "2 January 2026, 03:04 UTC" of an ISO 8601 time; as it is when it is none.
std::string date_words(const std::string& iso);
/// What the file says of itself: nothing a user typed but the title.
AboutFile about(const desk::KeptJudgement& judgement, const char* kind);
/// Paragraphs with a small square before each. @return their height
double bullets(Sheet& sheet, Point at, double width, const std::vector<std::string>& items, const Type& type, double gap, Colour square);
/// The mark of invented data across the page. @return its height
double draw_demo_mark(Sheet& sheet, Point at, double width, double size);
/// What to do now and what never, large. @return its height
double draw_stop(Sheet& sheet, Point at, double width, const desk::Stop& stop, double size);

}  // namespace hw::pdf
