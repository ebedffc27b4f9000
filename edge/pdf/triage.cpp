// The page of a call: what was said, what to do now, what never, how soon and who; to print or to send.
#include <algorithm>

#include "desk/triage.hpp"
#include "edge/pdf/pages.hpp"

namespace hw::pdf {

namespace {

std::vector<std::string> texts(const std::vector<desk::TriageSentence>& all) {
    std::vector<std::string> out;
    for (const auto& s : all) out.push_back(s.sentence);
    return out;
}

/// The page at one size of type. Every part returns where it ends.
class CallPage {
public:
    CallPage(Sheet& sheet, const desk::TriageAnswer& call, double size) : sheet_(sheet), a_(call), size_(size) {}

    /// @return how far the last line lies above the foot; below 0 it does not fit
    double draw() {
        double y = head(margin - 12) + 0.6 * size_;
        if (a_.stop) {
            y += draw_stop(sheet_, {left_, y}, wide_, *a_.stop, 1.15 * size_) + 0.8 * size_;
        } else {
            y += sheet_.text({left_, y}, wide_, "How soon: " + a_.urgency.words, serif(2.1 * size_), "H1");
            y += sheet_.text({left_, y + 0.1 * size_}, wide_, a_.urgency.sentence + " " + a_.decision.sentence, body()) + 0.7 * size_;
            y = side_by_side(y, "What to do now", texts(a_.say), accent, "What never to do", texts(a_.never), warn) + 0.8 * size_;
        }
        if (a_.stop) y += sheet_.text({left_, y}, wide_, "How soon: " + a_.urgency.words + ". " + a_.decision.sentence, label(size_, true)) + 0.7 * size_;
        if (!a_.decision.to_whom.empty()) y += sheet_.text({left_, y}, wide_, "For: " + a_.decision.to_whom + ".", label(size_, true)) + 0.7 * size_;
        y = asked(y);
        y = side_by_side(y, "Photographs, please", texts(a_.photos), ink, "Keep, if somebody may want proof", texts(a_.evidence_keep), ink) + 0.7 * size_;
        y = heard(y);
        if (a_.dose.known) y += heading({left_, y}, wide_, "How much", ink) + sheet_.text({left_, y + 1.76 * size_}, wide_, a_.dose.sentence, small()) + 0.7 * size_;
        y = taken(y);
        const double foot = sheet_.size().height - 58;
        footer(foot);
        return foot - y;
    }

private:
    [[nodiscard]] Type body() const { return label(size_); }
    [[nodiscard]] Type small() const { return label(0.9 * size_); }
    double heading(Point at, double width, const std::string& text, Colour colour) { return sheet_.text(at, width, text, serif(1.3 * size_, true, colour), "H2") + 0.2 * size_; }

    double head(double y) {
        sheet_.text({left_, y}, wide_ / 2, "First help for leather, after a call", label(8.5, true, ink_soft));
        Type right = label(8.5, false, ink_soft);
        right.align = Align::Right;
        right.lines = 1;
        const std::string who = (a_.caller.empty() ? "" : a_.caller + " · ") + date_words(a_.at);
        y += sheet_.text({left_ + wide_ / 2, y}, wide_ / 2, who, right) + 4;
        sheet_.stroke({{left_, y}, {left_ + wide_, y}}, ink, 1.2);
        return y + 5;
    }

    double list(double x, double y, double width, const char* title, const std::vector<std::string>& items, Colour colour) {
        if (items.empty()) return y;
        const double foot = y + heading({x + 10, y}, width - 10, title, colour);
        const double end = foot + bullets(sheet_, {x + 10, foot}, width - 10, items, body(), 0.3 * size_, colour);
        sheet_.fill({x, y + 2}, {3.5, end - y - 2}, colour);
        return end;
    }

    double side_by_side(double y, const char* one, const std::vector<std::string>& ones, Colour a, const char* two, const std::vector<std::string>& twos, Colour b) {
        const double gap = 20, column = (wide_ - gap) / 2;
        return std::max(list(left_, y, column, one, ones, a), list(left_ + (ones.empty() ? 0 : column + gap), y, ones.empty() ? wide_ : column, two, twos, b));
    }

    double asked(double y) {
        if (a_.may_i.empty()) return y;
        y += heading({left_, y}, wide_, "May I …?", ink);
        for (const auto& m : a_.may_i) y += sheet_.text({left_, y}, wide_, std::vector<Run>{{m.asks, true}, {m.answer, false}}, small()) + 0.2 * size_;
        return y + 0.5 * size_;
    }

    double heard(double y) {
        if (a_.heard.empty()) return y;
        y += heading({left_, y}, wide_, "What was said", ink);
        const double gap = 16, column = (wide_ - gap) / 2;
        const std::size_t half = (a_.heard.size() + 1) / 2;
        double foot = y, at = y;
        Type cut = small();
        cut.lines = 3;
        for (std::size_t i = 0; i < a_.heard.size(); ++i) {
            if (i == half) at = y;
            const auto& h = a_.heard[i];
            at += sheet_.text({left_ + (i < half ? 0 : column + gap), at}, column, std::vector<Run>{{h.name + ":", true}, {h.words, false}}, cut) + 0.1 * size_;
            foot = std::max(foot, at);
        }
        return foot + 0.7 * size_;
    }

    double taken(double y) {
        if (a_.defaults.empty()) return y;
        std::vector<std::string> items;
        for (const auto& d : a_.defaults) items.push_back(d.sentence);
        y += heading({left_, y}, wide_, "What was taken for want of an answer", ink);
        return y + bullets(sheet_, {left_, y}, wide_, items, small(), 0.1 * size_, ink);
    }

    void footer(double y) {
        sheet_.stroke({{left_, y + 6}, {left_ + wide_, y + 6}}, ink, 0.8);
        sheet_.text({left_, y + 9}, wide_, "If anybody is unwell: fresh air, plain water for eyes and skin, and the poison line or the emergency number. The leather can wait.", label(8.5, true));
        Type one = label(7.8, false, ink_soft);
        one.lines = 1;
        sheet_.text({left_, y + 32}, wide_ - 70, a_.version + " · advice by what was said on the phone; nobody has seen the piece", one);
        one.align = Align::Right;
        sheet_.text({left_ + wide_ - 70, y + 32}, 70, "page 1 of 1", one);
    }

    Sheet& sheet_;
    const desk::TriageAnswer& a_;
    double size_;
    double left_ = margin, wide_ = sheet_.size().width - 2 * margin;
};

}  // namespace

Result<std::string> call_page(const desk::TriageAnswer& call, desk::Paper paper) {
    constexpr double largest = 10, smallest = 6.5, step = 0.25;
    const AboutFile file{call.name.empty() ? "Call about leather" : call.name, "First help for leather, after a call", call.at};
    for (double size = largest; size >= smallest; size -= step) {
        {
            Sheet trial(paper, file, true);
            if (CallPage(trial, call, size).draw() < 0) continue;
        }
        Sheet sheet(paper, file, false);
        CallPage(sheet, call, size).draw();
        return sheet.finish();
    }
    return Error{ErrorCode::OutOfRange, "There is more to say than one page can hold. Shorten what was written in the caller's words.", "answers"};
}

}  // namespace hw::pdf
