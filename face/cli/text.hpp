// Answers as text for people: the answer first, then because, then all of it; 80 columns.
#pragma once

#include <string>
#include <vector>

#include "desk/advise.hpp"
#include "desk/analyse.hpp"
#include "desk/compare.hpp"
#include "desk/diagnose.hpp"
#include "desk/digest.hpp"
#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/meters.hpp"
#include "desk/judge.hpp"
#include "desk/own_limits.hpp"
#include "desk/protect.hpp"
#include "desk/triage.hpp"
#include "desk/rebalance.hpp"
#include "desk/refine.hpp"

namespace hw::cli {

/// Adds a text in lines of 80 columns. @param first, rest  what the first line and the others begin with
void wrap(std::string& out, const std::string& text, const std::string& first, const std::string& rest);

std::string text_of(const desk::AnalyseAnswer& answer);
std::string text_of(const desk::JudgeAnswer& answer);
std::string text_of(const desk::RefineAnswer& answer);
std::string text_of(const std::vector<desk::ShopTest>& bench);
std::string text_of(const desk::CompareAnswer& answer);
std::string text_of(const desk::InspectAnswer& answer);
std::string text_of(const desk::MeterCheck& check);
std::string text_of(const desk::TriageAnswer& answer);
std::string text_of(const desk::TriageQuestions& questions);
std::string text_of(const desk::ProtectAnswer& answer);
std::string text_of(const std::vector<desk::OwnLimit>& limits);
std::string text_of(const desk::RebalanceAnswer& answer);
std::string text_of(const desk::DigestAnswer& answer);
std::string text_of(const desk::DiagnoseAnswer& answer);
std::string text_of(const desk::AdviseAnswer& answer);
std::string text_of(const desk::IdentifyAnswer& answer);

}  // namespace hw::cli
