// The numerics of a section for one story or for eight that keep step. Inside core/diffusion only.
//
// Plain arrays cross this border, because the engine is compiled once per instruction set: nothing of the standard library
// may be made in those files that other files would share.
#pragma once

#include <cstddef>

namespace hw::diffusion::engine {

inline constexpr int pack_width = 8;
inline constexpr int most_sites = 16;

/// A layer: one array entry per lane.
struct LayerSetup {
    int sites = 0;
    bool finish = false, curved = false;                 ///< curved: its conductivity depends on water
    const double *amount[most_sites]{}, *opener[most_sites]{};
    const double *dry = nullptr, *ambient = nullptr, *full = nullptr, *conductivity = nullptr, *exponent = nullptr;
    const double *share = nullptr, *solute_exponent = nullptr, *air = nullptr;
};

/// A component: steps and charges are common, constants are per lane; k[step] mol/L.
struct ComponentSetup {
    int top = 0, steps = 0, neutral = -1;
    const double *k[6]{}, *d = nullptr, *air = nullptr, *velocity = nullptr, *hydroxide = nullptr, *pore = nullptr;
};

/// Everything that does not change during a story. Cell 0 is the film. Arrays per cell are [cell][lane].
struct Setup {
    int components = 0, layers = 0, cells = 0;
    bool electroneutral = true, fixed_surface = false;
    ComponentSetup component[6];
    const LayerSetup* layer = nullptr;
    const int* layer_of = nullptr;                       ///< per cell; -1 for the film
    const double *dz = nullptr, *start_x = nullptr;      ///< [cell][lane]
    const double* start_total = nullptr;                 ///< [cell][component][lane]
    const double* reference = nullptr;                   ///< [component][lane], scale of each component, mol/m3
    const double *background = nullptr, *evaporation = nullptr, *patchy = nullptr, *film_left = nullptr, *kw = nullptr;
    const double *d_cation = nullptr, *d_anion = nullptr, *d_hydrogen = nullptr, *d_hydroxide = nullptr;
    const double *drop = nullptr, *reading_depth = nullptr;
    double tolerance = 1e-4;
    double newton_left = 1e-13;                          ///< Newton stops when less is left of x and of the scaled totals
};

/// A moment, as far as it is asked for: null pointers are left alone. [cell of the leather][lane] and [lane].
struct Moment {
    double *x = nullptr, *bound = nullptr, *liquid_kg_m3 = nullptr, *total = nullptr;  ///< total: [component][cell][lane]
    double *film_kg_m2 = nullptr, *film_x = nullptr, *film_strong = nullptr, *reading_x = nullptr;
};

class LaneEngine {
public:
    LaneEngine() = default;
    LaneEngine(const LaneEngine&) = delete;
    LaneEngine& operator=(const LaneEngine&) = delete;
    virtual ~LaneEngine() = default;
    /// One TR-BDF2 step of all lanes. On success the state has moved unless error > 1; the error is that of the worst lane.
    virtual bool step(double h, double& error) = 0;
    /// Liquid laid onto the film: kg/m2, strong charge and totals in mol/m3 [component][lane].
    virtual void lay(const double* kg_m2, const double* strong, const double* totals) = 0;
    /// A share of the film taken off; what went with it is added: gone_strong [lane], gone_total [component][lane], gone_water [lane].
    virtual void wipe(const double* share, double* gone_strong, double* gone_total, double* gone_water) = 0;
    /// From now on a cloth is pressed on: the skin is as full as the cloth, skin [lane], nothing evaporates, and what the leather gives
    /// up is added to the film. Null: it is lifted.
    virtual void press(const double* skin) = 0;
    virtual void moment(const Moment& into) = 0;
    /// Alkali, then each component, held by leather and by film, mol/m2: [variable][lane].
    virtual void held(double* leather, double* film) = 0;
    /// [component][lane], [lane], and water of each cell: film kg/m2, then filling of the pores [cell][lane].
    virtual void given_up(double* to_air, double* evaporated, double* water) = 0;
    virtual void start_again() = 0;                      ///< after an outside change or a refused step
};

/// Engines by instruction set; the caller deletes. `single` has one lane, the others `pack_width`.
LaneEngine* make_single(const Setup& setup);
LaneEngine* make_baseline(const Setup& setup);
LaneEngine* make_avx2(const Setup& setup);
LaneEngine* make_avx512(const Setup& setup);

}  // namespace hw::diffusion::engine
