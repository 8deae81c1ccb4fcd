// A whole run typed into a fresh run log, cell by cell as a person would, in the locale's own
// decimals; the numbers of every section against the core.
#include <cmath>
#include <gtest/gtest.h>

#include "core/blending/blending.hpp"
#include "core/cuts/cuts.hpp"
#include "core/gauging/alcohol_account.hpp"
#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/scales.hpp"
#include "core/gauging/weighing.hpp"
#include "core/plan/plan.hpp"
#include "core/record/stages_uncertainty.hpp"
#include "core/still/charge_check.hpp"
#include "core/still/cooling_water.hpp"
#include "core/still/equilibrium.hpp"
#include "core/still/forecast.hpp"
#include "core/still/running_time.hpp"
#include "core/still/stages.hpp"
#include "support/support.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

struct TypedLot {
    std::string name, kind;
    double volume, reading, temperature;
};
struct TypedJar {
    std::string clock;
    double amount, reading, temperature;
    std::string cut;
};

const std::vector<TypedLot> typed_lots{{"Low wines", "low wines", 21.5, 27.4, 16.5},
                                       {"Feints", "feints", 4.2, 54.0, 18}};
const std::vector<TypedJar> typed_jars{
    {"10:06", 150, 79.6, 21, "foreshots"}, {"10:14", 500, 79.4, 22, "heads"},
    {"10:27", 750, 79.0, 23, "heads"},     {"10:41", 760, 78.4, 24, "hearts"},
    {"10:55", 750, 77.6, 24.5, "hearts"},  {"11:10", 740, 76.4, 25, "hearts"},
    {"11:25", 750, 75.2, 25.5, "hearts"},  {"11:40", 760, 73.6, 25.5, "hearts"},
    {"11:55", 750, 71.6, 25.5, "hearts"},  {"12:11", 750, 69.2, 25, "hearts"},
    {"12:28", 740, 66.0, 25, "tails"},     {"12:45", 750, 61.8, 25.5, "tails"},
    {"13:04", 750, 55.6, 25, "tails"},     {"13:26", 760, 46.8, 25, "tails"}};
constexpr double wish = 32, stop = 25, foreshots = 0.15, from = 78, to = 66;
constexpr double watts = 2200, start = 16, pressure = 1004, stages = 1.15;
constexpr double bottling = 43, bottle = 350;

// As typed: with the comma where the locale has one.
std::string typed(double number) {
    std::string text = std::to_string(number);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.')
        text.pop_back();
    if (comma_decimal())
        std::replace(text.begin(), text.end(), '.', ',');
    return text;
}

// What the core says of the typed run.
struct Expected {
    Lot lots, charge;
    double water = 0;
    std::vector<Lot> jars; // mL
    std::vector<Cut> cuts;

    Expected() {
        std::vector<Lot> in;
        for (const TypedLot& lot : typed_lots) {
            const double strength = strength_from_reading(lot.reading, lot.temperature);
            in.push_back({volume_at(lot.volume, strength, lot.temperature, 20), strength});
        }
        lots = blend(in);
        water = water_to_add(lots.volume, lots.strength, wish);
        charge = blend({lots, {water, 0}});
        for (const TypedJar& jar : typed_jars) {
            const double strength = strength_from_reading(jar.reading, jar.temperature);
            jars.push_back({volume_at(jar.amount, strength, jar.temperature, 20), strength});
            cuts.push_back(cut_named(jar.cut, "cut"));
        }
    }
    std::vector<Lot> first(std::size_t count) const {
        return {jars.begin(), jars.begin() + static_cast<std::ptrdiff_t>(count)};
    }
    Lot charge_ml() const { return {1000 * charge.volume, charge.strength}; }
    Charge forecast_charge() const { return {charge.volume, charge.strength}; }
    double collected(std::size_t count) const {
        return count == 0 ? 0 : blend_volume(first(count)) / 1000;
    }
    std::vector<CutJar> cut_jars() const {
        std::vector<CutJar> result;
        for (std::size_t i = 0; i < jars.size(); ++i)
            result.push_back({jars[i], cuts[i]});
        return result;
    }
    std::vector<Lot> hearts() const {
        std::vector<Lot> result;
        for (const CutJar& jar : cut_jars())
            if (jar.cut == Cut::hearts)
                result.push_back(jar.jar);
        return result;
    }
};

