// Small linear programmes, solved by lp_solve.
//
//   least  sum_j cost_j x_j   where   low_r <= sum_j row_r,j x_j <= high_r,   0 <= x_j <= 1
//
// Only the row prices (dual values) leave this file: whoever calls proves with them that a solution
// found is the best, so that nothing rests on the tolerances of the library.
#pragma once

#include <string>
#include <vector>

namespace jarbook {

struct LinearRow {
    std::vector<double> coefficient; // one a variable, of order 1
    double low;                      // -HUGE_VAL: none
    double high;                     // HUGE_VAL: none
};

struct LinearProgramme {
    std::vector<double> cost;
    std::vector<LinearRow> rows;
};

// The price of each row at the optimum: by how much the least cost grows where the row's active
// limit grows by 1; 0 where neither limit is active. Refuses (no_convergence) where the library
// finds no optimum; to be called with what is known to have one.
std::vector<double> row_prices(const LinearProgramme& programme);

// Name and version of the library that is linked in: "lp_solve 5.5.2.5".
std::string solver_name();

} // namespace jarbook
