// The addresses of `diagnose` and `advise`.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers damage_handlers();

}  // namespace hw::http
