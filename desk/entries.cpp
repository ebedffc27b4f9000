#include "desk/entries.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "atlas/condition_terms.hpp"
#include "atlas/identify_kinds.hpp"
#include "atlas/leather_classes.hpp"
#include "atlas/other_materials.hpp"
#include "atlas/owner_wishes.hpp"
#include "atlas/reading_kinds.hpp"
#include "atlas/spot_places.hpp"
#include "atlas/stop_marks.hpp"
#include "atlas/tannages.hpp"
#include "desk/moment.hpp"
#include "desk/photo.hpp"
#include "desk/rows.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

Error missing_word(std::string_view what, std::string_view key, std::string where) {
    return {ErrorCode::NotFound, "There is no " + std::string(what) + " \"" + std::string(key) + "\". Choose one of /api/inspection_words.", std::move(where)};
}

struct Part {
    Did did;
    const char* name;
    bool filled;
};

std::vector<Part> parts_of(const Entry& e) {
    return {{Did::MakeUp, "make_up", e.make_up.has_value()}, {Did::Panels, "facts", e.facts.has_value()}, {Did::Condition, "condition", e.condition.has_value()},
            {Did::Mark, "mark", e.mark.has_value()}, {Did::Reading, "reading", e.reading.has_value()}, {Did::Photo, "photo", e.photo.has_value()},
            {Did::Said, "said", e.said.has_value()}, {Did::Agreed, "agreed", e.agreed.has_value()},
            {Did::Laid, "laid", e.laid.has_value()}, {Did::Identified, "identified", e.identified.has_value()}, {Did::SpotMade, "spot_made", e.spot_made.has_value()}, {Did::SpotRead, "spot_read", e.spot_read.has_value()}};
}

std::string word_of(Did did) {
    for (const auto& [d, name] : EnumNames<Did>::names)
        if (d == did) return std::string(name);
    return {};
}

Result<Done> one_part(const Entry& e) {
    for (const auto& part : parts_of(e)) {
        if (part.did == e.did && !part.filled) return Error{ErrorCode::InvalidInput, "An entry that did " + word_of(e.did) + " needs " + part.name + ".", part.name};
        if (part.did != e.did && part.filled) return Error{ErrorCode::InvalidInput, "An entry that did " + word_of(e.did) + " has no " + part.name + ". Send it as an entry of its own.", part.name};
    }
    if (e.did == Did::TakeBack && e.takes_back.empty()) return Error{ErrorCode::InvalidInput, "Say which entry it takes back.", "takes_back"};
    if (e.did != Did::TakeBack && !e.takes_back.empty()) return Error{ErrorCode::InvalidInput, "Only an entry that did take_back takes one back.", "takes_back"};
    if (!e.follows.empty() && e.did != Did::Condition) return Error{ErrorCode::InvalidInput, "Only a condition is seen again. Use corrects to put a slip right.", "follows"};
    return Done{};
}

const KeptEntry* find(const std::vector<KeptEntry>& entries, std::string_view id) {
    const auto it = std::find_if(entries.begin(), entries.end(), [&](const KeptEntry& k) { return k.entry.id == id; });
    return it == entries.end() ? nullptr : &*it;
}

Result<Done> known_links(const Entry& e, const std::vector<KeptEntry>& before, const Who& who) {
    const auto look = [&](const std::string& id, const char* where, bool same_kind) -> Result<Done> {
        if (id.empty()) return Done{};
        const KeptEntry* other = find(before, id);
        if (other == nullptr) return Error{ErrorCode::NotFound, "There is no entry \"" + id + "\" on this piece.", where};
        if (same_kind && other->entry.did != e.did) return Error{ErrorCode::InvalidInput, "That entry did " + word_of(other->entry.did) + "; only the same kind can stand in its place.", where};
        return Done{};
    };
    HW_TRY(corrected, look(e.corrects, "corrects", true));
    HW_TRY(followed, look(e.follows, "follows", true));
    HW_TRY(taken, look(e.takes_back, "takes_back", false));
    static_cast<void>(corrected), static_cast<void>(followed), static_cast<void>(taken);
    if (e.did == Did::TakeBack && !who.owner && find(before, e.takes_back)->by_id != who.id)
        return Error{ErrorCode::Conflict, "Somebody else made this entry. Ask them, or the owner of the shop, to take it back; or enter what you see beside it.", "takes_back"};
    return Done{};
}

