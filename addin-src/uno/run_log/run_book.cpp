#include "uno/run_log/run_book.hpp"

#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellInsertMode.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

using addin::ustring;

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

// As formulas write the start of a reference to it: $'Run 3'.
rtl::OUString quoted(const Document& document, sal_Int32 sheet) {
    const rtl::OUString name = ustring(sheet_name(document, sheet));
    return "$'" + name.replaceAll("'", "''") + "'.";
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
    const sal_Int32 left = book.rows.first.column;
    const Area entry{{book.sheet, left, row}, {book.sheet, left + model.columns() - 1, row}};
    if (row > book.rows.first.row) {
        // The look of the run before, with whatever the user has made of it.
        rows->copyRange(table::CellAddress(static_cast<sal_Int16>(book.sheet), left, row),
                        table::CellRangeAddress(static_cast<sal_Int16>(book.sheet), left, row - 1,
                                                entry.last.column, row - 1));
    } else {
        for (sal_Int32 c = 0; c < model.columns(); ++c)
            take_over_look(
                pristine,
                cell_at(pristine, {model.first.sheet, model.first.column + c, model.first.row}),
                document, cell_at(document, {book.sheet, left + c, row}));
    }
    Area model_row = model;
    model_row.last.row = model_row.first.row;
    const uno::Reference<sheet::XCellRangeFormula> from(range_at(pristine, model_row),
                                                        uno::UNO_QUERY_THROW);
    auto formulas = from->getFormulaArray();
    const rtl::OUString old_sheet = quoted(pristine, pristine_run_sheet);
    const rtl::OUString new_sheet = quoted(document, run_sheet);
    auto* cell = formulas.getArray()[0].getArray();
    for (sal_Int32 c = 0; c < model.columns(); ++c)
        cell[c] = cell[c].replaceAll(old_sheet, new_sheet);
    const uno::Reference<sheet::XCellRangeFormula> to(range_at(document, entry),
                                                      uno::UNO_QUERY_THROW);
    to->setFormulaArray(formulas);
}

} // namespace jarbook::menu
