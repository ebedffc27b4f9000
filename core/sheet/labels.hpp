// "Label: value" in its many dresses: on one line, as a table, over and under, with dots between.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sheet/lines.hpp"

namespace hw::sheet {

/// How a value was found, best first.
enum class Found { Colon, Cell, Below, Loose };

struct Labelled {
    std::string key;
    std::size_t rank = 0;                  ///< of the label among those of its key
    std::size_t line = 0;                  ///< index in the lines given
    std::string qualifier;                 ///< what stands between label and value: "(closed cup)", "at 20 °C"
    std::vector<std::vector<Word>> value;  ///< words of the value, a row for each line
    std::vector<Word> beside;              ///< further cells of the first line: a unit, a method, a remark
    Found found = Found::Loose;

    [[nodiscard]] std::string text() const;
    [[nodiscard]] std::vector<Word> words() const;
};

/// Every label of the kind ("label" or "column") in the lines [begin, end), with its value, in reading order.
/// @param keys  only these; empty: all of the kind
std::vector<Labelled> labels_in(const std::vector<Line>& printed, std::size_t begin, std::size_t end, double line_pt,
                                std::string_view kind, const std::vector<std::string_view>& keys = {});

/// Whether a text begins with a label or is one.
bool is_label(std::string_view text);

}  // namespace hw::sheet
