// The readings of a run held against each other, on After: figures worked out independently
// (tests/oracle/plain_held.py) for runs of the worked example, and what is said while they wait.
#include <algorithm>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "support/support.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using Row = std::map<std::string, std::string>;

std::vector<Row> expected() {
    std::ifstream file(JARBOOK_HELD_EXPECTED);
    std::vector<Row> rows;
    std::vector<std::string> head;
    for (std::string line; std::getline(file, line);) {
        std::vector<std::string> cells;
        std::stringstream parts(line + ",");
        for (std::string cell; std::getline(parts, cell, ',');)
            cells.push_back(cell);
        if (head.empty()) {
            head = cells;
            continue;
        }
        Row row;
        for (std::size_t i = 0; i < head.size(); ++i)
            row[head[i]] = i < cells.size() ? cells[i] : "";
        rows.push_back(row);
    }
    return rows;
}

// Of the six figures of the test, from chi-squared on.
double tested(const NamedSheet& run, int i) {
    return run.at("V", run.row("held_advice") - 1 + i).number();
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string with_point(std::string text) {
    if (comma_decimal())
        std::replace(text.begin(), text.end(), ',', '.');
    return text;
}

TEST(Held, FiguresOfTheWorkedExample) {
    const office::Document document = open_worked_example();
    const auto rows = expected();
    ASSERT_EQ(rows.size(), 6u);
    for (const Row& row : rows) {
        SCOPED_TRACE(row.at("sheet"));
        const NamedSheet run(document, row.at("sheet"));
        ASSERT_EQ(run["held_ready"].number(), 1);
        // Both take the readings to 0.1 mL and 0.01 % vol; what is left is the solvers' end, 1e-8
        // standard uncertainties, and nine digits in the file.
        const double chi = std::stod(row.at("chi_squared"));
        EXPECT_NEAR(tested(run, 0), chi, 1e-5 * std::max(1.0, chi));
        EXPECT_NEAR(run["held_chance"].number(), std::stod(row.at("probability")), 1e-6);
        EXPECT_EQ(tested(run, 3), std::stod(row.at("candidates")));
        const std::string advice = run["held_advice"].text();
        if (run["held_chance"].number() >= 0.05) {
            EXPECT_TRUE(advice.starts_with("The readings fit.")) << advice;
            EXPECT_NEAR(run["held_recovery"].number(), std::stod(row.at("recovery")), 1e-6);
            const double uncertainty = run["held_recovery_uncertainty"].number();
            EXPECT_NEAR(uncertainty, std::stod(row.at("uncertainty")), 1e-5);
            EXPECT_GE(uncertainty, std::stod(row.at("balanced_uncertainty")))
                << "least squares are at least as good";
            EXPECT_EQ(run["held_check"].text(), "");
        } else {
            EXPECT_EQ(run["held_check"].text(), advice) << "also in To look at";
            EXPECT_EQ(run["held_recovery"].text(), "") << "none while they do not fit";
            EXPECT_EQ(run["held_recovery_uncertainty"].text(), "");
        }
        EXPECT_FALSE(contains(advice, "row ")) << advice;
    }
}

// What the issue asks for: a wrong residue is named; of a wrong strength it is said that which of
// two is wrong cannot be told.
TEST(Held, WrongResidueIsNamedAWrongStrengthIsNot) {
    const office::Document document = open_worked_example();
    const auto rows = expected();
    const auto of = [&](const std::string& sheet) {
        return *std::find_if(rows.begin(), rows.end(),
                             [&](const Row& row) { return row.at("sheet") == sheet; });
    };
    const NamedSheet residue(document, "Run 6");
    EXPECT_EQ(of("Run 6").at("candidates"), "1");
    EXPECT_EQ(of("Run 6").at("row"), std::to_string(std::stoi(of("Run 6").at("jars")) + 1));
    // In the lists thirty places are for jars.
    EXPECT_EQ(tested(residue, 4), 31);
    EXPECT_EQ(tested(residue, 5), 1);
    const std::string said = with_point(residue["held_advice"].text());
    EXPECT_TRUE(said.starts_with("Look at the volume of the residue first")) << said;
    const auto place = said.find("make it fit");
    ASSERT_NE(place, std::string::npos) << said;
    EXPECT_NEAR(std::stod(said.substr(place + 13)), std::stod(of("Run 6").at("implied")), 0.06)
        << "as it is said, to 0.1 L";
    EXPECT_EQ(residue["held_box"].text(),
              "residue, box " + residue.address("residue_measured_volume"));

    const NamedSheet strength(document, "Little pot 2");
    EXPECT_EQ(of("Little pot 2").at("candidates"), "2");
    EXPECT_EQ(strength["held_advice"].text(), "A strength is wrong; which one cannot be told. "
                                              "Measure charge and residue again.");
    EXPECT_EQ(strength["held_box"].text(), "");
    // A jar that was tipped over: told by its number, among others.
    const NamedSheet tipped(document, "Run 4");
    EXPECT_TRUE(contains(tipped["held_advice"].text(), "volume of jar 12 ("))
        << tipped["held_advice"].text();
    EXPECT_EQ(tipped["balance_check"].text(), "") << "said once";
}

TEST(Held, WaitsAndSaysForWhat) {
    office::Document document = open_worked_example();
    {
        const office::Document log = open_blank_run_log();
        EXPECT_EQ(NamedSheet(log, "Run 1")["held_advice"].text(), "");
    }
    // A little run without a residue: one line, nothing to look at.
    const NamedSheet little(document, "Little pot 1");
    EXPECT_TRUE(little["held_advice"].text().starts_with("Measure what is left"));
    EXPECT_EQ(little["held_check"].text(), "");
    EXPECT_EQ(little["queries"].number(), 0);

    const NamedSheet run(document, "Run 1");
    const auto said = [&] { return run["held_advice"].text(); };
    const auto type = [&](const std::string& name, const std::string& text) {
        run[name].set_formula_local(text);
    };
    // A jar without its reading is waited for, never left out.
    const std::string reading = run.in_column("jar_reading", 4).formula_local();
    run.in_column("jar_reading", 4).set_formula_local("");
    EXPECT_TRUE(said().starts_with("Waits for jars")) << said();
    EXPECT_EQ(run["held_chance"].text(), "");
    EXPECT_EQ(run["held_recovery"].text(), "");
    run.in_column("jar_reading", 4).set_formula_local(reading);
    EXPECT_TRUE(said().starts_with("The readings fit.")) << said();

    type("volume_tolerance", "0");
    EXPECT_TRUE(said().starts_with("Waits for a tolerance")) << said();
    type("volume_tolerance", "x");
    EXPECT_TRUE(said().starts_with("Waits for a tolerance")) << said();
    type("volume_tolerance", "");
    type("held_residue_volume", "5"); // more open: it fits better than at 1 %
    const double wide = run["held_chance"].number();
    type("held_residue_volume", "");
    EXPECT_GT(wide, run["held_chance"].number());

    const std::string left = run["residue_reading"].formula_local();
    type("residue_reading", "");
    EXPECT_TRUE(said().starts_with("Measure what is left")) << said();
    type("residue_reading", left);
    run.in_column("lot_volume", 0).set_formula_local("");
    EXPECT_TRUE(said().starts_with("Waits for the charge")) << said();
    EXPECT_EQ(errors(run.sheet().used()), "");
}

// Litres typed where millilitres belong: the readings cannot be balanced, and no error shows.
TEST(Held, ReadingsFarApart) {
    const office::Document document = open_worked_example();
    const NamedSheet run(document, "Run 1");
    run["residue_measured_volume"].set_number(35400);
    EXPECT_EQ(errors(run.sheet().used()), "");
    EXPECT_NE(run["held_advice"].text(), "");
    EXPECT_EQ(run["held_recovery"].text(), "");
    EXPECT_NE(run["held_check"].text(), "");
}

} // namespace
} // namespace jarbook::e2e
