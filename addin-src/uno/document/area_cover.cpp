#include "uno/document/area_cover.hpp"

#include <algorithm>
#include <iterator>

namespace jarbook::menu {

std::vector<Area> AreaCover::add(const Area& area) {
    std::vector<Area> missing;
    if (!areas_.emplace(area.first, area.last).second)
        return missing;
    for (sal_Int32 column = area.first.column; column <= area.last.column; ++column) {
        Rows& rows = columns_[{area.first.sheet, column}];
        std::vector<std::pair<sal_Int32, sal_Int32>> gaps;
        sal_Int32 from = area.first.row;
        auto part = rows.upper_bound(from);
        if (part != rows.begin())
            --part;
        for (; part != rows.end() && part->first <= area.last.row && from <= area.last.row;
             ++part) {
            if (part->second < from)
                continue;
            if (part->first > from)
                gaps.emplace_back(from, part->first - 1);
            from = part->second + 1;
        }
        if (from <= area.last.row)
            gaps.emplace_back(from, area.last.row);
        if (gaps.empty())
            continue;
        // One piece from here on.
        sal_Int32 first = area.first.row;
        sal_Int32 last = area.last.row;
        auto joined = rows.upper_bound(first);
        if (joined != rows.begin() && std::prev(joined)->second >= first - 1)
            --joined;
        while (joined != rows.end() && joined->first <= last + 1) {
            first = std::min(first, joined->first);
            last = std::max(last, joined->second);
            joined = rows.erase(joined);
        }
        rows.emplace(first, last);
        for (const auto& [top, bottom] : gaps) {
            const Place start{area.first.sheet, column, top};
            const Place end{area.first.sheet, column, bottom};
            const bool beside = !missing.empty() && missing.back().last.column == column - 1 &&
                                missing.back().first.row == top &&
                                missing.back().last.row == bottom;
            if (beside)
                missing.back().last = end;
            else
                missing.push_back({start, end});
        }
    }
    return missing;
}

} // namespace jarbook::menu
