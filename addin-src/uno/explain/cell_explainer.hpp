// Why one cell shows its error: it began there, or it came from other cells.
#pragma once

#include "uno/explain/finding.hpp"
#include "uno/explain/formula_parts.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace jarbook::menu {

struct Explanation {
    Findings findings;          // what began in the cell
    std::vector<Place> sources; // cells in error from which it takes its own
};

class CellExplainer {
public:
    explicit CellExplainer(FormulaParts& parts) : parts_(parts) {}

    // Of a cell that shows an error.
    Explanation explain(const Place& place);

private:
    using Where = FormulaParts::Where;

    bool is_beyond_array(const Where& where, sal_Int32 code);
    // Whether computing the cell again gives no error.
    bool is_stale(const Where& where, sal_Int32 code);
    void node(const Where& where, const Node& node, sal_Int32 code);
    void call(const Where& where, const Node& node, sal_Int32 code);
    // Operands or arguments that pass their error on.
    void parts(const Where& where, const Node& node, sal_Int32 code);
    void reference(const Where& where, const Node& node, sal_Int32 code);
    // Every element that is wrong in arguments that are computed as arrays.
    bool elements(const Where& where, const Node& call);
    // The cell that INDEX takes out of what a function of ours gives.
    bool taken_by_index(const Where& where, const Node& call, sal_Int32 code);
    bool taken_branch(const Where& where, const Node& call, sal_Int32 code);
    void add_sources(const Area& area, sal_Int32 code);

    void our_call(const Where& where, const Node& call, sal_Int32 code);

    FormulaParts& parts_;
    Explanation result_;
    // How many reasons had been kept when the whole cell was computed again.
    std::optional<std::uint64_t> reasons_before_;
};

} // namespace jarbook::menu
