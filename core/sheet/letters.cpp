#include "core/sheet/letters.hpp"

#include <array>
#include <cmath>

namespace hw::sheet {

namespace {

/// The next code point of UTF-8; broken bytes are passed one at a time as U+FFFD.
char32_t next_point(std::string_view s, std::size_t& i) {
    const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
    const unsigned char c = byte(i);
    const std::size_t length = c < 0x80 ? 1 : c >= 0xF0 ? 4 : c >= 0xE0 ? 3 : c >= 0xC0 ? 2 : 0;
    if (length == 0 || i + length > s.size()) { ++i; return 0xFFFD; }
    char32_t point = length == 1 ? c : length == 2 ? c & 0x1FU : length == 3 ? c & 0x0FU : c & 0x07U;
    for (std::size_t k = 1; k < length; ++k) {
        if ((byte(i + k) & 0xC0U) != 0x80U) { ++i; return 0xFFFD; }
        point = (point << 6U) | (byte(i + k) & 0x3FU);
    }
    i += length;
    return point;
}

/// What a point is printed as in plain(); empty: it stays.
std::string_view opened(char32_t p, bool& dropped) {
    dropped = false;
    switch (p) {
        case 0xFB00: return "ff";
        case 0xFB01: return "fi";
        case 0xFB02: return "fl";
        case 0xFB03: return "ffi";
        case 0xFB04: return "ffl";
        case 0xFB05: case 0xFB06: return "st";
        case 0x2010: case 0x2011: case 0x2012: case 0x2013: case 0x2014: case 0x2015: case 0x2212: case 0xFE58: case 0xFE63: case 0xFF0D: return "-";
        case 0x2018: case 0x2019: case 0x201A: case 0x00B4: case 0x2032: case 0x02BC: return "'";
        case 0x201C: case 0x201D: case 0x201E: case 0x00AB: case 0x00BB: return "\"";
        case 0x2265: case 0x2A7E: case 0x2267: return ">=";
        case 0x2264: case 0x2A7D: case 0x2266: return "<=";
        case 0xFF1E: case 0x203A: return ">";
        case 0xFF1C: case 0x2039: return "<";
        case 0x2219: case 0x22C5: case 0x2027: return "\xC2\xB7";
        case 0x00B9: return "1";
        case 0x00B2: return "2";
        case 0x00B3: return "3";
        case 0x2026: return "...";
        case 0x2103: return "\xC2\xB0" "C";
        case 0x2109: return "\xC2\xB0" "F";
        case 0x00BA: case 0x02DA: case 0x1D52: return "\xC2\xB0";
        case 0x00A0: case 0x2000: case 0x2001: case 0x2002: case 0x2003: case 0x2004: case 0x2005: case 0x2006: case 0x2007:
        case 0x2008: case 0x2009: case 0x200A: case 0x202F: case 0x205F: case 0x3000: case '\t': case '\n': case '\r': return " ";
        case 0x00AD: case 0x200B: case 0x200C: case 0x200D: case 0xFEFF: dropped = true; return "";
        default: return "";
    }
}

/// U+00C0 to U+017F without accents; two letters where one stands for two.
std::string_view bare(char32_t p) {
    static constexpr std::array<std::string_view, 0x180 - 0xC0> letters{
        "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i", "i", "d", "n", "o", "o", "o", "o", "o", "x", "o", "u", "u", "u", "u", "y", "th", "ss",
        "a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i", "i", "d", "n", "o", "o", "o", "o", "o", "", "o", "u", "u", "u", "u", "y", "th", "y",
        "a", "a", "a", "a", "a", "a", "c", "c", "c", "c", "c", "c", "c", "c", "d", "d", "d", "d", "e", "e", "e", "e", "e", "e", "e", "e", "e", "e", "g", "g", "g", "g",
        "g", "g", "g", "g", "h", "h", "h", "h", "i", "i", "i", "i", "i", "i", "i", "i", "i", "i", "ij", "ij", "j", "j", "k", "k", "k", "l", "l", "l", "l", "l", "l", "l",
        "l", "l", "l", "n", "n", "n", "n", "n", "n", "n", "n", "n", "o", "o", "o", "o", "o", "o", "oe", "oe", "r", "r", "r", "r", "r", "r", "s", "s", "s", "s", "s", "s",
        "s", "s", "t", "t", "t", "t", "t", "t", "u", "u", "u", "u", "u", "u", "u", "u", "u", "u", "u", "u", "w", "w", "y", "y", "y", "z", "z", "z", "z", "z", "z", "s"};
    return p >= 0xC0 && p < 0x180 ? letters[p - 0xC0] : std::string_view{};
}

}  // namespace

std::string plain(std::string_view utf8) {
    std::string out;
    out.reserve(utf8.size());
    for (std::size_t i = 0; i < utf8.size();) {
        const std::size_t begin = i;
        bool dropped = false;
        const std::string_view other = opened(next_point(utf8, i), dropped);
        if (dropped) continue;
        if (other.empty()) out += utf8.substr(begin, i - begin);
        else out += other;
    }
    return out;
}

std::string fold(std::string_view utf8) {
    const std::string text = plain(utf8);
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const char32_t p = next_point(text, i);
        if (p < 0x80) out += p >= 'A' && p <= 'Z' ? static_cast<char>(p - 'A' + 'a') : static_cast<char>(p);
        else if (p == 0xB0) out += degree;
        else if (p == 0xB5 || p == 0x3BC) out += 'u';
        else out += bare(p);
    }
    return out;
}

