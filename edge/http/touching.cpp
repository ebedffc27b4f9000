#include "edge/http/touching.hpp"

#include <iterator>

#include "desk/meet.hpp"
#include "desk/print.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "edge/http/work.hpp"

namespace hw::http {

namespace {

using desk::Role;

/// A request of a verb, handed on.
template <class Parse, class Verb>
Reply asked_verb(const Asked& asked, const Parse& parse, const Verb& verb) {
    const auto request = parse(asked.body);
    return request.ok() ? told(verb(*request), asked.id) : failed(request.error(), asked.id);
}

Reply paper_of(const Asked& asked, Result<desk::PrintAnswer> answer) {
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = std::move(answer->pdf);
    r.file_name = std::move(answer->file_name);
    return r;
}

Reply chart(const Asked& asked, desk::Ports& ports) {
    return asked_verb(asked, codec::parse_touch_request, [&](const desk::TouchRequest& r) { return desk::touch_chart(r, ports); });
}

/// Cells are kept as they come, so that a chart that is broken off goes on where it stood.
Reply begin(const Asked& asked, desk::Ports& ports) {
    auto request = codec::parse_touch_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    request->keep = true;
    HW_EXPECTS(asked.works != nullptr);
    return told_id(asked.works->begin(asked.person_id, [request = *request, ports](const Progress& progress) mutable -> Result<std::string> {
        HW_TRY(answer, desk::touch(request, ports, progress));
        return codec::written(answer);
    }), asked.id);
}

Reply chart_pdf(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_touch_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    const auto paper = desk::parse_wall_paper(asked.paper.empty() ? "a3" : asked.paper);
    return paper.ok() ? paper_of(asked, desk::print_touch(*request, *paper, ports)) : failed(paper.error(), asked.id);
}

Reply meet(const Asked& asked, desk::Ports& ports) {
    return asked_verb(asked, codec::parse_meet_request, [&](const desk::MeetRequest& r) { return desk::meet(r, ports); });
}

Reply titrate(const Asked& asked, desk::Ports& ports) {
    return asked_verb(asked, codec::parse_titrate_request, [&](const desk::TitrateRequest& r) { return desk::titrate(r, ports); });
}

Reply drops_pdf(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_titrate_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    return paper.ok() ? paper_of(asked, desk::print_titration(*request, *paper, ports)) : failed(paper.error(), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/touch", Role::Reader}, chart},
    {{"POST", "/api/touch/begin", Role::Technician}, begin},
    {{"POST", "/api/touch.pdf", Role::Reader}, chart_pdf},
    {{"POST", "/api/meet", Role::Reader}, meet},
    {{"GET", "/api/meet/shelf", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(desk::shelf_meetings(p), a.id); }},
    {{"POST", "/api/titrate", Role::Reader}, titrate},
    {{"POST", "/api/titrate.pdf", Role::Reader}, drops_pdf},
};

}  // namespace

Handlers touching_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
