#include "core/plan/linear_programme.hpp"

#include "core/base/refusal.hpp"

#include <cmath>
#include <lpsolve/lp_lib.h>
#include <memory>
#include <new>
#include <string>

// Stands in for dlopen (cmake/LpSolve.cmake): there is no library to be found.
extern "C" void* __wrap_dlopen(const char*, int) {
    return nullptr;
}

namespace jarbook {

std::vector<double> row_prices(const LinearProgramme& programme) {
    const int rows = static_cast<int>(programme.rows.size());
    const int columns = static_cast<int>(programme.cost.size());
    const std::unique_ptr<lprec, void (*)(lprec*)> lp(make_lp(rows, 0), delete_lp);
    if (!lp)
        throw std::bad_alloc();
    set_verbose(lp.get(), NEUTRAL); // nothing is written to the office's terminal
    set_presolve(lp.get(), PRESOLVE_SENSDUALS, 0);
    set_scaling(lp.get(), 0); // coefficients are of order 1
    set_timeout(lp.get(), 5); // s; the last resort: a few milliseconds are usual for 200 variables

    std::vector<REAL> column(rows + 1);
    for (int j = 0; j < columns; ++j) {
        column[0] = programme.cost[j];
        for (int r = 0; r < rows; ++r)
            column[r + 1] = programme.rows[r].coefficient[j];
        if (!add_column(lp.get(), column.data()) || !set_upbo(lp.get(), j + 1, 1.0))
            throw std::bad_alloc();
    }
    for (int r = 0; r < rows; ++r) {
        const auto [low, high] = std::pair(programme.rows[r].low, programme.rows[r].high);
        // The range is set in full before one end of it may be infinite.
        set_constr_type(lp.get(), r + 1, low == high ? EQ : std::isinf(low) ? LE : GE);
        set_rh(lp.get(), r + 1, std::isinf(low) ? high : low);
        if (low != high && !std::isinf(low) && !std::isinf(high))
            set_rh_range(lp.get(), r + 1, high - low);
    }

    const int outcome = solve(lp.get());
    REAL* prices = nullptr;
    if (outcome != OPTIMAL || !get_ptr_sensitivity_rhs(lp.get(), &prices, nullptr, nullptr))
        refuse(RefusalKind::no_convergence, "", "",
               "the linear programme was not solved (lp_solve: " + std::to_string(outcome) + ")");
    return {prices, prices + rows};
}

std::string solver_name() {
    int numbers[4] = {};
    lp_solve_version(&numbers[0], &numbers[1], &numbers[2], &numbers[3]);
    std::string name = "lp_solve";
    for (int i = 0; i < 4; ++i)
        name += (i == 0 ? " " : ".") + std::to_string(numbers[i]);
    return name;
}

} // namespace jarbook
