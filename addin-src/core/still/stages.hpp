// The effective stages of a still, from the jars of a run.
#pragma once

#include "core/gauging/lots.hpp"
#include "core/still/forecast.hpp"

#include <vector>

namespace jarbook {

// Effective equilibrium stages, 1...10, of the still that gave these jars from that charge.
//
// Jars in the order they ran, from the first drop on and none left out; three at least (the first
// jars of a run in progress will do). Volumes at 20 degC in the charge's unit; jars of no volume
// are passed over. What is compared is each jar's strength with the forecast's for what ran while
// that jar filled.
//
// Least squares, each jar weighted by its volume, by Brent's bracketed minimisation. One bad
// reading does not spoil it: a first fit by absolute deviations goes through the bulk of the jars,
// the median of its deviations tells their spread, and in the least squares a jar far outside that
// spread counts for less, beyond 4.685 of it for nothing (Tukey's biweight in one reweighting from
// a robust start; Maronna, Martin, Yohai, Robust Statistics, 2006, 2.3 and 5.5).
//
// Refuses (impossible): fewer than three jars or more than 1000; strengths that rise along the run;
// more alcohol or more liquid than was charged; a jar above the azeotrope; jars that no still of 1
// to 10 stages comes near; jars of which half are more than 0.5 % vol (what readings explain)
// weaker than a plain pot gives, or stronger than ten stages do.
double fitted_stages(const Charge& charge, const std::vector<Lot>& jars,
                     double pressure_hpa = standard_pressure_hpa);

// The same with what its uncertainty needs: the jars that hold anything, and the weight that each
// had in the least squares.
struct StagesFit {
    double stages;
    std::vector<Lot> jars;
    std::vector<double> weights;
};
StagesFit fit_stages(const Charge& charge, const std::vector<Lot>& jars,
                     double pressure_hpa = standard_pressure_hpa);

// What so many stages give for these jars: the strength of what ran while each filled. Not checked.
std::vector<double> jar_strengths(const Charge& charge, const std::vector<Lot>& jars, double stages,
                                  double pressure_hpa);

} // namespace jarbook
