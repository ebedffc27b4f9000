// The technical pages: every input with its mark, every kind of harm, the pictures, the limits and who says so.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/source.hpp"
#include "desk/advice.hpp"
#include "desk/report.hpp"
#include "desk/words.hpp"
#include "edge/pdf/flow.hpp"
#include "edge/pdf/pages.hpp"
#include "edge/pdf/pictures.hpp"

namespace hw::pdf {

namespace {

constexpr double body_size = 9.2;

using desk::per_cent;

/// A value with no more digits than its band bears: two of the band's.
std::string banded(double value, double half) {
    if (!(half >= 100)) return desk::to_band(value, half);
    const double step = std::pow(10, std::floor(std::log10(half)) - 1);
    return desk::fixed(std::round(value / step) * step, 0);
}

/// The quantity of a limit in words, whatever key the record carries.
std::string quantity_words(std::string key) {
    std::replace(key.begin(), key.end(), '_', ' ');
    return key;
}

class TechnicalPages {
public:
    /// @param of  pages in all; 0 while they are counted
    TechnicalPages(Sheet& sheet, const desk::KeptJudgement& k, int of)
        : sheet_(sheet), k_(k), a_(k.answer), of_(of), demo_(desk::is_demo(k)), flow_(sheet, margin + (demo_ ? 24 : 6), sheet.size().height - margin - 4, [this] { frame(); }) {
        collect_sources();
    }

    void draw() {
        if (a_.stop) {
            flow_.space(draw_stop(sheet_, {flow_.left(), flow_.y()}, flow_.wide(), *a_.stop, 11) + 8);
            flow_.paragraph({{{"Who says so:", true}, {reference(a_.stop->basis), false}, {a_.stop->basis.rule, false}}}, small());
        } else answer();
        question();
        reasons();
        harms();
        section();
        fans();
        influences();
        balance();
        limits();
        extract();
        liquid();
        cautions();
        unknown();
        sources();
    }

private:
    [[nodiscard]] Type body() const { return label(body_size); }
    [[nodiscard]] Type small() const { return label(8.2, false, ink_soft); }
    [[nodiscard]] bool solved() const { return !a_.profile.time_s.empty() && !a_.profile.depth_um.empty(); }

    void frame() {
        const double left = margin, wide = sheet_.size().width - 2 * margin, foot = sheet_.size().height - margin + 8;
        double y = margin - 20;
        if (demo_) y += draw_demo_mark(sheet_, {left, y}, wide, 8) + 4;
        Type one = label(8, false, ink_soft);
        one.lines = 1;
        sheet_.text({left, y}, wide - 170, "Judgement of a liquid on leather, technical: " + (k_.row.title.empty() ? k_.request.liquid.name : k_.row.title), one);
        Type right = one;
        right.align = Align::Right;
        sheet_.text({left + wide - 165, y}, 165, date_words(k_.row.kept_at), right);
        sheet_.stroke({{left, y + 12}, {left + wide, y + 12}}, ink, 0.8);
        sheet_.stroke({{left, foot - 4}, {left + wide, foot - 4}}, ink, 0.8);
        sheet_.text({left, foot}, wide - 80, a_.version + " · " + (k_.row.id.empty() ? "not kept" : k_.row.id) + " · a passed limit is not proof of damage", one);
        sheet_.text({left + wide - 80, foot}, 80, "page " + std::to_string(sheet_.pages()) + " of " + (of_ > 0 ? std::to_string(of_) : "00"), right);
    }

    void collect_sources() {
        for (const auto& b : a_.sources) number_of(b);
        if (a_.stop) number_of(a_.stop->basis);
        for (const auto& r : a_.reasons) number_of(r.basis);
        for (const auto& h : a_.harms) number_of(h.basis);
        for (const auto& l : a_.limits) number_of(l.basis);
        for (const auto& i : a_.sure.influences) number_of(i.basis);
        for (const auto& r : a_.liquid.reasons) number_of(r.basis);
    }
    std::size_t number_of(const Basis& b) {
        if (b.source.empty()) return 0;
        const auto same = [&](const Basis& x) { return x.source == b.source && x.locator == b.locator && x.standing == b.standing; };
        const auto found = std::find_if(cited_.begin(), cited_.end(), same);
        if (found != cited_.end()) return static_cast<std::size_t>(found - cited_.begin()) + 1;
        cited_.push_back(b);
        return cited_.size();
    }
    std::string reference(const Basis& b) {
        const auto n = number_of(b);
        return n == 0 ? "" : "[" + std::to_string(n) + "]";
    }
    std::string who(const Basis& b) { return std::string(desk::standing_words(b.standing)) + "\u00a0" + reference(b); }