class RunLog : public testing::Test {
protected:
    RunLog() : document_(open_blank_run_log()), run_(document_, "Run 1") { type_the_run(); }

    void type(const std::string& name, const std::string& text) {
        run_[name].set_formula_local(text);
    }
    void type(const std::string& name, double number) { type(name, typed(number)); }
    // A cell of a column of lots or jars, counted from 0.
    office::Cell row_cell(const std::string& column, std::size_t i) const {
        return run_.in_column(column, i);
    }
    void type(const std::string& column, std::size_t i, const std::string& text) {
        row_cell(column, i).set_formula_local(text);
    }
    std::string check(std::size_t jar) const { return row_cell("jar_check", jar).text(); }

    void type_the_run() {
        type("run_title", "Run 1");
        type("run_date", "2025-11-08");
        type("run_kind", "spirit run");
        type("first_drip", "10:00");
        type("boiler_volume", 60);
        type("watts", watts);
        type("pressure", pressure);
        type("start_temperature", start);
        for (std::size_t i = 0; i < typed_lots.size(); ++i) {
            row_cell("lot_name", i).set_formula_local(typed_lots[i].name);
            row_cell("lot_kind", i).set_formula_local(typed_lots[i].kind);
            row_cell("lot_volume", i).set_formula_local(typed(typed_lots[i].volume));
            row_cell("lot_reading", i).set_formula_local(typed(typed_lots[i].reading));
            row_cell("lot_temperature", i).set_formula_local(typed(typed_lots[i].temperature));
        }
        type("wished_charge", wish);
        type("stop_strength", stop);
        type("foreshots_volume", foreshots);
        type("hearts_from", from);
        type("hearts_to", to);
        for (std::size_t i = 0; i < typed_jars.size(); ++i) {
            row_cell("jar_clock", i).set_formula_local(typed_jars[i].clock);
            row_cell("jar_amount", i).set_formula_local(typed(typed_jars[i].amount));
            row_cell("jar_reading", i).set_formula_local(typed(typed_jars[i].reading));
            row_cell("jar_temperature", i).set_formula_local(typed(typed_jars[i].temperature));
            row_cell("jar_cut", i).set_formula_local(typed_jars[i].cut);
        }
        type("bottling_strength", bottling);
        type("bottle_size", bottle);
        type("bottled_reading", 42.5);
        type("bottled_temperature", 18.5);
        type("residue_measured_volume", 15);
        type("residue_reading", 3.2);
        type("residue_temperature", 24);
    }

    // Tolerances that nobody typed: the usual ones. Half-widths.
    static double common() { return std::hypot(0.5, 0.35 * 0.5); }
    static double charge_tolerance() { return std::hypot(common(), 0.1); }
    static double shift() { return std::sqrt(1 + 4.0 / 3.0 * (common() * common() + 0.1 * 0.1)); }
    // The charge, its alcohol off as by volume and strength in squares.
    Charge more_charge() const {
        const double volume = 0.01, strength = charge_tolerance() / core_.charge.strength;
        const double part = 2 / std::sqrt(3.0) * std::hypot(volume, strength) / (volume + strength);
        return {core_.charge.volume * (1 + part * volume),
                core_.charge.strength * (1 + part * strength)};
    }
    static std::string with_comma(std::string text) {
        if (comma_decimal())
            std::replace(text.begin(), text.end(), '.', ',');
        return text;
    }

    void expect(const std::string& name, double value) { expect_cell(run_[name], name, value); }
    void expect(const std::string& column, int row, double value) {
        expect_cell(run_.at(column, row), column + std::to_string(row), value);
    }
    void expect_jar(const std::string& column, std::size_t jar, double value) {
        expect_cell(row_cell(column, jar), column + " of jar " + std::to_string(jar + 1), value);
    }
    // The same arithmetic in the same order, but for clock times and sums of the sheet's own.
    static void expect_cell(const office::Cell& cell, const std::string& name, double value) {
        EXPECT_NEAR(cell.number(), value, 1e-9 * std::max(1.0, std::fabs(value))) << name;
    }

    office::Document document_;
    NamedSheet run_;
    Expected core_;
    Still still_{stages, pressure};
};

