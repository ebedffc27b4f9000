#include "desk/meet.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/incompatible.hpp"
#include "atlas/meeting_leather.hpp"
#include "atlas/storage.hpp"
#include "atlas/tannages.hpp"
#include "desk/cautions.hpp"
#include "desk/ledger.hpp"
#include "desk/inspect.hpp"
#include "desk/liquids.hpp"
#include "desk/rows.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::size_t most_things = 20;
constexpr double touch_h = 1.0 / 60;  ///< a wiping or a rinse takes a minute at the least: what follows does not come at the same moment

std::string_view word_of(chem::Severity s) { return s == chem::Severity::Stop ? "stop" : s == chem::Severity::Caution ? "caution" : "note"; }

std::string name_of(const Liquid& l) { return !l.name.empty() ? l.name : !l.family.empty() ? l.family : l.label_known ? "a liquid without a name" : "a bottle without a label"; }

/// A thing as the ledger takes it, with what it is called.
struct Step {
    Came came;
    bool on_record = false;
};

Meeting meeting_of(const chem::Hazard& h, const std::string& one, const std::string& other) {
    const auto& row = atlas::incompatible[h.row];
    Meeting m;
    m.severity = word_of(h.severity);
    m.one = one;
    m.other = other;
    m.from_unknown = h.from_unknown;
    m.gives = row.gas_or_heat;
    m.sentence = (h.from_unknown ? "One product has no known label, so it counts as possibly dangerous with the other. " : "") + std::string(row.sentence);
    m.basis = {"Products that must not meet, by what they contain", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.class_a) + " and " + std::string(row.class_b)};
    return m;
}

/// What still lies there just before the last of them comes. With several at that moment they are together.
std::vector<OnPiece> before_last(std::vector<Step> steps) {
    const Step next = steps.back();
    steps.pop_back();
    std::vector<Came> came;
    for (const auto& s : steps) came.push_back(s.came);
    // Those of the same moment have not been wiped yet: they meet whole.
    for (auto& c : came)
        if (c.at_h == next.came.at_h) c.own_left_1 = 1, c.takes_1 = 0;
    return residue_of(came, next.came.at_h).there;
}

std::string left_words(double pct) { return pct < 0.1 ? "less than 0.1 %" : fixed(pct, pct < 10 ? 1 : 0) + " %"; }

std::vector<Reason> leather_reasons(const std::vector<Step>& steps, const std::string& tannage) {
    std::vector<Reason> out;
    if (tannage.empty()) return out;
    for (const auto& row : atlas::meeting_leather) {
        if (row.tannage != "any" && row.tannage != tannage) continue;
        for (const auto& s : steps) {
            if (s.on_record || !names_class(s.came.liquid, row.hazard_class)) continue;
            out.push_back({std::string(row.hazard_class) + "_on_leather", name_of(s.came.liquid) + ": " + std::string(row.sentence), "caution",
                           {"What a liquid holds against what the leather is", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.hazard_class) + ", " + tannage}});
            break;
        }
    }
    return out;
}

/// A meeting, and the rule that says so.
struct Found {
    Meeting told;
    chem::Hazard hazard;
};

void gravest_first(std::vector<Found>& all) {
    const auto rank = [](const Found& f) { return 2 * static_cast<int>(f.hazard.severity) + (f.hazard.from_unknown ? 1 : 0); };
    std::stable_sort(all.begin(), all.end(), [&](const Found& a, const Found& b) { return rank(a) < rank(b); });
}

std::string sentence_of(const MeetAnswer& a, std::size_t things, bool sequence) {
    if (a.stop) return "Stop. " + a.stop->headline;
    const auto cautions = std::count_if(a.meetings.begin(), a.meetings.end(), [](const Meeting& m) { return m.severity == "caution"; });
    if (cautions > 0) return "No hard stop is known here, but take care: " + as_clause(a.meetings.front().sentence) + ".";
    const std::string what = things == 1 ? "Nothing in it is known to work against the rest of it" : sequence ? "Used in this order, no meeting that must not be is known" : "No meeting that must not be is known between these";
    return what + (a.meetings.empty() ? "." : "; see the notes.") + " The products' own data sheets come first.";
}

/// A liquid of the shelf with every hazard class that is named in it.
struct Known {
    const Liquid* liquid = nullptr;
    std::vector<std::string_view> classes;
    [[nodiscard]] bool holds(std::string_view c) const { return std::find(classes.begin(), classes.end(), c) != classes.end(); }
    [[nodiscard]] bool may_hold(std::string_view c) const { return !liquid->label_known && (c == "hypochlorite" || c == "acid" || c == "ammonia"); }
};

