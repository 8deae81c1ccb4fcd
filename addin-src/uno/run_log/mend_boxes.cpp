#include "uno/run_log/mend_boxes.hpp"

#include "texts/entry.hpp"
#include "texts/mend_boxes.hpp"
#include "texts/run_log.hpp"
#include "uno/document/action_lock.hpp"
#include "uno/run_log/box_conditions.hpp"
#include "uno/run_log/box_formats.hpp"
#include "uno/run_log/undo_step.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <com/sun/star/util/CellProtection.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

constexpr int rounds = 4;

struct Box {
    Place pristine;
    Place here;
};

// The boxes are what a person may type into: the cells that are not locked.
std::vector<Place> pristine_boxes(const PristineSheet& pristine) {
    std::vector<Place> boxes;
    const uno::Reference<sheet::XUniqueCellFormatRangesSupplier> supplier(
        sheet_at(pristine.document(), pristine.sheet()), uno::UNO_QUERY_THROW);
    const auto groups = supplier->getUniqueCellFormatRanges();
    for (sal_Int32 i = 0; i < groups->getCount(); ++i) {
        const uno::Reference<sheet::XSheetCellRanges> cells(groups->getByIndex(i),
                                                            uno::UNO_QUERY_THROW);
        const uno::Reference<beans::XPropertySet> format(cells, uno::UNO_QUERY_THROW);
        util::CellProtection protection;
        if (!(format->getPropertyValue("CellProtection") >>= protection) || protection.IsLocked)
            continue;
        const auto parts = cells->getRangeAddresses();
        for (const auto& part : parts)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                    boxes.push_back({pristine.sheet(), c, r});
    }
    return boxes;
}

std::vector<Box> boxes_of(const PristineSheet& pristine, const RowsOf& rows) {
    std::vector<Box> boxes;
    const JarRows& model = pristine.jars();
    for (const Place& place : pristine_boxes(pristine)) {
        const bool last_but_one = place.row == model.last - 1;
        if (place.row < model.first || place.row > model.last || !last_but_one) {
            const bool beyond = place.row > model.first && place.row < model.last &&
                                place.row >= rows.jars().last; // of a sheet with fewer jars
            if (!beyond)
                boxes.push_back({place, {rows.sheet(), place.column, rows.here(place.row)}});
            continue;
        }
        // Jars that were inserted are like the last but one.
        for (sal_Int32 row = model.last - 1; row < rows.jars().last; ++row)
            boxes.push_back({place, {rows.sheet(), place.column, row}});
    }
    std::sort(boxes.begin(), boxes.end(), [](const Box& a, const Box& b) {
        return std::pair(a.here.row, a.here.column) < std::pair(b.here.row, b.here.column);
    });
    return boxes;
}

std::vector<Box> harmed(const PristineSheet& pristine, const Document& document, const RowsOf& rows,
                        const BoxConditions& conditions) {
    const BoxFormats formats(pristine.document(), document);
    auto boxes = boxes_of(pristine, rows);
    std::erase_if(boxes, [&](const Box& box) {
        return formats.same(box.pristine, box.here) && conditions.same(box.here);
    });
    return boxes;
}

std::vector<Place> places(const std::vector<Box>& boxes) {
    std::vector<Place> result;
    for (const Box& box : boxes)
        result.push_back(box.here);
    return result;
}

} // namespace

std::vector<Place> harmed_boxes(const PristineSheet& pristine, const Document& document,
                                const RowsOf& rows) {
    return places(harmed(pristine, document, rows, BoxConditions(pristine, document, rows)));
}

std::string listed_boxes(const std::vector<Place>& boxes) {
    constexpr std::size_t named = 8;
    std::string text;
    for (std::size_t i = 0; i < std::min(named, boxes.size()); ++i)
        text += (i == 0 ? "" : ", ") + short_name(boxes[i]);
    if (boxes.size() <= named)
        return text;
    return texts::mend_boxes::more{.cells = text, .count = std::to_string(boxes.size() - named)}
        .text();
}

MendedBoxes mend_boxes(const Context& context, const Document& document, sal_Int32 sheet) {
    require_not_shared(document);
    if (run_sheet_kind(document, sheet) == RunSheet::earlier)
        throw Obstacle(std::string(texts::run_log::earlier_mend));
    const PristineSheet pristine(context);
    const auto rows = rows_of_run_sheet(pristine, document, sheet);
    if (!rows)
        throw Obstacle(std::string(run_sheet_kind(document, sheet) == RunSheet::none
                                       ? texts::run_log::no_run_sheet
                                       : texts::run_log::changed_by_hand));
    auto boxes = harmed(pristine, document, *rows, BoxConditions(pristine, document, *rows));
    MendedBoxes mended{places(boxes), 0};
    if (boxes.empty() && lost_names(pristine, document, *rows).empty())
        return mended;
    UndoStep step(document, texts::entry::mend_boxes);
    {
        const ActionLock lock(document);
        const Unprotected open(document, sheet);
        mended.names_back = put_names_back(pristine, document, *rows);
        const BoxFormats formats(pristine.document(), document);
        // Setting conditional formats can take them from boxes in between (LibreOffice 7.4): look
        // again.
        for (int round = 0; !boxes.empty() && round < rounds; ++round) {
            for (const Box& box : boxes)
                formats.mend(box.pristine, box.here);
            BoxConditions(pristine, document, *rows).mend(places(boxes));
            boxes = harmed(pristine, document, *rows, BoxConditions(pristine, document, *rows));
            for (const Place& place : places(boxes))
                if (std::find(mended.boxes.begin(), mended.boxes.end(), place) ==
                    mended.boxes.end())
                    mended.boxes.push_back(place);
        }
    }
    step.keep();
    return mended;
}

} // namespace jarbook::menu
