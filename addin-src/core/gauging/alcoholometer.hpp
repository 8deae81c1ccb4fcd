// What an alcoholometer shows, and the strength that it means.
//
// A floating instrument has constant mass. Its mark q was set at the reference temperature, where
// it displaces V(ref) of a liquid of density rho(q, ref); at t it displaces V(ref) (1 + g (t -
// ref)) of the liquid at hand. Hence
//
//   rho(liquid, t) = rho(q, ref) / (1 + g (t - ref)),
//
// g the cubic expansion of its glass. The reading q is % vol at the reference temperature, mixture
// and ethanol both at it; rho is OIML R 22.
#pragma once

namespace jarbook {

// Cubic expansion of hydrometer glass taken for tables, 1/degC: ISO 1768:1975, section 3.
inline constexpr double hydrometer_glass_per_c = 25e-6;
inline constexpr double alcoholometer_reference_c = 20.0; // OIML R 44, 2.2

struct Alcoholometer {
    double reference_c = alcoholometer_reference_c; // 10...30 degC
    double glass_per_c = hydrometer_glass_per_c;    // 5e-6...100e-6 1/degC
};

// Refuses an instrument outside these ranges, by `reference` and `glass`.
void require_instrument(const Alcoholometer& instrument);

// True strength, % vol at 20 degC, of a reading (0...100) at a temperature (-20...40 degC, but not
// exactly 0: that is what an empty cell looks like).
double strength_from_reading(double reading, double temperature_c, const Alcoholometer& = {});

// What the instrument will show in spirit of a true strength at a temperature; refused (impossible)
// where that is off its scale of 0...100.
double reading_from_strength(double strength, double temperature_c, const Alcoholometer& = {});

// True US proof at 60 degF of a reading of a proof hydrometer (graduated in proof at 60 degF,
// 0...200) at a temperature in degF (-4...104): 27 CFR 30, Table 1.
double us_proof_from_reading(double reading, double temperature_f);

// The true strength of a reading, and how far it moves with what it rests on: the model
// rho(s, t) = rho(q, ref) / (1 + g (t - ref)) + e, differentiated at its solution.
struct ReadingSensitivity {
    double strength;    // % vol at 20 degC
    double per_reading; // % vol per % vol of the scale
    double per_c;       // % vol per degC by which the thermometer is off
    double per_kg_m3;   // % vol per kg/m3 of the liquid's density
};
ReadingSensitivity reading_sensitivity(double reading, double temperature_c,
                                       const Alcoholometer& = {});

// Expanded uncertainty (k = 2), +- % vol, of strength_from_reading. The tolerances are half-widths
// of rectangular distributions (standard uncertainty: half-width / sqrt 3), zero or more, at most
// 10 % vol and 10 degC; first-order propagation, GUM (JCGM 100:2008) clause 5.1; includes the
// formula's own U(rho) = 0.05 kg/m3 (k = 2) as a density error of the liquid at hand.
double reading_uncertainty(double reading, double temperature_c, double reading_tolerance,
                           double temperature_tolerance_c, const Alcoholometer& = {});

// True strength, % vol at 20 degC, of a slightly sweetened spirit: `sugar` 0...20 g of sucrose per
// litre of product (the litre at 20 degC), above 0 to 40 degC. From the density that the instrument
// shows is taken what that much sugar adds to water in the same g/L at the same temperature (ICUMSA
// SPS-4 polynomial); the rest is taken as the density of the spirit. An approximation: additivity
// is stated only for weak spirit (below 18 % mas; Hackbarth 2011); against the legal 0.4 degree of
// proof per 100 mg/100 mL (27 CFR 30.32(b), 80...100 proof) see tests/core/test_sweetened.cpp. For
// a label the sample has to be distilled.
double strength_of_sweetened(double reading, double temperature_c, double sugar_g_per_l,
                             const Alcoholometer& = {});

} // namespace jarbook
