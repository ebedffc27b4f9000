#include "desk/meters.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/meter_limits.hpp"
#include "core/chem/electrode.hpp"
#include "desk/moment.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

const atlas::MeterLimitsRow& limit(std::string_view key) {
    for (const auto& row : atlas::meter_limits)
        if (row.key == key) return row;
    throw Bug("no meter limit " + std::string(key));
}

Basis basis_of(std::string_view key, std::string inputs) {
    const auto& row = limit(key);
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

constexpr std::int64_t hour_s = 3600;

std::string join(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& p : parts) out += (out.empty() ? "" : " ") + p;
    return out;
}

void look_at_buffers(const Calibration& c, std::int64_t at, MeterCheck& m) {
    for (const auto& b : c.buffers) {
        if (b.expires.empty()) continue;
        const auto expires = parse_moment(b.expires);
        if (expires && *expires + 24 * hour_s <= at) {
            m.good = false;
            m.reasons.push_back({"buffer_expired", "The buffer of pH " + fixed(b.printed_ph, 2) + " was past its date, " + b.expires + ".", "decides", basis_of("valid_for", b.lot)});
        }
    }
}

/// One buffer: how far the meter has moved since it was calibrated.
void look_at_drift(const Calibration& c, MeterCheck& m) {
    const Buffer& b = c.buffers.front();
    const double shown = c.in_mv ? 7 - b.read / chem::nernst_slope_mv(c.water_c) : b.read, off = shown - b.printed_ph;
    m.drift = number(off, 0.01, "pH", Standing::Measured, "last digit of the meter");
    m.good = std::abs(off) <= limit("drift_most").limit_ph;
    m.reasons.push_back({m.good ? "holds" : "drifted", "Shows " + fixed(shown, 2) + " in a buffer of " + fixed(b.printed_ph, 2) + ".", "decides", basis_of("drift_most", fixed(off, 2))});
}

Result<Done> look_at_slope(const Calibration& c, MeterCheck& m) {
    HW_TRY(e, chem::electrode({c.buffers[0].printed_ph, c.buffers[0].read}, {c.buffers[1].printed_ph, c.buffers[1].read}, c.in_mv, c.water_c, limit("buffers_apart").limit_ph));
    // Each reading may lie half of its last digit off: 0.01 pH between two of them.
    const double apart = std::abs(c.buffers[0].printed_ph - c.buffers[1].printed_ph);
    m.slope = number(e.slope_pct, 100 * 0.01 / apart, "%", Standing::Measured, "last digit of the meter");
    m.zero = number(e.zero_ph, 0.01, "pH", Standing::Measured, "last digit of the meter");
    m.good = e.slope_pct >= limit("slope_least").limit_pct && e.slope_pct <= limit("slope_most").limit_pct && std::abs(e.zero_ph) <= limit("zero_most").limit_ph;
    const std::string slope = fixed(e.slope_pct, 0) + " % of the ideal slope";
    if (e.slope_pct < limit("slope_least").limit_pct) m.reasons.push_back({"slope_low", "Only " + slope + ": clean the electrode and soak it, else replace it.", "decides", basis_of("slope_least", slope)});
    else if (e.slope_pct > limit("slope_most").limit_pct) m.reasons.push_back({"slope_high", slope + ": more than an electrode can give. Check which buffer was which, and that they are fresh.", "decides", basis_of("slope_most", slope)});
    else if (e.slope_pct < limit("slope_good").limit_pct) m.reasons.push_back({"slope_tired", slope + ": it still serves, but wants cleaning.", "caution", basis_of("slope_good", slope)});
    if (std::abs(e.zero_ph) > limit("zero_most").limit_ph) m.reasons.push_back({"zero_off", "The zero point lies " + fixed(e.zero_ph, 2) + " pH off: clean or replace the electrode.", "decides", basis_of("zero_most", fixed(e.zero_ph, 2))});
    return Done{};
}

}  // namespace

