#include "face/cli/text.hpp"

#include <algorithm>
#include <cmath>

#include "base/source.hpp"
#include "desk/advice.hpp"
#include "desk/words.hpp"

namespace hw::cli {

namespace {

constexpr std::size_t width = 80;

std::size_t shown(const std::string& word) {  // UTF-8: continuation bytes take no column
    return static_cast<std::size_t>(std::count_if(word.begin(), word.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

}  // namespace

void wrap(std::string& out, const std::string& text, const std::string& first, const std::string& rest) {
    std::string line = first, word;
    bool empty = true;
    auto flush = [&] {
        if (word.empty()) return;
        if (!empty && shown(line) + 1 + shown(word) > width) { out += line + "\n"; line = rest; empty = true; }
        line += (empty ? "" : " ") + word;
        empty = false;
        word.clear();
    };
    for (char c : text) {
        if (c == ' ' || c == '\n') flush();
        else word += c;
    }
    flush();
    out += line + "\n";
}

namespace {

std::string padded(std::string text, std::size_t columns) {
    const std::size_t n = shown(text);
    return n < columns ? text + std::string(columns - n, ' ') : text;
}

std::string right(const std::string& text, std::size_t columns) {
    const std::size_t n = shown(text);
    return n < columns ? std::string(columns - n, ' ') + text : text;
}

std::string standing_words(Standing standing) {
    std::string words(name_of(standing));
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

std::string shown(const desk::Number& n) {
    return desk::to_band(n.value, n.plus_minus) + (n.plus_minus > 0 ? " ± " + desk::to_band(n.plus_minus, n.plus_minus) : std::string()) + (n.unit.empty() || n.unit == "pH" ? "" : " " + n.unit);
}

void row(std::string& out, const std::string& name, const desk::Number& n) {
    out += "  " + padded(name, 28) + padded(shown(n), 31) + " " + standing_words(n.standing) + "\n";
}

void stop_text(std::string& out, const desk::Stop& s) {
    out += "STOP\n";
    wrap(out, s.headline, "  ", "  ");
    for (const auto& line : s.do_now) wrap(out, line, "  now    ", "         ");
    for (const auto& line : s.never) wrap(out, line, "  never  ", "         ");
}

void reasons_text(std::string& out, const std::vector<desk::Reason>& reasons) {
    for (const auto& r : reasons) wrap(out, r.sentence, "  " + padded(r.weight, 9), "           ");
}

void sources_text(std::string& out, const std::vector<Basis>& sources) {
    for (const auto& b : sources) {
        const auto citation = citation_of(b.source);
        wrap(out, b.rule + " — " + std::string(citation.empty() ? b.source : citation) + "; " + b.locator + " [" + standing_words(b.standing) + "]", "  · ", "    ");
    }
}

/// pH over depth at a few moments.
void section_text(std::string& out, const desk::Profile& p) {
    const auto nearest = [](const std::vector<double>& all, double want) {
        const auto closer = [want](double x, double y) { return std::abs(x - want) < std::abs(y - want); };
        return static_cast<std::size_t>(std::min_element(all.begin(), all.end(), closer) - all.begin());
    };
    double finish_um = 0;
    for (const auto& layer : p.layers)
        if (layer.name == "finish") finish_um = layer.bottom_um;
    out += "\npH inside, by depth below the surface\n  " + padded("after", 10) + right("film", 6);
    std::vector<std::size_t> cells;
    for (double um : {5.0, 25.0, 50.0, 100.0, 200.0, 400.0, 800.0}) {
        cells.push_back(nearest(p.depth_um, finish_um + um));
        out += right(desk::fixed(um, 0) + " µm", 8);
    }
    out += "\n";
    double last = -1;
    for (double want : {0.0, 10.0, 60.0, 120.0, 600.0, 3600.0, 21600.0, p.time_s.back()}) {
        const std::size_t k = nearest(p.time_s, want);
        if (p.time_s[k] <= last) continue;
        last = p.time_s[k];
        out += "  " + padded(desk::span(last), 10) + right(std::isfinite(p.film_ph[k]) ? desk::fixed(p.film_ph[k], 1) : "–", 6);
        for (std::size_t cell : cells) out += right(desk::fixed(p.ph[k][cell], 1), 8);
        out += "\n";
    }
}

}  // namespace

std::string text_of(const desk::AnalyseAnswer& a) {
    std::string out;
    wrap(out, a.liquid + ": " + a.sentence, "", "");
    for (const auto& s : a.stops) stop_text(out, s);
    if (!a.reasons.empty()) out += "\nBecause\n";
    reasons_text(out, a.reasons);
    out += "\nAll of it\n";
    if (!a.ph_refused) row(out, "pH", a.ph);
    if (a.ionic_strength.unit.empty()) return out;  // a stop, and nothing that could be computed
    row(out, "ionic strength", a.ionic_strength);
    row(out, "buffer capacity", a.buffer_capacity);
    row(out, "reserve alkalinity, D1121", a.reserve_alkalinity);
    row(out, "alkaline reserve to pH 10", a.alkaline_reserve);
    row(out, "acid reserve to pH 4", a.acid_reserve);
    row(out, "reserve to pH " + desk::fixed(a.target_ph, 1), a.reserve_to_target);
    if (a.drying.size() > 1) {
        out += "\nAs it dries, open to the air\n  water left    pH     ions\n";
        for (const auto& d : a.drying)
            out += "  " + padded(desk::fixed(100 * d.water_left_1, 0) + " %", 12) + padded(desk::fixed(d.ph, 1), 7) + desk::fixed(d.ionic_strength_mol_kg, 2) + " mol/kg" + (d.beyond_model ? "  beyond the model" : "") + "\n";
    }
    if (!a.leaves.empty()) out += "\nLeaves\n";
    for (const auto& v : a.leaves) out += "  " + padded(v.name, 24) + padded(desk::span(v.time_to_third_s), 10) + v.remark + "\n";
    for (const auto& s : a.solids) out += "  forms: " + s.name + ", " + desk::fixed(1000 * s.amount_mol_kg, 1) + " mmol/kg\n";
    return out;
}

namespace {

std::string percent(double share) { return desk::fixed(100 * share, 0) + " %"; }

void harms_text(std::string& out, const std::vector<desk::Harm>& harms) {
    if (harms.empty()) return;
    out += "\nEvery kind of harm (a passed limit is not proof of damage)\n";
    for (const auto& h : harms) {
        std::string line = h.name + ": " + desk::grade_alone(h) + ". " + h.sentence;
        if (h.chance_1 && *h.chance_1 > 0) line += " Limit passed in " + percent(*h.chance_1) + " of the cases" + (h.lasting_1 && *h.lasting_1 > 0 ? ", for good in " + percent(*h.lasting_1) : std::string()) + (h.limit.empty() ? "." : ". " + h.limit + ".");
        wrap(out, line, "  · ", "    ");
    }
}

void sure_text(std::string& out, const desk::Sure& sure) {
    if (sure.members == 0) return;
    out += "\nHow sure\n";
    std::string line;
    for (const auto& c : sure.chances) line += (line.empty() ? "" : ", ") + percent(c.share_1) + " " + std::string(desk::grade_alone(c.grade));
    wrap(out, line + "; " + std::to_string(sure.members) + " cases that fit what is known", "  ", "  ");
    constexpr double least_told = 0.03;
    for (const auto& i : sure.influences)
        if (i.share_1 >= least_told) wrap(out, i.name + ", " + i.range + ": makes " + percent(i.share_1) + " of the spread of " + sure.influences_of + (i.settled_by.empty() ? "" : "; settled by: " + i.settled_by), "  · ", "    ");
}

}  // namespace

std::string text_of(const desk::JudgeAnswer& a) {
    std::string out;
    if (a.stop) stop_text(out, *a.stop);
    else {
        wrap(out, desk::advice(a) + ".", "", "");
        for (const auto& line : desk::do_now(a)) wrap(out, line, "  now    ", "         ");
        out += "\n";
        wrap(out, a.sentence, "", "");
        wrap(out, a.how_sure, "", "");
    }
    out += "\nBecause\n";
    reasons_text(out, a.reasons);
    harms_text(out, a.harms);
    sure_text(out, a.sure);
    if (!a.next_test.name.empty()) wrap(out, a.next_test.name + ", " + desk::span(60.0 * a.next_test.minutes) + ", settles " + a.next_test.settles + ". " + a.next_test.how, "  next     ", "           ");
    out += "\nCautions\n";
    for (const auto& c : a.cautions) wrap(out, c, "  · ", "    ");
    if (a.stop) {
        out += "\nWho says so\n";
        sources_text(out, a.sources);
        return out;
    }
    out += "\nAll of it\n";
    wrap(out, a.leather_sentence, "  leather: ", "           ");
    row(out, "leather, pH before", a.leather_ph);
    if (!a.liquid.ph_refused) row(out, "liquid as used, pH", a.liquid.ph);
    if (a.profile.time_s.empty()) {
        out += "\nWho says so\n";
        sources_text(out, a.sources);
        return out;
    }
    row(out, "liquid, reserve to leather", a.liquid.reserve_to_target);
    row(out, "laid on", a.dose);
    row(out, a.balance.alkali ? "alkali laid on" : "acid laid on", a.balance.applied);
    row(out, "of it left", a.balance.left);
    row(out, "grain takes up, to pH " + desk::fixed(a.balance.limit_ph, 1), a.balance.takes_grain);
    row(out, "corium takes up", a.balance.takes_corium);
    row(out, "extract after, ISO 4045", a.extract.ph_after);
    row(out, "difference figure", a.extract.difference_figure);
    out += std::string("  EN 13336: ") + (a.extract.within_en13336 ? "within" : "not within") + "\n";

    out += "\nLimits\n";
    for (const auto& l : a.limits)
        wrap(out, l.name + ": " + (l.upper ? "at most " : "at least ") + desk::fixed(l.limit.value, 1) + ", reaches " + desk::fixed(l.reached.value, 1) + " (" + l.quantity + ")" + (l.decides ? "" : "; shown, does not decide"), l.passed ? "  passed   " : "  within   ", "           ");

    if (!a.profile.time_s.empty()) section_text(out, a.profile);
    if (!a.defaults_used.empty()) {
        std::string names;
        for (const auto& d : a.defaults_used) names += (names.empty() ? "" : ", ") + d;
        wrap(out, "Nobody said, so the usual stands in: " + names + ".", "\n", "");
    }
    out += "\nWho says so\n";
    sources_text(out, a.sources);
    out += "\n" + a.version + "; mass balance closed to " + (a.profile.mass_balance_error_1 < 1e-9 ? "1e-9 or better" : "worse than 1e-9") + "\n";
    return out;
}

std::string text_of(const desk::IdentifyAnswer& a) {
    std::string out;
    wrap(out, a.sentence, "", "");
    if (!a.why_not.empty()) wrap(out, a.why_not, "", "");
    const auto shares = [&](const char* head, const std::vector<desk::CoverShare>& all, double least_pct) {
        out += std::string("\n") + head + "\n";
        for (const auto& s : all)
            if (s.chance.value >= least_pct) wrap(out, desk::fixed(s.chance.value, 0) + " %  " + s.name + (s.note.empty() ? "" : " (" + s.note + ")"), "  ", "    ");
    };
    shares("What it may be", a.kinds, 1);
    shares("Tannage", a.tannages, 1);
    shares("What may hide it", a.veils, 0);
    if (!a.moved.empty()) out += "\nWhat moved it\n";
    for (const auto& m : a.moved) wrap(out, m.sentence, m.contradicts ? "! " : "  ", "    ");
    for (const auto& r : a.read) wrap(out, "read: " + r, "  ", "    ");
    if (!a.next.empty()) out += "\nWhat to look at next\n";
    constexpr std::size_t shown = 4;
    for (std::size_t i = 0; i < a.next.size() && i < shown; ++i) wrap(out, a.next[i].test + ": " + a.next[i].sentence, "  ", "    ");
    out += "\nWhat it may be called\n";
    wrap(out, (a.called.empty() ? "Not yet." : a.called + ".") + " " + a.called_why, "  ", "  ");
    for (const auto& c : a.conflicts) wrap(out, c.one + " " + c.other + " " + c.what_we_do, "  - ", "    ");
    out += "\n";
    wrap(out, a.leather.leather_class.empty() ? a.judged_as : "judge takes it as " + a.leather.leather_class + (a.leather.tannage.empty() ? "" : ", tannage " + a.leather.tannage) + ". " + a.judged_as, "", "");
    wrap(out, a.shop, "", "");
    if (a.kept) wrap(out, "Written onto the panel.", "", "");
    if (!a.proof.empty()) wrap(out, "Proof kept: " + a.proof, "", "");
    return out;
}

std::string text_of(const desk::RefineAnswer& a) {
    std::string out;
    if (a.stop) {
        stop_text(out, *a.stop);
        return out;
    }
    wrap(out, a.sentence, "", "");
    wrap(out, a.how_sure, "", "");
    for (const auto& m : a.misfits) {
        out += "\n";
        wrap(out, m.sentence, "  ! ", "    ");
        for (const auto& meaning : m.may_mean) wrap(out, "it may be that " + meaning, "    - ", "      ");
    }
    if (!a.changes.empty()) out += "\nWhat the readings changed\n";
    for (const auto& c : a.changes) wrap(out, c.sentence, "  ", "    ");
    if (!a.readings.empty()) out += "\nThe readings\n";
    for (const auto& r : a.readings) wrap(out, r.sentence, r.fits ? "  " : "! ", "    ");
    out += "\nWhat to do next\n";
    wrap(out, a.next_sentence, "  ", "  ");
    for (const auto& t : a.next) wrap(out, t.name + ", " + desk::fixed(t.work_min, 0) + " min" + (t.wait_h > 0 ? " and " + desk::fixed(t.wait_h, 0) + " h to wait" : "") + (t.have ? "" : " (not in the shop)") + ": " + t.sentence, t.worth_it ? "  * " : "  - ", "    ");
    if (!a.reasons.empty()) out += "\nBecause\n";
    reasons_text(out, a.reasons);
    out += "\nMind\n";
    for (const auto& c : a.cautions) wrap(out, c, "  ", "  ");
    out += "\nWho says so\n";
    sources_text(out, a.sources);
    return out;
}

std::string text_of(const std::vector<desk::ShopTest>& bench) {
    std::string out;
    for (const auto& t : bench) out += "  " + padded(t.name, 34) + right(t.minutes ? desk::fixed(*t.minutes, 0) + " min" : "", 8) + (t.have ? "" : "  not in the shop") + "\n";
    return out;
}

std::string text_of(const desk::CompareAnswer& a) {
    std::string out;
    wrap(out, a.sentence, "", "");
    out += "\n";
    for (const auto& r : a.rows) {
        wrap(out, r.liquid + " on " + r.leather + (r.use.empty() ? "" : ", " + r.use) + ": " + std::string(desk::grade_alone(r.grade)), right(std::to_string(r.rank), 3) + "  ", "     ");
        std::string line;
        if (r.grade < desk::Grade::Unknown) line = percent(r.passed_1) + " pass a limit, " + percent(r.lasting_1) + " for good";
        if (std::isfinite(r.liquid_ph)) line += (line.empty() ? "" : "; ") + std::string("pH ") + desk::fixed(r.liquid_ph, 1);
        if (std::isfinite(r.reserve_mmol_m2)) line += "; " + desk::fixed(std::abs(r.reserve_mmol_m2), 1) + " mmol/m² of " + (r.reserve_mmol_m2 < 0 ? "acid" : "alkali") + " left";
        if (!r.decides.empty()) line += (line.empty() ? "" : "; ") + std::string("decides: ") + r.decides;
        if (!line.empty()) wrap(out, line, "     ", "     ");
        if (!r.why_not_ph.empty()) wrap(out, "by pH alone it would be number " + std::to_string(r.rank_by_ph) + ": " + r.why_not_ph, "     ", "     ");
    }
    out += "\nCautions\n";
    for (const auto& c : a.cautions) wrap(out, c, "  · ", "    ");
    return out;
}

std::string text_of(const desk::InspectAnswer& a) {
    std::string out;
    wrap(out, a.name + " (" + a.family_name + "): " + shown(a.area) + " of leather, " + std::to_string(a.panels.size()) + " panels.", "", "");
    out += "id " + a.piece + "\n";
    for (const auto& stop : a.stops) wrap(out, stop.sentence, "STOP  ", "      ");
    for (const auto& clash : a.clashes) wrap(out, clash.about, "Settle: ", "        ");
    out += "\nPanels\n";
    for (const auto& p : a.panels) {
        const std::string seen = p.conditions.empty() ? "" : "  condition " + desk::to_band(p.index.value, p.index.plus_minus) + " of 100";
        out += "  " + padded(p.code, 12) + right(desk::to_band(p.area.value, p.area.plus_minus) + " cm²", 12) + "  " + p.zone + seen + (p.in_conflict ? "  (two accounts)" : "") + "\n";
    }
    bool any = false;
    for (const auto& e : a.entries) {
        if (e.state != desk::EntryState::Stands || (e.entry.did != desk::Did::Condition && e.entry.did != desk::Did::Mark && e.entry.did != desk::Did::Said)) continue;
        out += any ? "" : "\nNoted\n";
        any = true;
        wrap(out, e.sentence, "  ", "    ");
    }
    if (!a.readings.empty()) out += "\nReadings\n";
    for (const auto& r : a.readings) wrap(out, r.name + (r.panel.empty() ? "" : " on " + r.panel) + ": " + shown(r.value) + (r.trusted ? "" : " (not relied on)") + (r.trust.empty() ? "" : ". " + r.trust), "  ", "    ");
    if (!a.missing.empty()) out += "\nStill to do\n";
    for (const auto& m : a.missing) wrap(out, m, "  - ", "    ");
    if (!a.agreed.empty()) wrap(out, a.agreed, "\n", "");
    return out;
}

std::string text_of(const desk::MeterCheck& m) {
    std::string out;
    wrap(out, m.sentence, "", "");
    if (!m.valid_until.empty()) out += "Good until " + m.valid_until + "\n";
    return out;
}

namespace {
void sentences_text(std::string& out, const char* title, const std::vector<desk::TriageSentence>& all) {
    if (all.empty()) return;
    out += std::string("\n") + title + "\n";
    for (const auto& s : all) wrap(out, s.sentence, "  - ", "    ");
}
}  // namespace

std::string text_of(const desk::TriageAnswer& a) {
    std::string out;
    if (a.stop) stop_text(out, *a.stop);
    wrap(out, "How soon: " + a.urgency.words + ". " + a.urgency.sentence, "", "");
    wrap(out, a.decision.sentence + (a.decision.to_whom.empty() ? "" : " (" + a.decision.to_whom + ")"), "", "");
    if (!a.stop) {
        sentences_text(out, "Say now", a.say);
        sentences_text(out, "Never", a.never);
    }
    if (!a.may_i.empty()) out += "\nMay I …?\n";
    for (const auto& m : a.may_i) wrap(out, m.asks + " " + m.answer, "  - ", "    ");
    if (!a.next.empty()) out += "\nAsk next (" + std::to_string(a.left) + " left)\n";
    for (std::size_t i = 0; i < std::min<std::size_t>(a.next.size(), 3); ++i) wrap(out, a.next[i].asks, "  - ", "    ");
    sentences_text(out, "Photographs to ask for", a.photos);
    sentences_text(out, "Keep as evidence", a.evidence_keep);
    out += "\nAmount\n";
    wrap(out, a.dose.sentence, "  ", "  ");
    if (!a.heard.empty()) out += "\nWhat was said\n";
    for (const auto& h : a.heard) wrap(out, h.name + ": " + h.words, "  ", "    ");
    if (!a.defaults.empty()) out += "\nTaken for want of an answer\n";
    for (const auto& d : a.defaults) wrap(out, d.sentence, "  ", "    ");
    if (!a.judge_sentence.empty()) wrap(out, a.judge_sentence, "\nTo go on with judge: ", "  ");
    if (!a.piece.empty()) out += "\nKept as piece " + a.piece + "\n";
    out += "\nWho says so\n";
    sources_text(out, a.sources);
    out += "\n" + a.at + ", " + a.version + "\n";
    return out;
}

std::string text_of(const desk::ProtectAnswer& a) {
    std::string out;
    for (const auto& stop : a.stops) stop_text(out, stop);
    if (!a.title.empty()) out += a.title + "\n";
    wrap(out, a.sentence, "", "");
    if (!a.ask_first.empty() && a.ask_first != a.sentence) wrap(out, a.ask_first, "Ask first: ", "  ");
    std::string where = a.place.name;
    if (a.place.volume.value > 0) where += ", " + shown(a.place.volume) + ", air changes " + desk::fixed(a.place.air_changes.value, 1) + " per hour (" + a.place.air_changes.band_from + ")";
    wrap(out, where, "\nWhere: ", "  ");
    for (const auto& i : a.items) wrap(out, i.name + ", " + i.amount + ", " + i.goes_on + ". " + i.sheet_sentence, "  - ", "    ");
    if (!a.air.vapours.empty()) {
        out += "\nAir\n";
        wrap(out, a.air.sentence, "  ", "  ");
        for (const auto& v : a.air.vapours) {
            std::string line = v.name + ": " + desk::fixed(v.planned_ml.value, 1) + " ml planned";
            line += v.limit ? "; limit " + desk::fixed(v.limit->ppm.value, 0) + " ppm (" + v.limit->where + ")" : "; no limit found";
            if (v.ml_to_limit) line += "; " + desk::fixed(v.ml_to_limit->value, 1) + " ml fill the closed space to it";
            if (v.ml_to_lel) line += "; " + desk::fixed(v.ml_to_lel->value, 0) + " ml to a quarter of the lower explosive limit";
            if (a.air.computed) line += "; at its highest " + desk::fixed(v.peak_ppm.value, 0) + " ppm, closed " + desk::fixed(v.closed_ppm.value, 0) + " ppm, worst 15 min " + desk::fixed(v.worst_15_min_ppm.value, 0) + " ppm, mean of 8 h " + desk::fixed(v.shift_mean_ppm.value, 0) + " ppm";
            wrap(out, line + ".", "  - ", "    ");
        }
        if (a.air.computed) wrap(out, "Of what could ignite: " + desk::fixed(a.air.peak_of_lel.value, 1) + " % at its highest, " + desk::fixed(a.air.closed_of_lel.value, 1) + " % if all of it stays inside. Just over a limit is where protection is asked for; many times over, it can hurt at once.", "  ", "  ");
        if (!a.air.unknown.empty()) wrap(out, a.air.unknown, "  ", "  ");
    }
    for (const auto& p : a.parts) {
        out += "\n" + p.name + "\n";
        for (const auto& l : p.lines) wrap(out, l.sentence, "  - ", "    ");
    }
    const auto note = [&](const char* name, const std::vector<std::string>& lines) {
        for (const auto& l : lines) wrap(out, l, std::string("  ") + name + ": ", "    ");
    };
    out += "\nNote for the household\n";
    note("Used", a.note.uses);
    note("Out", a.note.stay_out);
    note("Please", a.note.please);
    note("Watch", a.note.watch);
    note("Call", a.note.call);
    if (!a.defaults_used.empty()) out += "\nTaken for want of an answer\n";
    for (const auto& d : a.defaults_used) wrap(out, d, "  ", "    ");
    out += "\nWho says so\n";
    sources_text(out, a.sources);
    out += "\n" + a.at + ", " + a.version + "\n";
    return out;
}

std::string text_of(const std::vector<desk::OwnLimit>& limits) {
    std::string out;
    for (const auto& l : limits)
        wrap(out, l.id + "  " + l.substance + " (" + l.cas + "), " + l.span + ": " + (l.limit_ppm ? desk::fixed(*l.limit_ppm, 2) + " ppm" : desk::fixed(*l.limit_mg_m3, 2) + " mg/m³") + ", " + l.jurisdiction + "; " + l.source + ", " + l.dated, "", "  ");
    return out.empty() ? "No limit of the shop's own yet: the lowest that a sheet or a table prints counts.\n" : out;
}

std::string text_of(const desk::TriageQuestions& all) {
    std::string out;
    const auto choices = [&](const std::vector<desk::TriageChoice>& from) {
        for (const auto& c : from) wrap(out, c.name, "    " + padded(c.key, 18), std::string(22, ' '));
    };
    for (const auto& q : all.questions) {
        wrap(out, q.asks, padded(q.key, 12), std::string(12, ' '));
        choices(q.choices);
        for (const auto& u : q.units) out += "    " + padded("number", 18) + u.key + ": " + u.name + ", " + desk::fixed(u.least_1, u.least_1 > 0 && u.least_1 < 1 ? 1 : 0) + " to " + desk::fixed(u.most_1, 0) + "\n";
    }
    out += "\nMay I …?\n";
    choices(all.may_i);
    out += "\nNever said\n";
    for (const auto& c : all.do_not_say) wrap(out, c.key + " " + c.name, "  ", "    ");
    return out;
}

namespace {

void way_text(std::string& out, const desk::WayAnswer& w) {
    wrap(out, w.name + ": " + w.sentence, w.recommended ? "  ->  " : w.possible ? "      " : "  no  ", "      ");
    if (!w.possible || !w.inside_surface_1) return;
    std::string line = "inside: surface " + percent(*w.inside_surface_1) + ", depth " + percent(*w.inside_depth_1) + "; past a limit " + percent(*w.past_limit_1);
    if (w.ring_1) line += "; ring " + percent(*w.ring_1) + ", darker for a while " + percent(*w.darkening_1);
    if (w.moisture.value > 0) line += "; " + shown(w.moisture) + " of water stay";
    line += "; " + desk::fixed(w.work_min, 0) + " min of work, " + desk::fixed(w.wait_h, 0) + " h of waiting; comes to " + desk::fixed(w.loss_min, 0) + " min of work in the mean";
    wrap(out, line + ".", "      ", "      ");
}

}  // namespace

std::string text_of(const desk::RebalanceAnswer& a) {
    std::string out;
    if (a.stop) stop_text(out, *a.stop);
    else {
        wrap(out, a.sentence, "", "");
        wrap(out, a.how_sure, "", "");
        if (!a.cannot.empty()) wrap(out, a.cannot, "\nNot within the moisture: ", "  ");
    }
    if (!a.remedies.empty()) out += "\nAsked\n";
    for (const auto& r : a.remedies) wrap(out, r.asked + " " + r.sentence, "  ", "    ");
    out += "\nBench card\n";
    int n = 0;
    for (const auto& s : a.card) {
        wrap(out, s.title + (s.clock_s > 0 ? " [" + (s.clock_name.empty() ? "" : s.clock_name + " ") + desk::span(s.clock_s) + "]" : ""), right(std::to_string(++n), 3) + ". ", "     ");
        if (!s.how.empty()) wrap(out, s.how, "     ", "     ");
        if (!s.caution.empty()) wrap(out, s.caution, "     ! ", "       ");
    }
    for (const auto& e : a.expected) {
        wrap(out, e.name + ": about " + desk::fixed(e.reading.median, 1) + ", in nine of ten cases " + desk::fixed(e.reading.low_90, 1) + " to " + desk::fixed(e.reading.high_90, 1) + ".", "\nExpected\n  ", "    ");
        wrap(out, e.if_higher, "  higher:  ", "           ");
        wrap(out, e.if_lower, "  lower:   ", "           ");
    }
    out += "\nEvery way\n";
    for (const auto& w : a.ways) way_text(out, w);
    if (!a.next_sentence.empty()) wrap(out, a.next_sentence, "\nNext test: ", "  ");
    out += "\nBecause\n";
    reasons_text(out, a.reasons);
    if (!a.ledger.empty()) out += "\nIn the leather now\n";
    for (const auto& l : a.ledger) wrap(out, l.name + (l.left.unit.empty() ? "" : ": " + shown(l.left)) + (l.from.empty() ? "" : ", from " + l.from) + (l.may_not_meet.empty() ? "" : "; keep off: " + l.may_not_meet), "  ", "    ");
    if (a.section) section_text(out, *a.section);
    out += "\nCautions\n";
    for (const auto& c : a.cautions) wrap(out, c, "  · ", "    ");
    out += "\nWho says so\n";
    sources_text(out, a.sources);
    if (a.members > 0) out += "\n" + a.version + "; " + std::to_string(a.members) + " cases" + (a.preliminary ? ", a first answer" : "") + "\n";
    return out;
}

namespace {

/// "  pH  12 to 12.6   page 7, read plainly".
void sheet_line(std::string& out, const desk::SheetFact& f) {
    if (f.value.empty() && f.note.empty()) return;
    std::string who = f.sure;
    if (f.place.page > 0) who = "page " + std::to_string(f.place.page) + ", " + who;
    if (f.look) who = "! " + who;
    wrap(out, (f.value.empty() ? "–" : f.value) + "  [" + who + "]", "  " + padded(f.name, 20) + " ", std::string(23, ' '));
    if (!f.sheet_value.empty() && !f.value.empty()) wrap(out, "the sheet says: " + f.sheet_value, std::string(23, ' '), std::string(23, ' '));
    if (!f.note.empty()) wrap(out, f.note, std::string(23, ' '), std::string(23, ' '));
}

}  // namespace

std::string text_of(const desk::DigestAnswer& a) {
    std::string out;
    wrap(out, a.sentence, "", "");
    for (const auto& c : a.contradictions) wrap(out, c.sentence, "! ", "  ");
    for (const auto& x : a.xml) wrap(out, x.name + ": " + x.sentence, "  ", "  ");
    if (!a.ingredients.empty()) out += "\nWhat is in it\n";
    for (const auto& i : a.ingredients) {
        if (i.removed) continue;
        std::string line = padded(i.name.value, 30) + " " + padded(i.cas.value, 12) + " " + (i.share.value.empty() ? "share not said" : i.share.value);
        if (i.name.look || i.cas.look || i.share.look) line += "  [! look at it first]";
        if (i.name.place.page > 0) line += "  [page " + std::to_string(i.name.place.page) + "]";
        out += "  " + line + "\n";
        for (const auto* f : {&i.cas, &i.share})
            if (!f->note.empty()) wrap(out, f->note, "    ", "    ");
    }
    for (const auto& g : a.groups) {
        std::string lines;
        for (const auto& f : g.facts)
            if (f.key != "codes" || g.facts.size() < 3) sheet_line(lines, f);
        if (!lines.empty()) out += "\n" + g.name + "\n" + lines;
    }
    if (!a.missing.empty()) out += "\nNobody says yet\n";
    for (const auto& m : a.missing) wrap(out, m, "  ", "  ");
    out += "\n";
    wrap(out, a.never_a_recipe, "", "");
    if (a.kept) wrap(out, a.liquid.empty() ? a.not_for_the_shelf.empty() ? "Put it on the shelf: hidewright sheets shelve " + a.id.substr(0, 12) : "Not for the shelf yet: " + a.not_for_the_shelf : "On the shelf as " + a.liquid + ".", "", "");
    return out;
}

namespace {

void list_of(std::string& out, const std::string& title, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    out += "\n" + title + "\n";
    for (const auto& l : lines) wrap(out, l, "  ", "    ");
}

void tests_of(std::string& out, const std::vector<desk::SeparatingTest>& tests) {
    constexpr std::size_t most = 3;
    if (tests.empty()) return;
    out += "\nWhat would tell them apart\n";
    for (std::size_t i = 0; i < std::min(most, tests.size()); ++i) {
        const auto& t = tests[i];
        wrap(out, t.name + " (" + desk::fixed(t.work_min, 0) + " min" + (t.wait_h > 0 ? ", then wait " + desk::fixed(t.wait_h, 0) + " h" : "") + "): " + t.how, "  ", "    ");
        for (std::size_t q = 0; q < t.signs.size(); ++q) wrap(out, t.questions[q] + " --saw " + t.signs[q] + "=yes or =no", "    ", "      ");
    }
}

std::string fives(double pct) { return desk::fixed(std::round(pct / 5) * 5, 0); }

}  // namespace

std::string text_of(const desk::DiagnoseAnswer& a) {
    std::string out;
    for (const auto& f : a.first) wrap(out, f, "! ", "  ");
    wrap(out, a.sentence, "", "");
    wrap(out, a.why_sure, "", "");
    if (!a.causes.empty()) out += "\nCauses\n";
    for (const auto& c : a.causes) {
        wrap(out, padded(c.name, 44) + " " + padded(c.words, 12) + " " + fives(c.low_pct) + " to " + fives(c.high_pct) + " %", "  ", "    ");
        if (&c != &a.causes[0] && &c != &a.causes[1]) continue;
        for (const auto& s : c.speaks_for) wrap(out, s.sentence, "    + ", "      ");
        for (const auto& s : c.speaks_against) wrap(out, s.sentence, "    - ", "      ");
        wrap(out, c.active, "    ", "    ");
    }
    tests_of(out, a.tests);
    if (!a.causes.empty()) { out += "\n"; wrap(out, a.differs, "", ""); }
    for (const auto& f : a.findings) wrap(out, f.sentence + " [" + f.basis.source + ", " + standing_words(f.basis.standing) + "]", "  ", "    ");
    list_of(out, "Never", a.never);
    out += "\nFor the owner\n";
    wrap(out, a.owner, "  ", "  ");
    return out;
}

std::string text_of(const desk::AdviseAnswer& a) {
    std::string out;
    for (const auto& f : a.first) wrap(out, f, "! ", "  ");
    wrap(out, a.sentence, "", "");
    for (const auto& p : a.panels) {
        out += "\n" + p.name + "\n";
        for (const auto& r : p.reasons) wrap(out, r.sentence + " [" + r.basis.source + ", " + standing_words(r.basis.standing) + "]", "  ", "    ");
        for (const auto& o : p.options) {
            wrap(out, o.name + (o.recommended ? " (advised)" : "") + ": " + o.promise + ". " + o.chance + " Lasts " + desk::fixed(o.months_low, 0) + " to " + desk::fixed(o.months_high, 0) + " months.", "  > ", "    ");
            if (o.hours) wrap(out, "Half of such jobs take up to " + desk::to_band(*o.hours, 0.1) + " h" + (o.hours_80 ? ", eight in ten up to " + desk::to_band(*o.hours_80, 0.1) + " h" : "") + " (" + o.hours_from + ").", "    ", "    ");
            if (o.months_for_hour) wrap(out, "About " + desk::to_band(*o.months_for_hour, 1) + " months of life for an hour of work.", "    ", "    ");
        }
    }
    list_of(out, "Out of reach", a.out_of_reach);
    tests_of(out, a.tests);
    list_of(out, "Never", a.never);
    out += "\nFor the owner\n";
    wrap(out, a.owner, "  ", "  ");
    return out;
}

}  // namespace hw::cli
