// A document as words with boxes: what any reader of files hands over, whatever the file was.
#pragma once

#include <string>
#include <vector>

namespace hw::sheet {

/// One printed word. Lengths in points (1/72 inch), x to the right and y down from the top left corner of the page as it is
/// read, that is after the page was turned upright.
struct Word {
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    int page = 1;              ///< from 1
    std::string text;          ///< UTF-8, without blanks; ligatures may stand in it as one letter
    double size_pt = 0;        ///< of the type; 0 when the reader does not know
    bool bold = false;
    int turned_deg = 0;        ///< 0, 90, 180, 270 clockwise against the reading direction of its page: 0 for nearly all
};

struct Page {
    double width = 0, height = 0;      ///< points, of the page as it is read
    std::vector<Word> words;           ///< in any order; the order of the file breaks ties
};

struct Document {
    std::vector<Page> pages;
};

}  // namespace hw::sheet