TEST_F(RunLog, Charge) {
    expect("lots_volume", core_.lots.volume);
    expect("lots_strength", core_.lots.strength);
    expect("charge_water", core_.water);
    expect("charge_water_mass", mass_from_volume(core_.water, 0));
    expect("charge_volume", core_.charge.volume);
    expect("charge_strength", core_.charge.strength);
    expect("charge_alcohol", lot_pure_alcohol(core_.charge));
    // Falls below a quarter by the stop; nothing to say; too full.
    for (const double boiler : {60.0, 40.0, 30.0}) {
        type("boiler_volume", boiler);
        std::string cautions =
            charge_cautions(core_.charge.volume, core_.charge.strength, boiler, 40, stop);
        EXPECT_EQ(cautions.empty(), boiler == 40) << boiler;
        std::replace(cautions.begin(), cautions.end(), '\n', ' ');
        EXPECT_EQ(run_["charge_check"].text(), cautions);
        if (!cautions.empty()) {
            EXPECT_TRUE(run_["look"].text().starts_with(cautions)) << "the most dangerous first";
        }
    }
    // A stop that the run never shows takes no caution away.
    type("stop_strength", 90);
    EXPECT_NE(run_["charge_check"].text(), "");
    EXPECT_NE(run_["boxes_check"].text(), "");
}

// A lot of the kind wash takes its strength from the fold, by the most certain way that is filled
// in; its own known strength comes first. Figures of the reference data and of the catalogue's
// examples.
TEST_F(RunLog, AWashByAnyOfThreeWays) {
    type("lot_kind", 0, "wash");
    row_cell("lot_reading", 0).clear();
    const auto strength = [&] { return row_cell("lot_strength", 0).number(); };
    type("pressure", 1013.25);
    type("wash_water_boils", 99.2);
    // 5.01 degC below water, which boils at 100.01 there: 95 degC, 6.40 % vol by the catalogue's
    // example
    type("wash_boils", 99.2 - (boiling_point_c(0, 1013.25) - 95));
    EXPECT_NEAR(strength(), 6.4, 0.001);
    EXPECT_EQ(run_["wash_way"].text(), "What counts: the strength by its boiling point.");
    type("pressure", 950);
    EXPECT_NEAR(strength(), 6.4, 0.1) << "the air pressure falls out but for a little";
    type("wash_original", 1.07);
    type("wash_final", 0.998);
    EXPECT_NEAR(strength(), 9.65, 0.005); // wash_gravity.csv, Balling
    EXPECT_NE(run_["boxes_check"].text().find("more apart than such"), std::string::npos)
        << "9.7 and 6.4";
    row_cell("lot_known", 0).set_formula_local(typed(8.1));
    EXPECT_EQ(strength(), 8.1);
    row_cell("lot_known", 0).clear();
    // 500 mL made up to 250 mL, 16.8 at 18 degC is 17.330 % vol: half of it
    type("wash_sample", 500);
    type("wash_made_up", 250);
    type("wash_reading", 16.8);
    type("wash_temperature", 18);
    EXPECT_NEAR(strength(), 17.330 / 2, 0.001);
    // A correction of the alcoholometer reaches the sample, too.
    type("alcoholometer_correction", 0.5);
    type("wash_reading", 16.3);
    EXPECT_NEAR(strength(), 17.330 / 2, 0.001);
    EXPECT_EQ(errors(run_.sheet().used()), "");
}

TEST_F(RunLog, CorrectionsReachEveryReading) {
    type("alcoholometer_correction", 0.4);
    type("thermometer_correction", -0.3);
    type("alcoholometer_checked", "2026-02-14");
    for (std::size_t i = 0; i < typed_jars.size(); ++i) {
        const double strength =
            strength_from_reading(typed_jars[i].reading + 0.4, typed_jars[i].temperature - 0.3);
        expect_jar("jar_strength", i, strength);
        expect_jar("jar_volume", i,
                   volume_at(typed_jars[i].amount, strength, typed_jars[i].temperature - 0.3, 20));
    }
    expect_cell(
        row_cell("lot_strength", 1), "lot 2",
        strength_from_reading(typed_lots[1].reading + 0.4, typed_lots[1].temperature - 0.3));
    expect("residue_measured_strength", strength_from_reading(3.2 + 0.4, 24 - 0.3));
    expect("bottled_strength", strength_from_reading(42.5 + 0.4, 18.5 - 0.3));
    const std::string head = run_.at("F", run_.row("first_drip") - 2).text();
    EXPECT_NE(head.find("(checked 2026-02-14)"), std::string::npos) << head;
    EXPECT_NE(head.find(comma_decimal() ? "+0,40 % vol" : "+0.40 % vol"), std::string::npos)
        << head;
}

