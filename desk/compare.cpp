#include "desk/compare.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "desk/next_step.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::size_t most_rows = 60;

/// "a, b", with a name for what has none.
std::string named(const std::string& name, const char* otherwise) { return name.empty() ? otherwise : name; }

const Harm* deciding(const JudgeAnswer& a) {
    for (const auto& h : a.harms)
        if (h.decides) return &h;
    return nullptr;
}

CompareRow row_of(const JudgeAnswer& a, const Liquid& liquid, const Leather& leather, const std::string& use) {
    CompareRow r;
    r.liquid = named(a.liquid.liquid.empty() ? liquid.name : a.liquid.liquid, "liquid without a name");
    r.leather = named(a.leather.name.empty() ? leather.name : a.leather.name, a.leather_sentence.empty() ? "leather" : a.leather_sentence.c_str());
    r.use = use;
    r.grade = a.grade;
    r.sentence = a.sentence;
    r.next_test = a.next_test.name;
    r.answer_1 = a.sure.answer_1;
    for (const auto& c : a.sure.chances) {
        if (c.grade != Grade::StaysWithin) r.passed_1 += c.share_1;
        if (c.grade == Grade::Lasting || c.grade == Grade::Deep) r.lasting_1 += c.share_1;
    }
    for (const auto& l : a.limits) {
        if (!l.decides) continue;
        r.deepest_um = std::max(r.deepest_um, l.deepest_um);
        r.longest_s = std::max(r.longest_s, l.longest_s);
    }
    if (const Harm* h = deciding(a)) r.decides = h->name;
    else if (a.stop) r.decides = "People first";
    else if (a.grade == Grade::Unknown) r.decides = "Too little is known";
    r.liquid_ph = a.liquid.ph_refused ? std::numeric_limits<double>::quiet_NaN() : a.liquid.ph.value;
    r.reserve_mmol_m2 = a.profile.time_s.empty() ? std::numeric_limits<double>::quiet_NaN() : (a.balance.alkali ? 1 : -1) * a.balance.left.value;
    return r;
}

/// Mildest first: by grade, then by the chance of something that stays, then of anything, then by what is left.
bool milder(const CompareRow& x, const CompareRow& y) {
    if (x.grade != y.grade) return x.grade < y.grade;
    if (x.lasting_1 != y.lasting_1) return x.lasting_1 < y.lasting_1;
    if (x.passed_1 != y.passed_1) return x.passed_1 < y.passed_1;
    return std::abs(x.reserve_mmol_m2) < std::abs(y.reserve_mmol_m2);
}

/// What pH alone leaves out, with the figures that make the difference.
std::string what_ph_leaves_out(const CompareRow& r) {
    if (r.grade == Grade::Stop) return "what must not meet stops it, whatever its pH";
    if (r.grade == Grade::Unknown) return "what is not known decides, not its pH";
    const bool by_ph = r.decides.empty() || r.decides == "Alkali in the leather" || r.decides == "Acid in the leather";
    if (!by_ph) return r.decides + " decides, which pH does not show";
    const std::string left = std::isfinite(r.reserve_mmol_m2) ? fixed(std::abs(r.reserve_mmol_m2), std::abs(r.reserve_mmol_m2) < 10 ? 1 : 0) + " mmol/m² stay" : "";
    if (r.deepest_um <= 0) return "nothing inside the leather passes a limit; " + left;
    return "past a limit down to " + fixed(r.deepest_um, 0) + " µm, for " + span(r.longest_s) + "; " + left;
}

void rank(std::vector<CompareRow>& rows, const std::vector<double>& leather_ph) {
    // By pH alone, as a table of pH values would have it.
    std::vector<std::size_t> by_ph;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (std::isfinite(rows[i].liquid_ph)) by_ph.push_back(i);
    const auto away = [&](std::size_t i) { return std::round(10 * std::abs(rows[i].liquid_ph - leather_ph[i])); };
    std::stable_sort(by_ph.begin(), by_ph.end(), [&](std::size_t x, std::size_t y) { return away(x) < away(y); });
    for (std::size_t k = 0; k < by_ph.size(); ++k) {
        const bool same = k > 0 && away(by_ph[k]) == away(by_ph[k - 1]);
        rows[by_ph[k]].rank_by_ph = same ? rows[by_ph[k - 1]].rank_by_ph : static_cast<int>(k) + 1;
    }
    std::stable_sort(rows.begin(), rows.end(), milder);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const bool same = i > 0 && !milder(rows[i - 1], rows[i]) && !milder(rows[i], rows[i - 1]);
        rows[i].rank = same ? rows[i - 1].rank : static_cast<int>(i) + 1;
    }
    for (auto& r : rows)
        if (r.rank_by_ph != 0 && r.rank != r.rank_by_ph) r.why_not_ph = what_ph_leaves_out(r);
}

/// Cautions of all judgements, each once, with the names of those it is about where it is not about all.
class Cautions {
public:
    void add(const std::string& caution, const std::string& whose) {
        for (auto& [text, names] : said_)
            if (text == caution) {
                if (std::find(names.begin(), names.end(), whose) == names.end()) names.push_back(whose);
                return;
            }
        said_.push_back({caution, {whose}});
    }
    [[nodiscard]] std::vector<std::string> all(std::size_t of) const {
        std::vector<std::string> out;
        for (const auto& [text, names] : said_) {
            std::string whose;
            if (names.size() < of)
                for (const auto& name : names) whose += (whose.empty() ? "" : "; ") + name;
            out.push_back(whose.empty() ? text : whose + ": " + text);
        }
        return out;
    }

private:
    std::vector<std::pair<std::string, std::vector<std::string>>> said_;
};

