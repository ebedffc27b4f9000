// A Result must be looked at.
// Refused with: ignoring return
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
Result<int> f() { return 1; }
int g() { return f().value(); }
#else
Result<int> f() { return 1; }
int g() { f(); return 1; }
#endif
