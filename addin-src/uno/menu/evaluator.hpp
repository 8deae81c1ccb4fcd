// Computes parts of formulas in a copy of the document.
//
// A part is entered in a scratch sheet of the copy, at the column and row of its own cell, so that
// ROW(), COLUMN() and the implicit intersection of a range mean what they mean there.
#pragma once

#include "formula.hpp"

#include <string>
#include <variant>
#include <vector>

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
std::string shown(const Value& value);
// "#VALUE!", "Err:502", as cells show it in English.
std::string error_text(sal_Int32 code);

Value value_of(const com::sun::star::uno::Reference<com::sun::star::table::XCell>& cell);

// Rows of a computed array.
struct Block {
    std::vector<std::vector<Value>> rows;
    // As an array formula maps it: one row or column serves all; nothing beyond the end.
    const Value* at(sal_Int32 row, sal_Int32 column) const;
};

class Evaluator {
public:
    // Adds the scratch sheet to the document, which must be a copy.
    Evaluator(const Document& copy, const OpCodes& codes);

    // As one cell computes it.
    Value scalar(const Formula& formula, const Tokens& tokens);
    Value scalar(const Formula& formula, const Node& node) {
        return scalar(formula, formula.part(node));
    }
    // As an array formula computes it, in its own size but no more than these rows and columns.
    Block block(const Formula& formula, const Tokens& tokens, sal_Int32 rows, sal_Int32 columns);

    // Rows and columns of what the tokens give as an array.
    std::pair<sal_Int32, sal_Int32> size(const Formula& formula, const Tokens& tokens);

private:
    Value in_own_cell(const Formula& formula, const Tokens& tokens);
    Tokens call(std::string_view function, const Tokens& inside) const;

    Document copy_;
    const OpCodes& codes_;
    sal_Int32 scratch_;
};

} // namespace jarbook::menu
