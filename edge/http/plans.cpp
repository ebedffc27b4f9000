#include "edge/http/plans.hpp"

#include <iterator>

#include "desk/print.hpp"
#include "desk/rebalance.hpp"
#include "desk/refine.hpp"
#include "edge/http/work.hpp"

namespace hw::http {

namespace {

using desk::Role;

Reply rebalance(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_rebalance_request(asked.body);
    return request.ok() ? told(desk::rebalance(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply printed(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_rebalance_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    if (!paper.ok()) return failed(paper.error(), asked.id);
    auto answer = desk::print_plan(*request, *paper, ports);
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = std::move(answer->pdf);
    r.file_name = std::move(answer->file_name);
    return r;
}

/// Begins the work; whoever began it may look at it and end it.
Reply begun(const Asked& asked, Works::Job job) {
    HW_EXPECTS(asked.works != nullptr);
    return told_id(asked.works->begin(asked.person_id, std::move(job)), asked.id);
}

Reply begin_rebalance(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_rebalance_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return begun(asked, [request = *request, ports](const Progress& progress) mutable -> Result<std::string> {
        HW_TRY(answer, desk::rebalance(request, ports, progress));
        return codec::written(answer);
    });
}

Reply begin_refine(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_refine_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return begun(asked, [request = *request, ports](const Progress& progress) mutable -> Result<std::string> {
        HW_TRY(answer, desk::refine(request, ports, progress));
        return codec::written(answer);
    });
}

Reply look(const Asked& asked, desk::Ports&) {
    HW_EXPECTS(asked.works != nullptr);
    const auto state = asked.works->state(asked.argument, asked.person_id, asked.role == Role::Owner);
    if (!state.ok()) return failed(state.error(), asked.id);
    return json(codec::work_written(state->done_1, state->doing, state->finished, state->answer, state->error));
}

Reply cancel(const Asked& asked, desk::Ports&) {
    HW_EXPECTS(asked.works != nullptr);
    const auto done = asked.works->cancel(asked.argument, asked.person_id, asked.role == Role::Owner);
    return done.ok() ? json("{}") : failed(done.error(), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/rebalance", Role::Reader}, rebalance},
    {{"POST", "/api/rebalance.pdf", Role::Reader}, printed},
    {{"GET", "/api/remedies", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::remedies())); }},
    {{"POST", "/api/rebalance/begin", Role::Reader}, begin_rebalance},
    {{"POST", "/api/refine/begin", Role::Reader}, begin_refine},
    {{"GET", "/api/running/{id}", Role::Reader}, look},
    {{"POST", "/api/running/{id}/cancel", Role::Reader}, cancel},
};

}  // namespace

Handlers plan_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
