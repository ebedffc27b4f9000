// A test spot as it stands: when it may be read, what was read, what came of it.
#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "desk/piece.hpp"
#include "desk/spot_liquid.hpp"
#include "desk/spot_signs.hpp"

namespace hw::desk {

enum class SpotState { Drying, ReadNow, WaitsAgain, ReadAgainNow, Finished };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SpotState> {
    static constexpr std::array<std::pair<desk::SpotState, std::string_view>, 5> names{
        {{desk::SpotState::Drying, "drying"}, {desk::SpotState::ReadNow, "read_now"}, {desk::SpotState::WaitsAgain, "waits_again"}, {desk::SpotState::ReadAgainNow, "read_again_now"},
         {desk::SpotState::Finished, "finished"}}};
};

namespace hw::desk {

struct SpotReadNow {
    std::string entry, at, by;
    SpotStage stage = SpotStage::Dry;
    SpotVerdict verdict;
    std::vector<std::string> photos;
};
template <class Visitor>
void describe(Visitor& visit, SpotReadNow& r) {
    visit("entry", r.entry, About{.doc = "id"});
    visit("at", r.at, About{});
    visit("by", r.by, About{});
    visit("stage", r.stage, About{});
    visit("verdict", r.verdict, About{});
    visit("photos", r.photos, About{});
}

struct SpotNow {
    std::string entry;                            ///< id
    std::string panel, panel_name;
    std::string zone, leather_class;              ///< of the panel as it is known now
    std::string place;                            ///< in words
    SpotWhere where = SpotWhere::Hidden;
    SpotKind kind = SpotKind::Product;
    std::string liquid_id, product, family;
    double parts_water = 0;
    SpotPurpose purpose = SpotPurpose::Clean;
    std::string lot;
    double g_m2 = 0;
    std::string at, by;
    SpotWait wait;
    std::string dry_at;                           ///< ISO 8601, UTC: judged from then on
    std::string again_at;                         ///< empty: once is enough
    SpotState state = SpotState::Drying;
    SpotMark mark = SpotMark::NotJudged;          ///< of what was read dry, the worst; it is the last word when the spot is finished
    std::string sentence;
    std::vector<SpotReadNow> reads;               ///< oldest first
};
template <class Visitor>
void describe(Visitor& visit, SpotNow& s) {
    visit("entry", s.entry, About{.doc = "id of the entry that made it"});
    visit("panel", s.panel, About{});
    visit("panel_name", s.panel_name, About{});
    visit("zone", s.zone, About{.doc = "class of the panel as it is known now"});
    visit("leather_class", s.leather_class, About{});
    visit("place", s.place, About{.doc = "in words"});
    visit("where", s.where, About{});
    visit("kind", s.kind, About{});
    visit("liquid_id", s.liquid_id, About{});
    visit("product", s.product, About{});
    visit("family", s.family, About{});
    visit("parts_water", s.parts_water, About{});
    visit("purpose", s.purpose, About{});
    visit("lot", s.lot, About{});
    visit("g_m2", s.g_m2, About{});
    visit("at", s.at, About{.doc = "when it was made"});
    visit("by", s.by, About{});
    visit("wait", s.wait, About{});
    visit("dry_at", s.dry_at, About{.doc = "judged from then on; ISO 8601, UTC"});
    visit("again_at", s.again_at, About{.doc = "read again then; empty: once is enough"});
    visit("state", s.state, About{});
    visit("mark", s.mark, About{.doc = "of what was read dry, the worst; the last word when the spot is finished"});
    visit("sentence", s.sentence, About{});
    visit("reads", s.reads, About{.doc = "oldest first"});
}

/// Whether it is a spot of this product, in whatever dilution.
bool same_liquid(const SpotNow& spot, const Liquid& liquid);
/// What two spots must share to be spots of the same thing: product and dilution.
bool same_product(const SpotNow& spot, const Liquid& liquid, double parts_water);

}  // namespace hw::desk
