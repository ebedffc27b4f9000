#include "edge/http/damage.hpp"

#include <iterator>

#include "desk/advise.hpp"
#include "desk/diagnose.hpp"

namespace hw::http {

namespace {

using desk::Role;

desk::Ports as_asked(const Asked& asked, const desk::Ports& ports) {
    desk::Ports mine = ports;
    mine.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return mine;
}

Error may_not_write() { return {ErrorCode::Conflict, "A reader may look and not write: leave keep out.", "keep"}; }

Reply diagnose(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_diagnose_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (request->keep && asked.role == Role::Reader) return failed(may_not_write(), asked.id);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::diagnose(*request, mine), asked.id);
}

Reply advise(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_advise_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (request->known.keep && asked.role == Role::Reader) return failed(may_not_write(), asked.id);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::advise(*request, mine), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/diagnose", Role::Reader}, diagnose},
    {{"POST", "/api/advise", Role::Reader}, advise},
    {{"GET", "/api/damage_signs", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::damage_signs())); }},
};

}  // namespace

Handlers damage_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
