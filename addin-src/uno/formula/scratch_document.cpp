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

Bench::Bench(const Context& context, const Document& source, const OpCodes& codes)
    : source_(source), codes_(codes), bench_(HiddenDocument::empty(context)) {
    take_over_settings(source_, bench_.document());
}

bool Bench::suffices(const Tokens& tokens, const OpCodes& codes) {
    static constexpr const char* names[] = {
        "INDIRECT",  "OFFSET",       "SHEET",     "SHEETS",
        "CELL",      "FORMULA",      "ISFORMULA", "SUBTOTAL",
        "AGGREGATE", "GETPIVOTDATA", "TABLE",     "MULTIPLE.OPERATIONS",
        "INFO",      "STYLE",        "CURRENT",   ":"};
    std::set<sal_Int32> seeking{codes.name, codes.database_area, codes.array_part};
    for (const char* name : names)
        seeking.insert(codes.function(name));
    return std::none_of(tokens.begin(), tokens.end(), [&](const Token& token) {
        if (seeking.contains(token.OpCode))
            return true;
        if (token.OpCode != codes.push || token.Data.getValueTypeClass() != uno::TypeClass_STRUCT)
            return false;
        // Into another document, over several sheets, or to cells that were deleted.
        const auto area = menu::area_of(token.Data);
        return !area || area->first.sheet != area->last.sheet;
    });
}

sal_Int32 Bench::sheet_for(sal_Int32 source_sheet) {
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

Tokens Bench::laid_out(const Tokens& tokens) {
    Tokens result = tokens;
    for (Token& token : result) {
        if (token.OpCode != codes_.push)
            continue;
        if (const auto area = menu::area_of(token.Data))
            lay_out(*area);
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

void Bench::lay_out(const Area& area) {
    const bool known = std::any_of(laid_out_.begin(), laid_out_.end(), [&](const Area& done) {
        return done.contains(area.first) && done.contains(area.last);
    });
    if (known)
        return;
    laid_out_.push_back(area);
    namespace Flags = sheet::CellFlags;
    const uno::Reference<sheet::XCellRangesQuery> query(range_at(source_, area),
                                                        uno::UNO_QUERY_THROW);
    const auto parts =
        query->queryContentCells(Flags::VALUE | Flags::DATETIME | Flags::STRING | Flags::FORMULA)
            ->getRangeAddresses();
    for (const auto& part : parts)
        copy(menu::area_of(part));
}

void Bench::copy(const Area& filled) {
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
