// The routes of the shelf.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers shelf_handlers();

}  // namespace hw::http
