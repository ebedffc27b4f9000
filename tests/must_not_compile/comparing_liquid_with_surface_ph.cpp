// The pH of a liquid and of a surface reading are different kinds.
// Refused with: no match for|invalid operands
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
bool x = SurfacePh(4) < SurfacePh(5);
#else
bool x = LiquidPh(4) < SurfacePh(5);
#endif
