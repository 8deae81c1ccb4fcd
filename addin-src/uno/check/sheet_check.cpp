#include "uno/check/sheet_check.hpp"

#include "texts/check.hpp"
#include "texts/working.hpp"
#include "uno/check/argument_checks.hpp"
#include "uno/check/run_sheets.hpp"
#include "uno/explain/error_trail.hpp"

#include <algorithm>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <limits>
#include <map>
#include <set>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

std::vector<Place> formula_cells(const Document& document, sal_Int32 sheet) {
    std::vector<Place> result;
    const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document, sheet),
                                                        uno::UNO_QUERY_THROW);
    const auto parts = query->queryContentCells(sheet::CellFlags::FORMULA)->getRangeAddresses();
    for (const auto& part : parts)
        for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
            for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                result.push_back({part.Sheet, c, r});
    return result;
}

void sort_by_cell(Findings& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tuple(a.place.sheet, a.place.row, a.place.column) <
               std::tuple(b.place.sheet, b.place.row, b.place.column);
    });
}

// "D12, D13, D14 and 20 more".
std::string listed(const Document& document, const std::set<Place>& cells, sal_Int32 from_sheet) {
    constexpr std::size_t named = 6;
    std::string text;
    std::size_t count = 0;
    for (const Place& cell : cells) {
        if (count == named && cells.size() > named + 1)
            return text +
                   texts::check::and_more{.count = std::to_string(cells.size() - named)}.text();
        if (count > 0)
            text += count + 1 == cells.size() ? texts::check::last : std::string_view(", ");
        text += name_seen_from(document, cell, from_sheet);
        ++count;
    }
    return text;
}

// The causes on a list, each with the cells that show its error.
class ErrorList {
public:
    ErrorList(const Document& document, const FormulaReader& reader, const ErrorTrail& trail)
        : document_(document), reader_(reader), trail_(trail) {}

    Findings findings(sal_Int32 sheet) {
        Findings all;
        for (const Place& cause : trail_.causes())
            for (const Finding& finding : trail_.findings_at(cause))
                if (finding.kind == Finding::Kind::error || finding.kind == Finding::Kind::stale)
                    all.push_back(finding);
        sort_by_cell(all);
        Findings result = one_for_an_array(all);
        for (const auto& [cause, cells] : trail_.cells_by_cause())
            followers_[told_at(cause)].insert(cells.begin(), cells.end());
        for (Finding& finding : result) {
            std::set<Place>& cells = followers_[finding.place];
            cells.erase(finding.place);
            if (!cells.empty())
                finding.sentence +=
                    texts::check::also_shown{.cells = listed(document_, cells, sheet)}.text();
            cells.clear(); // of several findings in one cell the first tells
        }
        return result;
    }

private:
    // One refusal that fills several cells of an array formula is told once, at the first of them.
    Findings one_for_an_array(const Findings& all) {
        Findings result;
        std::map<std::pair<Place, std::string>, Place> first;
        for (const Finding& finding : all) {
            const auto array = reader_.array_around(finding.place);
            if (array) {
                const auto [same, fresh] =
                    first.try_emplace({array->first, finding.sentence}, finding.place);
                if (!fresh && same->second != finding.place) {
                    told_at_.emplace(finding.place, same->second);
                    continue;
                }
            }
            result.push_back(finding);
        }
        return result;
    }
    Place told_at(const Place& cause) const {
        const auto moved = told_at_.find(cause);
        return moved == told_at_.end() ? cause : moved->second;
    }

    const Document& document_;
    const FormulaReader& reader_;
    const ErrorTrail& trail_;
    std::map<Place, Place> told_at_;
    std::map<Place, std::set<Place>> followers_;
};

// Whether the cell may call a function of ours: cells of an array formula but the first only point
// at it.
bool may_call_ours(const FormulaReader& reader, const Place& place) {
    const uno::Reference<sheet::XFormulaTokens> formula(cell_at(reader.document(), place),
                                                        uno::UNO_QUERY);
    if (!formula.is())
        return false;
    const auto tokens = formula->getTokens();
    return tokens.getLength() > 0 &&
           (tokens[0].OpCode == reader.codes().array_part || reader.needs_extension(tokens));
}

} // namespace

Findings check_sheet(const Context& context, const Document& document, sal_Int32 sheet,
                     Progress& progress) {
    const OpCodes codes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
    FormulaParts parts(context, document, codes, progress);
    ErrorTrail trail(parts);
    const std::vector<Place> in_error = parts.errors().on_sheet(sheet);
    progress.begin(std::string(texts::working::errors), in_error.size());
    for (std::size_t i = 0; i < in_error.size(); ++i) {
        progress.at(i);
        trail.follow(in_error[i], std::numeric_limits<std::size_t>::max());
    }
    Findings result = ErrorList(document, parts.reader(), trail).findings(sheet);

    OddArguments odd(parts);
    const std::vector<Place> formulas = formula_cells(document, sheet);
    progress.begin(std::string(texts::working::arguments), formulas.size());
    for (std::size_t i = 0; i < formulas.size(); ++i) {
        progress.at(i);
        if (may_call_ours(parts.reader(), formulas[i]))
            odd.look_at(formulas[i]);
    }
    // What was refused is not told twice.
    std::set<std::pair<Place, std::string>> refused;
    for (const Finding& error : result)
        if (error.kind == Finding::Kind::error && !error.argument.empty())
            refused.emplace(error.place, error.argument);
    Findings more = odd.findings();
    std::erase_if(more, [&](const Finding& finding) {
        return refused.contains({finding.place, finding.argument});
    });
    sort_by_cell(more);
    result.insert(result.end(), more.begin(), more.end());
    const Findings run = check_run_sheet(context, document, sheet);
    result.insert(result.end(), run.begin(), run.end());
    return result;
}

} // namespace jarbook::menu
