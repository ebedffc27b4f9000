// Meters and their care: what two buffers told, and until when that holds.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

struct Instrument {
    std::string id;
    std::string name;
    std::string electrode_lot;              ///< of a pH electrode
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, Instrument& i) {
    visit("id", i.id, About{.doc = "left out: made here; with a known id it replaces that one"});
    visit("name", i.name, About{.doc = "what the shop calls it", .required = true});
    visit("electrode_lot", i.electrode_lot, About{.doc = "lot of the electrode"});
    visit("note", i.note, About{});
}

struct Buffer {
    double printed_ph = 7;                  ///< on its bottle, for its temperature
    double read = 7;                        ///< shown by the meter: pH, or mV
    std::string lot;
    std::string expires;                    ///< ISO 8601 date; empty = not known
};
template <class Visitor>
void describe(Visitor& visit, Buffer& b) {
    visit("printed_ph", b.printed_ph, About{.doc = "on its bottle, for its temperature", .minimum = 0, .maximum = 14, .required = true});
    visit("read", b.read, About{.doc = "shown by the meter before it was adjusted: pH, or mV", .minimum = -1000, .maximum = 1000, .required = true});
    visit("lot", b.lot, About{});
    visit("expires", b.expires, About{.doc = "ISO 8601 date"});
}

/// Two buffers calibrate; one checks whether the meter still holds what it was calibrated to.
struct Calibration {
    std::string id;
    std::string instrument;
    std::string at;                         ///< ISO 8601, UTC
    double water_c = 20;
    bool in_mv = false;
    std::vector<Buffer> buffers;
};
template <class Visitor>
void describe(Visitor& visit, Calibration& c) {
    visit("id", c.id, About{.doc = "UUID, made where it was typed; left out: made here"});
    visit("instrument", c.instrument, About{.doc = "id", .required = true});
    visit("at", c.at, About{.doc = "ISO 8601, UTC; left out: now"});
    visit("water_c", c.water_c, About{.doc = "temperature of the buffers", .minimum = 0, .maximum = 60});
    visit("in_mv", c.in_mv, About{.doc = "read is in mV, not in pH"});
    visit("buffers", c.buffers, About{.doc = "two calibrate; one checks for drift", .required = true});
}

/// What a calibration is worth.
struct MeterCheck {
    std::string id;
    std::string instrument;
    std::string at;
    bool good = false;
    std::string sentence;
    std::optional<Number> slope;            ///< % of the ideal; none for a check with one buffer
    std::optional<Number> zero;             ///< pH, shown at 7 less 7
    std::optional<Number> drift;            ///< pH, of a check with one buffer
    std::string valid_until;                ///< ISO 8601, UTC; empty when it is not good
    double from_ph = 0, to_ph = 0;          ///< of the buffers
    std::vector<Reason> reasons;
};
template <class Visitor>
void describe(Visitor& visit, MeterCheck& m) {
    visit("id", m.id, About{});
    visit("instrument", m.instrument, About{});
    visit("at", m.at, About{});
    visit("good", m.good, About{});
    visit("sentence", m.sentence, About{});
    visit("slope", m.slope, About{.doc = "of the ideal; none for a check with one buffer"});
    visit("zero", m.zero, About{.doc = "shown at pH 7, less 7"});
    visit("drift", m.drift, About{.doc = "of a check with one buffer"});
    visit("valid_until", m.valid_until, About{.doc = "ISO 8601, UTC; empty when it is not good"});
    visit("from_ph", m.from_ph, About{.doc = "lower buffer"});
    visit("to_ph", m.to_ph, About{.doc = "upper buffer"});
    visit("reasons", m.reasons, About{});
}

/// A meter with what is known of its state.
struct MeterNow {
    Instrument instrument;
    std::optional<MeterCheck> last;
    std::string due;                        ///< what to do before the next reading; empty = ready
};
template <class Visitor>
void describe(Visitor& visit, MeterNow& m) {
    visit("instrument", m.instrument, About{});
    visit("last", m.last, About{});
    visit("due", m.due, About{.doc = "what to do before the next reading; empty = ready"});
}

/// What a calibration is worth, by itself.
/// @error InvalidInput  no buffer, more than two, too near to each other, a time or date that cannot be read
Result<MeterCheck> check_of(const Calibration& calibration);

/// Keeps a calibration and says what it is worth.
Result<MeterCheck> calibrate(const Calibration& request, Ports& ports);

/// Every meter with its state now.
Result<std::vector<MeterNow>> meters(Ports& ports);

/// What may be said of a reading by its instrument: `good`, or why not. @param checks  of that instrument, oldest first
struct Trust {
    bool good = false;
    std::string sentence;
};
Trust trust_of_ph(double value_ph, const std::string& read_at, const std::vector<MeterCheck>& checks);

}  // namespace hw::desk
