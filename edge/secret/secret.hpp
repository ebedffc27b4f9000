// Passwords, random tokens and digests, by libsodium.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "desk/ports.hpp"

namespace hw::secret {

/// What one check of a password costs. RFC 9106, 4 recommends 64 MiB and three passes where memory is scarce.
struct Cost {
    unsigned long long passes = 3;
    std::size_t memory_bytes = std::size_t{64} << 20;
};

class SodiumSecrets : public desk::Secrets {
public:
    /// @error Unavailable  the library cannot be used on this machine
    static Result<SodiumSecrets> make(Cost cost = {});
    Result<std::string> hash(std::string_view password) override;
    bool fits(const std::string& hash, std::string_view password) override;
    const std::string& nobodys_hash() override { return nobody_; }
    std::string token() override;
    std::string code() override;
    std::string digest(std::string_view text) override;

private:
    explicit SodiumSecrets(Cost cost) : cost_(cost) {}
    Cost cost_;
    std::string nobody_;
};

/// In a time that does not depend on where they differ.
bool same(std::string_view a, std::string_view b);

}  // namespace hw::secret
