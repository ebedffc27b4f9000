// Routes of pieces and meters.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers piece_handlers();

}  // namespace hw::http
