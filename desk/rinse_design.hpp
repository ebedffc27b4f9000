// A rinse made for this leather from what stands on the shelf.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/treatment/rinse.hpp"
#include "desk/ledger.hpp"
#include "desk/ways.hpp"

namespace hw::desk {

/// How much water custom, or the shop, allows.
struct Moisture {
    double pass_g_m2 = 40, day_g_m2 = 60;         ///< of a pass; net of blotting in 24 h
    double used_g_m2 = 0;                         ///< net of the passes of the last 24 h
    double blotted_1 = 0.6;                       ///< what blotting takes on this finish
    Basis basis, day_basis;
    [[nodiscard]] double left_g_m2() const { return day_g_m2 - used_g_m2; }
};

/// A liquid of the shelf as a rinse for this hide on this piece.
struct ShelfRinse {
    Liquid liquid;
    chem::Totals totals;
    double ph = 7, ionic_strength_mol_kg = 0, difference_figure = 0;
    bool water = false;                           ///< nothing in it that counts
    std::vector<Reason> refused;                  ///< why it is out of the question; empty: it may
};

/// The rinses of the shelf, refused ones too. @param ids  empty: everything there that is meant as a rinse
/// @error NotFound, InvalidInput  "rinses[i]"
Result<std::vector<ShelfRinse>> shelf_rinses(const std::vector<std::string>& ids, const leather::Hide& hide, const std::vector<OnPiece>& on_piece, const Moisture& moisture, Temperature air, Store& store);

/// One rinse on this leather.
struct Design {
    const ShelfRinse* rinse = nullptr;
    int a_day = 1, days = 1;                      ///< passes on each day
    double g_m2 = 30, dwell_s = 60, blotted_1 = 0.6;
    double first_wait_s = 0;                      ///< until the finish has aired
    Proposal proposal;
    double day_net_g_m2 = 0;                      ///< stays of a day's passes after blotting, upper end of nine in ten
    double work_min = 0, wait_h = 0;
    [[nodiscard]] int passes() const { return a_day * days; }
};

/// @param area_m2  for the work
Design design_of(const ShelfRinse& rinse, int a_day, int days, double g_m2, double dwell_s, double blotted_1, double first_wait_s, double area_m2);

struct Search {
    const Known& known;
    const Aim& aim;
    const Moisture& moisture;
    double area_m2 = 0.09, chance_1 = 0.9, first_wait_s = 0;
    bool quick = false;                           ///< few candidates, for a first answer
    const Progress& progress;
};

/// The design with the least expected loss of those that reach the chance; where none does, the one with the least expected loss.
/// Floor and moisture are kept by every candidate; what blotting takes is what the section says. Nothing where none fits.
/// @param members  those that stand for all
/// @error as follow
Result<std::optional<Design>> best_design(const Search& search, const std::vector<const ShelfRinse*>& rinses, const std::vector<std::size_t>& members);

/// Share in which something holds, told so that none of so many is not certainty: (k + 1) / (n + 2).
double told_share(double share_1, std::size_t members);

}  // namespace hw::desk
