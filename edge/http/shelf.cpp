#include "edge/http/shelf.hpp"

#include <iterator>

#include "desk/print.hpp"
#include "desk/shelf.hpp"
#include "desk/shelf_tables.hpp"

namespace hw::http {

namespace {

using desk::Role;

/// The ports as who asks may use them.
desk::Ports as_asked(const Asked& asked, const desk::Ports& ports) {
    desk::Ports out = ports;
    out.who = {asked.person_id, asked.person_name, asked.role == Role::Owner};
    return out;
}

Reply list(const Asked& asked, desk::Ports& ports) {
    const auto page = page_of(asked);
    if (!page.ok()) return failed(page.error(), asked.id);
    return told(desk::shelf(page->after, page->limit, ports), asked.id);
}

Reply show(const Asked& asked, desk::Ports& ports) { return told(desk::shelf_product(asked.argument, ports), asked.id); }

Reply find(const Asked& asked, desk::Ports& ports) { return told(desk::shelf_find(asked.name, ports), asked.id); }

Reply enter(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_shelf_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::shelf_enter(*request, mine), asked.id);
}

Reply import(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_import_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    desk::Ports mine = as_asked(asked, ports);
    return told(desk::shelf_import(*request, mine), asked.id);
}

Reply table(const Result<std::string>& text, const Asked& asked, const char* file_name) {
    if (!text.ok()) return failed(text.error(), asked.id);
    Reply r;
    r.type = "text/csv; charset=utf-8; header=present";
    r.body = *text;
    r.attached = true;
    r.file_name = file_name;
    return r;
}

Reply products(const Asked& asked, desk::Ports& ports) { return table(desk::shelf_products_table(ports), asked, "products.csv"); }
Reply lots(const Asked& asked, desk::Ports& ports) { return table(desk::shelf_lots_table(ports), asked, "lots.csv"); }

/// Where phones reach this program; empty while the network is off.
std::string network_address(desk::Ports& ports) {
    if (ports.network == nullptr) return {};
    const desk::NetworkState state = ports.network->state();
    return state.on && state.port > 0 ? "https://" + state.name + (state.port == 443 ? "" : ":" + std::to_string(state.port)) : "";
}

Reply labels(const Asked& asked, desk::Ports& ports) {
    if (ports.printer == nullptr) return failed({ErrorCode::Unavailable, "Nothing can be printed here.", "printer"}, asked.id);
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    if (!paper.ok()) return failed(paper.error(), asked.id);
    const auto all = desk::shelf_labels(asked.name.empty() ? std::vector<std::string>{} : std::vector<std::string>{asked.name}, network_address(ports), ports);
    if (!all.ok()) return failed(all.error(), asked.id);
    auto pdf = ports.printer->labels(*all, ports.clock.now_utc(), *paper);
    if (!pdf.ok()) return failed(pdf.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = *std::move(pdf);
    r.attached = true;
    r.file_name = "labels.pdf";
    return r;
}

// What is named comes before {id}, which fits everything.
constexpr Handler handlers[] = {
    {{"GET", "/api/shelf", Role::Reader}, list},
    {{"GET", "/api/shelf/find", Role::Reader}, find},
    {{"GET", "/api/shelf/products.csv", Role::Reader}, products},
    {{"GET", "/api/shelf/lots.csv", Role::Reader}, lots},
    {{"GET", "/api/shelf/labels.pdf", Role::Reader}, labels},
    {{"POST", "/api/shelf/entries", Role::Technician}, enter},
    {{"POST", "/api/shelf/import", Role::Technician}, import},
    {{"GET", "/api/shelf/{id}", Role::Reader}, show},
};

}  // namespace

Handlers shelf_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
