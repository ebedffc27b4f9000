#include "edge/tls/authority.hpp"

#include <arpa/inet.h>
#include <fcntl.h>
#include <gnutls/crypto.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <set>

#include "edge/tls/host.hpp"

namespace hw::tls {

namespace {

namespace fs = std::filesystem;

using Crt = std::unique_ptr<gnutls_x509_crt_int, void (*)(gnutls_x509_crt_t)>;
using Key = std::unique_ptr<gnutls_x509_privkey_int, void (*)(gnutls_x509_privkey_t)>;
using Constraints = std::unique_ptr<gnutls_name_constraints_st, void (*)(gnutls_x509_name_constraints_t)>;

/// What a call gives that must not fail on good arguments: no memory, or a library that is broken.
void must(int code) {
    if (code < 0) throw Bug(std::string("GnuTLS: ") + gnutls_strerror(code));
}

Crt new_crt() {
    gnutls_x509_crt_t raw = nullptr;
    must(gnutls_x509_crt_init(&raw));
    return {raw, gnutls_x509_crt_deinit};
}
Key new_key() {
    gnutls_x509_privkey_t raw = nullptr;
    must(gnutls_x509_privkey_init(&raw));
    return {raw, gnutls_x509_privkey_deinit};
}
Constraints new_constraints() {
    gnutls_x509_name_constraints_t raw = nullptr;
    must(gnutls_x509_name_constraints_init(&raw));
    return {raw, gnutls_x509_name_constraints_deinit};
}

std::string taken(gnutls_datum_t& datum) {
    std::string out(reinterpret_cast<const char*>(datum.data), datum.size);
    gnutls_free(datum.data);
    return out;
}
gnutls_datum_t seen_as(const std::string& text) { return {reinterpret_cast<unsigned char*>(const_cast<char*>(text.data())), static_cast<unsigned>(text.size())}; }

Key made_key() {
    Key key = new_key();
    must(gnutls_x509_privkey_generate(key.get(), GNUTLS_PK_ECDSA, GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1), 0));
    return key;
}

std::string pem_of(const Crt& crt) {
    gnutls_datum_t out{};
    must(gnutls_x509_crt_export2(crt.get(), GNUTLS_X509_FMT_PEM, &out));
    return taken(out);
}
std::string pem_of(const Key& key) {
    gnutls_datum_t out{};
    must(gnutls_x509_privkey_export2_pkcs8(key.get(), GNUTLS_X509_FMT_PEM, nullptr, GNUTLS_PKCS_PLAIN, &out));
    return taken(out);
}

/// As it stands in a file: the library reads back what it set itself only after this.
Crt reread(const Crt& crt) {
    const std::string pem = pem_of(crt);
    const gnutls_datum_t datum = seen_as(pem);
    Crt out = new_crt();
    must(gnutls_x509_crt_import(out.get(), &datum, GNUTLS_X509_FMT_PEM));
    return out;
}

std::string key_id(const Crt& crt) {
    std::array<unsigned char, 64> id{};
    std::size_t size = id.size();
    must(gnutls_x509_crt_get_key_id(crt.get(), 0, id.data(), &size));
    return {reinterpret_cast<const char*>(id.data()), size};
}

/// A certificate with what both kinds have: number, life, holder, key.
Crt begun(const Key& key, const std::string& holder, std::int64_t from_s, std::int64_t until_s) {
    Crt crt = new_crt();
    std::array<unsigned char, 16> serial{};
    must(gnutls_rnd(GNUTLS_RND_NONCE, serial.data(), serial.size()));
    serial[0] = static_cast<unsigned char>((serial[0] & 0x3F) | 0x40);  // positive, and not shorter than it looks
    must(gnutls_x509_crt_set_version(crt.get(), 3));
    must(gnutls_x509_crt_set_serial(crt.get(), serial.data(), serial.size()));
    must(gnutls_x509_crt_set_activation_time(crt.get(), static_cast<std::time_t>(from_s)));
    must(gnutls_x509_crt_set_expiration_time(crt.get(), static_cast<std::time_t>(until_s)));
    must(gnutls_x509_crt_set_dn_by_oid(crt.get(), GNUTLS_OID_X520_COMMON_NAME, 0, holder.data(), static_cast<unsigned>(holder.size())));
    must(gnutls_x509_crt_set_key(crt.get(), key.get()));
    const std::string id = key_id(crt);
    must(gnutls_x509_crt_set_subject_key_id(crt.get(), id.data(), id.size()));
    return crt;
}

void limit(const Crt& crt, const std::string& name, const std::string& machine) {
    const Constraints limits = new_constraints();
    for (const std::string& dns : {name, machine, std::string("localhost")}) {
        if (dns.empty()) continue;
        const gnutls_datum_t datum = seen_as(dns);
        must(gnutls_x509_name_constraints_add_permitted(limits.get(), GNUTLS_SAN_DNSNAME, &datum));
    }
    for (const char* range : private_ranges) {
        gnutls_datum_t datum{};
        must(gnutls_x509_cidr_to_rfc5280(range, &datum));
        must(gnutls_x509_name_constraints_add_permitted(limits.get(), GNUTLS_SAN_IPADDRESS, &datum));
        gnutls_free(datum.data);
    }
    must(gnutls_x509_crt_set_name_constraints(crt.get(), limits.get(), 1));
}

Crt made_authority(const Key& key, const std::string& name, const std::string& machine, std::int64_t now_s) {
    const std::time_t now = static_cast<std::time_t>(now_s);
    std::tm parts{};
    gmtime_r(&now, &parts);
    char day[16];
    std::strftime(day, sizeof day, "%Y-%m-%d", &parts);
    Crt crt = begun(key, ("Workshop " + name).substr(0, 50) + " " + day, now_s - day_s, now_s + authority_life_s);  // a phone's clock may be behind
    must(gnutls_x509_crt_set_basic_constraints(crt.get(), 1, 0));
    must(gnutls_x509_crt_set_key_usage(crt.get(), GNUTLS_KEY_KEY_CERT_SIGN | GNUTLS_KEY_CRL_SIGN));
    limit(crt, name, machine);
    must(gnutls_x509_crt_sign2(crt.get(), crt.get(), key.get(), GNUTLS_DIG_SHA256, 0));
    return reread(crt);
}

bool may_speak_for(const Crt& authority, const std::string& dns) {
    const Constraints limits = new_constraints();
    unsigned critical = 0;
    if (gnutls_x509_crt_get_name_constraints(authority.get(), limits.get(), 0, &critical) < 0) return false;
    const gnutls_datum_t datum = seen_as(dns);
    return critical != 0 && gnutls_x509_name_constraints_check(limits.get(), GNUTLS_SAN_DNSNAME, &datum) != 0;
}

/// The bytes of an address as they stand in a certificate; empty when it is none.
std::string address_bytes(const std::string& address) {
    std::array<char, 16> raw{};
    if (inet_pton(AF_INET, address.c_str(), raw.data()) == 1) return {raw.data(), 4};
    if (inet_pton(AF_INET6, address.c_str(), raw.data()) == 1) return {raw.data(), 16};
    return {};
}

/// Names and addresses that a certificate stands for, names as text and addresses as bytes.
std::set<std::string> stands_for(const Crt& crt) {
    std::set<std::string> out;
    for (unsigned i = 0;; ++i) {
        std::array<char, 300> text{};
        std::size_t size = text.size();
        const int kind = gnutls_x509_crt_get_subject_alt_name(crt.get(), i, text.data(), &size, nullptr);
        if (kind < 0) return out;
        // The size of a name counts the zero at its end.
        out.insert(kind == GNUTLS_SAN_IPADDRESS ? "address " + std::string(text.data(), size) : "name " + std::string(text.data()));
    }
}

struct Holder {
    Key key;
    Crt crt;
};

/// Key and certificate from one file; nothing when there is none.
Result<std::optional<Holder>> read_holder(const fs::path& file) {
    if (!fs::exists(file)) return std::optional<Holder>{};
    std::ifstream in(file, std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(in), {});
    const gnutls_datum_t datum = seen_as(text);
    Holder out{new_key(), new_crt()};
    if (gnutls_x509_privkey_import2(out.key.get(), &datum, GNUTLS_X509_FMT_PEM, nullptr, 0) < 0 || gnutls_x509_crt_import(out.crt.get(), &datum, GNUTLS_X509_FMT_PEM) < 0)
        return Error{ErrorCode::Conflict, "The file " + file.filename().string() + " in the folder network is damaged. Put it back from a backup, or take it away: phones then need the certificate anew.", "data"};
    return std::optional<Holder>(std::move(out));
}

/// Readable by the program's own account only, and whole after a power cut.
Result<Done> write_holder(const fs::path& file, const Holder& holder) {
    const Error no{ErrorCode::Unavailable, "The folder " + file.parent_path().string() + " cannot be written. See that there is room and that it is yours.", "data"};
    const std::string text = pem_of(holder.key) + pem_of(holder.crt), temporary = file.string() + ".new";
    ::unlink(temporary.c_str());
    const int fd = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (fd < 0) return no;
    const bool written = ::write(fd, text.data(), text.size()) == static_cast<ssize_t>(text.size()) && ::fsync(fd) == 0;
    ::close(fd);
    if (!written || std::rename(temporary.c_str(), file.c_str()) != 0) return no;
    const int folder = ::open(file.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder < 0) return no;
    const bool flushed = ::fsync(folder) == 0;
    ::close(folder);
    return flushed ? Result<Done>(Done{}) : no;
}

std::string fingerprint_of(const std::string& der) {
    std::array<unsigned char, 32> hash{};
    must(gnutls_hash_fast(GNUTLS_DIG_SHA256, der.data(), der.size(), hash.data()));
    std::string out;
    for (const unsigned char byte : hash) {
        char pair[4];
        std::snprintf(pair, sizeof pair, "%02X", byte);
        out += (out.empty() ? "" : ":") + std::string(pair);
    }
    return out;
}

}  // namespace