Result<Done> known_panels(const std::vector<std::string>& codes, const std::set<std::string>& panels, const std::string& where) {
    for (std::size_t i = 0; i < codes.size(); ++i)
        if (!panels.count(codes[i])) return Error{ErrorCode::NotFound, "This piece has no panel \"" + codes[i] + "\".", where + "[" + std::to_string(i) + "]"};
    return Done{};
}

Result<Done> good_facts(const PanelFacts& f) {
    if (!f.material.empty() && find_row(atlas::leather_classes, f.material) == nullptr && find_row(atlas::other_materials, f.material) == nullptr) return missing_word("material", f.material, "facts.material");
    if (!f.tannage.empty() && find_row(atlas::tannages, f.tannage) == nullptr) return missing_word("tannage", f.tannage, "facts.tannage");
    return Done{};
}

Result<Done> good_condition(const Condition& c) {
    if (find_row(atlas::condition_terms, c.term) == nullptr) return missing_word("condition", c.term, "condition.term");
    if (c.panels.empty()) return Error{ErrorCode::InvalidInput, "Say on which panels.", "condition.panels"};
    if (c.extent_pct && c.extent_cm2) return Error{ErrorCode::InvalidInput, "Give the extent in per cent or in cm², not both.", "condition.extent_cm2"};
    for (std::size_t i = 0; i < c.photos.size(); ++i)
        if (!is_photo_id(c.photos[i])) return Error{ErrorCode::InvalidInput, "This is no id of a photograph.", "condition.photos[" + std::to_string(i) + "]"};
    return Done{};
}

Result<Done> good_reading(const Reading& r) {
    const auto* kind = find_row(atlas::reading_kinds, r.kind);
    if (kind == nullptr) return missing_word("reading", r.kind, "reading.kind");
    const bool of_room = kind->taken_on == "room";
    if (of_room && !r.panel.empty()) return Error{ErrorCode::InvalidInput, std::string(kind->plain_name) + " is read of the room and belongs to no panel.", "reading.panel"};
    if (!of_room && r.panel.empty()) return Error{ErrorCode::InvalidInput, "Say on which panel.", "reading.panel"};
    if (r.values.empty()) return Error{ErrorCode::InvalidInput, "Give at least one value.", "reading.values"};
    const auto inside = [&](double v, const std::string& where) -> Result<Done> {
        if (std::isfinite(v) && v >= kind->lowest_1 && v <= kind->highest_1) return Done{};
        return Error{ErrorCode::OutOfRange, std::string(kind->plain_name) + " lies from " + fixed(kind->lowest_1, 1) + " to " + fixed(kind->highest_1, 1) + " " + std::string(kind->unit) + "; look at the figure again.", where};
    };
    for (std::size_t i = 0; i < r.values.size(); ++i) {
        HW_TRY(done, inside(r.values[i], "reading.values[" + std::to_string(i) + "]"));
        static_cast<void>(done);
    }
    return r.control ? inside(*r.control, "reading.control") : Result<Done>(Done{});
}

Result<Done> good_said(const Said& s) {
    if (s.text.empty() && s.wishes.empty()) return Error{ErrorCode::InvalidInput, "Write what was said, or pick a wish.", "said.text"};
    for (std::size_t i = 0; i < s.wishes.size(); ++i)
        if (find_row(atlas::owner_wishes, s.wishes[i]) == nullptr) return missing_word("wish", s.wishes[i], "said.wishes[" + std::to_string(i) + "]");
    return Done{};
}

