// Add a run to this workbook: a pristine run sheet, entered in Runs, with its own charts.
#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <gtest/gtest.h>

#include "run_log/run_log_support.hpp"
#include "text.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

class AddRun : public testing::Test {
protected:
    static Dispatched add(const office::Document& document) {
        return dispatch(frame_of(document), "addRun");
    }
    static std::string text_of(const Dispatched& dispatched) {
        rtl::OUString text;
        dispatched.result >>= text;
        return office::to_utf8(text);
    }
    static std::vector<std::string> drawn(const office::Sheet& sheet) {
        return drawn_ranges(shared_office(), sheet);
    }
    static int undo_steps(const office::Document& document) {
        return shared_office().call("counting undo steps", [&] {
            const uno::Reference<document::XUndoManagerSupplier> supplier(document.uno(),
                                                                          uno::UNO_QUERY_THROW);
            return int(supplier->getUndoManager()->getAllUndoActionTitles().getLength());
        });
    }
    static std::vector<std::string> row_of(const NamedSheet& book, int row) {
        const std::string number = std::to_string(row);
        return formulas(book.sheet().range("A" + number + ":U" + number)).front();
    }
};

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

TEST_F(AddRun, APristineSheetWithItsRow) {
    office::Document log = open_blank_run_log();
    const auto blank = formulas(log.sheet("Run 1").used());
    // The first run is filled in; the second must not take after it.
    NamedSheet first(log, "Run 1");
    first["run_title"].set_text("Plums");
    first["wished_charge"].set_number(38);
    const int end = NamedSheet(log, "Runs").row("register_end");

    const Dispatched dispatched = add(log);
    ASSERT_TRUE(dispatched.done) << text_of(dispatched);
    EXPECT_NE(text_of(dispatched).find("Run 2"), std::string::npos);
    EXPECT_NE(text_of(dispatched).find("cannot be undone"), std::string::npos);
    EXPECT_EQ(undo_steps(log), 0) << "they would meet other sheets than they were recorded on";
    const auto names = log.sheet_names();
    ASSERT_GE(names.size(), 3u);
    EXPECT_EQ(names[2], "Run 2") << "behind the first run";

    // Pristine but for its title.
    NamedSheet second(log, "Run 2");
    EXPECT_EQ(second["run_title"].text(), "Run 2");
    second["run_title"].set_text("Run 1");
    auto cells = formulas(second.sheet().used());
    for (auto& row : cells)
        for (std::string& cell : row)
            cell = replaced(cell, "Run 2", "Run 1");
    EXPECT_EQ(cells, blank);
    EXPECT_EQ(local_names(second.sheet()), local_names(first.sheet()));
    EXPECT_EQ(errors(second.sheet().used()), "");

    // Printed, protected and drawn as the first.
    EXPECT_EQ(page_of(second.sheet()), page_of(first.sheet()));
    EXPECT_EQ(hidden_of(second.sheet()), hidden_of(first.sheet())) << "folds";
    EXPECT_TRUE(is_protected(second.sheet()));
    const auto charts = drawn(first.sheet());
    ASSERT_FALSE(charts.empty());
    auto own = drawn(second.sheet());
    for (std::string& range : own) {
        EXPECT_NE(range.find("Run 2"), std::string::npos) << range;
        range = replaced(range, "Run 2", "Run 1");
    }
    EXPECT_EQ(own, charts);
    const auto pictures = pictures_of_charts(log, 1);
    EXPECT_EQ(pictures.size(), 2u);
    EXPECT_TRUE(pictures_of_charts(log, 2) == pictures);

    // Its row in Runs.
    NamedSheet book(log, "Runs");
    EXPECT_EQ(book.row("register_end"), end + 1);
    EXPECT_TRUE(is_protected(book.sheet()));
    auto row = row_of(book, end);
    EXPECT_NE(row.front().find("'Run 2'."), std::string::npos) << row.front();
    for (std::string& cell : row) {
        EXPECT_EQ(cell.find("'Run 1'."), std::string::npos) << cell;
        cell = replaced(cell, "Run 2", "Run 1");
    }
    EXPECT_EQ(row, row_of(book, end - 1));
    second["run_title"].set_text("Sloes");
    EXPECT_EQ(book.at("A", end).text(), "Sloes");
    EXPECT_EQ(book.at("A", end - 1).text(), "Plums");
    second["wished_charge"].set_number(25);
    EXPECT_EQ(first["wished_charge"].number(), 38);

    EXPECT_EQ(check_sheet(log, 2).size(), 0u);
}

