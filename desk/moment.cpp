#include "desk/moment.hpp"

#include <chrono>
#include <cstdio>

namespace hw::desk {

namespace {

/// Digits at a place of a text; -1 when there are none.
int digits(std::string_view text, std::size_t at, std::size_t count) {
    if (text.size() < at + count) return -1;
    int out = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9') return -1;
        out = 10 * out + (text[i] - '0');
    }
    return out;
}

}  // namespace

std::optional<std::int64_t> parse_moment(std::string_view text) {
    constexpr std::size_t date = 10, whole = 20;
    const int year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
    if (year < 1 || month < 0 || day < 0 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const std::chrono::year_month_day ymd{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)), std::chrono::day(static_cast<unsigned>(day))};
    if (!ymd.ok()) return std::nullopt;
    const std::int64_t midnight = std::chrono::duration_cast<std::chrono::seconds>(std::chrono::sys_days(ymd).time_since_epoch()).count();
    if (text.size() == date) return midnight;
    const int hour = digits(text, 11, 2), minute = digits(text, 14, 2), second = digits(text, 17, 2);
    if (text.size() < whole || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text.back() != 'Z') return std::nullopt;
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 60) return std::nullopt;
    if (text.size() > whole && (text[19] != '.' || digits(text, 20, text.size() - 21) < 0 || text.size() == whole + 1 || text.size() > whole + 7)) return std::nullopt;
    return midnight + 3600 * hour + 60 * minute + second;
}

std::string moment(std::int64_t seconds) {
    const auto days = std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(std::chrono::seconds(seconds)));
    const std::chrono::year_month_day ymd(days);
    const std::int64_t rest = seconds - std::chrono::duration_cast<std::chrono::seconds>(days.time_since_epoch()).count();
    char text[64];
    std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02dZ", static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()),
                  static_cast<int>(rest / 3600), static_cast<int>(rest / 60 % 60), static_cast<int>(rest % 60));
    return text;
}

std::string moment_words(std::string_view at) {
    constexpr std::size_t date = 10, minutes = 16;
    if (at.size() < minutes) return std::string(at);
    return std::string(at.substr(0, date)) + " " + std::string(at.substr(date + 1, minutes - date - 1));
}

}  // namespace hw::desk
