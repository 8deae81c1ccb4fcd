// LIQUEUR: recipes of the reference, the limits without sugar and without alcohol, and the balance.
#include "core/blending/liqueur.hpp"

#include "core/blending/blending.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/sucrose.hpp"
#include "mixture/plain_r22.hpp"
#include "mixture/plain_sucrose.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>
#include <sstream>

using namespace jarbook;

namespace {

// kg in vacuo of what the balance in air shows.
double in_vacuo(double balance_kg, double density) {
    return balance_kg / balance_kg_per_l(density) * density / 1000.0;
}

double water_density() {
    return plain_r22::density(0.0, 20.0);
}
double spirit_density(double strength) {
    return plain_r22::density(plain_r22::mass_fraction(strength, 20.0), 20.0);
}

} // namespace

TEST(Liqueur, RecipesOfTheTable) {
    // sugar_and_fruit.csv: masses in vacuo, four decimals, and the product's density, kg/L.
    const published::Table table("sugar_and_fruit.csv", 24);
    const struct {
        const char* what;
        double volume, strength, sugar, spirit;
    } recipes[] = {
        {"1 L, 25 % vol, 200 g/L from 60 %: spirit, sugar, water; density", 1.0, 25.0, 200.0, 60.0},
        {"10 L, 35 % vol, 15 g/L from 70 %", 10.0, 35.0, 15.0, 70.0}};
    int compared = 0;
    for (std::size_t row = 0; row < table.rows(); ++row)
        for (const auto& r : recipes)
            if (table.text(row, "what") == r.what) {
                std::string text = table.text(row, "value");
                text.replace(text.find(';'), 1, " ");
                std::istringstream in(text);
                double spirit = 0.0, sugar = 0.0, water = 0.0, density = 0.0;
                ASSERT_TRUE(in >> spirit >> sugar >> water >> density);
                const LiqueurRecipe made = liqueur(r.volume, r.strength, r.sugar, r.spirit);
                const double made_spirit = in_vacuo(made.spirit, spirit_density(r.spirit));
                const double made_water = in_vacuo(made.water, water_density());
                EXPECT_NEAR(made_spirit, spirit, 5.1e-5);
                EXPECT_NEAR(made.sugar, sugar, 1e-12);
                EXPECT_NEAR(made_water, water, 5.1e-5);
                EXPECT_NEAR((made_spirit + made.sugar + made_water) / r.volume, density, 5.1e-5);
                ++compared;
            }
    EXPECT_EQ(compared, 2);
}

TEST(Liqueur, OldFrenchClassOrdinary) {
    // Duplais: 25 L of alcohol of 85 % and 12.5 kg of sugar for 100 L are 21.3 % vol (25 x 0.85).
    const LiqueurRecipe made = liqueur(100.0, 21.25, 125.0, 85.0);
    EXPECT_NEAR(made.spirit, mass_from_volume(25.0, 85.0), 1e-9);
    EXPECT_NEAR(made.sugar, 12.5, 1e-12);
}

TEST(Liqueur, TheSugarTakesUpWhatIcumsaSays) {
    // Apparent specific volume of sucrose in water at 20 degC, from the polynomial: (1 - (1 - w)
    // rho/rho_w)/(w rho) per kg. The table's six values, and all of them within the 0.015 of 0.62.
    const published::Table table("sugar_and_fruit.csv", 24);
    ASSERT_TRUE(table.text(0, "what").starts_with("apparent specific volume"));
    std::istringstream values(table.text(0, "value"));
    for (const double w : {0.05, 0.10, 0.20, 0.30, 0.40, 0.50}) {
        double published = 0.0;
        ASSERT_TRUE(values >> published);
        const double rho = water_density() + plain_sucrose::excess(w, 20.0);
        const double volume = 1000.0 * (1.0 - (1.0 - w) * rho / water_density()) / (w * rho);
        EXPECT_NEAR(volume, published, 5.1e-5) << w;
        EXPECT_NEAR(volume, sugar_l_per_kg, 0.015) << w;
    }
}

TEST(Liqueur, WithoutSugarItIsTheDilutionToTheLastDigit) {
    for (const double strength : {5.0, 17.5, 25.0, 40.0, 59.999, 60.0})
        for (const double volume : {0.7, 1.0, 25.0, 700.0}) {
            const LiqueurRecipe made = liqueur(volume, strength, 0.0, 60.0);
            const double spirit = spirit_needed(volume, 60.0, strength);
            EXPECT_EQ(made.spirit, mass_from_volume(spirit, 60.0));
            EXPECT_EQ(made.water, mass_from_volume(water_to_add(spirit, 60.0, strength), 0.0));
            EXPECT_EQ(made.sugar, 0.0);
        }
}

