// The sheet Side by side: its figures and curves against the run sheets, its uncertainties against
// slopes by differences, and what a person does to the runs that are chosen.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <unistd.h>

#include "run_log/run_log_support.hpp"
#include "runs/register.hpp"
#include "support/support.hpp"
#include "text.hpp"

namespace jarbook::e2e {
namespace {

const std::vector<std::string> quantities{
    "charge_volume", "charge_strength", "charge_alcohol", "stages", "hours",
    "foreshots",     "heads",           "hearts",         "tails",  "recovery"};
const std::vector<std::string> cuts{"foreshots", "heads", "hearts", "tails"};

struct Jar {
    double alcohol; // L
    double strength;
    std::string cut;
};

std::vector<Jar> jars_of(const NamedSheet& run) {
    std::vector<Jar> jars;
    for (std::size_t i = 0; i < 30; ++i) {
        const auto alcohol = run.in_column("jar_alcohol", i).value();
        if (std::holds_alternative<double>(alcohol))
            jars.push_back({std::get<double>(alcohol) / 1000,
                            run.in_column("jar_strength", i).number(),
                            run.in_column("jar_cut", i).text()});
    }
    return jars;
}

double share(const std::vector<Jar>& jars, const std::string& cut) {
    double own = 0, all = 0;
    for (const Jar& jar : jars) {
        all += jar.alcohol;
        own += jar.cut == cut ? jar.alcohol : 0;
    }
    return own / all;
}

// k = 2 of a cut's share, by moving each jar a little: volume and scatter of its reading are
// half-widths.
double share_range(const std::vector<Jar>& jars, const std::string& cut, double volume_pct,
                   double scatter) {
    double squares = 0;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        const double relative =
            2 / std::sqrt(3.0) * std::hypot(volume_pct / 100, scatter / jars[i].strength);
        auto more = jars, less = jars;
        more[i].alcohol *= 1 + 1e-4;
        less[i].alcohol *= 1 - 1e-4;
        squares += std::pow((share(more, cut) - share(less, cut)) / 2e-4 * relative, 2);
    }
    return std::sqrt(squares);
}

class SideBySide : public testing::Test {
protected:
    office::Document example = open_worked_example();
    NamedSheet sheet{example, "Side by side"};

    office::Range block(const std::string& name) const {
        return sheet.sheet().range(sheet.address(name));
    }
    static int line(const std::string& quantity) {
        return int(std::find(quantities.begin(), quantities.end(), quantity) - quantities.begin());
    }
    // Slots from 0. Value and ± of a run; difference, ± and verdict of the run of a slot.
    office::Cell figure(int slot, const std::string& quantity) const {
        return block("figures").cell(2 * slot, line(quantity));
    }
    office::Cell range(int slot, const std::string& quantity) const {
        return block("figures").cell(2 * slot + 1, line(quantity));
    }
    office::Cell difference(int slot, const std::string& quantity, int column = 0) const {
        return block("differences").cell(3 * (slot - 1) + column, line(quantity));
    }
    std::string verdict(int slot, const std::string& quantity) const {
        return difference(slot, quantity, 2).text();
    }
    office::Cell box(int slot) const { return sheet["compare_" + std::to_string(slot + 1)]; }
    std::string words(int slot) const {
        return sheet["compare_" + std::to_string(slot + 1) + "_words"].text();
    }
    void choose(const std::vector<std::string>& runs) const {
        for (int slot = 0; slot < 4; ++slot)
            if (slot < int(runs.size()))
                box(slot).set_text(runs[std::size_t(slot)]);
            else
                box(slot).clear();
    }
    std::string wrong_cells() const { return errors(sheet.sheet().used()); }

