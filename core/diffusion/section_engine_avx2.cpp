#define HW_LANES 8
#define HW_MAKE make_avx2
#include "core/diffusion/section_engine.inc"
