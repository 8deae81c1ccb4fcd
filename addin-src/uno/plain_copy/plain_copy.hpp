// A copy of a document that needs no extension.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/document/progress.hpp"

#include <string>
#include <vector>

namespace jarbook::menu {

inline constexpr char filter_ods[] = "calc8";
inline constexpr char filter_xlsx[] = "Calc MS Excel 2007 XML";

struct PlainCopyReport {
    sal_Int32 cells = 0;
    sal_Int32 arrays = 0;
    std::vector<std::string> names;
    bool password_dropped = false;
    std::string remarks;
};

// Stores a copy in which every cell that needs the extension (openly, through a named expression,
// in an array formula, or by taking such a cell's formula, as MULTIPLE.OPERATIONS and FORMULA do)
// holds the value that the document shows now; error cells keep their error. All else stays, in the
// copy as in the document. Throws IllegalArgumentException for another filter or the document's own
// address, Stopped before anything is stored, and what storing throws.
PlainCopyReport save_plain_copy(const Context& context, const Document& document,
                                const rtl::OUString& url, const rtl::OUString& filter,
                                Progress& progress);

// The report for people.
std::string report_text(const PlainCopyReport& report);

} // namespace jarbook::menu
