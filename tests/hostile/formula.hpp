// A generated call written as a formula, with the cells that it refers to.
#pragma once

#include "generator.hpp"

#include "document.hpp"

#include <string>
#include <vector>

namespace jarbook::hostile {

struct Formula {
    std::string text;
    // Calc may answer by itself, without a call and without our reason: an error among the
    // arguments, text or a range where one number belongs, a wrong count.
    bool calc_may_refuse = false;
    // The arguments are exactly those of the call, so that the catalogue's word on it counts.
    bool exact = true;
};

// The columns of a sheet that formulas refer to; filled in one go.
class Cells {
public:
    explicit Cells(std::string sheet) : sheet_(std::move(sheet)) {}
    // A reference to cells that hold these values.
    std::string put(const std::vector<office::Value>& column);
    // What goes into the sheet from A1 on.
    office::Rows<office::Value> rows() const;
    bool full() const { return columns_.size() >= 1000; }

private:
    std::string sheet_;
    std::vector<std::vector<office::Value>> columns_;
};

// The sheet "Fixed" with what no data array can carry: errors, dates, texts that look like numbers.
void fill_fixed_sheet(office::Document& document);

Formula formula_from(const catalogue::Function& function, const Call& call, Random& random,
                     Cells& cells);

} // namespace jarbook::hostile
