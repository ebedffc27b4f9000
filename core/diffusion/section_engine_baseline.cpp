#define HW_LANES 8
#define HW_MAKE make_baseline
#include "core/diffusion/section_engine.inc"
