#include "uno/plain_copy/extension_cells.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <map>

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

// Whether a cell's value rests on a cell of the set, through any number of formulas.
class Dependence {
public:
    Dependence(const FormulaReader& reader, const std::set<Place>& on) : reader_(reader), on_(on) {}

    bool holds(const Place& place) {
        if (on_.contains(place))
            return true;
        const auto [known, fresh] = known_.try_emplace(place, false);
        if (!fresh)
            return known->second;
        const auto formula = reader_.read(place);
        const bool result = formula && in(formula->root);
        known_[place] = result;
        return result;
    }

private:
    bool in(const Node& node) {
        if (node.area)
            for (const Place& cell : formula_cells(reader_.document(), *node.area))
                if (holds(cell))
                    return true;
        for (const Node& child : node.children)
            if (in(child))
                return true;
        return false;
    }

    const FormulaReader& reader_;
    const std::set<Place>& on_;
    std::map<Place, bool> known_;
};

bool uses(const uno::Sequence<Token>& tokens, const std::set<sal_Int32>& functions) {
    for (const Token& token : tokens)
        if (functions.contains(token.OpCode))
            return true;
    return false;
}

} // namespace

ExtensionCells extension_cells(const FormulaReader& reader) {
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
    for (sal_Int32 s = 0; s < sheets->getCount(); ++s) {
        const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document, s),
                                                            uno::UNO_QUERY_THROW);
        const auto parts = query->queryContentCells(sheet::CellFlags::FORMULA)->getRangeAddresses();
        for (const auto& part : parts)
            for (const Place& place : formula_cells(document, area_of(part))) {
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
    Dependence dependence(reader, needing);
    for (const Place& place : taking)
        if (dependence.holds(place))
            cells.single.push_back(place);
    return cells;
}

} // namespace jarbook::menu
