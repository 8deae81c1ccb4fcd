// The sheet Season plan: its figures against an independent iteration and against the core, wrong
// boxes named in words, inputs read by their place, the still's stages from Runs.
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <sstream>

#include "core/blending/blending.hpp"
#include "core/still/forecast.hpp"
#include "core/still/running_time.hpp"
#include "support/support.hpp"
#include "text.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using office::Document;

constexpr const char* sheet_name = "Season plan";
constexpr int rows = 20;

class SeasonPlan : public testing::Test {
protected:
    Document example = open_worked_example();
    NamedSheet plan{example, sheet_name};

    // Row `run` (from 1) of a column of the table.
    office::Cell cycle(const std::string& column, int run) const {
        return plan.sheet().range(plan.address("cycle_" + column)).cell(0, run - 1);
    }
    void type_stages() const {
        plan["stages"].set_number(1.19);
        plan["stages_low"].set_number(1.15);
        plan["stages_high"].set_number(1.21);
    }
    std::string look() const { return plan["season_look"].text(); }
    std::string wrong_cells() const { return errors(plan.sheet().used()); }
};

// What the sheet calls hours stands there as a share of a day, which its format shows as h:mm.
double in_its_unit(const std::string& what, double value) {
    return what == "hours" ? 24 * value : value;
}

TEST_F(SeasonPlan, EqualsAnIndependentIteration) {
    type_stages();
    std::ifstream file(JARBOOK_SEASON_EXPECTED);
    ASSERT_TRUE(file);
    std::string line;
    std::getline(file, line);
    ASSERT_EQ(line, "what,run,value");
    int compared = 0;
    int runs = 0;
    while (std::getline(file, line)) {
        std::istringstream words(line);
        std::string what, run, value;
        std::getline(words, what, ',');
        std::getline(words, run, ',');
        std::getline(words, value);
        const double expected = std::stod(value);
        runs = std::max(runs, std::stoi(run));
        const bool account = what.starts_with("account_");
        const double shown = run == "0" ? plan[account ? what : "season_" + what].number()
                                        : cycle(what, std::stoi(run)).number();
        // Nine digits are in the file; the iteration's own quadrature of heat is good to 1e-6.
        EXPECT_NEAR(in_its_unit(what, shown), expected, 2e-6 * std::fabs(expected) + 1e-7) << line;
        ++compared;
    }
    EXPECT_GE(runs, 5);
    EXPECT_EQ(compared, 15 * runs + 4 + 7 + 1 + 3 + 9);
    EXPECT_EQ(plan["season_spirit_runs"].number(), runs);
    EXPECT_EQ(cycle("charge", runs + 1).text(), "");
}

TEST_F(SeasonPlan, EqualsTheCoresCalls) {
    type_stages();
    const Still still{.stages = 1.19};
    const Charge strip{90, 7.8};
    const Lot low_wines{24 * forecast_volume(strip, 5, still),
                        100 * forecast_alcohol(strip, 100, 5, still) /
                            forecast_volume(strip, 5, still)};
    const Lot pool = blend({low_wines, {24, 27.5}});
    EXPECT_NEAR(plan["season_pool_volume"].number(), pool.volume, 1e-9 * pool.volume);
    EXPECT_NEAR(plan["season_pool_strength"].number(), pool.strength, 1e-8);
    const Charge first{90, pool.strength};
    EXPECT_NEAR(cycle("first_strength", 1).number(), forecast_strength(first, 0, still), 1e-7);
    const double cut = forecast_strength(first, 0.45, still);
    EXPECT_NEAR(cycle("heads", 1).number(), forecast_alcohol(first, cut, 79, still), 1e-7);
    EXPECT_NEAR(cycle("hearts", 1).number(), forecast_alcohol(first, 79, 64, still), 1e-7);
    EXPECT_NEAR(cycle("tails", 1).number(), forecast_alcohol(first, 64, 20, still), 1e-7);
    const double kwh =
        heatup_hours(90, pool.strength, 20, 1000) + run_hours(first, 20, 1000, still);
    EXPECT_NEAR(cycle("energy", 1).number(), kwh, 1e-7 * kwh);
    // Where to stop: a litre more between 10 and 8 % vol costs the heat between them.
    const office::Range stops = plan.sheet().range(plan.address("where_to_stop"));
    for (int row = 1; row < stops.rows(); ++row) {
        const double above = stops.cell(0, row - 1).number();
        const double stop = stops.cell(0, row).number();
        const double litres = forecast_alcohol(strip, above, stop, still);
        const double heat =
            run_hours(strip, stop, 1000, still) - run_hours(strip, above, 1000, still);
        EXPECT_NEAR(stops.cell(6, row).number(), heat / litres, 1e-5 * heat / litres) << stop;
    }
}

