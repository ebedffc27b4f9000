// identify: what a covering is, from simple tests, the least invasive first. Every answer is a chance with a band; "cannot be told
// yet" is an answer. A proven piece teaches the tables.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "desk/piece.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A covering that was proven by more than the tests of the bench.
struct Proven {
    std::string id;                         ///< UUID
    std::string at, by;                     ///< filled in at the door
    std::string kind, tannage;              ///< tannage empty: not proven
    std::string proof;                      ///< edge_seen, laboratory or maker
    std::vector<std::string> veils;         ///< what was there that hides: keys of atlas/identify_hiders.csv
    std::string place;                      ///< furniture, seating or car; filled in
    std::vector<CoverSaw> saw;              ///< what the tests had shown; filled in
    std::string takes_back;                 ///< id of a proof that was wrong; then nothing else counts
};
template <class Visitor>
void describe(Visitor& visit, Proven& p) {
    visit("id", p.id, About{.doc = "UUID; left out: made here"});
    visit("at", p.at, About{.doc = "filled in"});
    visit("by", p.by, About{.doc = "filled in"});
    visit("kind", p.kind, About{.doc = "one of /api/identify_words"});
    visit("tannage", p.tannage, About{.doc = "empty: not proven"});
    visit("proof", p.proof, About{.doc = "edge_seen, laboratory or maker"});
    visit("veils", p.veils, About{.doc = "what was there that hides: worn, recoloured, oil, wax"});
    visit("place", p.place, About{.doc = "filled in"});
    visit("saw", p.saw, About{.doc = "what the tests had shown; filled in from the request"});
    visit("takes_back", p.takes_back, About{.doc = "id of a proof that was wrong; then nothing else counts"});
}

struct IdentifyRequest {
    std::string piece, panel;               ///< a panel of a piece; else what follows
    std::string place;                      ///< furniture, seating or car; of a piece by its family
    std::string age = "not_known", region = "not_known";
    Wear wear = Wear::NotSaid;              ///< of a panel as it was entered
    Exposure exposure = Exposure::NotSaid;
    std::vector<CoverSaw> saw;
    std::vector<std::string> same_as;       ///< panels that are surely of the same covering
    std::vector<std::string> cannot;        ///< tests that cannot be done here
    std::optional<double> finish_um, thickness_mm, shrinkage_c;
    bool write = false;                     ///< keep the answer on the panel
    std::optional<Proven> proven;           ///< keep a proof
};
template <class Visitor>
void describe(Visitor& visit, IdentifyRequest& r) {
    visit("piece", r.piece, About{.doc = "id; with panel: what stands there is read and need not be given again"});
    visit("panel", r.panel, About{.doc = "code"});
    visit("place", r.place, About{.doc = "furniture, seating or car; left out: by the piece, else furniture"});
    visit("age", r.age, About{.doc = "not_known, before_1980, from_1980 or since_2005"});
    visit("region", r.region, About{.doc = "where it was made or bought: not_known, europe or north_america"});
    visit("wear", r.wear, About{.doc = "of a panel as it was entered"});
    visit("exposure", r.exposure, About{.doc = "of a panel as it was entered"});
    visit("saw", r.saw, About{.doc = "what tests showed; the later one of a test and place counts"});
    visit("same_as", r.same_as, About{.doc = "panels that are surely of the same covering: they share the kind, not the wear"});
    visit("cannot", r.cannot, About{.doc = "tests that cannot be done here: they are not named next"});
    visit("finish_um", r.finish_um, About{.doc = "film, measured", .minimum = 0, .maximum = 2000});
    visit("thickness_mm", r.thickness_mm, About{.doc = "of the whole, measured", .minimum = 0.2, .maximum = 10});
    visit("shrinkage_c", r.shrinkage_c, About{.doc = "read in a laboratory, ISO 3380", .minimum = 20, .maximum = 130});
    visit("write", r.write, About{.doc = "keep the answer on the panel"});
    visit("proven", r.proven, About{.doc = "what it was proven to be: teaches the tables"});
}

