#include "boxes.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>
#include <com/sun/star/util/CellProtection.hpp>

namespace jarbook::office {

using namespace com::sun::star;

std::vector<table::CellRangeAddress> open_areas(const uno::Reference<uno::XInterface>& cells) {
    std::vector<table::CellRangeAddress> areas;
    const uno::Reference<sheet::XUniqueCellFormatRangesSupplier> supplier(cells,
                                                                          uno::UNO_QUERY_THROW);
    const auto groups = supplier->getUniqueCellFormatRanges();
    for (sal_Int32 i = 0; i < groups->getCount(); ++i) {
        const uno::Reference<sheet::XSheetCellRanges> alike(groups->getByIndex(i),
                                                            uno::UNO_QUERY_THROW);
        const uno::Reference<beans::XPropertySet> format(alike, uno::UNO_QUERY_THROW);
        util::CellProtection protection;
        if (!(format->getPropertyValue("CellProtection") >>= protection) || protection.IsLocked)
            continue;
        for (const auto& area : alike->getRangeAddresses())
            areas.push_back(area);
    }
    return areas;
}

} // namespace jarbook::office
