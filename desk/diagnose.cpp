#include "desk/diagnose.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "atlas/advice_never.hpp"
#include "atlas/advice_rules.hpp"
#include "atlas/blue_wool.hpp"
#include "atlas/causes.hpp"
#include "atlas/diagnosis_tests.hpp"
#include "atlas/identify_kinds.hpp"
#include "atlas/light_specs.hpp"
#include "atlas/mould_growth.hpp"
#include "atlas/sign_readings.hpp"
#include "atlas/signs.hpp"
#include "atlas/tannages.hpp"
#include "core/belief/summary.hpp"
#include "desk/diagnose_net.hpp"
#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/judge.hpp"
#include "desk/rows.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr std::uint64_t draws = 64;               // for the bands: a wide band needs no more

bool has(const std::vector<std::string>& all, std::string_view one) { return std::find(all.begin(), all.end(), one) != all.end(); }

bool names(std::string_view list, std::string_view one) {
    for (std::string_view rest = list; !rest.empty();) {
        const auto cut = rest.find(';');
        if (rest.substr(0, cut) == one) return true;
        rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
    }
    return false;
}

std::string_view words_of(double chance_1) {
    constexpr std::array<std::pair<double, std::string_view>, 4> scale{{{0.9, "very likely"}, {0.7, "likely"}, {0.4, "possible"}, {0.15, "less likely"}}};
    for (const auto& [from, word] : scale)
        if (chance_1 >= from) return word;
    return "unlikely";
}

double logit(double p) {
    constexpr double nearly = 1e-15;
    p = std::clamp(p, nearly, 1 - nearly);
    return std::log(p / (1 - p));
}

/// What could be under the hand, each with its share.
struct Kinds {
    std::vector<CoveringChance> covering;
    std::vector<DamageContext> context;
};

/// The posterior over all kinds of covering.
struct Mixed {
    std::vector<double> there_1;
    std::vector<double> share_1;                  ///< of each covering, with what was seen
};

Result<Mixed> mixed(const Kinds& kinds, const std::vector<belief::SeenSign>& seen, std::uint64_t draw) {
    Mixed out;
    std::vector<belief::CausePosterior> each;
    double top = -1e300;
    for (const auto& context : kinds.context) {
        HW_TRY(p, belief::posterior_of(cause_net(context, draw), seen));
        top = std::max(top, p.log_evidence);
        each.push_back(std::move(p));
    }
    double sum = 0;
    for (std::size_t k = 0; k < each.size(); ++k) {
        out.share_1.push_back(kinds.covering[k].chance_1 * std::exp(each[k].log_evidence - top));
        sum += out.share_1.back();
    }
    out.there_1.assign(each[0].there_1.size(), 0.0);
    for (std::size_t k = 0; k < each.size(); ++k) {
        out.share_1[k] /= sum;
        for (std::size_t j = 0; j < out.there_1.size(); ++j) out.there_1[j] += out.share_1[k] * each[k].there_1[j];
    }
    return out;
}

std::vector<std::size_t> ranked(const std::vector<double>& there_1) {
    std::vector<std::size_t> out(there_1.size());
    for (std::size_t j = 0; j < out.size(); ++j) out[j] = j;
    std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) { return there_1[a] > there_1[b]; });
    return out;
}

/// The entry by which a panel was identified; none where nobody did, or where somebody said what it is made of after it.
const Entry* identification_of(const InspectAnswer& piece, const std::string& panel) {
    std::string said;                             // newest first: what was said after it
    for (const auto& e : piece.entries) {
        if (e.state != EntryState::Stands) continue;
        if (said.empty() && e.entry.facts && has(e.entry.facts->panels, panel)) said = e.entry.facts->material;
        if (!e.entry.identified || !has(e.entry.identified->panels, panel)) continue;
        const auto* kind = find_row(atlas::identify_kinds, e.entry.identified->kind);
        // An identification that is sure writes down the material too: that is no second opinion.
        const bool same = said.empty() || (kind != nullptr && (said == kind->material_key || said == kind->class_furniture || said == kind->class_car));
        return same ? &e.entry : nullptr;
    }
    return nullptr;
}

