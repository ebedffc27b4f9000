// A check against a number printed by somebody else. It asserts, and it leaves a row for docs/reference/validation.md.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <set>
#include <string>

namespace hw::test {

enum class Known { No, Deviation };

namespace detail {
inline std::string csv(const std::string& text) {
    std::string out = "\"";
    for (char c : text) { if (c == '"') out += '"'; out += c; }
    return out + '"';
}
/// A value to a hundredth of the tolerance: what lies below is noise of the processor and would make the report unstable.
inline std::string digits(double value, double tolerance) {
    const double grain = tolerance > 0 ? std::pow(10.0, std::floor(std::log10(tolerance)) - 2) : 0;
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.6g", grain > 0 ? std::round(value / grain) * grain : value);
    return buffer;
}
inline std::string two_digits(double value) {
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.2g", value);
    return buffer;
}
}  // namespace detail

/// Asserts |got - expected| <= tolerance and records the row.
///
/// @param claim      what is claimed, a short noun phrase ("phthalate standard, 25 degC, pH")
/// @param source     key in atlas/sources.csv; `locator` the table or equation
/// @param tolerance  half a unit of the last printed digit or the source's stated uncertainty, plus a named model error
/// @param reason     in words where the tolerance comes from
/// @param known      Deviation: a printed row that the model misses. It is recorded with the size of its miss, and the
///                   test fails if it does NOT miss any more (so that the list stays true).
inline void check(const std::string& claim, const std::string& source, const std::string& locator, double expected,
                  double got, double tolerance, const std::string& reason, Known known = Known::No) {
    const double miss = std::abs(got - expected);
    const bool inside = miss <= tolerance;
    if (known == Known::No)
        EXPECT_LE(miss, tolerance) << claim << ": expected " << expected << ", got " << got << " [" << source << ", "
                                   << locator << "]; tolerance: " << reason;
    else
        EXPECT_GT(miss, tolerance) << claim << " is listed as a known deviation but is met now; move it back ["
                                   << source << ", " << locator << "]";
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    const char* folder = std::getenv("HW_VALIDATION_DIR");
    if (folder == nullptr) return;
    // One file per test: ctest may run tests in parallel. The first row of a run replaces the file of an earlier run.
    std::string name = std::string(info->test_suite_name()) + "." + info->name() + ".csv";
    for (char& c : name)
        if (c == '/') c = '-';  // suites of rows carry a slash
    static std::set<std::string> begun;
    std::ofstream out(std::string(folder) + "/" + name, begun.insert(name).second ? std::ios::trunc : std::ios::app);
    EXPECT_TRUE(out.good()) << "no row could be left in " << folder;
    out << info->test_suite_name() << ',' << detail::csv(claim) << ',' << source << ',' << detail::csv(locator) << ','
        << detail::digits(expected, tolerance) << ',' << detail::digits(got, tolerance) << ',' << detail::two_digits(tolerance) << ','
        << detail::csv(reason) << ',' << (known == Known::Deviation ? "known deviation" : inside ? "met" : "MISSED") << '\n';
}

}  // namespace hw::test
