// Inside of the batch solver: one block of lanes in plain arrays, and the kernel for each instruction set.
#pragma once

#include "core/chem/batch.hpp"

namespace hw::chem::batch_kernel {

inline constexpr int width = 32;         ///< lanes of a block: two to sixteen vectors, small enough for the first cache
inline constexpr int max_systems = 80;
inline constexpr int max_classes = 8;    ///< distinct (top charge, long-range denominator)

struct alignas(64) Block {
    int systems = 0;
    int steps[max_systems] = {};
    int top[max_systems] = {};
    int group[max_systems] = {};         ///< class of the system
    const double* beta[max_systems] = {};///< cumulative constants, [step * stride + lane]
    long stride[max_systems] = {};       ///< 0 when shared: beta then holds one value per step
    const double* total[max_systems] = {};
    int classes = 0;
    int class_top[max_classes] = {};
    double class_ba[max_classes] = {};
    alignas(64) double strong[width] = {}, inert[width] = {}, a[width] = {}, kw[width] = {}, free_h[width] = {}, free_oh[width] = {};
    alignas(64) double total_sum[width] = {};
    alignas(64) double ph[width] = {}, ionic[width] = {}, buffer[width] = {}, open[width] = {};
};

void solve_baseline(Block& block);
void solve_avx2(Block& block);
void solve_avx512(Block& block);
void power_of_ten_baseline(const double* exponent, double* result, long n);

}  // namespace hw::chem::batch_kernel
