#include "edge/http/sheets.hpp"

#include <charconv>
#include <iterator>

#include "desk/digest.hpp"

namespace hw::http {

namespace {

using desk::Role;

Error none() { return {ErrorCode::Unavailable, "Data sheets are not kept here.", "sheets"}; }

/// The ports as who asks may use them.
desk::Ports as_asked(const Asked& asked, const desk::Ports& ports) {
    desk::Ports out = ports;
    out.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return out;
}

Reply digest(const Asked& asked, desk::Ports& ports) {
    desk::DigestRequest request;
    request.name = asked.name;
    request.by_hand = asked.by_hand == "true";
    request.keep = true;
    request.bytes = asked.body;
    return told(desk::digest(request, ports), asked.id);
}

Reply list(const Asked& asked, desk::Ports& ports) {
    if (ports.sheets == nullptr) return failed(none(), asked.id);
    return listed(asked, [&](const desk::Page& page) { return ports.sheets->sheets(page); });
}

Reply show(const Asked& asked, desk::Ports& ports) {
    desk::DigestRequest request;
    request.sheet = asked.argument;
    return told(desk::digest(request, ports), asked.id);
}

/// Drawn anew each time; the browser keeps it, since a sheet's file never changes.
Reply page(const Asked& asked, desk::Ports& ports) {
    int number = 0;
    const char* end = asked.number.data() + asked.number.size();
    if (const auto [at, fault] = std::from_chars(asked.number.data(), end, number); fault != std::errc{} || at != end)
        return failed({ErrorCode::InvalidInput, "Say which page: ?number=1.", "number"}, asked.id);
    auto png = desk::sheet_page(asked.argument, number, ports);
    if (!png.ok()) return failed(png.error(), asked.id);
    Reply r;
    r.body = *std::move(png);
    r.type = "image/png";
    r.tag = "\"" + asked.argument + "-" + std::to_string(number) + "\"";
    r.lasting = r.inert = true;
    return r;
}

/// The bytes that came, to save.
Reply file(const Asked& asked, desk::Ports& ports) {
    if (ports.sheets == nullptr) return failed(none(), asked.id);
    const auto row = ports.sheets->row(asked.argument);
    if (!row.ok()) return failed(row.error(), asked.id);
    auto bytes = ports.sheets->file(row->id);
    if (!bytes.ok()) return failed(bytes.error(), asked.id);
    Reply r;
    r.body = *std::move(bytes);
    r.type = "application/pdf";
    r.tag = "\"" + row->id + "\"";
    r.lasting = r.inert = r.attached = true;
    r.file_name = row->id.substr(0, 16) + ".pdf";
    return r;
}

Reply correct(const Asked& asked, desk::Ports& ports) {
    auto correction = codec::parse_sheet_correction(asked.body);
    if (!correction.ok()) return failed(correction.error(), asked.id);
    correction->sheet = asked.argument;
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::correct_sheet(*correction, mine), asked.id);
}

Reply shelve(const Asked& asked, desk::Ports& ports) {
    auto request = codec::parse_shelve_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    request->sheet = asked.argument;
    return told(desk::shelve_sheet(*request, ports), asked.id);
}

constexpr Handler handlers[] = {
    {{"POST", "/api/digest", Role::Technician}, digest},
    {{"GET", "/api/sheets", Role::Reader}, list},
    {{"GET", "/api/sheets/{id}", Role::Reader}, show},
    {{"GET", "/api/sheets/{id}/page.png", Role::Reader}, page},
    {{"GET", "/api/sheets/{id}/file.pdf", Role::Reader}, file},
    {{"POST", "/api/sheets/{id}/corrections", Role::Technician}, correct},
    {{"POST", "/api/sheets/{id}/shelf", Role::Technician}, shelve},
    {{"POST", "/api/sheets/{id}/bin", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.bin(a.argument), a.id); }},
    {{"POST", "/api/sheets/{id}/restore", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.restore(a.argument), a.id); }},
};

}  // namespace

Handlers sheet_handlers() { return {handlers, std::size(handlers)}; }

bool takes_a_sheet(std::string_view path) { return path == "/api/digest"; }

}  // namespace hw::http
