// The scales on which a spirit's strength is stated, and the way from one to another.
#pragma once

#include <string_view>

namespace jarbook {

// Value on the scale `to` of the spirit that has `value` on the scale `from`. Scales, case and
// spaces ignored:
//   %vol     % vol at 20 degC (R 22)                     0...100
//   %mas     % by mass                                   0...100
//   mol%     % by amount of substance; molar masses 46.068 and 18.015 g/mol (CRC Handbook)
//   %vol15   % vol, mixture and ethanol both at 15 degC
//   %vol60F  the same at 60 degF
//   proof    US: 2 x %vol60F (27 CFR 30.11)              0...200
//   sikes    British: 100 x %vol60F / 57.06              0...175.25
//   kg/m3    density at 20 degC in vacuo                 789.24...998.20
//   sg       density at 20 degC relative to water at 20 degC, both in vacuo
//   sg60F    the same at 60 degF
// An unknown scale is refused (not_a_number) with a list of all; a value that no mixture has,
// out_of_range or impossible.
double convert_strength(double value, std::string_view from, std::string_view to);

} // namespace jarbook
