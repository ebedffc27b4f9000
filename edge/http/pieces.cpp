#include "edge/http/pieces.hpp"

#include <iterator>

#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/meters.hpp"

namespace hw::http {

namespace {

using desk::Role;

/// The ports as who asks may use them.
desk::Ports as_asked(const Asked& asked, const desk::Ports& ports) {
    desk::Ports out = ports;
    out.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return out;
}

Reply inspect(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_inspect_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (!request->entries.empty() && asked.role < Role::Technician) return not_for_this_role(asked);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::inspect(*request, mine), asked.id);
}

/// Asking is for everybody who may read; keeping writes.
Reply identify(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_identify_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if ((request->write || request->proven) && asked.role < Role::Technician) return not_for_this_role(asked);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::identify(*request, mine), asked.id);
}

Reply show(const Asked& asked, desk::Ports& ports) {
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::inspect({asked.argument, {}}, mine), asked.id);
}

Reply pieces(const Asked& asked, desk::Ports& ports) {
    if (ports.journal == nullptr) return failed({ErrorCode::Unavailable, "No records are joined in.", "data"}, asked.id);
    return listed(asked, [&](const desk::Page& page) { return ports.journal->pieces(page); });
}

Reply calibrate(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_calibration(asked.body);
    return request.ok() ? told(desk::calibrate(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply keep_meter(const Asked& asked, desk::Ports& ports) {
    const auto instrument = codec::parse_instrument(asked.body);
    if (!instrument.ok()) return failed(instrument.error(), asked.id);
    if (instrument->name.empty()) return failed({ErrorCode::InvalidInput, "Give the meter a name that the shop will know it by.", "name"}, asked.id);
    if (ports.journal == nullptr) return failed({ErrorCode::Unavailable, "No records are joined in.", "data"}, asked.id);
    return told_id(ports.journal->keep_instrument(*instrument), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/inspect", Role::Reader}, inspect},
    {{"POST", "/api/identify", Role::Reader}, identify},
    {{"GET", "/api/identify_words", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::identify_words())); }},
    {{"GET", "/api/inspection_words", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::inspection_words())); }},
    {{"GET", "/api/pieces", Role::Reader}, pieces},
    {{"GET", "/api/pieces/{id}", Role::Reader}, show},
    {{"POST", "/api/pieces/{id}/bin", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.bin(a.argument), a.id); }},
    {{"POST", "/api/pieces/{id}/restore", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.restore(a.argument), a.id); }},
    {{"POST", "/api/calibrate", Role::Technician}, calibrate},
    {{"GET", "/api/meters", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(desk::meters(p), a.id); }},
    {{"POST", "/api/meters", Role::Technician}, keep_meter},
};

}  // namespace

Handlers piece_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