Result<Done> good_spot(const SpotMade& s) {
    if (s.panel.empty()) return Error{ErrorCode::InvalidInput, "Say on which panel.", "spot_made.panel"};
    const bool named = !s.liquid.name.empty() || !s.liquid.id.empty();
    if (s.kind == SpotKind::Product && !named) return Error{ErrorCode::InvalidInput, "Say which liquid it was.", "spot_made.liquid"};
    if (s.kind != SpotKind::Product && named) return Error{ErrorCode::InvalidInput, "A control has no liquid of the shelf. Leave it out, or say that it is a spot of the product.", "spot_made.liquid"};
    if (s.kind != SpotKind::Product && s.where == SpotWhere::Edge) return Error{ErrorCode::InvalidInput, "Controls are made in hiding only.", "spot_made.where"};
    for (std::size_t i = 0; i < s.photos.size(); ++i)
        if (!is_photo_id(s.photos[i])) return Error{ErrorCode::InvalidInput, "This is no id of a photograph.", "spot_made.photos[" + std::to_string(i) + "]"};
    return Done{};
}

Result<Done> good_part(const Entry& e) {
    switch (e.did) {
    case Did::MakeUp: {
        if (e.make_up->name.empty()) return Error{ErrorCode::InvalidInput, "Give the piece a name that the shop will know it by.", "make_up.name"};
        const auto drawn = drawing_of(*e.make_up);
        if (!drawn.ok()) return Error{drawn.error().code, drawn.error().message, "make_up." + drawn.error().where};
        return Done{};
    }
    case Did::Panels: return good_facts(*e.facts);
    case Did::Condition: return good_condition(*e.condition);
    case Did::Mark:
        if (find_row(atlas::stop_marks, e.mark->kind) == nullptr) return missing_word("mark", e.mark->kind, "mark.kind");
        if (e.mark->panels.empty()) return Error{ErrorCode::InvalidInput, "Say on which panels.", "mark.panels"};
        return Done{};
    case Did::Reading: return good_reading(*e.reading);
    case Did::Photo:
        if (!is_photo_id(e.photo->photo)) return Error{ErrorCode::InvalidInput, "This is no id of a photograph.", "photo.photo"};
        return Done{};
    case Did::Said: return good_said(*e.said);
    case Did::Agreed:
        if (e.agreed->name.empty()) return Error{ErrorCode::InvalidInput, "Write the name of who signs.", "agreed.name"};
        if (e.agreed->sentences.empty()) return Error{ErrorCode::InvalidInput, "Keep what was shown, word for word.", "agreed.sentences"};
        return Done{};
    case Did::TakeBack: return Done{};
    case Did::Laid:
        if (e.laid->panels.empty()) return Error{ErrorCode::InvalidInput, "Say on which panels.", "laid.panels"};
        if (e.laid->liquid.name.empty() && e.laid->liquid.id.empty()) return Error{ErrorCode::InvalidInput, "Say which liquid it was.", "laid.liquid"};
        return Done{};
    case Did::Identified:
        if (find_row(atlas::identify_kinds, e.identified->kind) == nullptr) return missing_word("kind", e.identified->kind, "identified.kind");
        if (e.identified->panels.empty()) return Error{ErrorCode::InvalidInput, "Say which panels.", "identified.panels"};
        return Done{};
    case Did::SpotMade: return good_spot(*e.spot_made);
    case Did::SpotRead: {
        for (std::size_t i = 0; i < e.spot_read->photos.size(); ++i)
            if (!is_photo_id(e.spot_read->photos[i])) return Error{ErrorCode::InvalidInput, "This is no id of a photograph.", "spot_read.photos[" + std::to_string(i) + "]"};
        const auto good = good_signs(e.spot_read->signs);
        return good.ok() ? good : Error{good.error().code, good.error().message, "spot_read.signs." + good.error().where};
    }
    }
    return Done{};
}

