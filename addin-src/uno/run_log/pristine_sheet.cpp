#include "uno/run_log/pristine_sheet.hpp"

#include "texts/run_log.hpp"
#include "uno/document/package_files.hpp"
#include "uno/document/properties.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/style/XStyleLoader.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

using Formulas = uno::Sequence<uno::Sequence<rtl::OUString>>;

// From A1 to the last cell in use.
Area used_area(const Document& document, sal_Int32 sheet) {
    const auto cursor = sheet_at(document, sheet)->createCursor();
    const uno::Reference<sheet::XUsedAreaCursor> used(cursor, uno::UNO_QUERY_THROW);
    used->gotoEndOfUsedArea(false);
    const uno::Reference<sheet::XCellRangeAddressable> end(cursor, uno::UNO_QUERY_THROW);
    const auto address = end->getRangeAddress();
    return {{sheet, 0, 0}, {sheet, address.EndColumn, address.EndRow}};
}

Formulas formulas_of(const Document& document, const Area& area) {
    const uno::Reference<sheet::XCellRangeFormula> cells(range_at(document, area),
                                                         uno::UNO_QUERY_THROW);
    return cells->getFormulaArray();
}

bool is_formula(const rtl::OUString& content) {
    return content.startsWith("=") || content.startsWith("{=");
}

// Whether formulas stand on the sheet where the pristine one has them: all but a few in a hundred,
// which a person may have changed after taking the protection away.
bool stands_alike(const PristineSheet& pristine, const Document& document, const RowsOf& rows) {
    const Area model = used_area(pristine.document(), pristine.sheet());
    const auto wanted = formulas_of(pristine.document(), model);
    Area area = model;
    area.first.sheet = area.last.sheet = rows.sheet();
    area.last.row = rows.here(model.last.row);
    const auto there = formulas_of(document, area);
    sal_Int64 formulas = 0;
    sal_Int64 found = 0;
    for (sal_Int32 r = 0; r < wanted.getLength(); ++r) {
        const auto& here = there[rows.here(r)];
        for (sal_Int32 c = 0; c < wanted[r].getLength(); ++c)
            if (is_formula(wanted[r][c])) {
                ++formulas;
                found += is_formula(here[c]);
            }
    }
    return formulas > 0 && found * 100 >= formulas * 97;
}

// Jars of a sheet without names: what is computed of each, as far down as it goes.
std::optional<JarRows> counted_jars(const PristineSheet& pristine, const Document& document,
                                    sal_Int32 sheet) {
    const auto strength = named_area(pristine.document(), pristine.sheet(), "jar_strength");
    if (!strength)
        return std::nullopt;
    const sal_Int32 end = used_area(document, sheet).last.row;
    sal_Int32 row = strength->first.row;
    while (row <= end &&
           is_formula(cell_at(document, {sheet, strength->first.column, row})->getFormula()))
        ++row;
    if (row - strength->first.row < 2)
        return std::nullopt;
    return JarRows{strength->first.row, row - 1};
}

sal_Int32 first_run_sheet(const Document& document) {
    for (sal_Int32 s = 0; s < sheet_count(document); ++s)
        if (run_sheet_kind(document, s) == RunSheet::present)
            return s;
    throw Obstacle(std::string(texts::run_log::not_whole));
}

} // namespace

PristineSheet::PristineSheet(const Context& context)
    : url_(packed_url(context, packed::run_sheet)),
      log_(HiddenDocument::from_template(context, url_)), sheet_(first_run_sheet(log_.document())),
      jars_(jar_rows(log_.document(), sheet_)), names_(sheet_names(log_.document(), sheet_)) {}

sal_Int32 RowsOf::here(sal_Int32 pristine_row) const {
    return pristine_row < from_.last ? std::min(pristine_row, std::max(to_.last - 1, to_.first))
                                     : pristine_row + (to_.last - from_.last);
}

Area RowsOf::here(const Area& area) const {
    return {{sheet_, area.first.column, here(area.first.row)},
            {sheet_, area.last.column, here(area.last.row)}};
}