    void answer() {
        flow_.paragraph(desk::advice(a_), serif(22), 1);
        flow_.paragraph(a_.sentence, serif(12.5, false), 3);
        flow_.paragraph(a_.how_sure, body(), 5);
        for (const auto& line : desk::do_now(a_)) flow_.paragraph({{{line, true}}}, body(), 2);
        const double half = (flow_.wide() - 24) / 2, tall = std::max(52.0, 30.0 + 12.0 * static_cast<double>(a_.sure.chances.size()));
        flow_.picture(tall, [&](Point at) {
            draw_stair(sheet_, at, half, a_.grade, 8.5);
            if (!a_.sure.chances.empty()) draw_chances(sheet_, {at.x + half + 24, at.y + 4}, half, a_.sure.chances, 8.5);
        });
        if (a_.sure.members > 0) flow_.paragraph("Shares of " + std::to_string(a_.sure.members) + " cases that fit what is known; from so few cases the share of the answer is uncertain by " + per_cent(a_.sure.sampling_1) + " (standard error).", small());
        if (!a_.next_test.name.empty()) flow_.paragraph({{{"Next: " + a_.next_test.name + " (" + desk::span(60.0 * a_.next_test.minutes) + ").", true}, {"It settles " + a_.next_test.settles + ". " + a_.next_test.how, false}}}, body());
    }

    void question() {
        flow_.heading("What was asked");
        std::vector<std::vector<Cell>> rows;
        for (const auto& r : desk::inputs_of(k_)) rows.push_back({r.name, r.value, r.mark});
        flow_.table({{"Input", 125, 0, true}, {"Value", 0, 1}, {"Mark", 110}}, rows);
        flow_.paragraph("Given: somebody said so. Measured: read on the piece or in the bottle. Default: nobody said, so what is usual stands in; for the leather that is its class.", small());
    }

    void reasons() {
        if (a_.reasons.empty()) return;
        flow_.heading("Because");
        std::vector<std::vector<Cell>> rows;
        for (const auto& r : a_.reasons) rows.push_back({r.weight, r.sentence, who(r.basis)});
        flow_.table({{"Weight", 52, 0, true}, {"Reason", 0, 1}, {"Who says so", 95}}, rows);
    }

    void harms() {
        if (a_.harms.empty()) return;
        flow_.heading("Every kind of harm, worst first");
        std::vector<std::vector<Cell>> rows;
        for (const auto& h : a_.harms) {
            const auto chance = [&h](Sheet& sheet, Point at, double width, bool measure) {
                if (!h.chance_1) return 0.0;
                if (!measure) draw_chance(sheet, {at.x, at.y + 2}, {width, 7}, *h.chance_1, h.lasting_1.value_or(0));
                return 10.0;
            };
            const std::string said = h.chance_1 ? "passed " + per_cent(*h.chance_1) + (h.lasting_1 && *h.lasting_1 > 0 ? ", for good " + per_cent(*h.lasting_1) : "") : "not known";
            rows.push_back({h.name + (h.decides ? " (decides)" : ""), desk::grade_alone(h), Cell(said, chance), h.sentence + (h.sentence.find("nine of ten") == std::string::npos ? " " + reached(h.reached) : std::string()), h.limit + " " + who(h.basis),
                            h.test.name.empty() ? "" : h.test.name + ", " + desk::span(60.0 * h.test.minutes)});
        }
        flow_.table({{"Kind", 74, 0, true}, {"Grade", 56}, {"Chance", 72}, {"Reason", 0, 1.5}, {"Limit", 0, 1}, {"Test that settles it", 66}}, rows);
        flow_.paragraph("Chance: the share of the cases in which the limit is passed; brown for good, hatched for a while. Nobody has published how fast leather is harmed: a passed limit is not proof of damage.", small());
    }

