// Vapour-liquid equilibrium of ethanol (1) and water (2) at constant pressure.
//
//   y P = x g1 P1(T),   (1 - y) P = (1 - x) g2 P2(T)          ideal vapour, modified Raoult's law
//
//   van Laar:  ln g1 = A12 (A21 x2 / (A12 x1 + A21 x2))^2,  A12 = 1.6798
//              ln g2 = A21 (A12 x1 / (A12 x1 + A21 x2))^2,  A21 = 0.9227
//   Perry's Chemical Engineers' Handbook, 6th/7th ed., Table 13-4 (DECHEMA). The two digits were
//   cited from memory; a least-squares refit to Carey & Lewis' points gives 1.681 / 0.922.
//
//   vapour pressure:  ln(P/Pa) = C1 + C2/T + C3 ln T + C4 T^C5 (T in K),
//   Perry's Handbook, 8th ed., Table 2-8.
//
// Range: 0...1 in mole fraction; the cells' functions take 600...1100 hPa.
// How far off (tests/core/test_equilibrium.cpp): Carey & Lewis 1932 at 101.3 kPa mean 0.0047 in y
// and 0.13 K; Kamihama 2012 0.0052 and 0.22 K; Voutsas 2011 at 32.9 kPa 0.0072 and 0.15 K. Data
// sets differ among themselves by about 1 % vol of vapour strength, the floor of any forecast. The
// model's azeotrope (x = 0.913, 78.21 degC) lies above the measured one (0.8943, 78.15 degC).
#pragma once

namespace jarbook {

inline constexpr double standard_pressure_hpa = 1013.25;
inline constexpr double lowest_pressure_hpa = 600.0;
inline constexpr double highest_pressure_hpa = 1100.0;

// Refuses a pressure outside 600...1100 hPa.
void require_pressure(double pressure_hpa);

// Vapour pressure of the pure components, Pa, at an absolute temperature; 273.16...514 K.
double ethanol_vapour_pressure_pa(double temperature_k);
double water_vapour_pressure_pa(double temperature_k);

// The equilibrium at one pressure. x and y are mole fractions of ethanol, 0...1, not checked.
class Equilibrium {
public:
    // Pressure in hPa, above 0 and below 2000; the cells' functions check their own range first.
    explicit Equilibrium(double pressure_hpa) : pressure_pa_(100.0 * pressure_hpa) {}

    struct Point {
        double temperature_k;   // bubble point of the liquid, dew point of the vapour
        double vapour_fraction; // y
    };
    // The vapour over a boiling liquid of that mole fraction; residual below 1e-12 of the pressure.
    Point over(double x) const;
    double vapour_fraction(double x) const { return over(x).vapour_fraction; }

    // The mole fraction at which vapour and liquid are alike: the end of what distilling can reach.
    double azeotrope_fraction() const;

    // The boiling liquid under a vapour of mole fraction y, on the water-rich side: 0 to the
    // azeotrope's. Its boiling point is the vapour's dew point.
    double liquid_fraction(double y) const;

private:
    double pressure_pa_;
};

// Mole fraction of ethanol from strength (0...100 % vol at 20 degC), and back: by R 22.
double mole_fraction_from_strength(double strength);
double strength_from_mole_fraction(double x);

// Strength, % vol at 20 degC, of the azeotrope at that pressure (600...1100 hPa).
double azeotrope_strength(double pressure_hpa = standard_pressure_hpa);

// Boiling point (bubble point), degC, of a liquid of that strength (0...100 % vol at 20 degC).
double boiling_point_c(double strength, double pressure_hpa = standard_pressure_hpa);

// Strength, % vol at 20 degC, of the condensed vapour over a boiling liquid of that strength.
double vapour_strength(double strength, double pressure_hpa = standard_pressure_hpa);

// Strength of the liquid that boils at that temperature (65...103 degC), on the water-rich side of
// the azeotrope. Refuses (impossible) what no liquid boils at, with the range at that pressure.
double boiler_strength(double boiling_point_c, double pressure_hpa = standard_pressure_hpa);

// Strength of the distillate from its vapour's temperature in the head (degC): the dew point, on
// the water-rich side of the azeotrope. Refused like boiler_strength.
double dew_strength(double vapour_temperature_c, double pressure_hpa = standard_pressure_hpa);

} // namespace jarbook