TEST_F(AddRun, TheNextNumberWhateverTheSheetsAreCalled) {
    office::Document season = open_worked_example();
    const auto before = season.sheet_names();
    const auto charts = drawn(season.sheet("Runs"));
    ASSERT_TRUE(add(season).done);
    ASSERT_TRUE(add(season).done);
    const auto names = season.sheet_names();
    ASSERT_EQ(names.size(), before.size() + 2);
    EXPECT_EQ(names[12], "Run 9");
    EXPECT_EQ(names[13], "Run 10");
    // The chart over the runs has grown with the register.
    const auto grown = drawn(season.sheet("Runs"));
    ASSERT_EQ(grown.size(), charts.size());
    for (std::size_t i = 0; i < charts.size(); ++i)
        if (charts[i].find(':') != std::string::npos) {
            EXPECT_NE(grown[i], charts[i]) << charts[i];
        }
    EXPECT_EQ(errors(season.sheet("Runs").used()), "");
}

TEST_F(AddRun, TheStillAndTheInstrumentsComeAlong) {
    office::Document log = open_blank_run_log();
    NamedSheet first(log, "Run 1");
    first["run_still"].set_text("the copper pot");
    first["boiler_volume"].set_number(120);
    first["watts"].set_formula("=2*3000");
    first["stages"].set_number(1.22);
    first["reading_tolerance"].set_number(0.2);
    first["pressure"].set_number(955);
    first["jar_unit"].set_text("g");
    first["wished_charge"].set_number(35);
    first["run_material"].set_text("plums");
    const Dispatched dispatched = add(log);
    ASSERT_TRUE(dispatched.done);
    EXPECT_NE(text_of(dispatched).find("carried over from Run 1"), std::string::npos)
        << text_of(dispatched);
    NamedSheet second(log, "Run 2");
    EXPECT_EQ(second["run_still"].text(), "the copper pot");
    EXPECT_EQ(second["boiler_volume"].number(), 120);
    EXPECT_EQ(second["watts"].formula(), "6000") << "its value";
    EXPECT_EQ(second["stages"].number(), 1.22);
    EXPECT_EQ(second["reading_tolerance"].number(), 0.2);
    EXPECT_EQ(second["pressure"].number(), 955);
    EXPECT_EQ(second["jar_unit"].text(), "g");
    // What belongs to the run does not.
    EXPECT_EQ(second["run_material"].text(), "");
    EXPECT_NE(second["wished_charge"].text(), first["wished_charge"].text());
    EXPECT_EQ(check_sheet(log, 2).size(), 0u) << "formats, help and checks are the box's own";
    // From the latest, not from the first.
    second["boiler_volume"].set_number(60);
    ASSERT_TRUE(add(log).done);
    EXPECT_EQ(NamedSheet(log, "Run 3")["boiler_volume"].number(), 60);
    EXPECT_EQ(NamedSheet(log, "Run 3")["stages"].number(), 1.22);
}

// By choice, as values with their date: a run keeps what it was measured with.
TEST_F(AddRun, CorrectionsFromInstrumentsComeAlongIfSoChosen) {
    office::Document log = open_blank_run_log();
    NamedSheet first(log, "Run 1");
    first["thermometer_correction"].set_number(-0.5);
    NamedSheet instruments(log, "Instruments");
    const auto check = [&](const std::string& column) {
        return instruments.in_column("check_alcoholometer_" + column, 0);
    };
    check("date").set_number(46067); // 2026-02-14
    check("against").set_text("weighing");
    check("true").set_number(50);
    check("true_error").set_number(0.1);
    check("reading").set_number(49.6);
    check("degrees").set_number(20);
    ASSERT_TRUE(add(log).done);
    const NamedSheet second(log, "Run 2");
    EXPECT_EQ(second["alcoholometer_correction"].text(), "") << "not chosen";
    EXPECT_EQ(second["thermometer_correction"].number(), -0.5) << "from the run before";
    instruments["alcoholometer_carry"].set_text("yes");
    ASSERT_TRUE(add(log).done);
    const NamedSheet third(log, "Run 3");
    EXPECT_EQ(third["alcoholometer_correction"].formula(), "0.4") << "its value";
    EXPECT_EQ(third["alcoholometer_checked"].text(), "2026-02-14");
    EXPECT_EQ(third["thermometer_correction"].number(), -0.5);
    // A later check changes no run that is there.
    check("reading").set_number(49);
    EXPECT_EQ(third["alcoholometer_correction"].number(), 0.4);
}

TEST_F(AddRun, NamesThatDifferInCapitalsOnly) {
    office::Document log = open_blank_run_log();
    log.add_sheet("run 9");
    log.add_sheet("RUN 11");
    ASSERT_TRUE(add(log).done);
    const auto names = log.sheet_names();
    EXPECT_EQ(names[2], "Run 12");
}

TEST_F(AddRun, WhatFailsOnTheWayLeavesNoSheet) {
    office::Document log = open_blank_run_log();
    // A register of a person's own, with nothing in it to go by.
    NamedSheet book(log, register_sheet(log));
    unprotect(book.sheet(), "");
    const int row = rows_of(book, "register").first;
    shared_office().call("making the register strange", [&] {
        const std::string cells = "A" + std::to_string(row) + ":AZ" + std::to_string(row);
        book.sheet().range(cells).clear();
        const uno::Reference<table::XColumnRowRange> sheet(book.sheet().uno(),
                                                           uno::UNO_QUERY_THROW);
        sheet->getColumns()->insertByIndex(3, 2);
    });
    const auto names = log.sheet_names();
    const Dispatched dispatched = add(log);
    EXPECT_FALSE(dispatched.done);
    EXPECT_NE(text_of(dispatched).find("cannot be read"), std::string::npos) << text_of(dispatched);
    EXPECT_EQ(log.sheet_names(), names);
}

