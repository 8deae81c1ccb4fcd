#include "uno/document/cell_address.hpp"

#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

bool Area::contains(const Place& place) const {
    return place.sheet >= first.sheet && place.sheet <= last.sheet &&
           place.column >= first.column && place.column <= last.column && place.row >= first.row &&
           place.row <= last.row;
}

Area area_of(const table::CellRangeAddress& address) {
    return {{address.Sheet, address.StartColumn, address.StartRow},
            {address.Sheet, address.EndColumn, address.EndRow}};
}

uno::Reference<sheet::XSpreadsheet> sheet_at(const Document& document, sal_Int32 sheet) {
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    return {sheets->getByIndex(sheet), uno::UNO_QUERY_THROW};
}

uno::Reference<table::XCell> cell_at(const Document& document, const Place& place) {
    return sheet_at(document, place.sheet)->getCellByPosition(place.column, place.row);
}

uno::Reference<table::XCellRange> range_at(const Document& document, const Area& area) {
    return sheet_at(document, area.first.sheet)
        ->getCellRangeByPosition(area.first.column, area.first.row, area.last.column,
                                 area.last.row);
}

std::string sheet_name(const Document& document, sal_Int32 sheet) {
    const uno::Reference<container::XNamed> named(sheet_at(document, sheet), uno::UNO_QUERY_THROW);
    return utf8(named->getName());
}

uno::Any sheet_property(const Document& document, sal_Int32 sheet, const char* name) {
    const uno::Reference<beans::XPropertySet> properties(sheet_at(document, sheet),
                                                         uno::UNO_QUERY_THROW);
    return properties->getPropertyValue(rtl::OUString::createFromAscii(name));
}

std::optional<Area> area_named(const Document& document, const std::string& address,
                               sal_Int32 on_sheet) {
    const std::size_t dot = address.rfind('.');
    uno::Reference<sheet::XSpreadsheet> sheet;
    if (dot == std::string::npos) {
        sheet = sheet_at(document, on_sheet);
    } else {
        std::string name = address.substr(0, dot);
        if (name.starts_with('$'))
            name.erase(0, 1);
        if (name.size() >= 2 && name.front() == '\'' && name.back() == '\'') {
            name = name.substr(1, name.size() - 2);
            for (std::size_t at = name.find("''"); at != std::string::npos;
                 at = name.find("''", at + 1))
                name.erase(at, 1);
        }
        const auto sheets = document->getSheets();
        if (!sheets->hasByName(ustring(name)))
            return std::nullopt;
        sheet.set(sheets->getByName(ustring(name)), uno::UNO_QUERY_THROW);
    }
    try {
        const uno::Reference<sheet::XCellRangeAddressable> range(
            sheet->getCellRangeByName(
                ustring(dot == std::string::npos ? address : address.substr(dot + 1))),
            uno::UNO_QUERY_THROW);
        return area_of(range->getRangeAddress());
    } catch (const uno::RuntimeException&) {
        return std::nullopt;
    }
}

std::string short_name(const Place& place) {
    std::string letters;
    for (sal_Int32 left = place.column + 1; left > 0; left = (left - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (left - 1) % 26));
    return letters + std::to_string(place.row + 1);
}

namespace {
std::string prefix(const Document& document, sal_Int32 sheet, sal_Int32 from_sheet) {
    return sheet == from_sheet ? "" : sheet_name(document, sheet) + ".";
}
} // namespace

std::string name_seen_from(const Document& document, const Place& place, sal_Int32 from_sheet) {
    return prefix(document, place.sheet, from_sheet) + short_name(place);
}

std::string name_seen_from(const Document& document, const Area& area, sal_Int32 from_sheet) {
    std::string name = name_seen_from(document, area.first, from_sheet);
    if (area.first.column != area.last.column || area.first.row != area.last.row)
        name += ":" + short_name(area.last);
    return name;
}

} // namespace jarbook::menu
