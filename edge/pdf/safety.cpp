// The safety card of a job on one page, and the note for the household on another.
#include <algorithm>
#include <iterator>

#include "desk/protect.hpp"
#include "desk/words.hpp"
#include "edge/pdf/pages.hpp"

namespace hw::pdf {

namespace {

std::string ppm(double value) { return desk::fixed(value, value < 10 ? 1 : 0); }
std::string ml(double value) { return desk::fixed(value, value < 10 ? 1 : 0) + " ml"; }

/// What both pages share: head and foot, lists with a bar beside them.
class SafetySheet {
public:
    SafetySheet(Sheet& sheet, const desk::ProtectAnswer& card, double size) : sheet_(sheet), a_(card), size_(size) {}

protected:
    [[nodiscard]] Type body() const { return label(size_); }
    [[nodiscard]] Type small() const { return label(0.88 * size_); }
    double heading(Point at, double width, const std::string& text, Colour colour) { return sheet_.text(at, width, text, serif(1.25 * size_, true, colour), "H2") + 0.15 * size_; }

    double head(double y, const char* kind) {
        sheet_.text({left_, y}, wide_ / 2, kind, label(8.5, true, ink_soft));
        Type right = label(8.5, false, ink_soft);
        right.align = Align::Right;
        right.lines = 1;
        sheet_.text({left_ + wide_ / 2, y}, wide_ / 2, date_words(a_.at), right);
        y += 14;
        sheet_.stroke({{left_, y}, {left_ + wide_, y}}, ink, 1.2);
        return y + 5;
    }

    double list(double x, double y, double width, const std::string& title, const std::vector<std::string>& items, Colour colour) {
        if (items.empty()) return y;
        const double foot = y + heading({x + 9, y}, width - 9, title, colour);
        const double end = foot + bullets(sheet_, {x + 9, foot}, width - 9, items, body(), 0.2 * size_, colour);
        sheet_.fill({x, y + 2}, {3, end - y - 2}, colour);
        return end + 0.55 * size_;
    }

    void foot(double y, const std::string& strong, const std::string& line) {
        sheet_.stroke({{left_, y + 6}, {left_ + wide_, y + 6}}, ink, 0.8);
        sheet_.text({left_, y + 9}, wide_, strong, label(8.5, true));
        Type one = label(7.8, false, ink_soft);
        one.lines = 1;
        sheet_.text({left_, y + 32}, wide_ - 70, line, one);
        one.align = Align::Right;
        sheet_.text({left_ + wide_ - 70, y + 32}, 70, "page 1 of 1", one);
    }

    Sheet& sheet_;
    const desk::ProtectAnswer& a_;
    double size_;
    double left_ = margin, wide_ = sheet_.size().width - 2 * margin;
};

class CardPage : SafetySheet {
public:
    using SafetySheet::SafetySheet;

    /// @return how far the last line lies above the foot; below 0 it does not fit
    double draw() {
        double y = head(margin - 12, "Safety card of a job");
        if (a_.demo) y += draw_demo_mark(sheet_, {left_, y}, wide_, 0.9 * size_);
        if (!a_.title.empty()) y += sheet_.text({left_, y}, wide_, a_.title, label(size_, true, ink_soft)) + 0.2 * size_;
        for (const auto& stop : a_.stops) y += draw_stop(sheet_, {left_, y}, wide_, stop, 1.02 * size_) + 0.5 * size_;
        if (a_.stops.empty()) y += sheet_.text({left_, y}, wide_, a_.sentence, serif(1.7 * size_), "H1") + 0.4 * size_;
        y = planned(y);
        y = air(y);
        y = parts(y);
        const double end = sheet_.size().height - 58;
        foot(end, "If anybody is unwell: fresh air, plain water for eyes and skin, and the poison line or the emergency number. Just over a limit is where protection is asked for; many times over, it can hurt at once.",
             a_.version + " · local law, the product’s own sheet and licensed practice come before this card");
        return end - y;
    }

private:
    double planned(double y) {
        for (const auto& i : a_.items) y += sheet_.text({left_, y}, wide_, std::vector<Run>{{i.name + ":", true}, {i.amount + ", " + i.goes_on + ". " + i.sheet_sentence, false}}, small()) + 0.1 * size_;
        std::string where = "Where: " + a_.place.name;
        if (a_.place.volume.value > 0) where += ", " + desk::fixed(a_.place.volume.value, a_.place.volume.value < 10 ? 1 : 0) + " m³, " + desk::fixed(a_.place.air_changes.value, a_.place.air_changes.value < 10 ? 1 : 0) + " air changes in an hour (" + a_.place.air_changes.band_from + ")";
        return y + sheet_.text({left_, y}, wide_, where + ".", small()) + 0.5 * size_;
    }

