// Mend the boxes: what pasting does to a box is found and made good, and what is in it stays.
#include "run_log/run_log_support.hpp"

#include "text.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/CellProtection.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <gtest/gtest.h>
#include <sstream>

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

const std::string run = "Run 1";

// Cells of another sheet pasted with all they bring.
void paste(const office::Document& document, const office::Range& from, const std::string& to) {
    shared_office().call("pasting", [&] {
        const auto address = [](const uno::Reference<uno::XInterface>& cells) {
            return uno::Reference<sheet::XCellRangeAddressable>(cells, uno::UNO_QUERY_THROW)
                ->getRangeAddress();
        };
        const auto target = address(document.sheet(run).range(to).uno());
        const uno::Reference<sheet::XCellRangeMovement> sheet(document.sheet(run).uno(),
                                                              uno::UNO_QUERY_THROW);
        sheet->copyRange(table::CellAddress(target.Sheet, target.StartColumn, target.StartRow),
                         address(from.uno()));
    });
}

void set_property(const office::Range& cells, const char* name, const uno::Any& value) {
    shared_office().call("formatting", [&] {
        uno::Reference<beans::XPropertySet>(cells.uno(), uno::UNO_QUERY_THROW)
            ->setPropertyValue(rtl::OUString::createFromAscii(name), value);
    });
}

// Everything of a cell that is not its content.
std::string look_of(const office::Cell& cell) {
    return shared_office().call("looking at a cell", [&] {
        const uno::Reference<beans::XPropertySet> properties(cell.uno(), uno::UNO_QUERY_THROW);
        std::ostringstream look;
        rtl::OUString style;
        properties->getPropertyValue("CellStyle") >>= style;
        util::CellProtection protection;
        properties->getPropertyValue("CellProtection") >>= protection;
        sal_Int32 colour = 0;
        properties->getPropertyValue("CellBackColor") >>= colour;
        sal_Int32 format = 0;
        properties->getPropertyValue("NumberFormat") >>= format;
        float weight = 0;
        properties->getPropertyValue("CharWeight") >>= weight;
        const uno::Reference<beans::XPropertySet> check(properties->getPropertyValue("Validation"),
                                                        uno::UNO_QUERY_THROW);
        rtl::OUString help;
        check->getPropertyValue("InputMessage") >>= help;
        look << office::to_utf8(style) << "|" << bool(protection.IsLocked) << "|" << colour << "|"
             << format << "|" << weight << "|" << office::to_utf8(help);
        return look.str();
    });
}

class MendBoxes : public testing::Test {
protected:
    MendBoxes() : log(open_blank_run_log()), sheet(log, run) {
        first = rows_of(sheet, "jar_amount").first;
    }
    std::string box(const std::string& name, int jar) const {
        return column_of(sheet, name) + std::to_string(first + jar);
    }
    std::string look(const std::string& cell) const { return look_of(sheet.sheet().cell(cell)); }

    office::Document log;
    NamedSheet sheet;
    int first = 0;
};

TEST_F(MendBoxes, WhatAPasteBringsGoesAndTheValuesStay) {
    office::Sheet elsewhere = log.add_sheet("Elsewhere");
    elsewhere.cell("A1").set_number(480);
    elsewhere.cell("B1").set_number(66.8);
    elsewhere.cell("A2").set_text("31,5");
    set_property(elsewhere.range("A1:B2"), "CharWeight", uno::Any(150.0f));
    set_property(elsewhere.range("A1:B2"), "CellBackColor", uno::Any(sal_Int32(0xffcc00)));
    set_property(elsewhere.range("B1:B1"), "NumberFormat", uno::Any(sal_Int32(10)));
    const std::string amount = box("jar_amount", 2);
    const std::string reading = box("jar_reading", 3);
    const std::string sound = look(amount);
    const std::string sound_reading = look(reading);

    EXPECT_EQ(check_sheet(log, 1).size(), 0u);
    const Said nothing = call_at(log, run, "A1", "mendBoxes");
    EXPECT_TRUE(nothing.done);
    EXPECT_NE(nothing.text.find("as they should be"), std::string::npos) << nothing.text;

    paste(log, elsewhere.range("A1:B2"), amount);
    EXPECT_NE(look(amount), sound);
    EXPECT_TRUE(has_finding(check_sheet(log, 1), amount, "odd", "Mend the boxes"));
    const auto before = contents(sheet.sheet().used());
    const auto steps = undo_titles(log).size();
    const Said said = call_at(log, run, "A1", "mendBoxes");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_NE(said.text.find("4 boxes"), std::string::npos) << said.text;
    EXPECT_NE(said.text.find(amount), std::string::npos) << said.text;
    EXPECT_EQ(look(amount), sound);
    EXPECT_EQ(look(reading), sound_reading);
    EXPECT_EQ(describe_differences(contents(sheet.sheet().used()), before), "");
    EXPECT_TRUE(is_protected(sheet.sheet()));
    EXPECT_EQ(undo_titles(log).size(), steps + 1);
    EXPECT_EQ(check_sheet(log, 1).size(), 0u);

    undo(log);
    EXPECT_NE(look(amount), sound);
    EXPECT_TRUE(has_finding(check_sheet(log, 1), amount, "odd", "Mend the boxes"));
}

