// The sheet Liqueur and fruit: published and worked figures, the limits without sugar and without
// fruit, wrong boxes named in words, inputs read by their place.
#include <cmath>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <gtest/gtest.h>

#include "core/blending/blending.hpp"
#include "core/blending/liqueur.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/strength.hpp"
#include "support/support.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using office::Document;

class LiqueurSheet : public testing::Test {
protected:
    Document document = open_blank_run_log();
    NamedSheet sheet{document, "Liqueur and fruit"};

    void type(const std::string& name, double value) const { sheet[name].set_number(value); }
    double figure(const std::string& name) const { return sheet[name].number(); }
    std::string look() const { return sheet["liqueur_look"].text(); }
    std::string wrong_cells() const { return errors(sheet.sheet().used()); }
    void type_liqueur() const {
        type("liqueur_volume", 1);
        type("liqueur_strength", 25);
        type("liqueur_sugar", 200);
        type("liqueur_spirit", 60);
    }
    void type_raspberries() const {
        sheet["fruit"].set_text("raspberry");
        type("fruit_mass", 0.5);
        type("fruit_spirit", 1);
        type("fruit_strength", 60);
    }
};

TEST_F(LiqueurSheet, BlankIsCalm) {
    EXPECT_EQ(wrong_cells(), "");
    EXPECT_EQ(look(), "Fill in the boxes with thick frames of the part that you need.");
    EXPECT_EQ(sheet["spirit_mass"].text(), "");
    EXPECT_EQ(sheet["rest_strength"].text(), "");
    EXPECT_EQ(sheet["lowest"].text(), "");
}

