// What this machine is called on its network, and its private addresses.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hw::tls {

/// The ranges that the workshop's certificate may speak for: RFC 1918, RFC 3927 and RFC 1122 of IPv4; RFC 4193, RFC 4291 of IPv6.
inline constexpr const char* private_ranges[] = {"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128"};

bool is_private(std::string_view address);
/// Of the interfaces that are up, without loopback and without fe80::/10, which browsers cannot open. Sorted.
std::vector<std::string> private_addresses();
/// host.local, as far as the machine has a usable name; else empty.
std::string machine_name();

}  // namespace hw::tls
