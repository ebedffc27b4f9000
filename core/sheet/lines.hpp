// Words put in reading order: pages turned upright, watermarks and page heads set aside, columns one after the other.
#pragma once

#include <string>
#include <vector>

#include "core/sheet/facts.hpp"
#include "core/sheet/words.hpp"

namespace hw::sheet {

/// Words with no wide gap between them.
struct Cell {
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    std::vector<Word> words;
    std::string text;                  ///< plain(), single blanks
};

/// Words on one height of one column of a page.
struct Line {
    int page = 1;
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    double size_pt = 0;                ///< of most of its words
    bool bold = false;                 ///< all of it
    std::vector<Cell> cells;           ///< from left to right
    std::string text;                  ///< cells with a blank between
};

struct Flow {
    std::vector<Line> lines;           ///< in reading order
    std::vector<Line> furniture;       ///< heads and feet of pages, each wording once
    double size_pt = 9;                ///< of most words
    double line_pt = 12;               ///< usual distance of lines
};

/// How a page is taken to be set. `AsSeen` asks the page itself; the others are tried where too few titles were found that way.
enum class Setting { AsSeen, Columns, SideHeads };

Flow flow_of(const Document& document, Setting setting = Setting::AsSeen);

/// A line of these words, cut into cells where the gap is wider than `gap_em` of the type.
Line line_of(std::vector<Word> words, double gap_em);

Place place_of(const std::vector<Word>& words);

/// Lines joined to running text; a word cut by a hyphen at the end of a line is put together.
/// `chemical` keeps the hyphen where it may belong to a name.
std::string joined(const std::vector<std::string>& lines, bool chemical = false);

}  // namespace hw::sheet
