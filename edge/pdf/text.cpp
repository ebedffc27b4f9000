#include "edge/pdf/text.hpp"

#include <glib.h>

#include <array>
#include <memory>

namespace hw::pdf {

namespace {

constexpr std::string_view no_break_space = "\u00a0";

bool is_mark(gunichar c) {
    const auto type = g_unichar_type(c);
    return type == G_UNICODE_NON_SPACING_MARK || type == G_UNICODE_ENCLOSING_MARK || type == G_UNICODE_SPACING_MARK;
}

bool is_left_out(gunichar c) {
    const auto type = g_unichar_type(c);
    return type == G_UNICODE_CONTROL || type == G_UNICODE_FORMAT || type == G_UNICODE_SURROGATE || type == G_UNICODE_PRIVATE_USE || type == G_UNICODE_UNASSIGNED;
}

void append(std::string& out, gunichar c) {
    std::array<char, 6> bytes{};
    out.append(bytes.data(), static_cast<std::size_t>(g_unichar_to_utf8(c, bytes.data())));
}

bool digit(char c) { return c >= '0' && c <= '9'; }

/// Whether a unit begins here and ends at a word's end.
bool unit_at(std::string_view rest) {
    for (std::string_view unit : {"%", "°C", "µm", "mm", "cm²", "mg/L", "mg", "mL", "g/m²", "g", "h", "s", "min", "days", "day", "mmol/m²", "mmol/kg", "mmol", "mol/kg", "m/s", "sprays", "spray", "wipes", "wipe", "µmol/g"}) {
        if (rest.substr(0, unit.size()) != unit) continue;
        const char after = rest.size() > unit.size() ? rest[unit.size()] : ' ';
        if (!g_ascii_isalnum(after) && (static_cast<unsigned char>(after) & 0x80) == 0) return true;
    }
    return false;
}

bool ends_with(std::string_view text, std::string_view tail) { return text.size() >= tail.size() && text.substr(text.size() - tail.size()) == tail; }

}  // namespace

std::string fit(std::string_view text, std::size_t most) {
    constexpr int marks_on_a_letter = 2;
    const std::unique_ptr<char, decltype(&g_free)> valid(g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())), &g_free);
    std::string out;
    std::size_t length = 0;
    int marks = 0;
    bool space = false;
    for (const char* at = valid.get(); *at != 0; at = g_utf8_next_char(at)) {
        const gunichar c = g_utf8_get_char(at);
        constexpr gunichar hard_space = 0xa0, narrow_space = 0x202f;
        if (g_unichar_isspace(c) && c != hard_space && c != narrow_space) { space = !out.empty(); continue; }
        if (is_left_out(c)) continue;
        marks = is_mark(c) ? marks + 1 : 0;
        if (marks > marks_on_a_letter) continue;
        if (length + (space ? 1 : 0) >= most) return out + "…";
        if (space) { out += ' '; ++length; }
        space = false;
        append(out, c);
        ++length;
    }
    return out;
}

std::string glued(std::string text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != ' ' || i == 0 || i + 1 == text.size()) { out += text[i]; continue; }
        const std::string_view rest = std::string_view(text).substr(i + 1);
        const bool number = digit(text[i - 1]);
        const bool joined = (number && (unit_at(rest) || rest.substr(0, 2) == "±")) || ends_with(out, "±") || (ends_with(out, "pH") && digit(rest[0]));
        out += joined ? no_break_space : std::string_view(" ");
    }
    return out;
}

std::vector<std::pair<std::size_t, std::size_t>> whole_units(const std::string& text) {
    constexpr std::size_t longest = 24;
    std::vector<std::pair<std::size_t, std::size_t>> out;
    for (std::size_t stroke = text.find('/'); stroke != std::string::npos; stroke = text.find('/', stroke + 1)) {
        const auto before = text.rfind(' ', stroke), after = text.find(' ', stroke);
        const std::size_t from = before == std::string::npos ? 0 : before + 1, to = after == std::string::npos ? text.size() : after;
        if (to - from <= longest) out.emplace_back(from, to);
    }
    return out;
}

}  // namespace hw::pdf