// Heat and water against the core; the heat that reached the boiler from clocks that a known power
// would have made.
TEST_F(RunLog, HeatAndWater) {
    const Charge charge = core_.forecast_charge();
    expect("cooling_water", cooling_water(charge, stop, 30, 20, still_));
    type("cooling_rise", 12);
    expect("cooling_water", cooling_water(charge, stop, 12, 20, still_));
    const double hours = heatup_hours(charge.volume, charge.strength, start, 1800);
    const int minutes = static_cast<int>(std::lround(60 * hours));
    type("heat_on", "8:00");
    type("first_drip",
         std::to_string(8 + minutes / 60) + ":" + std::to_string(100 + minutes % 60).substr(1));
    expect("heat_heating", 1800 * 60 * hours / minutes);
    type("first_drip", "10:00");
    // To the last jar at 13:26, along the curve with the stages that the jars tell
    const Still fitted{run_["fitted_stages"].number(), pressure};
    const double collected = core_.collected(typed_jars.size());
    const double ran =
        run_hours(charge, forecast_strength(charge, collected, fitted), 1000, fitted);
    expect("heat_running", 1000 * ran / (206.0 / 60));
    row_cell("jar_clock", typed_jars.size() - 1).clear();
    EXPECT_EQ(run_["heat_running"].text(), "") << "without the last clock";
}

TEST_F(RunLog, Forecast) {
    const Charge charge = core_.forecast_charge();
    expect("first_strength", forecast_strength(charge, 0, still_));
    expect("first_boiling", boiling_point_c(charge.strength, pressure));
    expect("heating_hours", heatup_hours(charge.volume, charge.strength, start, watts));
    expect("running_hours", run_hours(charge, stop, watts, still_));
    const int row = run_.row("first_strength") - 7;
    const double first = forecast_strength(charge, 0, still_);
    const double after_foreshots = forecast_strength(charge, foreshots, still_);
    const double limits[]{first, after_foreshots, from, to, stop};
    for (int cut = 0; cut < 4; ++cut) {
        expect("C", row + cut, limits[cut]);
        expect("D", row + cut, limits[cut + 1]);
        expect("E", row + cut,
               cut == 0 ? foreshots
                        : forecast_volume(charge, limits[cut + 1], still_) -
                              forecast_volume(charge, limits[cut], still_));
        const double alcohol = forecast_alcohol(charge, limits[cut], limits[cut + 1], still_);
        expect("F", row + cut, alcohol);
        expect("G", row + cut, alcohol / lot_pure_alcohol(core_.charge));
        const double hours = run_hours(charge, limits[cut + 1], watts, still_) -
                             (cut == 0 ? 0 : run_hours(charge, limits[cut], watts, still_));
        expect("H", row + cut, hours / 24);
    }
    expect("E", row + 4, forecast_volume(charge, stop, still_));
    expect("energy", (heatup_hours(charge.volume, charge.strength, start, watts) +
                      run_hours(charge, stop, watts, still_)) *
                         watts / 1000);
    // Beside the page, for the chart: the curve, the same with the fewest and the most likely
    // stages.
    const int curve = run_.row("run_kind"), rows = 25;
    const auto table = forecast_table(charge, stop, rows, still_);
    for (int i = 0; i < rows; ++i) {
        const ForecastRow& expected = table[static_cast<std::size_t>(i)];
        expect("Z", curve + i, expected.collected);
        expect("AA", curve + i, expected.strength);
        expect("AB", curve + i, expected.mean_strength);
        expect("AC", curve + i, expected.alcohol);
        expect("AD", curve + i, expected.boiler_strength);
        expect("AE", curve + i, expected.boiler_temperature_c);
        // The farther of the fewest and the most stages that are likely, the charge, and model with
        // instrument, in squares.
        const double least = forecast_strength(charge, expected.collected, {1.0, pressure});
        const double most = forecast_strength(charge, expected.collected, {1.4, pressure});
        const double stronger = forecast_strength(more_charge(), expected.collected, still_);
        const auto off = [&](double end) {
            const double here = expected.strength;
            return std::sqrt((end - here) * (end - here) + (stronger - here) * (stronger - here) +
                             shift() * shift());
        };
        expect("AF", curve + i, expected.strength - off(std::min(least, most)));
        expect("AG", curve + i, expected.strength + off(std::max(least, most)));
    }
    // How far hearts and all of it may be off.
    const auto within = [&](double value, const auto& figure, double by_model) {
        const double stages_part = std::max(std::fabs(figure(charge, 1.0) - value),
                                            std::fabs(figure(charge, 1.4) - value));
        const double charge_part = figure(more_charge(), stages) - value;
        return std::sqrt(stages_part * stages_part + charge_part * charge_part +
                         (by_model - value) * (by_model - value));
    };
    const auto litres = [&](const Charge& of, double limit, double n) {
        const Still still{n, pressure};
        return limit >= forecast_strength(of, 0, still) ? 0.0 : forecast_volume(of, limit, still);
    };
    const auto hearts = [&](const Charge& of, double n) {
        return litres(of, to, n) - litres(of, from, n);
    };
    expect("hearts_volume_range",
           within(hearts(charge, stages), hearts,
                  litres(charge, to - shift(), stages) - litres(charge, from - shift(), stages)));
    const auto all = [&](const Charge& of, double n) { return litres(of, stop, n); };
    expect("run_volume_range",
           within(all(charge, stages), all, litres(charge, stop - shift(), stages)));
    const auto alcohol = [&](const Charge& of, double n) {
        return forecast_alcohol(of, 100, stop, {n, pressure});
    };
    expect("run_alcohol_range", within(alcohol(charge, stages), alcohol,
                                       forecast_alcohol(charge, 100, stop - shift(), still_) +
                                           shift() / 100 * all(charge, stages)));
    const auto at_first = [&](const Charge& of, double n) {
        return forecast_strength(of, 0, {n, pressure});
    };
    expect("first_strength_range", within(first, at_first, first + shift()));
    EXPECT_EQ(run_["forecast_basis"].text().find("usual for pots"),
              with_comma("Stages 1.15 (1.00 to 1.40; ").size())
        << run_["forecast_basis"].text();
}

