// The bench card in large type, for wet hands and bad light, and the plan behind it.
#include <algorithm>

#include "base/source.hpp"
#include "desk/report.hpp"
#include "desk/words.hpp"
#include "edge/pdf/flow.hpp"
#include "edge/pdf/pages.hpp"
#include "edge/pdf/pictures.hpp"

namespace hw::pdf {

namespace {

constexpr double card_size = 12.5, plan_size = 9.6;

bool is_demo_plan(const desk::RebalanceRequest& r, const desk::RebalanceAnswer& a) {
    const auto& told = r.known.happened;
    return told.liquid.standing == Standing::Invented || told.leather.standing == Standing::Invented || std::any_of(a.ways.begin(), a.ways.end(), [](const desk::WayAnswer& w) { return w.recommended && w.rinse && w.rinse->liquid_id.rfind("demo_", 0) == 0; });
}

class BenchPages {
public:
    BenchPages(Sheet& sheet, const desk::RebalanceRequest& r, const desk::RebalanceAnswer& a, const std::string& at, int of)
        : sheet_(sheet), r_(r), a_(a), at_(at), of_(of), demo_(is_demo_plan(r, a)), flow_(sheet, margin + (demo_ ? 24 : 6), sheet.size().height - margin - 4, [this] { frame(); }) {}

    void draw() {
        if (a_.stop) flow_.space(draw_stop(sheet_, {flow_.left(), flow_.y()}, flow_.wide(), *a_.stop, 12) + 10);
        else {
            flow_.paragraph(a_.sentence, serif(18), 4);
            flow_.paragraph(a_.how_sure, label(card_size - 2), 6);
        }
        card();
        expected();
        if (!a_.stop) plan();
        sources();
    }

private:
    void frame() {
        double y = margin - 14;
        if (demo_) y += draw_demo_mark(sheet_, {flow_left(), y}, flow_wide(), 9) + 4;
        sheet_.text({flow_left(), y}, flow_wide() / 2, "Bench card", label(8.5, true, ink_soft));
        Type right = label(8.5, false, ink_soft);
        right.align = Align::Right;
        sheet_.text({flow_left() + flow_wide() / 2, y}, flow_wide() / 2, date_words(at_) + (of_ > 0 ? " · page " + std::to_string(sheet_.pages()) + " of " + std::to_string(of_) : ""), right);
    }
    [[nodiscard]] double flow_left() const { return margin; }
    [[nodiscard]] double flow_wide() const { return sheet_.size().width - 2 * margin; }

    void card() {
        if (a_.card.empty()) return;
        flow_.heading("Step by step", 60);
        int n = 0;
        for (const auto& s : a_.card) {
            const double indent = 30, inner = flow_.wide() - indent;
            const Type title = serif(card_size + 1.5), how = label(card_size - 1.5), care = label(card_size - 1.5, true, warn);
            const std::string head = s.title + (s.clock_s > 0 ? " — " + s.clock_name + " " + desk::span(s.clock_s) : "");
            double tall = sheet_.height(head, title, inner) + 6;
            if (!s.how.empty()) tall += sheet_.height(s.how, how, inner);
            if (!s.caution.empty()) tall += sheet_.height(s.caution, care, inner);
            flow_.picture(tall + 4, [&](Point at) {
                sheet_.text(at, indent, std::to_string(++n), serif(card_size + 5, true, s.reading ? accent : ink));
                double y = at.y + sheet_.text({at.x + indent, at.y}, inner, head, title, "H3");
                if (!s.how.empty()) y += sheet_.text({at.x + indent, y}, inner, s.how, how);
                if (!s.caution.empty()) sheet_.text({at.x + indent, y}, inner, s.caution, care);
            });
        }
    }

    void expected() {
        if (a_.expected.empty()) return;
        flow_.heading("What to expect", 60);
        for (const auto& e : a_.expected) {
            flow_.paragraph(e.name + ": about " + desk::fixed(e.reading.median, 1) + "; in nine of ten cases from " + desk::fixed(e.reading.low_90, 1) + " to " + desk::fixed(e.reading.high_90, 1) + ".", label(card_size - 1, true));
            flow_.paragraph({{{"Higher:", true}, {e.if_higher, false}}}, label(card_size - 1.5));
            flow_.paragraph({{{"Lower:", true}, {e.if_lower, false}}}, label(card_size - 1.5), 6);
        }
        flow_.list(a_.cautions, label(card_size - 1.5), warn);
    }

    static std::string share(const std::optional<double>& s) { return s ? desk::per_cent(*s) : "–"; }