struct Authority::Hidden {
    fs::path folder;
    Holder self;
    std::string der, fingerprint;
    std::optional<Holder> leaf;
    ServerKey server;

    void show_leaf() { server = {pem_of(leaf->crt) + pem_of(self.crt), pem_of(leaf->key), gnutls_x509_crt_get_expiration_time(leaf->crt.get())}; }

    [[nodiscard]] bool leaf_holds(const std::set<std::string>& wanted, std::int64_t now_s) const {
        return leaf && gnutls_x509_crt_get_expiration_time(leaf->crt.get()) - now_s >= leaf_renewed_s && gnutls_x509_crt_get_activation_time(leaf->crt.get()) <= now_s &&
               stands_for(leaf->crt) == wanted && gnutls_x509_crt_check_issuer(leaf->crt.get(), self.crt.get()) == 1 && signed_by_self(leaf->crt);
    }
    [[nodiscard]] bool signed_by_self(const Crt& crt) const {
        unsigned status = 0;
        gnutls_x509_crt_t own = self.crt.get();
        const unsigned times_apart = GNUTLS_VERIFY_DISABLE_TIME_CHECKS | GNUTLS_VERIFY_DISABLE_TRUSTED_TIME_CHECKS;
        return gnutls_x509_crt_verify(crt.get(), &own, 1, times_apart, &status) == 0 && status == 0;
    }
};

