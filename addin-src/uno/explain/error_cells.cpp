#include "uno/explain/error_cells.hpp"

#include <algorithm>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// So many cells of an area are looked at for the same error; then any error will do.
constexpr std::size_t most_looked_at = 256;

} // namespace

sal_Int32 ErrorCells::code(const Place& place) {
    const auto [known, fresh] = codes_.try_emplace(place, 0);
    if (fresh)
        known->second = cell_at(document_, place)->getError();
    return known->second;
}

const ErrorCells::Columns& ErrorCells::columns_of(sal_Int32 sheet) {
    const auto [known, fresh] = sheets_.try_emplace(sheet);
    if (!fresh)
        return known->second;
    const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document_, sheet),
                                                        uno::UNO_QUERY_THROW);
    const auto parts = query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddresses();
    for (const auto& part : parts)
        for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                known->second[c].push_back(r);
    for (auto& [column, rows] : known->second)
        std::sort(rows.begin(), rows.end());
    return known->second;
}

std::vector<Place> ErrorCells::in(const Area& area, sal_Int32 with_code, std::size_t most) {
    std::vector<Place> same;
    std::vector<Place> others;
    std::size_t looked_at = 0;
    for (sal_Int32 s = area.first.sheet; s <= area.last.sheet; ++s) {
        const Columns& columns = columns_of(s);
        const auto end = columns.upper_bound(area.last.column);
        for (auto column = columns.lower_bound(area.first.column); column != end; ++column) {
            const auto& rows = column->second;
            auto row = std::lower_bound(rows.begin(), rows.end(), area.first.row);
            for (; row != rows.end() && *row <= area.last.row; ++row) {
                if (same.size() == most || ++looked_at > most_looked_at)
                    return same.empty() ? others : same;
                const Place place{s, column->first, *row};
                if (with_code == 0 || code(place) == with_code)
                    same.push_back(place);
                else if (others.size() < most)
                    others.push_back(place);
            }
        }
    }
    return same.empty() ? others : same;
}

sal_Int32 ErrorCells::first_code(const Area& area) {
    const auto cells = in(area, 0, 1);
    return cells.empty() ? 0 : code(cells.front());
}

std::vector<Place> ErrorCells::on_sheet(sal_Int32 sheet) {
    std::vector<Place> all;
    for (const auto& [column, rows] : columns_of(sheet))
        for (const sal_Int32 row : rows)
            all.push_back({sheet, column, row});
    return all;
}

} // namespace jarbook::menu
