#include "desk/triage.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>

#include "atlas/owner_wishes.hpp"
#include "atlas/piece_families.hpp"
#include "atlas/triage_choices.hpp"
#include "atlas/triage_classes.hpp"
#include "atlas/triage_decisions.hpp"
#include "atlas/triage_figures.hpp"
#include "atlas/triage_may_i.hpp"
#include "atlas/triage_never_say.hpp"
#include "atlas/triage_questions.hpp"
#include "atlas/triage_sentences.hpp"
#include "atlas/triage_units.hpp"
#include "atlas/triage_urgency.hpp"
#include "desk/inspect.hpp"
#include "desk/triage_case.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

std::string choice_words(std::string_view question, std::string_view key) {
    if (key == "dont_know") return "don’t know";
    if (question == "product") return std::string(triage_row(atlas::triage_classes, key).plain_name);
    if (question == "wishes") return std::string(triage_row(atlas::owner_wishes, key).plain_name);
    for (const auto& row : atlas::triage_choices)
        if (row.question == question && row.key == key) return std::string(row.plain_name);
    return std::string(triage_row(atlas::piece_families, key).plain_name);
}

std::string given_words(const TriageGiven& g) {
    std::string out;
    for (const auto& key : g.choices) out += (out.empty() ? "" : ", ") + choice_words(g.question, key);
    if (g.number_1)
        for (const auto& unit : atlas::triage_units)
            if (unit.question == g.question && (g.unit.empty() || unit.key == g.unit)) {
                const double v = *g.number_1;
                out += (out.empty() ? "" : ", ") + (unit.key == "ph" ? "pH " + fixed(v, 1) : fixed(v, v == static_cast<double>(static_cast<long long>(v)) ? 0 : 1) + " " + std::string(unit.plain_name));
                break;
            }
    if (!g.text.empty()) out += (out.empty() ? "“" : "; “") + g.text + "”";
    return out;
}

// ---- what was told, each sentence with the time at which it was first told

constexpr std::string_view asked_leave = "may_i.", was_done = "done.", of_class = "class.";

std::string text_of_key(std::string_view key) {
    if (key.starts_with(asked_leave)) return std::string(triage_row(atlas::triage_may_i, key.substr(asked_leave.size())).answer);
    if (key.starts_with(was_done)) return std::string(triage_row(atlas::triage_may_i, key.substr(was_done.size())).done);
    if (key.starts_with(of_class)) return std::string(triage_row(atlas::triage_classes, key.substr(of_class.size())).never_add);
    return std::string(triage_row(atlas::triage_sentences, key).sentence);
}

class Told {
public:
    Told(const std::vector<TriageTold>& before, std::string now) : now_(std::move(now)) {
        for (const auto& t : before)
            if (find(t.key) == nullptr) all_.push_back({t.key, t.at, text_of_key(t.key)});
    }
    /// Its time: that of the first telling.
    std::string tell(const std::string& key) {
        if (const auto* t = find(key)) return t->at;
        all_.push_back({key, now_, text_of_key(key)});
        return now_;
    }
    std::vector<TriageTold> all() const { return all_; }

private:
    [[nodiscard]] const TriageTold* find(const std::string& key) const {
        for (const auto& t : all_)
            if (t.key == key) return &t;
        return nullptr;
    }
    std::string now_;
    std::vector<TriageTold> all_;
};

TriageSentence sentence(std::string_view key, Told& told) {
    const auto& row = triage_row(atlas::triage_sentences, key);
    return {std::string(key), std::string(row.sentence), std::string(row.why), told.tell(std::string(key)), basis_of_row(row, row.why)};
}

/// For us, not for the caller: no time.
TriageSentence to_ask(std::string_view key) {
    const auto& row = triage_row(atlas::triage_sentences, key);
    return {std::string(key), std::string(row.sentence), std::string(row.why), "", basis_of_row(row, row.why)};
}

TriageSentence never_of_class(std::string_view key, Told& told) {
    const auto& row = triage_row(atlas::triage_classes, key);
    const std::string full = std::string(of_class) + std::string(key);
    return {full, std::string(row.never_add), std::string(row.harm), told.tell(full), basis_of_row(row, row.harm, std::string(row.plain_name))};
}