    static std::string reached(const desk::Band& b) {
        if (b.unit.empty()) return {};
        const bool ph = b.unit == "pH";
        const std::string unit = ph || b.unit == "1" ? "" : " " + b.unit;
        const double half = (b.high_90 - b.low_90) / 2;
        const auto say = [&](double v) { return ph ? desk::fixed(v, 1) : banded(v, half); };
        return "Reached: " + std::string(ph ? "pH " : "") + say(b.median) + unit + (half > 0 ? ", in nine of ten cases " + say(b.low_90) + " to " + say(b.high_90) : "") + ".";
    }

    void section() {
        if (!solved()) return;
        const auto& p = a_.profile;
        const std::size_t worst = desk::worst_moment(p);
        flow_.heading("Section through the leather", 260);
        flow_.picture(222, [&](Point at) {
            draw_section(sheet_, at, {flow_.wide(), 190}, p, 8.5);
            draw_ph_key(sheet_, {at.x + 0.2 * flow_.wide(), at.y + 198}, 0.6 * flow_.wide(), 8.5);
        });
        flow_.space(4);
        flow_.paragraph(desk::section_in_words(p) + " Colour is the pH of the water between the fibres. Grain and corium are true to scale; the finish and the liquid are stretched to be seen.", body());
        moments(worst);
    }

    void moments(std::size_t worst) {
        const auto& p = a_.profile;
        const double zero = desk::leather_top_um(p);
        struct Moment {
            std::string name;
            std::size_t at;
        };
        std::vector<Moment> told;
        for (const auto& e : p.events) {
            const auto next = std::lower_bound(p.time_s.begin(), p.time_s.end(), e.at_s);
            const auto at = static_cast<std::size_t>(std::min(next, p.time_s.end() - 1) - p.time_s.begin());
            if (told.size() < 7 && (told.empty() || told.back().at != at)) told.push_back({e.name, at});
        }
        if (std::none_of(told.begin(), told.end(), [&](const Moment& m) { return m.at == worst; })) told.push_back({"at its worst", worst});
        if (std::none_of(told.begin(), told.end(), [&](const Moment& m) { return m.at + 1 == p.time_s.size(); })) told.push_back({"end", p.time_s.size() - 1});
        std::stable_sort(told.begin(), told.end(), [](const Moment& x, const Moment& y) { return x.at < y.at; });
        std::vector<Column> columns{{"pH at depth", 88, 0, true}};
        for (const auto& m : told) columns.push_back({m.name + ", " + desk::span(p.time_s[m.at]), 0, 1});
        std::vector<std::vector<Cell>> rows;
        const auto row = [&](const std::string& name, const auto& value) {
            std::vector<Cell> cells{name};
            for (const auto& m : told) {
                const double v = value(m.at);
                cells.emplace_back(std::isfinite(v) ? desk::fixed(v, 1) : "–");
            }
            rows.push_back(std::move(cells));
        };
        if (p.film_ph.size() == p.time_s.size()) row("liquid on top", [&](std::size_t t) { return p.film_ph[t]; });
        if (p.surface_reading_ph.size() == p.time_s.size()) row("surface, as read", [&](std::size_t t) { return p.surface_reading_ph[t]; });
        for (double um : {5.0, 25.0, 50.0, 100.0, 200.0, 400.0, 800.0})
            if (zero + um < p.depth_um.back()) row(desk::depth_in_words(um), [&](std::size_t t) { return desk::ph_at(p, t, zero + um); });
        flow_.table(columns, rows);
    }

