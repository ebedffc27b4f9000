#include "edge/tls/host.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>

namespace hw::tls {

namespace {

/// The bits of an address, IPv4 in the first four; empty when it is none.
std::string bits_of(const std::string& address) {
    std::array<char, 16> raw{};
    if (inet_pton(AF_INET, address.c_str(), raw.data()) == 1) return {raw.data(), 4};
    if (inet_pton(AF_INET6, address.c_str(), raw.data()) == 1) return {raw.data(), 16};
    return {};
}

bool within(const std::string& bits, const std::string& range) {
    const auto slash = range.find('/');
    const std::string first = bits_of(range.substr(0, slash));
    if (first.size() != bits.size()) return false;
    const int length = std::stoi(range.substr(slash + 1));
    for (int i = 0; i < length; ++i) {
        const auto at = static_cast<std::size_t>(i / 8);
        if ((((bits[at] ^ first[at]) >> (7 - i % 8)) & 1) != 0) return false;
    }
    return true;
}

}  // namespace

bool is_private(std::string_view address) {
    const std::string bits = bits_of(std::string(address));
    return !bits.empty() && std::any_of(std::begin(private_ranges), std::end(private_ranges), [&](const char* range) { return within(bits, range); });
}

std::vector<std::string> private_addresses() {
    std::vector<std::string> out;
    ifaddrs* first = nullptr;
    if (getifaddrs(&first) != 0) return out;
    const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> guard(first, freeifaddrs);
    for (const ifaddrs* i = first; i != nullptr; i = i->ifa_next) {
        if (i->ifa_addr == nullptr) continue;
        char text[INET6_ADDRSTRLEN] = "";
        if (i->ifa_addr->sa_family == AF_INET) inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(i->ifa_addr)->sin_addr, text, sizeof text);
        else if (i->ifa_addr->sa_family == AF_INET6) inet_ntop(AF_INET6, &reinterpret_cast<const sockaddr_in6*>(i->ifa_addr)->sin6_addr, text, sizeof text);
        const std::string bits = bits_of(text);
        if (is_private(text) && !within(bits, "127.0.0.0/8") && !within(bits, "fe80::/10") && !within(bits, "::1/128")) out.emplace_back(text);
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

std::string machine_name() {
    char name[256] = "";
    if (gethostname(name, sizeof name - 1) != 0) return {};
    std::string label(name);
    label = label.substr(0, label.find('.'));
    for (char& c : label) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool good = !label.empty() && label.size() < 64 && label.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos && label != "localhost";
    return good ? label + ".local" : std::string{};
}

}  // namespace hw::tls