/// People agree first; and a part behind the panel may forbid it. Whoever enters it, through whichever door.
Result<Done> may_be_spotted(const SpotMade& s, const std::vector<KeptEntry>& before) {
    const auto states = states_of(before);
    bool agreed = false;
    std::set<std::string> there;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const Entry& e = before[i].entry;
        if (states[i] != EntryState::Stands) continue;
        if (e.agreed) agreed = agreed || std::find(e.agreed->consents.begin(), e.agreed->consents.end(), consent_to(s.where)) != e.agreed->consents.end();
        if (!e.mark || std::find(e.mark->panels.begin(), e.mark->panels.end(), s.panel) == e.mark->panels.end()) continue;
        if (e.mark->there) there.insert(e.mark->kind);
        else there.erase(e.mark->kind);
    }
    for (const auto& kind : there) {
        const auto& row = row_of(atlas::stop_marks, kind);
        if ((";" + std::string(row.stops) + ";").find(";spot;") != std::string::npos)
            return Error{ErrorCode::Conflict, "No spot here. " + std::string(row.plain_name) + ": " + std::string(row.sentence), "spot_made.panel"};
    }
    if (s.kind != SpotKind::Untouched && !agreed)
        return Error{ErrorCode::Conflict, "The owner has not agreed to this spot yet. Record it first: \"" + std::string(consent_to(s.where)) + "\"", "spot_made"};
    return Done{};
}

/// A sentence names so many panels; of more it says how many there are.
constexpr std::size_t named_panels = 4;

std::string extent_words(const Condition& c) {
    if (c.extent_pct) return ", " + fixed(*c.extent_pct, 0) + " % of it";
    if (c.extent_cm2) return ", " + fixed(*c.extent_cm2, 0) + " cm²";
    return "";
}

std::string reading_words(const Reading& r) {
    const auto* kind = find_row(atlas::reading_kinds, r.kind);
    std::string out = (kind == nullptr ? r.kind : std::string(kind->plain_name)) + " ";
    for (std::size_t i = 0; i < r.values.size(); ++i) out += (i == 0 ? "" : ", ") + fixed(r.values[i], 2);
    if (kind != nullptr && !kind->unit.empty() && kind->unit != "pH") out += " " + std::string(kind->unit);
    return out + (r.panel.empty() ? "" : " on " + r.panel);
}

std::string spot_words(const SpotMade& s) {
    const std::string what = s.kind == SpotKind::Water ? "clean water, as a control" : s.kind == SpotKind::Untouched ? "left alone, as a control" : s.liquid.name.empty() ? s.liquid.id : s.liquid.name;
    return "Spot on " + s.panel + ", " + (s.where == SpotWhere::Edge ? "at the edge of the damage" : s.place.empty() ? "hidden" : as_clause(name_in(atlas::spot_places, s.place))) + ": " + what + ".";
}

std::string facts_words(const PanelFacts& f) {
    std::vector<std::string> said;
    if (!f.material.empty()) said.push_back(material_name(f.material));
    if (!f.tannage.empty()) said.push_back(name_in(atlas::tannages, f.tannage));
    for (const auto word : {wear_word(f.wear), exposure_word(f.exposure)})
        if (!word.empty()) said.emplace_back(word);
    return listed(f.panels, named_panels) + ": " + (said.empty() ? "nothing said" : listed(said));
}

}  // namespace

bool is_uuid(std::string_view text) {
    constexpr std::size_t length = 36;
    if (text.size() != length) return false;
    for (std::size_t i = 0; i < length; ++i) {
        const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
        if (dash ? text[i] != '-' : std::isxdigit(static_cast<unsigned char>(text[i])) == 0) return false;
    }
    return true;
}

std::string_view consent_to(SpotWhere where) {
    return where == SpotWhere::Hidden ? "Test spots may be made in hidden places." : "Where the hidden spot passed, one of 1 cm² may be made at the edge of the damage.";
}

std::string material_name(std::string_view key) {
    return find_row(atlas::leather_classes, key) != nullptr ? name_in(atlas::leather_classes, key) : name_in(atlas::other_materials, key);
}

std::string_view wear_word(Wear w) {
    switch (w) {
    case Wear::None: return "as new";
    case Wear::Light: return "lightly worn";
    case Wear::Worn: return "worn";
    case Wear::Through: return "worn through";
    case Wear::NotSaid: break;
    }
    return "";
}

