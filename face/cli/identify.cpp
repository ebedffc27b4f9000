#include "face/cli/identify.hpp"

#include <utility>

#include "edge/codec/codec.hpp"

namespace hw::cli {

namespace {

Result<std::pair<std::string, std::string>> cut(const std::string& text, const std::string& where) {
    const auto at = text.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == text.size()) return Error{ErrorCode::InvalidInput, "Write it as WORD=WORD, for example drop=under_10_s.", where};
    return std::pair{text.substr(0, at), text.substr(at + 1)};
}

}  // namespace

store::ProofSerialiser proofs_as_json() {
    return {[](const desk::Proven& v) { return codec::written(v); }, codec::parse_proven};
}

Result<desk::IdentifyRequest> identify_typed(desk::IdentifyRequest r, const IdentifyTyped& typed) {
    for (const auto& text : typed.saw) {
        HW_TRY(parts, cut(text, "saw"));
        desk::CoverSaw saw{parts.first, {}, ""};
        for (std::string rest = parts.second;;) {
            const auto comma = rest.find(',');
            saw.answers.push_back(rest.substr(0, comma));
            if (comma == std::string::npos) break;
            rest = rest.substr(comma + 1);
        }
        r.saw.push_back(std::move(saw));
    }
    r.cannot.insert(r.cannot.end(), typed.cannot.begin(), typed.cannot.end());
    const auto over = [](std::string& into, const std::string& typed_text) { if (!typed_text.empty()) into = typed_text; };
    over(r.piece, typed.piece);
    over(r.panel, typed.panel);
    over(r.place, typed.place);
    over(r.age, typed.age);
    over(r.region, typed.region);
    if (!typed.proven.empty()) {
        HW_TRY(parts, cut(typed.proven, "proven"));
        r.proven = desk::Proven{};
        r.proven->kind = parts.first;
        r.proven->proof = parts.second;
    }
    r.write = r.write || typed.keep;
    return r;
}

}  // namespace hw::cli
