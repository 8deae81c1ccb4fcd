#include "core/gauging/scales.hpp"

#include "core/base/keywords.hpp"
#include "core/base/refusal.hpp"
#include "core/mixture/composition.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/temperature.hpp"
#include "texts/scales.hpp"

#include <array>
#include <cmath>
#include <string>

namespace jarbook {

namespace {

// British proof spirit is taken as 57.06 % vol at 60 degF (the contract's figure; handbooks give
// 57.15 % vol at 51 degF's definition for the same spirit).
constexpr double sikes_pct_per_degree = 57.06 / 100.0;

enum class Kind { by_volume, by_mass, by_amount, density, relative_density };

struct Scale {
    std::string_view name;
    std::string_view folded_name;
    Kind kind;
    double temperature_c; // of mixture, ethanol and water
    double unit;          // % vol per degree of the scale
};

constexpr std::array<Scale, 10> scales{{
    {"%vol", "%vol", Kind::by_volume, 20.0, 1.0},
    {"%mas", "%mas", Kind::by_mass, 20.0, 1.0},
    {"mol%", "mol%", Kind::by_amount, 20.0, 1.0},
    {"%vol15", "%vol15", Kind::by_volume, 15.0, 1.0},
    {"%vol60F", "%vol60f", Kind::by_volume, sixty_f_c, 1.0},
    {"proof", "proof", Kind::by_volume, sixty_f_c, 0.5},
    {"sikes", "sikes", Kind::by_volume, sixty_f_c, sikes_pct_per_degree},
    {"kg/m3", "kg/m3", Kind::density, 20.0, 1.0},
    {"sg", "sg", Kind::relative_density, 20.0, 1.0},
    {"sg60F", "sg60f", Kind::relative_density, sixty_f_c, 1.0},
}};

const Scale& scale_named(std::string_view argument, std::string_view name) {
    const std::string wanted = folded(name);
    for (const Scale& scale : scales)
        if (scale.folded_name == wanted)
            return scale;
    std::string all;
    for (const Scale& scale : scales)
        all.append(all.empty() ? "" : ", ").append(scale.name);
    refuse(RefusalKind::not_a_number, argument, name,
           texts::scales::unknown{
               .argument = std::string(argument), .scale = std::string(name), .all = all}
               .text());
}

// Runs f with the formula at the scale's temperature.
template <class F>
double with_formula(const Scale& scale, F f) {
    if (scale.temperature_c == 20.0)
        return f(r22::density_at_20c());
    return f(r22::DensityAt(scale.temperature_c));
}

double value_on(const Scale& scale, double p) {
    return with_formula(scale, [&](const r22::DensityAt& formula) {
        switch (scale.kind) {
        case Kind::by_volume:
            return r22::pct_vol_from_mass_fraction(p, formula) / scale.unit;
        case Kind::by_mass:
            return 100.0 * p;
        case Kind::by_amount:
            return 100.0 * mole_fraction_from_mass_fraction(p);
        case Kind::density:
            return formula(p);
        case Kind::relative_density:
            return formula(p) / formula(0.0);
        }
        return std::nan("");
    });
}

double mass_fraction_on(const Scale& scale, double value) {
    const double at_water = value_on(scale, 0.0);
    const double at_ethanol = value_on(scale, 1.0);
    const double low = std::fmin(at_water, at_ethanol);
    const double high = std::fmax(at_water, at_ethanol);
    // What rounding puts beyond an end by a 1e-12 part is that end.
    const double slack = 1e-12 * high;
    if (!(value >= low - slack && value <= high + slack))
        refuse_range("value", value, low, high, scale.name);
    const double inside = std::fmin(std::fmax(value, low), high);
    return with_formula(scale, [&](const r22::DensityAt& formula) {
        switch (scale.kind) {
        case Kind::by_volume:
            return r22::mass_fraction_from_pct_vol(std::fmin(inside * scale.unit, 100.0), formula);
        case Kind::by_mass:
            return inside / 100.0;
        case Kind::by_amount:
            return mass_fraction_from_mole_fraction(inside / 100.0);
        case Kind::density:
            return r22::mass_fraction_from_density(inside, formula, "value");
        case Kind::relative_density:
            return r22::mass_fraction_from_density(inside * formula(0.0), formula, "value");
        }
        return std::nan("");
    });
}

} // namespace

double convert_strength(double value, std::string_view from, std::string_view to) {
    const Scale& source = scale_named("from", from);
    const Scale& target = scale_named("to", to);
    const double p = mass_fraction_on(source, value);
    if (&source == &target)
        return value;
    return value_on(target, p);
}

} // namespace jarbook
