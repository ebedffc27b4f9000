// The page for the owner: what was asked, the answer, how sure, the picture, what to do; nothing else.
#include <algorithm>
#include <cmath>

#include "desk/report.hpp"
#include "desk/words.hpp"
#include "edge/pdf/pages.hpp"
#include "edge/pdf/pictures.hpp"

namespace hw::pdf {

namespace {

/// The page at one size of type. Every part returns where it ends.
class OwnerPage {
public:
    OwnerPage(Sheet& sheet, const desk::KeptJudgement& k, const desk::OwnerReport& report, double size, bool brief) : sheet_(sheet), k_(k), r_(report), size_(size), brief_(brief) {}

    /// @return how far the last line lies above the foot; below 0 it does not fit
    double draw() {
        const auto& a = k_.answer;
        double y = head(margin - 12);
        y = asked(y) + 0.9 * size_;
        if (a.stop) y += draw_stop(sheet_, {left_, y}, wide_, *a.stop, 1.2 * size_) + 0.9 * size_;
        else y = answer(y) + 0.9 * size_;
        y = middle(y) + 0.9 * size_;
        if (!a.stop) y = next_and_never(y) + 0.9 * size_;
        y = cautions(y) + 0.8 * size_;
        y = unknown(y);
        const double foot = foot_top();
        footer(foot);
        return foot - y;
    }

private:
    [[nodiscard]] Type body() const { return label(size_); }
    /// User's words are cut after some lines, so that they cannot push the answer off the page.
    [[nodiscard]] Type cut(Type type, int lines) const { type.lines = lines; return type; }
    double heading(Point at, double width, const std::string& text, Colour colour = ink) { return sheet_.text(at, width, text, serif(1.3 * size_, true, colour), "H2") + 0.2 * size_; }

    double head(double y) {
        if (desk::is_demo(k_)) y += draw_demo_mark(sheet_, {left_, y}, wide_, 10) + 7;
        sheet_.text({left_, y}, wide_ / 2, "Judgement of a liquid on leather, for the owner", label(8.5, true, ink_soft));
        Type right = label(8.5, false, ink_soft);
        right.align = Align::Right;
        y += sheet_.text({left_ + wide_ / 2, y}, wide_ / 2, date_words(k_.row.kept_at), right) + 4;
        sheet_.stroke({{left_, y}, {left_ + wide_, y}}, ink, 1.2);
        return y + 5;
    }

    double asked(double y) {
        const double gap = 12, column = (wide_ - 2 * gap) / 3;
        double foot = y;
        int i = 0;
        for (const auto& [name, value] : {std::pair{"Liquid", &r_.liquid}, {"Piece", &r_.piece}, {"Use", &r_.use}}) {
            const double x = left_ + i++ * (column + gap);
            const double top = sheet_.text({x, y}, column, name, label(0.84 * size_, true, ink_soft));
            foot = std::max(foot, y + top + sheet_.text({x, y + top}, column, *value, cut(label(0.95 * size_), 4)));
        }
        sheet_.stroke({{left_, foot + 5}, {left_ + wide_, foot + 5}}, line_faint, 0.8);
        return foot + 5;
    }

    double answer(double y) {
        y += sheet_.text({left_, y}, wide_, r_.advice, serif(2.35 * size_), "H1");
        y += sheet_.text({left_, y + 0.1 * size_}, wide_, r_.answer, cut(serif(1.4 * size_, false), 4)) + 0.1 * size_;
        if (!r_.more.empty()) y += sheet_.text({left_, y + 0.15 * size_}, wide_, r_.more, cut(body(), 4)) + 0.15 * size_;
        return y;
    }

    /// How sure and what it means on the left, the picture on the right.
    double middle(double y) {
        const auto& p = k_.answer.profile;
        const bool picture = !p.time_s.empty() && !p.depth_um.empty();
        const double gap = 20, one = picture ? 0.52 * (wide_ - gap) : wide_;
        double l = y;
        if (!k_.answer.stop) {
            l += heading({left_, l}, one, "How sure");
            l += sheet_.text({left_, l}, one, r_.how_sure, cut(body(), 5)) + 0.5 * size_;
            if (!k_.answer.sure.chances.empty()) l += draw_chances(sheet_, {left_, l}, std::min(one, 260.0), k_.answer.sure.chances, 0.92 * size_) + 0.7 * size_;
        }
        l += heading({left_, l}, one, "What it means");
        l += bullets(sheet_, {left_, l}, one, r_.means, cut(body(), 5), 0.3 * size_, accent);
        if (!k_.answer.harms.empty() && !brief_) l = harms({left_, l + 0.7 * size_}, std::min(one, 300.0));
        return picture ? std::max(l, inside({left_ + one + gap, y}, wide_ - one - gap)) : l;
    }

    double harms(Point at, double width) {
        double y = at.y + heading(at, width, "What was looked at");
        const Type small = cut(label(0.92 * size_), 2);
        const auto chance = [](const desk::Harm& h) { return h.chance_1 ? desk::in_ten(*h.chance_1) : std::string("chance not known"); };
        constexpr double bar = 40, gap = 6;
        double share = 0;
        for (const auto& h : k_.answer.harms) share = std::max(share, sheet_.width(chance(h), small) + 1);
        const double name = width - bar - share - 2 * gap;
        for (const auto& h : k_.answer.harms) {
            const double tall = sheet_.text({at.x, y}, name, std::vector<Run>{{h.name + ":", false}, {desk::grade_alone(h), true}}, small);
            if (h.chance_1) draw_chance(sheet_, {at.x + name + gap, y + 0.25 * size_}, {bar, 0.75 * size_}, *h.chance_1, h.lasting_1.value_or(0));
            sheet_.text({at.x + name + bar + 2 * gap, y}, share, chance(h), small);
            y += tall + 0.12 * size_;
        }
        return y + sheet_.text({at.x, y}, width, "The share of the cases in which its limit is passed: brown for good, hatched for a while.", label(0.84 * size_, false, ink_soft));
    }

