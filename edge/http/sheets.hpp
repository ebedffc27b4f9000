// The routes of the data sheets.
#pragma once

#include <cstddef>
#include <string_view>

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers sheet_handlers();

/// Whether a POST there carries a data sheet instead of JSON.
bool takes_a_sheet(std::string_view path);

}  // namespace hw::http
