// Tables without their rules: columns from the blank rivers between words, rows from the gaps between lines and from what a
// row must hold.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "core/sheet/lines.hpp"

namespace hw::sheet {

struct Column {
    double x0 = 0, x1 = 0;
    std::set<std::string> keys;                ///< of its heads
    std::string head;
};

struct Row {
    std::vector<std::vector<std::vector<Word>>> cells;    ///< column, line, word

    [[nodiscard]] std::string text(std::size_t column, bool chemical = false) const;
    [[nodiscard]] std::vector<std::string> lines(std::size_t column) const;
    [[nodiscard]] std::vector<Word> words(std::size_t column) const;
    [[nodiscard]] std::vector<Word> words() const;
};

struct Table {
    std::vector<Column> columns;
    std::vector<Row> rows;
    std::size_t begin = 0, end = 0;            ///< lines used

    /// Column with a key; columns.size() without.
    [[nodiscard]] std::size_t at(std::string_view key) const;
};

/// Which heads a text can be: for each phrase found in it the key. Empty: it is no head.
using Heads = std::function<std::set<std::string>(const std::string& text)>;
/// How well a row looks like one row: 1 good, below 0 rather two rows or none.
using Judge = std::function<double(const Table& table, const Row& row)>;

/// Tables with a head that names at least two columns, in the lines [begin, end).
std::vector<Table> tables_in(const std::vector<Line>& lines, std::size_t begin, std::size_t end, double size_pt, const Heads& heads, const Judge& judge);

/// Keys of a phrase kind that a head can stand for, whole, as the first or second line of a longer head, or with a bracket.
std::set<std::string> head_keys(const std::string& text, std::string_view kind);

}  // namespace hw::sheet
