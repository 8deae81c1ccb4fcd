// A drag of blank boxes over a box, undone: every row notices that its box has its value back.
// LibreOffice 7.4 tells only those who listen to where the blank boxes came from.
#include "boxes.hpp"
#include "run_log/run_log_support.hpp"

#include <algorithm>

#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <gtest/gtest.h>

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

// Every cell that is not locked.
std::vector<table::CellRangeAddress> boxes_of(const office::Sheet& sheet) {
    return shared_office().call("looking for boxes", [&] {
        std::vector<table::CellRangeAddress> boxes;
        for (const auto& area : office::open_areas(sheet.used().uno()))
            for (sal_Int32 row = area.StartRow; row <= area.EndRow; ++row)
                for (sal_Int32 column = area.StartColumn; column <= area.EndColumn; ++column)
                    boxes.emplace_back(area.Sheet, column, row, column, row);
        return boxes;
    });
}

void drag(const office::Sheet& sheet, const table::CellRangeAddress& from,
          const table::CellRangeAddress& to) {
    shared_office().call("dragging", [&] {
        uno::Reference<sheet::XCellRangeMovement>(sheet.uno(), uno::UNO_QUERY_THROW)
            ->moveRange({to.Sheet, to.StartColumn, to.StartRow}, from);
    });
}

void each_box_comes_back(const office::Document& document, const std::string& name) {
    const office::Sheet sheet = document.sheet(name);
    const auto boxes = boxes_of(sheet);
    const auto before = contents(sheet.used());
    const auto there = [&](const table::CellRangeAddress& box) {
        return before[static_cast<std::size_t>(box.StartRow)]
                     [static_cast<std::size_t>(box.StartColumn)];
    };
    const auto is_blank = [&](const table::CellRangeAddress& box) {
        return there(box) == std::variant<double, std::string>("");
    };
    int tried = 0;
    for (const auto& box : boxes) {
        const auto blank = std::find_if(boxes.rbegin(), boxes.rend(), [&](const auto& other) {
            return other.StartColumn != box.StartColumn && is_blank(other);
        });
        ASSERT_NE(blank, boxes.rend());
        if (is_blank(box))
            continue;
        drag(sheet, *blank, box);
        ASSERT_NE(describe_differences(contents(sheet.used()), before), "");
        undo(document);
        ASSERT_EQ(describe_differences(contents(sheet.used()), before), "")
            << "column " << box.StartColumn << ", row " << box.StartRow + 1;
        ++tried;
    }
    EXPECT_GT(tried, 10);
}

TEST(Undo, OfADragOverABoxOfARunSheetIsNoticed) {
    each_box_comes_back(open_worked_example(), "Run 8");
}

TEST(Undo, OfADragOverABoxOfTheSeasonPlanIsNoticed) {
    each_box_comes_back(open_worked_example(), "Season plan");
}

TEST(Undo, OfADragOverABoxOfInstrumentsIsNoticed) {
    each_box_comes_back(open_worked_example(), "Instruments");
}

} // namespace
} // namespace jarbook::e2e