std::string_view exposure_word(Exposure e) {
    switch (e) {
    case Exposure::Hidden: return "hidden";
    case Exposure::Seldom: return "seldom touched";
    case Exposure::Seat: return "sat on";
    case Exposure::Hands: return "hands";
    case Exposure::Head: return "heads";
    case Exposure::Sun: return "sun";
    case Exposure::NotSaid: break;
    }
    return "";
}

std::string_view severity_word(int severity) {
    constexpr std::array<std::string_view, 5> words{"gone", "faint", "plain", "heavy", "failed"};
    return words[static_cast<std::size_t>(std::clamp(severity, 0, 4))];
}

Result<piece::Drawing> drawing_of(const MakeUp& m) {
    if (m.family != "free") {
        std::vector<piece::Given> given;
        for (const auto& measure : m.measures) given.push_back({measure.key, measure.value_1});
        return piece::drawing(m.family, given);
    }
    std::vector<piece::FreePanel> panels;
    for (std::size_t i = 0; i < m.free.size(); ++i) {
        const FreePiece& f = m.free[i];
        piece::FreePanel p;
        p.name = f.name;
        p.shape = f.shape == FreeShape::Rectangle ? "rectangle" : f.shape == FreeShape::Trapezoid ? "trapezoid" : "outline";
        p.a_cm = f.width_cm;
        p.b_cm = f.shape == FreeShape::Trapezoid ? f.top_cm : f.height_cm;
        p.h_cm = f.height_cm;
        if (f.outline_cm.size() % 2 != 0) return Error{ErrorCode::InvalidInput, "Give the outline as pairs: x, y, x, y …", "free[" + std::to_string(i) + "].outline_cm"};
        for (std::size_t k = 0; k + 1 < f.outline_cm.size(); k += 2) p.outline.push_back({f.outline_cm[k], f.outline_cm[k + 1]});
        panels.push_back(std::move(p));
    }
    return piece::drawing_of_free(panels);
}

Result<Done> may_append(const Entry& e, const std::vector<KeptEntry>& before, const std::set<std::string>& panels, const Who& who) {
    if (const auto bad = out_of_range(e)) return *bad;
    if (!e.id.empty() && !is_uuid(e.id)) return Error{ErrorCode::InvalidInput, "An id is a UUID. Leave it out to get one.", "id"};
    if (!e.at.empty() && !parse_moment(e.at)) return Error{ErrorCode::InvalidInput, "Write the time as 2026-01-02T03:04:05Z.", "at"};
    if (before.empty() && e.did != Did::MakeUp) return Error{ErrorCode::NotFound, "There is no such piece yet. Begin with an entry that did make_up.", "piece"};
    HW_TRY(whole, one_part(e));
    HW_TRY(linked, known_links(e, before, who));
    HW_TRY(good, good_part(e));
    static_cast<void>(whole), static_cast<void>(linked), static_cast<void>(good);
    if (e.spot_made && panels.count(e.spot_made->panel)) {
        HW_TRY(allowed, may_be_spotted(*e.spot_made, before));
        static_cast<void>(allowed);
    }
    if (e.spot_read) {
        const KeptEntry* spot = find(before, e.spot_read->spot);
        if (spot == nullptr || !spot->entry.spot_made) return Error{ErrorCode::NotFound, "There is no such spot on this piece. Give the id of the entry that made it.", "spot_read.spot"};
        if (states_of(before)[static_cast<std::size_t>(spot - before.data())] == EntryState::TakenBack) return Error{ErrorCode::Conflict, "This spot was taken back. Take that back first.", "spot_read.spot"};
        if (spot->entry.spot_made->kind == SpotKind::Untouched) return Error{ErrorCode::InvalidInput, "This is the place that was left alone. Read the spots beside it.", "spot_read.spot"};
    }
    const std::string part = e.did == Did::Panels ? "facts" : word_of(e.did);
    return known_panels(panels_of(e), panels, e.did == Did::Reading || e.did == Did::SpotMade ? part + ".panel" : part + ".panels");
}