Authority::Authority(std::unique_ptr<Hidden> hidden) : hidden_(std::move(hidden)) {}
Authority::~Authority() = default;
Authority::Authority(Authority&&) noexcept = default;
Authority& Authority::operator=(Authority&&) noexcept = default;

const ServerKey& Authority::server() const { return hidden_->server; }
const std::string& Authority::certificate_der() const { return hidden_->der; }
const std::string& Authority::fingerprint() const { return hidden_->fingerprint; }

Result<Authority> Authority::open(const std::string& data, const std::string& name, const std::string& machine, std::int64_t now_s) {
    const fs::path folder = fs::path(data) / "network", file = folder / "authority.pem";
    std::error_code fault;
    fs::create_directories(folder, fault);
    fs::permissions(folder, fs::perms::owner_all, fault);
    if (fault) return Error{ErrorCode::Unavailable, "The folder " + folder.string() + " cannot be made. See that the records are yours.", "data"};
    HW_TRY(kept, read_holder(file));
    if (!kept || gnutls_x509_crt_get_expiration_time(kept->crt.get()) <= now_s + leaf_life_s || !may_speak_for(kept->crt, name)) {
        Key key = made_key();
        Crt crt = made_authority(key, name, machine, now_s);
        kept.emplace(Holder{std::move(key), std::move(crt)});
        HW_TRY(written, write_holder(file, *kept));
        static_cast<void>(written);
    }
    gnutls_datum_t der{};
    must(gnutls_x509_crt_export2(kept->crt.get(), GNUTLS_X509_FMT_DER, &der));
    auto hidden = std::make_unique<Hidden>(Hidden{folder, *std::move(kept), taken(der), "", std::nullopt, {}});
    hidden->fingerprint = fingerprint_of(hidden->der);
    if (auto leaf = read_holder(folder / "server.pem"); leaf.ok()) hidden->leaf = std::move(*leaf);  // a damaged one is made anew
    return Authority(std::move(hidden));
}

