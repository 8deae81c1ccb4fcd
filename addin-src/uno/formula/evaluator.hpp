// Computes parts of formulas away from the user's document.
//
// A part is entered in a scratch sheet, at the column and row of its own cell, so that ROW(),
// COLUMN() and the implicit intersection of a range mean what they mean there. Most are computed on
// a bench that holds only the cells that they refer to; what finds cells by itself is computed in a
// copy of the whole document, which is made the first time that it is needed.
#pragma once

#include "uno/document/cell_value.hpp"
#include "uno/formula/formula.hpp"
#include "uno/formula/scratch_document.hpp"

#include <optional>
#include <vector>

namespace jarbook::menu {

// Rows of a computed array.
struct Block {
    std::vector<std::vector<Value>> rows;
    // As an array formula maps it: one row or column serves all; nothing beyond the end.
    const Value* at(sal_Int32 row, sal_Int32 column) const;
};

class Evaluator {
public:
    // Reads from the document, and leaves it alone.
    Evaluator(const Context& context, const Document& document, const OpCodes& codes);

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
    // Where the tokens are computed: a document, its scratch sheet, and the tokens for it.
    struct Desk {
        Document document;
        sal_Int32 scratch;
        Tokens tokens;
    };
    Desk desk_for(const Tokens& tokens);
    const Document& whole();
    Value in_own_cell(const Formula& formula, const Tokens& tokens);
    Tokens call(std::string_view function, const Tokens& inside) const;

    Context context_;
    Document document_;
    const OpCodes& codes_;
    Bench bench_;
    std::optional<HiddenDocument> whole_;
    sal_Int32 whole_scratch_ = 0;
};

} // namespace jarbook::menu
