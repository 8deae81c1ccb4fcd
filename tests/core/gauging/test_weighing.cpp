// Volume and mass: what a measure holds and what a balance shows.
#include "core/gauging/weighing.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

namespace {

bool is_liquid(double strength, double t) {
    return mass_fraction_from_strength(strength) >= lowest_liquid_mass_fraction(t);
}

} // namespace

TEST(Weighing, EthanolOnABalanceInAir) {
    // Revenue Canada, Canadian Alcoholometric Laboratory Table 1996, introduction: density in air
    // of ethanol from the general formula, 0.7881589894 g/cm3. Their air is not stated: 0.005 kg/m3
    // of it (conventions run from 1.1995 to 1.204) are 4.5e-6 g/cm3.
    const Table table("oiml_printed_values.csv", 12);
    ASSERT_EQ(table.text(1, "quantity").find("density in air"), 0u);
    EXPECT_NEAR(mass_from_volume(1.0, 100.0), table.number(1, "value"), 4.5e-6);
}

TEST(Weighing, BalanceInAir) {
    // OIML D 28: (rho - 1.2) / (1 - 1.2/8000), written out.
    EXPECT_NEAR(balance_kg_per_l(8000.0), 8.0, 1e-14); // a weight of the weights' own density
    for (double strength = 0.0; strength <= 100.0; strength += 5.0) {
        const double rho = plain_r22::density(plain_r22::mass_fraction(strength, 20.0), 20.0);
        EXPECT_NEAR(mass_from_volume(2.0, strength), 2.0 * (rho - 1.2) / (1.0 - 0.00015) / 1000.0,
                    1e-10);
    }
}

RC_GTEST_PROP(Weighing, MassAndVolumeAreInverse, ()) {
    const double t = *within(-20.0, 40.0);
    const double strength = *within(0.0, 100.0);
    const double volume = *within(0.0, 1e6);
    if (t == 0.0 || !is_liquid(strength, t))
        return;
    const double back = volume_from_mass(mass_from_volume(volume, strength, t), strength, t);
    RC_ASSERT(std::fabs(back - volume) <= 1e-15 * 8 * volume); // four roundings
}

RC_GTEST_PROP(Weighing, GoingThereAndBackAndByAThirdTemperature, ()) {
    const double a = *within(-20.0, 40.0);
    const double b = *within(-20.0, 40.0);
    const double c = *within(-20.0, 40.0);
    const double strength = *within(0.0, 100.0);
    const double volume = *within(0.0, 1e6);
    if (!is_liquid(strength, a) || !is_liquid(strength, b) || !is_liquid(strength, c))
        return;
    const double direct = volume_at(volume, strength, a, b);
    RC_ASSERT(std::fabs(volume_at(direct, strength, b, a) - volume) <= 1e-14 * volume);
    RC_ASSERT(std::fabs(volume_at(volume_at(volume, strength, a, c), strength, c, b) - direct) <=
              1e-14 * direct);
    // Mass is what stays: weighed at either temperature in vacuo.
    RC_ASSERT(std::fabs(direct * density_from_strength(strength, b) -
                        volume * density_from_strength(strength, a)) <=
              1e-14 * volume * density_from_strength(strength, a));
}

RC_GTEST_PROP(Weighing, WarmSpiritFillsMore, ()) {
    const double a = *within(-20.0, 40.0);
    const double b = *within(-20.0, 40.0);
    const double strength =
        *within(20.0, 100.0); // weaker ones shrink on warming near 0 degC, as water does
    if (b - a < 1e-6 || !is_liquid(strength, a))
        return;
    RC_ASSERT(volume_at(1.0, strength, a, b) > 1.0);
}

RC_GTEST_PROP(Weighing, MillilitresInMillilitresOut, ()) {
    const double t = *within(1.0, 40.0);
    const double strength = *within(0.0, 100.0);
    const double volume = *within(0.0, 1000.0);
    const auto same = [](double ml, double l) { return std::fabs(ml - 1000.0 * l) <= 1e-12 * ml; };
    RC_ASSERT(
        same(volume_at(1000.0 * volume, strength, t, 20.0), volume_at(volume, strength, t, 20.0)));
    RC_ASSERT(same(mass_from_volume(1000.0 * volume, strength, t),
                   mass_from_volume(volume, strength, t)));
    RC_ASSERT(same(volume_from_mass(1000.0 * volume, strength, t),
                   volume_from_mass(volume, strength, t)));
}

TEST(Weighing, MassInAirIsLessThanInVacuo) {
    for (double strength = 0.0; strength <= 100.0; strength += 5.0)
        EXPECT_LT(mass_from_volume(1.0, strength), density_from_strength(strength, 20.0) / 1000.0);
}

TEST(Weighing, RefusalsOfScalars) {
    const auto out = RefusalKind::out_of_range;
    const auto moved = [](double v, double s, double from, double to) {
        return [=] { (void)volume_at(v, s, from, to); };
    };
    expect_refusal(moved(-1.0, 40.0, 20.0, 15.0), out, "volume", {"-1", "0 or more"});
    expect_refusal(moved(1.0, 140.0, 20.0, 15.0), out, "strength", {"140 % vol"});
    expect_refusal(moved(1.0, 40.0, 41.0, 15.0), out, "fromTemperature", {"41 °C", "-20 to 40 °C"});
    expect_refusal(moved(1.0, 40.0, 20.0, -21.0), out, "toTemperature", {"-21 °C", "-20 to 40 °C"});
    expect_refusal(moved(1.0, 10.0, -10.0, 20.0), RefusalKind::impossible, "fromTemperature",
                   {"fromTemperature is -10 °C", "10 % vol", "frozen"});
    expect_refusal(moved(1.0, 10.0, 20.0, -10.0), RefusalKind::impossible, "toTemperature",
                   {"toTemperature is -10 °C", "10 % vol", "frozen"});
    EXPECT_NO_THROW(moved(1.0, 40.0, 0.0, 20.0)()); // an explicit 0 is taken, for tables
    for (const auto& [function, argument] :
         {std::pair{&mass_from_volume, "volume"}, std::pair{&volume_from_mass, "mass"}}) {
        const auto call = [f = function](double amount, double s, double t) {
            return [=] { (void)f(amount, s, t); };
        };
        expect_refusal(call(-1.0, 40.0, 20.0), out, argument, {"-1", "0 or more"});
        expect_refusal(call(1.0, 140.0, 20.0), out, "strength", {"140 % vol"});
        expect_refusal(call(1.0, 40.0, 50.0), out, "temperature", {"50 °C", "-20 to 40 °C"});
        expect_refusal(call(1.0, 40.0, 0.0), out, "temperature", {"0 °C", "Is the cell empty?"});
        expect_refusal(call(1.0, 10.0, -10.0), RefusalKind::impossible, "temperature",
                       {"-10 °C", "10 % vol", "frozen"});
    }
}