    void fans() {
        double grain = 0;
        for (const auto& l : a_.profile.layers)
            if (l.name == "grain") grain = l.bottom_um - desk::leather_top_um(a_.profile);
        std::vector<const desk::Fan*> shown;
        for (const auto& f : a_.sure.fans)
            if (f.at.size() > 1) shown.push_back(&f);
        if (shown.empty()) return;
        const double gap = 18, half = (flow_.wide() - gap) / 2, chart = 150;
        flow_.heading("How far the cases spread", 220);
        flow_.paragraph("Line: the middle case. Dark band: half of the cases. Light band: nine in ten. Dashed: a limit.", small());
        for (std::size_t i = 0; i < shown.size(); i += 2) {
            const std::size_t end = std::min(i + 2, shown.size());
            double title = 0, words = 0;
            for (std::size_t n = i; n < end; ++n) {
                title = std::max(title, sheet_.height(shown[n]->title, label(8.6, true), half));
                words = std::max(words, sheet_.height(desk::fan_in_words(*shown[n]), small(), half));
            }
            flow_.picture(title + chart + words + 10, [&](Point at) {
                for (std::size_t n = i; n < end; ++n) {
                    const double x = at.x + static_cast<double>(n - i) * (half + gap);
                    sheet_.text({x, at.y}, half, shown[n]->title, label(8.6, true));
                    draw_fan(sheet_, {x, at.y + title + 2}, {half, chart}, *shown[n], a_.limits, grain);
                    sheet_.text({x, at.y + title + chart + 5}, half, desk::fan_in_words(*shown[n]), small());
                }
            });
        }
    }

    void influences() {
        if (a_.sure.influences.empty()) return;
        flow_.heading("What the spread comes from");
        std::vector<std::vector<Cell>> rows;
        for (const auto& i : a_.sure.influences) {
            const auto bar = [&i](Sheet& sheet, Point at, double width, bool measure) {
                if (!measure) {
                    sheet.fill({at.x, at.y + 2}, {std::clamp(i.share_1, 0.0, 1.0) * width, 5}, rgb(0x8f5533));
                    sheet.frame({at.x, at.y + 2}, {width, 5}, ink, 0.5);
                }
                return 8.0;
            };
            rows.push_back({i.name, i.range, Cell(per_cent(std::max(0.0, i.share_1)) + " ± " + per_cent(i.plus_minus_1), bar), i.settled_by.empty() ? "–" : i.settled_by, who(i.basis)});
        }
        flow_.table({{"Not known", 0, 1.1, true}, {"Drawn from", 0, 1.2}, {"Makes alone", 84}, {"Settled by", 0, 0.8}, {"Who says so", 88}}, rows);
        flow_.paragraph("Makes alone: share of the spread of " + a_.sure.influences_of + " that this makes by itself (first-order index, standard error).", small());
    }

    void balance() {
        if (a_.balance.applied.unit.empty()) return;
        const std::string what = a_.balance.alkali ? "alkali" : "acid";
        flow_.heading("How much " + what + " stays, against what the leather takes up", 100);
        flow_.picture(5 * 17 + 4, [&](Point at) { draw_balance(sheet_, at, flow_.wide(), a_.balance); });
        flow_.paragraph("Uptake is counted to pH " + desk::fixed(a_.balance.limit_ph, 1) + ". The line on each bar is its band" + (a_.balance.left.band_from.empty() ? "." : "; of what is left: " + a_.balance.left.band_from + "."), small());
    }

    void limits() {
        if (a_.limits.empty()) return;
        flow_.heading("Limits");
        std::vector<std::vector<Cell>> rows;
        for (const auto& l : a_.limits) {
            const std::string where = l.passed && l.deepest_um > 0 ? ", down to " + desk::depth_in_words(l.deepest_um) + " for " + desk::span(l.longest_s) : "";
            desk::Number reached = l.reached;
            if (l.quantity.find("difference") != std::string::npos) reached.unit = "pH units";  // a difference of two pH values is no pH
            rows.push_back({l.name + (l.decides ? "" : " (shown, does not decide)"), (l.upper ? "at most " : "at least ") + desk::fixed(l.limit.value, 1), desk::number_in_words(reached) + ", " + quantity_words(l.quantity),
                            (l.passed ? "passed" : "within") + where, a_.sure.members > 0 ? per_cent(l.chance_1) : "–", who(l.basis)});
        }
        flow_.table({{"Limit", 0, 1.2, true}, {"Value", 50}, {"Reached", 0, 1}, {"Result", 66}, {"Passed in", 44}, {"Who says so", 84}}, rows);
    }