TEST_F(SeasonPlan, AccountClosesAndTheFeintsComeToRest) {
    plan["wash_volume"].set_number(5000);
    EXPECT_NEAR(plan["account_closes"].number(), 0, 1e-6);
    const int runs = static_cast<int>(plan["season_spirit_runs"].number());
    ASSERT_GE(runs, 12);
    // A/(1 - f) is what a charge holds once the feints are at rest.
    double charge =
        cycle("charge", runs - 1).number() * cycle("charge_strength", runs - 1).number() / 100;
    EXPECT_NEAR(plan["season_limit"].number(), charge, 1e-4 * charge);
    EXPECT_NEAR(cycle("feints_out", runs - 1).number(), cycle("feints_out", runs - 2).number(),
                1e-3);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, MoreRunsThanRowsAreSaid) {
    plan["wash_volume"].set_number(20000);
    EXPECT_EQ(plan["season_spirit_runs"].number(), rows);
    EXPECT_NE(look().find("More than 20 spirit runs"), std::string::npos) << look();
    EXPECT_GT(plan["account_low_left"].number(), 100);
    EXPECT_NEAR(plan["account_closes"].number(), 0, 1e-6);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, StagesComeFromTheRunsOfTheStill) {
    const NamedSheet runs(example, "Runs");
    const auto shown = runs.sheet().range(runs.address("register")).values();
    // Date, still, state, stages: as the sheet Runs has them (sheets/runs.py).
    std::map<double, double, std::greater<>> found;
    for (const auto& row : shown) {
        const auto* still = std::get_if<std::string>(&row[3]);
        const auto* stages = std::get_if<double>(&row[16]);
        if (still && *still == plan["still_name"].text() && stages &&
            std::get<std::string>(row[5]) == "finished")
            found[std::get<double>(row[1])] = *stages;
    }
    ASSERT_GE(found.size(), 3u);
    double sum = 0, least = 99, most = 0;
    auto latest = found.begin();
    for (int i = 0; i < 3; ++i, ++latest) {
        sum += latest->second;
        least = std::min(least, latest->second);
        most = std::max(most, latest->second);
    }
    EXPECT_NEAR(plan["stages_counts"].number(), sum / 3, 1e-12);
    EXPECT_EQ(plan["stages_low_counts"].number(), least);
    EXPECT_EQ(plan["stages_high_counts"].number(), most);
    // A run added above the closing row counts, as the menu adds it.
    shared_office().call("adding a row to Runs", [&] {
        const uno::Reference<util::XProtectable> protection(runs.sheet().uno(),
                                                            uno::UNO_QUERY_THROW);
        protection->unprotect({});
        const uno::Reference<table::XColumnRowRange> sheet(runs.sheet().uno(),
                                                           uno::UNO_QUERY_THROW);
        sheet->getRows()->insertByIndex(runs.row("register_end") - 1, 1);
    });
    const int row = runs.row("register_end"); // as it was: the new row
    runs.at("B", row).set_number(60000);
    runs.at("D", row).set_text(plan["still_name"].text());
    runs.at("F", row).set_text("finished");
    runs.at("Q", row).set_number(1.3);
    EXPECT_EQ(plan["stages_high_counts"].number(), 1.3);
    runs.at("Q", row).clear();
    EXPECT_EQ(plan["stages_high_counts"].number(), most);
    // Renaming run sheets changes nothing; a still that has no run is said.
    const std::string before = plan["season_hearts_volume"].text();
    shared_office().call("renaming a sheet", [&] {
        const uno::Reference<container::XNamed> sheet(example.sheet("Run 4").uno(),
                                                      uno::UNO_QUERY_THROW);
        sheet->setName("Low wines, pear");
    });
    example.hard_recalculate();
    EXPECT_EQ(plan["season_hearts_volume"].text(), before);
    plan["still_name"].set_text("a new still");
    EXPECT_EQ(plan["stages_counts"].number(), 1.15);
    EXPECT_EQ(plan["still_name_words"].text(), "not in Runs: stages 1.15");
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, WrongBoxesAreNamed) {
    ASSERT_EQ(wrong_cells(), "");
    const std::vector<std::string> boxes{"bottles_wanted",
                                         "bottle_size",
                                         "bottling_strength",
                                         "wash_volume",
                                         "wash_strength",
                                         "low_volume",
                                         "low_strength",
                                         "feints_volume",
                                         "feints_strength",
                                         "strength_error",
                                         "boiler_volume",
                                         "watts",
                                         "fill",
                                         "stages",
                                         "stages_low",
                                         "stages_high",
                                         "start_temperature",
                                         "strip_stop",
                                         "charge_limit",
                                         "foreshots",
                                         "heads_return",
                                         "hearts_from",
                                         "hearts_to",
                                         "spirit_stop",
                                         "tails_return",
                                         "cooling_rise",
                                         "metal"};
    for (const std::string& name : boxes) {
        const std::string held = plan[name].formula();
        const std::string unit = plan[name + "_words"].text();
        const auto expect_named = [&](const std::string& what) {
            EXPECT_EQ(plan[name + "_counts"].text(), "") << name;
            EXPECT_NE(plan[name + "_words"].text().find(what), std::string::npos)
                << name << ": " << plan[name + "_words"].text();
            EXPECT_EQ(wrong_cells(), "") << name << " with " << what;
            EXPECT_NE(look().find(what), std::string::npos) << look();
        };
        plan[name].set_text("much");
        expect_named("'much' is text: type the number alone");
        const std::string slip = comma_decimal() ? "31.5" : "31,5";
        plan[name].set_text(slip);
        expect_named("'" + slip + "' is text: type " + (comma_decimal() ? "31,5" : "31.5"));
        plan[name].set_number(-1);
        expect_named("-1 is not from");
        if (name != "watts") { // the only one whose range holds what Calc counts as dates
            plan[name].set_number(46270);
            expect_named("this is a date");
        }
        plan[name].set_formula("=1/0");
        EXPECT_EQ(plan[name + "_words"].text(), "an error: clear the box") << name;
        plan[name].set_formula(held);
        EXPECT_EQ(plan[name + "_words"].text(), unit);
    }
    for (const char* name :
         {"bottling_strength", "wash_strength", "low_strength", "feints_strength", "fill",
          "strip_stop", "charge_limit", "heads_return", "hearts_from", "hearts_to", "spirit_stop",
          "tails_return"}) {
        const std::string held = plan[name].formula();
        plan[name].set_number(0.4);
        const std::string point = comma_decimal() ? "0,4" : "0.4";
        EXPECT_EQ(plan[name + std::string("_words")].text(), point + ": for 40 % type 40") << name;
        EXPECT_EQ(plan[name + std::string("_counts")].text(), "") << name;
        EXPECT_EQ(wrong_cells(), "") << name;
        plan[name].set_formula(held);
    }
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, WhatDoesNotGoTogetherIsSaid) {
    const auto expect_said = [&](const std::string& words) {
        EXPECT_NE(look().find(words), std::string::npos) << look();
        EXPECT_EQ(plan["season_bottles_likely"].text(), "");
        EXPECT_EQ(wrong_cells(), "");
    };
    plan["low_strength"].clear();
    expect_said("Low wines on hand: volume and strength are both needed.");
    plan["low_strength"].set_number(27.5);
    plan["hearts_to"].set_number(80);
    expect_said("each must be below the one before");
    plan["hearts_to"].set_number(64);
    plan["stages_low"].set_number(1.5);
    expect_said("not from 1");
    plan["stages_low"].clear();
    plan["strip_stop"].set_number(50);
    expect_said("A plain pot begins to strip this wash at 4");
    plan["strip_stop"].clear();
    EXPECT_GT(plan["season_bottles_likely"].number(), 0);
    // Allowed, but the bottles cannot be filled
    plan["bottling_strength"].set_number(90);
    EXPECT_NE(look().find("weaker than the bottling strength"), std::string::npos) << look();
    EXPECT_EQ(plan["season_bottles_likely"].number(), 0);
    EXPECT_EQ(plan["season_water"].text(), "");
    plan["bottling_strength"].set_number(42);
    plan["hearts_from"].set_number(95);
    plan["hearts_to"].set_number(90);
    EXPECT_NE(look().find("no hearts"), std::string::npos) << look();
    EXPECT_EQ(plan["season_bottles_possible"].number(), 0);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, BoxesAreReadByTheirPlace) {
    const double before = plan["season_hearts_volume"].number();
    shared_office().call("cutting and pasting a box", [&] {
        const uno::Reference<util::XProtectable> protection(plan.sheet().uno(),
                                                            uno::UNO_QUERY_THROW);
        protection->unprotect({});
        const uno::Reference<sheet::XCellRangeMovement> sheet(plan.sheet().uno(),
                                                              uno::UNO_QUERY_THROW);
        const auto box = [&](const char* name) {
            return uno::Reference<sheet::XCellAddressable>(plan[name].uno(), uno::UNO_QUERY_THROW)
                ->getCellAddress();
        };
        const table::CellAddress from = box("low_volume");
        sheet->moveRange(box("feints_volume"),
                         {from.Sheet, from.Column, from.Row, from.Column, from.Row});
        const table::CellAddress strength = box("low_strength");
        sheet->moveRange(box("feints_strength"), {strength.Sheet, strength.Column, strength.Row,
                                                  strength.Column, strength.Row});
    });
    // 24 L at 27.5 % vol now stand as feints, and count as such: the pool is the same.
    const NamedSheet moved(example, sheet_name);
    EXPECT_EQ(moved["low_volume_counts"].text(), "");
    EXPECT_EQ(moved["feints_volume_counts"].number(), 24);
    EXPECT_EQ(moved["feints_strength_counts"].number(), 27.5);
    EXPECT_NEAR(moved["season_hearts_volume"].number(), before, 1e-9 * before);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SeasonPlan, BlankIsCalm) {
    const Document blank = open_blank_run_log();
    const NamedSheet sheet(blank, sheet_name);
    EXPECT_EQ(errors(sheet.sheet().used()), "");
    EXPECT_TRUE(sheet["season_look"].text().starts_with("Fill in the boxes"));
    for (const auto& [name, address] : local_names(sheet.sheet()))
        if ((name.starts_with("season_") || name.starts_with("account_") ||
             name.starts_with("cycle_")) &&
            !name.starts_with("season_look")) {
            for (const auto& row : contents(sheet.sheet().range(address)))
                EXPECT_EQ(std::get<std::string>(row[0]), "") << name;
        }
    // The five boxes with thick frames are enough.
    for (const auto& [name, value] : std::map<std::string, double>{{"bottles_wanted", 10},
                                                                   {"wash_volume", 60},
                                                                   {"wash_strength", 7},
                                                                   {"boiler_volume", 12},
                                                                   {"watts", 1500}})
        sheet[name].set_number(value);
    EXPECT_GT(sheet["season_bottles_likely"].number(), 2);
    EXPECT_EQ(errors(sheet.sheet().used()), "");
}

} // namespace
} // namespace jarbook::e2e
