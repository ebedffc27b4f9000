#include "edge/http/server.hpp"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <charconv>
#include <cstdint>
#include <chrono>
#include <cstring>
#include <mutex>
#include <optional>
#include <string_view>
#include <thread>

#include "edge/codec/codec.hpp"
#include "edge/http/app.hpp"
#include "edge/http/certificate.hpp"
#include "edge/http/first_door.hpp"
#include "edge/http/work_pool.hpp"

namespace hw::http {

namespace {

// Network threads only read, write and look up; verbs run in the pool. Half-open connections cost a socket, no thread.
constexpr unsigned network_threads = 2, work_threads = 2, connection_limit = 1000, timeout_s = 20;
constexpr std::size_t connection_memory = 64 * 1024, waiting_limit = 64;

/// What all listeners share.
struct Inside {
    App app;
    WorkPool pool;
};

/// One socket that is listened on, and what it is for.
struct Listener {
    Inside& inside;
    Door door;
    std::atomic<bool> closing = false;
    std::atomic<int> asleep = 0;  ///< connections that wait for the pool
    MHD_Daemon* daemon = nullptr;
    int port = 0;
};

/// What has come in of one request, and its reply once the pool has made it.
struct Incoming {
    Asked asked;
    std::optional<Reply> reply;
    bool strict = false;
};

std::string looked_up(MHD_Connection* c, MHD_ValueKind kind, const char* name) {
    const char* v = MHD_lookup_connection_value(c, kind, name);
    return v == nullptr ? std::string{} : std::string(v);
}

/// The client's address; of IPv6 the network part, since a client may choose the rest as it likes.
std::string address_of(MHD_Connection* c) {
    const auto* info = MHD_get_connection_info(c, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    if (info == nullptr || info->client_addr == nullptr) return "unknown";
    char text[INET6_ADDRSTRLEN] = "";
    if (info->client_addr->sa_family == AF_INET) {
        inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(info->client_addr)->sin_addr, text, sizeof text);
        return text;
    }
    in6_addr address = reinterpret_cast<const sockaddr_in6*>(info->client_addr)->sin6_addr;
    if (IN6_IS_ADDR_V4MAPPED(&address)) {
        inet_ntop(AF_INET, &address.s6_addr[12], text, sizeof text);
        return text;
    }
    constexpr int network_bytes = 8;
    std::fill(address.s6_addr + network_bytes, address.s6_addr + 16, static_cast<std::uint8_t>(0));
    inet_ntop(AF_INET6, &address, text, sizeof text);
    return text;
}

Asked asked_by(MHD_Connection* c, Door door, const char* method, const char* path) {
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
    a.name = looked_up(c, MHD_GET_ARGUMENT_KIND, "name");
    a.by_hand = looked_up(c, MHD_GET_ARGUMENT_KIND, "by_hand");
    a.number = looked_up(c, MHD_GET_ARGUMENT_KIND, "number");
    a.token = looked_up(c, MHD_COOKIE_KIND, cookie_name(door));
    a.door = door;
    a.address = address_of(c);
    a.gzip = looked_up(c, MHD_HEADER_KIND, "Accept-Encoding").find("gzip") != std::string::npos;
    return a;
}

void add_headers(MHD_Response* r, const Reply& reply, bool strict) {
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
    if (!reply.cookie.empty()) add("Set-Cookie", reply.cookie);
    if (reply.retry_after_s > 0) add("Retry-After", std::to_string(reply.retry_after_s));
    if (strict) add("Strict-Transport-Security", "max-age=31536000");
    if (!reply.file_name.empty()) add("Content-Disposition", std::string(reply.attached ? "attachment" : "inline") + "; filename=\"" + reply.file_name + "\"");
}

/// @param strict  the host shall be opened over TLS only from now on
MHD_Result send(MHD_Connection* connection, const Reply& reply, bool strict = false) {
    const bool still = reply.still.data() != nullptr;
    const bool same = !reply.tag.empty() && looked_up(connection, MHD_HEADER_KIND, "If-None-Match") == reply.tag;
    const std::string_view bytes = same ? std::string_view{} : still ? reply.still : std::string_view(reply.body);
    MHD_Response* r = MHD_create_response_from_buffer(bytes.size(), const_cast<char*>(bytes.data()), still ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
    if (r == nullptr) return MHD_NO;
    add_headers(r, reply, strict);
    const MHD_Result queued = MHD_queue_response(connection, same ? 304u : static_cast<unsigned>(reply.status), r);
    MHD_destroy_response(r);
    return queued;
}

/// Other programs of this machine answer under the names of loopback, so those are left out.
bool strict(const Asked& asked) { return asked.door == Door::Tls && !is_loopback_name(asked.host); }

MHD_Result refuse(MHD_Connection* connection, App& app, Incoming& in, Reply reply) {
    app.note(in.asked, reply.status);
    in.reply = std::move(reply);
    return send(connection, *in.reply, strict(in.asked));
}

/// The headers have come. What can be refused without the body is refused here, while the client still listens.
MHD_Result begun(MHD_Connection* connection, App& app, Incoming& in) {
    in.asked.id = app.next_id();
    if (auto no = app.turned_away(in.asked)) return refuse(connection, app, in, *std::move(no));
    const std::string length = looked_up(connection, MHD_HEADER_KIND, "Content-Length");
    std::uint64_t bytes = 0;
    const bool counted = std::from_chars(length.data(), length.data() + length.size(), bytes).ec == std::errc{};
    const std::size_t most = body_limit_of(in.asked.path);
    if (!length.empty() && (!counted || bytes > most)) {
        const bool sheet = most > codec::body_limit;
        return refuse(connection, app, in, door_refusal(413, "Content Too Large", sheet ? "The file is larger than 20 MB. Data sheets are small: print it into a new PDF without its pictures." : "The request is larger than 1 MiB. Send less.", "Content-Length", in.asked.id));
    }
    return MHD_YES;
}

/// A POST computes or writes, a print is drawn, an original is large.
bool takes_long(const Asked& asked) {
    const auto ends = [&](std::string_view end) { return asked.path.size() > end.size() && asked.path.compare(asked.path.size() - end.size(), end.size(), end) == 0; };
    return asked.method == "POST" || ends(".pdf") || ends("/page.png") || ends("/original");
}

/// The whole request has come. What takes long is done by the pool while the connection sleeps.
MHD_Result complete(MHD_Connection* connection, Listener& listener, Incoming& in) {
    if (in.reply) return send(connection, *in.reply, in.strict);
    in.strict = strict(in.asked);
    App& app = listener.inside.app;
    if (!takes_long(in.asked)) {
        in.reply = app.answer(std::move(in.asked));
        return send(connection, *in.reply, in.strict);
    }
    MHD_suspend_connection(connection);
    ++listener.asleep;
    const bool taken = !listener.closing && listener.inside.pool.offer([connection, &listener, &app, &in] {
        in.reply = app.answer(std::move(in.asked));
        MHD_resume_connection(connection);
        --listener.asleep;
    });
    if (!taken) {
        in.reply = door_refusal(503, "Service Unavailable", "The program is busy or closing. Ask again in a moment.", "", in.asked.id);
        app.note(in.asked, 503);
        MHD_resume_connection(connection);
        --listener.asleep;
    }
    return MHD_YES;
}

MHD_Result handle(void* context, MHD_Connection* connection, const char* url, const char* method, const char*, const char* data, std::size_t* size, void** state) try {
    auto& listener = *static_cast<Listener*>(context);
    if (*state == nullptr) {
        auto* fresh = new Incoming{asked_by(connection, listener.door, method, url), std::nullopt, false};
        *state = fresh;
        return begun(connection, listener.inside.app, *fresh);
    }
    auto& in = *static_cast<Incoming*>(*state);
    if (*size == 0) return complete(connection, listener, in);
    // Only a body of no stated length comes here too long: the connection is cut.
    if (in.asked.body.size() + *size > body_limit_of(in.asked.path)) return MHD_NO;
    in.asked.body.append(data, *size);
    *size = 0;
    return MHD_YES;
} catch (const std::exception&) {  // no memory: nothing may leave through C code
    return MHD_NO;
}

/// What the door for the certificate shows just now.
struct Shown {
    App& app;
    std::mutex guard;
    FirstDoor first;
    std::vector<std::string> hosts;
};

/// Bodies are not read: there is nothing to send here.
MHD_Result handle_first(void* context, MHD_Connection* connection, const char* url, const char* method, const char*, const char*, std::size_t*, void**) try {
    auto& shown = *static_cast<Shown*>(context);
    Asked asked;
    asked.method = method;
    asked.path = url;
    asked.id = shown.app.next_id();
    const std::string host = looked_up(connection, MHD_HEADER_KIND, "Host");
    Reply reply;
    {
        const std::scoped_lock lock(shown.guard);
        reply = is_local(host) || is_one_of(host, shown.hosts) ? first_answer(shown.first, method, url, asked.id) : door_refusal(403, "Forbidden", "This server does not answer to that name.", "Host", asked.id);
    }
    shown.app.note(asked, reply.status);
    return send(connection, reply);
} catch (const std::exception&) {
    return MHD_NO;
}

void completed(void*, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
    delete static_cast<Incoming*>(*state);
    *state = nullptr;
}

Error not_listening(int port, int fault, const std::string& option) {
    const std::string number = std::to_string(port);
    if (fault == EACCES) return {ErrorCode::Unavailable, "Port " + number + " is reserved for the system. Give one above 1023 with --" + option + ".", option};
    if (fault == EADDRINUSE) return {ErrorCode::Unavailable, "Port " + number + " is taken. Give another with --" + option + ", or 0 for any free one.", option};
    return {ErrorCode::Unavailable, "Port " + number + " cannot be opened: " + std::strerror(fault) + ". Give another with --" + option + ".", option};
}

constexpr unsigned usual = MHD_USE_EPOLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME;

/// The options that every listener has.
template <class... More>
MHD_Daemon* listening(unsigned flags, MHD_AccessHandlerCallback handler, void* context, const sockaddr* address, unsigned threads, More... more) {
    errno = 0;
    return MHD_start_daemon(flags, 0, nullptr, nullptr, handler, context, MHD_OPTION_SOCK_ADDR, address, MHD_OPTION_THREAD_POOL_SIZE, threads, MHD_OPTION_CONNECTION_LIMIT, connection_limit,
                            MHD_OPTION_CONNECTION_TIMEOUT, timeout_s, MHD_OPTION_CONNECTION_MEMORY_LIMIT, connection_memory, more..., MHD_OPTION_END);
}

/// On every interface, both kinds of addresses; where the machine knows only IPv4, that.
template <class... More>
MHD_Daemon* listening_everywhere(unsigned flags, MHD_AccessHandlerCallback handler, void* context, int port, unsigned threads, More... more) {
    sockaddr_in6 six{};
    six.sin6_family = AF_INET6;
    six.sin6_port = htons(static_cast<std::uint16_t>(port));
    if (MHD_Daemon* both = listening(flags | MHD_USE_DUAL_STACK, handler, context, reinterpret_cast<const sockaddr*>(&six), threads, more...); both != nullptr || errno == EADDRINUSE || errno == EACCES) return both;
    sockaddr_in four{};
    four.sin_family = AF_INET;
    four.sin_port = htons(static_cast<std::uint16_t>(port));
    return listening(flags, handler, context, reinterpret_cast<const sockaddr*>(&four), threads, more...);
}

int bound_port(MHD_Daemon* daemon, int wanted) {
    const auto* info = MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_BIND_PORT);
    return info != nullptr ? info->port : wanted;
}

/// Takes no more connections, lets what the pool works on be answered, and closes.
void close_listener(Listener& listener) {
    if (listener.daemon == nullptr) return;
    listener.closing = true;
    const MHD_socket socket = MHD_quiesce_daemon(listener.daemon);
    while (listener.asleep > 0) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    MHD_stop_daemon(listener.daemon);
    if (socket != MHD_INVALID_SOCKET) ::close(socket);
    listener.daemon = nullptr;
    listener.port = 0;
    listener.closing = false;
}

}  // namespace

struct Server::Hidden {
    Hidden(desk::Ports& ports, std::function<void(const std::string&)> log) : inside{{ports, std::move(log)}, {work_threads, waiting_limit}} {}
    ~Hidden() {
        inside.pool.stop();  // wakes every sleeping connection; a daemon must not be stopped while one sleeps
        close_first();
        close_listener(tls);
        if (loopback.daemon != nullptr) MHD_stop_daemon(loopback.daemon);
    }
    Hidden(const Hidden&) = delete;
    Hidden& operator=(const Hidden&) = delete;
    void close_first() {
        if (first != nullptr) MHD_stop_daemon(first);
        first = nullptr;
        first_port = 0;
    }

