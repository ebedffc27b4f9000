#include "face/cli/damage.hpp"

#include <charconv>
#include <optional>

namespace hw::cli {

namespace {

std::optional<double> number_in(const std::string& text) {
    double out = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), out);
    if (fault != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return out;
}

}  // namespace

Result<Done> add_typed(const DamageTyped& typed, desk::DiagnoseRequest& request) {
    for (const auto& s : typed.saw) {
        const auto cut = s.find('=');
        const std::string word = cut == std::string::npos ? "yes" : s.substr(cut + 1);
        if (word != "yes" && word != "no") return Error{ErrorCode::InvalidInput, "Give a sign as \"tacky\", or \"tacky=no\" where it was looked for and is not there.", "saw"};
        request.saw.push_back({s.substr(0, cut), word == "yes" ? desk::Saw::There : desk::Saw::NotThere});
    }
    for (const auto& r : typed.read) {
        const auto cut = r.find('=');
        const auto bar = r.find('/');
        const auto value = cut == std::string::npos ? std::nullopt : number_in(r.substr(cut + 1, bar == std::string::npos ? bar : bar - cut - 1));
        const auto control = bar == std::string::npos ? std::nullopt : number_in(r.substr(bar + 1));
        if (!value || (bar != std::string::npos && !control)) return Error{ErrorCode::InvalidInput, "Give a reading as \"surface_ph=8.9/5.1\": on the damage, then on a sheltered place.", "read"};
        request.readings.push_back({r.substr(0, cut), *value, control});
    }
    if (!typed.covering.empty()) request.covering = {{typed.covering, 1}};
    if (!typed.tannage.empty()) request.tannage = typed.tannage;
    if (!typed.piece.empty()) request.piece = typed.piece;
    if (!typed.panel.empty()) request.panels = {typed.panel};
    return Done{};
}

std::string signs_text() {
    std::string out, group;
    for (const auto& s : desk::damage_signs()) {
        if (s.group != group) out += (out.empty() ? "" : "\n") + s.group + "\n";
        group = s.group;
        out += "  " + s.key + std::string(s.key.size() < 16 ? 16 - s.key.size() : 1, ' ') + s.question + "\n";
    }
    return out;
}

}  // namespace hw::cli
