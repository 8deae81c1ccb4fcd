// Density of a spirit by weighing: a flask filled in turn, or a plummet that dips in.
//
// Each compares the spirit with water, weighed by the same balance in the same air, so that neither
// the volume of flask or plummet nor the balance's own scale matters: only one unit, and the same
// for all readings. Density of water by OIML R 22 (0...40 degC); air 1.2 kg/m3. `glass` is the
// cubic expansion of flask or plummet, 5e-6...100e-6 per degC: borosilicate glass 10e-6, soda-lime
// glass 25e-6, stainless steel 50e-6. Spirit -20...40 degC. A temperature of exactly 0 is refused
// as an empty cell. The answer is kg/m3 in vacuo at the spirit's temperature: for
// strength_from_density.
#pragma once

namespace jarbook {

inline constexpr double flask_glass_per_c = 10e-6;

// Masses as the balance shows them, or loads; above 0.
struct Weighing {
    double water_temperature_c = 20.0;
    double spirit_temperature_c = 20.0;
    double glass_per_c = flask_glass_per_c;
};

// Three readings of one flask, empty, full of water, full of spirit (OIV-MA-AS312-01, method A):
//
//   rho = (S - E)/(W - E) (rho_w(t_w) - rho_air)/(1 + glass (t_s - t_w)) + rho_air.
//
// Refuses (impossible) a flask that weighs no more full than empty.
double pycnometer_density(double empty_mass, double water_mass, double spirit_mass,
                          const Weighing& weighing = {});

// What a scale shows more when a plummet, hung from above, dips whole into the beaker that stands
// on it, tared before: in water and in spirit (the principle of OIV-MA-AS312-01, method C). The
// liquid carries the plummet's weight in it, rho V, and rises by V into air that weighed rho_air V
// before: the load is (rho - rho_air) V, so that the formula is the flask's:
//
//   rho = S/W (rho_w(t_w) - rho_air)/(1 + glass (t_s - t_w)) + rho_air.
//
// Without its air the answer would be up to 0.25 kg/m3 too small.
double plummet_density(double water_load, double spirit_load, const Weighing& weighing = {});

} // namespace jarbook
