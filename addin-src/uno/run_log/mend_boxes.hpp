// Boxes to fill in that a paste has harmed: found, and made good again with what is in them.
#pragma once

#include "uno/run_log/pristine_sheet.hpp"

namespace jarbook::menu {

// Boxes of a run sheet whose style, format, protection, help, check or conditional format is not as
// the pristine sheet has it, in the order of the sheet.
std::vector<Place> harmed_boxes(const PristineSheet& pristine, const Document& document,
                                const RowsOf& rows);

// "D61, D62 and 4 more".
std::string listed_boxes(const std::vector<Place>& boxes);

struct MendedBoxes {
    std::vector<Place> boxes;
    int names_back = 0;
};

// Mends them, and puts lost names back; one step of Undo, or none where nothing was to be done.
// Throws Obstacle where it cannot: no run sheet, one of 0.1.0, one changed by hand, a password.
MendedBoxes mend_boxes(const Context& context, const Document& document, sal_Int32 sheet);

} // namespace jarbook::menu