TEST_F(RunLog, Jars) {
    for (std::size_t i = 0; i < core_.jars.size(); ++i) {
        SCOPED_TRACE(i + 1);
        const auto so_far = core_.first(i + 1);
        expect_jar("jar_strength", i, core_.jars[i].strength);
        expect_jar("jar_volume", i, core_.jars[i].volume);
        expect_jar("jar_alcohol", i, lot_pure_alcohol(core_.jars[i]));
        expect_jar("jar_collected", i, core_.collected(i + 1));
        expect_jar("jar_alcohol_sum", i, pure_alcohol(so_far) / 1000);
        expect_jar("jar_boiler", i, residue_strength(core_.charge_ml(), so_far));
        const double middle = (core_.collected(i) + core_.collected(i + 1)) / 2;
        const double forecast = forecast_strength(core_.forecast_charge(), middle, still_);
        expect_jar("jar_expected", i, forecast);
        expect_jar("jar_difference", i, core_.jars[i].strength - forecast);
        EXPECT_EQ(check(i), "");
    }
    const auto suggested = cuts_of_run(core_.jars, 1000 * foreshots, from, to);
    for (std::size_t i = 0; i < suggested.size(); ++i)
        EXPECT_EQ(row_cell("jar_suggested", i).text(), cut_word(suggested[i])) << i + 1;
    EXPECT_EQ(run_["jars_check"].text(), "");
    EXPECT_EQ(run_["cuts_check"].text(), "");
}

