// Volume, mass and pure alcohol; lots out of lists.
#include "core/gauging/lots.hpp"
#include "core/gauging/weighing.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

namespace {
const Cell blank{};

bool is_liquid(double strength, double t) {
    return mass_fraction_from_strength(strength) >= lowest_liquid_mass_fraction(t);
}
} // namespace

TEST(Volume, EthanolOnABalanceInAir) {
    // Revenue Canada, Canadian Alcoholometric Laboratory Table 1996, introduction: density in air
    // of ethanol from the general formula, 0.7881589894 g/cm3. Their air is not stated: 0.005 kg/m3
    // of it (conventions run from 1.1995 to 1.204) are 4.5e-6 g/cm3.
    const Table table("oiml_printed_values.csv", 12);
    ASSERT_EQ(table.text(1, "quantity").find("density in air"), 0u);
    EXPECT_NEAR(mass_from_volume(1.0, 100.0), table.number(1, "value"), 4.5e-6);
}

TEST(Volume, BalanceInAir) {
    // OIML D 28: (rho - 1.2) / (1 - 1.2/8000), written out.
    EXPECT_NEAR(balance_kg_per_l(8000.0), 8.0, 1e-14); // a weight of the weights' own density
    for (double strength = 0.0; strength <= 100.0; strength += 5.0) {
        const double rho = plain_r22::density(plain_r22::mass_fraction(strength, 20.0), 20.0);
        EXPECT_NEAR(mass_from_volume(2.0, strength), 2.0 * (rho - 1.2) / (1.0 - 0.00015) / 1000.0,
                    1e-10);
    }
}

RC_GTEST_PROP(Volume, MassAndVolumeAreInverse, ()) {
    const double t = *within(-20.0, 40.0);
    const double strength = *within(0.0, 100.0);
    const double volume = *within(0.0, 1e6);
    if (t == 0.0 || !is_liquid(strength, t))
        return;
    const double back = volume_from_mass(mass_from_volume(volume, strength, t), strength, t);
    RC_ASSERT(std::fabs(back - volume) <= 1e-15 * 8 * volume); // four roundings
}

