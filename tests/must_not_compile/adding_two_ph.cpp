// Two pH values are points: they may be subtracted, never added.
// Refused with: no match for|invalid operands
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
auto x = PorePh(4) - PorePh(3);
#else
auto x = PorePh(4) + PorePh(3);
#endif
