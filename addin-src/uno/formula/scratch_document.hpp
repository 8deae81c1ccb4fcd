// A document to compute parts of a formula on, that holds no more than the cells that they refer
// to: quick, however large the user's document is.
#pragma once

#include "uno/document/area_cover.hpp"
#include "uno/document/hidden_document.hpp"
#include "uno/formula/formula.hpp"

#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <map>
#include <set>

namespace jarbook::menu {

class ScratchDocument {
public:
    ScratchDocument(const Context& context, const Document& source, const OpCodes& codes);

    // Whether these can be computed from the values of the cells that they name. They cannot if
    // they find cells by themselves (INDIRECT, OFFSET, …) or look at more than values.
    bool suffices(const Tokens& tokens) const;

    // Copies the values of all cells that the tokens refer to, to their columns and rows, and gives
    // the tokens for this document. References must be absolute, as in a Formula. A cell is copied
    // once, however many formulas refer to it.
    Tokens copied_for(const Tokens& tokens);

    const Document& document() const { return scratch_.document(); }
    // The sheet to enter formulas in.
    static constexpr sal_Int32 entry_sheet = 0;

private:
    // Whether cells are joined to a range by an operator (A1:INDEX(…)): then all between counts.
    bool joins_cells(const Tokens& tokens) const;
    // All that lies between the cells that the tokens refer to, by sheets.
    std::map<sal_Int32, Area> around(const Tokens& tokens) const;
    sal_Int32 sheet_for(sal_Int32 source_sheet);
    void copy_values(const Area& area);
    // Whether the cell is here, brought with the sound cells around it: formulas down a column use
    // cells down a column, and a copy costs more than its cells.
    bool brought_with_neighbours(const Place& cell);
    void copy_filled(
        const com::sun::star::uno::Reference<com::sun::star::sheet::XSheetCellRanges>& filled);
    void copy(const Area& filled);

    Document source_;
    const OpCodes& codes_;
    HiddenDocument scratch_;
    std::set<sal_Int32> find_cells_; // operations that find cells by themselves
    sal_Int32 range_operator_;
    std::map<sal_Int32, sal_Int32> sheets_;
    AreaCover copied_;
    std::set<Place> neighbourhoods_; // by their first cells
};

} // namespace jarbook::menu