TEST_F(RunLog, RunInProgress) {
    const Charge charge = core_.forecast_charge();
    const double fitted =
        fitted_stages({1000 * charge.volume, charge.strength}, core_.jars, pressure);
    expect("fitted_stages", fitted);
    // What was likely before and what the jars say, each by its own uncertainty.
    const double doubt = stages_uncertainty({1000 * charge.volume, charge.strength}, core_.jars,
                                            common(), charge_tolerance(), pressure);
    expect("stages_uncertainty", doubt);
    const double before = 0.1; // a quarter of 1.0 to 1.4
    ASSERT_LT(std::fabs(fitted - stages), 2 * std::hypot(doubt, before));
    const double jars = 1 / (doubt * doubt), prior = 1 / (before * before);
    const double together = (fitted * jars + stages * prior) / (jars + prior);
    expect("come_stages", together);
    expect("come_stages_range", 2 / std::sqrt(jars + prior));
    const Still still{together, pressure};
    const double so_far = core_.collected(core_.jars.size());
    const double now = forecast_strength(charge, so_far, still);
    ASSERT_GT(now, stop);
    ASSERT_LT(now, to);
    expect("come_hearts_volume", 0);
    expect("come_stop_volume", forecast_volume(charge, stop, still) - so_far);
    expect("come_stop_alcohol", forecast_alcohol(charge, now, stop, still));
    // With the heat that the clocks tell of (HeatAndWater), not with what was typed.
    const double heat = run_["heat_running"].number();
    ASSERT_GT(std::fabs(heat - watts), 10);
    expect("come_watts", heat);
    expect("come_stop_hours",
           run_hours(charge, stop, heat, still) - run_hours(charge, now, heat, still));
    // Two jars tell nothing yet.
    for (std::size_t i = 2; i < core_.jars.size(); ++i)
        row_cell("jar_amount", i).clear();
    expect("come_watts", watts);
}

TEST_F(RunLog, Cuts) {
    const auto table = cut_table(core_.cut_jars());
    const int row = run_.row("cut_foreshots_share");
    for (int i = 0; i < 5; ++i) {
        const CutFigures& cut = table[static_cast<std::size_t>(i)];
        expect("C", row + i, cut.volume / 1000);
        expect("D", row + i, *cut.strength);
        expect("E", row + i, cut.alcohol / 1000);
        if (i < 4)
            expect("F", row + i, *cut.share);
    }
}

TEST_F(RunLog, BlendAndBottle) {
    const Lot kept = blend(core_.hearts());
    const double litres = kept.volume / 1000;
    const double water = water_to_add(litres, kept.strength, bottling);
    const Lot product = blend({{litres, kept.strength}, {water, 0}});
    expect("kept_volume", litres);
    expect("kept_strength", kept.strength);
    expect("product_water", water);
    expect("product_water_mass", mass_from_volume(water, 0));
    expect("product_volume", product.volume);
    expect("product_strength", product.strength);
    expect("bottles", std::floor(1000 * product.volume / bottle));
    expect("bottled_strength", strength_from_reading(42.5, 18.5));
    expect("bottled_uncertainty", reading_uncertainty(42.5, 18.5, 0.5, 0.5));
    expect("aim_reading", reading_from_strength(bottling, 18.5));
    // JCGM 106:2012, clause 7: normal about what was measured, standard uncertainty half of k = 2
    const double measured = strength_from_reading(42.5, 18.5);
    const double u = reading_uncertainty(42.5, 18.5, 0.5, 0.5) / 2;
    const auto below = [&](double limit) {
        return 0.5 * std::erfc((measured - limit) / u / std::sqrt(2));
    };
    expect("label_chance", below(bottling + 0.3) - below(bottling - 0.3));
    expect("bottle_mass", mass_from_volume(bottle, bottling));
    expect("bottle_filled", volume_at(bottle, bottling, 20, 18.5));
    // Half a degree of temperature alone leaves too much open.
    const auto never = "A better alcoholometer alone cannot decide";
    EXPECT_TRUE(run_["label_verdict"].text().starts_with(never)) << run_["label_verdict"].text();
    // With a better thermometer a better alcoholometer could, and it is said how good.
    type("temperature_tolerance", 0.2);
    const std::string verdict = run_["label_verdict"].text();
    ASSERT_TRUE(verdict.starts_with("These instruments cannot decide")) << verdict;
    std::string figure = verdict.substr(verdict.find("±") + std::string("±").size(), 4);
    std::replace(figure.begin(), figure.end(), ',', '.');
    const double off = std::fabs(strength_from_reading(42.5, 18.5) - bottling);
    const double needed = std::stod(figure);
    EXPECT_LE(off + reading_uncertainty(42.5, 18.5, needed, 0.2), 0.3) << verdict;
    EXPECT_GT(off + reading_uncertainty(42.5, 18.5, needed + 0.01, 0.2), 0.3) << verdict;
    type("bottled_reading", 42.8); // 43.4 % vol
    EXPECT_TRUE(run_["label_verdict"].text().starts_with(never));
}

