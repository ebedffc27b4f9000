#include "edge/http/server.hpp"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <netinet/in.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "atlas/leather_classes.hpp"
#include "atlas/tannages.hpp"
#include "desk/analyse.hpp"
#include "desk/judge.hpp"
#include "desk/kept.hpp"
#include "edge/codec/codec.hpp"
#include "embedded/web.hpp"

namespace hw::http {

namespace {

struct Reply {
    unsigned status = 200;
    std::string type = "application/json";
    std::string body;
    std::string_view still;                      ///< embedded bytes instead of body
    std::string tag;                             ///< ETag of embedded bytes
};

/// What has come in of one request.
struct Incoming {
    std::string body;
    bool too_large = false;
};

bool starts(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

std::string_view type_of(std::string_view path) {
    auto ends = [&](std::string_view e) { return path.size() >= e.size() && path.substr(path.size() - e.size()) == e; };
    if (ends(".html")) return "text/html; charset=utf-8";
    if (ends(".js")) return "text/javascript; charset=utf-8";
    if (ends(".css")) return "text/css; charset=utf-8";
    if (ends(".svg")) return "image/svg+xml";
    if (ends(".woff2")) return "font/woff2";
    if (ends(".png")) return "image/png";
    if (ends(".webmanifest") || ends(".json")) return "application/json";
    return "application/octet-stream";
}

/// FNV-1a, enough to tell one build's file from another's.
std::string tag_of(std::string_view bytes) {
    std::uint64_t h = 1469598103934665603ULL;
    for (char c : bytes) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    char text[24];
    std::snprintf(text, sizeof text, "\"%016llx\"", static_cast<unsigned long long>(h));
    return text;
}

class App {
public:
    App(desk::Ports& ports, std::function<void(const std::string&)> log) : ports_(ports), log_(std::move(log)) {}

    Reply answer(MHD_Connection* connection, std::string_view method, std::string_view path, const std::string& body) {
        const std::string id = "r" + std::to_string(++count_);
        Reply reply;
        try {
            reply = dispatch(connection, method, path, body, id);
        } catch (const std::exception& e) {
            log_(id + " bug " + e.what());
            reply = failed({ErrorCode::Bug, "Something went wrong inside the program. Nothing was lost. The log has it under " + id + ".", ""}, id);
        }
        log_(id + " " + std::string(method) + " " + std::string(path) + " " + std::to_string(reply.status));
        return reply;
    }

private:
    static Reply failed(const Error& error, const std::string& id) {
        return {static_cast<unsigned>(error_row(error.code).http_status), "application/problem+json", codec::problem(error, id), {}, {}};
    }
    static Reply json(std::string body) { return {200, "application/json", std::move(body), {}, {}}; }

    static std::string header(MHD_Connection* c, const char* name) {
        const char* v = MHD_lookup_connection_value(c, MHD_HEADER_KIND, name);
        return v == nullptr ? std::string{} : std::string(v);
    }

    static bool local(std::string_view authority) {
        const auto colon = authority.rfind(':');
        const std::string_view name = colon == std::string_view::npos || authority.back() == ']' ? authority : authority.substr(0, colon);
        return name == "localhost" || name == "127.0.0.1" || name == "[::1]";
    }

    Reply dispatch(MHD_Connection* c, std::string_view method, std::string_view path, const std::string& body, const std::string& id) {
        // A page elsewhere must not reach this server through a name that points here.
        if (!local(header(c, "Host"))) return failed({ErrorCode::InvalidInput, "This server answers on localhost only.", "Host"}, id);
        if (!starts(path, "/api/")) return file(method, path, id);
        if (method == "POST") {
            const std::string origin = header(c, "Origin"), site = header(c, "Sec-Fetch-Site");
            if ((!origin.empty() && !(starts(origin, "http://") && local(std::string_view(origin).substr(7)))) || (!site.empty() && site != "same-origin" && site != "none"))
                return failed({ErrorCode::InvalidInput, "A request from another page is not taken.", "Origin"}, id);
            if (!starts(header(c, "Content-Type"), "application/json")) return failed({ErrorCode::InvalidInput, "Send JSON with the header Content-Type: application/json.", "Content-Type"}, id);
        } else if (method != "GET" && method != "HEAD") {
            Reply r = failed({ErrorCode::InvalidInput, "Only GET and POST are used here.", "method"}, id);
            r.status = 405;
            return r;
        }
        return method == "POST" ? post(path, body, id) : get(c, path, id);
    }

    Reply post(std::string_view path, const std::string& body, const std::string& id) {
        if (path == "/api/judge") {
            auto request = codec::parse_judge_request(body);
            if (!request.ok()) return failed(request.error(), id);
            const auto a = desk::judge(*request, ports_);
            return a.ok() ? json(codec::written(*a)) : failed(a.error(), id);
        }
        if (path == "/api/analyse") {
            auto request = codec::parse_analyse_request(body);
            if (!request.ok()) return failed(request.error(), id);
            const auto a = desk::analyse(*request, ports_);
            return a.ok() ? json(codec::written(*a)) : failed(a.error(), id);
        }
        if (path == "/api/liquids") {
            auto l = codec::parse_liquid(body);
            if (!l.ok()) return failed(l.error(), id);
            desk::AnalyseRequest probe;
            probe.liquid = *l;
            // What cannot be analysed is not kept.
            if (const auto a = desk::analyse(probe, ports_); !a.ok()) return failed(a.error(), id);
            const auto kept = ports_.store.keep_liquid(*l);
            return kept.ok() ? json("{\"id\":\"" + *kept + "\"}") : failed(kept.error(), id);
        }
        if (path == "/api/leathers") {
            auto l = codec::parse_leather(body);
            if (!l.ok()) return failed(l.error(), id);
            const auto kept = ports_.store.keep_leather(*l);
            return kept.ok() ? json("{\"id\":\"" + *kept + "\"}") : failed(kept.error(), id);
        }
        const std::string_view prefix = "/api/judgements/";
        if (starts(path, prefix)) {
            const std::string_view rest = path.substr(prefix.size());
            const auto slash = rest.find('/');
            const std::string_view what = slash == std::string_view::npos ? std::string_view{} : rest.substr(slash + 1);
            if (what == "bin" || what == "restore") {
                const std::string row(rest.substr(0, slash));
                const auto done = what == "bin" ? ports_.store.bin(row) : ports_.store.restore(row);
                return done.ok() ? json("{}") : failed(done.error(), id);
            }
        }
        return failed({ErrorCode::NotFound, "There is no such address.", "path"}, id);
    }

    Reply get(MHD_Connection* c, std::string_view path, const std::string& id) {
        desk::Page page;
        page.limit = 200;
        if (const char* after = MHD_lookup_connection_value(c, MHD_GET_ARGUMENT_KIND, "after")) page.after = after;
        auto listed = [&](auto result) { return result.ok() ? json(codec::written(*result)) : failed(result.error(), id); };
        if (path == "/api/liquids") return listed(ports_.store.liquids(page));
        if (path == "/api/leathers") return listed(ports_.store.leathers(page));
        if (path == "/api/judgements") return listed(ports_.store.judgements(page));
        if (path == "/api/sources") return json(codec::sources_written());
        if (path == "/api/about") return json(codec::about_written("0.1.0"));
        if (path == "/api/openapi.json") return json(codec::openapi());
        if (path == "/api/leather_classes" || path == "/api/tannages") {
            std::vector<codec::Choice> out;
            if (path == "/api/tannages") for (const auto& row : atlas::tannages) out.push_back({std::string(row.key), std::string(row.plain_name)});
            else for (const auto& row : atlas::leather_classes) out.push_back({std::string(row.key), std::string(row.plain_name)});
            return json(codec::written(out));
        }
        if (starts(path, "/api/schema/")) {
            const auto s = codec::schema(path.substr(12));
            return s.ok() ? json(*s) : failed(s.error(), id);
        }
        if (starts(path, "/api/judgements/")) {
            const auto k = ports_.store.judgement(std::string(path.substr(16)));
            return k.ok() ? json(codec::written(*k)) : failed(k.error(), id);
        }
        return failed({ErrorCode::NotFound, "There is no such address.", "path"}, id);
    }

    Reply file(std::string_view method, std::string_view path, const std::string& id) {
        if (method != "GET" && method != "HEAD") {
            Reply r = failed({ErrorCode::InvalidInput, "Only GET is used here.", "method"}, id);
            r.status = 405;
            return r;
        }
        const embedded::File_web* index = nullptr;
        for (const auto& f : embedded::web) {
            if (f.path == path.substr(1)) return {200, std::string(type_of(f.path)), {}, f.text, tag_of(f.text)};
            if (f.path == "index.html") index = &f;
        }
        // Deep links are answered by the page itself; a file that is asked for by name and not there is not.
        if (index != nullptr && path.find('.') == std::string_view::npos) return {200, "text/html; charset=utf-8", {}, index->text, tag_of(index->text)};
        return failed({ErrorCode::NotFound, "There is no such page.", "path"}, id);
    }

    desk::Ports& ports_;
    std::function<void(const std::string&)> log_;
    std::atomic<std::uint64_t> count_{0};
};

MHD_Result send(MHD_Connection* connection, const Reply& reply) {
    const char* known = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, "If-None-Match");
    const bool same = !reply.tag.empty() && known != nullptr && reply.tag == known;
    const std::string_view bytes = same ? std::string_view{} : reply.still.data() != nullptr ? reply.still : std::string_view(reply.body);
    MHD_Response* r = MHD_create_response_from_buffer(bytes.size(), const_cast<char*>(bytes.data()), reply.still.data() != nullptr ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
    MHD_add_response_header(r, "Content-Type", reply.type.c_str());
    MHD_add_response_header(r, "X-Content-Type-Options", "nosniff");
    MHD_add_response_header(r, "Referrer-Policy", "no-referrer");
    MHD_add_response_header(r, "Cross-Origin-Opener-Policy", "same-origin");
    MHD_add_response_header(r, "Content-Security-Policy",
                            "default-src 'self'; style-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'");
    MHD_add_response_header(r, "Cache-Control", reply.tag.empty() ? "no-store" : "no-cache");
    if (!reply.tag.empty()) MHD_add_response_header(r, "ETag", reply.tag.c_str());
    const MHD_Result queued = MHD_queue_response(connection, same ? 304 : reply.status, r);
    MHD_destroy_response(r);
    return queued;
}

MHD_Result too_large(MHD_Connection* connection) {
    Reply r{413, "application/problem+json", codec::problem({ErrorCode::InvalidInput, "The request is larger than 1 MiB. Send less.", ""}), {}, {}};
    return send(connection, r);
}

MHD_Result handle(void* app, MHD_Connection* connection, const char* url, const char* method, const char*, const char* data, std::size_t* size, void** state) {
    if (*state == nullptr) {
        *state = new Incoming;
        const char* length = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, "Content-Length");
        if (length != nullptr && std::strtoull(length, nullptr, 10) > codec::body_limit) return too_large(connection);
        return MHD_YES;
    }
    auto* in = static_cast<Incoming*>(*state);
    if (*size > 0) {
        if (in->body.size() + *size > codec::body_limit) return MHD_NO;
        in->body.append(data, *size);
        *size = 0;
        return MHD_YES;
    }
    return send(connection, static_cast<App*>(app)->answer(connection, method, url, in->body));
}

void completed(void*, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
    delete static_cast<Incoming*>(*state);
    *state = nullptr;
}

}  // namespace

struct Server::Hidden {
    Hidden(desk::Ports& ports, std::function<void(const std::string&)> log) : app(ports, std::move(log)) {}
    App app;
    MHD_Daemon* daemon = nullptr;
    int port = 0;
    ~Hidden() { if (daemon != nullptr) MHD_stop_daemon(daemon); }
};

Server::Server(std::unique_ptr<Hidden> hidden) : hidden_(std::move(hidden)) {}
Server::~Server() = default;
int Server::port() const { return hidden_->port; }

Result<std::unique_ptr<Server>> Server::start(const Settings& settings, desk::Ports& ports) {
    auto hidden = std::make_unique<Hidden>(ports, settings.log ? settings.log : [](const std::string&) {});
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(settings.port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    // A judgement takes a good part of a second: four threads keep the page answering meanwhile.
    hidden->daemon = MHD_start_daemon(MHD_USE_EPOLL_INTERNAL_THREAD, 0, nullptr, nullptr, &handle, &hidden->app, MHD_OPTION_SOCK_ADDR, &address,
                                      MHD_OPTION_THREAD_POOL_SIZE, 4u, MHD_OPTION_CONNECTION_LIMIT, 200u, MHD_OPTION_CONNECTION_TIMEOUT, 60u,
                                      MHD_OPTION_CONNECTION_MEMORY_LIMIT, static_cast<std::size_t>(64 * 1024), MHD_OPTION_NOTIFY_COMPLETED, &completed, nullptr, MHD_OPTION_END);
    if (hidden->daemon == nullptr)
        return Error{ErrorCode::Unavailable, "Port " + std::to_string(settings.port) + " is taken. Give another with --port.", "port"};
    const auto* info = MHD_get_daemon_info(hidden->daemon, MHD_DAEMON_INFO_BIND_PORT);
    hidden->port = info != nullptr ? info->port : settings.port;
    return std::unique_ptr<Server>(new Server(std::move(hidden)));
}

}  // namespace hw::http
