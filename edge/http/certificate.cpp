#include "edge/http/certificate.hpp"

#include <gnutls/abstract.h>
#include <gnutls/gnutls.h>

#include <atomic>
#include <memory>
#include <mutex>
#include <vector>

namespace hw::http {

namespace {

struct Shown {
    gnutls_pcert_st chain[4] = {};
    unsigned count = 0;
    gnutls_privkey_t key = nullptr;
    std::string key_pem;
};

// GnuTLS gives the callback no argument of ours, so there is one certificate in a program. What was shown before stays:
// a connection that began with it may still use it. One comes every two months.
std::atomic<Shown*> shown{nullptr};

int answer(gnutls_session_t, const gnutls_datum_t*, int, const gnutls_pk_algorithm_t*, int, gnutls_pcert_st** chain, unsigned* count, gnutls_privkey_t* key) {
    Shown* now = shown.load();
    if (now == nullptr) return -1;
    *chain = now->chain;
    *count = now->count;
    *key = now->key;
    return 0;
}

gnutls_datum_t seen_as(const std::string& text) { return {reinterpret_cast<unsigned char*>(const_cast<char*>(text.data())), static_cast<unsigned>(text.size())}; }

}  // namespace

Result<Done> show_certificate(const std::string& chain_pem, const std::string& key_pem) {
    static std::mutex guard;
    static std::vector<std::unique_ptr<Shown>> all;
    const std::scoped_lock lock(guard);
    if (Shown* now = shown.load(); now != nullptr && now->key_pem == key_pem) return Done{};
    auto next = std::make_unique<Shown>();
    next->key_pem = key_pem;
    const gnutls_datum_t chain = seen_as(chain_pem), key = seen_as(key_pem);
    unsigned count = 4;
    if (gnutls_pcert_list_import_x509_raw(next->chain, &count, &chain, GNUTLS_X509_FMT_PEM, 0) < 0 || gnutls_privkey_init(&next->key) < 0 ||
        gnutls_privkey_import_x509_raw(next->key, &key, GNUTLS_X509_FMT_PEM, nullptr, 0) < 0)
        return Error{ErrorCode::Conflict, "The certificate of this server cannot be read.", "network"};
    next->count = count;
    all.push_back(std::move(next));
    shown = all.back().get();
    return Done{};
}

AnyFunction certificate_callback() { return reinterpret_cast<AnyFunction>(&answer); }

}  // namespace hw::http
