// A plain HTTP/1.1 client over a loopback socket: sends exactly the bytes it is given, so that refusals can be tried.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <string>

namespace hw::test {

struct HttpReply {
    int status = 0;                              ///< 0: the connection was closed without an answer
    std::map<std::string, std::string> headers;  ///< names in small letters
    std::string body;
};

inline int connected(int port) {
    const int fd = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const timeval patience{60, 0};
    ::setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    if (::connect(fd, reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0) {
        ::close(fd);
        return -1;
    }
    return fd;
}

inline bool send_all(int fd, const std::string& bytes) {
    std::size_t at = 0;
    while (at < bytes.size()) {
        const auto n = ::send(fd, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL);
        if (n <= 0) return false;
        at += static_cast<std::size_t>(n);
    }
    return true;
}

/// Reads one answer and closes.
inline HttpReply received(int fd, bool head = false) {
    HttpReply out;
    std::string all;
    char buffer[16384];
    std::size_t body_at = std::string::npos, expected = 0;
    for (;;) {
        if (body_at == std::string::npos && (body_at = all.find("\r\n\r\n")) != std::string::npos) {
            body_at += 4;
            out.status = std::atoi(all.substr(9, 3).c_str());
            std::size_t line = all.find("\r\n") + 2;
            while (line + 2 < body_at) {
                const auto end = all.find("\r\n", line), colon = all.find(':', line);
                std::string name = all.substr(line, colon - line);
                std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
                out.headers[name] = all.substr(colon + 2, end - colon - 2);
                line = end + 2;
            }
            expected = head ? 0 : static_cast<std::size_t>(std::atoll(out.headers["content-length"].c_str()));
        }
        if (body_at != std::string::npos && all.size() >= body_at + expected) break;
        const auto n = ::recv(fd, buffer, sizeof buffer, 0);
        if (n <= 0) break;
        all.append(buffer, static_cast<std::size_t>(n));
    }
    ::close(fd);
    if (body_at != std::string::npos) out.body = all.substr(body_at, expected);
    return out;
}

inline HttpReply ask(int port, const std::string& bytes, bool head = false) {
    const int fd = connected(port);
    if (fd < 0) return {};
    send_all(fd, bytes);
    return received(fd, head);
}

inline std::string get_text(const std::string& path, const std::string& more = {}, const std::string& host = "localhost") {
    return "GET " + path + " HTTP/1.1\r\nHost: " + host + "\r\n" + more + "\r\n";
}

inline std::string post_text(const std::string& path, const std::string& body, const std::string& more = {}, const std::string& type = "application/json") {
    return "POST " + path + " HTTP/1.1\r\nHost: localhost\r\nContent-Type: " + type + "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" + more + "\r\n" + body;
}

inline HttpReply get(int port, const std::string& path) { return ask(port, get_text(path)); }
inline HttpReply post(int port, const std::string& path, const std::string& body) { return ask(port, post_text(path, body)); }

}  // namespace hw::test
