#include "uno/run_log/sheet_names.hpp"

#include "uno/document/action_lock.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/table/CellAddress.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

uno::Reference<sheet::XNamedRanges> names_of(const Document& document, sal_Int32 sheet) {
    return {sheet_property(document, sheet, "NamedRanges"), uno::UNO_QUERY_THROW};
}

std::optional<Area> area_of_name(const uno::Any& name) {
    const uno::Reference<sheet::XCellRangeReferrer> referrer(name, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeAddressable> cells(referrer->getReferredCells(),
                                                             uno::UNO_QUERY);
    if (!cells.is())
        return std::nullopt; // the name's cells were deleted
    return area_of(cells->getRangeAddress());
}

// $'Run 1'.$B$3:$B$9
rtl::OUString absolute(const Document& document, const Area& area) {
    const auto fixed = [](const Place& place) {
        const std::string plain = short_name(place);
        const std::size_t digits = plain.find_first_of("0123456789");
        return "$" + plain.substr(0, digits) + "$" + plain.substr(digits);
    };
    const rtl::OUString sheet = ustring(sheet_name(document, area.first.sheet));
    rtl::OUString text = "$'" + sheet.replaceAll("'", "''") + "'." + ustring(fixed(area.first));
    if (!area.single())
        text += ":" + ustring(fixed(area.last));
    return text;
}

} // namespace

std::optional<Area> named_area(const Document& document, sal_Int32 sheet, const char* name) {
    const auto names = names_of(document, sheet);
    const rtl::OUString wanted = rtl::OUString::createFromAscii(name);
    if (!names->hasByName(wanted))
        return std::nullopt;
    return area_of_name(names->getByName(wanted));
}

std::vector<SheetName> sheet_names(const Document& document, sal_Int32 sheet) {
    const auto names = names_of(document, sheet);
    std::vector<SheetName> result;
    const auto all = names->getElementNames();
    for (const rtl::OUString& name : all)
        if (const auto area = area_of_name(names->getByName(name)))
            result.push_back({utf8(name), *area});
    return result;
}

void set_sheet_names(const Document& document, sal_Int32 sheet,
                     const std::vector<SheetName>& wanted) {
    const auto names = names_of(document, sheet);
    const ActionLock lock(names); // else each name would compile all formulas of the document anew
    for (const SheetName& name : wanted) {
        const rtl::OUString known = ustring(name.name);
        const rtl::OUString content = absolute(document, name.area);
        if (names->hasByName(known)) {
            const uno::Reference<sheet::XNamedRange> there(names->getByName(known),
                                                           uno::UNO_QUERY_THROW);
            there->setContent(content);
        } else {
            names->addNewByName(known, content,
                                table::CellAddress(static_cast<sal_Int16>(sheet), 0, 0), 0);
        }
    }
}

sal_Int32 sheet_count(const Document& document) {
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    return sheets->getCount();
}

} // namespace jarbook::menu
