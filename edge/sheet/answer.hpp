// The answer of the worker, checked: it has read foreign bytes and is believed no more than they are.
#pragma once

#include <optional>
#include <string_view>

#include "desk/ports.hpp"
#include "edge/sheet/wire.hpp"

namespace hw::sheet_reader {

/// The head, when every figure in it can be true and the body is as long as it says.
std::optional<AnswerHead> head_of(std::string_view answer);

/// The words and attachments of a body; nothing when it is not whole, too long, or not text.
std::optional<desk::SheetContent> parse_words(const AnswerHead& head, std::string_view body);

/// Whether it begins as a PNG and says a size that was asked for.
bool is_picture(std::string_view body);

}  // namespace hw::sheet_reader
