#include "uno/formula/scratch_document.hpp"

#include "uno/document/cell_value.hpp"
#include "uno/formula/formula_tree.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/ComplexReference.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/SingleReference.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// What decides how the office computes: dates, searches, iterations.
void take_over_settings(const Document& from, const Document& to) {
    const uno::Reference<beans::XPropertySet> source(from, uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> target(to, uno::UNO_QUERY_THROW);
    for (const char* name :
         {"IsIterationEnabled", "IterationCount", "IterationEpsilon", "NullDate", "IgnoreCase",
          "CalcAsShown", "MatchWholeCell", "RegularExpressions", "Wildcards"}) {
        const rtl::OUString property = rtl::OUString::createFromAscii(name);
        target->setPropertyValue(property, source->getPropertyValue(property));
    }
}

} // namespace

ScratchDocument::ScratchDocument(const Context& context, const Document& source,
                                 const OpCodes& codes)
    : source_(source), codes_(codes),
      scratch_(HiddenDocument::empty(context)), find_cells_{codes.name, codes.database_area,
                                                            codes.array_part},
      range_operator_(codes.function(":")) {
    take_over_settings(source_, scratch_.document());
    scratch_.only_compute();
    for (const char* name :
         {"INDIRECT", "OFFSET", "SHEET", "SHEETS", "CELL", "FORMULA", "ISFORMULA", "SUBTOTAL",
          "AGGREGATE", "GETPIVOTDATA", "TABLE", "MULTIPLE.OPERATIONS", "INFO", "STYLE", "CURRENT"})
        find_cells_.insert(codes.function(name));
}

bool ScratchDocument::suffices(const Tokens& tokens) const {
    const bool sufficient = std::none_of(tokens.begin(), tokens.end(), [&](const Token& token) {
        if (find_cells_.contains(token.OpCode))
            return true;
        if (token.OpCode != codes_.push || token.Data.getValueTypeClass() != uno::TypeClass_STRUCT)
            return false;
        // Into another document, over several sheets, or to cells that were deleted.
        const auto area = menu::area_of(token.Data);
        return !area || area->first.sheet != area->last.sheet;
    });
    if (!sufficient || !joins_cells(tokens))
        return sufficient;
    constexpr sal_Int64 most_cells = 100000; // more are not worth copying
    for (const auto& [sheet, area] : around(tokens))
        if (sal_Int64{area.rows()} * area.columns() > most_cells)
            return false;
    return true;
}

bool ScratchDocument::joins_cells(const Tokens& tokens) const {
    return std::any_of(tokens.begin(), tokens.end(),
                       [&](const Token& token) { return token.OpCode == range_operator_; });
}

std::map<sal_Int32, Area> ScratchDocument::around(const Tokens& tokens) const {
    std::map<sal_Int32, Area> by_sheet;
    for (const Token& token : tokens) {
        const auto area =
            token.OpCode == codes_.push ? menu::area_of(token.Data) : std::optional<Area>();
        if (!area)
            continue;
        Area& whole = by_sheet.try_emplace(area->first.sheet, *area).first->second;
        whole.first.column = std::min(whole.first.column, area->first.column);
        whole.first.row = std::min(whole.first.row, area->first.row);
        whole.last.column = std::max(whole.last.column, area->last.column);
        whole.last.row = std::max(whole.last.row, area->last.row);
    }
    return by_sheet;
}

sal_Int32 ScratchDocument::sheet_for(sal_Int32 source_sheet) {
    const auto [known, fresh] = sheets_.try_emplace(source_sheet, 0);
    if (fresh) {
        const auto sheets = document()->getSheets();
        const uno::Reference<container::XIndexAccess> all(sheets, uno::UNO_QUERY_THROW);
        known->second = all->getCount();
        sheets->insertNewByName("of sheet " + rtl::OUString::number(source_sheet),
                                static_cast<sal_Int16>(known->second));
    }
    return known->second;
}

