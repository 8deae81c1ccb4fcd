#include "uno/run_log/insert_jar.hpp"

#include "texts/entry.hpp"
#include "texts/insert_jar.hpp"
#include "texts/run_log.hpp"
#include "uno/document/action_lock.hpp"
#include "uno/run_log/pristine_sheet.hpp"
#include "uno/run_log/undo_step.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// Where rows are inserted, whose row they take after, and which rows are then without a jar. They
// are always inserted between the first and the last, so that whatever reaches from the first to
// the last (charts, sums, names, checks) grows; at the ends it is the inputs that move.
struct Plan {
    sal_Int32 at;
    sal_Int32 model; // counted after the insertion
    sal_Int32 blank; // the first of the blank rows
};

Plan plan_for(const JarRows& jars, sal_Int32 row, sal_Int32 count) {
    if (row <= jars.first)
        return {jars.first + 1, jars.first, jars.first};
    if (row > jars.last)
        return {jars.last, jars.last + count, jars.last + 1};
    return {row, row - 1, row};
}

class JarSheet {
public:
    JarSheet(const Document& document, sal_Int32 sheet)
        : document_(document), sheet_(sheet),
          cells_(sheet_at(document, sheet), uno::UNO_QUERY_THROW) {}

    void insert(sal_Int32 at, sal_Int32 count) {
        try {
            cells_->getRows()->insertByIndex(at, count);
        } catch (const uno::RuntimeException&) {
            throw Obstacle(std::string(texts::insert_jar::rows_taken));
        }
    }
    void copy(sal_Int32 from, sal_Int32 count, sal_Int32 to) {
        const auto sheet = static_cast<sal_Int16>(sheet_);
        const sal_Int32 last_column = cells_->getColumns()->getCount() - 1;
        const uno::Reference<sheet::XCellRangeMovement> movement(cells_, uno::UNO_QUERY_THROW);
        movement->copyRange(table::CellAddress(sheet, 0, to),
                            table::CellRangeAddress(sheet, 0, from, last_column, from + count - 1));
    }
    // Each copy costs about the same, however many rows it has.
    void copy_to_all(sal_Int32 model, sal_Int32 first, sal_Int32 count) {
        copy(model, 1, first);
        for (sal_Int32 done = 1; done < count; done *= 2)
            copy(first, std::min(done, count - done), first + done);
    }
    void clear_boxes(sal_Int32 first, sal_Int32 count) {
        constexpr sal_Int32 all = sheet::CellFlags::VALUE | sheet::CellFlags::DATETIME |
                                  sheet::CellFlags::STRING | sheet::CellFlags::FORMULA |
                                  sheet::CellFlags::ANNOTATION;
        for (const char* name : jar_boxes)
            if (const auto boxes = named_area(document_, sheet_, name)) {
                const Area area{{sheet_, boxes->first.column, first},
                                {sheet_, boxes->last.column, first + count - 1}};
                const uno::Reference<sheet::XSheetOperation> cells(range_at(document_, area),
                                                                   uno::UNO_QUERY_THROW);
                cells->clearContents(all);
            }
    }
    // So many jars still leave room for their chart on the last page. With more, it begins one of
    // its own: the end of a page would go through it.
    void keep_chart_whole(sal_Int32 count) {
        constexpr sal_Int32 most = 32;
        const auto chart = named_area(document_, sheet_, "fitted_stages"); // below the band
        if (count <= most || !chart)
            return;
        const uno::Reference<beans::XPropertySet> band(
            cells_->getRows()->getByIndex(chart->first.row - 1), uno::UNO_QUERY_THROW);
        band->setPropertyValue("IsStartOfNewPage", uno::Any(true));
    }

private:
    Document document_;
    sal_Int32 sheet_;
    uno::Reference<table::XColumnRowRange> cells_;
};

} // namespace

InsertedJars insert_jars(const Context& context, const Document& document, const Area& selection) {
    const sal_Int32 sheet = selection.first.sheet;
    require_not_shared(document);
    std::optional<PristineSheet> pristine; // only where names have to be put back
    std::optional<RowsOf> rows;
    switch (run_sheet_kind(document, sheet)) {
    case RunSheet::earlier:
        throw Obstacle(std::string(texts::run_log::earlier_sheet));
    case RunSheet::none:
        pristine.emplace(context);
        rows = rows_of_run_sheet(*pristine, document, sheet);
        if (!rows)
            throw Obstacle(std::string(texts::run_log::no_run_sheet));
        break;
    case RunSheet::present:
        break;
    }

    UndoStep step(document, texts::entry::insert_jar);
    InsertedJars inserted;
    {
        const ActionLock lock(document);
        const Unprotected open(document, sheet);
        if (rows)
            inserted.names_back = put_names_back(*pristine, document, *rows);
        const JarRows there = jar_rows(document, sheet);
        const sal_Int32 count =
            std::max<sal_Int32>(1, std::min(selection.last.row, there.last) -
                                       std::max(selection.first.row, there.first) + 1);
        const Plan plan = plan_for(there, selection.first.row, count);
        JarSheet jars(document, sheet);
        jars.insert(plan.at, count);
        jars.copy_to_all(plan.model, plan.at, count);
        jars.clear_boxes(plan.blank, count);
        jars.keep_chart_whole(there.last - there.first + 1 + count);
        inserted.count = count;
        inserted.first_box = {sheet, named_area(document, sheet, "jar_amount")->first.column,
                              plan.blank};
        if (const auto clock = named_area(document, sheet, "jar_clock"))
            inserted.first_box.column = clock->first.column;
    }
    step.keep();
    return inserted;
}

} // namespace jarbook::menu
