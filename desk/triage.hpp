// triage: the worried caller. People first, then what to say now, what never to do, how soon, and who it belongs to.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/belief.hpp"
#include "desk/judge.hpp"
#include "desk/ports.hpp"
#include "desk/print.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// How soon, soonest first.
enum class Soon { Now, Day, Week, Hold, Suits };
/// What becomes of the call.
enum class Path { Emergency, Book, Refer, Decline };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Soon> {
    static constexpr std::array<std::pair<desk::Soon, std::string_view>, 5> names{
        {{desk::Soon::Now, "now"}, {desk::Soon::Day, "day"}, {desk::Soon::Week, "week"}, {desk::Soon::Hold, "hold"}, {desk::Soon::Suits, "suits"}}};
};
template <>
struct hw::EnumNames<hw::desk::Path> {
    static constexpr std::array<std::pair<desk::Path, std::string_view>, 4> names{
        {{desk::Path::Emergency, "emergency"}, {desk::Path::Book, "book"}, {desk::Path::Refer, "refer"}, {desk::Path::Decline, "decline"}}};
};

namespace hw::desk {

/// What the caller said to one question. "dont_know" is a choice of every question.
struct TriageGiven {
    std::string question;
    std::vector<std::string> choices;
    std::optional<double> number_1;         ///< in `unit`
    std::string unit;
    std::string text;                       ///< in the caller's words; kept, never interpreted
};
template <class Visitor>
void describe(Visitor& visit, TriageGiven& g) {
    visit("question", g.question, About{.doc = "key of one of /api/triage_questions", .required = true});
    visit("choices", g.choices, About{.doc = "keys; dont_know is one of every question"});
    visit("number_1", g.number_1, About{.doc = "in the unit, where the question takes a number"});
    visit("unit", g.unit, About{.doc = "key of one of its units; left out: the first"});
    visit("text", g.text, About{.doc = "in the caller's words; kept, never interpreted"});
}

/// A sentence that was told to the caller, and when.
struct TriageTold {
    std::string key;
    std::string at;                         ///< ISO 8601, UTC
    std::string sentence;                   ///< word for word; filled in here, whatever was sent
};
template <class Visitor>
void describe(Visitor& visit, TriageTold& t) {
    visit("key", t.key, About{.required = true});
    visit("at", t.at, About{.doc = "ISO 8601, UTC", .required = true});
    visit("sentence", t.sentence, About{.doc = "word for word; filled in here, whatever was sent"});
}

struct TriageRequest {
    std::string caller;                     ///< what the caller is called
    std::vector<TriageGiven> answers;       ///< so far, one a question
    std::vector<std::string> may_i;         ///< what the caller asks leave for
    std::vector<TriageTold> told;           ///< as the last answer had it: each sentence keeps its time
    bool keep = false;                      ///< becomes a piece
    std::string piece;                      ///< UUID, made where it was typed; empty with keep: a new one
    std::string name;                       ///< what the shop will call the piece
    std::string device;
};
template <class Visitor>
void describe(Visitor& visit, TriageRequest& r) {
    visit("caller", r.caller, About{.doc = "what the caller is called"});
    visit("answers", r.answers, About{.doc = "so far, one a question; none is needed"});
    visit("may_i", r.may_i, About{.doc = "what the caller asks leave for: keys of /api/triage_questions"});
    visit("told", r.told, About{.doc = "as the last answer had it: each sentence keeps the time at which it was first told"});
    visit("keep", r.keep, About{.doc = "becomes a piece; sent again, nothing is doubled"});
    visit("piece", r.piece, About{.doc = "UUID of the piece, made where it was typed; left out with keep: a new one"});
    visit("name", r.name, About{.doc = "what the shop will call the piece"});
    visit("device", r.device, About{.doc = "which device"});
}

/// A sentence to read out, and why.
struct TriageSentence {
    std::string key;
    std::string sentence;
    std::string why;
    std::string at;                         ///< when it was first told
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageSentence& s) {
    visit("key", s.key, About{});
    visit("sentence", s.sentence, About{.doc = "to read out word for word"});
    visit("why", s.why, About{.doc = "for who reads it out"});
    visit("at", s.at, About{.doc = "when it was first told; ISO 8601, UTC"});
    visit("basis", s.basis, About{});
}

/// "May I …?"
struct TriageMayI {
    std::string key;
    std::string asks;                       ///< "May I dry it with a hair dryer?"
    bool yes = false;
    std::string answer;
    std::string at;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageMayI& m) {
    visit("key", m.key, About{});
    visit("asks", m.asks, About{});
    visit("yes", m.yes, About{});
    visit("answer", m.answer, About{});
    visit("at", m.at, About{.doc = "when it was first told; ISO 8601, UTC"});
    visit("basis", m.basis, About{});
}

struct TriageNext {
    std::string question;
    std::string asks;
    std::string why;                        ///< what it can still change
};
template <class Visitor>
void describe(Visitor& visit, TriageNext& n) {
    visit("question", n.question, About{.doc = "key of one of /api/triage_questions"});
    visit("asks", n.asks, About{});
    visit("why", n.why, About{.doc = "what it can still change"});
}

/// A question that was answered, in words.
struct TriageHeard {
    std::string question;
    std::string name;
    std::string words;
    bool known = true;                      ///< false: "don't know"
};
template <class Visitor>
void describe(Visitor& visit, TriageHeard& h) {
    visit("question", h.question, About{});
    visit("name", h.name, About{});
    visit("words", h.words, About{});
    visit("known", h.known, About{.doc = "false: the caller does not know"});
}

/// What was taken for want of an answer.
struct TriageDefault {
    std::string question;
    std::string sentence;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageDefault& d) {
    visit("question", d.question, About{.doc = "may be empty: nobody is asked for it"});
    visit("sentence", d.sentence, About{});
    visit("basis", d.basis, About{});
}

struct TriageUrgency {
    Soon soon = Soon::Suits;
    std::string words;                      ///< "today or tomorrow"
    std::string sentence;                   ///< what decides it
    double from_h = 0, to_h = 0;            ///< after the call, the time to be seen in
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageUrgency& u) {
    visit("soon", u.soon, About{});
    visit("words", u.words, About{});
    visit("sentence", u.sentence, About{.doc = "what decides it"});
    visit("from_h", u.from_h, About{.doc = "after the call: be seen from then"});
    visit("to_h", u.to_h, About{.doc = "after the call: be seen by then"});
    visit("basis", u.basis, About{});
}

/// Book, refer, decline; whom it belongs to.
struct TriageDecision {
    Path path = Path::Book;
    std::string sentence;
    std::string to_whom;                    ///< empty when it is ours
    std::string why;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageDecision& d) {
    visit("path", d.path, About{});
    visit("sentence", d.sentence, About{});
    visit("to_whom", d.to_whom, About{.doc = "empty when it is ours"});
    visit("why", d.why, About{});
    visit("basis", d.basis, About{});
}

/// Alkali or acid per area, by what was said and the usual figures of the class. No reading stands behind it.
struct TriageDose {
    bool known = false;
    bool alkali = true;                     ///< false: acid
    std::string sentence;
    Band applied;                           ///< mmol/m²
    Band left;                              ///< after wiping
    Number product;                         ///< g, before dilution
    Number area;                            ///< cm²
    Number reserve;                         ///< mmol/g
    Number wiped;                           ///< %
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, TriageDose& d) {
    visit("known", d.known, About{.doc = "false: the sentence says what is missing"});
    visit("alkali", d.alkali, About{.doc = "false: acid"});
    visit("sentence", d.sentence, About{});
    visit("applied", d.applied, About{.doc = "mmol per m² laid on"});
    visit("left", d.left, About{.doc = "mmol per m² left after wiping"});
    visit("product", d.product, About{.doc = "g, before dilution"});
    visit("area", d.area, About{.doc = "cm²"});
    visit("reserve", d.reserve, About{.doc = "mmol per g of product, by its class"});
    visit("wiped", d.wiped, About{.doc = "per cent taken off again"});
    visit("basis", d.basis, About{});
}

struct TriageAnswer {
    std::string at;                         ///< ISO 8601, UTC
    std::string caller, name;
    std::optional<Stop> stop;
    std::vector<TriageSentence> say;        ///< now, in this order
    std::vector<TriageSentence> never;
    std::vector<TriageMayI> may_i;
    std::vector<TriageNext> next;           ///< questions that can still change something, in their order
    int left = 0;                           ///< how many those are
    TriageUrgency urgency;
    TriageDecision decision;
    std::vector<TriageSentence> photos;
    bool evidence = false;
    std::vector<TriageSentence> evidence_keep;
    TriageDose dose;
    std::vector<TriageHeard> heard;
    std::vector<TriageDefault> defaults;
    std::optional<double> ago_h;            ///< hours since it came on, the middle of what was told; empty: nobody said
    bool tacky = false;                     ///< it sticks
    bool nothing_laid = false;              ///< no liquid came onto it
    JudgeRequest judge;                     ///< to go on with: figures of the class, a guess of the leather
    std::string judge_sentence;             ///< what in it is a guess; empty: there is nothing to judge yet
    std::vector<TriageTold> told;           ///< everything that was told so far, oldest first
    std::string piece;                      ///< id, when kept
    std::vector<Basis> sources;
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, TriageAnswer& a) {
    visit("at", a.at, About{.doc = "ISO 8601, UTC"});
    visit("caller", a.caller, About{});
    visit("name", a.name, About{.doc = "of the piece"});
    visit("stop", a.stop, About{});
    visit("say", a.say, About{.doc = "now, in this order"});
    visit("never", a.never, About{});
    visit("may_i", a.may_i, About{.doc = "what was asked, and what was done already and must not be done again"});
    visit("next", a.next, About{.doc = "questions that can still change something, the first one first"});
    visit("left", a.left, About{.doc = "how many questions are left"});
    visit("urgency", a.urgency, About{});
    visit("decision", a.decision, About{});
    visit("photos", a.photos, About{.doc = "to ask for"});
    visit("evidence", a.evidence, About{.doc = "somebody may want proof"});
    visit("evidence_keep", a.evidence_keep, About{});
    visit("dose", a.dose, About{});
    visit("heard", a.heard, About{});
    visit("defaults", a.defaults, About{.doc = "what was taken for want of an answer"});
    visit("ago_h", a.ago_h, About{.doc = "hours since it came on, the middle of what was told; null: nobody said"});
    visit("tacky", a.tacky, About{.doc = "it sticks"});
    visit("nothing_laid", a.nothing_laid, About{.doc = "no liquid came onto it"});
    visit("judge", a.judge, About{.doc = "to go on with: figures of the class, a guess of the leather"});
    visit("judge_sentence", a.judge_sentence, About{.doc = "what in it is a guess; empty: there is nothing to judge yet"});
    visit("told", a.told, About{.doc = "everything that was told so far, oldest first: to be sent back"});
    visit("piece", a.piece, About{.doc = "id of the piece, when kept"});
    visit("sources", a.sources, About{});
    visit("version", a.version, About{});
}

/// The words to choose from.
struct TriageChoice {
    std::string key, name;
};
template <class Visitor>
void describe(Visitor& visit, TriageChoice& c) {
    visit("key", c.key, About{});
    visit("name", c.name, About{});
}
struct TriageUnit {
    std::string key, name;
    double least_1 = 0, most_1 = 0;
};
template <class Visitor>
void describe(Visitor& visit, TriageUnit& u) {
    visit("key", u.key, About{});
    visit("name", u.name, About{});
    visit("least_1", u.least_1, About{});
    visit("most_1", u.most_1, About{});
}
struct TriageQuestion {
    std::string key, name, asks, why;
    bool several = false;                   ///< more than one choice may be true
    bool takes_text = false;
    std::vector<TriageChoice> choices;
    std::vector<TriageUnit> units;          ///< where it takes a number
};
template <class Visitor>
void describe(Visitor& visit, TriageQuestion& q) {
    visit("key", q.key, About{});
    visit("name", q.name, About{.doc = "short, for lists"});
    visit("asks", q.asks, About{.doc = "to read out"});
    visit("why", q.why, About{.doc = "what it can change"});
    visit("several", q.several, About{.doc = "more than one choice may be true"});
    visit("takes_text", q.takes_text, About{.doc = "the caller's own words may be written beside it"});
    visit("choices", q.choices, About{});
    visit("units", q.units, About{.doc = "where it takes a number; the first is the usual one"});
}
struct TriageQuestions {
    std::vector<TriageQuestion> questions;
    std::vector<TriageChoice> may_i;
    std::vector<TriageChoice> do_not_say;   ///< for who speaks: what is never promised, and why
};
template <class Visitor>
void describe(Visitor& visit, TriageQuestions& q) {
    visit("questions", q.questions, About{.doc = "in the order of a calm call"});
    visit("may_i", q.may_i, About{.doc = "what callers ask leave for"});
    visit("do_not_say", q.do_not_say, About{.doc = "for who speaks: what is never said, and why"});
}

/// What to tell the caller by what was said so far; with keep, a piece with all of it.
///
/// @error InvalidInput  a question twice, a choice with dont_know or a second one where one is asked for, a unit or number
///                      where none is taken, a time that cannot be read
/// @error NotFound      no such question, choice, unit, may_i or sentence told
/// @error OutOfRange    a number outside the range of its unit
/// @error Unavailable   keep without records
Result<TriageAnswer> triage(const TriageRequest& request, Ports& ports);

TriageQuestions triage_questions();

/// One page to print or send. @error as triage; Unavailable without a printer
Result<PrintAnswer> print_triage(const TriageRequest& request, Paper paper, Ports& ports);

}  // namespace hw::desk
