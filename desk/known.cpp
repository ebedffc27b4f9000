#include "desk/known.hpp"

#include <algorithm>
#include <numeric>

#include "atlas/bench_tests.hpp"
#include "core/belief/weights.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// A part of the way: from one share done to another.
Progress part(const Progress& progress, double from, double to) {
    if (!progress) return {};
    return [=](double share, const char* doing) { return progress(from + (to - from) * share, doing); };
}

/// Members of a solved set by index, each with the weight of one.
Solved chosen(const Solved& s, const std::vector<std::size_t>& which) {
    Solved out = s;
    const auto take = [&](auto& list) {
        auto picked = list;
        picked.clear();
        for (std::size_t i : which) picked.push_back(list[i]);
        list = std::move(picked);
    };
    take(out.draw.u);
    take(out.draw.members);
    take(out.courses);
    take(out.settled);
    take(out.outcomes);
    take(out.cloth_kg_m2);
    take(out.taken_up_mol_kg);
    take(out.carried_mol_kg);
    take(out.rinse_us_cm);
    return out;
}

/// Whether a kind of reading can be taken here at all.
bool possible(const Happening& h, std::string_view look) {
    const Question& q = h.question;
    const bool product = look == "product_ph" || look == "product_drops" || look == "weight_used" || look == "cloth_weight";
    if (product && q.nothing_laid) return false;
    if (look == "product_drops") return no_drops(q.liquid, DropCount{}).empty();
    if (look == "water_drop") return q.hide.finish_um > 0;
    if (look == "cloth_weight") return false;  // the cloth was there when it happened, not now
    if (look == "thickness") return !q.hide.thickness_read;
    return true;
}

constexpr double day_s = 86400;
constexpr std::string_view next_day = "surface_ph_next_day";

/// Readings that were taken already and would be no different: a product does not change.
bool read_already(const Happening& h, std::string_view look) {
    constexpr std::array<std::string_view, 5> once{"product_ph", "product_drops", "weight_used", "thickness", "water_drop"};
    if (std::find(once.begin(), once.end(), look) == once.end()) return false;
    return std::any_of(h.readings.begin(), h.readings.end(), [&](const Sighted& r) { return r.look.kind == look; });
}

Result<std::vector<Foreseen>> foreseen_by(const Learned& l, const Solved& now, const Progress& progress) {
    std::vector<Foreseen> out;
    // A reading still to come has its story solved further: for some of the members.
    constexpr std::size_t most = 256;
    std::vector<std::size_t> all(now.draw.members.size()), some;
    std::iota(all.begin(), all.end(), std::size_t{0});
    for (std::size_t i = 0; i < all.size(); i += std::max<std::size_t>(1, all.size() / most)) some.push_back(i);
    for (const auto& row : atlas::bench_tests) {
        if (row.look.empty()) continue;
        const bool later = row.look == next_day;
        if (!later && (!possible(l.happening, row.look) || read_already(l.happening, row.look))) continue;
        Look look;
        look.kind = std::string(later ? "surface_ph" : row.look);
        look.at_h = (l.happening.now_s + (later ? day_s : 0)) / 3600;
        Foreseen f{std::string(row.key), later ? some : all, {}};
        if (later) {
            if (l.happening.question.nothing_laid) continue;
            HW_TRY(tomorrow, solved_at(l.happening, chosen(now, some).draw.u, l.happening.now_s + day_s, progress));
            HW_TRY(sights, sights_of(l.happening, tomorrow, look));
            for (std::size_t i = 0; i < some.size(); ++i)
                if (tomorrow.settled[i]) f.sights.push_back(sights[i]);
            f.members.clear();
            for (std::size_t i = 0; i < some.size(); ++i)
                if (tomorrow.settled[i]) f.members.push_back(some[i]);
        } else {
            HW_TRY(sights, sights_of(l.happening, now, look));
            f.sights = std::move(sights);
        }
        out.push_back(std::move(f));
    }
    return out;
}

}  // namespace

Result<Learned> learned_from(const RefineRequest& request, Ports& ports, const Progress& progress) {
    Learned l;
    HW_TRY(happening, happening_of(request, ports));
    l.happening = std::move(happening);
    const Happening& h = l.happening;
    l.known.question = h.question;
    l.known.stop = h.stop;
    l.known.notes = h.notes;
    l.known.now_h = request.now_h;
    if (h.stop) return l;

    HW_TRY(before, solved_at(h, h.prior, h.now_s, part(progress, 0, 0.3)));
    l.before = std::move(before);
    std::vector<Evidence> evidence;
    for (const auto& r : h.readings)
        if (!r.drawn_from) evidence.push_back(r.evidence);
    HW_TRY(sights, sights_of(h, l.before));
    // The members that come out of the weighing were solved to look at their readings: they are kept, not solved again.
    std::vector<std::vector<double>> kept_u;
    Solved kept;
    const Chain chain = [&](const std::vector<std::vector<double>>& u) -> Result<std::vector<std::vector<Sight>>> {
        HW_TRY(solved, solved_at(h, u, h.now_s, progress ? Progress([&](double, const char* doing) { return progress(0.5, doing); }) : Progress{}));
        auto looked = sights_of(h, solved);
        if (u.size() == h.prior.size()) kept_u = u, kept = std::move(solved);
        return looked;
    };
    WeighOptions options;
    options.does_not_fit_1 = threshold("does_not_fit").limit_pct / 100;
    HW_TRY(weighed, weigh(h.prior, evidence, chain, options, part(progress, 0.3, 0.9), std::move(sights)));
    l.weighed = std::move(weighed);
    auto& after = l.weighed.after;
    if (after.rejuvenated && kept_u == after.u) {
        l.after = std::move(kept);
    } else if (after.rejuvenated) {  // few members: readings were looked at one by one with as many
        HW_TRY(solved, solved_at(h, after.u, h.now_s, part(progress, 0.9, 0.95)));
        l.after = std::move(solved);
    } else {
        l.after = l.before;
    }
    for (std::size_t i = 0; i < l.after.settled.size(); ++i)
        if (!l.after.settled[i]) after.weight_1[i] = 0;

    Known& k = l.known;
    k.unknowns = h.unknowns;
    // The middle of the comb: no more luck than needed.
    k.solved_as = belief::systematic(after.weight_1, after.weight_1.size(), 0.5);
    const Solved equal = chosen(l.after, k.solved_as);
    k.u = equal.draw.u;
    k.members = equal.draw.members;
    k.liquids = equal.draw.liquids;
    k.courses = equal.courses;
    k.weighing = {static_cast<int>(k.u.size()), after.effective, after.rejuvenated, static_cast<int>(after.exponents.size()), after.accepted_1};
    HW_TRY(foreseen, foreseen_by(l, equal, part(progress, 0.95, 1)));
    k.foreseen = std::move(foreseen);
    return l;
}

Result<Known> known_by(const RefineRequest& request, Ports& ports, const Progress& progress) {
    HW_TRY(l, learned_from(request, ports, progress));
    return std::move(l.known);
}

}  // namespace hw::desk
