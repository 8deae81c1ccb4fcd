#include "uno/plain_copy/extension_cells.hpp"

#include "texts/working.hpp"
#include "uno/document/area_cover.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <map>
#include <set>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

std::vector<Place> formula_cells(const Document& document, const Area& area) {
    std::vector<Place> cells;
    for (sal_Int32 s = area.first.sheet; s <= area.last.sheet; ++s) {
        const Area on_sheet{{s, area.first.column, area.first.row},
                            {s, area.last.column, area.last.row}};
        const uno::Reference<sheet::XCellRangesQuery> query(range_at(document, on_sheet),
                                                            uno::UNO_QUERY_THROW);
        const auto found = query->queryContentCells(sheet::CellFlags::FORMULA)->getRangeAddresses();
        for (const auto& part : found)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                    cells.push_back({s, c, r});
    }
    return cells;
}

void areas_in(const Node& node, std::vector<Area>& out) {
    if (node.area)
        out.push_back(*node.area);
    for (const Node& child : node.children)
        areas_in(child, out);
}

// Whether a cell's value rests on a cell of the set, through any number of formulas. A work list,
// not recursion: a chain may be as long as a sheet.
class Dependence {
public:
    Dependence(const FormulaReader& reader, std::set<Place> on, Progress& progress)
        : reader_(reader), rests_(std::move(on)), progress_(progress) {}

    bool holds(const Place& start) {
        std::map<Place, Place> needed_by{{start, start}};
        std::vector<Place> open{start};
        AreaCover looked_at;
        while (!open.empty()) {
            progress_.going_on();
            const Place place = open.back();
            open.pop_back();
            if (rests_.contains(place)) {
                // And so do all that led here.
                for (Place at = place; at != start; at = needed_by.at(at))
                    rests_.insert(at);
                rests_.insert(start);
                return true;
            }
            if (rests_not_.contains(place))
                continue;
            const auto formula = reader_.read(place);
            if (!formula)
                continue;
            std::vector<Area> areas;
            areas_in(formula->root, areas);
            for (const Area& area : areas)
                for (const Place& cell : fresh_formula_cells(area, looked_at))
                    if (needed_by.emplace(cell, place).second)
                        open.push_back(cell);
        }
        for (const auto& [place, by] : needed_by)
            rests_not_.insert(place);
        return false;
    }

private:
    std::vector<Place> fresh_formula_cells(const Area& area, AreaCover& looked_at) const {
        std::vector<Place> cells;
        for (sal_Int32 s = area.first.sheet; s <= area.last.sheet; ++s) {
            const Area on_sheet{{s, area.first.column, area.first.row},
                                {s, area.last.column, area.last.row}};
            for (const Area& part : looked_at.add(on_sheet)) {
                const auto found = formula_cells(reader_.document(), part);
                cells.insert(cells.end(), found.begin(), found.end());
            }
        }
        return cells;
    }

    const FormulaReader& reader_;
    std::set<Place> rests_;
    std::set<Place> rests_not_;
    Progress& progress_;
};

bool uses(const uno::Sequence<Token>& tokens, const std::set<sal_Int32>& functions) {
    for (const Token& token : tokens)
        if (functions.contains(token.OpCode))
            return true;
    return false;
}

} // namespace

ExtensionCells extension_cells(const FormulaReader& reader, Progress& progress) {
    const Document& document = reader.document();
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    // Functions that take more of a cell than its value: MULTIPLE.OPERATIONS (here TABLE) computes
    // formulas again, with other values in other cells; the rest look at the formula itself.
    std::set<sal_Int32> formula_takers;
    for (const char* name : {"MULTIPLE.OPERATIONS", "TABLE", "FORMULA", "ISFORMULA"})
        formula_takers.insert(reader.codes().function(name));
    formula_takers.erase(-1);

    ExtensionCells cells;
    std::set<Place> needing;
    std::vector<Place> taking;
    progress.begin(std::string(texts::working::formulas),
                   static_cast<std::size_t>(sheets->getCount()));
    for (sal_Int32 s = 0; s < sheets->getCount(); ++s) {
        progress.at(static_cast<std::size_t>(s));
        const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document, s),
                                                            uno::UNO_QUERY_THROW);
        const auto parts = query->queryContentCells(sheet::CellFlags::FORMULA)->getRangeAddresses();
        for (const auto& part : parts)
            for (const Place& place : formula_cells(document, area_of(part))) {
                progress.going_on();
                const uno::Reference<sheet::XFormulaTokens> formula(cell_at(document, place),
                                                                    uno::UNO_QUERY_THROW);
                const auto tokens = formula->getTokens();
                // Cells of an array but the first only point at it.
                if (tokens.getLength() == 0 || tokens[0].OpCode == reader.codes().array_part)
                    continue;
                if (!reader.needs_extension(tokens)) {
                    if (uses(tokens, formula_takers))
                        taking.push_back(place);
                    continue;
                }
                const auto array = reader.array_around(place);
                if (!array) {
                    cells.single.push_back(place);
                    needing.insert(place);
                    continue;
                }
                cells.arrays.push_back(*array);
                for (sal_Int32 r = array->first.row; r <= array->last.row; ++r)
                    for (sal_Int32 c = array->first.column; c <= array->last.column; ++c)
                        needing.insert({s, c, r});
            }
    }
    Dependence dependence(reader, std::move(needing), progress);
    for (const Place& place : taking)
        if (dependence.holds(place))
            cells.single.push_back(place);
    return cells;
}

} // namespace jarbook::menu