TriageMayI leave_for(const TriageCase& c, std::string key, Told& told) {
    if (key == "water") key = hands_off(c) ? "water_stop" : water_allowed(c) ? "water_yes" : "water_no";
    const auto& row = triage_row(atlas::triage_may_i, key);
    return {key, std::string(row.asks), key == "water_yes", std::string(row.answer), told.tell(std::string(asked_leave) + key), basis_of_row(row, "Home remedies are refused, each for its reason")};
}

/// What was done already: not scolded, only not to be done again.
TriageMayI no_more(std::string_view key, Told& told) {
    const auto& row = triage_row(atlas::triage_may_i, key);
    return {std::string(key), std::string(row.asks), false, std::string(row.done), told.tell(std::string(was_done) + std::string(key)), basis_of_row(row, "Two products on one place count as mixed")};
}

std::vector<TriageMayI> may_i(const TriageCase& c, Told& told) {
    std::vector<TriageMayI> out;
    const auto stands = [&](std::string_view key) { return std::any_of(out.begin(), out.end(), [&](const TriageMayI& m) { return m.key == key || (key == "water" && m.key.starts_with("water_")); }); };
    for (const auto& key : c.request->may_i)
        if (!stands(key)) out.push_back(leave_for(c, key, told));
    constexpr std::pair<std::string_view, std::string_view> done[] = {{"hair_dryer", "hair_dryer"}, {"vinegar", "vinegar"}, {"bicarbonate", "bicarbonate"}, {"soap", "more_soap"}, {"more_same", "more_same"}, {"other_cleaner", "other_cleaner"},
                                                                      {"conditioner", "conditioner"}, {"oil", "conditioner"}, {"alcohol", "alcohol"}, {"bleach", "bleach"}, {"ammonia", "ammonia"}, {"steam", "steam"}};
    for (const auto& [since, key] : done)
        if (c.said("since", since) && !stands(key)) out.push_back(no_more(key, told));
    return out;
}

// ---- the parts of the answer

TriageUrgency urgency(const TriageAdvice& a) {
    const auto& row = triage_row(atlas::triage_urgency, a.soon);
    TriageUrgency u;
    for (const auto& [soon, name] : EnumNames<Soon>::names)
        if (name == a.soon) u.soon = soon;
    u.words = std::string(row.words);
    u.sentence = std::string(triage_row(atlas::triage_sentences, a.soon_because).sentence);
    u.from_h = row.from_h;
    u.to_h = row.to_h;
    u.basis = basis_of_row(row, u.sentence);
    return u;
}

TriageDecision decision(const TriageAdvice& a) {
    const auto& row = triage_row(atlas::triage_decisions, a.decision);
    TriageDecision d;
    for (const auto& [path, name] : EnumNames<Path>::names)
        if (name == row.path) d.path = path;
    d.sentence = std::string(row.sentence);
    d.to_whom = std::string(row.to_whom);
    d.why = std::string(row.why);
    d.basis = basis_of_row(row, row.why);
    return d;
}

std::vector<TriageNext> next_of(const TriageCase& c) {
    std::vector<TriageNext> out;
    for (const auto& q : atlas::triage_questions)
        if (c.given(q.key) == nullptr && matters(c, q.key)) out.push_back({std::string(q.key), std::string(q.asks), std::string(q.why)});
    // Fresh air, then people; then what may have met, then what may not get wet; the piece is asked for afterwards.
    const bool careful = !c.dry() && (c.has_kind("bleach") || c.suspect());
    std::vector<std::string_view> order{"safe", "people"};
    if (careful) order.insert(order.end(), {"since", "cleaned", "label", "wet", "parts"});
    else if (c.topped()) order.insert(order.end(), {"label"});
    if (!c.dry() && (c.burns() || c.flames())) order.insert(order.end(), {"since", "label", "parts"});
    if (c.mould()) order.insert(order.end(), {"household"});
    if (c.declined()) order.insert(order.end(), {"parts", "involved"});
    const auto first = [&](const TriageNext& n) { return order.end() - std::find(order.begin(), order.end(), n.question); };
    std::stable_sort(out.begin(), out.end(), [&](const TriageNext& a, const TriageNext& b) { return first(a) > first(b); });
    return out;
}