    void extract() {
        if (a_.extract.ph_before.unit.empty()) return;
        flow_.heading("Extract of the whole leather", 30);
        flow_.paragraph("Before " + desk::number_in_words(a_.extract.ph_before) + ", after " + desk::number_in_words(a_.extract.ph_after) + "; " + (a_.extract.within_en13336 ? "within" : "outside") + " EN 13336. " +
                            (a_.extract.difference_applies ? "Difference figure " + desk::fixed(a_.extract.difference_figure.value, 1) + ". " : "") + "Who says so: " + who(a_.extract.basis),
                        body());
    }

    void liquid() {
        const auto& l = a_.liquid;
        if (l.sentence.empty() && l.ph.unit.empty()) return;
        flow_.heading("The liquid, as used", 40);
        if (!l.sentence.empty()) flow_.paragraph(l.sentence, body());
        std::vector<std::vector<Cell>> rows;
        const auto row = [&](const std::string& name, const desk::Number& n) {
            if (!n.unit.empty()) rows.push_back({name, desk::number_in_words(n), std::string(desk::standing_words(n.standing)), n.band_from});
        };
        if (!l.ph_refused) row("pH", l.ph);
        row("reserve to pH " + desk::fixed(l.target_ph, 1), l.reserve_to_target);
        row("reserve alkalinity", l.reserve_alkalinity);
        row("buffer capacity", l.buffer_capacity);
        row("ionic strength", l.ionic_strength);
        if (!rows.empty()) flow_.table({{"Quantity", 130, 0, true}, {"Value", 110}, {"Standing", 100}, {"Band from", 0, 1}}, rows);
    }

    void cautions() {
        if (a_.cautions.empty()) return;
        flow_.heading("Take care", 30);
        flow_.list(a_.cautions, body(), warn);
    }

    void unknown() {
        const auto open = desk::not_known(a_);
        if (open.empty()) return;
        flow_.heading("What was not known", 30);
        flow_.list(open, body(), ink);
    }

    void sources() {
        if (!cited_.empty()) {
            flow_.heading("Who says so", 40);
            std::vector<std::vector<Cell>> rows;
            for (std::size_t i = 0; i < cited_.size(); ++i) {
                const auto& b = cited_[i];
                const auto citation = citation_of(b.source);
                rows.push_back({"[" + std::to_string(i + 1) + "]", b.rule, std::string(citation.empty() ? b.source : citation) + (b.locator.empty() ? "" : "; " + b.locator), std::string(desk::standing_words(b.standing))});
            }
            flow_.table({{"", 24, 0, true}, {"Rule", 0, 1}, {"Source and place", 0, 1.7}, {"Standing", 66}}, rows);
        }
        flow_.paragraph(std::string(desk::not_proof), label(9.2, true));
        std::string last = "Answered by " + a_.version + (k_.row.kept_at.empty() ? "" : " on " + date_words(k_.row.kept_at)) + ".";
        if (solved()) last += std::string(" Mass balance closed to ") + (a_.profile.mass_balance_error_1 < 1e-9 ? "1e-9 or better." : "worse than 1e-9.");
        flow_.paragraph(last, small());
    }

    Sheet& sheet_;
    const desk::KeptJudgement& k_;
    const desk::JudgeAnswer& a_;
    int of_;
    bool demo_;
    std::vector<Basis> cited_;
    Flow flow_;
};

}  // namespace

Result<std::string> technical_pages(const desk::KeptJudgement& k, desk::Paper paper) {
    const AboutFile file = about(k, "technical");
    int pages = 0;
    {
        Sheet trial(paper, file, true);
        TechnicalPages(trial, k, 0).draw();
        pages = trial.pages();
    }
    Sheet sheet(paper, file, false);
    TechnicalPages(sheet, k, pages).draw();
    return sheet.finish();
}

}  // namespace hw::pdf
