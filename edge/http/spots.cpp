#include "edge/http/spots.hpp"

#include <iterator>

#include "desk/spot.hpp"
#include "edge/codec/calendar.hpp"

namespace hw::http {

namespace {

using desk::Role;

Reply spot(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_spot_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (!request->entries.empty() && asked.role < Role::Technician) return not_for_this_role(asked);
    desk::Ports mine = ports;
    mine.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return told(desk::spot(*request, mine), asked.id);
}

Reply calendar(const Asked& asked, desk::Ports& ports) {
    const auto due = desk::spots_due(ports);
    if (!due.ok()) return failed(due.error(), asked.id);
    Reply r;
    r.type = "text/calendar; charset=utf-8";
    r.body = codec::calendar_written(*due, ports.clock.now_utc());
    r.attached = true;
    r.file_name = "spots.ics";
    return r;
}

constexpr Handler handlers[] = {
    {{"POST", "/api/spot", Role::Reader}, spot},
    {{"GET", "/api/spots", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(desk::spots_due(p), a.id); }},
    {{"GET", "/api/spots/rates", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(desk::spot_rates(p), a.id); }},
    {{"GET", "/api/spots/calendar", Role::Reader}, calendar},
};

}  // namespace

Handlers spot_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
