#include "desk/next_step.hpp"

#include "atlas/bench_tests.hpp"
#include "base/result.hpp"
#include "desk/rules.hpp"

namespace hw::desk {

NextTest test_named(std::string_view name) {
    for (const auto& row : atlas::bench_tests)
        if (row.key == name) return {std::string(row.plain_name), static_cast<int>(row.minutes_n), std::string(row.settles), std::string(row.how)};
    throw Bug("no bench test " + std::string(name));
}

bool is_settled(double share_1) { return 100 * share_1 >= threshold("settled").limit_pct; }

bool cannot_be_told(const Sure& sure) { return sure.members > 0 && sure.answer_1 < 0.5; }

NextTest next_test(const Sure& sure) {
    if (!is_settled(sure.answer_1))
        for (const auto& i : sure.influences)
            if (!i.settled_by.empty() && i.share_1 > 2 * i.plus_minus_1) return test_named(i.settled_by);
    return test_named("Hidden spot");
}

}  // namespace hw::desk
