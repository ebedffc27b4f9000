// Routes of the safety card and of the shop's own limits.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers protect_handlers();

}  // namespace hw::http
