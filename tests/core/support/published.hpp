// Published data (tests/data/*.csv) for the tests. A file that is missing, a column that is not
// there, a row too few, a blank or a NaN where a number belongs: each fails loudly, before any
// number is compared.
#pragma once

#include <string>
#include <vector>

namespace published {

class Table {
public:
    // Reads a file of tests/data, which must hold exactly that many rows below its header.
    Table(const std::string& file, std::size_t rows);

    std::size_t rows() const { return rows_.size(); }
    const std::string& text(std::size_t row, const std::string& column) const;
    bool blank(std::size_t row, const std::string& column) const;
    double number(std::size_t row, const std::string& column) const;
    // Half a unit of the last digit that is printed: "0.9973" gives 0.00005.
    double half_digit(std::size_t row, const std::string& column) const;
    // For messages: "file row 3 column: ".
    std::string where(std::size_t row, const std::string& column) const;

private:
    std::string file_;
    std::vector<std::string> header_;
    std::vector<std::vector<std::string>> rows_;
};

// Density of water relative to which specific gravities "t/4" are stated, kg/m3: water at its
// maximum density.
inline constexpr double water_at_maximum_kg_m3 = 999.972;

} // namespace published
