// Quantities that carry their unit in the type. One kind each; the unit is one object used both ways:
// `millimetres(1.2)` on the way in, `thickness.in(millimetres)` on the way out. Points (a temperature, a pH) may be
// subtracted, never added. Check quantities once at the border, then run plain-double kernels.
#pragma once

#include <compare>

namespace hw {

template <class Kind>
class Quantity;

/// A unit of one kind. value_SI = value * factor.
template <class Kind>
struct Unit {
    double factor;
    constexpr Quantity<Kind> operator()(double value) const;
};

/// An amount of one kind, held in SI units.
template <class Kind>
class Quantity {
public:
    constexpr Quantity() = default;
    [[nodiscard]] constexpr double in(Unit<Kind> unit) const { return si_ / unit.factor; }
    constexpr auto operator<=>(const Quantity&) const = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
    friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.si_ * k); }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.si_ * k); }
    friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }

private:
    friend struct Unit<Kind>;
    constexpr explicit Quantity(double si) : si_(si) {}
    double si_ = 0;
};

template <class Kind>
constexpr Quantity<Kind> Unit<Kind>::operator()(double value) const {
    return Quantity<Kind>(value * factor);
}

struct LengthKind;
struct DurationKind;
struct MolalityKind;
struct ArealMassKind;
struct ArealAmountKind;
struct AreaKind;
struct MassKind;
struct SpeedKind;
struct TemperatureDifferenceKind;
struct PhDifferenceKind;
using Length = Quantity<LengthKind>;
using Duration = Quantity<DurationKind>;
using Molality = Quantity<MolalityKind>;
using ArealMass = Quantity<ArealMassKind>;      ///< kg of liquid per m2 of leather
using ArealAmount = Quantity<ArealAmountKind>;  ///< mol per m2 of leather
using Area = Quantity<AreaKind>;
using Mass = Quantity<MassKind>;
using Speed = Quantity<SpeedKind>;
using TemperatureDifference = Quantity<TemperatureDifferenceKind>;
using PhDifference = Quantity<PhDifferenceKind>;

inline constexpr Unit<LengthKind> metres{1.0}, millimetres{1e-3}, micrometres{1e-6};
inline constexpr Unit<DurationKind> seconds{1.0}, minutes{60.0}, hours{3600.0};
inline constexpr Unit<MolalityKind> mol_per_kg{1.0}, mmol_per_kg{1e-3};
inline constexpr Unit<ArealMassKind> kg_per_m2{1.0}, g_per_m2{1e-3};
inline constexpr Unit<ArealAmountKind> mol_per_m2{1.0}, mmol_per_m2{1e-3};
inline constexpr Unit<AreaKind> square_metres{1.0}, square_centimetres{1e-4};
inline constexpr Unit<MassKind> kilograms{1.0}, grams{1e-3};
inline constexpr Unit<SpeedKind> metres_per_second{1.0};
inline constexpr Unit<TemperatureDifferenceKind> kelvin_difference{1.0};
inline constexpr Unit<PhDifferenceKind> ph_units{1.0};

/// A temperature: a point on the scale.
class Temperature {
public:
    static constexpr Temperature celsius(double value) { return Temperature(value + 273.15); }
    static constexpr Temperature kelvin(double value) { return Temperature(value); }
    [[nodiscard]] constexpr double celsius() const { return kelvin_ - 273.15; }
    [[nodiscard]] constexpr double kelvin() const { return kelvin_; }
    constexpr auto operator<=>(const Temperature&) const = default;
    friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
        return kelvin_difference(a.kelvin_ - b.kelvin_);
    }

private:
    constexpr explicit Temperature(double kelvin) : kelvin_(kelvin) {}
    double kelvin_ = 298.15;
};

/// What was read, or would be read: four kinds of pH that must not be mixed.
/// Liquid: a glass electrode in the liquid. Surface: after re-wetting with a stated drop of water.
/// Extract: 1:20 aqueous extract, ISO 4045. Pore: the liquid between the fibres, never read directly.
enum class PhKind { Liquid, Surface, Extract, Pore };

/// A pH of one kind: a point; two of the same kind may be subtracted, none may be added.
template <PhKind kind>
class Ph {
public:
    constexpr explicit Ph(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }
    constexpr auto operator<=>(const Ph&) const = default;
    friend constexpr PhDifference operator-(Ph a, Ph b) { return ph_units(a.value_ - b.value_); }

private:
    double value_;
};
using LiquidPh = Ph<PhKind::Liquid>;
using SurfacePh = Ph<PhKind::Surface>;
using ExtractPh = Ph<PhKind::Extract>;
using PorePh = Ph<PhKind::Pore>;

}  // namespace hw