RC_GTEST_PROP(Volume, GoingThereAndBackAndByAThirdTemperature, ()) {
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

RC_GTEST_PROP(Volume, WarmSpiritFillsMore, ()) {
    const double a = *within(-20.0, 40.0);
    const double b = *within(-20.0, 40.0);
    const double strength =
        *within(20.0, 100.0); // weaker ones shrink on warming near 0 degC, as water does
    if (b - a < 1e-6 || !is_liquid(strength, a))
        return;
    RC_ASSERT(volume_at(1.0, strength, a, b) > 1.0);
}

RC_GTEST_PROP(Volume, MillilitresInMillilitresOut, ()) {
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

TEST(Volume, MassInAirIsLessThanInVacuo) {
    for (double strength = 0.0; strength <= 100.0; strength += 5.0)
        EXPECT_LT(mass_from_volume(1.0, strength), density_from_strength(strength, 20.0) / 1000.0);
}

TEST(Volume, PureAlcoholIsTheDefinition) {
    // OIML R 22, section 3: % vol at 20 degC. 500 x 0.78 + 500 x 0.74 + 400 x 0.70 mL.
    EXPECT_NEAR(pure_alcohol({{500.0, 78.0}, {500.0, 74.0}, {400.0, 70.0}}), 1040.0, 1e-12);
    EXPECT_EQ(pure_alcohol({}), 0.0);
    // The mass of the alcohol is that volume times the density of ethanol.
    const Lot lot{10.0, 40.0};
    EXPECT_NEAR(lot_alcohol_mass(lot), 4.0 * plain_r22::density(1.0, 20.0) / 1000.0, 1e-12);
    EXPECT_NEAR(lot_alcohol_mass(lot) / lot_mass(lot), mass_fraction_from_strength(40.0), 1e-13);
}

TEST(Volume, LotsFromLists) {
    const Column volumes{"volumes", {500.0, blank, 400.0}};
    const Column strengths{"strengths", {80.0, blank, 70.0}};
    const auto lots = lots_from(volumes, strengths);
    ASSERT_EQ(lots.size(), 2u);
    EXPECT_EQ(lots[0].volume, 500.0);
    EXPECT_EQ(lots[1].volume, 400.0);
    EXPECT_EQ(lots[1].strength, 70.0);
    EXPECT_EQ(lots[1].row, 2u);
}

TEST(Volume, OneTemperatureServesAllRowsAndMovesVolumesOnly) {
    const Column volumes{"volumes", {500.0, 400.0}};
    const Column strengths{"strengths", {80.0, 70.0}};
    const Column one{"volumeTemperatures", {28.0}};
    const Column each{"volumeTemperatures", {28.0, 28.0}};
    const Column at_20c{"volumeTemperatures", {20.0}};
    const auto by_one = lots_from(volumes, strengths, &one);
    const auto by_each = lots_from(volumes, strengths, &each);
    const auto plain = lots_from(volumes, strengths, &at_20c);
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(by_one[i].volume, by_each[i].volume);
        EXPECT_EQ(by_one[i].strength, plain[i].strength);
        EXPECT_NEAR(by_one[i].volume, volume_at(plain[i].volume, plain[i].strength, 28.0, 20.0),
                    1e-12);
        EXPECT_LT(by_one[i].volume, plain[i].volume); // warm jars hold less than they show
    }
    EXPECT_EQ(plain[0].volume, 500.0);
    // Blank rows are blank in the temperatures, too.
    const Column gap_v{"volumes", {500.0, blank}};
    const Column gap_s{"strengths", {80.0, blank}};
    const Column gap_t{"volumeTemperatures", {28.0, blank}};
    EXPECT_EQ(lots_from(gap_v, gap_s, &gap_t).size(), 1u);
    EXPECT_EQ(lots_from(gap_v, gap_s, &one).size(), 1u);
}

TEST(Volume, RefusalsOfLists) {
    const Column volumes{"volumes", {500.0, 450.0, 400.0}};
    const Column strengths{"strengths", {80.0, 75.0, 70.0}};
    const auto lots = [&](const Column& v, const Column& s, const Column* t = nullptr) {
        return [=] { (void)lots_from(v, s, t); };
    };
    const auto out = RefusalKind::out_of_range;
    const auto text = RefusalKind::not_a_number;
    expect_refusal(lots({"volumes", {500.0, -1.0, 400.0}}, strengths), out, "volumes",
                   {"row 2 of volumes is -1", "0 or more"});
    expect_refusal(lots(volumes, {"strengths", {80.0, 75.0, 170.0}}), out, "strengths",
                   {"row 3 of strengths is 170 % vol", "0 to 100 % vol"});
    expect_refusal(lots(volumes, {"strengths", {80.0, std::string("n/a"), 70.0}}), text,
                   "strengths", {"row 2 of strengths", "\"n/a\""});
    expect_refusal(lots({"volumes", {std::string("0,5"), 1.0, 1.0}}, strengths), text, "volumes",
                   {"row 1 of volumes", "\"0,5\""});
    expect_refusal(lots(volumes, {"strengths", {80.0, blank, 70.0}}), text, "strengths",
                   {"row 2 of strengths is blank", "volumes"});
    expect_refusal(lots(volumes, {"strengths", {80.0, 75.0}}), text, "strengths",
                   {"volumes has 3 rows", "strengths has 2;"});
    const Column two{"volumeTemperatures", {20.0, 20.0}};
    expect_refusal(lots(volumes, strengths, &two), text, "volumeTemperatures",
                   {"volumeTemperatures has 2;"});
    const Column empty{"volumeTemperatures", {28.0, 0.0, 28.0}};
    expect_refusal(lots(volumes, strengths, &empty), out, "volumeTemperatures",
                   {"row 2 of volumeTemperatures is 0 °C", "Is the cell empty?", "0.001"});
    const Column one_empty{"volumeTemperatures", {0.0}};
    expect_refusal(lots(volumes, strengths, &one_empty), out, "volumeTemperatures",
                   {"volumeTemperatures is 0 °C", "Is the cell empty?"});
    const Column hot{"volumeTemperatures", {28.0, 28.0, 82.0}};
    expect_refusal(lots(volumes, strengths, &hot), out, "volumeTemperatures",
                   {"row 3 of volumeTemperatures is 82 °C", "-20 to 40 °C"});
    const Column words{"volumeTemperatures", {28.0, std::string("warm"), 28.0}};
    expect_refusal(lots(volumes, strengths, &words), text, "volumeTemperatures",
                   {"row 2 of volumeTemperatures", "\"warm\""});
    const Column icy{"volumeTemperatures", {-15.0}};
    expect_refusal(lots({"volumes", {1.0}}, {"strengths", {10.0}}, &icy), RefusalKind::impossible,
                   "volumeTemperatures", {"volumeTemperatures is -15 °C", "10 % vol", "frozen"});
}

TEST(Volume, RefusalsOfScalars) {
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