    Inside inside;
    Listener loopback{inside, Door::Loopback};
    Listener tls{inside, Door::Tls};
    Shown shown{inside.app, {}, {}, {}};
    MHD_Daemon* first = nullptr;
    int first_port = 0;
};

Server::Server(std::unique_ptr<Hidden> hidden) : hidden_(std::move(hidden)) {}
Server::~Server() = default;
int Server::port() const { return hidden_->loopback.port; }
int Server::tls_port() const { return hidden_->tls.port; }
int Server::first_port() const { return hidden_->first_port; }

Result<std::unique_ptr<Server>> Server::start(const Settings& settings, desk::Ports& ports) {
    auto hidden = std::make_unique<Hidden>(ports, settings.log ? settings.log : [](const std::string&) {});
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(settings.port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    Listener& loopback = hidden->loopback;
    loopback.daemon = listening(usual, &handle, &loopback, reinterpret_cast<const sockaddr*>(&address), network_threads, MHD_OPTION_NOTIFY_COMPLETED, &completed, nullptr);
    if (loopback.daemon == nullptr) return not_listening(settings.port, errno, "port");
    loopback.port = bound_port(loopback.daemon, settings.port);
    return std::unique_ptr<Server>(new Server(std::move(hidden)));
}

Result<Done> Server::open_network(const NetworkDoor& door) {
    HW_TRY(certified, show_certificate(door.chain_pem, door.key_pem));
    static_cast<void>(certified);
    hidden_->inside.app.answer_to(door.hosts);
    {
        const std::scoped_lock lock(hidden_->shown.guard);
        hidden_->shown.first = {door.authority_der, door.fingerprint};
        hidden_->shown.hosts = door.hosts;
    }
    Listener& tls = hidden_->tls;
    if (tls.daemon == nullptr) {
        tls.daemon = listening_everywhere(usual | MHD_USE_TLS, &handle, &tls, door.port, network_threads, MHD_OPTION_NOTIFY_COMPLETED, &completed, nullptr, MHD_OPTION_HTTPS_CERT_CALLBACK, certificate_callback(),
                                          MHD_OPTION_HTTPS_PRIORITIES, "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2:%SERVER_PRECEDENCE");
        if (tls.daemon == nullptr) return not_listening(door.port, errno, "tls-port");
        tls.port = bound_port(tls.daemon, door.port);
    }
    if (hidden_->first == nullptr) {
        hidden_->first = listening_everywhere(MHD_USE_EPOLL_INTERNAL_THREAD, &handle_first, &hidden_->shown, door.first_port, 1u);
        if (hidden_->first == nullptr) {
            const Error no = not_listening(door.first_port, errno, "first-port");
            close_network();
            return no;
        }
        hidden_->first_port = bound_port(hidden_->first, door.first_port);
    }
    return Done{};
}

void Server::close_network() {
    hidden_->close_first();
    close_listener(hidden_->tls);
    hidden_->inside.app.answer_to({});
}

}  // namespace hw::http
