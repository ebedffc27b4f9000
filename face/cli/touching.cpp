#include "face/cli/touching.hpp"

#include <algorithm>
#include <charconv>

#include "desk/words.hpp"
#include "edge/codec/codec.hpp"

namespace hw::cli {

namespace {

std::string padded(std::string text, std::size_t width) {
    while (text.size() < width) text += ' ';
    return text;
}

/// The number in front of or behind a word; nothing where there is none.
std::optional<double> figure(std::string_view text) {
    double value = 0;
    const auto [at, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    return fault == std::errc{} && at == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

std::string from_words(const Basis& b) { return b.source.empty() ? "" : "  [" + b.source + ", " + b.locator + "; " + std::string(desk::standing_words(b.standing)) + "]"; }

std::string stop_words(const desk::Stop& s) {
    std::string out = "Stop. " + s.headline + "\n";
    for (const auto& l : s.do_now) out += "  now:    " + l + "\n";
    for (const auto& l : s.never) out += "  never:  " + l + "\n";
    return out;
}

std::string number_words(const desk::Number& n) { return desk::to_band(n.value, n.plus_minus) + " ± " + desk::to_band(n.plus_minus, n.plus_minus) + " " + n.unit; }

}  // namespace

store::ChartSerialiser chart_as_json() {
    return {[](const desk::TouchCell& v) { return codec::written(v); }, codec::parse_touch_cell, [](const desk::Use& v) { return codec::written(v); }, codec::parse_use};
}

Result<desk::MeetRequest> meet_request(const std::vector<std::string>& words) {
    desk::MeetRequest out;
    for (const auto& w : words) {
        const auto colon = w.find(':');
        const std::string head = w.substr(0, colon);
        const auto behind = colon == std::string::npos ? std::nullopt : figure(std::string_view(w).substr(colon + 1));
        const bool hours = w.size() > 1 && w.back() == 'h' && figure(std::string_view(w).substr(0, w.size() - 1));
        if (head != "wiped" && head != "rinsed" && head != "dried" && !hours) {
            out.things.emplace_back();
            out.things.back().liquid.id = w;
            continue;
        }
        if (out.things.empty()) return Error{ErrorCode::InvalidInput, "\"" + w + "\" stands before any liquid. Say: meet ID rinsed:3 ID.", "things"};
        if (colon != std::string::npos && !behind) return Error{ErrorCode::InvalidInput, "\"" + w + "\" has no number behind its colon. Say rinsed:3, wiped:50 or dried:24.", "things"};
        desk::MeetThing& last = out.things.back();
        if (head == "wiped") last.wiped_pct = behind.value_or(50);
        else if (head == "rinsed") last.rinses = static_cast<int>(behind.value_or(1));
        else if (head == "dried") last.hours = behind.value_or(24);
        else last.hours = *figure(std::string_view(w).substr(0, w.size() - 1));
    }
    return out;
}

std::string text_of(const desk::TouchAnswer& a) {
    std::string out = a.sentence + "\nUsed like this: " + a.use_words + ".\n";
    std::size_t widest = 0;
    for (const auto& r : a.rows) widest = std::max(widest, r.name.size());
    for (std::size_t j = 0; j < a.columns.size(); ++j) {
        out += "\n" + a.columns[j].name + "\n";
        std::vector<const desk::TouchCell*> order;
        for (std::size_t i = 0; i < a.rows.size(); ++i) order.push_back(&a.cells[i * a.columns.size() + j]);
        std::stable_sort(order.begin(), order.end(), [](const desk::TouchCell* x, const desk::TouchCell* y) { return x->order < y->order; });
        for (const auto* c : order) {
            const auto row = std::find_if(a.rows.begin(), a.rows.end(), [&](const desk::TouchRow& r) { return r.id == c->liquid; });
            out += "  " + padded(row->name, widest) + "  ";
            if (c->state == desk::CellState::NotComputed) out += "not worked out yet\n";
            else out += c->words + (c->state == desk::CellState::Stale ? " (old: something changed)" : c->state == desk::CellState::Preliminary ? " (first look)" : "") + (c->answer_1 > 0 ? ", in " + desk::in_ten(c->answer_1) + " of the cases" : "") + "\n";
        }
    }
    for (const auto& l : a.left_out) out += "\nLeft out: " + l + "\n";
    out += "\n";
    for (const auto& c : a.cautions) out += c + "\n";
    return out;
}

std::string text_of(const desk::MeetAnswer& a) {
    std::string out = a.stop ? stop_words(*a.stop) : a.sentence + "\n";
    for (const auto& m : a.meetings) out += "  " + m.severity + ": " + (m.one == m.other ? m.one : m.one + " with " + m.other) + ". " + m.sentence + from_words(m.basis) + "\n";
    for (const auto& r : a.leather) out += "  leather: " + r.sentence + from_words(r.basis) + "\n";
    for (const auto& t : a.there) out += "  still there: " + t.name + ", " + desk::per_cent(t.left_pct / 100) + (t.counts ? ", counts" : ", no longer counts") + "\n";
    return out;
}

std::string text_of(const desk::ShelfMeetings& a) {
    std::string out = a.sentence + "\n";
    for (const auto& r : a.rules)
        out += "  " + r.severity + ": " + r.sentence + (r.from_unknown ? " (possibly: a bottle without a label)" : "") + from_words(r.basis) + "\n      " + desk::listed(r.ones) + "\n      with " + desk::listed(r.others) + "\n";
    if (!a.storage.empty()) out += "Where to keep them\n";
    for (const auto& s : a.storage) out += "  " + s.advice + " (" + desk::listed(s.liquids) + ")\n";
    return out;
}

std::string text_of(const desk::TitrateAnswer& a) {
    std::string out = a.sentence + "\n";
    if (!a.refused.empty()) return out;
    int n = 0;
    if (!a.counted)
        for (const auto& s : a.steps) out += "  " + std::to_string(++n) + ". " + s + "\n";
    for (const auto& s : a.never) out += "  never: " + s + "\n";
    if (!a.counted) return out;
    out += "  reserve              " + number_words(a.reserve) + "\n  as sodium hydroxide  " + number_words(a.as_naoh) + "\n";
    if (a.reserve_alkalinity) out += "  reserve alkalinity   " + number_words(*a.reserve_alkalinity) + " of 0.1 mol/L acid for 10 mL, to pH 5.5\n";
    if (a.by_composition) out += "  by the sheet         " + number_words(*a.by_composition) + "  " + a.against_sheet + "\n";
    for (const auto& s : a.shares) out += "  unsure by " + s.name + " (" + s.half + "): " + desk::per_cent(s.share_1) + "\n";
    for (const auto& r : a.reasons) out += "  " + r.sentence + from_words(r.basis) + "\n";
    return out;
}

}  // namespace hw::cli
