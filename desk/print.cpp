#include "desk/print.hpp"

#include <algorithm>
#include <cctype>

#include "desk/rebalance.hpp"

namespace hw::desk {

namespace {

template <class Enum>
Result<Enum> named(std::string_view text, std::string_view where) {
    std::string choices;
    for (const auto& [value, name] : EnumNames<Enum>::names) {
        if (name == text) return value;
        choices += (choices.empty() ? "" : " or ") + std::string(name);
    }
    return Error{ErrorCode::InvalidInput, "Give " + choices + ".", std::string(where)};
}

template <class Enum>
std::string name_in(Enum wanted) {
    for (const auto& [value, name] : EnumNames<Enum>::names)
        if (value == wanted) return std::string(name);
    throw Bug("a choice without a name");
}

std::string file_name(const KeptJudgement& judgement, PageKind kind) {
    constexpr std::size_t longest_id = 64;
    std::string id;
    for (char c : judgement.row.id)
        if (id.size() < longest_id && (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-')) id += c;
    return "judgement-" + (id.empty() ? "" : id + "-") + name_in(kind) + ".pdf";
}

/// As it would be kept, but without an id.
Result<KeptJudgement> judged_now(JudgeRequest request, Ports& ports) {
    request.keep = false;
    HW_TRY(answer, judge(request, ports));
    KeptJudgement out;
    out.row.title = request.title;
    out.row.kept_at = ports.clock.now_utc();
    out.row.version = answer.version;
    out.request = std::move(request);
    out.answer = std::move(answer);
    return out;
}

}  // namespace

Result<PageKind> parse_page_kind(std::string_view text) { return named<PageKind>(text, "page"); }
Result<Paper> parse_paper(std::string_view text) { return named<Paper>(text, "paper"); }
Result<WallPaper> parse_wall_paper(std::string_view text) { return named<WallPaper>(text, "paper"); }

Result<PrintAnswer> print(const PrintRequest& request, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    if (request.id.empty() && !request.request) return Error{ErrorCode::InvalidInput, "Give the id of a kept judgement, or a request to judge first.", "id"};
    HW_TRY(judgement, request.request ? judged_now(*request.request, ports) : ports.store.judgement(request.id));
    HW_TRY(pdf, ports.printer->page(judgement, request.page, request.paper));
    return PrintAnswer{std::move(pdf), file_name(judgement, request.page)};
}

Result<PrintAnswer> print_plan(const RebalanceRequest& request, Paper paper, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    HW_TRY(answer, rebalance(request, ports));
    HW_TRY(pdf, ports.printer->plan(request, answer, ports.clock.now_utc(), paper));
    return PrintAnswer{std::move(pdf), "bench-card.pdf"};
}

Result<PrintAnswer> print_chart(const TouchAnswer& chart, WallPaper paper, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    HW_TRY(meetings, shelf_meetings(ports));
    HW_TRY(pdf, ports.printer->chart(chart, meetings, ports.clock.now_utc(), paper));
    return PrintAnswer{std::move(pdf), "shelf-chart.pdf"};
}

Result<PrintAnswer> print_touch(const TouchRequest& request, WallPaper paper, Ports& ports) {
    HW_TRY(chart, touch_chart(request, ports));
    return print_chart(chart, paper, ports);
}

Result<PrintAnswer> print_titration(const TitrateRequest& request, Paper paper, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    HW_TRY(how, titrate(request, ports));
    if (!how.refused.empty()) return Error{ErrorCode::InvalidInput, how.refused, "liquid"};
    HW_TRY(pdf, ports.printer->titration(how, ports.clock.now_utc(), paper));
    return PrintAnswer{std::move(pdf), "drops.pdf"};
}

}  // namespace hw::desk