TEST_F(LiqueurSheet, ByWeight) {
    type_liqueur();
    const LiqueurRecipe recipe = liqueur(1, 25, 200, 60);
    EXPECT_NEAR(figure("spirit_mass"), recipe.spirit, 1e-9);
    EXPECT_NEAR(figure("sugar_mass"), 0.2, 1e-12);
    EXPECT_NEAR(figure("water_mass"), recipe.water, 1e-9);
    // Computed from R 22 and 0.62 L/kg: a litre of it weighs 1.0445 kg, and its strength is between
    // 24.925 and 25.075 over 0.62 +- 0.015 L/kg. The litre is in vacuo: 1.05 g of air are
    // displaced.
    EXPECT_NEAR(figure("whole_mass"), 1.0445 - 0.0011, 2e-4);
    EXPECT_NEAR(figure("doubt"), 0.075, 5e-4);
    // Heavier than water: no alcoholometer swims at a mark.
    EXPECT_EQ(sheet["shown"].text(), "–");
    // 10 L of 35 % vol with 15 g/L from 70 %: 0.9612 kg/L, 34.992 to 35.008 (computed alike).
    type("liqueur_volume", 10);
    type("liqueur_strength", 35);
    type("liqueur_sugar", 15);
    type("liqueur_spirit", 70);
    EXPECT_NEAR(figure("doubt"), 0.008, 5e-4);
    EXPECT_NEAR(density_from_strength(figure("shown"), 20), 961.2, 0.15);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(LiqueurSheet, WithoutSugarItIsADilution) {
    type_liqueur();
    sheet["liqueur_sugar"].clear();
    EXPECT_NEAR(figure("spirit_mass"), mass_from_volume(spirit_needed(1, 60, 25), 60), 1e-12);
    EXPECT_NEAR(figure("shown"), 25, 1e-9);
    EXPECT_EQ(figure("doubt"), 0);
}

TEST_F(LiqueurSheet, TooStrongIsSaidWithTheStrongest) {
    type_liqueur();
    type("liqueur_strength", 55);
    EXPECT_EQ(sheet["spirit_mass"].text(), "");
    const std::string strongest = comma_decimal() ? "52,56" : "52.56"; // 60 (1 - 0.62 x 0.2)
    EXPECT_NE(look().find("The strongest with that sugar is " + strongest), std::string::npos)
        << look();
    type("liqueur_strength", 52.56);
    EXPECT_NEAR(figure("water_mass"), 0, 1e-9);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(LiqueurSheet, SpiritOnRaspberries) {
    type_raspberries();
    // 0.5 kg of raspberries (15.5 g dry matter, 4.5 g sugar in 100 g: Belitz, Grosch, Schieberle,
    // Food Chemistry, Table 18.3) in 1 L of 60 % vol, all water shared: 42.53 % vol without and
    // 42.11 with the sugar in the volume (computed from R 22 and 0.62 L/kg, with masses in vacuo:
    // as a scale shows it, the water is 0.45 mL more, and 0.013 % vol less remain).
    EXPECT_NEAR(figure("rest_strength"), 42.11 - 0.013, 5e-3);
    EXPECT_NEAR(figure("rest_alcohol"), 0.6, 1e-12);
    const double litres = 0.6 / figure("rest_strength") * 100;
    EXPECT_NEAR(figure("rest_sugar"), 22.5 / litres, 1e-9);
    // 4 g more water in 100 g is dry matter of 11.5 g; the highest leaves the sugar in the fruit.
    const auto at_rest = [](double dry, double sugar_g) {
        const double water = volume_from_mass(0.5 * (100 - dry) / 100, 0);
        return 60 / (blend({{1, 60}, {water, 0}}).volume + 0.62e-3 * sugar_g);
    };
    EXPECT_NEAR(figure("rest_low"), at_rest(11.5, 22.5), 1e-9);
    EXPECT_NEAR(figure("rest_high"), at_rest(19.5, 0), 1e-9);
    type("fruit_dry", 19.5); // the highest is then that of 15.5 g less 4
    type("fruit_sugar", 4.5);
    EXPECT_NEAR(figure("rest_low"), at_rest(15.5, 22.5), 1e-9);
    type("fruit_dry", 11.5);
    EXPECT_NEAR(figure("rest_high"), 42.53 - 0.013, 5e-3);
    // Above 6 g/L of solids a sample is distilled: 27 CFR 30.31(c)
    EXPECT_NE(sheet.at("N", sheet.row("rest_sugar")).text().find("have a sample distilled"),
              std::string::npos);
    EXPECT_LT(figure("rest_shown"), figure("rest_strength") - 3);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(LiqueurSheet, Clouding) {
    type("cloud_strength", 55);
    type("cloud_water", 9);
    const auto with_water = [](double water) { return blend({{20, 55}, {water, 0}}).strength; };
    EXPECT_NEAR(figure("clear"), with_water(8.95), 1e-9);
    EXPECT_NEAR(figure("cloudy"), with_water(9), 1e-9);
    EXPECT_NEAR(figure("lowest"), with_water(8.95) + 2, 1e-9);
    EXPECT_NEAR(figure("water"), water_to_add(1, 55, with_water(8.95) + 2), 1e-9);
    // Clouded by the first drop: nothing to spare.
    type("cloud_water", 0.05);
    EXPECT_NEAR(figure("clear"), 55, 1e-9);
    EXPECT_EQ(sheet["lowest"].text(), "–");
    EXPECT_EQ(sheet["water"].text(), "");
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(LiqueurSheet, WhatIsMissingIsSaid) {
    type("liqueur_volume", 1);
    EXPECT_NE(look().find("volume, strength and spirit are all needed"), std::string::npos);
    sheet["liqueur_volume"].clear();
    type("fruit_mass", 1);
    EXPECT_NE(look().find("its weight, the spirit's volume and strength are all needed"),
              std::string::npos)
        << look();
    sheet["fruit_mass"].clear();
    type("cloud_water", 3);
    EXPECT_NE(look().find("sample, strength and water are all needed"), std::string::npos);
    sheet["cloud_water"].clear();
    type_raspberries();
    type("fruit_sugar", 40);
    EXPECT_NE(look().find("is less than the sugar in it"), std::string::npos) << look();
    EXPECT_EQ(sheet["rest_strength"].text(), "");
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(LiqueurSheet, WrongBoxesAreNamed) {
    type_liqueur();
    type_raspberries();
    type("cloud_strength", 55);
    type("cloud_water", 9);
    for (const std::string name :
         {"liqueur_volume", "liqueur_strength", "liqueur_sugar", "liqueur_spirit", "fruit_mass",
          "fruit_spirit", "fruit_strength", "fruit_added", "fruit_dry", "fruit_sugar",
          "cloud_sample", "cloud_strength", "cloud_water", "cloud_step", "cloud_margin"}) {
        const std::string held = sheet[name].formula();
        for (const auto& [typed, said] : std::initializer_list<std::pair<const char*, const char*>>{
                 {"much", "'much' is text: type the number alone"},
                 {comma_decimal() ? "31.5" : "31,5", "is text: type 31"}}) {
            sheet[name].set_text(typed);
            EXPECT_NE(look().find(said), std::string::npos) << name << ": " << look();
            EXPECT_EQ(sheet[name + "_counts"].text(), "") << name;
            EXPECT_EQ(wrong_cells(), "") << name;
        }
        sheet[name].set_number(-1);
        EXPECT_NE(look().find("-1 is not from"), std::string::npos) << name << ": " << look();
        sheet[name].set_number(46270);
        EXPECT_NE(look().find("this is a date"), std::string::npos) << name << ": " << look();
        sheet[name].set_formula("=1/0");
        EXPECT_NE(look().find("an error: clear the box"), std::string::npos) << look();
        sheet[name].set_formula(held);
        EXPECT_EQ(sheet[name + "_words"].text().find("type"), std::string::npos) << name;
    }
    sheet["fruit"].set_text("turnip");
    EXPECT_NE(look().find("'turnip' is not in the list"), std::string::npos) << look();
    EXPECT_EQ(sheet["rest_strength"].text(), "");
}

TEST_F(LiqueurSheet, BoxesAreReadByPlace) {
    type_liqueur();
    type_raspberries();
    const auto address = [&](const std::string& name) {
        return sheet.sheet().range(sheet.address(name));
    };
    // The strength of the liqueur is dragged to the spirit's box: what counts follows the boxes.
    shared_office().call("moving a box", [&] {
        const uno::Reference<sheet::XCellRangeMovement> movement(sheet.sheet().uno(),
                                                                 uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XCellRangeAddressable> from(address("liqueur_strength").uno(),
                                                                uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XCellAddressable> to(sheet["liqueur_spirit"].uno(),
                                                         uno::UNO_QUERY_THROW);
        movement->moveRange(to->getCellAddress(), from->getRangeAddress());
    });
    EXPECT_EQ(sheet["liqueur_spirit_counts"].number(), 25);
    EXPECT_EQ(sheet["liqueur_strength_counts"].text(), "");
    EXPECT_NE(look().find("volume, strength and spirit are all needed"), std::string::npos);
}

} // namespace
} // namespace jarbook::e2e
