// What the reader of data sheets answers through its pipe: a head of fixed form, then the body. Shared by both programs.
//
//   words: for each page  f64 width, f64 height, u32 words; for each word  f32 x0 y0 x1 y1 size, u8 bold, u8 quarters, u16 length, UTF-8
//          then for each attachment  u16 length of the name, name, u32 length, bytes
//   page:  the bytes of a PNG
// Numbers as this machine holds them: both programs run on it.
#pragma once

#include <cstdint>
#include <string_view>

namespace hw::sheet_reader {

/// Why nothing was read. The caller has the words.
enum class Refusal : std::uint32_t { None, Damaged, Locked, TooManyPages, TooManyWords, NoSuchPage, NoMemory, NotLockedIn };

struct AnswerHead {
    char mark[4];               ///< "HWS1"
    std::uint32_t refusal;
    std::uint32_t pages;        ///< of the whole document, also with TooManyPages
    std::uint32_t attachments;
    std::uint32_t body_bytes;
};
static_assert(sizeof(AnswerHead) == 20);

inline constexpr std::string_view answer_mark = "HWS1";
inline constexpr std::uint32_t pages_limit = 60;
inline constexpr std::uint32_t words_limit = 200'000;
inline constexpr std::uint32_t word_bytes_limit = 2'000;
inline constexpr std::uint32_t attachments_limit = 4;
inline constexpr std::uint32_t attachment_bytes_limit = 4'000'000;
inline constexpr std::uint32_t body_bytes_limit = 40'000'000;
/// No side of a picture is longer.
inline constexpr std::uint32_t picture_px_limit = 3'000;

inline constexpr std::string_view words_verb = "words";
inline constexpr std::string_view page_verb = "page";

}  // namespace hw::sheet_reader
