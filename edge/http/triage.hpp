// Routes of the call.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers triage_handlers();

}  // namespace hw::http
