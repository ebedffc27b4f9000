#include "edge/secret/secret.hpp"

#include <gtest/gtest.h>

#include <set>

namespace hw::secret {
namespace {

// The least that the library allows: the tests are about what is right, not about what it costs.
constexpr Cost cheap{1, 8192};

TEST(SecretContract, APasswordFitsItsHashOnly) {
    auto s = SodiumSecrets::make(cheap).value();
    const std::string hash = *s.hash("a long sentence");
    EXPECT_TRUE(s.fits(hash, "a long sentence"));
    EXPECT_FALSE(s.fits(hash, "a long sentencE"));
    EXPECT_FALSE(s.fits(hash, ""));
    EXPECT_FALSE(s.fits("no hash", "a long sentence"));
    EXPECT_FALSE(s.fits(s.nobodys_hash(), ""));
    EXPECT_NE(hash, *s.hash("a long sentence")) << "each has a salt of its own";
    const std::string with_zero("a\0b", 3);
    EXPECT_FALSE(s.fits(*s.hash(with_zero), "a"));
}

TEST(SecretContract, TheHashSaysArgon2idAndTheUsualCost) {
    auto s = SodiumSecrets::make().value();
    EXPECT_EQ(s.nobodys_hash().rfind("$argon2id$v=19$m=65536,t=3,p=1$", 0), 0u) << s.nobodys_hash();
}

TEST(SecretContract, TokensHave256BitsCodes128AndNoneComesTwice) {
    auto s = SodiumSecrets::make(cheap).value();
    std::set<std::string> seen;
    for (int i = 0; i < 1000; ++i) {
        const std::string token = s.token(), code = s.code();
        EXPECT_EQ(token.size(), 43u);  // 256 bits at 6 a letter
        EXPECT_EQ(code.size(), 22u);
        EXPECT_EQ(token.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"), std::string::npos);
        EXPECT_TRUE(seen.insert(token).second && seen.insert(code).second);
    }
}

// FIPS 180-2, appendix B.1 and the empty message of its test vectors.
TEST(SecretConsistency, TheDigestIsSha256) {
    auto s = SodiumSecrets::make(cheap).value();
    EXPECT_EQ(s.digest("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(s.digest(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(SecretContract, TextsAreComparedWhole) {
    EXPECT_TRUE(same("", ""));
    EXPECT_TRUE(same("abc", "abc"));
    EXPECT_FALSE(same("abc", "abd"));
    EXPECT_FALSE(same("abc", "ab"));
}

}  // namespace
}  // namespace hw::secret
