// Why this error?, and findings for the outside.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/document/progress.hpp"
#include "uno/explain/finding.hpp"

#include <com/sun/star/uno/Sequence.hxx>
#include <org/jarbook/Finding.hpp>

namespace jarbook::menu {

// Why these cells of the document show errors: a short way from each to where its error began, and
// what is wrong there. Tells no more causes than a person can look at, and says so.
Findings explain_cells(const Context& context, const Document& document,
                       const std::vector<Place>& cells, Progress& progress);

// Findings as the service and the dispatch results hand them out; cells are named as seen from the
// sheet.
com::sun::star::uno::Sequence<org::jarbook::Finding>
handed_out(const Document& document, const Findings& findings, sal_Int32 from_sheet);

} // namespace jarbook::menu