TEST_F(RunLog, LabelsChance) {
    // Chance to be within 40 +- 0.3, form of JCGM 106:2012 clause 7 (computed): measured 40.0 with
    // a standard uncertainty of 0.10: 0.9973, 0.15: 0.9545; 40.1 with 0.10: 0.9772; 40.2: 0.8413.
    type("bottling_strength", 40);
    type("bottled_temperature", 20);
    type("temperature_tolerance", 0.2);
    struct Case {
        double measured, u, chance;
    };
    for (const Case c :
         {Case{40, 0.10, 0.9973}, {40, 0.15, 0.9545}, {40.1, 0.10, 0.9772}, {40.2, 0.10, 0.8413}}) {
        type("bottled_reading", c.measured);
        // The alcoholometer's tolerance that leaves just that uncertainty
        double low = 0.01, high = 1;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            (reading_uncertainty(c.measured, 20, middle, 0.2) / 2 < c.u ? low : high) = middle;
        }
        type("reading_tolerance", low);
        EXPECT_NEAR(run_["bottled_uncertainty"].number(), 2 * c.u, 1e-6); // typed in six digits
        EXPECT_NEAR(run_["label_chance"].number(), c.chance, 5e-5) << c.measured << ", " << c.u;
    }
}

TEST_F(RunLog, Duty) {
    type("duty_rate", 13.5);
    const double volume = run_["product_volume"].number();
    const double strength = run_["product_strength"].number();
    expect("duty_base", volume * strength / 100);
    expect("duty", 13.5 * volume * strength / 100);
    run_["duty_unit"].set_text("hL pure alcohol");
    expect("duty_base", volume * strength / 1e4);
    // 27 CFR 30.11: a proof gallon is a gallon (231 cubic inches, 60 °F) of 100 proof.
    run_["duty_unit"].set_text("proof gallon");
    const double gallons = volume_at(volume, strength, 20, 140.0 / 9) / 3.785411784;
    const double proof = convert_strength(strength, "%vol", "proof");
    expect("duty_base", gallons * proof / 100);
    run_["duty_unit"].set_text("barrel");
    EXPECT_EQ(run_["duty"].text(), "");
    EXPECT_NE(run_["boxes_check"].text(), "");
}

TEST_F(RunLog, PlannedBlend) {
    type("wished_volume", 5);
    type("jar_keep", 5, "3"); // the middle of the hearts is preferred
    std::vector<PlanJar> jars;
    for (std::size_t i = 0; i < core_.jars.size(); ++i)
        jars.push_back({core_.jars[i], i == 5 ? 3.0 : core_.cuts[i] == Cut::hearts ? 1.0 : 0.0});
    const BlendPlan plan = plan_divided(jars, {5000, bottling});
    for (std::size_t i = 0; i < jars.size(); ++i)
        expect_jar("jar_take", i, plan.volumes[i]);
    expect("product_water", plan.water / 1000);
    expect("product_volume", 5);
    expect("product_strength", bottling);
}

TEST_F(RunLog, Balance) {
    const double charged = lot_pure_alcohol(core_.charge);
    const double product = pure_alcohol(core_.hearts()) / 1000;
    const double thrown = lot_pure_alcohol(core_.jars[0]) / 1000;
    const double feints = pure_alcohol(core_.jars) / 1000 - product - thrown;
    const double left = strength_from_reading(3.2, 24);
    const double residue = volume_at(15, left, 24, 20) * left / 100;
    expect("balance_charged", charged);
    expect("balance_product", product);
    expect("balance_foreshots", thrown);
    expect("balance_feints", feints);
    expect("balance_residue", residue);
    const double unaccounted = charged - product - thrown - feints - residue;
    expect("balance_unaccounted", unaccounted);

    // One alcoholometer and one thermometer for all of it: their effects on the difference are
    // subtracted; the vessels differ and readings scatter: these add in squares.
    const BalanceTolerances tolerances{0.5, 0.5, 0, 0.1, 0};
    std::vector<BalanceEntry> lots, jars;
    for (const TypedLot& lot : typed_lots)
        lots.push_back({lot.volume, lot.reading, lot.temperature, 0.01 * lot.volume});
    for (const TypedJar& jar : typed_jars) // in litres
        jars.push_back({jar.amount / 1000, jar.reading, jar.temperature, 0.01 * jar.amount / 1000});
    const AlcoholBudget in = alcohol_budget(lots, tolerances, false);
    const AlcoholBudget out = alcohol_budget(jars, tolerances, false);
    const AlcoholBudget rest = alcohol_budget({{15, 3.2, 24, 0.15}}, tolerances, false);
    double squares = 0;
    for (const AlcoholBudget& budget : {in, out, rest})
        squares += budget.measure * budget.measure + budget.scatter * budget.scatter;
    for (const double difference : {in.alcoholometer - out.alcoholometer - rest.alcoholometer,
                                    in.thermometer - out.thermometer - rest.thermometer,
                                    in.formula - out.formula - rest.formula})
        squares += difference * difference;
    expect("balance_uncertainty", std::sqrt(squares));
    ASSERT_GT(unaccounted, std::sqrt(squares));
    EXPECT_EQ(run_["balance_verdict"].text(), "More is missing than the instruments explain.");
    type("residue_measured_volume", "");
    EXPECT_TRUE(run_["balance_verdict"].text().starts_with("Measure the residue"));
}

