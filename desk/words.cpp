#include "desk/words.hpp"

#include "base/result.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <utility>

namespace hw::desk {

std::string fixed(double value, int decimals) {
    char text[64];
    if (std::abs(value) < 0.5 * std::pow(10.0, -decimals)) value = 0;
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

std::string to_band(double value, double plus_minus) {
    if (!(plus_minus > 0)) return fixed(value, value == std::round(value) ? 0 : 2);
    return fixed(value, std::clamp(static_cast<int>(std::ceil(-std::log10(plus_minus) - 1e-9)), 0, 4));
}

std::string span(double seconds) {
    if (seconds < 90) return fixed(seconds, 0) + " s";
    if (seconds < 5400) return fixed(seconds / 60, 0) + " min";
    if (seconds < 2 * 86400) return fixed(seconds / 3600, 0) + " h";
    return fixed(seconds / 86400, 0) + " days";
}

Number number(double value, double plus_minus, std::string unit, Standing standing, std::string band_from) {
    return {value, plus_minus, std::move(unit), standing, std::move(band_from)};
}

std::string in_ten(double share) {
    if (share >= 0.995) return "practically all";
    if (share >= 0.95) return "more than 19 in 20";
    if (share < 0.005) return "next to none";
    if (share < 0.05) return "fewer than 1 in 20";
    return "about " + fixed(std::clamp(std::round(10 * share), 1.0, 9.0), 0) + " in 10";
}

std::string per_cent(double share) {
    if (share <= 0) return "0 %";
    if (share >= 1) return "100 %";
    if (share < 0.001) return "under 0.1 %";
    if (share > 0.999) return "over 99.9 %";
    return fixed(100 * share, share < 0.0095 || share > 0.9905 ? 1 : 0) + " %";
}

std::string_view standing_words(Standing standing) {
    switch (standing) {
        case Standing::Published: return "published";
        case Standing::CommonPractice: return "trade custom, no source";
        case Standing::FromMemory: return "recalled, not re-read";
        case Standing::Derived: return "worked out";
        case Standing::Estimate: return "estimate";
        case Standing::Measured: return "measured";
        case Standing::Invented: return "invented for the demo";
    }
    throw Bug("a standing without words");
}

std::string times_words(double factor) {
    const double grain = std::pow(10.0, std::floor(std::log10(factor))), one = std::round(factor / grain) * grain;
    for (const auto& [size, word] : {std::pair{1e9, " thousand million"}, {1e6, " million"}, {1e3, " thousand"}})
        if (one >= size) return fixed(one / size, 0) + word;
    return fixed(one, one < 1 ? 1 : 0);
}

std::string_view grade_word(Grade grade) {
    switch (grade) {
        case Grade::StaysWithin: return "stays within";
        case Grade::ComesBack: return "comes back";
        case Grade::Lasting: return "lasts";
        case Grade::Deep: return "goes deep";
        case Grade::Unknown: return "not known";
        case Grade::Stop: return "stop";
    }
    throw Bug("a grade without a word");
}

std::string_view grade_alone(Grade grade) {
    switch (grade) {
        case Grade::StaysWithin: return "no limit passed";
        case Grade::ComesBack: return "past a limit for a while";
        case Grade::Lasting: return "past a limit, lasting";
        case Grade::Deep: return "past a limit, deep down";
        case Grade::Unknown:
        case Grade::Stop: return grade_word(grade);
    }
    throw Bug("a grade without words");
}

std::string grade_alone(const Harm& harm) {
    const bool others_pass = harm.grade == Grade::StaysWithin && harm.chance_1.value_or(0) > 0;
    return std::string(grade_alone(harm.grade)) + (others_pass ? " in most cases" : "");
}

std::string listed(const std::vector<std::string>& items, std::size_t most) {
    std::string out;
    for (std::size_t i = 0; i < std::min(items.size(), most); ++i) out += (i == 0 ? "" : ", ") + items[i];
    return items.size() > most ? out + " and " + std::to_string(items.size() - most) + " more" : out;
}

std::string as_clause(std::string sentence) {
    if (!sentence.empty()) sentence[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(sentence[0])));
    if (!sentence.empty() && sentence.back() == '.') sentence.pop_back();
    return sentence;
}

}  // namespace hw::desk
