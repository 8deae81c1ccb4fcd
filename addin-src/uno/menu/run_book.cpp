#include "run_book.hpp"

#include "arguments.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellInsertMode.hpp>
#include <com/sun/star/sheet/ReferenceFlags.hpp>
#include <com/sun/star/sheet/SingleReference.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

using Cell = uno::Reference<table::XCell>;

// Style and number format of a cell of another document.
void take_over_look(const Document& from, const Cell& source, const Document& to,
                    const Cell& target) {
    const uno::Reference<beans::XPropertySet> model(source, uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> cell(target, uno::UNO_QUERY_THROW);
    cell->setPropertyValue("CellStyle", model->getPropertyValue("CellStyle"));
    for (const char* name : {"IsTextWrapped"}) {
        const rtl::OUString property = rtl::OUString::createFromAscii(name);
        cell->setPropertyValue(property, model->getPropertyValue(property));
    }
    sal_Int32 key = 0;
    model->getPropertyValue("NumberFormat") >>= key;
    const auto formats = [](const Document& document) {
        const uno::Reference<util::XNumberFormatsSupplier> supplier(document, uno::UNO_QUERY_THROW);
        return supplier->getNumberFormats();
    };
    const auto format = formats(from)->getByKey(key);
    rtl::OUString code;
    lang::Locale locale;
    format->getPropertyValue("FormatString") >>= code;
    format->getPropertyValue("Locale") >>= locale;
    const auto own = formats(to);
    sal_Int32 own_key = own->queryKey(code, locale, false);
    if (own_key < 0)
        own_key = own->addNew(code, locale);
    cell->setPropertyValue("NumberFormat", uno::Any(own_key));
}

// The formula with another sheet in the place of its own run sheet.
uno::Sequence<sheet::FormulaToken> pointed_at(uno::Sequence<sheet::FormulaToken> tokens,
                                              sal_Int32 from_sheet, sal_Int32 to_sheet) {
    namespace Flags = sheet::ReferenceFlags;
    auto* token = tokens.getArray();
    for (sal_Int32 i = 0; i < tokens.getLength(); ++i) {
        sheet::SingleReference reference;
        if ((token[i].Data >>= reference) && !(reference.Flags & Flags::SHEET_RELATIVE) &&
            reference.Sheet == from_sheet) {
            reference.Sheet = to_sheet;
            reference.Flags |= Flags::SHEET_3D;
            token[i].Data <<= reference;
        }
    }
    return tokens;
}

} // namespace

Unprotected::Unprotected(const uno::Reference<sheet::XSpreadsheet>& sheet)
    : sheet_(sheet, uno::UNO_QUERY_THROW), was_protected_(sheet_->isProtected()) {
    if (!was_protected_)
        return;
    try {
        sheet_->unprotect("");
    } catch (const lang::IllegalArgumentException&) {
        // It has a password of the user's own.
    }
    if (sheet_->isProtected())
        throw uno::RuntimeException("the Run book is protected with a password. Take the "
                                    "protection away first: Tools, Protect Sheet",
                                    nullptr);
}

Unprotected::~Unprotected() {
    try {
        if (was_protected_)
            sheet_->protect("");
    } catch (const uno::Exception&) {
        // Left open: nothing is lost.
    }
}

std::optional<Area> named_area(const Document& document, sal_Int32 sheet, const char* name) {
    const uno::Reference<beans::XPropertySet> owner(sheet_at(document, sheet),
                                                    uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XNamedRanges> names(owner->getPropertyValue("NamedRanges"),
                                                    uno::UNO_QUERY_THROW);
    const rtl::OUString wanted = rtl::OUString::createFromAscii(name);
    if (!names->hasByName(wanted))
        return std::nullopt;
    const uno::Reference<sheet::XCellRangeReferrer> referrer(names->getByName(wanted),
                                                             uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeAddressable> cells(referrer->getReferredCells(),
                                                             uno::UNO_QUERY);
    if (!cells.is())
        return std::nullopt; // the name's cells were deleted
    return area_of(cells->getRangeAddress());
}

std::optional<RunBook> run_book_of(const Document& document) {
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    for (sal_Int32 s = 0; s < sheets->getCount(); ++s) {
        const auto rows = named_area(document, s, "register");
        const auto end = named_area(document, s, "register_end");
        if (rows && end)
            return RunBook{s, *rows, end->first.row};
    }
    return std::nullopt;
}

void enter_in_run_book(const Document& document, sal_Int32 run_sheet, const Document& pristine,
                       const RunBook& pristine_book, sal_Int32 pristine_run_sheet) {
    const RunBook book = run_book_of(document).value();
    const auto sheet = sheet_at(document, book.sheet);
    const uno::Reference<sheet::XCellRangeMovement> rows(sheet, uno::UNO_QUERY_THROW);
    const sal_Int32 row = book.end_row;
    rows->insertCells(table::CellRangeAddress(static_cast<sal_Int16>(book.sheet), 0, row, 0, row),
                      sheet::CellInsertMode_ROWS);
    const Area& model = pristine_book.rows;
    for (sal_Int32 c = 0; c < model.columns(); ++c) {
        const Cell source =
            cell_at(pristine, {model.first.sheet, model.first.column + c, model.first.row});
        const Cell target = cell_at(document, {book.sheet, book.rows.first.column + c, row});
        take_over_look(pristine, source, document, target);
        const uno::Reference<sheet::XFormulaTokens> from(source, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XFormulaTokens> to(target, uno::UNO_QUERY_THROW);
        to->setTokens(pointed_at(from->getTokens(), pristine_run_sheet, run_sheet));
    }
}

} // namespace jarbook::menu
