#include "desk/demo.hpp"

#include <cmath>

#include "atlas/demo_ingredients.hpp"
#include "atlas/demo_judgements.hpp"
#include "atlas/demo_leathers.hpp"
#include "atlas/demo_liquids.hpp"

namespace hw::desk {

namespace {
std::optional<double> given(double value) { return std::isnan(value) ? std::nullopt : std::optional<double>(value); }
}  // namespace

std::vector<Liquid> demo_liquids() {
    std::vector<Liquid> out;
    for (const auto& row : atlas::demo_liquids) {
        Liquid l;
        l.id = std::string(row.key);
        l.name = std::string(row.name);
        l.family = std::string(row.family);
        l.stated_ph = given(row.stated_ph);
        l.label_known = row.label == "known";
        l.standing = Standing::Invented;
        for (const auto& i : atlas::demo_ingredients)
            if (i.liquid == row.key) l.ingredients.push_back({std::string(i.name), std::string(i.cas), i.content_pct, std::nullopt, std::nullopt});
        out.push_back(l);
    }
    return out;
}

std::vector<Leather> demo_leathers() {
    std::vector<Leather> out;
    for (const auto& row : atlas::demo_leathers) {
        Leather l;
        l.id = std::string(row.key);
        l.name = std::string(row.name);
        l.leather_class = std::string(row.leather_class);
        l.tannage = std::string(row.tannage);
        l.surface_ph = given(row.surface_ph);
        l.extract_ph = given(row.extract_ph);
        l.thickness_mm = given(row.thickness_mm);
        l.finish_um = given(row.finish_um);
        l.shrinkage_c = given(row.shrinkage_c);
        l.decayed = row.decayed == "yes";
        l.standing = Standing::Invented;
        out.push_back(l);
    }
    return out;
}

std::vector<JudgeRequest> demo_requests() {
    const auto liquids = demo_liquids();
    const auto leathers = demo_leathers();
    std::vector<JudgeRequest> out;
    for (const auto& row : atlas::demo_judgements) {
        JudgeRequest r;
        r.title = std::string(row.title);
        r.keep = true;
        for (const auto& l : liquids)
            if (l.id == row.liquid) r.liquid = l;
        for (const auto& l : leathers)
            if (l.id == row.leather) r.leather = l;
        r.use.dose = {row.amount == "grams" ? Amount::Grams : row.amount == "sprays" ? Amount::Sprays : Amount::ClothWipe, row.count_n, row.area_cm2};
        r.use.dwell_s = row.dwell_s;
        r.use.wiped_off_pct = row.wiped_pct;
        r.use.rinse.passes = static_cast<int>(row.passes_n);
        out.push_back(r);
    }
    return out;
}

Result<Done> load_demo(Ports& ports) {
    for (const auto& l : demo_liquids()) {
        auto kept = ports.store.keep_liquid(l);
        if (!kept.ok()) return kept.error();
    }
    for (const auto& l : demo_leathers()) {
        auto kept = ports.store.keep_leather(l);
        if (!kept.ok()) return kept.error();
    }
    for (const auto& r : demo_requests()) {
        auto kept = judge(r, ports);
        if (!kept.ok()) return kept.error();
    }
    return Done{};
}

}  // namespace hw::desk
