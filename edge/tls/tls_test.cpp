#include <gnutls/gnutls.h>
#include <gnutls/x509.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>

#include "edge/tls/authority.hpp"
#include "edge/tls/host.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::tls {
namespace {

constexpr std::int64_t now = 1767323045;
const std::vector<std::string> names{"workshop.local", "localhost", "workshop.localhost"};
const std::vector<std::string> addresses{"192.168.1.20", "fd00::20"};

Authority opened(const test::ScratchFolder& folder, const std::string& name = "workshop.local", std::int64_t at = now) { return Authority::open(folder.name(), name, "pc.local", at).value(); }

/// Whether a client that trusts the authority takes the server for that host at that time.
unsigned verdict(const Authority& a, const std::string& chain, const std::string& host, std::int64_t at) {
    gnutls_x509_trust_list_t trust;
    gnutls_x509_trust_list_init(&trust, 0);
    const gnutls_datum_t der{reinterpret_cast<unsigned char*>(const_cast<char*>(a.certificate_der().data())), static_cast<unsigned>(a.certificate_der().size())};
    gnutls_x509_trust_list_add_trust_mem(trust, &der, nullptr, GNUTLS_X509_FMT_DER, 0, 0);
    const gnutls_datum_t pem{reinterpret_cast<unsigned char*>(const_cast<char*>(chain.data())), static_cast<unsigned>(chain.size())};
    gnutls_x509_crt_t* list = nullptr;
    unsigned count = 0;
    gnutls_x509_crt_list_import2(&list, &count, &pem, GNUTLS_X509_FMT_PEM, 0);
    gnutls_typed_vdata_st asked[2] = {{GNUTLS_DT_DNS_HOSTNAME, reinterpret_cast<unsigned char*>(const_cast<char*>(host.c_str())), 0}, {GNUTLS_DT_KEY_PURPOSE_OID, reinterpret_cast<unsigned char*>(const_cast<char*>(GNUTLS_KP_TLS_WWW_SERVER)), 0}};
    unsigned status = 1;
    // The times are checked below: the library would use today's.
    gnutls_x509_trust_list_verify_crt2(trust, list, count, asked, 2, GNUTLS_VERIFY_DISABLE_TIME_CHECKS, &status, nullptr);
    if (gnutls_x509_crt_get_expiration_time(list[0]) <= at || gnutls_x509_crt_get_activation_time(list[0]) > at) status |= GNUTLS_CERT_EXPIRED;
    for (unsigned i = 0; i < count; ++i) gnutls_x509_crt_deinit(list[i]);
    gnutls_free(list);
    gnutls_x509_trust_list_deinit(trust, 1);
    return status;
}

TEST(AuthorityContract, AClientThatTrustsItTakesTheServerByNameAndByAddress) {
    const test::ScratchFolder folder;
    auto a = opened(folder);
    ASSERT_TRUE(*a.tend(names, addresses, now));
    for (const char* host : {"workshop.local", "localhost", "workshop.localhost", "192.168.1.20", "fd00::20"}) EXPECT_EQ(verdict(a, a.server().chain_pem, host, now), 0u) << host;
    EXPECT_NE(verdict(a, a.server().chain_pem, "pc.local", now), 0u) << "not asked for";
    EXPECT_NE(verdict(a, a.server().chain_pem, "192.168.1.21", now), 0u);
    EXPECT_LE(a.server().until_s - now, leaf_life_s);
}

TEST(AuthorityContract, ItIsMadeOnceAndItsKeyIsItsOwners) {
    const test::ScratchFolder folder;
    const std::string first = opened(folder).fingerprint();
    EXPECT_EQ(opened(folder).fingerprint(), first);
    EXPECT_EQ(first.size(), 32u * 3 - 1);
    auto a = opened(folder);
    ASSERT_TRUE(a.tend(names, addresses, now).ok());
    for (const char* file : {"network/authority.pem", "network/server.pem"}) {
        struct stat about {};
        ASSERT_EQ(::stat((folder.path() / file).c_str(), &about), 0);
        EXPECT_EQ(about.st_mode & 0777, 0600u) << file;
    }
}

// Even with its key nobody can pass for a place outside: the critical constraint is in the certificate that phones trust.
TEST(AuthorityProperty, WhatItMayNotSpeakForIsNeitherMadeNorTaken) {
    const test::ScratchFolder folder;
    auto a = opened(folder);
    ASSERT_TRUE(*a.tend({"workshop.local", "bank.example", "local", "evilworkshop.local"}, {"192.168.1.20", "8.8.8.8", "2001:db8::1"}, now));
    EXPECT_EQ(verdict(a, a.server().chain_pem, "workshop.local", now), 0u);
    for (const char* host : {"bank.example", "local", "evilworkshop.local", "8.8.8.8", "2001:db8::1"}) EXPECT_NE(verdict(a, a.server().chain_pem, host, now), 0u) << host;
    gnutls_x509_crt_t crt;
    gnutls_x509_crt_init(&crt);
    const gnutls_datum_t der{reinterpret_cast<unsigned char*>(const_cast<char*>(a.certificate_der().data())), static_cast<unsigned>(a.certificate_der().size())};
    ASSERT_EQ(gnutls_x509_crt_import(crt, &der, GNUTLS_X509_FMT_DER), 0);
    gnutls_x509_name_constraints_t limits;
    gnutls_x509_name_constraints_init(&limits);
    unsigned critical = 0;
    ASSERT_EQ(gnutls_x509_crt_get_name_constraints(crt, limits, 0, &critical), 0);
    EXPECT_EQ(critical, 1u);
    const auto allows = [&](gnutls_x509_subject_alt_name_t kind, std::string what) {
        const gnutls_datum_t datum{reinterpret_cast<unsigned char*>(what.data()), static_cast<unsigned>(what.size())};
        return gnutls_x509_name_constraints_check(limits, kind, &datum) != 0;
    };
    for (const char* good : {"workshop.local", "pc.local", "localhost", "a.localhost"}) EXPECT_TRUE(allows(GNUTLS_SAN_DNSNAME, good)) << good;
    for (const char* bad : {"bank.example", "local", "other.local", "evilworkshop.local", "localhost.example"}) EXPECT_FALSE(allows(GNUTLS_SAN_DNSNAME, bad)) << bad;
    for (const std::string& good : {std::string("\x0a\1\2\3", 4), std::string("\xac\x1f\1\1", 4), std::string("\xc0\xa8\1\1", 4), std::string("\x7f\0\0\1", 4)}) EXPECT_TRUE(allows(GNUTLS_SAN_IPADDRESS, good));
    for (const std::string& bad : {std::string("\x08\x08\x08\x08", 4), std::string("\xac\x20\1\1", 4), std::string("\xc0\xa9\1\1", 4)}) EXPECT_FALSE(allows(GNUTLS_SAN_IPADDRESS, bad));
    gnutls_x509_name_constraints_deinit(limits);
    gnutls_x509_crt_deinit(crt);
}

TEST(AuthorityContract, TheServersCertificateIsRenewedWhenAThirdIsLeftOrTheAddressesChange) {
    const test::ScratchFolder folder;
    auto a = opened(folder);
    ASSERT_TRUE(*a.tend(names, addresses, now));
    const std::string first = a.server().chain_pem;
    EXPECT_FALSE(*a.tend(names, addresses, now + day_s));
    const std::int64_t until = a.server().until_s;
    EXPECT_FALSE(*a.tend(names, addresses, until - leaf_renewed_s));
    EXPECT_EQ(a.server().chain_pem, first);
    EXPECT_TRUE(*a.tend(names, addresses, until - leaf_renewed_s + 1));
    EXPECT_GT(a.server().until_s, until);
    EXPECT_EQ(verdict(a, a.server().chain_pem, "workshop.local", until), 0u);
    EXPECT_TRUE(*a.tend(names, {"192.168.1.99"}, until));
    EXPECT_EQ(verdict(a, a.server().chain_pem, "192.168.1.99", until), 0u);
    EXPECT_NE(verdict(a, a.server().chain_pem, "192.168.1.20", until), 0u);
    const std::string last = a.server().chain_pem;
    auto again = opened(folder, "workshop.local", until);
    EXPECT_TRUE(*again.tend(names, {"192.168.1.99"}, until)) << "to be served, though not new";
    EXPECT_EQ(again.server().chain_pem, last);
}

TEST(AuthorityContract, AnotherNameNeedsAnotherAuthorityAndSoDoesOneThatRunsOut) {
    const test::ScratchFolder folder;
    const std::string first = opened(folder).fingerprint();
    EXPECT_EQ(opened(folder, "other.localhost").fingerprint(), first) << "localhost is allowed for anyway";
    auto other = opened(folder, "shop.local");
    EXPECT_NE(other.fingerprint(), first);
    ASSERT_TRUE(*other.tend({"shop.local"}, {}, now));
    EXPECT_EQ(verdict(other, other.server().chain_pem, "shop.local", now), 0u);
    EXPECT_NE(opened(folder, "shop.local", now + authority_life_s - day_s).fingerprint(), other.fingerprint());
}

TEST(AuthorityRefusal, ADamagedFileIsNotReplacedInSilenceButTheServersIsMadeAnew) {
    const test::ScratchFolder folder;
    { auto a = opened(folder); ASSERT_TRUE(a.tend(names, addresses, now).ok()); }
    std::ofstream(folder.path() / "network/server.pem") << "rubbish";
    { auto a = opened(folder); EXPECT_TRUE(*a.tend(names, addresses, now)); }
    std::ofstream(folder.path() / "network/authority.pem") << "rubbish";
    const auto refused = Authority::open(folder.name(), "workshop.local", "", now);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::Conflict);
}

TEST(HostProperty, PrivateIsWhatTheRangesSay) {
    for (const char* yes : {"10.0.0.1", "10.255.255.255", "172.16.0.1", "172.31.255.255", "192.168.0.1", "169.254.1.1", "127.0.0.1", "fd12::1", "fc00::1", "fe80::1", "::1"}) EXPECT_TRUE(is_private(yes)) << yes;
    for (const char* no : {"11.0.0.1", "172.15.0.1", "172.32.0.1", "192.169.0.1", "8.8.8.8", "2001:db8::1", "::2", "", "localhost", "fec0::1", "10.0.0.256"}) EXPECT_FALSE(is_private(no)) << no;
    for (const auto& address : private_addresses()) EXPECT_TRUE(is_private(address)) << address;
}

}  // namespace
}  // namespace hw::tls
