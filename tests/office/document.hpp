// Documents, sheets, ranges and cells of a running office.
#pragma once

#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/table/XCell.hpp>
#include <com/sun/star/table/XCellRange.hpp>
#include <filesystem>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "session.hpp"

namespace jarbook::office {

struct Blank {
    bool operator==(const Blank&) const = default;
};
// An error as Calc numbers it: 502 argument, 503 #NUM!, 519 #VALUE!, 523 no convergence,
// 524 #REF!, 525 #NAME?, 532 division by zero, 32767 #N/A.
struct CellError {
    int code = 0;
    bool operator==(const CellError&) const = default;
};
// What a cell holds or shows.
using Value = std::variant<Blank, double, std::string, CellError>;
// Rows of equal length.
template <class T>
using Rows = std::vector<std::vector<T>>;

// "53.67", "\"hearts\"", "#VALUE!", "Err:502", "(blank)": for messages.
std::string describe(const Value& value);
std::string describe(CellError error);

class Cell {
public:
    // English names, semicolons and decimal points, whatever the locale. Text that does not begin
    // with "=" is entered as typed text or number.
    void set_formula(const std::string& formula);
    // As typed by somebody of the office's locale.
    void set_formula_local(const std::string& formula);
    void set_number(double value);
    void set_text(const std::string& text);
    void clear();

    Value value() const;
    // The number; anything else throws and says what is there instead.
    double number() const;
    // As displayed, with the number format.
    std::string text() const;
    // 0 without an error.
    int error() const;
    std::string formula() const;
    std::string formula_local() const;
    com::sun::star::uno::Reference<com::sun::star::table::XCell> uno() const { return cell_; }

private:
    friend class Range;
    Cell(std::shared_ptr<Session> session,
         com::sun::star::uno::Reference<com::sun::star::table::XCell> cell, std::string name);
    std::shared_ptr<Session> session_;
    com::sun::star::uno::Reference<com::sun::star::table::XCell> cell_;
    std::string name_;
};

class Range {
public:
    // Counted from 0 within the range.
    Cell cell(int column, int row) const;
    // "B3" within the range's sheet; only for cells of the range.
    Cell cell(const std::string& address) const;
    Range range(const std::string& address) const;
    int columns() const;
    int rows() const;
    // "$Run.A1:B3", for messages.
    const std::string& name() const { return name_; }

    // Enters one array formula over the whole range; an empty text takes it away.
    void set_array_formula(const std::string& formula);
    // One formula a cell, in one call; as many as the range has cells.
    void set_formulas(const Rows<std::string>& formulas);
    // Blanks, numbers and texts in one call.
    void set_values(const Rows<Value>& values);
    void clear();

    // What the cells hold, errors with their codes. One call, and one more for each cell that is
    // blank, empty text or an error.
    Rows<Value> values() const;
    // As displayed.
    Rows<std::string> texts() const;
    com::sun::star::uno::Reference<com::sun::star::table::XCellRange> uno() const { return range_; }

protected:
    friend class Document;
    friend class Sheet;
    Range(std::shared_ptr<Session> session,
          com::sun::star::uno::Reference<com::sun::star::table::XCellRange> range,
          std::string name);
    std::shared_ptr<Session> session_;
    com::sun::star::uno::Reference<com::sun::star::table::XCellRange> range_;
    std::string name_;
};

// A sheet is the range of all its cells.
class Sheet : public Range {
public:
    // From A1 to the last cell in use.
    Range used() const;

private:
    friend class Document;
    using Range::Range;
};

class Document {
public:
    ~Document();
    Document(Document&&) noexcept;
    Document& operator=(Document&&) noexcept;

    Sheet sheet(int position = 0) const;
    Sheet sheet(const std::string& name) const;
    std::vector<std::string> sheet_names() const;
    // Appends an empty sheet.
    Sheet add_sheet(const std::string& name);
    // The document's named ranges; those local to a sheet are not among them.
    bool has_named_range(const std::string& name) const;
    Range named_range(const std::string& name) const;
    // "A1:B3" on the first sheet, "Sheet.A1:B3", or a named range.
    Range find(const std::string& reference) const;

    // Computes every formula again.
    void hard_recalculate();
    // Stores a copy; the ending decides how: ods, fods, xlsx, xls, csv, html, pdf.
    void save(const std::filesystem::path& file) const;
    void close();

    com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument> uno() const {
        return document_;
    }

private:
    friend class Office;
    Document(std::shared_ptr<Session> session,
             com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument> document,
             std::string name);
    std::shared_ptr<Session> session_;
    com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument> document_;
    std::string name_;
};

} // namespace jarbook::office