sal_Int32 RowsOf::model_of(sal_Int32 row) const {
    if (row >= to_.last)
        return row - (to_.last - from_.last);
    return row <= to_.first ? row : std::min(row, from_.last - 1);
}

std::optional<RowsOf> rows_of_run_sheet(const PristineSheet& pristine, const Document& document,
                                        sal_Int32 sheet) {
    std::optional<JarRows> jars;
    switch (run_sheet_kind(document, sheet)) {
    case RunSheet::present:
        jars = jar_rows(document, sheet);
        break;
    case RunSheet::none:
        jars = counted_jars(pristine, document, sheet);
        break;
    case RunSheet::earlier:
        break;
    }
    if (!jars || jars->first != pristine.jars().first || jars->count() < 2)
        return std::nullopt;
    const RowsOf rows(pristine, sheet, *jars);
    if (!stands_alike(pristine, document, rows))
        return std::nullopt;
    return rows;
}

std::vector<SheetName> lost_names(const PristineSheet& pristine, const Document& document,
                                  const RowsOf& rows) {
    const auto there = sheet_names(document, rows.sheet());
    std::vector<SheetName> lost;
    for (const SheetName& name : pristine.names())
        if (std::none_of(there.begin(), there.end(),
                         [&](const SheetName& other) { return other.name == name.name; }))
            lost.push_back({name.name, rows.here(name.area)});
    return lost;
}

int put_names_back(const PristineSheet& pristine, const Document& document, const RowsOf& rows) {
    const auto lost = lost_names(pristine, document, rows);
    set_sheet_names(document, rows.sheet(), lost);
    return static_cast<int>(lost.size());
}

void put_all_names_back(const PristineSheet& pristine, const Document& document) {
    for (sal_Int32 s = 0; s < sheet_count(document); ++s)
        if (run_sheet_kind(document, s) == RunSheet::none && sheet_names(document, s).empty())
            if (const auto rows = rows_of_run_sheet(pristine, document, s))
                put_names_back(pristine, document, *rows);
}

// What importing a sheet leaves behind: how it is printed.
void take_over_page(const PristineSheet& pristine, const Document& to, sal_Int32 to_sheet) {
    const uno::Reference<beans::XPropertySet> source(
        sheet_at(pristine.document(), pristine.sheet()), uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> target(sheet_at(to, to_sheet), uno::UNO_QUERY_THROW);
    rtl::OUString style;
    source->getPropertyValue("PageStyle") >>= style;
    const uno::Reference<style::XStyleFamiliesSupplier> supplier(to, uno::UNO_QUERY_THROW);
    const auto families = supplier->getStyleFamilies();
    const uno::Reference<container::XNameAccess> pages(families->getByName("PageStyles"),
                                                       uno::UNO_QUERY_THROW);
    if (!pages->hasByName(style)) {
        const uno::Reference<style::XStyleLoader> loader(families, uno::UNO_QUERY_THROW);
        Properties options;
        options.add("LoadCellStyles", false).add("LoadPageStyles", true);
        options.add("OverwriteStyles", false);
        loader->loadStylesFromURL(pristine.url(), options.sequence());
    }
    target->setPropertyValue("PageStyle", uno::Any(style));

    const uno::Reference<sheet::XPrintAreas> printed_from(source, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XPrintAreas> printed_to(target, uno::UNO_QUERY_THROW);
    auto areas = printed_from->getPrintAreas();
    auto* area = areas.getArray();
    for (sal_Int32 i = 0; i < areas.getLength(); ++i)
        area[i].Sheet = static_cast<sal_Int16>(to_sheet);
    printed_to->setPrintAreas(areas);
    if (printed_from->getPrintTitleRows()) {
        auto rows = printed_from->getTitleRows();
        rows.Sheet = static_cast<sal_Int16>(to_sheet);
        printed_to->setTitleRows(rows);
        printed_to->setPrintTitleRows(true);
    }
}

} // namespace jarbook::menu
