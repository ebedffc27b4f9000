// The door to paper: a judgement or a call as PDF.
#pragma once

#include "desk/kept.hpp"
#include "desk/ports.hpp"

namespace hw::pdf {

/// Draws with typefaces that are inside the program. Pages are drawn one at a time, whoever asks.
///
/// @error Unavailable  the system gives no memory for the typefaces, or the drawing library reports a fault
class PdfPrinter : public desk::Printer {
public:
    Result<std::string> page(const desk::KeptJudgement& judgement, desk::PageKind kind, desk::Paper paper) override;
    Result<std::string> page(const desk::TriageAnswer& call, desk::Paper paper) override;
    Result<std::string> page(const desk::ProtectAnswer& card, desk::PageKind kind, desk::Paper paper) override;
    Result<std::string> plan(const desk::RebalanceRequest& request, const desk::RebalanceAnswer& answer, const std::string& at, desk::Paper paper) override;
    Result<std::string> chart(const desk::TouchAnswer& chart, const desk::ShelfMeetings& meetings, const std::string& at, desk::WallPaper paper) override;
    Result<std::string> titration(const desk::TitrateAnswer& how, const std::string& at, desk::Paper paper) override;
    Result<std::string> labels(const std::vector<desk::ShelfLabel>& labels, const std::string& at, desk::Paper paper) override;
};

}  // namespace hw::pdf