Known known_of(const Liquid& liquid) {
    Known out{&liquid, {}};
    const chem::Totals there = chem::present(portions(liquid));
    const auto add = [&](const std::vector<std::string_view>& more) { out.classes.insert(out.classes.end(), more.begin(), more.end()); };
    for (const auto& r : there.recognised) add(chem::hazard_classes(r.row));
    for (const auto& name : there.unknown) add(chem::hazard_classes_by_name(name));
    return out;
}

std::string class_name(std::string_view hazard_class) {
    for (const auto& row : atlas::storage)
        if (row.hazard_class == hazard_class) return std::string(row.plain_name);
    return std::string(hazard_class);
}

Result<std::vector<Step>> from_record(const MeetRequest& request, Ports& ports) {
    std::vector<Step> out;
    if (request.piece.empty()) return out;
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No pieces are kept here.", "piece"};
    if (request.panel.empty()) return Error{ErrorCode::InvalidInput, "Say which panel of the piece: its code stands on the drawing.", "panel"};
    const auto entries = ports.journal->entries(request.piece);
    if (!entries.ok()) return Error{entries.error().code, entries.error().message, "piece"};
    // Of a panel whose leather nobody said, as if it soaked in.
    bool open = true;
    if (const auto piece = inspect({request.piece, {}}, ports); piece.ok())
        for (const auto& p : piece->panels)
            if (p.code == request.panel) open = is_open(p.leather, ports.store);
    for (const Pass& p : laid_on(*entries, request.panel, ports.clock.now_s(), 0)) out.push_back({came_with(p, open), true});
    return out;
}

}  // namespace

Result<std::vector<Liquid>> whole_shelf(Store& store) {
    std::vector<Liquid> out;
    constexpr int page = 200;
    for (std::string after;;) {
        HW_TRY(some, store.liquids({after, page}));
        out.insert(out.end(), some.begin(), some.end());
        if (static_cast<int>(some.size()) < page) return out;
        after = some.back().id;
    }
}

Result<MeetAnswer> meet(const MeetRequest& request, Ports& ports) {
    if (request.things.empty()) return Error{ErrorCode::InvalidInput, "Say which liquids: one or more, in the order in which they come.", "things"};
    if (request.things.size() > most_things) return Error{ErrorCode::InvalidInput, "At most 20 at a time. For the whole shelf ask for the shelf.", "things"};
    if (const auto bad = out_of_range(request)) return *bad;
    if (!request.tannage.empty() && find_row(atlas::tannages, request.tannage) == nullptr) return Error{ErrorCode::NotFound, "There is no tannage \"" + request.tannage + "\". Use chrome, vegetable, wet_white or unknown.", "tannage"};
    HW_TRY(steps, from_record(request, ports));
    std::stable_sort(steps.begin(), steps.end(), [](const Step& x, const Step& y) { return x.came.at_h < y.came.at_h; });
    double at_h = touch_h;
    bool sequence = !steps.empty();
    for (std::size_t i = 0; i < request.things.size(); ++i) {
        const MeetThing& t = request.things[i];
        auto liquid = resolved(t.liquid, ports.store);
        if (!liquid.ok()) return Error{liquid.error().code, liquid.error().message, "things[" + std::to_string(i) + "]." + liquid.error().where};
        // What takes it takes as much of all that lies there.
        const double left = (1 - t.wiped_pct / 100) * std::pow(1 - t.blotted_pct / 100, t.rinses);
        for (auto& together : steps)
            if (together.came.at_h == at_h) together.came.own_left_1 *= left;
        steps.push_back({{*liquid, at_h, left, 1 - left}, false});
        const bool done = t.wiped_pct > 0 || t.rinses > 0 || t.hours > 0;
        if (done) at_h += std::max(touch_h, t.hours);
        sequence = sequence || (done && i + 1 < request.things.size());
    }

    std::vector<Found> found;
    for (std::size_t j = 0; j < steps.size(); ++j) {
        const Liquid& next = steps[j].came.liquid;
        const auto alone = what_may_not_meet({}, next);
        for (const auto& h : alone) {
            // Alkali and acid in one bottle have met already: the heat is over.
            if (atlas::incompatible[h.row].class_a == "strong alkali" && atlas::incompatible[h.row].class_b == "acid") continue;
            found.push_back({meeting_of(h, name_of(next), name_of(next)), h});
            found.back().told.on_record = steps[j].on_record;
        }
        if (j == 0) continue;
        const auto there = before_last({steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(j) + 1});
        for (std::size_t i = 0; i < there.size(); ++i)
            for (const auto& h : what_may_not_meet({there[i]}, next)) {
                // What one of them holds by itself was told of it.
                if (std::any_of(alone.begin(), alone.end(), [&](const chem::Hazard& x) { return x.row == h.row && x.from_unknown == h.from_unknown; })) continue;
                Meeting m = meeting_of(h, name_of(there[i].liquid), name_of(next));
                m.left_pct = 100 * there[i].left_1;
                m.on_record = steps[i].on_record && steps[j].on_record;
                if (sequence && m.left_pct < 100) m.sentence += " Of " + m.one + " " + left_words(m.left_pct) + " may still be there.";
                found.push_back({m, h});
            }
    }
    gravest_first(found);
    MeetAnswer a;
    a.version = std::string(program_version);
    if (!found.empty() && found.front().hazard.severity == chem::Severity::Stop) a.stop = stop_from(found.front().hazard);
    for (auto& f : found) a.meetings.push_back(std::move(f.told));
    std::vector<Came> came;
    for (const auto& s : steps) came.push_back(s.came);
    if (sequence)
        for (const auto& t : residue_of(came, at_h).there) a.there.push_back({name_of(t.liquid), 100 * t.left_1, counts(t)});
    a.leather = leather_reasons(steps, request.tannage);
    a.sentence = sentence_of(a, steps.size(), sequence);
    return a;
}

