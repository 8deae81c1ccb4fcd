// The Run book of a run log: its register of the runs, one row each.
#pragma once

#include "uno/document/cell_address.hpp"

#include <com/sun/star/util/XProtectable.hpp>
#include <optional>
#include <string>

namespace jarbook::menu {

struct RunBook {
    sal_Int32 sheet = 0;
    Area rows;             // the register, its closing line the last row
    sal_Int32 end_row = 0; // the closing line, above which runs are entered
};

// The area of a name that belongs to the sheet alone.
std::optional<Area> named_area(const Document& document, sal_Int32 sheet, const char* name);

// The sheet whose names "register" and "register_end" say where the register is.
std::optional<RunBook> run_book_of(const Document& document);

// Takes a sheet's protection away, which is there against slips; it comes back when this goes.
// Throws RuntimeException if there is a password.
class Unprotected {
public:
    explicit Unprotected(
        const com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheet>& sheet);
    ~Unprotected();
    Unprotected(const Unprotected&) = delete;
    Unprotected& operator=(const Unprotected&) = delete;

private:
    com::sun::star::uno::Reference<com::sun::star::util::XProtectable> sheet_;
    bool was_protected_;
};

// Enters a row for a run sheet, with the formulas that the pristine Run book has for its own run
// sheet, and the look of its row. The Run book must be unprotected.
void enter_in_run_book(const Document& document, sal_Int32 run_sheet, const Document& pristine,
                       const RunBook& pristine_book, sal_Int32 pristine_run_sheet);

} // namespace jarbook::menu
