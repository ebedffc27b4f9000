#include "edge/http/app.hpp"

#include <algorithm>
#include <exception>
#include <iterator>
#include <utility>

#include "atlas/leather_classes.hpp"
#include "atlas/tannages.hpp"
#include "desk/analyse.hpp"
#include "desk/compare.hpp"
#include "desk/digest.hpp"
#include "desk/judge.hpp"
#include "desk/looks.hpp"
#include "desk/next_best.hpp"
#include "desk/refine.hpp"
#include "desk/kept.hpp"
#include "desk/print.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"
#include "edge/codec/codec.hpp"
#include "edge/http/damage.hpp"
#include "edge/http/handler.hpp"
#include "edge/http/pages.hpp"
#include "edge/http/photos.hpp"
#include "edge/http/pieces.hpp"
#include "edge/http/plans.hpp"
#include "edge/http/sheets.hpp"
#include "edge/http/touching.hpp"
#include "edge/http/protect.hpp"
#include "edge/http/shelf.hpp"
#include "edge/http/spots.hpp"
#include "edge/http/triage.hpp"
#include "edge/http/work.hpp"

namespace hw::http {

namespace {

template <class Rows>
Reply choices(const Rows& rows) {
    std::vector<codec::Choice> out;
    for (const auto& row : rows) out.push_back({std::string(row.key), std::string(row.plain_name)});
    return json(codec::written(out));
}

Reply judge(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_judge_request(asked.body);
    // Judging is for everybody who may read; keeping writes.
    if (request.ok() && request->keep && asked.role < desk::Role::Technician) return not_for_this_role(asked);
    return request.ok() ? told(desk::judge(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply analyse(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_analyse_request(asked.body);
    return request.ok() ? told(desk::analyse(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply refine(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_refine_request(asked.body);
    return request.ok() ? told(desk::refine(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply keep_bench(const Asked& asked, desk::Ports& ports) {
    const auto test = codec::parse_shop_test(asked.body);
    return test.ok() ? told(desk::keep_bench(*test, ports), asked.id) : failed(test.error(), asked.id);
}

Reply compare(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_compare_request(asked.body);
    return request.ok() ? told(desk::compare(*request, ports), asked.id) : failed(request.error(), asked.id);
}

Reply compare_csv(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_compare_request(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    const auto answer = desk::compare(*request, ports);
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "text/csv; charset=utf-8; header=present";
    r.body = desk::as_csv(*answer);
    return r;
}

Reply printed(const Asked& asked, desk::Ports& ports, desk::PageKind kind) {
    const auto paper = desk::parse_paper(asked.paper.empty() ? "a4" : asked.paper);
    if (!paper.ok()) return failed(paper.error(), asked.id);
    auto answer = desk::print({asked.argument, std::nullopt, kind, *paper}, ports);
    if (!answer.ok()) return failed(answer.error(), asked.id);
    Reply r;
    r.type = "application/pdf";
    r.body = std::move(answer->pdf);
    r.file_name = std::move(answer->file_name);
    return r;
}

/// What cannot be analysed is not kept.
Reply keep_liquid(const Asked& asked, desk::Ports& ports) {
    const auto liquid = codec::parse_liquid(asked.body);
    if (!liquid.ok()) return failed(liquid.error(), asked.id);
    desk::AnalyseRequest trial;
    trial.liquid = *liquid;
    trial.liquid.id.clear();
    if (const auto answer = desk::analyse(trial, ports); !answer.ok()) return failed(answer.error(), asked.id);
    return told_id(ports.store.keep_liquid(*liquid), asked.id);
}

template <class Rows>
bool stands_in(const Rows& rows, std::string_view key) {
    return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.key == key; });
}

/// What could not be judged is not kept.
Reply keep_leather(const Asked& asked, desk::Ports& ports) {
    const auto leather = codec::parse_leather(asked.body);
    if (!leather.ok()) return failed(leather.error(), asked.id);
    if (const auto outside = desk::out_of_range(*leather)) return failed(*outside, asked.id);
    if (!stands_in(atlas::leather_classes, leather->leather_class))
        return failed({ErrorCode::NotFound, "There is no leather class \"" + leather->leather_class + "\". Choose one of /api/leather_classes.", "leather_class"}, asked.id);
    if (!leather->tannage.empty() && !stands_in(atlas::tannages, leather->tannage))
        return failed({ErrorCode::NotFound, "There is no tannage \"" + leather->tannage + "\". Choose one of /api/tannages.", "tannage"}, asked.id);
    return told_id(ports.store.keep_leather(*leather), asked.id);
}

using desk::Role;

constexpr Handler handlers[] = {
    {{"POST", "/api/judge", Role::Reader}, judge},
    {{"POST", "/api/refine", Role::Reader}, refine},
    {{"GET", "/api/look_kinds", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::written(desk::look_kinds())); }},
    {{"GET", "/api/bench", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(desk::bench_of({}, p), a.id); }},
    {{"POST", "/api/bench", Role::Technician}, keep_bench},
    {{"POST", "/api/analyse", Role::Reader}, analyse},
    {{"POST", "/api/compare", Role::Reader}, compare},
    {{"POST", "/api/compare.csv", Role::Reader}, compare_csv},
    {{"GET", "/api/liquids", Role::Reader}, [](const Asked& a, desk::Ports& p) { return listed(a, [&](const desk::Page& page) { return p.store.liquids(page); }); }},
    {{"POST", "/api/liquids", Role::Technician}, keep_liquid},
    {{"GET", "/api/leathers", Role::Reader}, [](const Asked& a, desk::Ports& p) { return listed(a, [&](const desk::Page& page) { return p.store.leathers(page); }); }},
    {{"POST", "/api/leathers", Role::Technician}, keep_leather},
    {{"GET", "/api/judgements", Role::Reader}, [](const Asked& a, desk::Ports& p) { return listed(a, [&](const desk::Page& page) { return p.store.judgements(page); }); }},
    {{"GET", "/api/judgements/{id}", Role::Reader}, [](const Asked& a, desk::Ports& p) { return told(p.store.judgement(a.argument), a.id); }},
    {{"GET", "/api/judgements/{id}/owner.pdf", Role::Reader}, [](const Asked& a, desk::Ports& p) { return printed(a, p, desk::PageKind::Owner); }},
    {{"GET", "/api/judgements/{id}/technical.pdf", Role::Reader}, [](const Asked& a, desk::Ports& p) { return printed(a, p, desk::PageKind::Technical); }},
    {{"POST", "/api/judgements/{id}/bin", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.bin(a.argument), a.id); }},
    {{"POST", "/api/judgements/{id}/restore", Role::Technician}, [](const Asked& a, desk::Ports& p) { return moved(p.store.restore(a.argument), a.id); }},
    {{"GET", "/api/sources", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::sources_written()); }},
    {{"GET", "/api/leather_classes", Role::Reader}, [](const Asked&, desk::Ports&) { return choices(atlas::leather_classes); }},
    {{"GET", "/api/tannages", Role::Reader}, [](const Asked&, desk::Ports&) { return choices(atlas::tannages); }},
    {{"GET", "/api/about", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::about_written(desk::version_number)); }},
    {{"GET", "/api/openapi.json", Role::Reader}, [](const Asked&, desk::Ports&) { return json(codec::openapi()); }},
    {{"GET", "/api/schema/{verb}", Role::Reader}, [](const Asked& a, desk::Ports&) {
         const auto schema = codec::schema(a.argument);
         return schema.ok() ? json(*schema) : failed(schema.error(), a.id);
     }},
};

/// Every row there is: this table and those of the other files.
const std::vector<Handler>& all_handlers() {
    static const std::vector<Handler> all = [] {
        std::vector<Handler> out;
        for (const Handlers& table : {Handlers{handlers, std::size(handlers)}, people_handlers(), photo_handlers(), piece_handlers(), triage_handlers(), protect_handlers(), plan_handlers(), sheet_handlers(), touching_handlers(), damage_handlers(), shelf_handlers(), spot_handlers()}) out.insert(out.end(), table.rows, table.rows + table.count);
        return out;
    }();
    return all;
}

/// What stands for {…} when the path fits the pattern; empty text for a pattern without one.
std::optional<std::string_view> fits(std::string_view pattern, std::string_view path) {
    const auto open = pattern.find('{');
    if (open == std::string_view::npos) return pattern == path ? std::optional<std::string_view>("") : std::nullopt;
    const std::string_view head = pattern.substr(0, open), tail = pattern.substr(pattern.find('}') + 1);
    if (path.size() <= head.size() + tail.size() || path.substr(0, head.size()) != head || path.substr(path.size() - tail.size()) != tail) return std::nullopt;
    const std::string_view middle = path.substr(head.size(), path.size() - head.size() - tail.size());
    return middle.find('/') == std::string_view::npos ? std::optional<std::string_view>(middle) : std::nullopt;
}

bool is_api(std::string_view path) { return path == "/api" || path.substr(0, 5) == "/api/"; }

/// HEAD is GET without the body, which the network layer leaves out.
std::string_view effective(std::string_view method) { return method == "HEAD" ? "GET" : method; }

Reply not_allowed(const std::string& allow, const std::string& id) {
    Reply r = door_refusal(405, "Method Not Allowed", "This address takes " + allow + ".", "method", id);
    r.allow = allow;
    return r;
}

/// One line, whatever the client put into the path.
std::string printable(std::string_view text) {
    std::string out(text.substr(0, 200));
    for (char& c : out)
        if (c <= ' ' || c > '~') c = '?';
    return out;
}

}  // namespace

namespace {

/// The host of an authority without its port, in small letters and without brackets; empty when it is none.
std::string host_of(std::string_view authority) {
    const auto colon = authority.rfind(':');
    const bool port = colon != std::string_view::npos && authority.back() != ']';
    std::string host(port ? authority.substr(0, colon) : authority);
    if (port) {
        const std::string_view digits = authority.substr(colon + 1);
        if (!std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; })) return {};
    }
    for (char& c : host) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool bracketed = host.size() > 2 && host.front() == '[' && host.back() == ']';
    if (bracketed) return host.substr(1, host.size() - 2);
    return host.find(':') == std::string::npos ? host : std::string{};
}

/// What nobody may find out without signing in.
Reply sign_in_first(const std::string& id) { return door_refusal(401, "Unauthorized", "Sign in first.", "session", id); }

}  // namespace

bool is_local(std::string_view authority) {
    const std::string host = host_of(authority);
    return host == "localhost" || host == "127.0.0.1" || host == "::1";
}

bool is_one_of(std::string_view authority, const std::vector<std::string>& hosts) {
    const std::string host = host_of(authority);
    return !host.empty() && std::find(hosts.begin(), hosts.end(), host) != hosts.end();
}

bool is_loopback_name(std::string_view authority) {
    const std::string host = host_of(authority);
    constexpr std::string_view under = ".localhost";
    return host == "localhost" || host == "::1" || host.rfind("127.", 0) == 0 || (host.size() > under.size() && host.compare(host.size() - under.size(), under.size(), under) == 0);
}

const char* cookie_name(Door door) { return door == Door::Tls ? "__Host-hidewright" : "hidewright"; }

Reply door_refusal(int status, std::string_view title, std::string sentence, std::string where, const std::string& id) {
    Reply r;
    r.status = status;
    r.type = "application/problem+json";
    r.body = codec::door_problem(status, title, {ErrorCode::InvalidInput, std::move(sentence), std::move(where)}, id);
    return r;
}

std::size_t body_limit_of(std::string_view path) { return takes_a_sheet(path) ? static_cast<std::size_t>(desk::sheet_bytes_limit) : codec::body_limit; }

App::App(desk::Ports& ports, std::function<void(const std::string&)> log) : ports_(ports), log_(std::move(log)), works_(std::make_unique<Works>()) {}
App::~App() = default;

std::string App::next_id() { return "r" + std::to_string(++count_); }

std::vector<Route> App::routes() {
    std::vector<Route> out;
    for (const auto& h : all_handlers()) out.push_back(h.route);
    return out;
}

void App::answer_to(std::vector<std::string> hosts) {
    const std::scoped_lock lock(guard_);
    hosts_ = std::move(hosts);
}

bool App::is_ours(const Asked& asked) const {
    if (asked.door == Door::Loopback) return is_local(asked.host);
    const std::scoped_lock lock(guard_);
    return is_local(asked.host) || is_one_of(asked.host, hosts_);
}

std::optional<Reply> App::turned_away(Asked& asked) const {
    // A page elsewhere must not reach this server through a name that points here.
    if (!is_ours(asked)) return door_refusal(403, "Forbidden", asked.door == Door::Loopback ? "This server answers to localhost only." : "This server does not answer to that name.", "Host", asked.id);
    if (effective(asked.method) != "GET") {
        if (asked.method != "POST") return not_allowed("GET, HEAD, POST", asked.id);
        if (!asked.origin.empty() && asked.origin != (asked.door == Door::Tls ? "https://" : "http://") + asked.host)
            return door_refusal(403, "Forbidden", "A request from another page is not taken.", "Origin", asked.id);
        if (!asked.fetch_site.empty() && asked.fetch_site != "same-origin" && asked.fetch_site != "none")
            return door_refusal(403, "Forbidden", "A request from another page is not taken.", "Sec-Fetch-Site", asked.id);
        // Neither kind can be sent by a form of another page without its browser asking here first.
        const bool bytes = takes_bytes(asked.path) || takes_a_sheet(asked.path);
        if (asked.content_type.substr(0, asked.content_type.find(';')) != (bytes ? "application/octet-stream" : "application/json"))
            return door_refusal(415, "Unsupported Media Type", bytes ? "Send bytes with the header Content-Type: application/octet-stream." : "Send JSON with the header Content-Type: application/json.", "Content-Type", asked.id);
    }
    return identify(asked);
}

std::optional<Reply> App::identify(Asked& asked) const {
    if (!is_api(asked.path)) return std::nullopt;  // the page itself holds no secret
    if (ports_.people == nullptr) {
        asked.role = desk::Role::Owner;
        return std::nullopt;
    }
    const auto wish = ports_.people->network();
    if (!wish.ok()) return failed(wish.error(), asked.id);
    asked.sign_in_needed = asked.door == Door::Tls || wish->on;
    const auto visitor = ports_.people->visitor(asked.token);
    if (!visitor.ok()) return failed(visitor.error(), asked.id);
    if (*visitor) {
        asked.person_id = (*visitor)->person.id;
        asked.person_name = (*visitor)->person.name;
        asked.session_id = (*visitor)->session.id;
        asked.role = (*visitor)->person.role;
    }
    if (!asked.sign_in_needed) asked.role = desk::Role::Owner;
    for (const auto& h : all_handlers())
        if (h.route.method == effective(asked.method) && fits(h.route.path, asked.path) && asked.role < h.route.least)
            return asked.role == desk::Role::None ? sign_in_first(asked.id) : not_for_this_role(asked);
    return std::nullopt;
}

Reply App::dispatch(Asked& asked) {
    if (!is_api(asked.path)) {
        if (effective(asked.method) != "GET") return not_allowed("GET, HEAD", asked.id);
        if (auto found = page(asked.path, asked.gzip)) return *std::move(found);
        return failed({ErrorCode::NotFound, "There is no such page.", "path"}, asked.id);
    }
    std::string allow;
    for (const auto& h : all_handlers()) {
        const auto argument = fits(h.route.path, asked.path);
        if (!argument) continue;
        if (h.route.method == effective(asked.method)) {
            if (asked.role < h.route.least) return not_for_this_role(asked);
            asked.argument = std::string(*argument);
            asked.works = works_.get();
            return h.answer(asked, ports_);
        }
        allow += (allow.empty() ? "" : ", ") + std::string(h.route.method);
    }
    if (!allow.empty()) return not_allowed(allow, asked.id);
    return failed({ErrorCode::NotFound, "There is no such address. See /api/openapi.json for those there are.", "path"}, asked.id);
}

Reply App::answer(Asked asked) {
    Reply reply;
    std::string broken;
    try {
        reply = dispatch(asked);
    } catch (const std::exception& e) {
        broken = e.what();
    } catch (...) {
        broken = "something that is not an exception";
    }
    if (!broken.empty())
        reply = failed({ErrorCode::Bug, "Something went wrong inside the program. Nothing was lost. The log has it under " + asked.id + ".", ""}, asked.id);
    note(asked, reply.status, broken);
    return reply;
}

void App::note(const Asked& asked, int status, std::string_view more) const {
    std::string line = asked.id + " " + printable(asked.method) + " " + printable(asked.path) + " " + std::to_string(status);
    if (!more.empty()) line += " bug: " + std::string(more);
    log_(line);
}

}  // namespace hw::http