TEST_F(AddRun, WithTheRowsOfRunsAllTakenAway) {
    office::Document log = open_blank_run_log();
    NamedSheet book(log, "Runs");
    // The only run goes, and with it what its row drew on.
    remove_sheet(log, "Run 1");
    ASSERT_TRUE(add(log).done);
    EXPECT_EQ(log.sheet_names()[1], "Run 1") << "no number is in use";
    const int end = NamedSheet(log, "Runs").row("register_end");
    EXPECT_EQ(book.at("A", end - 1).text(), "Run 1");
}

TEST_F(AddRun, WhereItCannotItSaysWhy) {
    office::Document plain = shared_office().new_document();
    const Dispatched dispatched = add(plain);
    EXPECT_FALSE(dispatched.done);
    EXPECT_NE(text_of(dispatched).find("Runs are added"), std::string::npos);
    EXPECT_EQ(plain.sheet_names().size(), 1u);

    office::Document log = open_blank_run_log();
    const auto names = log.sheet_names();
    shared_office().call("protecting the structure", [&] {
        const uno::Reference<util::XProtectable> structure(log.uno(), uno::UNO_QUERY_THROW);
        structure->protect("");
    });
    EXPECT_FALSE(add(log).done);
    EXPECT_EQ(log.sheet_names(), names);

    shared_office().call("protecting Runs with a password", [&] {
        const uno::Reference<util::XProtectable> structure(log.uno(), uno::UNO_QUERY_THROW);
        structure->unprotect("");
        const uno::Reference<util::XProtectable> book(log.sheet("Runs").uno(),
                                                      uno::UNO_QUERY_THROW);
        book->unprotect("");
        book->protect("mine");
    });
    const Dispatched locked = add(log);
    EXPECT_FALSE(locked.done);
    EXPECT_NE(text_of(locked).find("password"), std::string::npos) << text_of(locked);
    EXPECT_EQ(log.sheet_names(), names) << "nothing half done";
}

// The sheet proposes what the still's finished runs say; a typed figure decides.
TEST_F(AddRun, StagesFromTheEarlierRunsOfTheStill) {
    const office::Document log = open_worked_example();
    const NamedSheet book(log, "Runs");
    const std::string still = NamedSheet(log, "Run 8")["run_still"].text();
    const auto stills = book.sheet().range(book.address("stills")).values();
    const auto row = std::find_if(stills.begin(), stills.end(), [&](const auto& cells) {
        return describe(cells[0]) == "\"" + still + "\"";
    });
    ASSERT_NE(row, stills.end());
    const double mean = std::get<double>((*row)[2]);
    const double next = std::get<double>((*row)[5]);
    // Run 8 has what Add a run would have written: it is under way, so that Runs knows no more.
    {
        const NamedSheet run(log, "Run 8");
        EXPECT_NEAR(run["known_stages"].number(), mean, 0.0005);
        EXPECT_NEAR(run["known_range"].number(), 2 * next, 0.001);
        EXPECT_EQ(run["known_still"].text(), still);
    }
    ASSERT_TRUE(add(log).done);
    const NamedSheet run(log, "Run 9");
    EXPECT_NEAR(run["known_stages"].number(), mean, 0.0005);
    EXPECT_GE(run["known_range"].number(), 2 * next) << "rather wider";
    EXPECT_NEAR(run["known_range"].number(), 2 * next, 0.001);
    EXPECT_EQ(run["known_still"].text(), still);
    EXPECT_EQ(run["stages"].text(), "") << "the box is left to the person";
    const auto counts = [&](const char* name) {
        return run.at("P", run.row(name)).number(); // beside the page
    };
    EXPECT_EQ(counts("stages"), run["known_stages"].number());
    EXPECT_NEAR(run["stages_high"].number() - run["stages_low"].number(),
                2 * run["known_range"].number(), 1e-12);
    // Of another still nothing is known.
    run["run_still"].set_text("Another pot");
    EXPECT_EQ(counts("stages"), 1.15);
    EXPECT_NEAR(run["stages_high"].number(), 1.4, 1e-12);
    run["run_still"].set_text(still);
    run["stages"].set_number(1.3);
    EXPECT_EQ(counts("stages"), 1.3) << "the box decides";
    run["known_stages"].set_text("x"); // cannot be used: it is named, and does not count
    run["stages"].set_text("");
    EXPECT_EQ(counts("stages"), 1.15);
    EXPECT_NE(run["boxes_check"].text(), "");
    EXPECT_EQ(errors(run.sheet().used()), "");
}

} // namespace
} // namespace jarbook::e2e
