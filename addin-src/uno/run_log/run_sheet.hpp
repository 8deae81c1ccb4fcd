// What a run sheet is: told by the names of its cells, which stay whatever it is called.
#pragma once

#include "uno/run_log/sheet_names.hpp"

namespace jarbook::menu {

enum class RunSheet {
    none,    // another sheet, or one whose names are lost (pristine_sheet.hpp finds these)
    earlier, // of Jarbook 0.1.0: thirty jars for good
    present,
};
RunSheet run_sheet_kind(const Document& document, sal_Int32 sheet);

// All run sheets of either kind, in the order of the sheets.
std::vector<sal_Int32> run_sheets(const Document& document);

// Rows of the jars, the first and the last. Only of a present run sheet.
struct JarRows {
    sal_Int32 first = 0;
    sal_Int32 last = 0;
    sal_Int32 count() const { return last - first + 1; }
};
JarRows jar_rows(const Document& document, sal_Int32 sheet);

// What is typed on each jar; a name of each column of boxes.
inline constexpr const char* jar_boxes[] = {"jar_clock",       "jar_amount", "jar_reading",
                                            "jar_temperature", "jar_notes",  "jar_keep",
                                            "jar_cut"};

} // namespace jarbook::menu
