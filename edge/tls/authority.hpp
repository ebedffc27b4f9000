// The workshop's own certificate authority and the certificate of its server, by GnuTLS (RFC 5280).
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace hw::tls {

/// Ten years; a server's certificate a quarter of a year, renewed when a third of that is left.
inline constexpr std::int64_t day_s = 86400, authority_life_s = 3650 * day_s, leaf_life_s = 90 * day_s, leaf_renewed_s = 30 * day_s;

/// What the network library needs to serve TLS.
struct ServerKey {
    std::string chain_pem, key_pem;
    std::int64_t until_s = 0;
};

class Authority {
public:
    /// Reads the authority of a folder, or makes one when there is none, when it has run out, or when it may not speak for
    /// `name`. A critical name constraint limits it to `name`, `machine`, localhost and private addresses, so that even with
    /// its key nobody can pass for a place on the internet.
    /// @error Unavailable  the folder cannot be written  @error Conflict  the file is damaged
    static Result<Authority> open(const std::string& folder, const std::string& name, const std::string& machine, std::int64_t now_s);
    ~Authority();
    Authority(Authority&&) noexcept;
    Authority& operator=(Authority&&) noexcept;

    /// Makes a new certificate for the server when the names or addresses have changed, a third of its life is left, or it
    /// is not this authority's. What the authority may not speak for is left out. True when there is a new one.
    Result<bool> tend(const std::vector<std::string>& names, const std::vector<std::string>& addresses, std::int64_t now_s);

    [[nodiscard]] const ServerKey& server() const;
    [[nodiscard]] const std::string& certificate_der() const;
    /// SHA-256 of the certificate, in pairs of digits.
    [[nodiscard]] const std::string& fingerprint() const;

private:
    struct Hidden;
    explicit Authority(std::unique_ptr<Hidden> hidden);
    std::unique_ptr<Hidden> hidden_;
};

}  // namespace hw::tls
