#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XUsedAreaCursor.hpp>
#include <com/sun/star/table/CellContentType.hpp>
#include <com/sun/star/text/XText.hpp>

#include "document.hpp"
#include "text.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

constexpr sal_Int32 all_contents = sheet::CellFlags::VALUE | sheet::CellFlags::DATETIME |
                                   sheet::CellFlags::STRING | sheet::CellFlags::FORMULA;

void clear_contents(const uno::Reference<uno::XInterface>& cells) {
    uno::Reference<sheet::XSheetOperation>(cells, uno::UNO_QUERY_THROW)
        ->clearContents(all_contents);
}

rtl::OUString string_of(const uno::Reference<table::XCell>& cell) {
    return uno::Reference<text::XText>(cell, uno::UNO_QUERY_THROW)->getString();
}

rtl::OUString cell_property(const uno::Reference<table::XCell>& cell, const char* name) {
    rtl::OUString result;
    uno::Reference<beans::XPropertySet>(cell, uno::UNO_QUERY_THROW)
        ->getPropertyValue(rtl::OUString::createFromAscii(name)) >>= result;
    return result;
}

Value value_of(const uno::Reference<table::XCell>& cell) {
    switch (cell->getType()) {
    case table::CellContentType_EMPTY:
        return Blank{};
    case table::CellContentType_VALUE:
        return cell->getValue();
    case table::CellContentType_TEXT:
        return to_utf8(string_of(cell));
    default:
        break;
    }
    if (const sal_Int32 error = cell->getError(); error != 0)
        return CellError{error};
    sal_Int32 kind = 0;
    uno::Reference<beans::XPropertySet>(cell, uno::UNO_QUERY_THROW)
        ->getPropertyValue("FormulaResultType2") >>= kind;
    if (kind == sheet::FormulaResult::STRING)
        return to_utf8(string_of(cell));
    return cell->getValue();
}

// What a data array can carry; an error cannot be written.
uno::Any any_of(const Value& value) {
    if (const double* number = std::get_if<double>(&value))
        return uno::Any(*number);
    if (const std::string* text = std::get_if<std::string>(&value))
        return uno::Any(to_uno(*text));
    if (std::holds_alternative<CellError>(value))
        throw OfficeError("an error cannot be written into a cell as a value");
    return uno::Any(rtl::OUString()); // leaves the cell blank; an empty any would be #N/A
}

template <class Element, class From, class Convert>
uno::Sequence<uno::Sequence<Element>> sequences(const Rows<From>& rows, Convert convert) {
    uno::Sequence<uno::Sequence<Element>> result(static_cast<sal_Int32>(rows.size()));
    for (std::size_t r = 0; r < rows.size(); ++r) {
        uno::Sequence<Element>& row = result.getArray()[r];
        row.realloc(static_cast<sal_Int32>(rows[r].size()));
        for (std::size_t c = 0; c < rows[r].size(); ++c)
            row.getArray()[c] = convert(rows[r][c]);
    }
    return result;
}

} // namespace

std::string describe(CellError error) {
    switch (error.code) {
    case 503:
        return "#NUM!";
    case 519:
        return "#VALUE!";
    case 524:
        return "#REF!";
    case 525:
        return "#NAME?";
    case 532:
        return "#DIV/0!";
    case 32767:
        return "#N/A";
    default:
        return "Err:" + std::to_string(error.code);
    }
}

std::string describe(const Value& value) {
    if (const double* number = std::get_if<double>(&value)) {
        char text[32];
        std::snprintf(text, sizeof text, "%.15g", *number);
        return text;
    }
    if (const std::string* text = std::get_if<std::string>(&value))
        return '"' + *text + '"';
    if (const CellError* error = std::get_if<CellError>(&value))
        return describe(*error);
    return "(blank)";
}

Cell::Cell(std::shared_ptr<Session> session, uno::Reference<table::XCell> cell, std::string name)
    : session_(std::move(session)), cell_(std::move(cell)), name_(std::move(name)) {}

void Cell::set_formula(const std::string& formula) {
    session_->call("entering " + formula, [&] { cell_->setFormula(to_uno(formula)); });
}

void Cell::set_formula_local(const std::string& formula) {
    session_->call("entering " + formula, [&] {
        uno::Reference<beans::XPropertySet>(cell_, uno::UNO_QUERY_THROW)
            ->setPropertyValue("FormulaLocal", uno::Any(to_uno(formula)));
    });
}

void Cell::set_number(double value) {
    session_->call("writing a number", [&] { cell_->setValue(value); });
}

void Cell::set_text(const std::string& text) {
    session_->call("writing a text", [&] {
        uno::Reference<text::XText>(cell_, uno::UNO_QUERY_THROW)->setString(to_uno(text));
    });
}

void Cell::clear() {
    session_->call("clearing a cell", [&] { clear_contents(cell_); });
}

Value Cell::value() const {
    return session_->call("reading a cell", [&] { return value_of(cell_); });
}

double Cell::number() const {
    const Value shown = value();
    if (const double* number = std::get_if<double>(&shown))
        return *number;
    throw OfficeError(name_ + " holds " + describe(shown) +
                      ", not a number; its formula: " + formula());
}