ShelfMeetings meetings_of(const std::vector<Liquid>& liquids) {
    ShelfMeetings out;
    out.version = std::string(program_version);
    std::vector<Known> shelf;
    for (const auto& l : liquids) shelf.push_back(known_of(l));
    for (const auto& row : atlas::incompatible) {
        ShelfRule r;
        r.severity = row.severity;
        r.one_class = class_name(row.class_a);
        r.other_class = class_name(row.class_b);
        bool sure_one = false, sure_other = false;
        const auto side = [&](std::string_view wanted, std::vector<std::string>& names, bool& sure) {
            for (const auto& k : shelf)
                if (k.holds(wanted)) names.push_back(name_of(*k.liquid)), sure = true;
            for (const auto& k : shelf)
                if (!k.holds(wanted) && row.severity == "stop" && k.may_hold(wanted)) names.push_back(name_of(*k.liquid));
        };
        side(row.class_a, r.ones, sure_one);
        side(row.class_b, r.others, sure_other);
        // One product that is on both sides alone is no meeting of two.
        if (r.ones.empty() || r.others.empty() || (r.ones.size() == 1 && r.ones == r.others)) continue;
        r.from_unknown = !sure_one || !sure_other;
        r.gives = row.gas_or_heat;
        r.sentence = row.sentence;
        r.basis = {"Products that must not meet, by what they contain", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.class_a) + " and " + std::string(row.class_b)};
        out.rules.push_back(r);
    }
    const auto rank = [](const ShelfRule& r) { return (r.severity == "stop" ? 0 : r.severity == "caution" ? 2 : 4) + (r.from_unknown ? 1 : 0); };
    std::stable_sort(out.rules.begin(), out.rules.end(), [&](const ShelfRule& a, const ShelfRule& b) { return rank(a) < rank(b); });
    for (const auto& row : atlas::storage) {
        StorageAdvice s;
        s.name = row.plain_name;
        for (const auto& k : shelf)
            if (row.hazard_class == "unknown" ? !k.liquid->label_known : k.holds(row.hazard_class)) s.liquids.push_back(name_of(*k.liquid));
        if (s.liquids.empty()) continue;
        s.advice = row.advice;
        s.basis = {"Where to keep what", std::string(row.source), std::string(row.locator), standing_of(row.standing), s.name};
        out.storage.push_back(s);
    }
    const auto stops = std::count_if(out.rules.begin(), out.rules.end(), [](const ShelfRule& r) { return r.severity == "stop"; });
    out.sentence = liquids.empty() ? "Nothing stands on the shelf yet." : stops == 0 ? "No two on this shelf are known that must never meet. The products' own data sheets come first."
                                    : fixed(static_cast<double>(stops), 0) + (stops == 1 ? " kind of meeting" : " kinds of meeting") + " on this shelf must never happen, in a bottle, a bucket, a cloth or on a piece.";
    return out;
}

Result<ShelfMeetings> shelf_meetings(Ports& ports) {
    HW_TRY(all, whole_shelf(ports.store));
    return meetings_of(all);
}

}  // namespace hw::desk
