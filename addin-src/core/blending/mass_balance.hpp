// Balances of mass and of alcohol: what is blended, what was collected of a charge, what is left.
// Volumes at 20 degC, strengths % vol at 20 degC, densities by OIML R 22; homogeneous.
#pragma once

#include "core/gauging/lots.hpp"

#include <vector>

namespace jarbook {

// Mass, and the ethanol in it, of lots: what adds up.
struct Masses {
    double total = 0.0;
    double alcohol = 0.0;
};
Masses masses_of(const std::vector<Lot>& lots);

// The lot at 20 degC that has those masses; the total above 0.
Lot lot_of(const Masses& masses);

// Share of a charge's pure alcohol that was collected. Above 1 is returned as it is.
double recovery(const Lot& charge, const std::vector<Lot>& collected);

// Strength of what is left when the lots were taken out of the charge, by balance of mass and of
// alcohol. Refuses (impossible) more alcohol, or more liquid, than was charged, with the figures.
double residue_strength(const Lot& charge, const std::vector<Lot>& collected);

} // namespace jarbook
