// touch: which liquid of the shelf may touch which leather, all of them at once, each cell a judgement of its own.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "desk/judge.hpp"
#include "desk/meet.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

enum class CellState { NotComputed, Preliminary, Computed, Stale };

inline constexpr int first_members = 64;          ///< of the ensemble that gives the preliminary answer

/// A leather that liquids are judged on: a class with its usual tannage, or panels of a piece that are alike.
struct TouchColumn {
    std::string key;                              ///< of the class; or piece and panel
    std::string name;                             ///< "aniline, chrome tanned"
    std::string piece;                            ///< id; empty: a class
    std::vector<std::string> panels;              ///< codes
    Leather leather;                              ///< as judged
};

/// A liquid of the shelf.
struct TouchRow {
    std::string id, name, family;
};

/// What one liquid does to one leather, used as the chart says.
struct TouchCell {
    std::string liquid, column;
    CellState state = CellState::NotComputed;
    Grade grade = Grade::Unknown;
    std::string words;                            ///< of the grade: "no limit passed"
    std::string advice;
    std::string how_sure;
    std::string reason;                           ///< what decides, in a sentence
    Basis basis;                                  ///< of that
    double answer_1 = 0;                          ///< share of the members that come to the grade; 0 where nothing was counted
    int members = 0;
    int order = 0;                                ///< from what may be used to what may not
    std::string computed_at;                      ///< ISO 8601, UTC
    std::string version;
    std::string fingerprint;                      ///< of liquid, leather, use and version
};

struct TouchRequest {
    std::optional<Use> use;                       ///< of the whole chart; left out: as kept, else the usual
    std::vector<std::string> liquids;             ///< ids; empty: all of the shelf
    std::vector<std::string> classes;             ///< keys; with this and pieces empty: all of both
    std::vector<std::string> pieces;              ///< ids
    int members = 1024;                           ///< of the full answer
    bool keep = false;                            ///< cells, and the use where it is given
};

/// A word of the legend.
struct TouchLegend {
    Grade grade = Grade::Unknown;
    std::string words;
    std::string meaning;
};

struct TouchAnswer {
    std::string sentence;
    Use use;
    std::string use_words;
    bool use_is_usual = true;
    std::vector<TouchRow> rows;
    std::vector<TouchColumn> columns;
    std::vector<TouchCell> cells;                 ///< row by row
    int computed = 0, preliminary = 0, stale = 0, not_computed = 0;
    std::vector<TouchLegend> legend;
    std::vector<std::string> cautions;
    std::vector<std::string> left_out;            ///< pieces and panels that cannot be judged, and why
    std::string version;
};

/// The chart as it stands: what was worked out before, and what of it no longer holds. Computes nothing.
/// @error NotFound    "liquids[i]", "classes[i]", "pieces[i]"   @error OutOfRange  "use…"
Result<TouchAnswer> touch_chart(const TouchRequest& request, Ports& ports);

/// Works out what is missing or stale: every cell with few members first, then each in full. A cell is kept as soon as it is there.
/// @error as touch_chart; NotConverged  cancelled
Result<TouchAnswer> touch(const TouchRequest& request, Ports& ports, const Progress& progress = {});

/// What a cell depends on, as 16 hexadecimal digits (FNV-1a, 64 bits).
std::string touch_fingerprint(const Liquid& liquid, const Leather& leather, const Use& use);

/// Whether a cell is a request of its own: the judgement with these inputs.
JudgeRequest touch_request(const Liquid& liquid, const Leather& leather, const Use& use, int members);

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::CellState> {
    static constexpr std::array<std::pair<desk::CellState, std::string_view>, 4> names{
        {{desk::CellState::NotComputed, "not_computed"}, {desk::CellState::Preliminary, "preliminary"}, {desk::CellState::Computed, "computed"}, {desk::CellState::Stale, "stale"}}};
};

namespace hw::desk {

template <class Visitor>
void describe(Visitor& visit, TouchColumn& c) {
    visit("key", c.key, About{.doc = "of the class; or piece and panel"});
    visit("name", c.name, About{});
    visit("piece", c.piece, About{.doc = "id; empty: a class"});
    visit("panels", c.panels, About{.doc = "codes of panels that are alike"});
    visit("leather", c.leather, About{.doc = "as judged"});
}
template <class Visitor>
void describe(Visitor& visit, TouchRow& r) {
    visit("id", r.id, About{});
    visit("name", r.name, About{});
    visit("family", r.family, About{});
}
template <class Visitor>
void describe(Visitor& visit, TouchCell& c) {
    visit("liquid", c.liquid, About{});
    visit("column", c.column, About{});
    visit("state", c.state, About{.doc = "stale: liquid, leather, use or program have changed since"});
    visit("grade", c.grade, About{});
    visit("words", c.words, About{.doc = "of the grade"});
    visit("advice", c.advice, About{});
    visit("how_sure", c.how_sure, About{});
    visit("reason", c.reason, About{.doc = "what decides"});
    visit("basis", c.basis, About{});
    visit("answer_1", c.answer_1, About{.doc = "share of the members that come to the grade; 0 where nothing was counted"});
    visit("members", c.members, About{.doc = "of the ensemble"});
    visit("order", c.order, About{.doc = "from what may be used to what may not"});
    visit("computed_at", c.computed_at, About{.doc = "ISO 8601, UTC"});
    visit("version", c.version, About{});
    visit("fingerprint", c.fingerprint, About{.doc = "of liquid, leather, use and version"});
}
template <class Visitor>
void describe(Visitor& visit, TouchRequest& r) {
    visit("use", r.use, About{.doc = "of the whole chart; left out: as kept, else the usual"});
    visit("liquids", r.liquids, About{.doc = "ids; empty: all of the shelf"});
    visit("classes", r.classes, About{.doc = "keys; with this and pieces empty: all of both"});
    visit("pieces", r.pieces, About{.doc = "ids"});
    visit("members", r.members, About{.doc = "of the full answer, a power of two", .minimum = 64, .maximum = 16384});
    visit("keep", r.keep, About{.doc = "keep the cells, and the use where it is given"});
}
template <class Visitor>
void describe(Visitor& visit, TouchLegend& l) {
    visit("grade", l.grade, About{});
    visit("words", l.words, About{});
    visit("meaning", l.meaning, About{});
}
template <class Visitor>
void describe(Visitor& visit, TouchAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("use", a.use, About{});
    visit("use_words", a.use_words, About{});
    visit("use_is_usual", a.use_is_usual, About{});
    visit("rows", a.rows, About{});
    visit("columns", a.columns, About{});
    visit("cells", a.cells, About{.doc = "row by row"});
    visit("computed", a.computed, About{});
    visit("preliminary", a.preliminary, About{});
    visit("stale", a.stale, About{});
    visit("not_computed", a.not_computed, About{});
    visit("legend", a.legend, About{});
    visit("cautions", a.cautions, About{});
    visit("left_out", a.left_out, About{.doc = "pieces and panels that cannot be judged, and why"});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