TEST_F(RunLog, InShortAndRuns) {
    expect("sum_recovery", recovery(core_.charge_ml(), core_.jars));
    expect("sum_hours", 3.0 + 26.0 / 60.0);
    expect("sum_collected_alcohol", pure_alcohol(core_.jars) / 1000);
    const NamedSheet book(document_, "Runs");
    const auto row = book.sheet().range(book.address("register")).values().front();
    EXPECT_EQ(describe(row[0]), "\"Run 1\"");
    EXPECT_EQ(row[11], run_["sum_recovery"].value());
    EXPECT_EQ(row[16], run_["fitted_stages"].value());
}

TEST_F(RunLog, ClocksPastMidnight) {
    // From 22:00, a jar each 50 minutes.
    type("first_drip", "22:00");
    const std::size_t last = typed_jars.size() - 1;
    for (std::size_t jar = 0; jar <= last; ++jar) {
        const int minutes = (22 * 60 + 50 * (static_cast<int>(jar) + 1)) % 1440;
        char clock[16];
        std::snprintf(clock, sizeof clock, "%d:%02d", minutes / 60, minutes % 60);
        type("jar_clock", jar, clock);
    }
    expect("sum_hours", 50.0 * static_cast<double>(last + 1) / 60.0);
    EXPECT_EQ(check(last), "");
    // A clock left out changes nothing.
    type("jar_clock", 3, "");
    expect("sum_hours", 50.0 * static_cast<double>(last + 1) / 60.0);
    // A run of more than a day: two jars nine hours apart each.
    type("jar_clock", last - 1, "18:00");
    type("jar_clock", last, "3:00");
    const int third_last = 22 * 60 + 50 * (static_cast<int>(last) - 1);
    expect("sum_hours", (third_last + (18 * 60 - third_last % 1440) + 9 * 60 - 22 * 60) / 60.0);
    // A jar before the one above it is queried, and so is one before the first drip.
    type("jar_clock", last, "17:50");
    EXPECT_EQ(check(last), "clock goes back?");
    type("jar_clock", last, "");
    type("jar_clock", 0, "21:50");
    EXPECT_EQ(check(0), "clock goes back?");
    row_cell("jar_clock", 0).set_text("ten");
    EXPECT_EQ(check(0), "\"ten\" is no clock time: type it as 10:30");
    EXPECT_EQ(run_["sum_hours"].text(), "");
}

TEST_F(RunLog, MassesInsteadOfVolumes) {
    type("jar_unit", "g");
    for (std::size_t i = 0; i < core_.jars.size(); ++i) {
        const double strength = core_.jars[i].strength;
        expect_jar("jar_volume", i, volume_from_mass(typed_jars[i].amount, strength));
    }
}

TEST_F(RunLog, WhatIsMissingIsSaidAndWaitedFor) {
    type("jar_temperature", 4, "");
    EXPECT_EQ(check(4), "temperature missing");
    EXPECT_NE(run_["jars_check"].text(), "");
    EXPECT_EQ(run_["sum_recovery"].text(), "");
    EXPECT_EQ(run_["balance_unaccounted"].text(), "");
    EXPECT_EQ(row_cell("jar_alcohol_sum", 6).text(), "");
    EXPECT_EQ(errors(run_.sheet().used()), "");
    type("jar_temperature", 4, typed(24.5));
    type("jar_cut", 4, "");
    EXPECT_NE(run_["cuts_check"].text(), "");
    EXPECT_EQ(run_["cut_hearts_share"].text(), "");
    EXPECT_EQ(errors(run_.sheet().used()), "");
}

} // namespace
} // namespace jarbook::e2e
