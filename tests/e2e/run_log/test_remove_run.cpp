// Remove this run: a run's sheet and its row, never the last; and rows whose sheet is gone.
#include "run_log/run_log_support.hpp"

#include <algorithm>
#include <com/sun/star/util/XProtectable.hpp>
#include <gtest/gtest.h>

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

int entries(const office::Document& log) {
    NamedSheet book(log, register_sheet(log));
    const auto [first, last] = rows_of(book, "register");
    return last - first;
}

std::string title_in_row(const office::Document& log, int entry) {
    NamedSheet book(log, register_sheet(log));
    return book.at("A", rows_of(book, "register").first + entry).text();
}

TEST(RemoveRun, TheSheetAndItsRow) {
    office::Document log = open_blank_run_log();
    ASSERT_TRUE(call_command(log, "addRun").done);
    ASSERT_TRUE(call_at(log, "Guide", "A1", "addRun").done);
    ASSERT_EQ(entries(log), 3);
    const Said said = call_at(log, "Run 2", "C60", "removeRun");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_NE(said.text.find("Run 2"), std::string::npos) << said.text;
    const auto names = log.sheet_names();
    EXPECT_EQ(std::count(names.begin(), names.end(), "Run 2"), 0);
    ASSERT_EQ(entries(log), 2);
    EXPECT_EQ(title_in_row(log, 0), "Run 1");
    EXPECT_EQ(title_in_row(log, 1), "Run 3");
    EXPECT_TRUE(is_protected(log.sheet(register_sheet(log))));
    EXPECT_EQ(errors(log.sheet(register_sheet(log)).used()), "");
    EXPECT_EQ(undo_titles(log).size(), 0u) << "they would meet other sheets";

    // The first, and then not the last.
    ASSERT_TRUE(call_at(log, "Run 1", "A1", "removeRun").done);
    EXPECT_EQ(title_in_row(log, 0), "Run 3");
    const auto before = log.sheet_names();
    EXPECT_TRUE(refused(call_at(log, "Run 3", "A1", "removeRun"), "last run"));
    EXPECT_EQ(log.sheet_names(), before);
    // The register still takes runs.
    ASSERT_TRUE(call_at(log, "Run 3", "A1", "addRun").done);
    EXPECT_EQ(title_in_row(log, 1), "Run 4");
    EXPECT_EQ(errors(log.sheet(register_sheet(log)).used()), "");
}

TEST(RemoveRun, WhereItCannotItSaysWhy) {
    office::Document log = open_blank_run_log();
    ASSERT_TRUE(call_command(log, "addRun").done);
    const auto names = log.sheet_names();
    EXPECT_TRUE(refused(call_at(log, "Guide", "A1", "removeRun"), "no run sheet"));
    const std::string book = register_sheet(log);
    EXPECT_TRUE(refused(call_at(log, book, "A1", "removeRun"), "Go to the sheet"));
    const int row = rows_of(NamedSheet(log, book), "register").first;
    EXPECT_TRUE(refused(call_at(log, book, "A" + std::to_string(row), "removeRun"), "belongs to"));
    unprotect(log.sheet(book), "");
    protect(log.sheet(book), "mine");
    EXPECT_TRUE(refused(call_at(log, "Run 2", "A1", "removeRun"), "password"));
    EXPECT_EQ(log.sheet_names(), names);
    unprotect(log.sheet(book), "mine");
    protect(log.sheet(book), "");
    shared_office().call("protecting the structure", [&] {
        uno::Reference<util::XProtectable>(log.uno(), uno::UNO_QUERY_THROW)->protect("");
    });
    EXPECT_TRUE(refused(call_at(log, "Run 2", "A1", "removeRun"), "structure"));
    EXPECT_EQ(log.sheet_names(), names);
}

TEST(RemoveRun, ASheetRemovedByHandIsNoticed) {
    office::Document log = open_blank_run_log();
    ASSERT_TRUE(call_command(log, "addRun").done);
    remove_sheet(log, "Run 1");
    const std::string book = register_sheet(log);
    const int row = rows_of(NamedSheet(log, book), "register").first;
    const std::string cell = "A" + std::to_string(row);
    const auto index = [&] {
        const auto names = log.sheet_names();
        return int(std::find(names.begin(), names.end(), book) - names.begin());
    };
    EXPECT_TRUE(has_finding(check_sheet(log, index()), cell, "odd", "Remove this run"));
    const auto steps = undo_titles(log).size();
    const Said said = call_at(log, book, cell, "removeRun");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_EQ(entries(log), 1);
    EXPECT_EQ(title_in_row(log, 0), "Run 2");
    EXPECT_EQ(undo_titles(log).size(), steps + 1);
    EXPECT_FALSE(has_finding(check_sheet(log, index()), cell, "odd", "Remove this run"));
    undo(log);
    EXPECT_EQ(entries(log), 2);
}

TEST(RemoveRun, ADuplicateIsNoticedAndGetsItsRow) {
    office::Document log = open_blank_run_log();
    duplicate_sheet(log, "Run 1", "Run 1_2");
    NamedSheet copy(log, "Run 1_2");
    EXPECT_TRUE(has_finding(check_sheet(log, 2), copy.address("run_title"), "odd", "no row"));
    EXPECT_FALSE(has_finding(check_sheet(log, 1), "B1", "odd", "no row"));
    copy["run_title"].set_text("The same again");
    const auto sheets = log.sheet_names();
    const auto steps = undo_titles(log).size();
    const Said said = call_at(log, "Run 1_2", "A1", "addRun");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_EQ(log.sheet_names(), sheets) << "only the row was missing";
    ASSERT_EQ(entries(log), 2);
    EXPECT_EQ(title_in_row(log, 1), "The same again");
    EXPECT_EQ(undo_titles(log).size(), steps + 1);
    EXPECT_FALSE(has_finding(check_sheet(log, 2), copy.address("run_title"), "odd", "no row"));
    undo(log);
    EXPECT_EQ(entries(log), 1);
}

} // namespace
} // namespace jarbook::e2e
