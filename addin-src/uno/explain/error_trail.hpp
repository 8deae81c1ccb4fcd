// From cells that show errors to where these began.
//
// A work list, not recursion: a chain may be as long as a sheet. Each cell is explained once; the
// work grows with the cells in error.
#pragma once

#include "uno/explain/cell_explainer.hpp"

#include <map>
#include <set>
#include <vector>

namespace jarbook::menu {

class ErrorTrail {
public:
    explicit ErrorTrail(FormulaParts& parts) : parts_(parts), explainer_(parts) {}

    // Explains the cell and all from which its error comes, as far as they were not explained
    // before; nearest first. Stops after so many causes, and says whether there may be more.
    bool follow(const Place& start, std::size_t most_causes);

    // Cells in which an error began (or a circle closes), in the order in which they were come
    // upon.
    const std::vector<Place>& causes() const { return causes_; }
    // What is wrong there.
    const Findings& findings_at(const Place& cause) const;
    bool explained(const Place& place) const { return cells_.contains(place); }
    // The cells over which it was first come upon: from the start to the cell, both included.
    std::vector<Place> way_to(const Place& place) const;
    // The next cell on the way from a cell to a cause of its error; nothing at the cause.
    std::optional<Place> source_of(const Place& place) const;

    // For each cell that was explained, the one cause that it is put down to: so that each stands
    // in a list once.
    std::map<Place, std::vector<Place>> cells_by_cause() const;

private:
    struct Cell {
        Findings findings;
        std::optional<Place> come_from; // nearer to the start
        std::optional<Place> source;    // nearer to a cause; none at a cause
    };
    void find_circles(const std::vector<Place>& fresh);
    void close_circle(const std::vector<Place>& circle);

    FormulaParts& parts_;
    CellExplainer explainer_;
    std::map<Place, Cell> cells_;
    std::vector<Place> causes_;
    std::set<Place> settled_; // lead to a cause, or belong to a circle that was told
};

} // namespace jarbook::menu
