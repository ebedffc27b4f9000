// Two temperatures are points: they may be subtracted, never added.
// Refused with: no match for|invalid operands
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
auto x = Temperature::celsius(20) - Temperature::celsius(10);
#else
auto x = Temperature::celsius(20) + Temperature::celsius(10);
#endif
