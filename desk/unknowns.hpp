// What is not known about a liquid on a leather, as beliefs, and the members drawn from them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "core/belief/spread.hpp"
#include "core/chem/composition.hpp"
#include "core/leather/hide.hpp"
#include "core/treatment/exposure.hpp"
#include "desk/records.hpp"
#include "desk/rules.hpp"

namespace hw::desk {

/// What is asked, with every number at its best single figure.
struct Question {
    Liquid liquid;
    Leather leather;
    Use use;
    leather::Hide hide;
    treatment::Story story;
    bool told = false;                            ///< it has happened, and somebody told it: amounts are remembered, not planned
    bool nothing_laid = false;                    ///< skin oil, sweat or age: the place differs from the rest by wear alone
    std::optional<double> read_ph_half = {};      ///< half width of liquid.read_ph; empty: that of its row
};

/// One coordinate of the ensemble.
struct Unknown {
    std::string key;                              ///< what of a member it draws: row of atlas/unknowns.csv, or "dose", "start_ph"
    std::string group;                            ///< those of one group are told of together
    std::string name;
    std::string range;                            ///< what is drawn from, in words
    std::string settled_by;                       ///< name of the test; empty: none
    belief::Spread spread;
    std::size_t ingredient = 0;                   ///< of "ingredients"
    Basis basis;
};

/// A liquid as one member believes it to be, as used.
struct MemberLiquid {
    chem::Totals as_used;
    double ph = 7;                                ///< of the acid-base core, closed to the air
    double ionic_strength_mol_kg = 0.1;
    chem::Totals neat = {};                       ///< as in the bottle
};

/// One draw of everything that is not known.
struct Member {
    leather::Hide hide;
    treatment::Story story;
    std::size_t liquid = 0;                       ///< in Draw::liquids
    double film_u = 0.5;                          ///< picks the film that the finish is
    double film_radius_1 = 1, film_release_1 = 1; ///< scale what the tables say of that film
    double solvent_activity_1 = 1;                ///< see chem::DryingOf
    double sheltered_ph = 7;                      ///< of the same hide where nothing came; hide.ph but for wear
    double shift_ph = 0;                          ///< of every surface reading, by the finish
    double area_1 = 1;                            ///< true area over that given
};

struct Draw {
    std::vector<Unknown> unknowns;
    std::vector<std::vector<double>> u;           ///< [member][unknown]
    std::vector<Member> members;
    std::vector<MemberLiquid> liquids;            ///< one, or one per member
};

/// The unknowns of a question, in a fixed order.
std::vector<Unknown> unknowns_of(const Question& question);

/// The liquid at its best single figures: ranges at their middle, reconciled with a pH that was stated or read where the
/// ingredients do not explain it.
/// @error as chem::totals; `where` starts with "liquid."
struct Reconciled {
    chem::Totals neat;
    std::string builder;                          ///< plain name of what was added; empty: nothing
    double ingredients_ph = 7;                    ///< before
    double half_ph = 0;                           ///< of the pH that was stated or read, where something was added
    std::vector<chem::Totals> others = {};        ///< the same with the other builders that could make it
};
Result<Reconciled> reconciled(const Liquid& liquid, Temperature water);

/// One member at a point of the unknowns, and its liquid as used. @param u one coordinate per unknown of unknowns_of
Member member_at(const Question& question, const std::vector<double>& u);
Result<chem::Totals> totals_at(const Question& question, const std::vector<double>& u);

/// Members at points of the unknowns, and their liquids. @param unknowns those of unknowns_of, or those of a Draw
/// @error as chem::totals; `where` starts with "liquid."
Result<Draw> draw_at(const Question& question, std::vector<Unknown> unknowns, std::vector<std::vector<double>> u);

/// Draws members.
/// @param count  a power of two
/// @error InvalidInput  "members"; else as chem::totals
/// @see docs/theory/ensemble.md
Result<Draw> draw(const Question& question, std::size_t count);

}  // namespace hw::desk
