// Routes of test spots.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers spot_handlers();

}  // namespace hw::http
