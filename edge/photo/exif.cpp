#include "edge/photo/exif.hpp"

#include <cstdint>
#include <optional>

namespace hw::photo {

namespace {

constexpr std::uint32_t tag_orientation = 0x0112, tag_exif = 0x8769, tag_taken = 0x9003;
constexpr std::uint32_t type_ascii = 2, type_short = 3, type_long = 4, entry_size = 12, entries_limit = 512, date_size = 19;

/// The bytes, read in the order that the file states; nothing beyond their end.
class Tiff {
public:
    explicit Tiff(std::string_view bytes) : bytes_(bytes), big_(bytes.substr(0, 2) == "MM") {}

    [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
        if (at > bytes_.size() || bytes_.size() - at < size) return std::nullopt;
        std::uint32_t out = 0;
        for (std::size_t i = 0; i < size; ++i) out = out << 8 | static_cast<unsigned char>(bytes_[at + (big_ ? i : size - 1 - i)]);
        return out;
    }
    [[nodiscard]] std::string_view text(std::size_t at, std::size_t size) const {
        return at > bytes_.size() || bytes_.size() - at < size ? std::string_view{} : bytes_.substr(at, size);
    }
    /// Where the entry of a tag stands in a directory.
    [[nodiscard]] std::optional<std::size_t> entry(std::size_t directory, std::uint32_t tag) const {
        const auto count = number(directory, 2);
        if (!count || *count > entries_limit) return std::nullopt;
        for (std::size_t at = directory + 2, end = at + *count * entry_size; at < end; at += entry_size) {
            const auto found = number(at, 2);
            if (!found) return std::nullopt;
            if (*found == tag) return at;
        }
        return std::nullopt;
    }
    [[nodiscard]] bool is(std::size_t entry_at, std::uint32_t type, std::uint32_t count) const { return number(entry_at + 2, 2) == type && number(entry_at + 4, 4) == count; }

private:
    std::string_view bytes_;
    bool big_;
};

int digits(std::string_view text, std::size_t at, std::size_t count) {
    int out = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9') return -1;
        out = out * 10 + (text[i] - '0');
    }
    return out;
}

int days_of(int month, int year) {
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return days[month - 1] + (month == 2 && leap ? 1 : 0);
}

bool within(int value, int least, int most) { return value >= least && value <= most; }

}  // namespace

std::string iso_date(std::string_view t) {
    if (t.size() != date_size || t[4] != ':' || t[7] != ':' || t[10] != ' ' || t[13] != ':' || t[16] != ':') return {};
    const int year = digits(t, 0, 4), month = digits(t, 5, 2), day = digits(t, 8, 2);
    if (year < 1 || !within(month, 1, 12) || !within(day, 1, days_of(month, year))) return {};
    if (!within(digits(t, 11, 2), 0, 23) || !within(digits(t, 14, 2), 0, 59) || !within(digits(t, 17, 2), 0, 59)) return {};
    std::string out(t);
    out[4] = out[7] = '-';
    out[10] = 'T';
    return out;
}

Exif parse_exif(std::string_view bytes) {
    Exif out;
    const Tiff tiff(bytes);
    if ((bytes.substr(0, 2) != "II" && bytes.substr(0, 2) != "MM") || tiff.number(2, 2) != 42u) return out;
    const auto first = tiff.number(4, 4);
    if (!first) return out;
    if (const auto at = tiff.entry(*first, tag_orientation); at && tiff.is(*at, type_short, 1)) {
        const auto value = tiff.number(*at + 8, 2);
        if (value && *value >= 1 && *value <= 8) out.orientation = static_cast<int>(*value);
    }
    const auto pointer = tiff.entry(*first, tag_exif);
    if (!pointer || !tiff.is(*pointer, type_long, 1)) return out;
    const auto second = tiff.number(*pointer + 8, 4);
    if (!second) return out;
    if (const auto at = tiff.entry(*second, tag_taken); at && tiff.is(*at, type_ascii, date_size + 1)) {
        const auto where = tiff.number(*at + 8, 4);
        if (where) out.taken_at = iso_date(tiff.text(*where, date_size));
    }
    return out;
}

}  // namespace hw::photo
