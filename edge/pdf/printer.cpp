#include "edge/pdf/printer.hpp"

#include <mutex>

#include "edge/pdf/pages.hpp"
#include "edge/pdf/typefaces.hpp"

namespace hw::pdf {

namespace {
const Error no_typefaces{ErrorCode::Unavailable, "The system gives no memory for the typefaces. Close other programs and try again.", "page"};
}  // namespace

Result<std::string> PdfPrinter::page(const desk::KeptJudgement& judgement, desk::PageKind kind, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return kind == desk::PageKind::Owner ? owner_page(judgement, paper) : technical_pages(judgement, paper);
}

Result<std::string> PdfPrinter::page(const desk::TriageAnswer& call, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return call_page(call, paper);
}

Result<std::string> PdfPrinter::page(const desk::ProtectAnswer& card, desk::PageKind kind, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return kind == desk::PageKind::Owner ? household_page(card, paper) : safety_page(card, paper);
}

Result<std::string> PdfPrinter::plan(const desk::RebalanceRequest& request, const desk::RebalanceAnswer& answer, const std::string& at, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return bench_pages(request, answer, at, paper);
}

Result<std::string> PdfPrinter::chart(const desk::TouchAnswer& chart, const desk::ShelfMeetings& meetings, const std::string& at, desk::WallPaper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return chart_pages(chart, meetings, at, paper);
}

Result<std::string> PdfPrinter::titration(const desk::TitrateAnswer& how, const std::string& at, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return drops_page(how, at, paper);
}

Result<std::string> PdfPrinter::labels(const std::vector<desk::ShelfLabel>& labels, const std::string& at, desk::Paper paper) {
    const std::scoped_lock lock(one_at_a_time());
    if (typefaces() == nullptr) return no_typefaces;
    return label_pages(labels, at, paper);
}

}  // namespace hw::pdf