TEST_F(MendBoxes, LockedMergedAndWithoutTheirMark) {
    unprotect(sheet.sheet(), "");
    const std::string locked = box("jar_temperature", 4);
    const std::string lot =
        column_of(sheet, "lot_volume") + std::to_string(rows_of(sheet, "lot_volume").first + 1);
    const std::string single = sheet.address("bottling_strength");
    set_property(sheet.sheet().range(locked + ":" + locked), "CellProtection",
                 uno::Any(util::CellProtection(true, false, false, false)));
    set_property(sheet.sheet().range(lot + ":" + lot), "CellStyle",
                 uno::Any(rtl::OUString("Default")));
    set_property(sheet.sheet().range(single + ":" + single), "CellBackColor",
                 uno::Any(sal_Int32(0)));
    const std::string apart = box("jar_amount", 6);
    shared_office().call("merging", [&] {
        uno::Reference<util::XMergeable>(
            sheet.sheet().range(apart + ":" + box("jar_reading", 6)).uno(), uno::UNO_QUERY_THROW)
            ->merge(true);
    });
    protect(sheet.sheet(), "");
    const Said said = call_at(log, run, "A1", "mendBoxes");
    ASSERT_TRUE(said.done) << said.text;
    for (const std::string& cell : {locked, lot, single, apart})
        EXPECT_NE(said.text.find(cell), std::string::npos) << cell << " in " << said.text;
    EXPECT_EQ(check_sheet(log, 1).size(), 0u);
    EXPECT_EQ(look(locked), look(box("jar_temperature", 5)));
}

TEST_F(MendBoxes, OnASheetWithMoreJarsAndWithoutNames) {
    ASSERT_TRUE(
        call_at(log, run, box("jar_amount", 3) + ":" + box("jar_amount", 7), "insertJar").done);
    office::Sheet elsewhere = log.add_sheet("Elsewhere");
    paste(log, elsewhere.range("A1:C1"), box("jar_amount", 33));
    paste(log, elsewhere.range("A1:A1"), NamedSheet(log, run).address("bottling_strength"));
    const std::string bottling = NamedSheet(log, run).address("bottling_strength");
    const auto names = local_names(sheet.sheet());
    remove_local_names(sheet.sheet());
    EXPECT_TRUE(has_finding(check_sheet(log, 1), "A1", "odd", "names"));
    const Said said = call_at(log, run, "A1", "mendBoxes");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_NE(said.text.find("4 boxes"), std::string::npos) << said.text;
    EXPECT_NE(said.text.find(bottling), std::string::npos) << said.text;
    EXPECT_NE(said.text.find("names"), std::string::npos) << said.text;
    const auto mended = local_names(sheet.sheet());
    for (const auto& [name, cells] : names) {
        ASSERT_TRUE(mended.contains(name)) << name;
        // Where a button leads: a jar, which moved down when others were inserted before it.
        if (name != "page_still") {
            EXPECT_EQ(mended.at(name), cells) << name;
        }
    }
    EXPECT_EQ(mended.size(), names.size());
    EXPECT_EQ(check_sheet(log, 1).size(), 0u);
}

// A name is there, but its cells are gone.
TEST_F(MendBoxes, ANameWithoutItsCells) {
    const auto names = local_names(sheet.sheet());
    point_nowhere(sheet.sheet(), {"kept_strength", "bottling_strength"});
    ASSERT_NE(local_names(sheet.sheet()), names);
    EXPECT_TRUE(has_finding(check_sheet(log, 1), "A1", "odd", "names"));
    const Said said = call_at(log, run, "A1", "mendBoxes");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_EQ(local_names(sheet.sheet()), names);
}

TEST_F(MendBoxes, WhereItCannotItSaysWhy) {
    EXPECT_TRUE(refused(call_at(log, "Guide", "A1", "mendBoxes"), "no run sheet"));
    // Rows inserted by hand, above the jars.
    unprotect(sheet.sheet(), "");
    shared_office().call("inserting a row", [&] {
        const uno::Reference<table::XColumnRowRange> both(sheet.sheet().uno(),
                                                          uno::UNO_QUERY_THROW);
        both->getRows()->insertByIndex(1, 1);
    });
    EXPECT_TRUE(refused(call_at(log, run, "A1", "mendBoxes"), "by hand"));
}

} // namespace
} // namespace jarbook::e2e