std::vector<TriageDefault> defaults_of(const TriageCase& c, const TriageDose& dose) {
    std::vector<TriageDefault> out;
    const auto add = [&](const char* question, std::string words, Basis basis) { out.push_back({question, std::move(words), std::move(basis)}); };
    const Basis careful{"What is not known counts as the worse of what is likely", "own", "rule of this program", Standing::Estimate, ""};
    if (!c.told("people")) add("people", "Nobody has said that everybody is well.", careful);
    if (!c.told("product")) add("product", "The product is not known: it counts as possibly bleach, acid or ammonia.", careful);
    if (hands_off(c)) return out;
    if (!c.told("wet")) add("wet", c.dry() ? "It is taken to be dry after so long." : "It is taken to be wet still.", careful);
    if (!c.told("surface")) add("surface", "The surface is taken to be open: it takes up water at once.", careful);
    if (c.in_car() && !c.told("parts")) add("parts", "An airbag, a heater or a sensor is taken to be there.", careful);
    if (dose.known) {
        const auto* neat = c.given("neat");
        if (neat == nullptr || (!neat->number_1 && !c.any("neat", {"neat", "ready"}))) add("neat", "It is taken to have been used as it is.", careful);
        if (c.given("area")->unit != "cm2") {
            const auto& hand = triage_row(atlas::triage_figures, "hand");
            add("area", "A hand with its fingers is " + fixed(hand.low_1, 0) + " to " + fixed(hand.high_1, 0) + " cm².", basis_of_row(hand, hand.plain_name));
        }
        if (!c.said("wiped", "not_wiped")) {
            const auto& wiped = triage_row(atlas::triage_figures, "wiped");
            add("wiped", "A cloth takes " + fixed(wiped.low_1, 0) + " to " + fixed(wiped.high_1, 0) + " % off again.", basis_of_row(wiped, wiped.plain_name));
        }
    }
    return out;
}

std::string judge_words(const TriageCase& c) {
    if (!has_liquid(c)) return {};
    return "The liquid has the usual figures of its class, and the leather is guessed " + std::string(c.told("surface") ? "from how it looks" : "as the most open that it may be") + ": put in what the label and the piece say.";
}

std::vector<Basis> sources_of(const TriageAnswer& a) {
    std::vector<Basis> out;
    const auto add = [&](const Basis& b) {
        if (std::none_of(out.begin(), out.end(), [&](const Basis& o) { return o.source == b.source && o.locator == b.locator; })) out.push_back(b);
    };
    if (a.stop) add(a.stop->basis);
    for (const auto* list : {&a.say, &a.never, &a.evidence_keep})
        for (const auto& s : *list) add(s.basis);
    for (const auto& m : a.may_i) add(m.basis);
    add(a.urgency.basis);
    add(a.decision.basis);
    if (a.dose.known) add(a.dose.basis);
    for (const auto& d : a.defaults) add(d.basis);
    return out;
}

