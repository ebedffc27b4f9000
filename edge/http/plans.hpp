// The addresses of `rebalance`: at once, as long work, and on paper.
#pragma once

#include "edge/http/handler.hpp"

namespace hw::http {

Handlers plan_handlers();

}  // namespace hw::http
