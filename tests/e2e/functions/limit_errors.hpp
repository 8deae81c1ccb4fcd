// Where the end of an argument's range is impossible together with the other arguments of the
// function's first example, and the error that it then gives; everywhere else the end gives no
// error. Which kind of refusal is which code: extension/catalogue/errors.toml.
#pragma once

#include <string_view>

namespace jarbook::e2e {

struct LimitError {
    std::string_view function; // without SPIRIT.
    std::string_view argument;
    double value;
    int code;
};

inline constexpr int impossible = 503;
inline constexpr int no_convergence = 523;

inline constexpr LimitError limit_errors[] = {
    // No such spirit at that temperature: what an alcoholometer would show lies beyond its scale or
    // the liquid's.
    {"STRENGTH", "reading", 100, impossible},
    {"READING", "strength", 100, impossible},
    {"PROOF", "reading", 0, impossible},
    {"SWEETENED", "reading", 100, impossible},
    {"SAMPLESTRENGTH", "reading", 100, impossible},
    {"PUREALCOHOLUNCERTAINTY", "readings", 0, impossible},
    {"PUREALCOHOLBUDGET", "readings", 0, impossible},
    {"STRENGTHCOLUMN", "readings", 100, impossible},
    {"READINGCOLUMN", "strengths", 0, impossible},
    // Frozen at that temperature.
    {"PROOF", "temperatureF", -4, impossible},
    {"SAMPLESTRENGTH", "temperature", -20, impossible},
    {"SAMPLESTRENGTH", "sampleTemperature", -20, impossible},
    {"WATERTOADD", "temperature", -20, impossible},
    // A gravity that rose.
    {"WASHSTRENGTH", "originalGravity", 1, impossible},
    {"WASHSTRENGTH", "finalGravity", 1.15, impossible},
    // What is asked is stronger or weaker than what there is.
    {"WATERTOADD", "target", 0, impossible},
    {"WATERTOADD", "target", 100, impossible},
    {"SPIRITTOADD", "strength", 100, impossible},
    {"SPIRITTOADD", "target", 0, impossible},
    {"SPIRITTOADD", "target", 100, impossible},
    {"SPIRITTOADD", "addedStrength", 0, impossible},
    {"SPIRITNEEDED", "target", 100, impossible},
    {"BLENDPAIR", "strengthA", 0, impossible},
    {"BLENDPAIR", "strengthB", 100, impossible},
    {"BLENDPAIR", "target", 0, impossible},
    {"BLENDPAIR", "target", 100, impossible},
    {"BLENDPLAN", "strengths", 0, impossible},
    {"BLENDPLAN", "target", 100, impossible},
    {"LIQUEUR", "strength", 100, impossible},
    {"SPIRITTOADD", "target", 1, impossible},
    {"BLENDPAIR", "target", 1, impossible},
    {"LIQUEUR", "spiritStrength", 1, impossible},
    // The cuts overlap.
    {"CUTNAMES", "heartsFrom", 1, impossible},
    {"CUTNAMES", "heartsTo", 100, impossible},
    {"CUTPOINT", "strength", 1, impossible},
    {"CUTPOINT", "strength", 100, impossible},
    // No mixture boils there at that pressure, or it boils before.
    {"BOILERSTRENGTH", "boilingPoint", 65, impossible},
    {"BOILERSTRENGTH", "boilingPoint", 103, impossible},
    {"BOILERSTRENGTH", "pressure", 600, impossible},
    {"DEWSTRENGTH", "vapourTemperature", 65, impossible},
    {"DEWSTRENGTH", "vapourTemperature", 103, impossible},
    {"DEWSTRENGTH", "pressure", 600, impossible},
    {"HEATUPTIME", "fromTemperature", 100, impossible},
    // The run begins or ends elsewhere: the stop is above its first drop, or below its charge.
    {"RESIDUESTRENGTH", "chargeStrength", 100, impossible},
    {"FORECASTVOLUME", "chargeStrength", 1, impossible},
    {"FORECASTVOLUME", "strength", 100, impossible},
    {"FORECASTALCOHOL", "fromStrength", 1, impossible},
    {"FORECASTALCOHOL", "toStrength", 100, impossible},
    {"FORECASTTABLE", "chargeStrength", 1, impossible},
    {"FORECASTTABLE", "stop", 100, impossible},
    {"RUNTIME", "chargeStrength", 1, impossible},
    {"RUNTIME", "stop", 100, impossible},
    {"COOLINGWATER", "chargeStrength", 1, impossible},
    {"COOLINGWATER", "stop", 100, impossible},
    {"CHARGECHECK", "stopStrength", 100, impossible},
    {"RESIDUESTRENGTH", "chargeStrength", 1, impossible},
    // No still gives these jars from such a charge.
    {"STAGES", "chargeStrength", 1, impossible},
    {"STAGES", "chargeStrength", 97, impossible},
    {"STAGES", "strengths", 100, impossible},
    {"RECONCILE", "strengths", 100, impossible},
    {"RECONCILETEST", "strengths", 100, impossible},
    {"STAGESUNCERTAINTY", "chargeStrength", 1, impossible},
    {"STAGESUNCERTAINTY", "chargeStrength", 97, impossible},
    {"STAGESUNCERTAINTY", "strengths", 100, impossible},
    // So loose a tolerance that the search has no end.
    {"RECONCILETEST", "commonStrengthTolerance", 50, no_convergence},
};

} // namespace jarbook::e2e