    double inside(Point at, double width) {
        const auto& p = k_.answer.profile;
        double y = at.y + heading(at, width, "Inside the leather");
        sheet_.open("Figure");
        const double tall = 19 * size_;
        draw_section(sheet_, {at.x, y}, {width, tall}, p, 0.84 * size_);
        y += tall + 0.5 * size_;
        y += draw_ph_key(sheet_, {at.x, y}, width, 0.84 * size_) + 0.3 * size_;
        sheet_.close("Figure");
        return y + sheet_.text({at.x, y}, width, desk::section_in_words(p) + " Colour is the pH of the water between the fibres; depth counts from the top of the leather.", label(0.88 * size_, false, ink_soft));
    }

    double next_and_never(double y) {
        const double gap = 20, column = (wide_ - gap) / 2;
        const auto list = [&](double x, const char* title, const std::vector<std::string>& items, Colour colour) {
            const double foot = y + heading({x + 10, y}, column - 10, title, colour);
            const double end = foot + bullets(sheet_, {x + 10, foot}, column - 10, items, cut(body(), 6), 0.3 * size_, colour);
            sheet_.fill({x, y + 2}, {3.5, end - y - 2}, colour);
            return end;
        };
        const double next = list(left_, "What to do next", r_.next, accent);
        return std::max(next, list(left_ + column + gap, "What never to do", r_.never, warn));
    }

    /// In two columns, as level as the order allows.
    double cautions(double y) {
        if (r_.cautions.empty()) return y;
        const double pad = 0.8 * size_, gap = 16, column = (wide_ - 2 * pad - gap) / 2;
        const Type type = cut(label(0.95 * size_), 6);
        std::vector<double> tall;
        double sum = 0;
        for (const auto& c : r_.cautions) {
            tall.push_back(sheet_.height(c, type, column - 1.1 * type.size) + 0.25 * size_);
            sum += tall.back();
        }
        std::size_t half = 0;
        double first = 0;
        while (half < tall.size() && first + tall[half] / 2 < sum / 2) first += tall[half++];
        const double head = 1.3 * size_ * 1.2 + 0.2 * size_, box = head + std::max(first, sum - first) + 2 * pad - 0.25 * size_;
        sheet_.frame({left_, y}, {wide_, box}, warn, 1.2);
        heading({left_ + pad, y + pad}, wide_ - 2 * pad, "Take care", warn);
        const auto split = r_.cautions.begin() + static_cast<std::ptrdiff_t>(half);
        bullets(sheet_, {left_ + pad, y + pad + head}, column, {r_.cautions.begin(), split}, type, 0.25 * size_, warn);
        bullets(sheet_, {left_ + pad + column + gap, y + pad + head}, column, {split, r_.cautions.end()}, type, 0.25 * size_, warn);
        return y + box;
    }

    double unknown(double y) {
        if (r_.unknown.empty()) return y;
        y += heading({left_, y}, wide_, "What was not known");
        return y + bullets(sheet_, {left_, y}, wide_, r_.unknown, cut(label(0.95 * size_), 3), 0.15 * size_, ink);
    }

    [[nodiscard]] double foot_top() const { return sheet_.size().height - 58; }
    void footer(double y) {
        sheet_.stroke({{left_, y + 6}, {left_ + wide_, y + 6}}, ink, 0.8);
        sheet_.text({left_, y + 9}, wide_, std::string(desk::not_proof), label(8.5, true));
        const std::string number = k_.row.id.empty() ? "not kept" : "kept under " + k_.row.id;
        Type one = label(7.8, false, ink_soft);
        one.lines = 1;
        sheet_.text({left_, y + 21}, wide_ - 70, k_.answer.version + " · " + number + (desk::is_demo(k_) ? " · " + std::string(desk::demo_mark) : ""), one);
        Type right = one;
        right.align = Align::Right;
        sheet_.text({left_ + wide_ - 70, y + 21}, 70, "page 1 of 1", right);
    }

    Sheet& sheet_;
    const desk::KeptJudgement& k_;
    const desk::OwnerReport& r_;
    double size_;
    bool brief_;                                  ///< without the list of what was looked at
    double left_ = margin, wide_ = sheet_.size().width - 2 * margin;
};

}  // namespace

Result<std::string> owner_page(const desk::KeptJudgement& k, desk::Paper paper) {
    constexpr double largest = 10, smallest = 7.5, step = 0.25;
    const desk::OwnerReport report = desk::owner_report(k);
    const AboutFile file = about(k, "for the owner");
    // First smaller type; then, where that is not enough, without the list of what was looked at.
    for (const bool brief : {false, true})
        for (double size = largest; size >= smallest; size -= step) {
            {
                Sheet trial(paper, file, true);
                if (OwnerPage(trial, k, report, size, brief).draw() < 0) continue;
            }
            Sheet sheet(paper, file, false);
            OwnerPage(sheet, k, report, size, brief).draw();
            return sheet.finish();
        }
    return Error{ErrorCode::OutOfRange, "There is more to say than one page can hold. Print the technical pages.", "page"};
}

}  // namespace hw::pdf