std::string squeeze(std::string_view utf8) {
    std::string out;
    for (const char c : fold(utf8))
        if (is_letter(c) || is_digit(c) || c == '%' || c == '#') out += c;
    return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::optional<Number> next_number(std::string_view s, std::size_t from, Decimal decimal) {
    for (std::size_t i = from; i < s.size(); ++i) {
        if (!is_digit(s[i])) continue;
        Number n;
        n.begin = i;
        std::string digits;
        const char mark = decimal == Decimal::Point ? '.' : ',';
        bool past_mark = false;
        while (i < s.size()) {
            if (is_digit(s[i])) { digits += s[i++]; continue; }
            const bool sign = (s[i] == '.' || s[i] == ',') && i + 1 < s.size() && is_digit(s[i + 1]);
            if (!sign || past_mark) break;
            std::size_t run = 0;
            while (i + 1 + run < s.size() && is_digit(s[i + 1 + run])) ++run;
            const bool thousands = run == 3 && s[i] != mark && digits.size() <= 3 && digits != "0" && digits != "00";
            if (!thousands) { digits += '.'; past_mark = true; }
            ++i;
        }
        n.end = i;
        n.value = std::stod(digits);
        if (n.begin > 0 && s[n.begin - 1] == '-') {
            std::size_t k = n.begin - 1;
            while (k > 0 && s[k - 1] == ' ') --k;
            if (k == 0 || s[k - 1] == '(' || s[k - 1] == '<' || s[k - 1] == '>' || s[k - 1] == '=' || s[k - 1] == ':') n.value = -n.value;
        }
        return n;
    }
    return std::nullopt;
}

std::vector<std::string_view> split(std::string_view list, char separator) {
    std::vector<std::string_view> out;
    for (std::size_t at = 0; at <= list.size();) {
        std::size_t end = list.find(separator, at);
        if (end == std::string_view::npos) end = list.size();
        if (end > at) out.push_back(list.substr(at, end - at));
        at = end + 1;
    }
    return out;
}

std::size_t find_word(std::string_view s, std::string_view word, std::size_t from) {
    const auto alone = [&](std::size_t at) { return at >= s.size() || !(is_letter(s[at]) || is_digit(s[at])); };
    if (word.empty()) return std::string_view::npos;
    for (std::size_t at = s.find(word, from); at != std::string_view::npos; at = s.find(word, at + 1)) {
        const bool open_left = !is_letter(word.front()) && !is_digit(word.front());
        const bool open_right = !is_letter(word.back()) && !is_digit(word.back());
        if ((open_left || at == 0 || alone(at - 1)) && (open_right || alone(at + word.size()))) return at;
    }
    return std::string_view::npos;
}

}  // namespace hw::sheet
