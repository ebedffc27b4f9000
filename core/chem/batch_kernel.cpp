// The batch kernel. Compiled once per instruction set from the same text, with contraction off: the same IEEE operations
// in the same order on every lane, hence the same bits on every processor. Loops run over the lanes of a block, which share
// nothing (HW_LANES_APART says so to the compiler), and hold straight-line code only, which the compiler turns into
// vectors. Dispatch is by hand in batch.cpp, not by an indirect function of the loader: that crashes under the thread
// sanitizer, and a test could not choose the set.
#include "core/chem/batch_kernel.hpp"

#include <bit>
#include <cmath>
#include <cstdint>

#if defined(__x86_64__) && defined(__GNUC__)
#define HW_TARGET(features) __attribute__((target(features)))
#else
#define HW_TARGET(features)
#endif
#if defined(__GNUC__) && !defined(__clang__)
#define HW_LANES_APART _Pragma("GCC ivdep")
#else
#define HW_LANES_APART
#endif
#define HW_INLINE [[gnu::always_inline]] inline

namespace hw::chem::batch_kernel {

namespace {

constexpr double ln10 = 2.302585092994045684;
constexpr int bisections = 7, newton_steps = 24;
constexpr double low_ph = -2.5, high_ph = 16.5, settled_step = 1e-7;

/// 10^x for |x| < 300: 2^n times the Taylor polynomial of exp of degree 12 on |t| <= ln2/2, whose remainder is 1.7e-16.
HW_INLINE double power_of_ten(double x) {
    constexpr double magic = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to an integer in the low bits
    const double y = x * 3.321928094887362348, shifted = y + magic, n = shifted - magic;
    const double t = (y - n) * 0.6931471805599453094;
    double p = 1.0 / 479001600;
    p = p * t + 1.0 / 39916800;
    p = p * t + 1.0 / 3628800;
    p = p * t + 1.0 / 362880;
    p = p * t + 1.0 / 40320;
    p = p * t + 1.0 / 5040;
    p = p * t + 1.0 / 720;
    p = p * t + 1.0 / 120;
    p = p * t + 1.0 / 24;
    p = p * t + 1.0 / 6;
    p = p * t + 0.5;
    p = p * t + 1;
    p = p * t + 1;
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(p) + (std::bit_cast<std::uint64_t>(shifted) << 52));
}

/// Lane arrays of one pass.
struct Work {
    alignas(64) double r[width], h[width], oh[width];
    alignas(64) double first[max_classes][width], ratio[max_classes][width], slope[max_classes][width];
    alignas(64) double p[max_classes][width];
    alignas(64) double charge[width], spread[width], cross[width], cross_i[width], square[width], square_i[width];
    alignas(64) double low[width], high[width];
};

/// Activity coefficients at the lanes' ionic strength: p = 1/gamma of a unit charge, and d(ln gamma)/dI, per class.
HW_INLINE void activities(const Block& b, Work& w) {
    for (int c = 0; c < b.classes; ++c) {
        const double ba = b.class_ba[c];
        HW_LANES_APART
        for (int l = 0; l < width; ++l) {
            const double root = std::sqrt(b.ionic[l]), q = 1 / (1 + ba * root);
            w.p[c][l] = power_of_ten(b.a[l] * root * q);
            w.slope[c][l] = -0.5 * ln10 * b.a[l] * q * q / root;
        }
    }
}

/// Everything that depends on pH alone, and the first weight ratio of each class:
/// w[j]/w[j-1] = K[j] / a(H+) * p^(2 j - 1 - 2 top).
HW_INLINE void at_ph(const Block& b, Work& w) {
    HW_LANES_APART
    for (int l = 0; l < width; ++l) {
        w.r[l] = power_of_ten(b.ph[l]);
        w.h[l] = w.p[0][l] * b.free_h[l] / w.r[l];
        w.oh[l] = w.p[0][l] * b.free_oh[l] * b.kw[l] * w.r[l];
        w.charge[l] = b.strong[l] + w.h[l] - w.oh[l];
    }
    for (int c = 0; c < b.classes; ++c) {
        const int power = 1 - 2 * b.class_top[c];
        HW_LANES_APART
        for (int l = 0; l < width; ++l) {
            w.ratio[c][l] = w.p[c][l] * w.p[c][l];
            w.first[c][l] = power >= 0 ? w.r[l] * w.p[c][l] : w.r[l] / w.p[c][l];
        }
        for (int k = 1; k < (power >= 0 ? power : -power); k += 2)
            HW_LANES_APART
            for (int l = 0; l < width; ++l) w.first[c][l] = power >= 0 ? w.first[c][l] * w.ratio[c][l] : w.first[c][l] / w.ratio[c][l];
    }
}

struct Sums {
    double s0 = 1, s1 = 0, s2 = 0, s3 = 0, s4 = 0;
};

/// Weight of form `j`, times j^0 to j^4; on the way to the next form the ratio grows by p^2.
template <int j, int steps, bool full>
HW_INLINE void add_form(double beta, double ratio, double& f, double& step, Sums& s) {
    constexpr double n = j;
    const double weight = beta * f;
    s.s0 += weight;
    s.s1 += n * weight;
    if constexpr (full) {
        s.s2 += n * n * weight;
        s.s3 += n * n * n * weight;
        s.s4 += n * n * n * n * weight;
    }
    if constexpr (j < steps) {
        step *= ratio;
        f *= step;
    }
}

/// Adds one system to the charge, and with `full` to the second moments that Newton needs.
template <int steps, bool shared, bool full>
HW_INLINE void add_system(const double* beta, long stride, const double* total, double top, const double* first, const double* ratio,
                          const double* slope, Work& w) {
    HW_LANES_APART
    for (int l = 0; l < width; ++l) {
        double f = first[l], step = f;
        const double q = ratio[l];
        Sums s;
        add_form<1, steps, full>(beta[shared ? 0 : l], q, f, step, s);
        if constexpr (steps > 1) add_form<2, steps, full>(beta[shared ? 1 : stride + l], q, f, step, s);
        if constexpr (steps > 2) add_form<3, steps, full>(beta[shared ? 2 : 2 * stride + l], q, f, step, s);
        if constexpr (steps > 3) add_form<4, steps, full>(beta[shared ? 3 : 3 * stride + l], q, f, step, s);
        if constexpr (steps > 4) add_form<5, steps, full>(beta[shared ? 4 : 4 * stride + l], q, f, step, s);
        if constexpr (steps > 5) add_form<6, steps, full>(beta[shared ? 5 : 5 * stride + l], q, f, step, s);
        const double inverse = 1 / s.s0, t = total[l], m1 = s.s1 * inverse;
        w.charge[l] += t * (top - m1);
        if constexpr (full) {
            const double m2 = s.s2 * inverse, m3 = s.s3 * inverse, m4 = s.s4 * inverse;
            const double v = m2 - m1 * m1, c3 = m3 - m1 * m2, c4 = m4 - m2 * m2;
            const double cov = 2 * top * v - c3, var = 4 * top * top * v - 4 * top * c3 + c4;
            w.spread[l] += t * v;
            w.cross[l] += t * cov;
            w.cross_i[l] += t * cov * slope[l];
            w.square[l] += t * (top * top - 2 * top * m1 + m2);
            w.square_i[l] += t * var * slope[l];
        }
    }
}

template <bool full>
HW_INLINE void add_systems(const Block& b, Work& w) {
    for (int s = 0; s < b.systems; ++s) {
        const int c = b.group[s];
        const double top = b.top[s];
        const long stride = b.stride[s];
        const double *beta = b.beta[s], *total = b.total[s], *first = w.first[c], *ratio = w.ratio[c], *slope = w.slope[c];
        if (stride == 0) {
            switch (b.steps[s]) {
                case 1: add_system<1, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 2: add_system<2, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 3: add_system<3, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 4: add_system<4, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 5: add_system<5, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
                default: add_system<6, true, full>(beta, stride, total, top, first, ratio, slope, w); break;
            }
        } else {
            switch (b.steps[s]) {
                case 1: add_system<1, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 2: add_system<2, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 3: add_system<3, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 4: add_system<4, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
                case 5: add_system<5, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
                default: add_system<6, false, full>(beta, stride, total, top, first, ratio, slope, w); break;
            }
        }
    }
}

HW_INLINE void full_pass(const Block& b, Work& w) {
    HW_LANES_APART
    for (int l = 0; l < width; ++l) w.spread[l] = w.cross[l] = w.cross_i[l] = w.square[l] = w.square_i[l] = 0;
    activities(b, w);
    at_ph(b, w);
    add_systems<true>(b, w);
}

HW_INLINE void bracket(Block& b, Work& w) {
    HW_LANES_APART
    for (int l = 0; l < width; ++l) {
        b.ionic[l] = 0.5 * (b.inert[l] + b.total_sum[l]) + 1e-7;
        w.low[l] = low_ph;
        w.high[l] = high_ph;
        b.ph[l] = 0.5 * (low_ph + high_ph);
        b.open[l] = 1;
    }
    activities(b, w);
    for (int i = 0; i < bisections; ++i) {
        at_ph(b, w);
        add_systems<false>(b, w);
        HW_LANES_APART
        for (int l = 0; l < width; ++l) {
            const bool above = w.charge[l] > 0;  // charge falls with pH, so the root lies above
            w.low[l] = above ? b.ph[l] : w.low[l];
            w.high[l] = above ? w.high[l] : b.ph[l];
            b.ph[l] = 0.5 * (w.low[l] + w.high[l]);
        }
    }
}

/// One Newton step of (charge, ionic strength) in (pH, I), held back so that it cannot run away.
HW_INLINE void newton_step(Block& b, Work& w) {
    HW_LANES_APART
    for (int l = 0; l < width; ++l) {
        const double h = w.h[l], oh = w.oh[l], g = w.slope[0][l], i = b.ionic[l];
        const double f = w.charge[l], f_ph = -ln10 * (h + oh + w.spread[l]), f_i = g * (oh - h) - w.cross_i[l];
        const double e = 0.5 * (b.inert[l] + h + oh + w.square[l]) - i;
        const double e_ph = 0.5 * ln10 * (oh - h - w.cross[l]), e_i = -0.5 * (g * (h + oh) + w.square_i[l]) - 1;
        const double product = f_ph * e_i - f_i * e_ph, least = -0.05 * f_ph, determinant = product > least ? product : least;
        const double inverse = 1 / determinant;
        double dp = (f_i * e - f * e_i) * inverse, di = (f * e_ph - f_ph * e) * inverse;
        dp = dp > 0.6 ? 0.6 : dp;
        dp = dp < -0.6 ? -0.6 : dp;
        const double up = 3 * i, down = -0.75 * i;
        di = di > up ? up : di;
        di = di < down ? down : di;
        const double size = (dp < 0 ? -dp : dp), size_i = (di < 0 ? -di : di);
        const double open = b.open[l];
        b.ph[l] += open * dp;
        b.ionic[l] += open * di;
        const double ph_open = size < settled_step ? 0.0 : 1.0, i_open = size_i < settled_step * i ? 0.0 : 1.0;
        b.open[l] = open * (ph_open > i_open ? ph_open : i_open);
    }
}

HW_INLINE void solve(Block& b) {
    Work w;
    bracket(b, w);
    for (int i = 0; i < newton_steps; ++i) {
        full_pass(b, w);
        newton_step(b, w);
        double still = 0;
        for (int l = 0; l < width; ++l) still = b.open[l] > still ? b.open[l] : still;
        if (still == 0) break;
    }
    // The capacity belongs to the answer, not to the step before it.
    full_pass(b, w);
    for (int l = 0; l < width; ++l) b.buffer[l] = ln10 * (w.h[l] + w.oh[l] + w.spread[l]);
}

}  // namespace

void solve_baseline(Block& block) { solve(block); }
HW_TARGET("avx2") void solve_avx2(Block& block) { solve(block); }
HW_TARGET("avx512f") void solve_avx512(Block& block) { solve(block); }

void power_of_ten_baseline(const double* exponent, double* result, long n) {
    for (long i = 0; i < n; ++i) result[i] = power_of_ten(exponent[i]);
}

}  // namespace hw::chem::batch_kernel
