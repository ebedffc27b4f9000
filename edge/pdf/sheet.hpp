// A page to draw on: text that wraps, boxes, lines, areas. Lengths in points of 1/72 inch, y downwards.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "desk/ports.hpp"
#include "edge/pdf/colour.hpp"

namespace hw::pdf {

enum class Face { Sans, Serif };
enum class Align { Left, Right, Centre };

struct Type {
    Face face = Face::Sans;
    double size = 9;
    bool strong = false;
    Colour colour = ink;
    Align align = Align::Left;
    int lines = 0;                                ///< at most, the rest becomes "…"; 0: all
    double leading = 1.3;
};

/// A piece of text, a space before the next; strong ones stand out from the type they are set in. Each is cut at 600 characters.
struct Run {
    std::string text;
    bool strong = false;
};
struct Words {
    Words(std::string text) : runs{{std::move(text), false}} {}  // NOLINT: implicit by intent
    Words(const char* text) : runs{{text, false}} {}             // NOLINT: implicit by intent
    Words(std::vector<Run> runs_) : runs(std::move(runs_)) {}    // NOLINT: implicit by intent
    std::vector<Run> runs;
};

struct Point {
    double x = 0, y = 0;
};
struct Size {
    double width = 0, height = 0;
};

Size size_of(desk::Paper paper);
Size size_of(desk::WallPaper paper);              ///< across

/// What the file says of itself.
struct AboutFile {
    std::string title, subject, date;             ///< date ISO 8601 in UTC, or empty for none
};

class Sheet {
public:
    /// @param trial  nothing is kept: for measuring what does not fit yet
    Sheet(Size size, const AboutFile& about, bool trial);
    Sheet(desk::Paper paper, const AboutFile& about, bool trial) : Sheet(size_of(paper), about, trial) {}
    ~Sheet();
    Sheet(const Sheet&) = delete;
    Sheet& operator=(const Sheet&) = delete;

    [[nodiscard]] Size size() const;
    /// Ends the page and begins the next.
    void turn();
    [[nodiscard]] int pages() const;              ///< the one being drawn included

    [[nodiscard]] double height(const Words& words, const Type& type, double width);
    [[nodiscard]] double width(const Words& words, const Type& type);   ///< on one line
    /// Sets the text with its top at y. @return its height
    double text(Point at, double width, const Words& words, const Type& type, const char* tag = "P");

    void fill(Point at, Size size, Colour colour);
    void frame(Point at, Size size, Colour colour, double weight);
    void stroke(const std::vector<Point>& points, Colour colour, double weight, bool dashed = false);
    void area(const std::vector<Point>& points, Colour colour);
    /// Diagonal lines inside a box.
    void hatch(Point at, Size size, Colour colour, double apart, double weight);

    /// A part of the document's structure: "Sect", "Table", "TR", "Figure" …
    void open(const char* tag);
    void close(const char* tag);
    /// An entry of the outline, leading to this height of this page.
    void bookmark(const std::string& title, double y);

    /// The bytes of the file. @error Unavailable
    Result<std::string> finish();

private:
    struct Hidden;
    std::unique_ptr<Hidden> hidden_;
};

}  // namespace hw::pdf
