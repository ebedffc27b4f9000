// The web face inside the program: which embedded file answers a path.
#pragma once

#include <optional>
#include <string_view>

#include "edge/http/app.hpp"

namespace hw::http {

/// The file of that name, packed when the client unpacks; for a path without a dot the page itself, which reads the
/// address (a deep link). Nothing when there is no such file.
std::optional<Reply> page(std::string_view path, bool gzip);

}  // namespace hw::http
