// Where a cell is, and how that is written for people.
#pragma once

#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/table/CellRangeAddress.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <compare>
#include <optional>
#include <string>

namespace jarbook::menu {

using Document = com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>;

// Counted from 0.
struct Place {
    sal_Int32 sheet = 0;
    sal_Int32 column = 0;
    sal_Int32 row = 0;
    auto operator<=>(const Place&) const = default;
};

// Both corners belong to it; on one sheet, unless a formula refers to the same cells of several.
struct Area {
    Place first;
    Place last;
    sal_Int32 columns() const { return last.column - first.column + 1; }
    sal_Int32 rows() const { return last.row - first.row + 1; }
    bool single() const { return first == last; }
    bool contains(const Place& place) const;
};

Area area_of(const com::sun::star::table::CellRangeAddress& address);

com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheet>
sheet_at(const Document& document, sal_Int32 sheet);
com::sun::star::uno::Reference<com::sun::star::table::XCell> cell_at(const Document& document,
                                                                     const Place& place);
com::sun::star::uno::Reference<com::sun::star::table::XCellRange> range_at(const Document& document,
                                                                           const Area& area);

// "D12".
std::string short_name(const Place& place);
// "D12" seen from the same sheet, "Run 3.D12" from another.
std::string name_seen_from(const Document& document, const Place& place, sal_Int32 from_sheet);
// "D12:D20", or "D12" for one cell; with its sheet likewise.
std::string name_seen_from(const Document& document, const Area& area, sal_Int32 from_sheet);

// The area that an address such as "$'Run 3'.$D$12" names, or "D12" on the sheet given; nothing if
// it names none of this document.
std::optional<Area> area_named(const Document& document, const std::string& address,
                               sal_Int32 on_sheet);

std::string sheet_name(const Document& document, sal_Int32 sheet);
com::sun::star::uno::Any sheet_property(const Document& document, sal_Int32 sheet,
                                        const char* name);

} // namespace jarbook::menu