Tokens ScratchDocument::copied_for(const Tokens& tokens) {
    Tokens result = tokens;
    if (joins_cells(tokens))
        for (const auto& [sheet, area] : around(tokens))
            copy_values(area);
    for (Token& token : result) {
        if (token.OpCode != codes_.push)
            continue;
        if (const auto area = menu::area_of(token.Data))
            copy_values(*area);
        sheet::SingleReference single;
        sheet::ComplexReference both;
        if (token.Data >>= single) {
            single.Sheet = sheet_for(single.Sheet);
            token.Data <<= single;
        } else if (token.Data >>= both) {
            both.Reference1.Sheet = sheet_for(both.Reference1.Sheet);
            both.Reference2.Sheet = sheet_for(both.Reference2.Sheet);
            token.Data <<= both;
        }
    }
    return result;
}

bool ScratchDocument::brought_with_neighbours(const Place& cell) {
    namespace Flags = sheet::CellFlags;
    namespace Results = sheet::FormulaResult;
    constexpr sal_Int32 rows = 256; // divides the rows of every sheet
    Area around{cell, cell};
    around.first.row = cell.row - cell.row % rows;
    around.last.row = around.first.row + rows - 1;
    if (neighbourhoods_.insert(around.first).second) {
        const uno::Reference<sheet::XCellRangesQuery> query(range_at(source_, around),
                                                            uno::UNO_QUERY_THROW);
        copy_filled(query->queryContentCells(Flags::VALUE | Flags::DATETIME | Flags::STRING));
        copy_filled(query->queryFormulaCells(Results::VALUE | Results::STRING));
    }
    return cell_at(source_, cell)->getError() == 0;
}

void ScratchDocument::copy_values(const Area& area) {
    namespace Flags = sheet::CellFlags;
    if (area.single() && brought_with_neighbours(area.first))
        return;
    for (const Area& part : copied_.add(area)) {
        const uno::Reference<sheet::XCellRangesQuery> query(range_at(source_, part),
                                                            uno::UNO_QUERY_THROW);
        copy_filled(query->queryContentCells(Flags::VALUE | Flags::DATETIME | Flags::STRING |
                                             Flags::FORMULA));
    }
}

void ScratchDocument::copy_filled(const uno::Reference<sheet::XSheetCellRanges>& filled) {
    for (const auto& address : filled->getRangeAddresses()) {
        // In pieces that memory has room for.
        constexpr sal_Int32 at_once = 250000;
        Area block = menu::area_of(address);
        const sal_Int32 last = block.last.row;
        const sal_Int32 step = std::max<sal_Int32>(1, at_once / block.columns());
        for (; block.first.row <= last; block.first.row += step) {
            block.last.row = std::min(last, block.first.row + step - 1);
            copy(block);
        }
    }
}

void ScratchDocument::copy(const Area& filled) {
    Area to = filled;
    to.first.sheet = to.last.sheet = sheet_for(filled.first.sheet);
    const uno::Reference<sheet::XCellRangeData> from_data(range_at(source_, filled),
                                                          uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeData> to_data(range_at(document(), to),
                                                        uno::UNO_QUERY_THROW);
    auto data = from_data->getDataArray();
    // What data arrays cannot carry is written cell by cell: which error it is (setting a void ends
    // the office), and a text that is empty.
    std::vector<std::pair<sal_Int32, sal_Int32>> apart;
    for (sal_Int32 r = 0; r < data.getLength(); ++r)
        for (sal_Int32 c = 0; c < data[r].getLength(); ++c) {
            rtl::OUString text;
            uno::Any& value = data.getArray()[r].getArray()[c];
            if (value.hasValue() && !((value >>= text) && text.isEmpty()))
                continue;
            value <<= rtl::OUString();
            apart.emplace_back(r, c);
        }
    to_data->setDataArray(data);
    for (const auto& [r, c] : apart) {
        const Place there{filled.first.sheet, filled.first.column + c, filled.first.row + r};
        const Place here{to.first.sheet, to.first.column + c, to.first.row + r};
        write_constant(cell_at(document(), here), value_of(cell_at(source_, there)), Errors::all);
    }
}

} // namespace jarbook::menu
