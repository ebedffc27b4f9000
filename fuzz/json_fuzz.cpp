// Any bytes as a request: refused with a sentence, or read so that writing and reading again gives the same text.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "edge/codec/codec.hpp"

namespace {

void demand(bool promise) {
    if (!promise) std::abort();
}

template <class Parse>
void try_one(std::string_view text, const Parse& parse) {
    const auto first = parse(text);
    if (!first.ok()) {
        demand(!first.error().message.empty());
        return;
    }
    const std::string written = hw::codec::written(*first);
    const auto second = parse(written);
    demand(second.ok() && hw::codec::written(*second) == written);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    try_one(text, hw::codec::parse_judge_request);
    try_one(text, hw::codec::parse_analyse_request);
    try_one(text, hw::codec::parse_liquid);
    try_one(text, hw::codec::parse_leather);
    try_one(text, hw::codec::parse_inspect_request);
    try_one(text, hw::codec::parse_calibration);
    return 0;
}