/// The coverings of panels: as they were identified, with every chance that is not small; else as they were said to be.
Result<std::vector<CoveringChance>> coverings_of(const InspectAnswer& piece, const std::vector<std::string>& panels, Ports& ports) {
    constexpr double small = 0.01;
    std::map<std::string, double> chance;
    std::set<const Entry*> asked;                 // an entry may be of several panels
    for (const auto& p : piece.panels) {
        if (!has(panels, p.code)) continue;
        const Entry* found = identification_of(piece, p.code);
        if (found == nullptr) {
            if (!p.material.empty() && covering_group(p.material).ok()) chance[p.material] += 1;
            continue;
        }
        if (!asked.insert(found).second) continue;
        IdentifyRequest r;
        r.piece = piece.piece;
        r.panel = p.code;
        HW_TRY(told, identify(r, ports));
        for (const auto& k : told.kinds)
            if (k.chance.value / 100 >= small) chance[k.key] += k.chance.value / 100;
    }
    std::vector<CoveringChance> out;
    for (const auto& [key, share] : chance) out.push_back({key, share});
    std::stable_sort(out.begin(), out.end(), [](const CoveringChance& a, const CoveringChance& b) { return a.chance_1 > b.chance_1; });
    return out;
}

/// What the piece says already, under what is typed.
Result<DiagnoseRequest> with_piece(DiagnoseRequest request, Ports& ports) {
    if (request.piece.empty()) {
        if (request.keep) return Error{ErrorCode::InvalidInput, "Name the piece that the answer is to be kept with.", "piece"};
        return request;
    }
    HW_TRY(piece, inspect({request.piece, {}}, ports));
    for (const auto& code : request.panels)
        if (std::none_of(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == code; }))
            return Error{ErrorCode::NotFound, "The piece has no panel \"" + code + "\".", "panels"};
    if (request.panels.empty())
        for (const auto& p : piece.panels)
            if (!p.conditions.empty()) request.panels.push_back(p.code);
    const auto typed = [&](std::string_view sign) { return std::any_of(request.saw.begin(), request.saw.end(), [&](const SignSeen& s) { return s.sign == sign; }); };
    std::set<std::string> standing;
    for (const auto& p : piece.panels) {
        if (!has(request.panels, p.code)) continue;
        if (request.tannage.empty()) request.tannage = p.tannage;
        if (request.exposure == Exposure::NotSaid) request.exposure = p.exposure;
        standing.insert(p.conditions.begin(), p.conditions.end());
    }
    if (request.covering.empty()) {
        HW_TRY(covering, coverings_of(piece, request.panels, ports));
        request.covering = std::move(covering);
    }
    std::vector<SignSeen> noted;
    for (const auto& e : piece.entries) {
        if (!e.entry.condition || standing.count(e.entry.id) == 0) continue;
        for (const auto& row : atlas::signs) {
            if (typed(row.key) || !names(row.terms, e.entry.condition->term)) continue;
            const Saw saw = e.entry.condition->severity > 0 ? Saw::There : Saw::NotThere;
            const auto old = std::find_if(noted.begin(), noted.end(), [&](const SignSeen& s) { return s.sign == row.key; });
            if (old == noted.end()) noted.push_back({std::string(row.key), saw});
            else if (saw == Saw::There) old->saw = saw;
        }
    }
    request.saw.insert(request.saw.end(), noted.begin(), noted.end());
    for (const auto& r : piece.readings) {
        if (!r.panel.empty() && !has(request.panels, r.panel)) continue;
        const bool wanted = std::any_of(atlas::sign_readings.begin(), atlas::sign_readings.end(), [&](const auto& row) { return row.kind == r.kind && (row.takes == "value" || r.against_control || r.kind == "surface_ph"); });
        if (!wanted || std::any_of(request.readings.begin(), request.readings.end(), [&](const DamageReading& d) { return d.kind == r.kind; })) continue;
        DamageReading d{r.kind, r.value.value, std::nullopt};
        if (r.against_control) d.control_1 = r.value.value - r.against_control->value;
        request.readings.push_back(d);
    }
    return request;
}

