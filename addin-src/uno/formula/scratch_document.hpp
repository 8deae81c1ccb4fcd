// A document to compute parts of a formula on, that holds no more than the cells that they refer
// to: quick, however large the user's document is.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/formula/formula.hpp"

#include <map>
#include <vector>

namespace jarbook::menu {

class Bench {
public:
    Bench(const Context& context, const Document& source, const OpCodes& codes);

    // Whether these can be computed from the values of the cells that they name. They cannot if
    // they find cells by themselves (INDIRECT, OFFSET, …) or look at more than values.
    static bool suffices(const Tokens& tokens, const OpCodes& codes);

    // Lays out the values of all cells that the tokens refer to, at their columns and rows, and
    // gives the tokens for the bench. References must be absolute, as in a Formula.
    Tokens laid_out(const Tokens& tokens);

    const Document& document() const { return bench_.document(); }
    // The sheet to enter formulas in.
    static constexpr sal_Int32 scratch = 0;

private:
    sal_Int32 sheet_for(sal_Int32 source_sheet);
    void lay_out(const Area& area);
    void copy(const Area& filled);

    Document source_;
    const OpCodes& codes_;
    HiddenDocument bench_;
    std::map<sal_Int32, sal_Int32> sheets_;
    std::vector<Area> laid_out_;
};

} // namespace jarbook::menu