struct CoverShare {
    std::string key, name;
    Number chance;                          ///< per cent
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, CoverShare& s) {
    visit("key", s.key, About{});
    visit("name", s.name, About{});
    visit("chance", s.chance, About{.doc = "per cent; the band is 5 to 95 % of what is not known of the tables"});
    visit("note", s.note, About{});
}

enum class Pulls { For, Against, Neither };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Pulls> {
    static constexpr std::array<std::pair<desk::Pulls, std::string_view>, 3> names{{{desk::Pulls::For, "for"}, {desk::Pulls::Against, "against"}, {desk::Pulls::Neither, "neither"}}};
};

namespace hw::desk {

/// What one thing seen does to the first against the second, all else left as it is.
struct CoverMoved {
    CoverSaw saw;
    std::string sentence;
    double times_1 = 1;                     ///< odds of the first against the second with it, over those without
    double bans_1 = 0;                      ///< log10 of that
    double fits_1 = 0;                      ///< chance of this answer if the first is right, given all else
    Pulls pulls = Pulls::Neither;
    bool contradicts = false;
    double shop_1 = 0;                      ///< share of the shop's own counts in the row of the first
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, CoverMoved& m) {
    visit("saw", m.saw, About{});
    visit("sentence", m.sentence, About{});
    visit("times_1", m.times_1, About{.doc = "odds of the first against the second with it, over those without; they need not multiply to the whole"});
    visit("bans_1", m.bans_1, About{.doc = "log10 of that"});
    visit("fits_1", m.fits_1, About{.doc = "chance of this answer if the first is right, given all else"});
    visit("pulls", m.pulls, About{});
    visit("contradicts", m.contradicts, About{});
    visit("shop_1", m.shop_1, About{.doc = "share of the shop's own counts in the row of the first"});
    visit("basis", m.basis, About{});
}

/// What can still be looked at, best first.
struct CoverNext {
    std::string test, name;
    double bits_1 = 0;                      ///< expected to settle, of kind and tannage
    double bits_per_min_1 = 0;              ///< by its minutes and the price of its harm
    double work_min = 0, harm_1 = 0;
    std::string harm;
    double changes_1 = 0;                   ///< chance that another class goes into judge
    std::string sentence;
};
template <class Visitor>
void describe(Visitor& visit, CoverNext& n) {
    visit("test", n.test, About{});
    visit("name", n.name, About{});
    visit("bits_1", n.bits_1, About{.doc = "expected fall of the entropy of kind and tannage"});
    visit("bits_per_min_1", n.bits_per_min_1, About{.doc = "by its minutes and the price of its harm in minutes"});
    visit("work_min", n.work_min, About{});
    visit("harm_1", n.harm_1, About{.doc = "0 none to 3 for good"});
    visit("harm", n.harm, About{});
    visit("changes_1", n.changes_1, About{.doc = "chance that another class goes into judge"});
    visit("sentence", n.sentence, About{});
}

struct CoverConflict {
    std::string one, other, what_we_do;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, CoverConflict& c) {
    visit("one", c.one, About{});
    visit("other", c.other, About{});
    visit("what_we_do", c.what_we_do, About{});
    visit("basis", c.basis, About{});
}

struct IdentifyAnswer {
    std::string sentence, sure;             ///< the answer, and how sure in a word
    bool told = false;                      ///< false: it cannot be told yet
    std::string why_not;                    ///< thin, or what speaks against what
    std::string settles;                    ///< what would settle it
    std::vector<CoverShare> families, kinds, tannages, veils;   ///< most likely first
    std::vector<CoverMoved> moved;          ///< strongest first
    std::vector<CoverNext> next, laboratory;
    std::string called;                     ///< what the standard lets it be called
    bool is_leather = false;
    std::string called_why;
    std::string iso_words, ral_words, us_class;
    std::vector<CoverConflict> conflicts;
    Leather leather;                        ///< goes into judge; leather_class empty: judge does not answer for it
    std::string judged_as;                  ///< where a class stands in for the kind, or why there is none
    std::vector<CoverSaw> saw;              ///< all that counted
    std::vector<std::string> read;          ///< what of it stood on the piece already, for people
    int proven = 0;                         ///< pieces that taught the tables
    std::string shop;                       ///< how far the shop's own counts have taken over
    bool kept = false;                      ///< written to the panel
    std::string proof;                      ///< id of the proof that was kept
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, IdentifyAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("sure", a.sure, About{});
    visit("told", a.told, About{.doc = "false: it cannot be told yet"});
    visit("why_not", a.why_not, About{});
    visit("settles", a.settles, About{.doc = "what would settle it"});
    visit("families", a.families, About{.doc = "most likely first"});
    visit("kinds", a.kinds, About{.doc = "most likely first"});
    visit("tannages", a.tannages, About{.doc = "of what is leather"});
    visit("veils", a.veils, About{.doc = "what hides the kind, and the leading family with and without it"});
    visit("moved", a.moved, About{.doc = "strongest first"});
    visit("next", a.next, About{.doc = "best first"});
    visit("laboratory", a.laboratory, About{.doc = "on a detached fibre or flake, never on the piece"});
    visit("called", a.called, About{.doc = "by EN 15987; empty: cannot be said yet"});
    visit("is_leather", a.is_leather, About{.doc = "whether the word leather may stand in it"});
    visit("called_why", a.called_why, About{});
    visit("iso_words", a.iso_words, About{.doc = "words of the vocabulary ISO 15115"});
    visit("ral_words", a.ral_words, About{.doc = "RAL 061 A1, in our words"});
    visit("us_class", a.us_class, About{.doc = "class of the cleaning trade of the United States: P, A or N"});
    visit("conflicts", a.conflicts, About{.doc = "where definitions differ"});
    visit("leather", a.leather, About{.doc = "goes into judge"});
    visit("judged_as", a.judged_as, About{.doc = "where a class stands in for the kind, or why there is none"});
    visit("saw", a.saw, About{.doc = "all that counted"});
    visit("read", a.read, About{.doc = "what of it stood on the piece already"});
    visit("proven", a.proven, About{.doc = "pieces that taught the tables"});
    visit("shop", a.shop, About{});
    visit("kept", a.kept, About{.doc = "written to the panel"});
    visit("proof", a.proof, About{.doc = "id of the proof that was kept"});
    visit("version", a.version, About{});
}

/// What a covering is.
/// @error NotFound     a test, answer, word, piece or panel that is not there
/// @error OutOfRange   a measure outside its range; answers that nothing can have given
/// @error Conflict     an id used for something else
/// @error Unavailable  a piece or a proof, and no records are joined in
/// @see docs/theory/identify.md
Result<IdentifyAnswer> identify(const IdentifyRequest& request, Ports& ports);

struct CoverAnswerWord {
    std::string key, name;
};
template <class Visitor>
void describe(Visitor& visit, CoverAnswerWord& a) {
    visit("key", a.key, About{});
    visit("name", a.name, About{});
}
struct CoverTestWord {
    std::string key, name, question, how, trap, harm, who, picture;
    double work_min = 0, harm_1 = 0;
    std::vector<CoverAnswerWord> answers;
};
template <class Visitor>
void describe(Visitor& visit, CoverTestWord& t) {
    visit("key", t.key, About{});
    visit("name", t.name, About{});
    visit("question", t.question, About{});
    visit("how", t.how, About{});
    visit("trap", t.trap, About{});
    visit("harm", t.harm, About{});
    visit("who", t.who, About{.doc = "bench or laboratory"});
    visit("picture", t.picture, About{});
    visit("work_min", t.work_min, About{});
    visit("harm_1", t.harm_1, About{.doc = "0 none to 3 for good"});
    visit("answers", t.answers, About{});
}
struct IdentifyWords {
    std::vector<CoverTestWord> tests;       ///< least invasive first
    std::vector<CoverAnswerWord> kinds, tannages, veils, places, ages, regions, proofs;
};
template <class Visitor>
void describe(Visitor& visit, IdentifyWords& w) {
    visit("tests", w.tests, About{.doc = "least invasive first"});
    visit("kinds", w.kinds, About{});
    visit("tannages", w.tannages, About{});
    visit("veils", w.veils, About{.doc = "what hides the kind"});
    visit("places", w.places, About{});
    visit("ages", w.ages, About{});
    visit("regions", w.regions, About{});
    visit("proofs", w.proofs, About{});
}
IdentifyWords identify_words();

}  // namespace hw::desk
