// The sheet Runs: the still's stages over its runs, what they say together, a run unlike the
// others.
#include <cmath>
#include <gtest/gtest.h>

#include "core/record/stages_uncertainty.hpp"
#include "core/still/forecast.hpp"
#include "run_log/run_log_support.hpp"
#include "runs/register.hpp"
#include "support/support.hpp"
#include "text.hpp"

namespace jarbook::e2e {
namespace {

constexpr const char* pot = "Quillmarsh (invented), pot 120 L";
constexpr const char* small_pot = "Quillmarsh (invented), small pot 30 L";

std::vector<Stated> values(const std::map<std::string, Stated>& runs) {
    std::vector<Stated> result;
    for (const auto& [name, said] : runs)
        result.push_back(said);
    return result;
}

class Runs : public testing::Test {
protected:
    office::Document example = open_worked_example();
    RunsSheet runs{example};

    int row_of_still(const std::string& still) const {
        const office::Range stills = runs.block("stills");
        for (int row = 0; row < stills.rows(); ++row)
            if (stills.cell(0, row).text() == still)
                return row;
        return -1;
    }
    std::string words_of(const std::string& still) const {
        const std::string where = NamedSheet(example, "Runs").address("stills");
        const int first = std::stoi(where.substr(where.find_first_of("0123456789")));
        return runs.sheet().cell("J" + std::to_string(first + row_of_still(still))).text();
    }
    // Every run that counts is marked as the rule says; how many are.
    int expect_marked_by_rule(const std::string& still) const {
        const auto known = runs.known(still);
        const auto said = values(known);
        int marked = 0;
        std::size_t i = 0;
        for (const auto& [name, value] : known) {
            const bool unlike = plain_unlike(said, i++);
            EXPECT_EQ(runs.at(name, "unlike").text(), unlike ? "unlike" : "") << name;
            EXPECT_EQ(runs.at(name, "drawn_unlike").text().empty(), !unlike) << name;
            marked += unlike;
        }
        return marked;
    }
    std::string wrong_cells() const { return errors(runs.sheet().used()); }
};

TEST_F(Runs, StagesStandWithTheirUncertainty) {
    int compared = 0;
    for (const std::string name : {"Run 1", "Run 2", "Run 5", "Little pot 2", "Run 8"}) {
        const NamedSheet run(example, name);
        std::vector<Lot> jars;
        for (std::size_t jar = 0; jar < 30; ++jar) {
            const auto volume = run.in_column("jar_volume", jar).value();
            if (std::holds_alternative<double>(volume))
                jars.push_back(
                    {std::get<double>(volume), run.in_column("jar_strength", jar).number()});
        }
        const auto pressure = run["pressure"].number();
        const double u = stages_uncertainty(
            {1000 * run["charge_volume"].number(), run["charge_strength"].number()}, jars,
            run["held_common"].number(), run["charge_tolerance"].number(), pressure);
        EXPECT_NEAR(runs.at(name, "stages_range").number(), 2 * u, 1e-9) << name;
        const bool finished = name != std::string("Run 8");
        EXPECT_NEAR(runs.at(name, "drawn_range").number(), finished ? 2 * u : 0, 1e-9) << name;
        EXPECT_EQ(runs.at(name, "drawn_stages").text().empty(), !finished) << name;
        ++compared;
    }
    EXPECT_EQ(compared, 5);
}

TEST_F(Runs, ConsensusOfEachStill) {
    const auto known = runs.known(pot);
    ASSERT_GE(known.size(), 5u);
    ASSERT_FALSE(known.contains("Run 8")) << "it is under way";
    const PlainConsensus said = plain_consensus(values(known));
    const office::Range stills = runs.block("stills");
    const int row = row_of_still(pot);
    ASSERT_GE(row, 0);
    EXPECT_EQ(stills.cell(1, row).number(), double(known.size()));
    EXPECT_NEAR(stills.cell(2, row).number(), said.mean, 1e-9);
    EXPECT_NEAR(stills.cell(3, row).number(), said.mean_uncertainty, 1e-9);
    EXPECT_NEAR(stills.cell(4, row).number(), said.spread, 1e-8);
    EXPECT_NEAR(stills.cell(5, row).number(), said.next(), 1e-8);
    EXPECT_TRUE(words_of(pot).starts_with("The next run: 19 times of 20 between 1"))
        << words_of(pot);
    // One run is no consensus.
    const int other = row_of_still(small_pot);
    ASSERT_GE(other, 0);
    EXPECT_EQ(stills.cell(1, other).number(), 1);
    EXPECT_EQ(stills.cell(2, other).text(), "");
    EXPECT_EQ(words_of(small_pot), "from three finished runs on");
}

TEST_F(Runs, AnUnlikeRunIsMarkedByRule) {
    expect_marked_by_rule(pot);
    EXPECT_EQ(runs.at("Run 5", "others_mean").text(), "") << "the only run of its still";
    // Its jars as a still of more and more stages would give them, until the rule says so.
    int steps = 0;
    while (runs.at("Run 3", "unlike").text().empty() && ++steps < 30) {
        run_again(example, "Run 3", 1.18 + 0.02 * steps);
        EXPECT_NEAR(runs.at("Run 3", "stages").number(), 1.18 + 0.02 * steps, 1e-3);
        expect_marked_by_rule(pot);
    }
    EXPECT_GT(steps, 0) << "not marked before";
    ASSERT_LT(steps, 30);
    EXPECT_NE(words_of(pot).find("Unlike the others: Run 3."), std::string::npos) << words_of(pot);
    EXPECT_EQ(runs.at("Run 3", "drawn_unlike").number(), runs.at("Run 3", "stages").number());
    EXPECT_EQ(wrong_cells(), "");
    // A run that is not finished is held against nobody, however far off.
    run_again(example, "Run 8", 2);
    EXPECT_NEAR(runs.at("Run 8", "stages").number(), 2, 0.01);
    EXPECT_EQ(runs.at("Run 8", "unlike").text(), "");
    EXPECT_EQ(runs.at("Run 8", "known").text(), "");
}

TEST_F(Runs, TooFewOthersMarkNothing) {
    // Four runs of the pot are given another still: two stay, each with one other.
    for (const std::string name : {"Run 1", "Run 2", "Run 4", "Run 7"})
        NamedSheet(example, name)["run_still"].set_text("another still");
    run_again(example, "Run 3", 2);
    EXPECT_NEAR(runs.at("Run 3", "stages").number(), 2, 0.01);
    EXPECT_EQ(runs.at("Run 3", "unlike").text(), "");
    EXPECT_EQ(words_of(pot), "from three finished runs on");
    EXPECT_EQ(expect_marked_by_rule("another still"), 0);
    EXPECT_EQ(runs.block("stills").cell(1, row_of_still("another still")).number(), 4);
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(Runs, AddedAndRemovedRunsCount) {
    const auto before = runs.known(pot).size();
    const Said added = call_at(example, "Guide", "A1", "addRun");
    ASSERT_TRUE(added.done) << added.text;
    const std::string name = "Run 9";
    NamedSheet run(example, name);
    EXPECT_EQ(runs.at(name, "state").text(), "not begun");
    EXPECT_EQ(run["run_still"].text(), pot);
    EXPECT_EQ(runs.at(name, "others_mean").text(), "");
    EXPECT_EQ(runs.known(pot).size(), before);
    // A short run of this still, finished: the forecast's own jars, so that it is like the others.
    fill_charge(example, name);
    run.in_column("lot_temperature", 0).set_number(20);
    const Charge charge{180, 30};
    std::vector<double> amounts, readings;
    double from = 0;
    for (int jar = 0; jar < 6; ++jar, from += 8) {
        const double alcohol = forecast_alcohol(
            charge, forecast_strength(charge, from, {.stages = 1.19}),
            forecast_strength(charge, from + 8, {.stages = 1.19}), {.stages = 1.19});
        run.in_column("jar_amount", std::size_t(jar)).set_number(8000);
        run.in_column("jar_reading", std::size_t(jar)).set_number(100 * alcohol / 8);
        run.in_column("jar_temperature", std::size_t(jar)).set_number(20);
    }
    EXPECT_EQ(runs.at(name, "known").text(), "") << "the residue is not measured yet";
    run["residue_measured_volume"].set_number(130);
    run["residue_known"].set_number(9);
    run["residue_temperature"].set_number(20);
    EXPECT_NEAR(runs.at(name, "known").number(), 1.19, 0.02);
    EXPECT_EQ(runs.known(pot).size(), before + 1);
    EXPECT_EQ(runs.block("stills").cell(1, row_of_still(pot)).number(), double(before + 1));
    expect_marked_by_rule(pot);
    EXPECT_NE(runs.at(name, "others_mean").text(), "");
    EXPECT_EQ(wrong_cells(), "");

    const Said removed = call_at(example, "Run 2", "A1", "removeRun");
    ASSERT_TRUE(removed.done) << removed.text;
    EXPECT_EQ(runs.known(pot).size(), before);
    EXPECT_EQ(runs.block("stills").cell(1, row_of_still(pot)).number(), double(before));
    expect_marked_by_rule(pot);
    EXPECT_EQ(wrong_cells(), "");
    // The row that the next run takes after is one that was added itself.
    ASSERT_TRUE(call_at(example, "Guide", "A1", "addRun").done);
    EXPECT_EQ(runs.at("Run 10", "others_mean").formula(), runs.at(name, "others_mean").formula());
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(Runs, MoreStillsThanRowsAreSaid) {
    const auto note = [&] {
        const std::string where = NamedSheet(example, "Runs").address("stills");
        return runs.sheet()
            .cell("A" + std::to_string(std::stoi(where.substr(where.rfind(':') + 2)) + 1))
            .text();
    };
    EXPECT_EQ(note().find("There are more"), std::string::npos) << note();
    int i = 0;
    for (const std::string name : {"Run 1", "Run 2", "Run 3", "Run 4", "Run 6", "Run 7"})
        NamedSheet(example, name)["run_still"].set_text("still " + std::to_string(++i));
    EXPECT_NE(note().find("There are more than 6 stills"), std::string::npos) << note();
    EXPECT_EQ(wrong_cells(), "");
}

} // namespace
} // namespace jarbook::e2e
