// The general formula of OIML R 22:1975 for the density of ethanol-water mixtures, and its inverse.
//
// Density in vacuo, kg/m3, as a function of the mass fraction of ethanol (0...1) and the
// temperature
// (-20...40 degC, IPTS-68):
//
//   rho(p,t) = A1 + sum_{k=2..12} A_k p^(k-1) + sum_{k=1..6} B_k (t-20)^k
//                 + sum_{i=1..5} sum_{k=1..m_i} C_i,k p^k (t-20)^i
//
// Source: OIML R 22:1975, annex; Council Directive 76/766/EEC, annex, section 4.
// Uncertainty: R 22 states none with the formula; U(rho) = 0.05 kg/m3 (k = 2) is taken here, which
// covers its deviations from the NBS densities near room temperature (tests/core/test_r22.cpp).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace jarbook::r22 {

inline constexpr double lowest_temperature_c = -20.0;
inline constexpr double highest_temperature_c = 40.0;
inline constexpr double reference_temperature_c = 20.0;
// Expanded uncertainty (k = 2) taken for the formula's density, kg/m3.
inline constexpr double density_uncertainty_kg_m3 = 0.05;

// The formula collapsed to one temperature: a polynomial of degree 11 in the mass fraction. Not
// range-checked: the functions below and those of strength.hpp check before they call.
//
// The polynomial is kept about p = 1/2. About p = 0 its terms run to 1e6 kg/m3 and cancel, which
// costs 1e-10 kg/m3 of rounding; about the middle the terms fall off and 1e-13 is left. Even and
// odd powers are summed apart: two short chains of operations, worked off side by side.
class DensityAt {
public:
    static constexpr double middle = 0.5;

    explicit DensityAt(double temperature_c);

    double temperature_c() const { return temperature_c_; }
    // Density of ethanol, kg/m3 in vacuo: at mass fraction 1.
    double ethanol() const { return ethanol_; }

    // kg/m3 in vacuo at mass fraction p.
    double operator()(double p) const { return with_slope(p).density_kg_m3; }

    struct ValueAndSlope {
        double density_kg_m3;
        double slope; // d rho / d p, kg/m3
    };
    ValueAndSlope with_slope(double p) const {
        const double u = p - middle;
        const double q = u * u;
        double even = coefficient_[10];
        double odd = coefficient_[11];
        double even_slope = 0.0; // by q
        double odd_slope = 0.0;
        for (std::size_t k = 10; k >= 2; k -= 2) {
            even_slope = even_slope * q + even;
            odd_slope = odd_slope * q + odd;
            even = even * q + coefficient_[k - 2];
            odd = odd * q + coefficient_[k - 1];
        }
        return {even + u * odd, odd + 2.0 * u * (even_slope + u * odd_slope)};
    }

private:
    void add_temperature(double tau); // difference to the reference temperature

    double temperature_c_;
    std::array<double, 12> coefficient_; // of (p - middle)^k
    double ethanol_;
};

// The formula at 20 degC, at which strength by volume is defined.
const DensityAt& density_at_20c();

// Density in vacuo, kg/m3; mass fraction 0...1, temperature -20...40 degC, not checked.
double density_kg_m3(double mass_fraction, double temperature_c);

// How much the density changes with the temperature, kg/m3 per degC, at a mass fraction; one-sided
// at the ends of the formula's range. Not checked.
double density_slope_per_c(double mass_fraction, double temperature_c);

// The mass fraction whose density at the formula's temperature is the given one: the inverse of
// the formula on its liquid part. Refuses (impossible) a density above that of the most watery
// liquid or below that of ethanol at that temperature; `argument` is named in the refusal.
// Bracketed Newton from an interpolated first guess; residual below 1e-9 % vol.
double mass_fraction_from_density(double density_kg_m3, const DensityAt& formula,
                                  std::string_view argument);

// Volume fraction of ethanol, per cent, with mixture and ethanol both at the formula's temperature:
// q = 100 p rho(p,t) / rho(1,t) (R 22, section 3, where t is 20 degC).
double pct_vol_from_mass_fraction(double mass_fraction, const DensityAt& formula);

// Its inverse; per cent by volume 0...100, not checked.
double mass_fraction_from_pct_vol(double pct_vol, const DensityAt& formula);

} // namespace jarbook::r22
