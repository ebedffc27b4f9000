#include "core/diffusion/section.hpp"

#include <cmath>
#include <cstddef>
#include <numbers>

#include "core/diffusion/section_run.hpp"

namespace hw::diffusion {

namespace {

constexpr double ln10 = std::numbers::ln10;

/// Mean charge of a component at hydrogen h (mol/L).
double charge_at(const Component& c, double h) {
    double weight = 1, sum = 1, z = c.top_charge, mean = z;
    // Weights relative to the fully protonated form; K/h may overflow only beyond any pH that occurs.
    for (double log_k : c.log_k) {
        weight *= std::pow(10.0, log_k) / h;
        z -= 1;
        sum += weight;
        mean += weight * z;
    }
    return mean / sum;
}

}  // namespace

double bound_alkali(const std::vector<Site>& sites, double x) {
    double bound = 0;
    for (const Site& site : sites) bound += site.amount_mol_kg / (1 + std::exp(ln10 * (site.pka_1 - x)));
    return bound;
}

double strong_charge(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double x, double log_kw_1) {
    const double h = std::pow(10.0, -x);
    double s = 1000 * (std::pow(10.0, log_kw_1) / h - h);
    for (std::size_t k = 0; k < components.size(); ++k) s -= total_mol_m3[k] * charge_at(components[k], h);
    return s;
}

double mean_charge(const Component& component, double x) { return charge_at(component, std::pow(10.0, -x)); }

Result<double> balance_x(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double liquid_m3,
                         const std::vector<Solid>& solids, double alkali_mol, double log_kw_1) {
    // Alkali held rises strictly with x: bisection to round-off is safe, and cheap enough beside a time step.
    double low = -3, high = 17;
    auto held = [&](double x) {
        double a = liquid_m3 * strong_charge(components, total_mol_m3, x, log_kw_1);
        for (const Solid& solid : solids)
            if (solid.kg > 0) a += solid.kg * bound_alkali(*solid.sites, x);
        return a;
    };
    if (!(held(low) <= alkali_mol && alkali_mol <= held(high)))
        return Error{ErrorCode::NotConverged, "More acid or alkali than any solution in water can hold.", "liquid"};
    for (int i = 0; i < 60; ++i) {
        const double mid = (low + high) / 2;
        (held(mid) < alkali_mol ? low : high) = mid;
    }
    return (low + high) / 2;
}

Result<SectionResult> run_section(const std::vector<Component>& components, const std::vector<Layer>& layers,
                                  const std::vector<Stage>& story, const Options& options, const Progress& progress) {
    const CaseView view{&components, &layers, &story, &options};
    if (const auto bad = refused(view)) return *bad;
    bool cancelled = false;
    HW_TRY(results, run_lanes({view}, engine::make_single, progress, cancelled));
    return std::move(results.front());
}

}  // namespace hw::diffusion
