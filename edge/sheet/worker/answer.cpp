#include "edge/sheet/worker/answer.hpp"

#include <unistd.h>

#include <cstring>

namespace hw::sheet_reader {

namespace {

void pour(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t n = ::write(1, bytes.data(), bytes.size());
        if (n <= 0) ::_exit(1);
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
}

[[noreturn]] void send(Refusal refusal, std::uint32_t pages, std::uint32_t attachments, std::string_view body) {
    AnswerHead head{};
    std::memcpy(head.mark, answer_mark.data(), sizeof head.mark);
    head.refusal = static_cast<std::uint32_t>(refusal);
    head.pages = pages;
    head.attachments = attachments;
    head.body_bytes = static_cast<std::uint32_t>(body.size());
    pour({reinterpret_cast<const char*>(&head), sizeof head});
    pour(body);
    ::_exit(0);
}

}  // namespace

void answer(std::uint32_t pages, std::uint32_t attachments, std::string_view body) { send(Refusal::None, pages, attachments, body); }
void refuse(Refusal refusal, std::uint32_t pages) { send(refusal, pages, 0, {}); }

}  // namespace hw::sheet_reader