    void plan() {
        flow_.heading("Every way, side by side", 80);
        const std::string none = "–";
        std::vector<std::vector<Cell>> rows;
        for (const auto& w : a_.ways) {
            if (!w.possible) rows.push_back({w.name, w.refused, none, none, none, none, none});
            else rows.push_back({w.name + (w.recommended ? " (this one)" : ""), w.sentence, share(w.inside_surface_1), share(w.inside_depth_1), share(w.past_limit_1), share(w.ring_1), desk::fixed(w.work_min, 0) + " min, " + desk::fixed(w.wait_h, 0) + " h"});
        }
        flow_.table({{"Way", 0, 0.7, true}, {"What", 0, 2}, {"Surface", 40}, {"Depth", 36}, {"Limit", 34}, {"Ring", 30}, {"Work, wait", 62}}, rows);
        flow_.paragraph("Surface and depth: share of the cases that end inside pH " + desk::fixed(a_.window.low_ph, 1) + " to " + desk::fixed(a_.window.high_ph, 1) + " (" + a_.window.from + "). Limit: share that pass one anywhere at any time from now.", label(8.4, false, ink_soft), 6);
        if (!a_.cannot.empty()) flow_.paragraph(a_.cannot, label(plan_size), 6);
        if (a_.section && !a_.section->time_s.empty()) {
            flow_.heading("Inside the leather, from now", 220);
            flow_.picture(200, [&](Point at) { draw_section(sheet_, at, {flow_.wide(), 196}, *a_.section, 8.5); });
            flow_.space(draw_ph_key(sheet_, {flow_.left(), flow_.y()}, flow_.wide(), 8.5) + 6);
            flow_.paragraph(desk::section_in_words(*a_.section), label(plan_size));
        }
        const auto best = std::find_if(a_.ways.begin(), a_.ways.end(), [](const desk::WayAnswer& w) { return w.recommended; });
        if (best != a_.ways.end())
            for (const auto& fan : best->fans) {
                flow_.need(150);
                flow_.paragraph(fan.title, label(plan_size, true), 2);
                double tall = 120;
                flow_.picture(tall, [&](Point at) { draw_fan(sheet_, at, {flow_.wide(), 110}, fan, {}, 300); });
                flow_.paragraph(desk::fan_in_words(fan), label(8.4, false, ink_soft), 6);
            }
        if (!a_.ledger.empty()) {
            flow_.heading("In the leather now", 40);
            std::vector<std::vector<Cell>> rows2;
            for (const auto& l : a_.ledger) rows2.push_back({l.name, l.left.unit.empty() ? std::string() : desk::number_in_words(l.left), l.from, l.may_not_meet});
            flow_.table({{"What", 0, 1, true}, {"Left", 110}, {"From", 0, 1}, {"Keep off", 0, 1}}, rows2);
        }
        if (!a_.remedies.empty()) {
            flow_.heading("Asked, and why not", 40);
            for (const auto& m : a_.remedies) flow_.paragraph({{{m.asked, true}, {m.sentence, false}}}, label(plan_size));
        }
        flow_.heading("Because", 40);
        std::vector<std::string> reasons;
        for (const auto& reason : a_.reasons) reasons.push_back(reason.sentence);
        flow_.list(reasons, label(plan_size), accent);
    }

    void sources() {
        flow_.heading("Who says so", 40);
        std::vector<std::vector<Cell>> rows;
        for (const auto& b : a_.sources) {
            const auto citation = citation_of(b.source);
            rows.push_back({b.rule, std::string(citation.empty() ? b.source : citation) + (b.locator.empty() ? "" : "; " + b.locator), std::string(desk::standing_words(b.standing))});
        }
        flow_.table({{"Rule", 0, 1, true}, {"Source and place", 0, 1.7}, {"Standing", 66}}, rows);
        flow_.paragraph(std::string(desk::not_proof), label(9.2, true));
        flow_.paragraph("Answered by " + a_.version + (a_.members > 0 ? ", from " + std::to_string(a_.members) + " cases" + (a_.preliminary ? ": a first answer" : "") : "") + ".", label(8.4, false, ink_soft));
    }

    Sheet& sheet_;
    const desk::RebalanceRequest& r_;
    const desk::RebalanceAnswer& a_;
    std::string at_;
    int of_;
    bool demo_;
    Flow flow_;
};

}  // namespace

Result<std::string> bench_pages(const desk::RebalanceRequest& r, const desk::RebalanceAnswer& a, const std::string& at, desk::Paper paper) {
    const AboutFile file{"Bench card", "Plan to bring a leather back", at};
    int pages = 0;
    {
        Sheet trial(paper, file, true);
        BenchPages(trial, r, a, at, 0).draw();
        pages = trial.pages();
    }
    Sheet sheet(paper, file, false);
    BenchPages(sheet, r, a, at, pages).draw();
    return sheet.finish();
}

}  // namespace hw::pdf