Result<MeterCheck> check_of(const Calibration& c) {
    if (const auto bad = out_of_range(c)) return *bad;
    if (c.buffers.empty() || c.buffers.size() > 2) return Error{ErrorCode::InvalidInput, "Give two buffers to calibrate, or one to check.", "buffers"};
    const auto at = parse_moment(c.at);
    if (!at) return Error{ErrorCode::InvalidInput, "Write the time as 2026-01-02T03:04:05Z.", "at"};
    for (std::size_t i = 0; i < c.buffers.size(); ++i)
        if (!c.buffers[i].expires.empty() && !parse_moment(c.buffers[i].expires)) return Error{ErrorCode::InvalidInput, "Write the date as 2026-01-02.", "buffers[" + std::to_string(i) + "].expires"};
    MeterCheck m;
    m.id = c.id;
    m.instrument = c.instrument;
    m.at = c.at;
    const auto [low, high] = std::minmax_element(c.buffers.begin(), c.buffers.end(), [](const Buffer& a, const Buffer& b) { return a.printed_ph < b.printed_ph; });
    m.from_ph = low->printed_ph;
    m.to_ph = high->printed_ph;
    if (c.buffers.size() == 1) look_at_drift(c, m);
    else {
        HW_TRY(done, look_at_slope(c, m));
        static_cast<void>(done);
    }
    look_at_buffers(c, *at, m);
    if (m.good && c.buffers.size() == 2) m.valid_until = moment(*at + static_cast<std::int64_t>(limit("valid_for").limit_h) * hour_s);
    std::vector<std::string> parts{c.buffers.size() == 1 ? (m.good ? "It still holds." : "It has drifted: calibrate again, and read again what was read since.")
                                                         : m.good ? "Calibrated: " + fixed(m.slope->value, 0) + " % of the ideal slope, zero off by " + fixed(m.zero->value, 2) + " pH."
                                                                  : std::string("Not calibrated.")};
    for (const auto& r : m.reasons)
        if (!m.good || r.weight == "caution") parts.push_back(r.sentence);
    m.sentence = join(parts);
    return m;
}

Result<MeterCheck> calibrate(const Calibration& request, Ports& ports) {
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    Calibration c = request;
    if (c.at.empty()) c.at = ports.clock.now_utc();
    HW_TRY(checked, check_of(c));
    HW_TRY(id, ports.journal->keep_calibration(c));
    checked.id = id;
    return checked;
}

Result<std::vector<MeterNow>> meters(Ports& ports) {
    if (ports.journal == nullptr) return std::vector<MeterNow>{};
    std::vector<MeterNow> out;
    const auto now = parse_moment(ports.clock.now_utc()).value_or(0);
    Page page;
    page.limit = 200;
    HW_TRY(all, ports.journal->instruments(page));
    for (const auto& instrument : all) {
        MeterNow m;
        m.instrument = instrument;
        HW_TRY(kept, ports.journal->calibrations(instrument.id));
        if (kept.empty()) m.due = "Calibrate it in two buffers.";
        else {
            HW_TRY(last, check_of(kept.back()));
            m.last = last;
            // A check with one buffer says whether the calibration before it still holds; it does not prolong it.
            std::optional<MeterCheck> calibrated;
            for (const auto& c : kept) {
                HW_TRY(one, check_of(c));
                if (one.slope) calibrated = one;
            }
            if (!last.good) m.due = last.slope ? "The last calibration did not pass: see why." : "It has drifted: calibrate it.";
            else if (!calibrated || parse_moment(calibrated->valid_until).value_or(0) <= now) m.due = "Calibrate it in two buffers: the last time was " + moment_words(calibrated ? calibrated->at : last.at) + ".";
        }
        out.push_back(std::move(m));
    }
    return out;
}

Trust trust_of_ph(double value_ph, const std::string& read_at, const std::vector<MeterCheck>& checks) {
    const auto at = parse_moment(read_at).value_or(0);
    const MeterCheck* before = nullptr;
    const MeterCheck* after = nullptr;
    for (const auto& c : checks) {
        const auto when = parse_moment(c.at).value_or(0);
        if (c.slope && when <= at) before = &c;
        if (when > at && after == nullptr) after = &c;
        // A check in between that failed undoes the calibration before it.
        if (!c.slope && when <= at && before != nullptr && when >= parse_moment(before->at).value_or(0) && !c.good) before = nullptr;
    }
    if (before == nullptr) return {false, "No calibration stands behind it."};
    if (!before->good) return {false, "The calibration before it did not pass."};
    if (at > parse_moment(before->valid_until).value_or(0)) return {false, "The last calibration was too long before: " + moment_words(before->at) + "."};
    if (after != nullptr && !after->slope && !after->good) return {false, "A check afterwards showed that the meter had drifted."};
    const double outside = limit("outside").limit_ph;
    if (value_ph < before->from_ph - outside || value_ph > before->to_ph + outside)
        return {false, "It lies outside the buffers it was calibrated with, " + fixed(before->from_ph, 2) + " to " + fixed(before->to_ph, 2) + "."};
    return {true, "Calibrated " + moment_words(before->at) + ", " + fixed(before->slope->value, 0) + " % slope."};
}

}  // namespace hw::desk