std::string Cell::text() const {
    return session_->call("reading a cell", [&] { return to_utf8(string_of(cell_)); });
}

int Cell::error() const {
    return session_->call("reading a cell", [&] { return static_cast<int>(cell_->getError()); });
}

std::string Cell::formula() const {
    return session_->call("reading a formula", [&] { return to_utf8(cell_->getFormula()); });
}

std::string Cell::formula_local() const {
    return session_->call("reading a formula",
                          [&] { return to_utf8(cell_property(cell_, "FormulaLocal")); });
}

Range::Range(std::shared_ptr<Session> session, uno::Reference<table::XCellRange> range,
             std::string name)
    : session_(std::move(session)), range_(std::move(range)), name_(std::move(name)) {}

Cell Range::cell(int column, int row) const {
    const std::string name =
        name_ + ", column " + std::to_string(column) + ", row " + std::to_string(row);
    return session_->call("taking the cell at " + name, [&] {
        return Cell(session_, range_->getCellByPosition(column, row), name);
    });
}

Cell Range::cell(const std::string& address) const {
    const std::string name = name_ + "." + address;
    return session_->call("taking the cell " + name, [&] {
        return Cell(session_, range_->getCellRangeByName(to_uno(address))->getCellByPosition(0, 0),
                    name);
    });
}

Range Range::range(const std::string& address) const {
    const std::string name = name_ + "." + address;
    return session_->call("taking the range " + name, [&] {
        return Range(session_, range_->getCellRangeByName(to_uno(address)), name);
    });
}

int Range::columns() const {
    return session_->call("measuring " + name_, [&] {
        const auto address =
            uno::Reference<sheet::XCellRangeAddressable>(range_, uno::UNO_QUERY_THROW)
                ->getRangeAddress();
        return static_cast<int>(address.EndColumn - address.StartColumn + 1);
    });
}

int Range::rows() const {
    return session_->call("measuring " + name_, [&] {
        const auto address =
            uno::Reference<sheet::XCellRangeAddressable>(range_, uno::UNO_QUERY_THROW)
                ->getRangeAddress();
        return static_cast<int>(address.EndRow - address.StartRow + 1);
    });
}

void Range::set_array_formula(const std::string& formula) {
    session_->call("entering {" + formula + "} over " + name_, [&] {
        uno::Reference<sheet::XArrayFormulaRange>(range_, uno::UNO_QUERY_THROW)
            ->setArrayFormula(to_uno(formula));
    });
}

void Range::set_formulas(const Rows<std::string>& formulas) {
    session_->call("entering formulas over " + name_, [&] {
        uno::Reference<sheet::XCellRangeFormula>(range_, uno::UNO_QUERY_THROW)
            ->setFormulaArray(sequences<rtl::OUString>(formulas, to_uno));
    });
}

void Range::set_values(const Rows<Value>& values) {
    session_->call("writing values over " + name_, [&] {
        uno::Reference<sheet::XCellRangeData>(range_, uno::UNO_QUERY_THROW)
            ->setDataArray(sequences<uno::Any>(values, any_of));
    });
}

void Range::clear() {
    session_->call("clearing " + name_, [&] { clear_contents(range_); });
}

Rows<Value> Range::values() const {
    return session_->call("reading " + name_, [&] {
        Rows<Value> result;
        const auto data =
            uno::Reference<sheet::XCellRangeData>(range_, uno::UNO_QUERY_THROW)->getDataArray();
        for (sal_Int32 r = 0; r < data.getLength(); ++r) {
            auto& row = result.emplace_back();
            for (sal_Int32 c = 0; c < data[r].getLength(); ++c) {
                double number = 0;
                rtl::OUString text;
                if (data[r][c] >>= number)
                    row.emplace_back(number);
                else if ((data[r][c] >>= text) && !text.isEmpty())
                    row.emplace_back(to_utf8(text));
                else // blank, empty text or an error: the array does not tell
                    row.push_back(value_of(range_->getCellByPosition(c, r)));
            }
        }
        return result;
    });
}

Rows<std::string> Range::texts() const {
    const int width = columns();
    const int height = rows();
    return session_->call("reading " + name_, [&] {
        Rows<std::string> result(height);
        for (int r = 0; r < height; ++r)
            for (int c = 0; c < width; ++c)
                result[r].push_back(to_utf8(string_of(range_->getCellByPosition(c, r))));
        return result;
    });
}

Range Sheet::used() const {
    return session_->call("measuring " + name_, [&] {
        const uno::Reference<sheet::XSpreadsheet> sheet(range_, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XSheetCellRange> first(sheet->getCellRangeByName("A1"),
                                                           uno::UNO_QUERY_THROW);
        const auto cursor = sheet->createCursorByRange(first);
        uno::Reference<sheet::XUsedAreaCursor>(cursor, uno::UNO_QUERY_THROW)
            ->gotoEndOfUsedArea(true);
        const uno::Reference<table::XCellRange> range(cursor, uno::UNO_QUERY_THROW);
        return Range(session_, range, name_);
    });
}

} // namespace jarbook::office
