// Computes parts of formulas away from the user's document.
//
// A part is entered in a scratch sheet, at the column and row of its own cell, so that ROW(),
// COLUMN() and the implicit intersection of a range mean what they mean there. Most are computed in
// a scratch document that holds only the cells that they refer to; what finds cells by itself is
// computed in a copy of the whole document, which is made the first time that it is needed.
#pragma once

#include "uno/document/cell_value.hpp"
#include "uno/document/progress.hpp"
#include "uno/formula/formula.hpp"
#include "uno/formula/scratch_document.hpp"

#include <memory>
#include <optional>
#include <tuple>
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
    Evaluator(const Context& context, const Document& document, const OpCodes& codes,
              Progress& progress);

    // As one cell computes it.
    Value scalar(const Formula& formula, const Tokens& tokens);
    Value scalar(const Formula& formula, const Node& node) {
        return scalar(formula, formula.part(node));
    }
    // As an array formula computes it, in its own size. Kept, since each cell of an array formula
    // asks for it again.
    std::shared_ptr<const Block> block(const Formula& formula, const Node& node);

    // Rows and columns of what the tokens give as an array.
    std::pair<sal_Int32, sal_Int32> size(const Formula& formula, const Tokens& tokens);

private:
    // Where tokens are computed: a document, the sheet to enter them in, and the tokens for it.
    struct Workplace {
        Document document;
        sal_Int32 sheet;
        Tokens tokens;
    };
    Workplace workplace_for(const Tokens& tokens);
    const Document& whole_copy();
    Value in_own_cell(const Formula& formula, const Tokens& tokens);
    Block computed(const Formula& formula, const Tokens& tokens);
    Block read(const Document& document, const Area& area);
    Tokens call(std::string_view function, const Tokens& inside) const;

    Context context_;
    Document document_;
    const OpCodes& codes_;
    Progress& progress_;
    ScratchDocument scratch_;
    std::optional<HiddenDocument> whole_copy_;
    sal_Int32 entry_sheet_ = 0; // of the copy
    // By the formula's cell and the tokens' range in it.
    std::map<std::tuple<Place, std::size_t, std::size_t>, std::shared_ptr<const Block>> blocks_;
    std::size_t values_kept_ = 0;
};

} // namespace jarbook::menu