std::string cell(const std::string& text) {
    // A spreadsheet takes a leading = + - @ for a formula.
    std::string out = !text.empty() && std::string("=+-@\t\r").find(text.front()) != std::string::npos ? "'" + text : text;
    if (out.find_first_of(",\"\r\n") == std::string::npos) return out;
    std::string quoted = "\"";
    for (char c : out) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string figure(double value, int decimals) { return std::isfinite(value) ? fixed(value, decimals) : ""; }

}  // namespace

Result<CompareAnswer> compare(const CompareRequest& request, Ports& ports, const Progress& progress) {
    if (const auto bad = out_of_range(request)) return *bad;
    if (request.liquids.empty()) return Error{ErrorCode::InvalidInput, "Give at least one liquid.", "liquids"};
    if (request.leathers.empty()) return Error{ErrorCode::InvalidInput, "Give at least one leather.", "leathers"};
    const std::vector<NamedUse> uses = request.uses.empty() ? std::vector<NamedUse>{{"as usual", {}}} : request.uses;
    const std::size_t all = request.liquids.size() * request.leathers.size() * uses.size();
    if (all > most_rows) return Error{ErrorCode::InvalidInput, "That is " + std::to_string(all) + " judgements; compare at most " + std::to_string(most_rows) + " at a time. Take fewer liquids, leathers or ways of use.", "liquids"};
    CompareAnswer out;
    out.version = std::string(program_version);
    std::vector<double> leather_ph;
    Cautions said;
    for (std::size_t i = 0; i < request.liquids.size(); ++i)
        for (std::size_t j = 0; j < request.leathers.size(); ++j)
            for (std::size_t k = 0; k < uses.size(); ++k) {
                JudgeRequest one;
                one.liquid = request.liquids[i];
                one.leather = request.leathers[j];
                one.use = uses[k].use;
                one.meets = request.meets;
                one.members = request.members;
                auto answer = judge(one, ports);
                if (!answer.ok()) {
                    // The field as the caller knows it: liquid.x is liquids[i].x.
                    Error e = answer.error();
                    const auto named_as = [&](std::string_view from, const std::string& to) {
                        if (std::string_view(e.where).substr(0, from.size()) == from) e.where = to + e.where.substr(from.size());
                    };
                    named_as("liquid", "liquids[" + std::to_string(i) + "]");
                    named_as("leather", "leathers[" + std::to_string(j) + "]");
                    named_as("use", "uses[" + std::to_string(k) + "].use");
                    return e;
                }
                out.rows.push_back(row_of(*answer, one.liquid, one.leather, uses[k].name));
                leather_ph.push_back(answer->leather_ph.value);
                const std::string whose = out.rows.back().liquid + (request.leathers.size() > 1 ? " on " + out.rows.back().leather : std::string()) + (uses.size() > 1 ? ", " + uses[k].name : std::string());
                for (const auto& c : answer->cautions) said.add(c, whose);
                for (const auto& r : answer->reasons)
                    if (r.weight == "caution") said.add(r.sentence, whose);
                if (progress && !progress(static_cast<double>(out.rows.size()) / static_cast<double>(all), "judging one by one")) return Error{ErrorCode::NotConverged, "Cancelled.", ""};
            }
    out.cautions = said.all(out.rows.size());
    rank(out.rows, leather_ph);
    const CompareRow& first = out.rows.front();
    const std::string what = request.liquids.size() > 1 ? first.liquid : request.leathers.size() > 1 ? first.leather : first.use;
    const bool others = std::any_of(out.rows.begin() + 1, out.rows.end(), [](const CompareRow& r) { return r.rank == 1; });
    if (first.grade >= Grade::Unknown) out.sentence = "None of them can be recommended from what is known.";
    else if (first.grade >= Grade::Lasting && out.rows.size() > 1) out.sentence = "None of them can be recommended, used like this.";
    else if (out.rows.size() == 1) out.sentence = what + ": " + std::string(grade_alone(first.grade)) + ".";
    else out.sentence = "Mildest: " + what + (others ? ", with others alike" : "") + ", " + std::string(grade_alone(first.grade)) + ". Try it on a hidden spot first.";
    return out;
}

std::string as_csv(const CompareAnswer& answer) {
    std::string out = "rank,liquid,leather,use,grade,share that agrees,chance of passing a limit,chance of something that stays,decides,liquid pH,left mmol/m2 (acid negative),rank by pH alone,why pH alone differs,next test,verdict\r\n";
    for (const auto& r : answer.rows) {
        const std::vector<std::string> cells{std::to_string(r.rank), cell(r.liquid), cell(r.leather), cell(r.use), std::string(grade_word(r.grade)), figure(r.answer_1, 2), figure(r.passed_1, 2), figure(r.lasting_1, 2),
                                             cell(r.decides), figure(r.liquid_ph, 2), figure(r.reserve_mmol_m2, 1), r.rank_by_ph == 0 ? "" : std::to_string(r.rank_by_ph), cell(r.why_not_ph), cell(r.next_test), cell(r.sentence)};
        for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + cells[i];
        out += "\r\n";
    }
    return out;
}

}  // namespace hw::desk
