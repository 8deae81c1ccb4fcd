#include "uno/check/sheet_check.hpp"

#include <algorithm>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <map>
#include <set>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

std::vector<Place> places(const uno::Reference<sheet::XSheetCellRanges>& ranges) {
    std::vector<Place> result;
    const auto addresses = ranges->getRangeAddresses();
    for (const auto& part : addresses)
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
            return text + " and " + std::to_string(cells.size() - named) + " more";
        if (count > 0)
            text += count + 1 == cells.size() ? " and " : ", ";
        text += name_seen_from(document, cell, from_sheet);
        ++count;
    }
    return text;
}

// One refusal that fills several cells of an array formula is told once, at the first of them.
Findings folded(const FormulaReader& reader, const Findings& errors,
                std::map<Place, std::set<Place>>& also) {
    Findings result;
    for (const Finding& error : errors) {
        const auto array = reader.array_around(error.place);
        const auto same = std::find_if(result.begin(), result.end(), [&](const Finding& told) {
            return array && array->contains(told.place) && told.sentence == error.sentence;
        });
        if (same == result.end())
            result.push_back(error);
        else
            also[same->place].insert(error.place);
    }
    return result;
}

// Adds to each error the cells that show it only because they use its cell.
void add_followers(const Document& document, const Findings& all, Findings& errors,
                   std::map<Place, std::set<Place>> users, sal_Int32 sheet) {
    for (const Finding& finding : all)
        if (finding.source)
            users[*finding.source].insert(finding.place);
    for (Finding& error : errors) {
        std::set<Place> followers;
        std::vector<Place> open{error.place};
        while (!open.empty()) {
            const Place place = open.back();
            open.pop_back();
            for (const Place& user : users[place])
                if (user != error.place && followers.insert(user).second)
                    open.push_back(user);
        }
        if (!followers.empty())
            error.sentence += " Also shown by " + listed(document, followers, sheet) + ".";
    }
}

} // namespace

Findings check_sheet(const Context& context, const Document& document, sal_Int32 sheet) {
    const OpCodes codes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
    Explainer explainer(context, document, codes);
    const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document, sheet),
                                                        uno::UNO_QUERY_THROW);
    Findings all;
    for (const Place& place : places(query->queryFormulaCells(sheet::FormulaResult::ERROR))) {
        const Findings found = explainer.explain(place);
        all.insert(all.end(), found.begin(), found.end());
    }
    Findings errors;
    std::copy_if(all.begin(), all.end(), std::back_inserter(errors), [](const Finding& finding) {
        return finding.kind == Finding::Kind::error || finding.kind == Finding::Kind::stale;
    });
    sort_by_cell(errors);
    std::map<Place, std::set<Place>> also;
    Findings result = folded(explainer.reader(), errors, also);
    add_followers(document, all, result, std::move(also), sheet);

    OddArguments odd(document, explainer);
    for (const Place& place : places(query->queryContentCells(sheet::CellFlags::FORMULA)))
        odd.look_at(place);
    Findings more = odd.findings();
    // What was refused is not told twice.
    std::erase_if(more, [&](const Finding& finding) {
        return std::any_of(result.begin(), result.end(), [&](const Finding& error) {
            return error.kind == Finding::Kind::error && error.place == finding.place &&
                   !error.argument.empty() && error.argument == finding.argument;
        });
    });
    sort_by_cell(more);
    result.insert(result.end(), more.begin(), more.end());
    return result;
}

} // namespace jarbook::menu
