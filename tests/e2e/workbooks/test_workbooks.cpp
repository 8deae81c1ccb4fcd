// The packed workbooks: blank they are calm, filled they are free of errors, stored they stay
// equal, and the published values beside ours are within their tolerances.
#include <algorithm>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <com/sun/star/util/CellProtection.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <com/sun/star/view/XRenderable.hpp>
#include <filesystem>
#include <gtest/gtest.h>
#include <unistd.h>

#include "support/support.hpp"
#include "text.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using office::Document;

bool is_run_sheet(const Document& document, const std::string& name) {
    return local_names(document.sheet(name)).contains("run_title");
}

std::string cell_name(std::size_t column, std::size_t row) {
    std::string letters;
    for (std::size_t rest = column + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return letters + std::to_string(row + 1);
}

bool is_formula(const std::string& text) {
    return text.starts_with("=") || text.starts_with("{=");
}

// Equal texts, and numbers but for what the file's digits of a clock time leave out (1e-12), and
// but for chances so small that they stand for none.
bool is_same(const std::variant<double, std::string>& one,
             const std::variant<double, std::string>& two) {
    const double* a = std::get_if<double>(&one);
    const double* b = std::get_if<double>(&two);
    return a && b ? std::fabs(*a - *b) <= 1e-12 * std::fabs(*a) + 1e-30 : one == two;
}

class Workbooks : public testing::Test {
protected:
    static void expect_no_errors(const Document& document) {
        for (const std::string& name : document.sheet_names())
            EXPECT_EQ(errors(document.sheet(name).used()), "");
    }
};

TEST_F(Workbooks, BlankRunLogIsCalm) {
    const Document document = open_blank_run_log();
    expect_no_errors(document);
    // On the pages nothing that is computed shows a number yet, but for the numbers of lots and
    // jars.
    const office::Range page = document.sheet("Run 1").range(
        "A1:N" + std::to_string(NamedSheet(document, "Run 1").row("look_all")));
    const auto values = contents(page);
    const auto texts = formulas(page);
    for (std::size_t r = 0; r < values.size(); ++r)
        for (std::size_t c = 1; c < values[r].size(); ++c)
            if (const double* number = std::get_if<double>(&values[r][c])) {
                EXPECT_FALSE(is_formula(texts[r][c])) << cell_name(c, r) << " shows " << *number;
            }
}

TEST_F(Workbooks, WorkedExampleHasNoErrors) {
    Document document = open_worked_example();
    expect_no_errors(document);
    // What was computed on opening is what is computed from scratch.
    std::vector<office::Rows<std::variant<double, std::string>>> opened;
    int runs = 0;
    for (const std::string& name : document.sheet_names()) {
        runs += is_run_sheet(document, name);
        opened.push_back(contents(document.sheet(name).used()));
    }
    EXPECT_GE(runs, 6);
    document.hard_recalculate();
    expect_no_errors(document);
    for (const auto& before : opened) {
        const std::string name =
            document.sheet_names()[static_cast<std::size_t>(&before - &opened[0])];
        EXPECT_EQ(contents(document.sheet(name).used()), before) << name;
    }
}

TEST_F(Workbooks, PublishedValuesAreWithinTheirTolerances) {
    const Document document = open_worked_example();
    const NamedSheet tables(document, "Printed tables");
    EXPECT_TRUE(tables["printed_verdict"].text().starts_with("yes, all "))
        << tables["printed_verdict"].text();
}

TEST_F(Workbooks, OddReadingIsQueried) {
    const Document document = open_worked_example();
    const NamedSheet run(document, "Run 7");
    EXPECT_EQ(run["jars_odd"].number(), 2); // the low jar and the one after it, which seems to rise
    EXPECT_FALSE(run["odd_check"].text().empty());
    EXPECT_EQ(run["queries"].number(), 3); // and the boiler, that comes first
    EXPECT_TRUE(run["look"].text().starts_with("Boiler falls to ")) << run["look"].text();
    const NamedSheet calm(document, "Run 1");
    EXPECT_EQ(calm["queries"].number(), 0);
    EXPECT_EQ(calm["odd_check"].text(), "");
    EXPECT_EQ(calm["look"].text(), "No caution from these figures. Stay with the still.");
}

TEST_F(Workbooks, TooFullABoilerIsCautioned) {
    const Document document = open_worked_example();
    EXPECT_NE(NamedSheet(document, "Run 6")["charge_check"].text().find("three quarters"),
              std::string::npos);
    EXPECT_EQ(NamedSheet(document, "Run 1")["charge_check"].text(), "");
}

TEST_F(Workbooks, BalanceTellsWhatTheInstrumentsExplain) {
    const Document document = open_worked_example();
    EXPECT_EQ(NamedSheet(document, "Run 1")["balance_verdict"].text(),
              "Explained by the measuring uncertainty.");
    EXPECT_EQ(NamedSheet(document, "Run 4")["balance_verdict"].text(), // a jar was tipped over
              "More is missing than the instruments explain.");
}

TEST_F(Workbooks, RunSummaryIsNamed) {
    const Document document = open_worked_example();
    const office::Range summary = document.named_range("RunSummary");
    EXPECT_EQ(summary.columns(), 3);
    for (const auto& row : summary.values()) {
        EXPECT_TRUE(std::holds_alternative<std::string>(row[0]));
        EXPECT_TRUE(std::holds_alternative<double>(row[1])) << describe(row[0]);
    }
}

TEST_F(Workbooks, RunsHasARowForEveryRun) {
    const Document document = open_worked_example();
    const NamedSheet runs(document, "Runs");
    const office::Range rows = runs.sheet().range(runs.address("register"));
    std::size_t row = 0;
    for (const std::string& name : document.sheet_names()) {
        if (!is_run_sheet(document, name))
            continue;
        const NamedSheet run(document, name);
        const auto shown = rows.values()[row++];
        EXPECT_EQ(describe(shown[0]), describe(run["run_title"].value()));
        EXPECT_EQ(describe(shown[9]), describe(run["charge_alcohol"].value()));
        // One that is still running has no recovery yet, and is drawn nowhere.
        const bool finished = name != "Run 8";
        EXPECT_EQ(describe(shown[5]), finished ? "\"finished\"" : "\"under way\"") << name;
        EXPECT_EQ(describe(shown[11]), finished ? describe(run["sum_recovery"].value()) : "\"\"")
            << name;
        EXPECT_EQ(describe(shown[27]), describe(shown[11])) << name << ", as drawn";
    }
    EXPECT_EQ(static_cast<int>(row) + 1, rows.rows()); // and the closing row
}

TEST_F(Workbooks, RunsSaysWhichRunIsGone) {
    Document document = open_worked_example();
    const NamedSheet runs(document, "Runs");
    const auto cells = [&](int row) {
        return runs.sheet()
            .range("A" + std::to_string(row) + ":AV" + std::to_string(row))
            .values()
            .front();
    };
    const int first = runs.row("register");
    const auto before = cells(first);
    const auto names = document.sheet_names();
    shared_office().call("deleting " + names[2], [&] {
        const uno::Reference<sheet::XSpreadsheetDocument> book(document.uno(),
                                                               uno::UNO_QUERY_THROW);
        book->getSheets()->removeByName(office::to_uno(names[2]));
    });
    document.hard_recalculate();
    EXPECT_EQ(describe(cells(first + 1)[0]), "\"gone\"");
    EXPECT_EQ(describe(cells(first + 1)[5]), "\"gone\"");
    EXPECT_EQ(errors(runs.sheet().used()), "");
    EXPECT_EQ(describe(cells(first)[9]), describe(before[9]));
}

TEST_F(Workbooks, StoredAndOpenedAgainIsEqual) {
    const Document before = open_worked_example();
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-workbook-" + std::to_string(getpid()) + ".ods");
    before.save(file);
    const Document after = shared_office().open(file);
    std::filesystem::remove(file);
    ASSERT_EQ(after.sheet_names(), before.sheet_names());
    for (const std::string& name : before.sheet_names()) {
        const office::Range first = before.sheet(name).used();
        const office::Range second = after.sheet(name).used();
        EXPECT_EQ(formulas(second), formulas(first)) << name;
        const auto one = contents(first);
        const auto two = contents(second);
        ASSERT_EQ(two.size(), one.size()) << name;
        for (std::size_t r = 0; r < one.size(); ++r)
            for (std::size_t c = 0; c < one[r].size(); ++c)
                EXPECT_TRUE(is_same(two[r][c], one[r][c])) << name << "." << cell_name(c, r);
        EXPECT_EQ(local_names(after.sheet(name)), local_names(before.sheet(name)));
    }
}

TEST_F(Workbooks, SheetsPrintOnTheirPages) {
    const auto expect_pages = [](const Document& document, const std::string& name, int least,
                                 int most) {
        shared_office().call("looking at the pages of " + name, [&] {
            const office::Sheet sheet = document.sheet(name);
            const uno::Reference<sheet::XPrintAreas> print(sheet.uno(), uno::UNO_QUERY_THROW);
            const auto areas = print->getPrintAreas();
            const uno::Reference<table::XCellRange> cells(sheet.uno(), uno::UNO_QUERY_THROW);
            const uno::Reference<view::XRenderable> pages(document.uno(), uno::UNO_QUERY_THROW);
            int count = 0;
            for (const auto& area : areas)
                count += pages->getRendererCount(
                    uno::Any(cells->getCellRangeByPosition(area.StartColumn, area.StartRow,
                                                           area.EndColumn, area.EndRow)),
                    {});
            EXPECT_GE(count, least) << name;
            EXPECT_LE(count, most) << name;
        });
    };
    const Document example = open_worked_example();
    for (const std::string& name : example.sheet_names())
        if (is_run_sheet(example, name))
            // The jars two; Before and After one each, two with their folds open.
            expect_pages(example, name, 4, 6);
    const Document blank = open_blank_run_log();
    expect_pages(blank, "Run 1", 4, 4); // Before, jars for thirty, After
    expect_pages(blank, "Guide", 2, 3);
    expect_pages(blank, "Runs", 1, 1);
    expect_pages(blank, "Instruments", 2, 2);
    expect_pages(example, "Instruments", 2, 2);
    expect_pages(example, "Runs", 1, 1);
    expect_pages(blank, "Shelf", 3, 3);
    expect_pages(example, "Shelf", 3, 3);
    expect_pages(example, "Guide", 2, 3);
}

// A link that leads nowhere on the page stops LibreOffice 7.4 from writing a .pdf of a workbook
// that has no file yet.
TEST_F(Workbooks, ANewRunLogGoesIntoAPdfBeforeItIsSaved) {
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-workbook-" + std::to_string(getpid()) + ".pdf");
    const Document blank = open_blank_run_log();
    EXPECT_NO_THROW(blank.save(file));
    EXPECT_GT(std::filesystem::file_size(file), 20000u);
    std::filesystem::remove(file);
}

TEST_F(Workbooks, OnlyInputsAreOpen) {
    const Document document = open_blank_run_log();
    for (const std::string& name : document.sheet_names())
        shared_office().call("looking at the protection of " + name, [&] {
            const uno::Reference<util::XProtectable> sheet(document.sheet(name).uno(),
                                                           uno::UNO_QUERY_THROW);
            EXPECT_TRUE(sheet->isProtected()) << name;
            EXPECT_NO_THROW(sheet->unprotect({})) << name << " asks for a password";
        });
    const NamedSheet run(document, "Run 1");
    for (const auto& [name, address] : local_names(run.sheet())) {
        if (address.find(':') != std::string::npos || name.ends_with("_top") ||
            name.ends_with("_foot") || name.starts_with("page_"))
            continue; // columns, the thin rows that close them, where buttons lead
        shared_office().call("looking at " + name, [&] {
            const uno::Reference<beans::XPropertySet> cell(run[name].uno(), uno::UNO_QUERY_THROW);
            rtl::OUString style;
            cell->getPropertyValue("CellStyle") >>= style;
            util::CellProtection protection;
            cell->getPropertyValue("CellProtection") >>= protection;
            EXPECT_EQ(!protection.IsLocked, style.startsWith("Jarbook input")) << name;
            EXPECT_EQ(protection.IsLocked, is_formula(run[name].formula())) << name;
        });
    }
}

} // namespace
} // namespace jarbook::e2e