std::vector<EntryState> states_of(const std::vector<KeptEntry>& entries) {
    std::map<std::string, std::size_t> place;
    for (std::size_t i = 0; i < entries.size(); ++i) place[entries[i].entry.id] = i;
    std::vector<EntryState> out(entries.size(), EntryState::Stands);
    // From the last to the first: an entry that was taken back neither corrects nor takes back anything itself.
    for (std::size_t i = entries.size(); i-- > 0;) {
        if (out[i] == EntryState::TakenBack) continue;
        const Entry& e = entries[i].entry;
        const auto change = [&](const std::string& id, EntryState to) {
            const auto it = place.find(id);
            if (!id.empty() && it != place.end() && it->second < i && out[it->second] != EntryState::TakenBack) out[it->second] = to;
        };
        change(e.takes_back, EntryState::TakenBack);
        change(e.corrects, EntryState::Corrected);
        change(e.follows, EntryState::SeenAgain);
    }
    return out;
}

bool unaware(const KeptEntry& earlier, const KeptEntry& later) { return later.entry.seen < earlier.number && later.entry.device != earlier.entry.device; }

std::vector<std::string> panels_of(const Entry& e) {
    if (e.facts) return e.facts->panels;
    if (e.condition) return e.condition->panels;
    if (e.mark) return e.mark->panels;
    if (e.laid) return e.laid->panels;
    if (e.identified) return e.identified->panels;
    if (e.photo) return e.photo->panels;
    if (e.reading && !e.reading->panel.empty()) return {e.reading->panel};
    if (e.spot_made) return {e.spot_made->panel};
    return {};
}

std::string sentence_of(const Entry& e) {
    switch (e.did) {
    case Did::MakeUp: return "Piece: " + e.make_up->name + ".";
    case Did::Panels: return facts_words(*e.facts) + ".";
    case Did::Condition: return listed(e.condition->panels, named_panels) + ": " + name_in(atlas::condition_terms, e.condition->term) + ", " + std::string(severity_word(e.condition->severity)) + extent_words(*e.condition) + ".";
    case Did::Mark: return listed(e.mark->panels, named_panels) + ": " + name_in(atlas::stop_marks, e.mark->kind) + (e.mark->there ? "." : ", looked for: not there.");
    case Did::Reading: return reading_words(*e.reading) + ".";
    case Did::Photo: return "Photograph of " + (e.photo->panels.empty() ? "the whole piece" : listed(e.photo->panels, named_panels)) + ".";
    case Did::Said: {
        std::string out = (e.said->who.empty() ? "Somebody" : e.said->who) + (e.said->kind == SaidKind::Wish ? " wishes: " : " says: ");
        std::vector<std::string> wishes;
        for (const auto& w : e.said->wishes) wishes.push_back(name_in(atlas::owner_wishes, w));
        out += listed(wishes);
        if (!e.said->text.empty()) out += (wishes.empty() ? "" : "; ") + e.said->text;
        return out + (out.back() == '.' ? "" : ".");
    }
    case Did::Agreed: return "Signed by " + e.agreed->name + ".";
    case Did::TakeBack: return "Took an entry back.";
    case Did::Laid: return listed(e.laid->panels, named_panels) + ": " + fixed(e.laid->g_m2, 0) + " g/m² of " + (e.laid->liquid.name.empty() ? e.laid->liquid.id : e.laid->liquid.name) + ", left " + span(e.laid->dwell_s) + ", " + fixed(e.laid->blotted_pct, 0) + " % blotted off.";
    case Did::Identified: return listed(e.identified->panels, named_panels) + ": " + e.identified->sentence;
    case Did::SpotMade: return spot_words(*e.spot_made);
    case Did::SpotRead: return e.spot_read->stage == SpotStage::Wet ? "A spot was read wet." : "A spot was read dry.";
    }
    return {};
}

}  // namespace hw::desk
