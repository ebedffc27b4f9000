// The routes of what may touch what, what must never meet, and drops.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers touching_handlers();

}  // namespace hw::http