template <class Row>
Basis basis_of(const Row& row, std::string rule, std::string inputs) {
    return {std::move(rule), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

std::optional<double> reading_of(const DiagnoseRequest& r, std::string_view kind) {
    for (const auto& d : r.readings)
        if (d.kind == kind) return d.value_1;
    return std::nullopt;
}

void read_acid(std::vector<Reason>& out, const DiagnoseRequest& r) {
    if (const auto ph = reading_of(r, "surface_ph")) {
        out.push_back({"surface_ph", "Surface pH " + to_band(*ph, 0.2) + " under a drop of water tells of the surface and of what lies on it. It is no pH of the fibre; that takes an extract.", "note",
                       {"Kinds of pH are not the same", "abbey1981", "surface electrode; read second-hand", Standing::Published, "surface pH"}});
        const double now = damage_figure("rot_now_ph"), safe = damage_figure("rot_safe_ph");
        if (r.tannage == "vegetable")
            out.push_back({"vegetable_rot", *ph <= now ? "At or below pH 2.8 vegetable-tanned leather rots now or soon. No water. An extract of a detached fibre decides."
                                            : *ph > safe ? "Above pH 3.2 vegetable-tanned leather is counted safe from acid decay, as far as a surface reading can tell."
                                                         : "Between pH 2.8 and 3.2 nobody can tell by pH alone whether vegetable-tanned leather decays.",
                           "adds", basis_of_damage_figure(*ph <= now ? "rot_now_ph" : "rot_safe_ph", "surface pH, tannage")});
    }
    if (const auto shrinkage = reading_of(r, "shrinkage"))
        if (const auto* row = find_row(atlas::tannages, r.tannage)) {
            const double under = row->shrinkage_c - *shrinkage;
            const bool none = *shrinkage < damage_figure("no_wetting_c");
            const std::string_view key = none ? "no_wetting_c" : under >= damage_figure("hydrolysed_c") ? "hydrolysed_c" : "altered_c";
            out.push_back({"shrinkage", none ? "It shrinks below 45 °C: nothing is wetted, nothing is warmed."
                                        : key == "hydrolysed_c" ? "It shrinks twenty degrees or more under its kind: badly hydrolysed. Avoid wetting."
                                        : under >= damage_figure("altered_c") ? "It shrinks ten degrees or more under its kind: the fibre is altered."
                                                                             : "It shrinks within ten degrees of its kind: no sign of decay in that.",
                           none || under >= damage_figure("hydrolysed_c") ? "caution" : "adds", basis_of_damage_figure(key, "shrinkage temperature, tannage")});
        }
}

void read_mould(std::vector<Reason>& out, const DiagnoseRequest& r) {
    const auto air = reading_of(r, "air_humidity");
    if (!air) return;
    const auto& row = atlas::mould_growth[0];
    const auto days = mould_days(*air);
    std::string text = days.ok() ? "At " + to_band(*air, 1) + " % mould becomes visible after about " + to_band(*days, std::max(0.5, *days / 4)) + " days."
                                 : "Under 70 % no growth time is printed; it would take longer than 100 days, if it grows at all.";
    if (days.ok() && r.damp_days) text += *r.damp_days >= *days ? " It stood so for longer: growth there is plausible." : " It stood so for less: growth there would be early.";
    out.push_back({"mould_clock", text, "adds", basis_of(row, "Growth points, straight in the logarithm between them", "humidity, days")});
}

void read_light(std::vector<Reason>& out, const DiagnoseRequest& r, const std::vector<CoveringChance>& covering) {
    if (!r.light_mlx_h_year || *r.light_mlx_h_year <= 0 || covering.empty()) return;
    const auto group = covering_group(covering[0].key);
    if (!group.ok()) return;
    for (const auto& spec : atlas::light_specs) {
        if (spec.group_key != *group) continue;
        const auto dose = [&](double step) {
            for (const auto& b : atlas::blue_wool)
                if (b.step_n == step) return b.dose_daylight_1;
            throw Bug("no blue wool step");
        };
        const double low = dose(spec.step_n - 1) / *r.light_mlx_h_year, middle = dose(spec.step_n) / *r.light_mlx_h_year, high = dose(spec.step_n + 1) / *r.light_mlx_h_year;
        out.push_back({"refade", "A colour that just meets step " + to_band(spec.step_n, 0.5) + " of the blue scale shows a first fading there after about " + to_band(middle, middle / 3) + " years (" + to_band(low, low / 3) + " to " +
                                     to_band(high, high / 3) + ", one step either way). Light is cumulative; no coat stops it.",
                       "note", basis_of(atlas::blue_wool[0], "Dose to a just noticeable fade over the dose of a year; the step is what new leather should at least meet", "light in a year, covering")});
    }
}

/// The tests that would tell the leading causes apart, by what they tell for each minute of work and harm.
Result<std::vector<SeparatingTest>> tests_for(const Kinds& kinds, const Mixed& now, const std::vector<belief::SeenSign>& seen, const std::vector<std::size_t>& chosen) {
    const std::size_t likeliest = static_cast<std::size_t>(std::max_element(now.share_1.begin(), now.share_1.end()) - now.share_1.begin());
    const belief::CauseNet net = cause_net(kinds.context[likeliest]);
    std::vector<SeparatingTest> out;
    for (const auto& row : atlas::diagnosis_tests) {
        SeparatingTest t{std::string(row.key), std::string(row.plain_name), std::string(row.how), row.work_min, row.wait_h, row.harm_min, 0, {}, {}};
        // The signs of this test that the leading causes make differently, the most telling first: it stops at the first that is there.
        std::vector<std::pair<double, std::size_t>> signs;
        for (std::size_t i = 0; i < atlas::signs.size(); ++i) {
            if (atlas::signs[i].test != row.key || std::any_of(seen.begin(), seen.end(), [&](const belief::SeenSign& s) { return s.sign == i; })) continue;
            HW_TRY(worth, belief::worth_of(net, seen, chosen, {i}));
            constexpr double nothing_bits = 1e-3;
            if (worth > nothing_bits) signs.push_back({worth, i});
        }
        std::stable_sort(signs.begin(), signs.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        constexpr std::size_t most_signs = 3;
        signs.resize(std::min(signs.size(), most_signs));
        std::vector<std::size_t> chain;
        for (const auto& [worth, i] : signs) {
            chain.push_back(i);
            t.signs.emplace_back(atlas::signs[i].key);
            t.questions.emplace_back(atlas::signs[i].question);
        }
        if (chain.empty()) continue;
        HW_TRY(bits, belief::worth_of(net, seen, chosen, chain));
        t.tells_bits = bits;
        out.push_back(std::move(t));
    }
    std::stable_sort(out.begin(), out.end(), [](const SeparatingTest& a, const SeparatingTest& b) { return a.tells_bits / (a.work_min + a.harm_min) > b.tells_bits / (b.work_min + b.harm_min); });
    return out;
}

/// "skin oil and sweat" → in a sentence, first letter large.
std::string begun(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

}  // namespace

Result<double> mould_days(double humidity_pct) {
    const auto& points = atlas::mould_growth;
    constexpr double wet = 100;
    if (!(humidity_pct >= points.front().humidity_pct && humidity_pct <= wet)) return Error{ErrorCode::OutOfRange, "Growth times are printed from 70 to 100 %.", "humidity_pct"};
    for (std::size_t i = 1; i < points.size(); ++i)
        if (humidity_pct <= points[i].humidity_pct) {
            const auto &a = points[i - 1], &b = points[i];
            const double part = (humidity_pct - a.humidity_pct) / (b.humidity_pct - a.humidity_pct);
            return a.days_n * std::pow(b.days_n / a.days_n, part);
        }
    return points.back().days_n;
}

std::vector<DamageSign> damage_signs() {
    std::vector<DamageSign> out;
    for (const auto& row : atlas::signs) out.push_back({std::string(row.key), std::string(row.group_key), std::string(row.question), std::string(row.statement)});
    return out;
}

std::vector<std::string> never_about(const std::vector<std::string>& about) {
    std::vector<std::string> out;
    for (const auto& row : atlas::advice_never)
        if (has(about, row.about)) out.emplace_back(row.sentence);
    return out;
}

Result<DiagnoseAnswer> diagnose(const DiagnoseRequest& asked, Ports& ports) {
    HW_TRY(request, with_piece(asked, ports));
    if (!request.tannage.empty() && find_row(atlas::tannages, request.tannage) == nullptr) return Error{ErrorCode::NotFound, "There is no tannage \"" + request.tannage + "\". Use chrome, vegetable, wet_white or unknown.", "tannage"};
    DiagnoseAnswer a;
    a.version = std::string(program_version);
    Kinds kinds;
    kinds.covering = request.covering;
    if (kinds.covering.empty()) kinds.covering.push_back({"unknown", 1});
    double all = 0;
    for (const auto& c : kinds.covering) all += c.chance_1;
    if (!(all > 0)) return Error{ErrorCode::InvalidInput, "At least one covering needs a chance above 0.", "covering"};
    for (auto& c : kinds.covering) {
        c.chance_1 /= all;
        HW_TRY(group, covering_group(c.key));
        kinds.context.push_back({group, request.tannage, request.exposure, request.age_years});
    }
    HW_TRY(seen, seen_signs(request));
    HW_TRY(now, mixed(kinds, seen, 0));
    const auto order = ranked(now.there_1);

    std::vector<std::vector<double>> varied(now.there_1.size());
    std::size_t kept_rank = 0;
    for (std::uint64_t d = 1; d <= draws; ++d) {
        HW_TRY(m, mixed(kinds, seen, d));
        for (std::size_t j = 0; j < m.there_1.size(); ++j) varied[j].push_back(m.there_1[j]);
        kept_rank += ranked(m.there_1)[0] == order[0] ? 1U : 0U;
    }
    std::vector<Mixed> without;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        auto rest = seen;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
        HW_TRY(m, mixed(kinds, rest, 0));
        without.push_back(std::move(m));
    }
    for (const auto& s : seen) a.heard.push_back({std::string(atlas::signs[s.sign].key), s.if_there >= s.if_not ? Saw::There : Saw::NotThere});

    constexpr std::size_t shown = 5;
    for (std::size_t n = 0; n < std::min(shown, order.size()); ++n) {
        const std::size_t j = order[n];
        const auto& row = atlas::causes[j];
        CauseAnswer c;
        c.key = row.key;
        c.name = row.plain_name;
        c.words = words_of(now.there_1[j]);
        const auto band = belief::quantiles(varied[j], {0.05, 0.95});
        c.low_pct = 100 * std::min(band[0], now.there_1[j]);
        c.high_pct = 100 * std::max(band[1], now.there_1[j]);
        c.chance = {100 * now.there_1[j], (c.high_pct - c.low_pct) / 2, "%", Standing::Estimate, "every entry of the tables varied by up to 30 %, 64 fixed draws"};
        constexpr double telling = 0.1;
        for (std::size_t i = 0; i < seen.size(); ++i) {
            const double moved = logit(now.there_1[j]) - logit(without[i].there_1[j]);
            if (std::abs(moved) < telling) continue;
            const auto& sign = atlas::signs[seen[i].sign];
            const bool there = seen[i].if_there >= seen[i].if_not;
            Speaks s{std::string(sign.key), there ? std::string(sign.statement) : "Not found: " + std::string(sign.statement), moved};
            (moved > 0 ? c.speaks_for : c.speaks_against).push_back(std::move(s));
        }
        const auto louder = [](const Speaks& x, const Speaks& y) { return std::abs(x.log_odds_1) > std::abs(y.log_odds_1); };
        std::stable_sort(c.speaks_for.begin(), c.speaks_for.end(), louder);
        std::stable_sort(c.speaks_against.begin(), c.speaks_against.end(), louder);
        c.active = row.active;
        c.treatment = row.treatment;
        c.owner = row.owner;
        c.basis = basis_of(row, "Causes against signs, all combinations summed", "signs seen and not found, readings, covering, use, age");
        a.causes.push_back(std::move(c));
    }

    const double first = now.there_1[order[0]], second = now.there_1[order[1]];
    const double clear = damage_figure("clear") / 100, supported = damage_figure("supported") / 100;
    const auto there = std::count_if(seen.begin(), seen.end(), [](const belief::SeenSign& s) { return s.if_there > s.if_not; });
    constexpr double steady = 0.7;
    const double steady_1 = static_cast<double>(kept_rank) / static_cast<double>(draws);
    const bool thin = static_cast<double>(seen.size()) < damage_figure("thin") || there == 0;
    if (thin) a.why_sure = there == 0 ? "Nothing was found that points to a cause." : "Too few signs.";
    else if (first < supported) a.why_sure = "The signs point to no cause strongly enough, or against each other.";
    else if (steady_1 < steady && second < supported) a.why_sure = "The first rank hangs on entries of the tables that nobody knows well.";
    if (!a.why_sure.empty()) a.sure = HowSure::CannotTell;
    else a.sure = first >= clear && a.causes[0].low_pct >= 100 * supported ? HowSure::Clear : HowSure::Possible;
    if (a.why_sure.empty()) a.why_sure = "The first rank stays in " + std::to_string(kept_rank) + " of " + std::to_string(draws) + " draws with every entry of the tables varied. The tables are starting values.";

    HW_TRY(both, belief::joint_of(cause_net(kinds.context[static_cast<std::size_t>(std::max_element(now.share_1.begin(), now.share_1.end()) - now.share_1.begin())]), seen, {order[0], order[1]}));
    a.both_pct = 100 * both[3];
    HW_TRY(before, mixed(kinds, {}, 0));          // what is common is not supported by being common
    const bool raised = logit(second) - logit(before.there_1[order[1]]) >= std::log(damage_figure("together_odds"));
    if (!thin && raised && both[3] >= supported) a.together = "Two causes together: " + a.causes[0].name + ", and " + a.causes[1].name + ".";
    a.differs = "If it is " + a.causes[0].name + ": " + a.causes[0].treatment + " If it is " + a.causes[1].name + ": " + a.causes[1].treatment;

    std::vector<std::size_t> chosen{order[0], order[1], order[2]};
    HW_TRY(tests, tests_for(kinds, now, seen, chosen));
    a.tests = std::move(tests);
    for (std::size_t k = 0; k < kinds.covering.size(); ++k) a.covering.push_back({kinds.covering[k].key, now.share_1[k]});

    read_acid(a.findings, request);
    read_mould(a.findings, request);
    read_light(a.findings, request, kinds.covering);

    std::vector<std::string> about{"any"};
    for (std::size_t n = 0; n < a.causes.size(); ++n)
        if (n == 0 || a.causes[n].chance.value >= damage_figure("supported") / 2) about.push_back(a.causes[n].key);
    a.never = never_about(about);
    if (has(about, "mould")) a.first.emplace_back(row_of(atlas::advice_rules, "mould_people").sentence);

    if (a.sure == HowSure::CannotTell) {
        a.sentence = "Cannot tell yet. " + a.why_sure + (a.tests.empty() ? "" : " Next: " + a.tests[0].name + ".");
        a.owner = "What was seen so far does not tell what happened. One more test comes before any work.";
    } else {
        a.sentence = a.together.empty() ? begun(a.causes[0].words) + ": " + a.causes[0].name + "." : a.together;
        if (a.sure == HowSure::Possible && a.together.empty() && second >= damage_figure("supported") / 200) a.sentence += " Not ruled out: " + a.causes[1].name + ".";
        a.owner = a.causes[0].owner;
        if (!a.together.empty()) a.owner += " " + a.causes[1].owner;
        a.owner += " This is our reading of what was seen and measured today; it is not certain, and it says nothing about who or what is answerable.";
    }
    if (request.keep) {
        Entry e;
        e.did = Did::Said;
        e.said = Said{SaidKind::Statement, "diagnose", {}, a.sentence + " " + a.why_sure};
        HW_TRY(kept, inspect({request.piece, {e}}, ports));
        if (!kept.entries.empty()) a.kept = kept.entries.front().entry.id;
    }
    return a;
}

}  // namespace hw::desk
