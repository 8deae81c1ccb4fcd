// The cells of a document that show errors.
#pragma once

#include "uno/document/cell_address.hpp"

#include <map>
#include <vector>

namespace jarbook::menu {

// Each sheet is asked once, so that any number of formulas may ask about any area.
class ErrorCells {
public:
    explicit ErrorCells(const Document& document) : document_(document) {}

    // The error code that the cell shows; 0 if it shows none.
    sal_Int32 code(const Place& place);

    // Cells of an area that show errors: those with this error, or else whichever; by sheet, column
    // and row, and no more than `most`.
    std::vector<Place> in(const Area& area, sal_Int32 with_code, std::size_t most);
    // The error of the first; 0 if there is none.
    sal_Int32 first_code(const Area& area);
    // All of them on a sheet, by column and row.
    std::vector<Place> on_sheet(sal_Int32 sheet);

private:
    using Columns = std::map<sal_Int32, std::vector<sal_Int32>>; // rows from top to bottom
    const Columns& columns_of(sal_Int32 sheet);

    Document document_;
    std::map<sal_Int32, Columns> sheets_;
    std::map<Place, sal_Int32> codes_;
};

} // namespace jarbook::menu