    double air(double y) {
        if (!a_.air.computed) return y;
        if (!a_.stops.empty()) y += sheet_.text({left_, y}, wide_, a_.air.sentence, label(size_, true)) + 0.3 * size_;
        const double columns[] = {0.25, 0.13, 0.2, 0.15, 0.15, 0.12};
        const auto row = [&](const std::vector<std::string>& cells, bool strong) {
            double x = left_, tall = 0;
            for (std::size_t i = 0; i < cells.size(); ++i) {
                tall = std::max(tall, sheet_.text({x, y}, columns[i] * wide_ - 4, cells[i], label(0.86 * size_, strong)));
                x += columns[i] * wide_;
            }
            y += tall + 0.15 * size_;
            sheet_.stroke({{left_, y}, {left_ + wide_, y}}, line_faint, 0.5);
            y += 0.12 * size_;
        };
        sheet_.open("Sect");
        row({"In the air", "planned", "limit of a shift", "fills the closed space to the limit", "to a quarter of what could ignite", "at its highest"}, true);
        for (const auto& v : a_.air.vapours)
            row({v.name, ml(v.planned_ml.value), v.limit ? ppm(v.limit->ppm.value) + " ppm (" + v.limit->where + ")" : "none found", v.ml_to_limit ? ml(v.ml_to_limit->value) : "–", v.ml_to_lel ? ml(v.ml_to_lel->value) : "not known", ppm(v.peak_ppm.value) + " ppm"}, false);
        sheet_.close("Sect");
        return y + 0.4 * size_;
    }

    /// Two columns, each part whole; the shorter column takes the next.
    double parts(double y) {
        const double gap = 16, column = (wide_ - gap) / 2;
        double ends[2] = {y, y};
        for (const auto& p : a_.parts) {
            std::vector<std::string> items;
            for (const auto& l : p.lines) items.push_back(l.sentence);
            const int side = ends[1] < ends[0] ? 1 : 0;
            const bool warns = p.key == "never" || p.key == "meet";
            ends[side] = list(left_ + side * (column + gap), ends[side], column, p.name, items, warns ? warn : p.key == "steps" ? accent : ink);
        }
        double end = std::max(ends[0], ends[1]);
        if (!a_.air.unknown.empty()) end += sheet_.text({left_, end}, wide_, a_.air.unknown, small());
        if (a_.defaults_used.empty()) return end;
        std::string taken = "Taken for want of an answer: ";
        for (const auto& d : a_.defaults_used) taken += d + " ";
        return end + sheet_.text({left_, end}, wide_, taken, small());
    }
};

class NotePage : SafetySheet {
public:
    using SafetySheet::SafetySheet;

    double draw() {
        double y = head(margin - 12, "For the people who live here");
        y += sheet_.text({left_, y}, wide_, a_.note.title, serif(2.2 * size_), "H1") + 0.5 * size_;
        if (!a_.title.empty()) y += sheet_.text({left_, y}, wide_, a_.title, label(size_, false, ink_soft)) + 0.5 * size_;
        y = list(left_, y, wide_, "What we use", a_.note.uses, ink);
        y = list(left_, y, wide_, "Who stays out, and for how long", a_.note.stay_out, accent);
        y = list(left_, y, wide_, "Please", a_.note.please, ink);
        y = list(left_, y, wide_, "What to watch for", a_.note.watch, warn);
        y = list(left_, y, wide_, "Whom to call", a_.note.call, warn);
        const double end = sheet_.size().height - 58;
        foot(end, "Questions about health belong to a doctor or the poison line.", a_.version + " · ask us when something on this page is unclear");
        return end - y;
    }
};

template <class Page>
Result<std::string> fitted(const desk::ProtectAnswer& card, desk::Paper paper, double largest, const char* subject) {
    constexpr double smallest = 5.5, step = 0.25;
    const AboutFile file{card.title.empty() ? subject : card.title, subject, card.at};
    for (double size = largest; size >= smallest; size -= step) {
        {
            Sheet trial(paper, file, true);
            if (Page(trial, card, size).draw() < 0) continue;
        }
        Sheet sheet(paper, file, false);
        Page(sheet, card, size).draw();
        return sheet.finish();
    }
    return Error{ErrorCode::OutOfRange, "There is more to say than one page can hold. Make a card for fewer liquids at a time.", "items"};
}

}  // namespace

Result<std::string> safety_page(const desk::ProtectAnswer& card, desk::Paper paper) { return fitted<CardPage>(card, paper, 10, "Safety card of a job"); }
Result<std::string> household_page(const desk::ProtectAnswer& card, desk::Paper paper) { return fitted<NotePage>(card, paper, 13, "Note for the household"); }

}  // namespace hw::pdf
