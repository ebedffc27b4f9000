#include "desk/inspect.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "atlas/condition_terms.hpp"
#include "atlas/disclosure.hpp"
#include "atlas/leather_classes.hpp"
#include "atlas/other_materials.hpp"
#include "atlas/owner_wishes.hpp"
#include "atlas/reading_kinds.hpp"
#include "atlas/stop_marks.hpp"
#include "atlas/tannages.hpp"
#include "core/belief/repeated.hpp"
#include "core/leather/condition.hpp"
#include "desk/entries.hpp"
#include "desk/liquids.hpp"
#include "desk/meters.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"
#include "desk/spot_fold.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

template <class Row>
Basis basis_of(const Row& row, std::string rule, std::string inputs) {
    return {std::move(rule), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

bool has(const std::vector<std::string>& all, std::string_view one) { return std::find(all.begin(), all.end(), one) != all.end(); }

std::vector<std::string> split(std::string_view text) {
    std::vector<std::string> out;
    for (std::string_view rest = text; !rest.empty();) {
        const auto cut = rest.find(';');
        out.emplace_back(rest.substr(0, cut));
        rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
    }
    return out;
}

/// The entries of a piece while its answer is folded.
struct Fold {
    const std::vector<KeptEntry>& entries;
    std::vector<EntryState> states = states_of(entries);
    InspectAnswer answer = {};
    piece::Drawing drawing = {};
    std::map<std::string, std::size_t> place = {};   ///< panel code to its place in the answer

    template <class Take>
    void each(Did did, const Take& take) const {
        for (std::size_t i = 0; i < entries.size(); ++i)
            if (states[i] == EntryState::Stands && entries[i].entry.did == did) take(entries[i]);
    }
    PanelNow* panel(const std::string& code) {
        const auto it = place.find(code);
        return it == place.end() ? nullptr : &answer.panels[it->second];
    }
};

/// Of values given one after the other, the last; a clash where two devices were not aware of each other.
template <class Value>
struct Latest {
    Value value{};
    const KeptEntry* from = nullptr;
    const KeptEntry* against = nullptr;   ///< what the value replaced unseen

    void give(const Value& v, const KeptEntry& by) {
        // Whoever had seen both has chosen.
        const bool settled = against == nullptr || by.entry.seen >= from->number;
        if (from != nullptr && unaware(*from, by) && !(v == value)) against = from;
        else if (settled) against = nullptr;
        value = v;
        from = &by;
    }
};

// ---- the piece and its drawing

bool same_make_up(const MakeUp& a, const MakeUp& b) {
    const auto sorted = [](std::vector<Measure> m) {
        std::sort(m.begin(), m.end(), [](const Measure& x, const Measure& y) { return x.key < y.key; });
        return m;
    };
    const auto x = sorted(a.measures), y = sorted(b.measures);
    const bool measures = std::equal(x.begin(), x.end(), y.begin(), y.end(), [](const Measure& p, const Measure& q) { return p.key == q.key && p.value_1 == q.value_1; });
    const bool free = std::equal(a.free.begin(), a.free.end(), b.free.begin(), b.free.end(), [](const FreePiece& p, const FreePiece& q) {
        return p.name == q.name && p.shape == q.shape && p.width_cm == q.width_cm && p.height_cm == q.height_cm && p.top_cm == q.top_cm && p.outline_cm == q.outline_cm;
    });
    return a.name == b.name && a.family == b.family && a.note == b.note && measures && free;
}

struct ComparableMakeUp {
    MakeUp m;
    bool operator==(const ComparableMakeUp& other) const { return same_make_up(m, other.m); }
};

Result<Done> fold_make_up(Fold& f) {
    Latest<ComparableMakeUp> latest;
    f.each(Did::MakeUp, [&](const KeptEntry& k) { latest.give({*k.entry.make_up}, k); });
    if (latest.from == nullptr) return Error{ErrorCode::NotFound, "What this piece is was taken back. Take that back, or enter what it is.", "piece"};
    f.answer.make_up = latest.value.m;
    f.answer.name = latest.value.m.name;
    if (latest.against != nullptr) f.answer.clashes.push_back({"Two devices said different things about what the piece is and measures.", {latest.against->entry.id, latest.from->entry.id}});
    HW_TRY(drawn, drawing_of(f.answer.make_up));
    f.drawing = drawn;
    f.answer.family_name = "Free piece";
    for (const auto& family : piece::families())
        if (family.key == f.answer.make_up.family) f.answer.family_name = std::string(family.name);
    return Done{};
}

/// Half widths of the areas if the tape lies off on each measure by itself: the root of the sum of squares of what each
/// of them changes.
std::vector<double> area_bands(const MakeUp& m, const piece::Drawing& drawing) {
    const double tape_cm = row_of(atlas::reading_kinds, "tape").scatter_1;
    std::vector<double> squares(drawing.panels.size(), 0);
    const auto add = [&](const MakeUp& moved) {
        const auto other = drawing_of(moved);
        if (!other.ok() || other->panels.size() != drawing.panels.size()) return false;
        for (std::size_t i = 0; i < squares.size(); ++i) squares[i] += std::pow(other->panels[i].area_cm2 - drawing.panels[i].area_cm2, 2);
        return true;
    };
    for (const auto& family : piece::families()) {
        if (family.key != m.family) continue;
        for (const auto& d : family.dimensions)
            for (const double step : {tape_cm, -tape_cm}) {
                MakeUp moved = m;
                const auto given = std::find_if(moved.measures.begin(), moved.measures.end(), [&](const Measure& x) { return x.key == d.key; });
                if (given != moved.measures.end()) given->value_1 += step;
                else moved.measures.push_back({std::string(d.key), d.value_cm + step});
                if (add(moved)) break;  // at the end of its range, the other way
            }
    }
    for (std::size_t i = 0; i < m.free.size(); ++i)
        for (double FreePiece::*side : {&FreePiece::width_cm, &FreePiece::height_cm, &FreePiece::top_cm}) {
            MakeUp moved = m;
            if (moved.free[i].*side <= 0) continue;
            moved.free[i].*side += tape_cm;
            add(moved);
        }
    // An outline of its own: the tape moves its edge, so the area by the length of the edge.
    for (std::size_t i = 0; i < m.free.size() && i < squares.size(); ++i) {
        if (m.free[i].shape != FreeShape::Outline) continue;
        const auto& o = m.free[i].outline_cm;
        double round = 0;
        for (std::size_t k = 0; k + 1 < o.size(); k += 2) {
            const std::size_t next = (k + 2) % o.size();
            round += std::hypot(o[next] - o[k], o[next + 1] - o[k + 1]);
        }
        squares[i] = std::pow(round * tape_cm / 4, 2);
    }
    std::vector<double> out;
    for (double s : squares) out.push_back(std::sqrt(s));
    return out;
}

std::vector<double> flat(const std::vector<piece::Point2>& points) {
    std::vector<double> out;
    // A tenth of a millimetre is finer than any line on the page.
    const auto rounded = [](double v) { return std::round(v * 100) / 100; };
    for (const auto& p : points) out.insert(out.end(), {rounded(p.x), rounded(p.y)});
    return out;
}

void draw(Fold& f) {
    const auto bands = area_bands(f.answer.make_up, f.drawing);
    double leather_cm2 = 0, band_cm2 = 0;
    for (std::size_t i = 0; i < f.drawing.panels.size(); ++i) {
        const auto& p = f.drawing.panels[i];
        PanelNow now;
        now.code = p.code;
        now.name = p.name;
        now.part = p.part;
        now.area = number(p.area_cm2, bands[i], "cm²", Standing::Derived, "each measure off by a centimetre");
        now.welt_cm = p.welt_cm;
        now.often_other_material = p.often_other_material;
        for (const auto& q : p.questions) now.questions.push_back({std::string(q.key), std::string(q.sentence), "note", basis_of(q, std::string(q.sentence), p.code)});
        if (!p.often_other_material) leather_cm2 += p.area_cm2, band_cm2 += bands[i];
        f.place[p.code] = f.answer.panels.size();
        f.answer.panels.push_back(std::move(now));
    }
    f.answer.area = number(leather_cm2 / 1e4, band_cm2 / 1e4, "m²", Standing::Derived, "each measure off by a centimetre");
    for (const auto& v : f.drawing.views) {
        DrawnView view{v.key, v.name, v.width, v.height, {}};
        for (const auto& s : v.shapes) {
            DrawnShape shape{s.panel == piece::no_panel ? "" : f.drawing.panels[s.panel].code, flat(s.outline), {}, s.light_1};
            for (const auto& line : s.lines) shape.lines.push_back(flat(line));
            view.shapes.push_back(std::move(shape));
        }
        f.answer.views.push_back(std::move(view));
    }
}

// ---- what panels are made of

void fold_facts(Fold& f) {
    struct Facts {
        Latest<std::string> material, tannage;
        Latest<Wear> wear;
        Latest<Exposure> exposure;
    };
    std::map<std::string, Facts> of;
    f.each(Did::Panels, [&](const KeptEntry& k) {
        const PanelFacts& given = *k.entry.facts;
        for (const auto& code : given.panels) {
            Facts& facts = of[code];
            if (!given.material.empty()) facts.material.give(given.material, k);
            if (!given.tannage.empty()) facts.tannage.give(given.tannage, k);
            if (given.wear != Wear::NotSaid) facts.wear.give(given.wear, k);
            if (given.exposure != Exposure::NotSaid) facts.exposure.give(given.exposure, k);
        }
    });
    for (auto& [code, facts] : of) {
        PanelNow* p = f.panel(code);
        if (p == nullptr) continue;
        p->material = facts.material.value;
        p->tannage = facts.tannage.value;
        p->wear = facts.wear.value;
        p->exposure = facts.exposure.value;
        const auto clash = [&](const auto& latest, const char* what) {
            if (latest.against == nullptr) return;
            p->in_conflict = true;
            f.answer.clashes.push_back({"Two devices said different things about " + std::string(what) + " of " + code + ".", {latest.against->entry.id, latest.from->entry.id}});
        };
        clash(facts.material, "the material");
        clash(facts.tannage, "the tannage");
        clash(facts.wear, "the wear");
        clash(facts.exposure, "what it goes through");
    }
}

void fold_zones(Fold& f) {
    std::map<std::string, std::size_t> at;
    for (auto& p : f.answer.panels) {
        std::vector<std::string> words;
        for (const std::string& w : {material_name(p.material), p.tannage.empty() ? std::string() : std::string(row_of(atlas::tannages, p.tannage).plain_name), std::string(wear_word(p.wear)), std::string(exposure_word(p.exposure))})
            if (!w.empty()) words.push_back(w);
        if (p.material.empty()) continue;  // what it is made of is not known: no class
        p.zone = listed(words);
        const auto [it, is_new] = at.emplace(p.zone, f.answer.zones.size());
        if (is_new) f.answer.zones.push_back({p.zone, {}, 0});
        Zone& z = f.answer.zones[it->second];
        z.panels.push_back(p.code);
        z.area_m2 += p.area.value / 1e4;
    }
}

// ---- condition

double area_share(const Condition& c, double panel_cm2) {
    if (c.extent_pct) return *c.extent_pct / 100;
    if (c.extent_cm2) return std::min(1.0, *c.extent_cm2 / panel_cm2);
    return 1;
}

/// The index of a panel from the conditions that are known at a time: corrected and taken-back ones never count, one that
/// was seen again counts until then.
leather::ConditionIndex index_at(const Fold& f, const PanelNow& p, const std::string& until) {
    std::set<std::string> seen_again;
    std::vector<const KeptEntry*> known;
    for (std::size_t i = 0; i < f.entries.size(); ++i) {
        const Entry& e = f.entries[i].entry;
        if (e.did != Did::Condition || f.states[i] == EntryState::Corrected || f.states[i] == EntryState::TakenBack || e.at > until) continue;
        if (!e.follows.empty()) seen_again.insert(e.follows);
        if (has(e.condition->panels, p.code)) known.push_back(&f.entries[i]);
    }
    std::vector<leather::Seen> seen;
    for (const auto* k : known)
        if (!seen_again.count(k->entry.id)) {
            const Condition& c = *k->entry.condition;
            seen.push_back({row_of(atlas::condition_terms, c.term).weight_1, static_cast<double>(c.severity), area_share(c, p.area.value)});
        }
    return leather::condition_index(seen);
}

void fold_condition(Fold& f) {
    std::set<std::string> times;
    for (std::size_t i = 0; i < f.entries.size(); ++i)
        if (f.entries[i].entry.did == Did::Condition && f.states[i] != EntryState::Corrected && f.states[i] != EntryState::TakenBack) times.insert(f.entries[i].entry.at);
    f.each(Did::Condition, [&](const KeptEntry& k) {
        const auto& term = row_of(atlas::condition_terms, k.entry.condition->term);
        for (const auto& code : k.entry.condition->panels)
            if (PanelNow* p = f.panel(code)) p->conditions.push_back(k.entry.id);
        if (!term.refer.empty() && k.entry.condition->severity > 0)
            f.answer.stops.push_back({"refer", std::string(term.plain_name) + " (" + listed(k.entry.condition->panels) + "): " + std::string(term.refer), "caution", basis_of(term, std::string(term.refer), listed(k.entry.condition->panels))});
    });
    const std::string never = "9999";
    for (auto& p : f.answer.panels) {
        const auto now = index_at(f, p, never);
        p.index = number(now.value, now.plus_minus, "", Standing::Estimate, "each severity half a step off; the weights are starting values");
        for (const auto& at : times) {
            const double value = index_at(f, p, at).value;
            if (p.trend.empty() ? value < 100 : value != p.trend.back().index_1) p.trend.push_back({at, value});
        }
    }
}

// ---- marks

void fold_marks(Fold& f) {
    struct State {
        Latest<bool> there;
    };
    std::map<std::pair<std::string, std::string>, State> of;  // panel, kind
    f.each(Did::Mark, [&](const KeptEntry& k) {
        for (const auto& code : k.entry.mark->panels) of[{code, k.entry.mark->kind}].there.give(k.entry.mark->there, k);
    });
    std::map<std::string, std::vector<std::string>> by_kind;
    for (auto& [where, state] : of) {
        const auto& [code, kind] = where;
        PanelNow* p = f.panel(code);
        if (p == nullptr) continue;
        // A clash about a part that can hurt somebody counts as being there.
        if (state.there.value || state.there.against != nullptr) {
            p->marks.push_back(kind);
            by_kind[kind].push_back(code);
        }
        if (state.there.against != nullptr) {
            p->in_conflict = true;
            f.answer.clashes.push_back({"Two devices said different things about " + std::string(row_of(atlas::stop_marks, kind).plain_name) + " on " + code + "; until it is settled it counts as there.", {state.there.against->entry.id, state.there.from->entry.id}});
        }
        const std::string asked = kind == "airbag_seam" ? "airbag" : kind;
        p->questions.erase(std::remove_if(p->questions.begin(), p->questions.end(), [&](const Reason& q) { return q.kind == asked; }), p->questions.end());
    }
    for (const auto& row : atlas::stop_marks) {
        const auto it = by_kind.find(std::string(row.key));
        if (it != by_kind.end()) f.answer.stops.push_back({std::string(row.key), std::string(row.plain_name) + " (" + listed(it->second) + "): " + std::string(row.sentence), "decides", basis_of(row, std::string(row.sentence), listed(it->second))});
    }
}

// ---- readings

Result<std::map<std::string, std::vector<MeterCheck>>> checks_of(const Fold& f, Ports& ports) {
    std::map<std::string, std::vector<MeterCheck>> out;
    for (const auto& k : f.entries) {
        if (k.entry.did != Did::Reading || k.entry.reading->instrument.empty() || out.count(k.entry.reading->instrument)) continue;
        auto& checks = out[k.entry.reading->instrument];
        HW_TRY(kept, ports.journal->calibrations(k.entry.reading->instrument));
        for (const auto& c : kept) {
            HW_TRY(one, check_of(c));
            checks.push_back(one);
        }
    }
    return out;
}

ReadingNow reading_now(const KeptEntry& k, const std::map<std::string, std::vector<MeterCheck>>& checks) {
    const Reading& r = *k.entry.reading;
    const auto& kind = row_of(atlas::reading_kinds, r.kind);
    ReadingNow now;
    now.entry = k.entry.id;
    now.kind = r.kind;
    now.name = std::string(kind.plain_name);
    now.panel = r.panel;
    now.place = r.place;
    now.at = k.entry.at;
    now.places = static_cast<int>(r.values.size());
    double mean = 0;
    for (double v : r.values) mean += v / static_cast<double>(r.values.size());
    // The scatter of a time is a share of it; below a second nobody reads a clock.
    const double expected = std::isnan(kind.scatter_1) ? std::max(1.0, std::abs(mean) * kind.scatter_pct / 100) : kind.scatter_1;
    const auto told = belief::repeated(r.values, expected);
    const std::string from = "90 % band of the mean of " + std::to_string(now.places) + (now.places == 1 ? " reading" : " readings") + ", scatter expected from the kind of reading";
    now.value = number(told.mean, told.half_width, std::string(kind.unit), Standing::Measured, from);
    if (r.control) {
        const double control_band = belief::repeated({*r.control}, expected).half_width;
        now.against_control = number(told.mean - *r.control, std::hypot(told.half_width, control_band), std::string(kind.unit), Standing::Measured, "both readings' own bands");
    }
    if (kind.needs_calibration != "yes") {
        now.trust = r.instrument.empty() ? "No meter named." : "";
        return now;
    }
    const auto it = checks.find(r.instrument);
    const Trust trust = it == checks.end() ? Trust{false, "No meter named, so no calibration stands behind it."} : trust_of_ph(told.mean, k.entry.at, it->second);
    now.trusted = trust.good;
    now.trust = trust.sentence;
    return now;
}

Result<Done> fold_readings(Fold& f, Ports& ports) {
    HW_TRY(checks, checks_of(f, ports));
    f.each(Did::Reading, [&](const KeptEntry& k) {
        f.answer.readings.push_back(reading_now(k, checks));
        if (PanelNow* p = f.panel(k.entry.reading->panel)) p->readings.push_back(k.entry.id);
    });
    std::stable_sort(f.answer.readings.begin(), f.answer.readings.end(), [](const ReadingNow& a, const ReadingNow& b) { return a.at > b.at; });
    return Done{};
}

WaterDrop drop_of(double seconds) { return seconds < 10 ? WaterDrop::Seconds10 : seconds < 120 ? WaterDrop::Minutes2 : seconds < 600 ? WaterDrop::Minutes10 : WaterDrop::NotAtAll; }

/// What judge takes of a panel: its class, and the newest trusted reading of each kind on it.
void fold_leather(Fold& f) {
    for (auto& p : f.answer.panels) {
        Leather& l = p.leather;
        l.name = f.answer.name + ", " + p.name;
        l.leather_class = find_row(atlas::leather_classes, p.material) != nullptr ? p.material : "";
        l.tannage = p.tannage;
        for (auto r = f.answer.readings.rbegin(); r != f.answer.readings.rend(); ++r) {  // oldest first: the newest stays
            if (r->panel != p.code || !r->trusted) continue;
            if (r->kind == "surface_ph") l.surface_ph = r->value.value;
            if (r->kind == "extract_ph") l.extract_ph = r->value.value;
            if (r->kind == "thickness") l.thickness_mm = r->value.value;
            if (r->kind == "water_drop") l.water_drop = drop_of(r->value.value);
        }
        // While nothing was read the figures are those of the class.
        l.standing = l.surface_ph || l.extract_ph || l.thickness_mm || l.water_drop != WaterDrop::NotDone ? Standing::Measured : Standing::Estimate;
        for (const auto& k : f.entries)
            if (has(p.conditions, k.entry.id) && (k.entry.condition->term == "shrink" || k.entry.condition->term == "powdering") && k.entry.condition->severity > 0) l.decayed = true;
    }
}

// ---- owner

bool any_condition(const Fold& f, const std::vector<std::string>& terms) {
    bool found = false;
    f.each(Did::Condition, [&](const KeptEntry& k) { found = found || (k.entry.condition->severity > 0 && has(terms, k.entry.condition->term)); });
    return found;
}

void fold_disclosure(Fold& f) {
    for (const auto& row : atlas::disclosure) {
        const auto to = split(row.to);
        const bool applies = row.applies == "always" || (row.applies == "has" && any_condition(f, to)) || (row.applies == "family" && has(to, f.answer.make_up.family)) ||
                             (row.applies == "material_is" && std::any_of(f.answer.panels.begin(), f.answer.panels.end(), [&](const PanelNow& p) { return has(to, p.material); }));
        if (applies) f.answer.disclosure.emplace_back(row.sentence);
    }
    f.answer.consents = {std::string(consent_to(SpotWhere::Hidden)), std::string(consent_to(SpotWhere::Edge)), "Photographs may be taken and kept with the record.", "What was told and read may be kept with the record."};
    const KeptEntry* signed_last = nullptr;
    f.each(Did::Agreed, [&](const KeptEntry& k) { signed_last = &k; });
    if (signed_last == nullptr) return;
    int since = 0;
    for (std::size_t i = 0; i < f.entries.size(); ++i) {
        const Did did = f.entries[i].entry.did;
        if (f.entries[i].number > signed_last->number && (did == Did::Condition || did == Did::MakeUp || did == Did::Panels || did == Did::TakeBack)) ++since;
    }
    f.answer.agreed = "Signed by " + signed_last->entry.agreed->name + ", " + moment_words(signed_last->entry.at) + ".";
    if (signed_last->entry.agreed->sentences != f.answer.disclosure) f.answer.agreed += " What must be told has changed since: show it again.";
    else if (since > 0) f.answer.agreed += " " + std::to_string(since) + (since == 1 ? " entry was" : " entries were") + " made about the piece since.";
}

void fold_missing(Fold& f) {
    std::vector<std::string> unknown, asked;
    for (const auto& p : f.answer.panels) {
        if (std::any_of(p.questions.begin(), p.questions.end(), [](const Reason& q) { return q.kind != "other_material"; })) asked.push_back(p.code);
        if (p.material.empty() && !p.often_other_material) unknown.push_back(p.code);
    }
    bool whole_photo = false, wish = false, condition = false, surface = false;
    f.each(Did::Photo, [&](const KeptEntry& k) { whole_photo = whole_photo || k.entry.photo->panels.empty(); });
    f.each(Did::Said, [&](const KeptEntry& k) { wish = wish || k.entry.said->kind == SaidKind::Wish; });
    f.each(Did::Condition, [&](const KeptEntry&) { condition = true; });
    for (const auto& r : f.answer.readings) surface = surface || (r.kind == "surface_ph" && r.trusted);
    auto& out = f.answer.missing;
    const auto some = [](const std::vector<std::string>& codes) {
        constexpr std::size_t few = 4;
        return codes.size() > few ? std::to_string(codes.size()) + " panels" : listed(codes);
    };
    if (!asked.empty()) out.push_back("Look for airbags, sensors and heaters: " + some(asked) + ".");
    if (!unknown.empty()) out.push_back("Say what it is made of: " + some(unknown) + ".");
    if (!condition) out.push_back("Note the condition, panel by panel.");
    if (!whole_photo) out.push_back("Photograph the whole piece from all sides.");
    if (!surface) out.push_back("Read the surface pH with a calibrated meter, and one place that was never touched.");
    if (!wish) out.push_back("Ask what the owner wants.");
    if (f.answer.agreed.empty()) out.push_back("Tell the owner the risks and have it signed.");
}

void fold_entries(Fold& f, const Who& who) {
    f.each(Did::Photo, [&](const KeptEntry& k) {
        for (const auto& code : k.entry.photo->panels)
            if (PanelNow* p = f.panel(code)) p->photos.push_back(k.entry.id);
    });
    for (std::size_t i = f.entries.size(); i-- > 0;) {
        const KeptEntry& k = f.entries[i];
        EntryNow now{k.number, f.states[i], sentence_of(k.entry), who.owner || k.by_id == who.id, {}, k.entry};
        for (const auto& code : panels_of(k.entry))
            if (!f.place.count(code)) now.lost_panels.push_back(code);
        f.answer.entries.push_back(std::move(now));
    }
    // Two corrections of one slip, each unaware of the other.
    for (std::size_t i = 0; i < f.entries.size(); ++i)
        for (std::size_t j = i + 1; j < f.entries.size(); ++j) {
            const KeptEntry &a = f.entries[i], &b = f.entries[j];
            const auto both = [&](const std::string& x, const std::string& y) { return !x.empty() && x == y; };
            if (f.states[i] == EntryState::Stands && f.states[j] == EntryState::Stands && unaware(a, b) && a.entry.did != Did::MakeUp && a.entry.did != Did::Panels &&
                (both(a.entry.corrects, b.entry.corrects) || both(a.entry.follows, b.entry.follows)))
                f.answer.clashes.push_back({"Two devices changed the same entry. Take one of them back.", {a.entry.id, b.entry.id}});
        }
}

Result<InspectAnswer> folded(const std::string& id, const std::vector<KeptEntry>& entries, Ports& ports) {
    Fold f{entries};
    f.answer.piece = id;
    f.answer.version = std::string(program_version);
    f.answer.last = entries.back().number;
    HW_TRY(made, fold_make_up(f));
    static_cast<void>(made);
    draw(f);
    fold_facts(f);
    fold_zones(f);
    fold_condition(f);
    fold_marks(f);
    HW_TRY(read, fold_readings(f, ports));
    static_cast<void>(read);
    fold_leather(f);
    HW_TRY(spots, spots_now(f.entries, f.states, f.answer.panels, ports.clock.now_s()));
    f.answer.spots = std::move(spots);
    fold_disclosure(f);
    fold_missing(f);
    fold_entries(f, ports.who);
    return std::move(f.answer);
}

// ---- what is new

std::set<std::string> codes_ever(const std::vector<KeptEntry>& entries, const std::vector<Entry>& fresh) {
    std::set<std::string> out;
    const auto add = [&](const Entry& e) {
        if (!e.make_up) return;
        if (const auto drawn = drawing_of(*e.make_up); drawn.ok())
            for (const auto& p : drawn->panels) out.insert(p.code);
    };
    for (const auto& k : entries) add(k.entry);
    for (const auto& e : fresh) add(e);
    return out;
}

PieceRow row_for(const std::string& id, const std::vector<KeptEntry>& all, const std::string& now) {
    PieceRow row;
    row.id = id;
    row.changed_at = now;
    const auto states = states_of(all);
    for (std::size_t i = 0; i < all.size(); ++i)
        if (states[i] == EntryState::Stands && all[i].entry.make_up) {
            row.name = all[i].entry.make_up->name;
            row.family = all[i].entry.make_up->family;
        }
    return row;
}

Result<std::vector<KeptEntry>> entries_or_none(const std::string& id, Ports& ports) {
    if (id.empty()) return std::vector<KeptEntry>{};
    auto kept = ports.journal->entries(id);
    if (!kept.ok() && kept.error().code == ErrorCode::NotFound) return std::vector<KeptEntry>{};
    return kept;
}

/// An entry sent again does not have what was filled in the first time: a whole liquid, a time of drying.
void as_filled_in(Entry& again, const Entry& kept) {
    const auto liquid = [](Liquid& mine, const Liquid& whole) {
        if (mine.name.empty() && mine.id == whole.id) mine = whole;
    };
    if (again.laid && kept.laid) liquid(again.laid->liquid, kept.laid->liquid);
    if (!again.spot_made || !kept.spot_made) return;
    liquid(again.spot_made->liquid, kept.spot_made->liquid);
    if (!again.spot_made->dry_h) again.spot_made->dry_h = kept.spot_made->dry_h;
}

/// Appends what is new and gives the id of the piece.
Result<std::string> append(const InspectRequest& request, Ports& ports) {
    HW_TRY(before, entries_or_none(request.piece, ports));
    const auto panels = codes_ever(before, request.entries);
    const std::string now = ports.clock.now_utc();
    std::vector<KeptEntry> all = before, fresh;
    for (std::size_t i = 0; i < request.entries.size(); ++i) {
        KeptEntry k{0, ports.who.id, request.entries[i]};
        if (std::any_of(before.begin(), before.end(), [&](const KeptEntry& b) { return !k.entry.id.empty() && b.entry.id == k.entry.id; })) {
            const auto& kept = std::find_if(before.begin(), before.end(), [&](const KeptEntry& b) { return b.entry.id == k.entry.id; })->entry;
            as_filled_in(k.entry, kept);
            fresh.push_back(std::move(k));  // sent again: the store compares
            continue;
        }
        if (const auto fine = may_append(k.entry, all, panels, ports.who); !fine.ok()) {
            Error e = fine.error();
            if (e.where != "piece") e.where = "entries[" + std::to_string(i) + "]." + e.where;
            return e;
        }
        if (k.entry.laid) {
            auto whole = resolved(k.entry.laid->liquid, ports.store);
            if (!whole.ok()) return Error{whole.error().code, whole.error().message, "entries[" + std::to_string(i) + "].laid." + whole.error().where};
            k.entry.laid->liquid = std::move(*whole);
        }
        if (k.entry.spot_made) {
            HW_TRY(stands, folded(request.piece, all, ports));
            auto ready = made_ready(*k.entry.spot_made, stands, ports);
            if (!ready.ok()) return Error{ready.error().code, ready.error().message, "entries[" + std::to_string(i) + "]." + ready.error().where};
            k.entry.spot_made = std::move(*ready);
        }
        if (k.entry.id.empty()) k.entry.id = ports.journal->new_id();
        if (k.entry.at.empty()) k.entry.at = now;
        k.entry.by = ports.who.name;
        k.number = (all.empty() ? 0 : all.back().number) + 1;
        all.push_back(k);
        fresh.push_back(std::move(k));
    }
    const std::string id = request.piece.empty() ? ports.journal->new_id() : request.piece;
    HW_TRY(last, ports.journal->append(row_for(id, all, now), fresh));
    static_cast<void>(last);
    return id;
}

}  // namespace

Result<InspectAnswer> inspect(const InspectRequest& request, Ports& ports) {
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    if (const auto bad = out_of_range(request)) return *bad;
    std::string id = request.piece;
    if (!request.entries.empty()) {
        HW_TRY(kept, append(request, ports));
        id = kept;
    }
    HW_TRY(entries, ports.journal->entries(id));
    HW_TRY(away, ports.journal->is_away(id));
    HW_TRY(answer, folded(id, entries, ports));
    answer.put_away = away;
    return answer;
}

std::optional<Reason> what_stops(const InspectAnswer& piece, std::string_view panel, std::string_view step) {
    for (const auto& p : piece.panels) {
        if (p.code != panel) continue;
        for (const auto& kind : p.marks) {
            const auto& row = row_of(atlas::stop_marks, kind);
            if (has(split(row.stops), step)) return Reason{kind, std::string(row.plain_name) + " on " + p.code + ": " + std::string(row.sentence), "decides", basis_of(row, std::string(row.sentence), p.code)};
        }
    }
    return std::nullopt;
}

InspectionWords inspection_words() {
    InspectionWords out;
    for (const auto& f : piece::families()) {
        PieceFamily family{std::string(f.key), std::string(f.name), std::string(f.group), std::string(f.sides), {}};
        for (const auto& d : f.dimensions) family.measures.push_back({std::string(d.key), std::string(d.name), d.value_cm, d.least_cm, d.most_cm, d.per_place_cm, {}, false});
        for (const auto& o : f.options) family.measures.push_back({std::string(o.key), std::string(o.name), double(o.value), double(o.least), double(o.most), 0, {o.words.begin(), o.words.end()}, true});
        out.families.push_back(std::move(family));
    }
    const auto word = [](const auto& row) {
        Word w;
        w.key = std::string(row.key);
        w.name = std::string(row.plain_name);
        return w;
    };
    for (const auto& row : atlas::condition_terms) {
        out.terms.push_back(word(row));
        out.terms.back().group = std::string(row.group);
        out.terms.back().note = std::string(row.means);
    }
    for (const auto& row : atlas::reading_kinds) {
        if (row.key == "tape") continue;  // measures of the piece are entered as such
        Word w = word(row);
        w.group = std::string(row.taken_on);
        w.unit = std::string(row.unit);
        w.note = std::string(row.how);
        w.least_1 = row.lowest_1;
        w.most_1 = row.highest_1;
        w.places = static_cast<int>(row.places_n);
        w.calibrated = row.needs_calibration == "yes";
        out.readings.push_back(std::move(w));
    }
    for (const auto& row : atlas::stop_marks) {
        out.marks.push_back(word(row));
        out.marks.back().note = std::string(row.sentence);
    }
    for (const auto& row : atlas::leather_classes) {
        out.materials.push_back(word(row));
        out.materials.back().group = "leather";
    }
    for (const auto& row : atlas::other_materials) {
        out.materials.push_back(word(row));
        out.materials.back().note = std::string(row.sentence);
    }
    for (const auto& row : atlas::tannages) out.tannages.push_back(word(row));
    for (const auto& row : atlas::owner_wishes) out.wishes.push_back(word(row));
    return out;
}

}  // namespace hw::desk
