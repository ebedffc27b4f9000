#include "edge/secret/secret.hpp"

#include <sodium.h>

#include <vector>

namespace hw::secret {

namespace {

/// Random bytes as base64 for addresses (RFC 4648, 5), without padding.
std::string random_text(std::size_t bytes) {
    std::vector<unsigned char> raw(bytes);
    randombytes_buf(raw.data(), raw.size());
    std::string out(sodium_base64_ENCODED_LEN(bytes, sodium_base64_VARIANT_URLSAFE_NO_PADDING), '\0');
    sodium_bin2base64(out.data(), out.size(), raw.data(), raw.size(), sodium_base64_VARIANT_URLSAFE_NO_PADDING);
    out.resize(out.find('\0'));
    return out;
}

}  // namespace

Result<SodiumSecrets> SodiumSecrets::make(Cost cost) {
    if (sodium_init() < 0) return Error{ErrorCode::Unavailable, "This machine gives no random numbers, so nothing can be kept secret. Start it anew.", ""};
    SodiumSecrets out(cost);
    HW_TRY(nobody, out.hash(random_text(32)));
    out.nobody_ = nobody;
    return out;
}

Result<std::string> SodiumSecrets::hash(std::string_view password) {
    std::string out(crypto_pwhash_STRBYTES, '\0');
    if (crypto_pwhash_str_alg(out.data(), password.data(), password.size(), cost_.passes, cost_.memory_bytes, crypto_pwhash_ALG_ARGON2ID13) != 0)
        return Error{ErrorCode::Unavailable, "There is too little memory to keep a password safely. Close other programs and try again.", "password"};
    out.resize(out.find('\0'));
    return out;
}

bool SodiumSecrets::fits(const std::string& hash, std::string_view password) { return crypto_pwhash_str_verify(hash.c_str(), password.data(), password.size()) == 0; }

std::string SodiumSecrets::token() { return random_text(32); }
std::string SodiumSecrets::code() { return random_text(16); }

std::string SodiumSecrets::digest(std::string_view text) {
    unsigned char raw[crypto_hash_sha256_BYTES];
    crypto_hash_sha256(raw, reinterpret_cast<const unsigned char*>(text.data()), text.size());
    std::string out(2 * sizeof raw + 1, '\0');
    sodium_bin2hex(out.data(), out.size(), raw, sizeof raw);
    out.pop_back();
    return out;
}

bool same(std::string_view a, std::string_view b) { return a.size() == b.size() && sodium_memcmp(a.data(), b.data(), a.size()) == 0; }

}  // namespace hw::secret
