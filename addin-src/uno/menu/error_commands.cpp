#include "texts/check.hpp"
#include "texts/entry.hpp"
#include "texts/recalculate.hpp"
#include "texts/why.hpp"
#include "uno/check/sheet_check.hpp"
#include "uno/document/cell_value.hpp"
#include "uno/explain/inspection.hpp"
#include "uno/menu/commands.hpp"
#include "uno/run_log/run_sheet.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

uno::Sequence<table::CellRangeAddress> error_areas(const Document& document, const Area& area) {
    const uno::Reference<sheet::XCellRangesQuery> query(range_at(document, area),
                                                        uno::UNO_QUERY_THROW);
    return query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddresses();
}

std::vector<Place> error_cells(const Document& document, const Area& area) {
    std::vector<Place> cells;
    for (const auto& part : error_areas(document, area))
        for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
            for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                cells.push_back({part.Sheet, c, r});
    return cells;
}

// A text on a run sheet ("a box holds an error: clear it"), and any that sends people to this
// command ("error: Jarbook ▸ Why this error?"), speaks of the errors of its row.
std::optional<Area> row_meant(const Document& document, const Place& cell) {
    const Value value = value_of(cell_at(document, cell));
    const auto* text = std::get_if<std::string>(&value);
    if (!text || (text->find(texts::entry::why_error) == std::string::npos &&
                  run_sheet_kind(document, cell.sheet) != RunSheet::present))
        return std::nullopt;
    const uno::Reference<table::XColumnRowRange> sheet(sheet_at(document, cell.sheet),
                                                       uno::UNO_QUERY_THROW);
    const sal_Int32 columns = sheet->getColumns()->getCount();
    return Area{{cell.sheet, 0, cell.row}, {cell.sheet, columns - 1, cell.row}};
}

std::string title_for(const Document& document, const std::vector<Place>& cells, bool row) {
    if (row)
        return texts::why::title_row{.row = std::to_string(cells[0].row + 1)}.text();
    if (cells.size() > 1)
        return std::string(texts::why::title_many);
    return texts::why::title_one{.cell = short_name(cells[0]),
                                 .error = error_text(cell_at(document, cells[0])->getError())}
        .text();
}

std::string counted(std::size_t count, std::string_view one, const std::string& many) {
    return count == 1 ? std::string(one) : many;
}

} // namespace

Outcome why_error(const Situation& situation, const Request& request) {
    const Document document = situation.document();
    const std::vector<Area> selection = situation.selection();
    Outcome outcome;
    if (selection.empty()) {
        outcome.text = texts::why::no_cell;
        return outcome;
    }
    std::vector<Place> cells;
    for (const Area& area : selection) {
        const auto found = error_cells(document, area);
        cells.insert(cells.end(), found.begin(), found.end());
    }
    const Place first = selection[0].first;
    const bool one = selection.size() == 1 && selection[0].single();
    bool row = false;
    if (const auto meant = cells.empty() && one ? row_meant(document, first) : std::nullopt) {
        cells = error_cells(document, *meant);
        row = !cells.empty();
    }
    if (cells.empty()) {
        outcome.text =
            one ? texts::why::no_error_here{.cell = short_name(first),
                                            .value = value_text(value_of(cell_at(document, first)))}
                      .text()
                : std::string(texts::why::no_error_selected);
        outcome.result <<= handed_out(document, {}, 0);
        return outcome;
    }
    outcome.findings = explain_cells(situation.context(), document, cells, *request.progress);
    outcome.title = title_for(document, cells, row);
    outcome.result <<= handed_out(document, outcome.findings, cells[0].sheet);
    if (outcome.findings.empty())
        outcome.text = texts::why::gone;
    return outcome;
}

Outcome check_this_sheet(const Situation& situation, const Request& request) {
    const Document document = situation.document();
    const sal_Int32 sheet = situation.sheet();
    Outcome outcome;
    outcome.findings = check_sheet(situation.context(), document, sheet, *request.progress);
    outcome.title = texts::check::title{.sheet = sheet_name(document, sheet)}.text();
    outcome.result <<= handed_out(document, outcome.findings, sheet);
    std::size_t errors = 0;
    for (const Finding& finding : outcome.findings)
        errors += finding.kind == Finding::Kind::error;
    const std::size_t things = outcome.findings.size() - errors;
    outcome.text =
        outcome.findings.empty()
            ? std::string(texts::check::calm)
            : texts::check::counts{.errors =
                                       counted(errors, texts::check::one_error,
                                               texts::check::errors{.count = std::to_string(errors)}
                                                   .text()),
                                   .things =
                                       counted(things, texts::check::one_thing,
                                               texts::check::things{.count = std::to_string(things)}
                                                   .text())}
                  .text();
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
    const std::string done(texts::recalculate::done);
    Outcome outcome;
    if (wrong == 0)
        outcome.text = texts::recalculate::no_errors{.done = done}.text();
    else if (wrong == 1)
        outcome.text = texts::recalculate::one_error{.done = done, .sheets = where}.text();
    else
        outcome.text = texts::recalculate::errors{.done = done,
                                                  .count = std::to_string(wrong),
                                                  .sheets = where}
                           .text();
    return outcome;
}

} // namespace jarbook::menu
