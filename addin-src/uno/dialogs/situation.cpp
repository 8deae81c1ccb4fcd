#include "uno/dialogs/situation.hpp"

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

Document Situation::document() const {
    if (!frame_.is() || !frame_->getController().is())
        return {};
    return {frame_->getController()->getModel(), uno::UNO_QUERY};
}

bool Situation::read_only() const {
    const uno::Reference<frame::XStorable> storable(document(), uno::UNO_QUERY);
    return storable.is() && storable->isReadonly();
}

sal_Int32 Situation::sheet() const {
    const uno::Reference<sheet::XSpreadsheetView> view(frame_->getController(),
                                                       uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeAddressable> sheet(view->getActiveSheet(),
                                                             uno::UNO_QUERY_THROW);
    return sheet->getRangeAddress().Sheet;
}

std::vector<Area> Situation::selection() const {
    const uno::Reference<view::XSelectionSupplier> supplier(frame_->getController(),
                                                            uno::UNO_QUERY_THROW);
    const uno::Any selected = supplier->getSelection();
    const uno::Reference<sheet::XCellRangeAddressable> one(selected, uno::UNO_QUERY);
    if (one.is())
        return {area_of(one->getRangeAddress())};
    std::vector<Area> areas;
    const uno::Reference<sheet::XSheetCellRanges> several(selected, uno::UNO_QUERY);
    if (several.is()) {
        const auto addresses = several->getRangeAddresses();
        for (const auto& address : addresses)
            areas.push_back(area_of(address));
    }
    return areas;
}

void Situation::select(const Area& area) const {
    const uno::Reference<view::XSelectionSupplier> supplier(frame_->getController(),
                                                            uno::UNO_QUERY_THROW);
    uno::Reference<table::XCellRange> range = range_at(document(), area);
    if (area.single()) { // of merged cells all of them, as a click would
        const uno::Reference<sheet::XSheetCellRange> one(range, uno::UNO_QUERY_THROW);
        const auto cursor = sheet_at(document(), area.first.sheet)->createCursorByRange(one);
        cursor->collapseToMergedArea();
        range.set(cursor, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XCellRangeAddressable> merged(range, uno::UNO_QUERY_THROW);
        range = range_at(document(), area_of(merged->getRangeAddress()));
    }
    supplier->select(uno::Any(range));
}

} // namespace jarbook::menu
