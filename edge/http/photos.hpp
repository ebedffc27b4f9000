// The routes of the photographs.
#pragma once

#include <string_view>

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers photo_handlers();

/// Whether a POST there carries bytes instead of JSON.
bool takes_bytes(std::string_view path);

}  // namespace hw::http
