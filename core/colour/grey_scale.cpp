#include "core/colour/grey_scale.hpp"

#include <algorithm>
#include <cmath>

namespace hw::colour {

namespace {
constexpr double best = 5, worst = 1;
}

bool is_grade(double grade) { return grade >= worst && grade <= best && 2 * grade == std::floor(2 * grade); }

std::string grade_words(double grade) {
    const int whole = static_cast<int>(std::floor(grade));
    return grade == whole ? std::to_string(whole) : std::to_string(whole) + "/" + std::to_string(whole + 1);
}

double change_grade(double difference) {
    const double grade = difference <= 3.4 ? best - difference / 1.7 : best - std::log2(difference / 0.85);
    return std::clamp(grade, worst, best);
}

double stain_grade(const Lab& clean, const Lab& stained) {
    const double de = cielab1976(clean, stained), dl = stained.l_1 - clean.l_1;
    const double shown = de - 0.4 * std::sqrt(std::max(0.0, de * de - dl * dl));
    if (!(shown > 0)) return best;
    const double grade = 6.1 - 1.45 * std::log(shown);
    return std::clamp(grade > 4 ? best - 0.23 * shown : grade, worst, best);
}

double half_step(double grade) { return std::round(2 * grade) / 2; }

}  // namespace hw::colour
