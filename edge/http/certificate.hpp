// The certificate that TLS connections are answered with: changed while the program runs, read by every connection.
#pragma once

#include <string>

#include "base/result.hpp"

namespace hw::http {

/// Takes certificate and key for connections from now on. @error Conflict  GnuTLS cannot read them
Result<Done> show_certificate(const std::string& chain_pem, const std::string& key_pem);

/// The callback of GnuTLS that answers with it, for the option of libmicrohttpd that asks for one.
using AnyFunction = void (*)();
AnyFunction certificate_callback();

}  // namespace hw::http
