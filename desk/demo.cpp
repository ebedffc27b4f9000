#include "desk/demo.hpp"

#include <cmath>
#include <cstdio>
#include <utility>

#include "atlas/demo_ingredients.hpp"
#include "atlas/demo_judgements.hpp"
#include "atlas/demo_leathers.hpp"
#include "atlas/demo_liquids.hpp"
#include "desk/meters.hpp"

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

namespace {

const char* const demo_meter = "demo-meter";
const char* const demo_day = "2026-03-02T09:00:00Z";

Calibration demo_calibration() {
    Calibration c;
    c.id = "de300000-0000-7000-8000-0000000000c1";
    c.instrument = demo_meter;
    c.at = "2026-03-02T08:00:00Z";
    c.buffers = {{4.00, 4.03, "", ""}, {7.02, 7.01, "", ""}};
    return c;
}

/// Entries of one demo piece, with ids of their own so that loading twice keeps them once.
class DemoPiece {
public:
    DemoPiece(int number, const std::string& name, const std::string& family) : number_(number) {
        request_.piece = id(0);
        add(Did::MakeUp).make_up = MakeUp{name, family, {}, {}, ""};
    }
    Entry& add(Did did) {
        Entry e;
        e.id = id(static_cast<int>(request_.entries.size()) + 1);
        e.at = demo_day;
        e.device = "demo";
        e.seen = static_cast<int>(request_.entries.size());
        e.did = did;
        request_.entries.push_back(e);
        return request_.entries.back();
    }
    DemoPiece& facts(std::vector<std::string> panels, const char* material, Wear wear, Exposure exposure) {
        add(Did::Panels).facts = PanelFacts{std::move(panels), material, "chrome", wear, exposure};
        return *this;
    }
    DemoPiece& condition(std::vector<std::string> panels, const char* term, int severity, double pct) {
        add(Did::Condition).condition = Condition{std::move(panels), term, severity, pct, std::nullopt, {}, ""};
        return *this;
    }
    DemoPiece& mark(std::vector<std::string> panels, const char* kind, bool there, const char* note) {
        add(Did::Mark).mark = Mark{std::move(panels), kind, there, note};
        return *this;
    }
    DemoPiece& reading(const char* kind, const char* panel, std::vector<double> values, std::optional<double> control, const char* instrument = "") {
        add(Did::Reading).reading = Reading{kind, panel, "", std::move(values), control, instrument, ""};
        return *this;
    }
    DemoPiece& wish(std::vector<std::string> wishes, const char* text) {
        add(Did::Said).said = Said{SaidKind::Wish, "owner", std::move(wishes), text};
        return *this;
    }
    [[nodiscard]] const InspectRequest& request() const { return request_; }

private:
    [[nodiscard]] std::string id(int entry) const {
        char text[40];
        std::snprintf(text, sizeof text, "de300000-%04d-7000-8000-%012d", number_, entry);
        return text;
    }
    int number_;
    InspectRequest request_;
};

}  // namespace

std::vector<InspectRequest> demo_pieces() {
    DemoPiece club(1, "Club chair, tan (demo)", "armchair");
    club.facts({"SC1-top", "BC1-face"}, "aniline", Wear::Worn, Exposure::Seat)
        .facts({"IA-L", "IA-R", "AF-L", "AF-R"}, "aniline", Wear::Worn, Exposure::Hands)
        .facts({"OB", "OA-L", "OA-R"}, "aniline", Wear::Light, Exposure::Seldom)
        .condition({"IA-L", "IA-R"}, "body_oil", 3, 30)
        .condition({"SC1-top"}, "ring", 2, 10)
        .condition({"AF-L"}, "scratch_colour", 2, 5)
        .reading("surface_ph", "IA-L", {3.4, 3.5, 3.4}, 4.4, demo_meter)
        .reading("water_drop", "SC1-top", {6, 8, 5}, std::nullopt)
        .wish({"patina", "one_stain"}, "The ring came from a vase.");
    DemoPiece seat(2, "Driver seat, estate car (demo)", "front_seat");
    seat.facts({"CU", "BI"}, "pigmented_automotive", Wear::Light, Exposure::Seat)
        .facts({"CB-o", "BB-o"}, "pigmented_automotive", Wear::Through, Exposure::Seat)
        .mark({"BB-o"}, "airbag_seam", true, "label on the seam")
        .mark({"CU"}, "occupancy_sensor", true, "manual")
        .condition({"CB-o"}, "abrasion", 4, 35)
        .condition({"CB-o"}, "finish_crack", 2, 10)
        .condition({"CU"}, "dye_transfer", 2, 25)
        .wish({"even", "fast"}, "");
    DemoPiece sofa(3, "Sofa from the rented flat (demo)", "sofa");
    sofa.condition({"SC1-top", "SC2-top"}, "stain", 2, 15).wish({"clean"}, "Somebody sprayed something on it.");
    return {club.request(), seat.request(), sofa.request()};
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
    HW_TRY(bottles, load_demo_shelf(ports));
    static_cast<void>(bottles);
    if (ports.journal == nullptr) return Done{};
    auto meter = ports.journal->keep_instrument({demo_meter, "Bench meter (demo)", "", "invented"});
    if (!meter.ok()) return meter.error();
    auto calibrated = ports.journal->keep_calibration(demo_calibration());
    if (!calibrated.ok()) return calibrated.error();
    for (const auto& piece : demo_pieces()) {
        auto kept = inspect(piece, ports);
        if (!kept.ok()) return kept.error();
    }
    return Done{};
}

}  // namespace hw::desk
