// A finding cannot be built without its basis.
// Refused with: no matching (function|constructor)
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
Finding x("kind", "sentence", Basis{});
#else
Finding x("kind", "sentence");
#endif
