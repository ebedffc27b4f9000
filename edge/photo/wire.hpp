// What the child answers through its pipe: one block of fixed form, then the two copies.
#pragma once

#include <cstdint>
#include <string_view>

namespace hw::photo {

/// Why the child could not read the file. The parent has the words.
enum class Refusal : std::uint32_t { None, Damaged, CutShort, TooManyPixels, PrintColours, NoMemory, NotLockedIn };

struct AnswerHead {
    char mark[4];               ///< "HWP1"
    std::uint32_t refusal;
    std::uint32_t width_px, height_px;  ///< after orientation
    std::uint32_t orientation;
    char taken_at[20];          ///< "2024-05-17T10:11:12" or empty, filled up with zeros
    std::uint32_t screen_bytes, small_bytes;
};
static_assert(sizeof(AnswerHead) == 48);

inline constexpr std::string_view answer_mark = "HWP1";
/// No copy is larger: a 1600 × 1600 picture of pure noise stays below.
inline constexpr std::uint32_t copy_bytes_limit = 8'000'000;

}  // namespace hw::photo
