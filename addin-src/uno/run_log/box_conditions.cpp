#include "uno/run_log/box_conditions.hpp"

#include "uno/run_log/cell_references.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/ConditionOperator.hpp>
#include <com/sun/star/sheet/XConditionalFormat.hpp>
#include <com/sun/star/sheet/XConditionalFormats.hpp>
#include <com/sun/star/sheet/XSheetCellRangeContainer.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/sheet/XSheetConditionalEntries.hpp>
#include <com/sun/star/sheet/XSheetConditionalEntry.hpp>

#include "uno/document/properties.hpp"

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

uno::Reference<sheet::XConditionalFormats> formats_of(const Document& document, sal_Int32 sheet) {
    return {sheet_property(document, sheet, "ConditionalFormats"), uno::UNO_QUERY_THROW};
}

std::vector<Area> areas_of(const uno::Reference<sheet::XConditionalFormat>& format) {
    const uno::Reference<beans::XPropertySet> properties(format, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSheetCellRanges> ranges(properties->getPropertyValue("Range"),
                                                         uno::UNO_QUERY_THROW);
    std::vector<Area> areas;
    const auto addresses = ranges->getRangeAddresses();
    for (const auto& address : addresses)
        areas.push_back(area_of(address));
    return areas;
}

} // namespace

// The newer interface lists the formats and their cells, only the older one says from which cell
// the free references of a formula are seen. It answers for a cell's first format; boxes have one.
std::vector<BoxConditions::Condition> BoxConditions::conditions_of(const Document& document,
                                                                   sal_Int32 sheet) {
    std::vector<Condition> result;
    const auto formats = formats_of(document, sheet)->getConditionalFormats();
    for (const auto& format : formats) {
        const auto areas = areas_of(format);
        if (areas.empty())
            continue;
        const uno::Reference<beans::XPropertySet> cell(cell_at(document, areas.front().first),
                                                       uno::UNO_QUERY_THROW);
        const uno::Reference<container::XIndexAccess> entries(
            cell->getPropertyValue("ConditionalFormat"), uno::UNO_QUERY_THROW);
        for (sal_Int32 i = 0; i < entries->getCount(); ++i) {
            const uno::Reference<sheet::XSheetCondition> condition(entries->getByIndex(i),
                                                                   uno::UNO_QUERY_THROW);
            const uno::Reference<sheet::XSheetConditionalEntry> entry(condition,
                                                                      uno::UNO_QUERY_THROW);
            const auto base = condition->getSourcePosition();
            result.push_back({areas,
                              static_cast<sal_Int32>(condition->getOperator()),
                              utf8(condition->getFormula1()),
                              utf8(condition->getFormula2()),
                              utf8(entry->getStyleName()),
                              {sheet, base.Column, base.Row}});
        }
    }
    return result;
}

std::vector<std::string> BoxConditions::at(const std::vector<Condition>& conditions,
                                           const Place& cell) {
    std::vector<std::string> result;
    for (const Condition& condition : conditions)
        if (std::any_of(condition.areas.begin(), condition.areas.end(),
                        [&](const Area& area) { return area.contains(cell); }))
            result.push_back(std::to_string(condition.op) + "|" +
                             seen_from(condition.first, condition.base) + "|" +
                             seen_from(condition.second, condition.base) + "|" + condition.style);
    std::sort(result.begin(), result.end());
    return result;
}

BoxConditions::BoxConditions(const PristineSheet& pristine, const Document& document,
                             const RowsOf& rows)
    : document_(document), sheet_(rows.sheet()),
      wanted_(conditions_of(pristine.document(), pristine.sheet())),
      there_(conditions_of(document, rows.sheet())) {
    const auto row_here = [&](sal_Int32 row) { return rows.here(row); };
    for (Condition& condition : wanted_) {
        for (Area& area : condition.areas)
            area = rows.here(area);
        condition.first = with_rows(condition.first, row_here);
        condition.second = with_rows(condition.second, row_here);
        condition.base = {sheet_, condition.base.column, rows.here(condition.base.row)};
    }
}

bool BoxConditions::same(const Place& box) const {
    return at(wanted_, box) == at(there_, box);
}

// Only on these boxes: LibreOffice does not take back the removal of a whole format, by its number
// or by setting an empty one.
void BoxConditions::mend(const std::vector<Place>& boxes) const {
    const uno::Reference<lang::XMultiServiceFactory> factory(document_, uno::UNO_QUERY_THROW);
    for (const Condition& condition : wanted_) {
        const uno::Reference<sheet::XSheetCellRangeContainer> cells(
            factory->createInstance("com.sun.star.sheet.SheetCellRanges"), uno::UNO_QUERY_THROW);
        for (const Place& box : boxes)
            if (std::any_of(condition.areas.begin(), condition.areas.end(),
                            [&](const Area& area) { return area.contains(box); }))
                cells->addRangeAddress(
                    {static_cast<sal_Int16>(sheet_), box.column, box.row, box.column, box.row},
                    true);
        const uno::Reference<container::XIndexAccess> ranges(cells, uno::UNO_QUERY_THROW);
        if (ranges->getCount() == 0)
            continue;
        const uno::Reference<beans::XPropertySet> target(cells, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XSheetConditionalEntries> entries(
            target->getPropertyValue("ConditionalFormat"), uno::UNO_QUERY_THROW);
        entries->clear();
        Properties entry;
        entry.add("Operator", static_cast<sheet::ConditionOperator>(condition.op));
        entry.add("Formula1", ustring(condition.first));
        entry.add("Formula2", ustring(condition.second));
        entry.add("StyleName", ustring(condition.style));
        entry.add("SourcePosition", table::CellAddress(static_cast<sal_Int16>(sheet_),
                                                       condition.base.column, condition.base.row));
        entries->addNew(entry.sequence());
        target->setPropertyValue("ConditionalFormat", uno::Any(entries));
    }
}

} // namespace jarbook::menu
