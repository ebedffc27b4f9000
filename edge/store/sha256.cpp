#include "edge/store/sha256.hpp"

#include <sodium/crypto_hash_sha256.h>

#include <array>

namespace hw::store {

std::string sha256(std::string_view bytes) {
    std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
    crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    std::string out;
    constexpr std::string_view digits = "0123456789abcdef";
    for (const unsigned char b : hash) (out += digits[b >> 4]) += digits[b & 15];
    return out;
}

}  // namespace hw::store