Result<bool> Authority::tend(const std::vector<std::string>& names, const std::vector<std::string>& addresses, std::int64_t now_s) {
    std::set<std::string> wanted;
    for (const auto& name : names)
        if (may_speak_for(hidden_->self.crt, name)) wanted.insert("name " + name);
    for (const auto& address : addresses)
        if (is_private(address)) wanted.insert("address " + address_bytes(address));
    if (hidden_->leaf_holds(wanted, now_s)) {
        const bool first = hidden_->server.key_pem.empty();
        if (first) hidden_->show_leaf();
        return first;
    }
    Key key = made_key();
    Crt crt = begun(key, names.empty() ? "localhost" : names.front().substr(0, 60), now_s - 3600, now_s - 3600 + leaf_life_s);
    for (const auto& row : wanted) {
        const bool is_name = row.rfind("name ", 0) == 0;
        const std::string value = row.substr(is_name ? 5 : 8);
        must(gnutls_x509_crt_set_subject_alt_name(crt.get(), is_name ? GNUTLS_SAN_DNSNAME : GNUTLS_SAN_IPADDRESS, value.data(), static_cast<unsigned>(value.size()), GNUTLS_FSAN_APPEND));
    }
    const std::string issuer = key_id(hidden_->self.crt);
    must(gnutls_x509_crt_set_authority_key_id(crt.get(), issuer.data(), issuer.size()));
    must(gnutls_x509_crt_set_basic_constraints(crt.get(), 0, -1));
    must(gnutls_x509_crt_set_key_usage(crt.get(), GNUTLS_KEY_DIGITAL_SIGNATURE));
    must(gnutls_x509_crt_set_key_purpose_oid(crt.get(), GNUTLS_KP_TLS_WWW_SERVER, 0));
    must(gnutls_x509_crt_sign2(crt.get(), hidden_->self.crt.get(), hidden_->self.key.get(), GNUTLS_DIG_SHA256, 0));
    hidden_->leaf.emplace(Holder{std::move(key), reread(crt)});
    hidden_->show_leaf();
    HW_TRY(written, write_holder(hidden_->folder / "server.pem", *hidden_->leaf));
    static_cast<void>(written);
    return true;
}

}  // namespace hw::tls
