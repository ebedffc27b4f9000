// The shelf as two tables for spreadsheets, out and in again: products, and lots in hand.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/shelf.hpp"

namespace hw::desk {

enum class ImportLineKind { New, Changed, Same, Refused };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::ImportLineKind> {
    static constexpr std::array<std::pair<desk::ImportLineKind, std::string_view>, 4> names{
        {{desk::ImportLineKind::New, "new"}, {desk::ImportLineKind::Changed, "changed"}, {desk::ImportLineKind::Same, "same"}, {desk::ImportLineKind::Refused, "refused"}}};
};

namespace hw::desk {

struct ImportRequest {
    std::string text;                             ///< a table of products or of lots, told apart by its first line
    bool take = false;                            ///< false: only say what would happen
};

struct ImportLine {
    int line = 0;                                 ///< of the file, from 1
    ImportLineKind kind = ImportLineKind::Same;
    std::string column;                           ///< that was refused
    std::string sentence;                         ///< what is new, what changed, or the remedy
};

struct ImportAnswer {
    std::string table;                            ///< "products" or "lots"
    std::string sentence;
    int fresh = 0, changed = 0, same = 0, refused = 0;
    bool taken = false;                           ///< all of it
    std::vector<ImportLine> lines;                ///< those that are not the same
};

/// RFC 4180. Every field is guarded against being taken for a formula (base/csv.hpp).
Result<std::string> shelf_products_table(Ports& ports);
Result<std::string> shelf_lots_table(Ports& ports);

/// Says line by line what a table would do, and does all of it or nothing. A column that is missing is left as it is; an empty field
/// takes back what was typed. @error InvalidInput  no table, or neither of the two
Result<ImportAnswer> shelf_import(const ImportRequest& request, Ports& ports);

template <class Visitor>
void describe(Visitor& visit, ImportRequest& r) {
    visit("text", r.text, About{.doc = "CSV, RFC 4180: a table of products or of lots", .required = true});
    visit("take", r.take, About{.doc = "false: only say what would happen"});
}
template <class Visitor>
void describe(Visitor& visit, ImportLine& l) {
    visit("line", l.line, About{.doc = "of the file, from 1"});
    visit("kind", l.kind, About{});
    visit("column", l.column, About{.doc = "that was refused"});
    visit("sentence", l.sentence, About{});
}
template <class Visitor>
void describe(Visitor& visit, ImportAnswer& a) {
    visit("table", a.table, About{.doc = "products or lots"});
    visit("sentence", a.sentence, About{});
    visit("fresh", a.fresh, About{.doc = "lines that are new"});
    visit("changed", a.changed, About{});
    visit("same", a.same, About{});
    visit("refused", a.refused, About{});
    visit("taken", a.taken, About{.doc = "all of it; else nothing"});
    visit("lines", a.lines, About{.doc = "those that are not the same"});
}

}  // namespace hw::desk
