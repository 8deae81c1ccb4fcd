#include "uno/run_log/run_register.hpp"

#include "texts/add_run.hpp"
#include "texts/run_log.hpp"
#include "uno/run_log/cell_references.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/CellDeleteMode.hpp>
#include <com/sun/star/sheet/CellInsertMode.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

using Cell = uno::Reference<table::XCell>;

bool is_array_formula(const std::string& formula) {
    return formula.starts_with("{=") && formula.ends_with("}");
}

// Style and number format of a cell of another document.
void take_over_look(const Document& from, const Cell& source, const Document& to,
                    const Cell& target) {
    const uno::Reference<beans::XPropertySet> model(source, uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> cell(target, uno::UNO_QUERY_THROW);
    for (const char* name : {"CellStyle", "IsTextWrapped"}) {
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

std::optional<sal_Int32> sheet_called(const Document& document, const std::string& name) {
    const uno::Reference<container::XNameAccess> sheets(document->getSheets(),
                                                        uno::UNO_QUERY_THROW);
    if (!sheets->hasByName(ustring(name)))
        return std::nullopt;
    const uno::Reference<sheet::XCellRangeAddressable> sheet(sheets->getByName(ustring(name)),
                                                             uno::UNO_QUERY_THROW);
    return sheet->getRangeAddress().Sheet;
}

std::vector<std::string> formulas_of_row(const Document& document, const Area& columns,
                                         sal_Int32 row) {
    Area area = columns;
    area.first.row = area.last.row = row;
    const uno::Reference<sheet::XCellRangeFormula> cells(range_at(document, area),
                                                         uno::UNO_QUERY_THROW);
    std::vector<std::string> result;
    const auto rows = cells->getFormulaArray();
    for (const rtl::OUString& formula : rows[0])
        result.push_back(utf8(formula));
    return result;
}

// A row of the register that another takes after.
struct Model {
    Document document;
    sal_Int32 run; // the sheet that it is about
    Area row;
    std::vector<SheetName> names = {}; // of that sheet, the smallest areas first

    Model(Document of, sal_Int32 about, const Area& where)
        : document(std::move(of)), run(about), row(where), names(sheet_names(document, about)) {
        std::stable_sort(names.begin(), names.end(), [](const SheetName& a, const SheetName& b) {
            return a.area.rows() * a.area.columns() < b.area.rows() * b.area.columns();
        });
    }
};

// Where on another run sheet the same is found: by the names of the two; above the jars, where two
// sheets of one layout do not differ, also without.
std::optional<Place> same_on(const Model& model, const Place& place, const Document& document,
                             sal_Int32 sheet) {
    for (const SheetName& name : model.names)
        if (name.area.contains(place))
            if (const auto area = named_area(document, sheet, name.name.c_str()))
                return Place{sheet, area->first.column + (place.column - name.area.first.column),
                             area->first.row + (place.row - name.area.first.row)};
    const RunSheet kind = run_sheet_kind(document, sheet);
    if (kind != run_sheet_kind(model.document, model.run))
        return std::nullopt;
    if (kind == RunSheet::present && place.row >= jar_rows(document, sheet).first)
        return std::nullopt;
    return Place{sheet, place.column, place.row};
}

std::string fixed_cell(const Place& place) {
    const std::string plain = short_name(place);
    const std::size_t digits = plain.find_first_of("0123456789");
    return "$" + plain.substr(0, digits) + "$" + plain.substr(digits);
}

// A row's formula about one run sheet, said of another in a row further down; nothing if it refers
// to what is not found there.
std::optional<std::string> said_of(const Model& model, const std::string& formula,
                                   const Document& document, sal_Int32 run, sal_Int32 row) {
    const std::string old_sheet = sheet_name(model.document, model.run);
    std::string text;
    std::size_t done = 0;
    bool about_run = false; // also the second corner of a range, which names no sheet
    bool elsewhere = false;
    for (const CellReference& reference : cell_references(formula)) {
        const bool second = reference.begin > 0 && formula[reference.begin - 1] == ':';
        if (reference.sheet || !second) {
            about_run = reference.sheet == old_sheet;
            elsewhere = reference.sheet && !about_run;
        }
        if (elsewhere)
            continue;
        text.append(formula, done, reference.begin - done);
        done = reference.end;
        if (about_run) {
            const auto place =
                same_on(model, {model.run, reference.column, reference.row}, document, run);
            if (!place)
                return std::nullopt;
            if (reference.sheet)
                text += sheet_prefix(sheet_name(document, run));
            text += fixed_cell(*place);
        } else { // a cell of the register
            text += formula.substr(reference.begin, reference.end - reference.begin);
            if (!reference.row_fixed) {
                text.erase(text.find_last_not_of("0123456789") + 1);
                text += std::to_string(reference.row + 1 + row - model.row.first.row);
            }
        }
    }
    return text + formula.substr(done);
}

std::optional<std::vector<std::string>> row_of_run(const Model& model, const Document& document,
                                                   sal_Int32 run, sal_Int32 row) {
    std::vector<std::string> formulas;
    for (const std::string& formula :
         formulas_of_row(model.document, model.row, model.row.first.row)) {
        const auto own = said_of(model, formula, document, run, row);
        if (!own)
            return std::nullopt;
        formulas.push_back(*own);
    }
    return formulas;
}

} // namespace

std::optional<Register> register_of(const Document& document) {
    for (sal_Int32 s = 0; s < sheet_count(document); ++s) {
        const auto rows = named_area(document, s, "register");
        const auto end = named_area(document, s, "register_end");
        if (rows && end)
            return Register{s, *rows, end->first.row};
    }
    return std::nullopt;
}

Register require_register(const Document& document) {
    const auto book = register_of(document);
    if (!book)
        throw Obstacle(std::string(texts::run_log::no_register));
    return *book;
}

std::vector<RegisterRow> register_rows(const Document& document, const Register& book) {
    std::vector<RegisterRow> result;
    for (sal_Int32 row = book.rows.first.row; row < book.end_row; ++row) {
        RegisterRow found{row, std::nullopt};
        bool of_a_run = false;
        for (const std::string& formula : formulas_of_row(document, book.rows, row)) {
            of_a_run = of_a_run || formula.find("#REF!") != std::string::npos;
            for (const CellReference& reference : cell_references(formula))
                if (reference.sheet && !found.run) {
                    const auto sheet = sheet_called(document, *reference.sheet);
                    if (sheet && *sheet != book.sheet)
                        found.run = sheet;
                }
        }
        if (of_a_run || found.run)
            result.push_back(found);
    }
    return result;
}

void enter_in_register(const Document& document, sal_Int32 run_sheet,
                       const PristineSheet& pristine) {
    const Register book = require_register(document);
    const auto pristine_book = register_of(pristine.document());
    if (!pristine_book)
        throw Obstacle(std::string(texts::run_log::not_whole));
    const std::string strange =
        texts::add_run::strange_register{.register_name = sheet_name(document, book.sheet)}.text();

    std::optional<std::vector<std::string>> formulas;
    auto before = register_rows(document, book);
    std::reverse(before.begin(), before.end());
    for (const RegisterRow& row : before)
        if (row.run && !formulas) {
            Area area = book.rows;
            area.first.row = area.last.row = row.row;
            formulas = row_of_run({document, *row.run, area}, document, run_sheet, book.end_row);
        }
    if (!formulas && book.rows.columns() == pristine_book->rows.columns()) {
        Area area = pristine_book->rows;
        area.last.row = area.first.row;
        formulas = row_of_run({pristine.document(), pristine.sheet(), area}, document, run_sheet,
                              book.end_row);
    }
    if (!formulas)
        throw Obstacle(strange);

    const uno::Reference<sheet::XCellRangeMovement> rows(sheet_at(document, book.sheet),
                                                         uno::UNO_QUERY_THROW);
    const auto sheet = static_cast<sal_Int16>(book.sheet);
    const sal_Int32 row = book.end_row;
    rows->insertCells(table::CellRangeAddress(sheet, 0, row, 0, row), sheet::CellInsertMode_ROWS);
    const sal_Int32 left = book.rows.first.column;
    const Area entry{{book.sheet, left, row}, {book.sheet, book.rows.last.column, row}};
    if (row > book.rows.first.row) {
        // The look of the run before, with whatever the user has made of it.
        rows->copyRange(table::CellAddress(sheet, left, row),
                        table::CellRangeAddress(sheet, left, row - 1, entry.last.column, row - 1));
    } else {
        const Place& model = pristine_book->rows.first;
        for (sal_Int32 c = 0; c < entry.columns(); ++c)
            take_over_look(pristine.document(),
                           cell_at(pristine.document(), {model.sheet, model.column + c, model.row}),
                           document, cell_at(document, {book.sheet, left + c, row}));
    }
    uno::Sequence<rtl::OUString> cells(static_cast<sal_Int32>(formulas->size()));
    std::transform(formulas->begin(), formulas->end(), cells.getArray(),
                   [](const std::string& formula) {
                       return ustring(is_array_formula(formula) ? "" : formula);
                   });
    const uno::Reference<sheet::XCellRangeFormula> to(range_at(document, entry),
                                                      uno::UNO_QUERY_THROW);
    to->setFormulaArray(uno::Sequence<uno::Sequence<rtl::OUString>>(&cells, 1));
    // Array formulas of one cell, which are read in braces, have to be entered as such.
    for (sal_Int32 c = 0; c < entry.columns(); ++c) {
        const std::string& formula = (*formulas)[static_cast<std::size_t>(c)];
        if (!is_array_formula(formula))
            continue;
        const Place place{book.sheet, left + c, row};
        const uno::Reference<sheet::XArrayFormulaRange> cell(range_at(document, Area{place, place}),
                                                             uno::UNO_QUERY_THROW);
        cell->setArrayFormula(ustring(formula.substr(1, formula.size() - 2)));
    }
}

void remove_from_register(const Document& document, const Register& book, sal_Int32 row) {
    const uno::Reference<sheet::XCellRangeMovement> rows(sheet_at(document, book.sheet),
                                                         uno::UNO_QUERY_THROW);
    rows->removeRange(table::CellRangeAddress(static_cast<sal_Int16>(book.sheet), 0, row, 0, row),
                      sheet::CellDeleteMode_ROWS);
}

} // namespace jarbook::menu
