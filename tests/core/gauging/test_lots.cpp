// Lots out of lists, and the pure alcohol in them.
#include "core/gauging/lots.hpp"

#include "core/gauging/weighing.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;

namespace {
const Cell blank{};
}

TEST(Lots, PureAlcoholIsTheDefinition) {
    // OIML R 22, section 3: % vol at 20 degC. 500 x 0.78 + 500 x 0.74 + 400 x 0.70 mL.
    EXPECT_NEAR(pure_alcohol({{500.0, 78.0}, {500.0, 74.0}, {400.0, 70.0}}), 1040.0, 1e-12);
    EXPECT_EQ(pure_alcohol({}), 0.0);
    // The mass of the alcohol is that volume times the density of ethanol.
    const Lot lot{10.0, 40.0};
    EXPECT_NEAR(lot_alcohol_mass(lot), 4.0 * plain_r22::density(1.0, 20.0) / 1000.0, 1e-12);
    EXPECT_NEAR(lot_alcohol_mass(lot) / lot_mass(lot), mass_fraction_from_strength(40.0), 1e-13);
}

TEST(Lots, LotsFromLists) {
    const Column volumes{"volumes", {500.0, blank, 400.0}};
    const Column strengths{"strengths", {80.0, blank, 70.0}};
    const auto lots = lots_from(volumes, strengths);
    ASSERT_EQ(lots.size(), 2u);
    EXPECT_EQ(lots[0].volume, 500.0);
    EXPECT_EQ(lots[1].volume, 400.0);
    EXPECT_EQ(lots[1].strength, 70.0);
    EXPECT_EQ(lots[1].row, 2u);
}

TEST(Lots, OneTemperatureServesAllRowsAndMovesVolumesOnly) {
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

TEST(Lots, RefusalsOfLists) {
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