TEST(Liqueur, WithoutAlcoholItIsASugarSolution) {
    // Sugar and water of the recipe weigh what a litre of the solution weighs by ICUMSA. The
    // sugar's volume is 0.62 instead of 0.616 to 0.625 L/kg: up to 0.005 L/kg x c of water too much
    // or too little, 1 kg/m3 for each 200 g/L.
    for (double sugar = 10.0; sugar <= 500.0; sugar += 10.0) {
        const LiqueurRecipe made = liqueur(1.0, 0.0, sugar, 60.0);
        EXPECT_EQ(made.spirit, 0.0);
        const double total = 1000.0 * (made.sugar + in_vacuo(made.water, water_density()));
        double density = water_density(); // w = c / rho
        for (int pass = 0; pass < 60; ++pass)
            density = water_density() + plain_sucrose::excess(sugar / density, 20.0);
        EXPECT_NEAR(total, density, 0.005 * sugar) << sugar;
    }
}

TEST(Liqueur, StrengthOverTheHalfWidthOfTheSugarsVolume) {
    // The reference's 24.925-25.075 for 0.62 +- 0.015 L/kg at 25 % vol and 200 g/L: as the help has
    // it, 0.04 % vol for each 100 g/L. The recipe's masses, with the sugar taking up the other
    // volume.
    const LiqueurRecipe made = liqueur(1.0, 25.0, 200.0, 60.0);
    for (const auto& [specific, strength] : {std::pair{0.605, 25.075}, std::pair{0.635, 24.925}}) {
        const double product = 1.0 + (specific - 0.62) * made.sugar;
        EXPECT_NEAR(25.0 / product, strength, 0.0005);
    }
}

RC_GTEST_PROP(Liqueur, TheMassesHoldTheVolumeAndTheAlcohol, ()) {
    const double spirit = *within(1.0, 100.0);
    const double sugar = *within(0.0, 500.0);
    const double share = *within(0.0, 1.0);
    const double strength = share * spirit * (1.0 - 0.62e-3 * sugar);
    RC_PRE(strength == 0.0 || strength >= 1.0);
    const double volume = *within(0.1, 1000.0);
    const LiqueurRecipe made = liqueur(volume, strength, sugar, spirit);
    RC_ASSERT(made.spirit >= 0.0 && made.water >= 0.0);
    const double litres = volume_from_mass(made.spirit, spirit);
    // Alcohol in is alcohol out.
    RC_ASSERT(std::fabs(litres * spirit - volume * strength) < 1e-9 * volume * 100.0);
    // Spirit and water put together, and the sugar's volume, fill the product.
    const std::vector<Lot> lots{{litres, spirit, 0}, {volume_from_mass(made.water, 0.0), 0.0, 1}};
    RC_ASSERT(std::fabs(blend_volume(lots) + 0.62 * made.sugar - volume) < 1e-9 * volume);
    // Homogeneous.
    const LiqueurRecipe grams = liqueur(1000.0 * volume, strength, sugar, spirit);
    RC_ASSERT(std::fabs(grams.water - 1000.0 * made.water) < 1e-9 * (volume + grams.water));
    RC_ASSERT(std::fabs(grams.spirit - 1000.0 * made.spirit) < 1e-9 * (volume + grams.spirit));
}

TEST(Liqueur, Refusals) {
    const auto out = RefusalKind::out_of_range;
    expect_refusal([] { liqueur(1.0, 55.0, 200.0, 60.0); }, RefusalKind::impossible, "strength",
                   {"55 % vol", "60 % vol", "200 g/L", "52.56 % vol", "strongest"});
    expect_refusal([] { liqueur(-1.0, 25.0, 200.0, 60.0); }, out, "finalVolume", {"-1"});
    expect_refusal([] { liqueur(1.0, 0.25, 200.0, 60.0); }, out, "strength", {"40, not 0.40"});
    expect_refusal([] { liqueur(1.0, 25.0, 501.0, 60.0); }, out, "sugar", {"501", "0 to 500 g/L"});
    expect_refusal([] { liqueur(1.0, 25.0, -1.0, 60.0); }, out, "sugar", {"-1"});
    expect_refusal([] { liqueur(1.0, 25.0, 200.0, 0.0); }, out, "spiritStrength", {"empty"});
    expect_refusal([] { liqueur(1.0, 25.0, 200.0, 0.6); }, out, "spiritStrength", {"40, not 0.40"});
    // The strongest itself can be made, without water.
    EXPECT_NEAR(liqueur(1.0, 60.0 * 0.876, 200.0, 60.0).water, 0.0, 1e-12);
}
