// Published data (tests/data/*.csv) for the tests. A file that is missing, a column that is not
// there, a row too few, a blank or a NaN where a number belongs: each fails loudly, before any
// number is compared.
#pragma once

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace published {

// tests/data; in a source file of its own, so that no other one depends on where the tree lies.
std::string data_folder();

class Table {
public:
    // Reads a file of tests/data, which must hold exactly that many rows below its header.
    Table(const std::string& file, std::size_t rows) : file_(file) {
        std::ifstream in(data_folder() + "/" + file);
        if (!in)
            throw std::runtime_error(file + ": cannot be read");
        std::string line;
        while (std::getline(in, line)) {
            if (!line.empty() && line.back() == '\r')
                line.pop_back();
            if (line.empty())
                continue;
            if (header_.empty())
                header_ = fields(line);
            else
                rows_.push_back(fields(line));
        }
        if (rows_.size() != rows)
            throw std::runtime_error(file + ": " + std::to_string(rows_.size()) +
                                     " rows instead of " + std::to_string(rows));
        for (std::size_t row = 0; row < rows_.size(); ++row)
            if (rows_[row].size() != header_.size())
                throw std::runtime_error(where(row, "") + "has " +
                                         std::to_string(rows_[row].size()) + " fields instead of " +
                                         std::to_string(header_.size()));
    }

    std::size_t rows() const { return rows_.size(); }

    const std::string& text(std::size_t row, const std::string& column) const {
        for (std::size_t i = 0; i < header_.size(); ++i)
            if (header_[i] == column)
                return rows_.at(row)[i];
        throw std::runtime_error(file_ + ": no column " + column);
    }

    bool blank(std::size_t row, const std::string& column) const {
        return text(row, column).empty();
    }

    double number(std::size_t row, const std::string& column) const {
        const std::string& field = text(row, column);
        char* end = nullptr;
        const double value = std::strtod(field.c_str(), &end);
        if (field.empty() || *end != '\0' || !std::isfinite(value))
            throw std::runtime_error(where(row, column) + "is \"" + field + "\", not a number");
        return value;
    }

    // Half a unit of the last digit that is printed: "0.9973" gives 0.00005.
    double half_digit(std::size_t row, const std::string& column) const {
        (void)number(row, column);
        const std::string& field = text(row, column);
        const std::size_t point = field.find('.');
        const std::size_t decimals = point == std::string::npos ? 0 : field.size() - point - 1;
        return 0.5 * std::pow(10.0, -static_cast<double>(decimals));
    }

    // For messages: "file row 3 column: ".
    std::string where(std::size_t row, const std::string& column) const {
        return file_ + " row " + std::to_string(row + 1) + " " + column + ": ";
    }

private:
    // RFC 4180: fields in quotes may hold commas, and quotes twice.
    static std::vector<std::string> fields(const std::string& line) {
        std::vector<std::string> result(1);
        bool quoted = false;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const char c = line[i];
            if (quoted && c == '"' && i + 1 < line.size() && line[i + 1] == '"')
                result.back().push_back(line[++i]);
            else if (c == '"')
                quoted = !quoted;
            else if (c == ',' && !quoted)
                result.emplace_back();
            else
                result.back().push_back(c);
        }
        if (quoted)
            throw std::runtime_error("a quote is not closed in: " + line);
        return result;
    }

    std::string file_;
    std::vector<std::string> header_;
    std::vector<std::vector<std::string>> rows_;
};

// Density of water relative to which specific gravities "t/4" are stated, kg/m3: water at its
// maximum density.
inline constexpr double water_at_maximum_kg_m3 = 999.972;

} // namespace published
