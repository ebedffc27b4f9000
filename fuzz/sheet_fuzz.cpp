// Any bytes as what the worker of the data sheets answers, and as XML: each is taken whole or refused, never a read beyond the end.
// The first byte says which: 'X' XML, 'P' the picture of a page, anything else an answer.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string_view>

#include "edge/sheet/answer.hpp"
#include "edge/sheet/sdscom.hpp"
#include "edge/sheet/xml.hpp"

namespace {

using namespace hw;

void as_xml(std::string_view bytes) {
    const auto root = sheet_reader::parse_xml(bytes);
    if (!root.ok()) return;
    if (root->name.empty()) std::abort();
    const auto facts = sheet_reader::sdscom_facts(*root);
    if (!facts) return;
    for (const auto& i : facts->ingredients)
        if (i.name.value.empty() || (i.cas && !sheet::cas_is_right(i.cas->value))) std::abort();
}

void as_answer(std::string_view bytes) {
    const auto head = sheet_reader::head_of(bytes);
    if (!head) return;
    const auto content = sheet_reader::parse_words(*head, bytes.substr(sizeof(sheet_reader::AnswerHead)));
    if (!content) return;
    if (content->document.pages.size() != head->pages) std::abort();
    for (const auto& page : content->document.pages)
        for (const auto& w : page.words)
            if (!std::isfinite(w.x0) || !std::isfinite(w.y1) || w.text.empty()) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    // A copy of its own, so that a sanitizer sees every byte read beyond it.
    const auto copy = std::make_unique<char[]>(size);
    for (std::size_t i = 0; i < size; ++i) copy[i] = static_cast<char>(data[i]);
    const std::string_view bytes(copy.get() + 1, size - 1);
    if (copy[0] == 'X') as_xml(bytes);
    else if (copy[0] == 'P') static_cast<void>(sheet_reader::is_picture(bytes));
    else as_answer(bytes);
    return 0;
}
