// What a cell holds or shows, and writing the same without a formula.
#pragma once

#include "uno/document/error_text.hpp"

#include <com/sun/star/table/XCell.hpp>
#include <string>
#include <variant>

namespace jarbook::menu {

struct CellError {
    sal_Int32 code;
    bool operator==(const CellError&) const = default;
};
// Empty, a number, a text, an error.
using Value = std::variant<std::monostate, double, std::string, CellError>;

inline sal_Int32 error_of(const Value& value) {
    const auto* error = std::get_if<CellError>(&value);
    return error ? error->code : 0;
}
// "55", "the text "abc"", "empty", "#VALUE!".
std::string value_text(const Value& value);

Value value_of(const com::sun::star::uno::Reference<com::sun::star::table::XCell>& cell);

// Writes a value that stays what it is: an error becomes the formula of that error alone, and an
// empty text, which no cell can hold as it is, becomes ="".
enum class Errors {
    all,    // as Calc knows them, =#ERR502! among them
    common, // only the seven that every spreadsheet has; others become #VALUE!
};
// The formula of an error or an empty text.
rtl::OUString constant_formula(const Value& value, Errors errors);
void write_constant(const com::sun::star::uno::Reference<com::sun::star::table::XCell>& cell,
                    const Value& value, Errors errors);

} // namespace jarbook::menu
