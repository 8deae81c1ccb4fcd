#include "uno/check/sheet_check.hpp"
#include "uno/document/cell_value.hpp"
#include "uno/explain/inspection.hpp"
#include "uno/menu/commands.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

std::vector<Place> error_cells(const Document& document, const Area& area) {
    std::vector<Place> cells;
    const uno::Reference<sheet::XCellRangesQuery> query(range_at(document, area),
                                                        uno::UNO_QUERY_THROW);
    const auto parts = query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddresses();
    for (const auto& part : parts)
        for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
            for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                cells.push_back({part.Sheet, c, r});
    return cells;
}

std::string counted(std::size_t count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

} // namespace

Outcome why_error(const Situation& situation, const Request&) {
    const Document document = situation.document();
    std::vector<Place> cells;
    std::optional<Place> first;
    for (const Area& area : situation.selection()) {
        if (!first)
            first = area.first;
        const auto found = error_cells(document, area);
        cells.insert(cells.end(), found.begin(), found.end());
    }
    Outcome outcome;
    if (!first) {
        outcome.text = "No cell is selected. Select a cell that shows an error, such as #VALUE! or "
                       "Err:502.";
        return outcome;
    }
    if (cells.empty()) {
        const bool one = situation.selection().size() == 1 && situation.selection()[0].single();
        outcome.text = one ? "Cell " + short_name(*first) + " shows no error (it is " +
                                 shown(value_of(cell_at(document, *first))) + ")."
                           : std::string("No cell of the selection shows an error.");
        outcome.text += " Select one that does, such as #VALUE! or Err:502; Check this sheet finds "
                        "them all.";
        outcome.result <<= handed_out(document, {}, 0);
        return outcome;
    }
    outcome.findings = explain_cells(situation.context(), document, cells);
    outcome.title = cells.size() == 1 ? "Why " + short_name(cells[0]) + " shows " +
                                            error_text(cell_at(document, cells[0])->getError())
                                      : "Why these cells show errors";
    outcome.result <<= handed_out(document, outcome.findings, cells[0].sheet);
    if (outcome.findings.empty())
        outcome.text = "The error is gone when the cell is computed again. Choose Recalculate "
                       "everything.";
    return outcome;
}

Outcome check_this_sheet(const Situation& situation, const Request&) {
    const Document document = situation.document();
    const sal_Int32 sheet = situation.sheet();
    Outcome outcome;
    outcome.findings = check_sheet(situation.context(), document, sheet);
    outcome.title = "Check of the sheet " + sheet_name(document, sheet);
    outcome.result <<= handed_out(document, outcome.findings, sheet);
    std::size_t refused = 0;
    for (const Finding& finding : outcome.findings)
        refused += finding.kind == Finding::Kind::error;
    const std::size_t other = outcome.findings.size() - refused;
    if (outcome.findings.empty())
        outcome.text = "No cell of this sheet shows an error, and nothing that the functions are "
                       "given looks odd.";
    else
        outcome.text = counted(refused, "error", "errors") + ", and " +
                       counted(other, "thing", "things") + " to look at.";
    return outcome;
}

Outcome recalculate(const Situation& situation, const Request&) {
    const Document document = situation.document();
    const uno::Reference<sheet::XCalculatable> calculation(document, uno::UNO_QUERY_THROW);
    calculation->calculateAll();
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    std::size_t wrong = 0;
    std::string where;
    for (sal_Int32 s = 0; s < sheets->getCount(); ++s) {
        const uno::Reference<sheet::XCellRangesQuery> query(sheets->getByIndex(s),
                                                            uno::UNO_QUERY_THROW);
        const auto parts =
            query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddresses();
        for (const auto& part : parts)
            wrong += static_cast<std::size_t>(part.EndRow - part.StartRow + 1) *
                     static_cast<std::size_t>(part.EndColumn - part.StartColumn + 1);
        if (parts.getLength() > 0)
            where.append(where.empty() ? "" : ", ").append(sheet_name(document, s));
    }
    Outcome outcome;
    outcome.text = "Every formula of this document has been computed again. ";
    outcome.text += wrong == 0 ? std::string("No cell shows an error.")
                               : counted(wrong, "cell shows", "cells show") + " an error (" +
                                     where + "); Check this sheet tells why.";
    return outcome;
}

} // namespace jarbook::menu
