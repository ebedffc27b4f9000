#include "edge/http/protect.hpp"

#include <iterator>

#include "desk/own_limits.hpp"
#include "desk/protect.hpp"

namespace hw::http {

namespace {

using desk::Role;

Reply protect(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_protect_request(asked.body);
    return request.ok() ? told(desk::protect(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply printed(const Asked& asked, desk::Ports& ports, desk::PageKind kind) {
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    if (!paper.ok()) return failed(paper.error(), asked.id);
    const auto request = codec::parse_protect_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    auto answer = desk::print_safety(*request, kind, *paper, ports);
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = std::move(answer->pdf);
    r.file_name = std::move(answer->file_name);
    return r;
}

Reply keep_limit(const Asked& asked, desk::Ports& ports) {
    const auto limit = codec::parse_own_limit(asked.body);
    return limit.ok() ? told(desk::keep_own_limit(*limit, ports), asked.id) : failed(limit.error(), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/protect", Role::Reader}, protect},
    {{"POST", "/api/protect.pdf", Role::Reader}, [](const Asked& a, desk::Ports& p) { return printed(a, p, desk::PageKind::Technical); }},
    {{"POST", "/api/protect_note.pdf", Role::Reader}, [](const Asked& a, desk::Ports& p) { return printed(a, p, desk::PageKind::Owner); }},
    {{"GET", "/api/safety_places", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::safety_places())); }},
    {{"GET", "/api/own_limits", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(p.store.own_limits(), a.id); }},
    {{"POST", "/api/own_limits", Role::Technician}, keep_limit},
};

}  // namespace

Handlers protect_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
