#include "desk/spot_signs.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/spot_limits.hpp"
#include "core/colour/ciede2000.hpp"
#include "core/colour/grey_scale.hpp"
#include "desk/rows.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

using Row = atlas::SpotLimitsRow;

colour::Lab lab(const LabRead& c) { return {c.l_1, c.a_1, c.b_1}; }

Basis basis_of(const Row& row, std::string inputs) {
    return {std::string(row.plain_name) + ": " + std::string(row.pass_words), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

SpotMark mark_of(const Row& row, double value) {
    const bool less = row.better == "less";
    const auto within = [&](double limit) { return less ? value <= limit : value >= limit; };
    return within(row.pass_1) ? SpotMark::Pass : within(row.caution_1) ? SpotMark::Caution : SpotMark::Fail;
}

/// The signs of one reading, collected.
class Reader {
public:
    explicit Reader(const SpotSigns& signs) : s_(signs) {}

    std::vector<SpotSign> all() {
        const std::string eye = s_.grades_by == GradesBy::Photo ? ", estimated from photo" : ", by the grey scale";
        measured_or_graded("transfer", s_.transfer_grade, eye, s_.cloth_before && s_.cloth ? std::optional(colour::stain_grade(lab(*s_.cloth_before), lab(*s_.cloth))) : std::nullopt);
        const auto change = s_.colour_before && s_.colour ? std::optional(colour::change_grade(colour::cielab1976(lab(*s_.colour_before), lab(*s_.colour)))) : std::nullopt;
        if (s_.change_grade) grade("change", *s_.change_grade, eye);
        if (change) {
            const double de = colour::ciede2000(lab(*s_.colour_before), lab(*s_.colour)), dl = s_.colour->l_1 - s_.colour_before->l_1;
            figure("change_measured", de, fixed(de, 1) + " ΔE00, grade " + colour::grade_words(colour::half_step(*change)) + " by formula");
            figure("lightness", std::abs(dl), fixed(std::abs(dl), 1) + (dl < 0 ? " darker" : " lighter"));
        }
        level("ring", s_.ring);
        level("tack", s_.tack);
        level("bend", s_.bend);
        level("film", s_.film);
        if (s_.rub_dry_grade) grade("rub_dry", *s_.rub_dry_grade, eye);
        if (s_.rub_wet_grade) grade("rub_wet", *s_.rub_wet_grade, eye);
        gloss();
        ph();
        return std::move(out_);
    }

private:
    void add(const Row& row, SpotMark mark, const std::string& read) {
        out_.push_back({std::string(row.key), std::string(row.plain_name), mark, read, std::string(row.pass_words), basis_of(row, read)});
    }
    void grade(std::string_view key, double g, const std::string& by) {
        const Row& row = row_of(atlas::spot_limits, key);
        add(row, mark_of(row, g), "grade " + colour::grade_words(g) + by);
    }
    void measured_or_graded(std::string_view key, const std::optional<double>& by_scale, const std::string& by, const std::optional<double>& by_formula) {
        // Two ways of reading the same: the worse counts.
        const double formula = by_formula ? colour::half_step(*by_formula) : 6;
        if (by_scale && *by_scale <= formula) grade(key, *by_scale, by);
        else if (by_formula) grade(key, formula, ", measured");
    }
    void figure(std::string_view key, double value, const std::string& read) {
        const Row& row = row_of(atlas::spot_limits, key);
        add(row, mark_of(row, value), read);
    }
    void level(std::string_view key, SignLevel l) {
        if (l == SignLevel::NotRead) return;
        const Row& row = row_of(atlas::spot_limits, key);
        const bool between = l == SignLevel::Slight && !row.caution_words.empty();
        const SpotMark mark = l == SignLevel::None ? SpotMark::Pass : between ? SpotMark::Caution : SpotMark::Fail;
        add(row, mark, std::string(l == SignLevel::None ? row.pass_words : between ? row.caution_words : row.fail_words));
    }
    void gloss() {
        if (!s_.gloss_before_gu || !s_.gloss_gu) return;
        const double moved = std::abs(*s_.gloss_gu - *s_.gloss_before_gu);
        const Row &row = row_of(atlas::spot_limits, "gloss"), &units = row_of(atlas::spot_limits, "gloss_units");
        const std::string read = fixed(*s_.gloss_before_gu, 1) + " before, " + fixed(*s_.gloss_gu, 1) + " now";
        if (moved <= units.pass_1) add(row, SpotMark::Pass, read);
        else add(row, *s_.gloss_before_gu > 0 ? mark_of(row, 100 * moved / *s_.gloss_before_gu) : SpotMark::Fail, read);
    }
    void ph() {
        if (!s_.surface_ph) return;
        const Row &low = row_of(atlas::spot_limits, "ph_low"), &high = row_of(atlas::spot_limits, "ph_high"), &shift = row_of(atlas::spot_limits, "ph_shift");
        const SpotMark inside = worse_of(mark_of(low, *s_.surface_ph), mark_of(high, *s_.surface_ph));
        if (!s_.control_ph) {
            // Without its control a reading can speak against the spot, not for it.
            if (inside == SpotMark::Fail) add(shift, SpotMark::Fail, "pH " + fixed(*s_.surface_ph, 1) + ", not read on untouched leather");
            return;
        }
        const double moved = std::abs(*s_.surface_ph - *s_.control_ph);
        // Leather that lay outside before is not blamed on the spot: then only how far it moved counts.
        const bool outside_before = *s_.control_ph < low.pass_1 || *s_.control_ph > high.pass_1;
        add(shift, outside_before ? mark_of(shift, moved) : worse_of(mark_of(shift, moved), inside), "pH " + fixed(*s_.surface_ph, 1) + ", untouched " + fixed(*s_.control_ph, 1));
    }

    const SpotSigns& s_;
    std::vector<SpotSign> out_;
};

/// Signs that are looked at under one name: the grade or the measurement of a change of colour.
bool stands_for(std::string_view read, std::string_view asked) { return read == asked || (asked == "change" && read == "change_measured"); }

/// Rows that are limits of another sign and none of their own.
bool own_sign(std::string_view key) { return key != "gloss_units" && key != "ph_low" && key != "ph_high"; }

int rank(SpotMark m) { return m == SpotMark::Fail ? 3 : m == SpotMark::Caution ? 2 : m == SpotMark::NotJudged ? 1 : 0; }

std::string names(const std::vector<SpotSign>& signs, SpotMark mark) {
    std::vector<std::string> out;
    for (const auto& s : signs)
        if (s.mark == mark) out.push_back(as_clause(s.name) + " (" + s.read + ")");
    return listed(out);
}

}  // namespace

std::string_view mark_word(SpotMark m) {
    switch (m) {
    case SpotMark::Pass: return "passes";
    case SpotMark::Caution: return "with caution";
    case SpotMark::Fail: return "fails";
    case SpotMark::NotJudged: break;
    }
    return "not judged";
}

SpotMark worse_of(SpotMark a, SpotMark b) { return rank(a) >= rank(b) ? a : b; }

Result<Done> good_signs(const SpotSigns& s) {
    const auto step = [](const std::optional<double>& g, const char* where) -> std::optional<Error> {
        if (!g || colour::is_grade(*g)) return std::nullopt;
        return Error{ErrorCode::InvalidInput, "Grades go in half steps from 1 to 5: 3/4 is 3.5.", where};
    };
    for (const auto& [g, where] : {std::pair(&s.transfer_grade, "transfer_grade"), std::pair(&s.change_grade, "change_grade"), std::pair(&s.rub_dry_grade, "rub_dry_grade"), std::pair(&s.rub_wet_grade, "rub_wet_grade")})
        if (const auto bad = step(*g, where)) return *bad;
    if (s.colour.has_value() != s.colour_before.has_value()) return Error{ErrorCode::InvalidInput, "A change needs the colour before and now.", s.colour ? "colour_before" : "colour"};
    if (s.cloth.has_value() != s.cloth_before.has_value()) return Error{ErrorCode::InvalidInput, "Staining needs the cloth before and now.", s.cloth ? "cloth_before" : "cloth"};
    if (s.gloss_gu.has_value() != s.gloss_before_gu.has_value()) return Error{ErrorCode::InvalidInput, "A change of shine needs the reading before and now.", s.gloss_gu ? "gloss_before_gu" : "gloss_gu"};
    if (s.control_ph && !s.surface_ph) return Error{ErrorCode::InvalidInput, "Give the pH of the spot as well.", "surface_ph"};
    if (Reader(s).all().empty() && !s.surface_ph && s.note.empty()) return Error{ErrorCode::InvalidInput, "Give at least one sign that was read.", "signs"};
    return Done{};
}

SpotVerdict verdict_of(const SpotSigns& signs, const SpotTime& time) {
    SpotVerdict v;
    v.signs = Reader(signs).all();
    if (!time.dry) {
        const bool stop = std::any_of(v.signs.begin(), v.signs.end(), [](const SpotSign& s) { return s.mark == SpotMark::Fail && (s.key == "transfer" || s.key == "film"); });
        for (auto& s : v.signs) s.mark = SpotMark::NotJudged;
        v.sentence = "Kept, not judged. " + time.why_not + (stop ? " It gives colour or the finish moves already: lay on no more of it until this spot is read dry." : "");
        return v;
    }
    for (auto& s : v.signs)
        if (s.key == "tack" && !time.tack_counts && s.mark != SpotMark::Fail) s.mark = SpotMark::NotJudged;
    std::stable_sort(v.signs.begin(), v.signs.end(), [](const SpotSign& a, const SpotSign& b) { return rank(a.mark) > rank(b.mark); });
    for (const auto& row : atlas::spot_limits) {
        const bool read = std::any_of(v.signs.begin(), v.signs.end(), [&](const SpotSign& s) { return stands_for(s.key, row.key); });
        if (read || !own_sign(row.key) || row.key == "change_measured" || row.key == "lightness") continue;
        (row.needed == "yes" ? v.missing : v.silent).emplace_back(row.plain_name);
    }
    SpotMark worst = SpotMark::Pass;
    for (const auto& s : v.signs)
        if (s.mark != SpotMark::NotJudged) worst = worse_of(worst, s.mark);
    if (worst == SpotMark::Fail) {
        v.mark = SpotMark::Fail;
        v.sentence = "Fails: " + names(v.signs, SpotMark::Fail) + ".";
    } else if (!v.missing.empty()) {
        v.mark = SpotMark::NotJudged;
        std::vector<std::string> clauses;
        for (const auto& m : v.missing) clauses.push_back(as_clause(m));
        v.sentence = std::string("Not judged yet. Still to read: ") + listed(clauses) + "." + (worst == SpotMark::Caution ? " So far with caution: " + names(v.signs, SpotMark::Caution) + "." : "");
    } else {
        v.mark = worst;
        v.sentence = worst == SpotMark::Caution ? "With caution: " + names(v.signs, SpotMark::Caution) + "." : "Passes: every sign that was read is inside its limit.";
    }
    if (!v.silent.empty() && v.mark != SpotMark::NotJudged) {
        std::vector<std::string> clauses;
        for (const auto& m : v.silent) clauses.push_back(as_clause(m));
        v.sentence += " Not read: " + listed(clauses) + ".";
    }
    return v;
}

std::vector<SignWords> sign_words() {
    std::vector<SignWords> out;
    for (const auto& row : atlas::spot_limits)
        if (own_sign(row.key))
            out.push_back({std::string(row.key), std::string(row.plain_name), std::string(row.kind), std::string(row.unit), std::string(row.how), std::string(row.pass_words), std::string(row.caution_words),
                           std::string(row.fail_words), row.needed == "yes", basis_of(row, "")});
    return out;
}

}  // namespace hw::desk
