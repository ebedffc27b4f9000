#include "edge/http/triage.hpp"

#include <iterator>

#include "desk/print.hpp"
#include "desk/triage.hpp"

namespace hw::http {

namespace {

using desk::Role;

/// The ports as who asks may use them.
desk::Ports as_asked(const Asked& asked, const desk::Ports& ports) {
    desk::Ports out = ports;
    out.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return out;
}

Reply triage(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_triage_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    // Asking is for everybody who may read; keeping writes.
    if (request->keep && asked.role < Role::Technician) return not_for_this_role(asked);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::triage(*request, mine), asked.id);
}

Reply printed(const Asked& asked, desk::Ports& ports) {
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    if (!paper.ok()) return failed(paper.error(), asked.id);
    const auto request = codec::parse_triage_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    auto answer = desk::print_triage(*request, *paper, ports);
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = std::move(answer->pdf);
    r.file_name = std::move(answer->file_name);
    return r;
}

constexpr Handler handlers[] = {
    {{"POST", "/api/triage", Role::Reader}, triage},
    {{"POST", "/api/triage.pdf", Role::Reader}, printed},
    {{"GET", "/api/triage_questions", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::triage_questions())); }},
};

}  // namespace

Handlers triage_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