TriageAnswer answered(const TriageCase& c, const std::string& now) {
    TriageAnswer a;
    a.at = now;
    a.caller = c.request->caller;
    a.name = c.request->name;
    a.version = std::string(program_version);
    const TriageAdvice advice = advice_of(c);
    Told told(c.request->told, now);
    for (const auto key : advice.say) a.say.push_back(sentence(key, told));
    for (const auto key : advice.never) a.never.push_back(sentence(key, told));
    for (const auto key : products_put_on(c))
        if (!triage_row(atlas::triage_classes, key).never_add.empty() && !hands_off(c)) a.never.push_back(never_of_class(key, told));
    a.may_i = may_i(c, told);
    a.stop = triage_stop(c);
    if (a.stop) {
        // One wording: the stop says what is said.
        a.stop->do_now.clear();
        a.stop->never.clear();
        for (const auto& s : a.say) a.stop->do_now.push_back(s.sentence);
        for (const auto& s : a.never) a.stop->never.push_back(s.sentence);
    }
    a.next = next_of(c);
    a.left = static_cast<int>(a.next.size());
    a.urgency = urgency(advice);
    a.decision = decision(advice);
    for (const auto key : advice.photos) a.photos.push_back(to_ask(key));
    a.evidence = !advice.keep.empty();
    for (const auto key : advice.keep) a.evidence_keep.push_back(sentence(key, told));
    a.dose = dose_of(c);
    for (const auto& g : c.request->answers) a.heard.push_back({g.question, std::string(triage_row(atlas::triage_questions, g.question).plain_name), given_words(g), !c.said(g.question, "dont_know")});
    a.defaults = defaults_of(c, a.dose);
    for (const char* when : {"now", "today", "yesterday", "days", "weeks"})
        if (c.said("when", when)) {
            const auto& row = triage_row(atlas::triage_figures, "ago_" + std::string(when));
            a.ago_h = (row.low_1 + row.high_1) / 2;
        }
    a.tacky = c.said("seen", "sticky");
    a.nothing_laid = c.said("product", "none");
    a.judge = judge_from(c);
    a.judge_sentence = judge_words(c);
    a.told = told.all();
    a.sources = sources_of(a);
    return a;
}

// ---- the call becomes a piece

std::uint64_t mixed(std::string_view text, std::uint64_t h) {    // FNV-1a
    for (const char ch : text) h = (h ^ static_cast<unsigned char>(ch)) * 1099511628211ULL;
    return h;
}

/// The same words on the same piece give the same id, so that a call sent twice is kept once.
std::string id_of(const std::string& piece, const Entry& e, const std::string& what) {
    const std::string text = piece + "|triage|" + std::to_string(static_cast<int>(e.did)) + "|" + what;
    const std::uint64_t a = mixed(text, 14695981039346656037ULL), b = mixed(text, a ^ 0x9E3779B97F4A7C15ULL);
    char out[40];
    std::snprintf(out, sizeof out, "%08x-%04x-8%03x-%04x-%012llx", static_cast<unsigned>(a >> 32), static_cast<unsigned>((a >> 16) & 0xFFFF), static_cast<unsigned>(a & 0xFFF), static_cast<unsigned>(((b >> 48) & 0x3FFF) | 0x8000),
                  static_cast<unsigned long long>(b & 0xFFFFFFFFFFFFULL));
    return out;
}

/// A piece that no family draws is begun as the place that was treated, to be drawn later.
MakeUp make_up_of(const TriageCase& c) {
    MakeUp m;
    const auto* piece = c.given("piece");
    const bool family = piece != nullptr && !piece->choices.empty() && piece->choices[0] != "other" && piece->choices[0] != "dont_know";
    m.family = family ? piece->choices[0] : "free";
    m.name = !c.request->name.empty() ? c.request->name : c.request->caller.empty() ? "Piece of a call" : "Piece of " + c.request->caller;
    m.note = "From a call: to be drawn and measured.";
    if (!family) {
        constexpr double side_cm = 30;
        m.free.push_back({"Place that was treated, to be drawn", FreeShape::Rectangle, side_cm, side_cm, 0, {}});
    }
    return m;
}

