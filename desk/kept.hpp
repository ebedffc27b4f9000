// A kept judgement: the request, the answer and the version that gave it.
#pragma once

#include "desk/judge.hpp"

namespace hw::desk {

struct KeptJudgement {
    JudgementRow row;
    JudgeRequest request;
    JudgeAnswer answer;
};
template <class Visitor>
void describe(Visitor& visit, KeptJudgement& k) {
    visit("row", k.row, About{});
    visit("request", k.request, About{});
    visit("answer", k.answer, About{});
}

}  // namespace hw::desk