    void expect_figures(int slot, const std::string& name) const {
        const NamedSheet run(example, name);
        EXPECT_EQ(figure(slot, "charge_alcohol").number(), run["charge_alcohol"].number());
        EXPECT_EQ(figure(slot, "stages").number(), run["fitted_stages"].number());
        EXPECT_NEAR(range(slot, "stages").number(), 2 * run["stages_uncertainty"].number(), 1e-12);
        const auto jars = jars_of(run);
        for (const std::string& cut : cuts) {
            EXPECT_NEAR(figure(slot, cut).number(), share(jars, cut), 1e-9) << name << " " << cut;
            const double expected = share_range(jars, cut, run["volume_tolerance"].number(),
                                                run["reading_scatter"].number());
            // The jars come as text, shares to a millionth.
            EXPECT_NEAR(range(slot, cut).number(), expected, 2e-5 + 1e-3 * expected)
                << name << " " << cut;
        }
    }
    void expect_points(int slot, const std::string& name) const {
        const NamedSheet run(example, name);
        const auto jars = jars_of(run);
        const office::Range points = block("points_" + std::to_string(slot + 1));
        const double charged = run["charge_alcohol"].number();
        double collected = 0;
        ASSERT_LT(jars.size(), std::size_t(points.rows()));
        for (std::size_t i = 0; i < jars.size(); ++i) {
            const int row = int(i);
            const double middle = (collected + jars[i].alcohol / 2) / charged;
            const bool first = i == 0 || jars[i].cut == jars[i - 1].cut;
            if (first) {
                EXPECT_EQ(points.cell(6, row).text(), "") << name << " jar " << i + 1;
            } else {
                EXPECT_NEAR(points.cell(5, row).number(), collected / charged, 1e-6);
                EXPECT_NEAR(points.cell(6, row).number(),
                            (jars[i].strength + jars[i - 1].strength) / 2, 1e-4);
            }
            collected += jars[i].alcohol;
            EXPECT_NEAR(points.cell(0, row).number(), collected / charged, 1e-6);
            EXPECT_NEAR(points.cell(1, row).number(), jars[i].strength, 1e-4);
            EXPECT_NEAR(points.cell(3, row).number(), middle, 1e-6);
        }
        EXPECT_EQ(points.cell(1, int(jars.size())).text(), "");
    }
};

TEST_F(SideBySide, ShowsWhatTheRunSheetsSay) {
    EXPECT_EQ(wrong_cells(), "");
    ASSERT_EQ(box(0).text(), "Run 1");
    ASSERT_EQ(box(1).text(), "Run 4");
    for (int slot = 0; slot < 3; ++slot) {
        expect_figures(slot, box(slot).text());
        expect_points(slot, box(slot).text());
        EXPECT_TRUE(words(slot).ends_with(", finished")) << words(slot);
    }
    EXPECT_TRUE(words(0).starts_with("2025-09-13")) << words(0);
}

TEST_F(SideBySide, DifferencesStandBesideTheirUncertainty) {
    int yes = 0, no = 0;
    for (int slot = 1; slot < 3; ++slot)
        for (const std::string& quantity : quantities) {
            const double d = figure(slot, quantity).number() - figure(0, quantity).number();
            const double u =
                std::hypot(range(slot, quantity).number(), range(0, quantity).number());
            EXPECT_NEAR(difference(slot, quantity).number(), d, 1e-12) << quantity;
            EXPECT_NEAR(difference(slot, quantity, 1).number(), u, 1e-12) << quantity;
            const bool cut = std::find(cuts.begin(), cuts.end(), quantity) != cuts.end();
            const double jar =
                cut ? 1.0 / double(std::min(jars_of({example, box(0).text()}).size(),
                                            jars_of({example, box(slot).text()}).size()))
                    : 0;
            const std::string expected = std::fabs(d) <= u    ? "no: within ±"
                                         : std::fabs(d) < jar ? "no: under a jar"
                                         : d > 0              ? "yes: more"
                                                              : "yes: less";
            EXPECT_EQ(verdict(slot, quantity), expected) << quantity;
            (expected.starts_with("yes") ? yes : no) += 1;
        }
    EXPECT_GT(yes, 0);
    EXPECT_GT(no, 0);
    EXPECT_EQ(difference(3, "stages").text().empty(), box(3).text().empty());
}

// The charge's own uncertainty: of the budget's parts, the vessel's for the litres, the others for
// the strength; the water that was measured in counts as a vessel does.
TEST_F(SideBySide, RangesOfTheChargeComeFromItsBudget) {
    const NamedSheet run(example, "Run 1");
    const auto parts = run.sheet().range(run.address("charge_parts")).values();
    ASSERT_EQ(parts.size(), 5u);
    const auto part = [&](std::size_t i) { return std::get<double>(parts[i][0]); };
    double others = 0;
    for (std::size_t i = 1; i < 5; ++i)
        others += part(i) * part(i);
    const double alcohol = run["charge_alcohol"].number();
    const double water = 2 / std::sqrt(3.0) * run["volume_tolerance"].number() / 100 *
                         run["charge_water"].number() / run["charge_volume"].number();
    EXPECT_GT(water, 0);
    EXPECT_NEAR(range(0, "charge_alcohol").number(), std::sqrt(part(0) * part(0) + others), 1e-9);
    EXPECT_NEAR(range(0, "charge_volume").number(),
                run["charge_volume"].number() * std::hypot(part(0) / alcohol, water), 1e-9);
    EXPECT_NEAR(range(0, "charge_strength").number(),
                run["charge_strength"].number() *
                    std::sqrt(others / (alcohol * alcohol) + water * water),
                1e-9);
    EXPECT_NEAR(range(0, "hours").number(), 1.0 / 1440, 1e-12);
}

TEST_F(SideBySide, SurvivesRenamedSheets) {
    const auto before = contents(sheet.sheet().used());
    rename_sheet(example, "Run 4", "Pear, vats 1 and 2");
    example.hard_recalculate();
    EXPECT_EQ(describe_differences(contents(sheet.sheet().used()), before), "");
    // A run of another title is no longer the one that was chosen.
    NamedSheet(example, "Run 1")["run_title"].set_text("First of the season");
    EXPECT_EQ(words(0), "No run of this name in Runs: choose from the list.");
    EXPECT_EQ(figure(0, "stages").text(), "");
    EXPECT_EQ(verdict(1, "stages"), "");
    box(0).set_text("First of the season");
    EXPECT_EQ(describe(figure(0, "stages").value()),
              describe(NamedSheet(example, "Run 1")["fitted_stages"].value()));
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SideBySide, FollowsAddedAndRemovedRuns) {
    const double stages = figure(2, "stages").number();
    ASSERT_TRUE(call_at(example, "Guide", "A1", "addRun").done);
    EXPECT_EQ(figure(2, "stages").number(), stages);
    box(3).set_text("Run 9");
    EXPECT_NE(words(3).find("not begun"), std::string::npos) << words(3);
    EXPECT_EQ(figure(3, "charge_alcohol").text(), "");
    EXPECT_EQ(wrong_cells(), "");
    fill_charge(example, "Run 9");
    NamedSheet(example, "Run 9").in_column("lot_temperature", 0).set_number(20);
    EXPECT_EQ(figure(3, "charge_alcohol").number(),
              NamedSheet(example, "Run 9")["charge_alcohol"].number());
    EXPECT_NE(verdict(3, "charge_alcohol"), "");
    type_jars(example, "Run 9", {900, 901, 902, 903});
    expect_points(3, "Run 9");
    EXPECT_EQ(verdict(3, "hearts"), "") << "it is under way";
    EXPECT_NE(verdict(3, "stages"), "");

    ASSERT_TRUE(call_at(example, "Run 4", "A1", "removeRun").done);
    EXPECT_EQ(words(1), "No run of this name in Runs: choose from the list.");
    EXPECT_EQ(verdict(1, "stages"), "");
    EXPECT_EQ(figure(2, "stages").number(), stages);
    expect_points(2, "Run 7");
    EXPECT_EQ(wrong_cells(), "");
    // A sheet that was taken away by hand.
    remove_sheet(example, "Run 7");
    EXPECT_EQ(figure(2, "stages").text(), "");
    EXPECT_NE(words(2), "");
    box(2).set_text("gone");
    EXPECT_EQ(words(2), "The sheet of this run is gone.");
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SideBySide, ChosenTwiceUnknownUnfinishedAlike) {
    choose({"Run 1", "run 1", "Run 8", "a run of last year"});
    EXPECT_EQ(words(1), "Chosen already: choose another run.");
    EXPECT_EQ(figure(1, "stages").text(), "");
    EXPECT_EQ(words(3), "No run of this name in Runs: choose from the list.");
    // Under way: what it has already, and no shares of a run that is not whole.
    EXPECT_NE(words(2).find("under way"), std::string::npos) << words(2);
    EXPECT_NE(difference(2, "charge_volume").text(), "");
    EXPECT_NE(verdict(2, "stages"), "");
    for (const std::string quantity : {"hours", "heads", "hearts", "tails", "recovery"})
        EXPECT_EQ(difference(2, quantity).text(), "") << quantity;
    expect_points(2, "Run 8");
    EXPECT_EQ(wrong_cells(), "");
    // The first box free: the others stand with their figures, and nothing is compared.
    choose({"", "Run 4"});
    box(0).clear();
    EXPECT_NE(figure(1, "stages").text(), "");
    EXPECT_EQ(difference(1, "stages").text(), "");
    EXPECT_EQ(wrong_cells(), "");
    // Wildcards are letters, numbers are names; two runs of one name are not told apart.
    NamedSheet(example, "Run 4")["run_title"].set_text("Run ?");
    choose({"Run ?", "Run *"});
    EXPECT_EQ(figure(0, "stages").number(), NamedSheet(example, "Run 4")["fitted_stages"].number());
    EXPECT_EQ(words(1), "No run of this name in Runs: choose from the list.");
    NamedSheet(example, "Run 7")["run_title"].set_number(7);
    box(1).set_number(7);
    EXPECT_EQ(figure(1, "stages").number(), NamedSheet(example, "Run 7")["fitted_stages"].number());
    NamedSheet(example, "Run 1")["run_title"].set_text("Run ?");
    EXPECT_EQ(words(0), "Several runs have this name: rename one on its sheet.");
    EXPECT_EQ(figure(0, "stages").text(), "");
    box(0).set_formula("=1/0");
    EXPECT_EQ(words(0), "No run of this name in Runs: choose from the list.");
    EXPECT_EQ(errors(block("figures")), "");
}

TEST_F(SideBySide, ARunOfMoreJarsThanRoomIsSaid) {
    const RunsSheet runs(example);
    const std::string jar = "0500000"
                            "0700000"
                            "3";
    std::string jars;
    for (int i = 0; i < 101; ++i)
        jars += jar;
    office::Cell curve = runs.at("Run 1", "curve");
    curve.set_text(jars);
    EXPECT_EQ(words(0), "More than 100 jars: figures only, no curve.");
    EXPECT_EQ(block("points_1").cell(1, 0).text(), "");
    EXPECT_NE(figure(0, "stages").text(), "");
    EXPECT_EQ(range(0, "hearts").text(), "");
    EXPECT_EQ(verdict(1, "hearts"), "± not known");
    curve.set_text(jars.substr(jar.size()));
    EXPECT_EQ(block("points_1").cell(1, 99).number(), 70);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(SideBySide, IsTheSameAsXlsx) {
    const auto before = contents(sheet.sheet().used());
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-side-" + std::to_string(getpid()) + ".xlsx");
    example.save(file);
    office::Document stored = shared_office().open(file);
    std::filesystem::remove(file);
    stored.hard_recalculate();
    EXPECT_EQ(describe_differences(contents(stored.sheet("Side by side").used()), before), "");
    const office::Range one = example.sheet("Runs").used(), two = stored.sheet("Runs").used();
    EXPECT_EQ(describe_differences(contents(two), contents(one)), "");
    // And it works on.
    const NamedSheet there(stored, "Side by side");
    there["compare_1"].set_text("Run 4");
    there["compare_2"].set_text("Run 1");
    choose({"Run 4", "Run 1", "Run 7", box(3).text()});
    EXPECT_EQ(describe_differences(contents(there.sheet().used()), contents(sheet.sheet().used())),
              "");
    EXPECT_EQ(errors(there.sheet().used()), "");
}

TEST_F(SideBySide, BlankIsCalm) {
    const office::Document log = open_blank_run_log();
    const NamedSheet blank(log, "Side by side");
    EXPECT_EQ(errors(blank.sheet().used()), "");
    for (const char* name : {"figures", "differences", "points_1", "points_4"})
        for (const auto& row : contents(blank.sheet().range(blank.address(name))))
            for (const auto& cell : row)
                EXPECT_EQ(std::get<std::string>(cell), "") << name;
    blank["compare_1"].set_text("Run 1");
    EXPECT_EQ(blank["compare_1_words"].text(), "not begun");
    EXPECT_EQ(errors(blank.sheet().used()), "");
}

} // namespace
} // namespace jarbook::e2e
