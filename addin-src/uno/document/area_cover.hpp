// Which cells have been dealt with, so that areas that overlap cost no more than their cells.
#pragma once

#include "uno/document/cell_address.hpp"

#include <map>
#include <set>
#include <vector>

namespace jarbook::menu {

class AreaCover {
public:
    // The parts of an area (on one sheet) that were not in any area before; from then on they are.
    std::vector<Area> add(const Area& area);

private:
    using Rows = std::map<sal_Int32, sal_Int32>; // first row to last, apart from each other
    std::map<std::pair<sal_Int32, sal_Int32>, Rows> columns_; // by sheet and column
    std::set<std::pair<Place, Place>> areas_;                 // added, by their corners
};

} // namespace jarbook::menu