Result<std::string> kept(const TriageCase& c, const TriageAnswer& a, Ports& ports) {
    if (ports.journal == nullptr) return Error{ErrorCode::Unavailable, "No records are joined in. Give them with --data FOLDER.", "data"};
    const TriageRequest& r = *c.request;
    const std::string piece = r.piece.empty() ? ports.journal->new_id() : r.piece;
    auto before = ports.journal->entries(piece);
    if (!before.ok() && before.error().code != ErrorCode::NotFound) return before.error();
    InspectRequest to;
    to.piece = piece;
    const auto put = [&](Entry e, const std::string& what, const std::string& at) {
        e.id = id_of(piece, e, what);
        e.at = at;
        e.device = r.device;
        if (before.ok()) {
            if (std::any_of(before->begin(), before->end(), [&](const KeptEntry& k) { return k.entry.id == e.id; })) return;
            e.seen = before->empty() ? 0 : before->back().number;
        }
        to.entries.push_back(std::move(e));
    };
    const auto say = [&](SaidKind kind, const std::string& who, const std::string& text, const std::string& at) {
        Entry e;
        e.did = Did::Said;
        e.said = Said{kind, who, {}, text};
        put(std::move(e), who + "|" + text, at);
    };
    Entry begun;
    begun.did = Did::MakeUp;
    begun.make_up = make_up_of(c);
    put(begun, begun.make_up->family + "|" + begun.make_up->name, a.at);
    const std::string who = r.caller.empty() ? "caller" : r.caller;
    for (const auto& h : a.heard)
        if (h.question != "wishes") say(SaidKind::History, who, h.name + ": " + h.words, a.at);
    if (const auto* wishes = c.given("wishes"); wishes != nullptr && c.told("wishes")) {
        Entry e;
        e.did = Did::Said;
        e.said = Said{SaidKind::Wish, who, wishes->choices, wishes->text};
        put(std::move(e), who + "|" + given_words(*wishes), a.at);
    }
    if (a.stop) say(SaidKind::Statement, "shop", "Stop: " + a.stop->headline, a.at);
    // Word for word, each at its time.
    for (const auto& t : a.told) say(SaidKind::Statement, "shop", "Told to " + who + ": " + t.sentence, t.at);
    if (a.dose.known) say(SaidKind::Statement, "shop", a.dose.sentence, a.at);
    say(SaidKind::Statement, "shop", "To be seen: " + a.urgency.words + ". " + a.decision.sentence, a.at);
    HW_TRY(now, inspect(to, ports));
    return now.piece;
}

}  // namespace

Result<TriageAnswer> triage(const TriageRequest& request, Ports& ports) {
    HW_TRY(c, case_of(request));
    TriageAnswer a = answered(c, ports.clock.now_utc());
    if (request.keep) {
        HW_TRY(piece, kept(c, a, ports));
        a.piece = piece;
    }
    return a;
}

TriageQuestions triage_questions() {
    TriageQuestions out;
    for (const auto& row : atlas::triage_questions) {
        TriageQuestion q{std::string(row.key), std::string(row.plain_name), std::string(row.asks), std::string(row.why), row.several == "yes", row.takes_text == "yes", {}, {}};
        const auto add = [&](std::string_view key) { q.choices.push_back({std::string(key), choice_words(q.key, key)}); };
        if (q.key == "product")
            for (const auto& c : atlas::triage_classes) add(c.key);
        if (q.key == "wishes")
            for (const auto& c : atlas::owner_wishes) add(c.key);
        if (q.key == "piece")
            for (const auto& c : atlas::piece_families) add(c.key);
        for (const auto& c : atlas::triage_choices)
            if (c.question == row.key) add(c.key);
        add("dont_know");
        for (const auto& u : atlas::triage_units)
            if (u.question == row.key) q.units.push_back({std::string(u.key), std::string(u.plain_name), u.least_1, u.most_1});
        out.questions.push_back(std::move(q));
    }
    for (const auto& row : atlas::triage_may_i)
        if (row.key != "water_no" && row.key != "water_stop") out.may_i.push_back({row.key == "water_yes" ? "water" : std::string(row.key), std::string(row.asks)});
    for (const auto& row : atlas::triage_never_say) out.do_not_say.push_back({"“" + std::string(row.phrase) + "”", std::string(row.reason)});
    return out;
}

Result<PrintAnswer> print_triage(const TriageRequest& request, Paper paper, Ports& ports) {
    if (ports.printer == nullptr) return Error{ErrorCode::Unavailable, "Nothing can be printed here: no printer is joined in.", "page"};
    HW_TRY(c, case_of(request));
    HW_TRY(pdf, ports.printer->page(answered(c, ports.clock.now_utc()), paper));
    return PrintAnswer{std::move(pdf), "call.pdf"};
}

}  // namespace hw::desk
