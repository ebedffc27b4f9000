// A length cannot be read in seconds.
// Refused with: cannot convert|no viable conversion
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
double x = millimetres(1).in(micrometres);
#else
double x = millimetres(1).in(seconds);
#endif
