// What a phone gets before it trusts this workshop, over plain HTTP: the certificate, and a page that says how to take it.
#pragma once

#include <string>
#include <string_view>

#include "edge/http/app.hpp"

namespace hw::http {

struct FirstDoor {
    std::string authority_der, fingerprint;
};

/// Nothing is asked here and nothing is told that is secret.
Reply first_answer(const FirstDoor& door, std::string_view method, std::string_view path, const std::string& id);

}  // namespace hw::http
