// Quantities of different kinds do not add.
// Refused with: no match for|invalid operands
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
auto x = millimetres(1) + micrometres(2);
#else
auto x = millimetres(1) + seconds(2);
#endif
