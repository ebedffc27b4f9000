#include "edge/http/server.hpp"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <netinet/in.h>

#include <cerrno>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>

#include "edge/codec/codec.hpp"
#include "edge/http/app.hpp"
#include "edge/http/work_pool.hpp"

namespace hw::http {

namespace {

// Network threads only read, write and look up; verbs run in the pool. Half-open connections cost a socket, no thread.
constexpr unsigned network_threads = 2, work_threads = 2, connection_limit = 1000, timeout_s = 20;
constexpr std::size_t connection_memory = 64 * 1024, waiting_limit = 64;

struct Daemon {
    App app;
    WorkPool pool;
};

/// What has come in of one request, and its reply once the pool has made it.
struct Incoming {
    Asked asked;
    std::optional<Reply> reply;
};

std::string looked_up(MHD_Connection* c, MHD_ValueKind kind, const char* name) {
    const char* v = MHD_lookup_connection_value(c, kind, name);
    return v == nullptr ? std::string{} : std::string(v);
}

Asked asked_by(MHD_Connection* c, const char* method, const char* path) {
    Asked a;
    a.method = method;
    a.path = path;
    a.host = looked_up(c, MHD_HEADER_KIND, "Host");
    a.origin = looked_up(c, MHD_HEADER_KIND, "Origin");
    a.fetch_site = looked_up(c, MHD_HEADER_KIND, "Sec-Fetch-Site");
    a.content_type = looked_up(c, MHD_HEADER_KIND, "Content-Type");
    a.after = looked_up(c, MHD_GET_ARGUMENT_KIND, "after");
    a.limit = looked_up(c, MHD_GET_ARGUMENT_KIND, "limit");
    a.paper = looked_up(c, MHD_GET_ARGUMENT_KIND, "paper");
    a.offset = looked_up(c, MHD_GET_ARGUMENT_KIND, "offset");
    a.gzip = looked_up(c, MHD_HEADER_KIND, "Accept-Encoding").find("gzip") != std::string::npos;
    return a;
}

void add_headers(MHD_Response* r, const Reply& reply) {
    const auto add = [r](const char* name, const std::string& value) { MHD_add_response_header(r, name, value.c_str()); };
    add("Content-Type", reply.type);
    add("X-Content-Type-Options", "nosniff");
    add("Referrer-Policy", "no-referrer");
    add("Cross-Origin-Opener-Policy", "same-origin");
    add("Cross-Origin-Resource-Policy", "same-origin");
    add("Content-Security-Policy", reply.inert ? "sandbox; default-src 'none'" : "default-src 'self'; style-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'");
    const std::string whose = reply.inert ? "private" : "public";  // what the workshop sent stays with whoever may see it
    add("Cache-Control", reply.tag.empty() ? "no-store" : reply.lasting ? whose + ", max-age=31536000, immutable" : "no-cache");
    if (!reply.tag.empty()) {
        add("ETag", reply.tag);
        add("Vary", "Accept-Encoding");
    }
    if (!reply.encoding.empty()) add("Content-Encoding", std::string(reply.encoding));
    if (!reply.allow.empty()) add("Allow", reply.allow);
    if (!reply.file_name.empty()) add("Content-Disposition", std::string(reply.attached ? "attachment" : "inline") + "; filename=\"" + reply.file_name + "\"");
}

MHD_Result send(MHD_Connection* connection, const Reply& reply) {
    const bool still = reply.still.data() != nullptr;
    const bool same = !reply.tag.empty() && looked_up(connection, MHD_HEADER_KIND, "If-None-Match") == reply.tag;
    const std::string_view bytes = same ? std::string_view{} : still ? reply.still : std::string_view(reply.body);
    MHD_Response* r = MHD_create_response_from_buffer(bytes.size(), const_cast<char*>(bytes.data()), still ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
    if (r == nullptr) return MHD_NO;
    add_headers(r, reply);
    const MHD_Result queued = MHD_queue_response(connection, same ? 304u : static_cast<unsigned>(reply.status), r);
    MHD_destroy_response(r);
    return queued;
}

MHD_Result refuse(MHD_Connection* connection, App& app, Incoming& in, Reply reply) {
    app.note(in.asked, reply.status);
    in.reply = std::move(reply);
    return send(connection, *in.reply);
}

/// The headers have come. What can be refused without the body is refused here, while the client still listens.
MHD_Result begun(MHD_Connection* connection, App& app, Incoming& in) {
    in.asked.id = app.next_id();
    if (auto no = app.turned_away(in.asked)) return refuse(connection, app, in, *std::move(no));
    const std::string length = looked_up(connection, MHD_HEADER_KIND, "Content-Length");
    std::uint64_t bytes = 0;
    const bool counted = std::from_chars(length.data(), length.data() + length.size(), bytes).ec == std::errc{};
    if (!length.empty() && (!counted || bytes > codec::body_limit))
        return refuse(connection, app, in, door_refusal(413, "Content Too Large", "The request is larger than 1 MiB. Send less.", "Content-Length", in.asked.id));
    return MHD_YES;
}

/// A POST computes or writes, a print is drawn, an original is large.
bool takes_long(const Asked& asked) {
    const auto ends = [&](std::string_view end) { return asked.path.size() > end.size() && asked.path.compare(asked.path.size() - end.size(), end.size(), end) == 0; };
    return asked.method == "POST" || ends(".pdf") || ends("/original");
}

/// The whole request has come. What takes long is done by the pool while the connection sleeps.
MHD_Result complete(MHD_Connection* connection, Daemon& daemon, Incoming& in) {
    if (in.reply) return send(connection, *in.reply);
    if (!takes_long(in.asked)) {
        in.reply = daemon.app.answer(std::move(in.asked));
        return send(connection, *in.reply);
    }
    MHD_suspend_connection(connection);
    const bool taken = daemon.pool.offer([connection, &daemon, &in] {
        in.reply = daemon.app.answer(std::move(in.asked));
        MHD_resume_connection(connection);
    });
    if (!taken) {
        in.reply = door_refusal(503, "Service Unavailable", "The program is busy or closing. Ask again in a moment.", "", in.asked.id);
        daemon.app.note(in.asked, 503);
        MHD_resume_connection(connection);
    }
    return MHD_YES;
}

MHD_Result handle(void* context, MHD_Connection* connection, const char* url, const char* method, const char*, const char* data, std::size_t* size, void** state) try {
    auto& daemon = *static_cast<Daemon*>(context);
    if (*state == nullptr) {
        auto* fresh = new Incoming{asked_by(connection, method, url), std::nullopt};
        *state = fresh;
        return begun(connection, daemon.app, *fresh);
    }
    auto& in = *static_cast<Incoming*>(*state);
    if (*size == 0) return complete(connection, daemon, in);
    // Only a body of no stated length comes here too long: the connection is cut.
    if (in.asked.body.size() + *size > codec::body_limit) return MHD_NO;
    in.asked.body.append(data, *size);
    *size = 0;
    return MHD_YES;
} catch (const std::exception&) {  // no memory: nothing may leave through C code
    return MHD_NO;
}

void completed(void*, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
    delete static_cast<Incoming*>(*state);
    *state = nullptr;
}

Error not_listening(int port, int fault) {
    const std::string number = std::to_string(port);
    if (fault == EACCES) return {ErrorCode::Unavailable, "Port " + number + " is reserved for the system. Give one above 1023 with --port.", "port"};
    if (fault == EADDRINUSE) return {ErrorCode::Unavailable, "Port " + number + " is taken. Give another with --port, or 0 for any free one.", "port"};
    return {ErrorCode::Unavailable, "Port " + number + " cannot be opened: " + std::strerror(fault) + ". Give another with --port.", "port"};
}

}  // namespace

struct Server::Hidden {
    Hidden(desk::Ports& ports, std::function<void(const std::string&)> log) : inside{{ports, std::move(log)}, {work_threads, waiting_limit}} {}
    ~Hidden() {
        inside.pool.stop();  // wakes every sleeping connection; the daemon must not be stopped while one sleeps
        if (daemon != nullptr) MHD_stop_daemon(daemon);
    }
    Hidden(const Hidden&) = delete;
    Hidden& operator=(const Hidden&) = delete;

    Daemon inside;
    MHD_Daemon* daemon = nullptr;
    int port = 0;
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
    errno = 0;
    hidden->daemon = MHD_start_daemon(MHD_USE_EPOLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME, 0, nullptr, nullptr, &handle, &hidden->inside, MHD_OPTION_SOCK_ADDR, &address,
                                      MHD_OPTION_THREAD_POOL_SIZE, network_threads, MHD_OPTION_CONNECTION_LIMIT, connection_limit, MHD_OPTION_CONNECTION_TIMEOUT, timeout_s,
                                      MHD_OPTION_CONNECTION_MEMORY_LIMIT, connection_memory, MHD_OPTION_NOTIFY_COMPLETED, &completed, nullptr, MHD_OPTION_END);
    if (hidden->daemon == nullptr) return not_listening(settings.port, errno);
    const auto* info = MHD_get_daemon_info(hidden->daemon, MHD_DAEMON_INFO_BIND_PORT);
    hidden->port = info != nullptr ? info->port : settings.port;
    return std::unique_ptr<Server>(new Server(std::move(hidden)));
}

}  // namespace hw::http
