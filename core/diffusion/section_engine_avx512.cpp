#define HW_LANES 8
#define HW_MAKE make_avx512
#include "core/diffusion/section_engine.inc"
