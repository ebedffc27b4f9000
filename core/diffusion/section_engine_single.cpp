#define HW_LANES 1
#define HW_MAKE make_single
#include "core/diffusion/section_engine.inc"
