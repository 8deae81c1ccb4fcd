#include "support/published.hpp"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <stdexcept>

namespace published {
namespace {

// RFC 4180: fields in quotes may hold commas, and quotes twice.
std::vector<std::string> fields(const std::string& line) {
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

} // namespace

Table::Table(const std::string& file, std::size_t rows) : file_(file) {
    std::ifstream in(JARBOOK_DATA "/" + file);
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
        throw std::runtime_error(file + ": " + std::to_string(rows_.size()) + " rows instead of " +
                                 std::to_string(rows));
    for (std::size_t row = 0; row < rows_.size(); ++row)
        if (rows_[row].size() != header_.size())
            throw std::runtime_error(where(row, "") + "has " + std::to_string(rows_[row].size()) +
                                     " fields instead of " + std::to_string(header_.size()));
}

const std::string& Table::text(std::size_t row, const std::string& column) const {
    for (std::size_t i = 0; i < header_.size(); ++i)
        if (header_[i] == column)
            return rows_.at(row)[i];
    throw std::runtime_error(file_ + ": no column " + column);
}

bool Table::blank(std::size_t row, const std::string& column) const {
    return text(row, column).empty();
}

double Table::number(std::size_t row, const std::string& column) const {
    const std::string& field = text(row, column);
    char* end = nullptr;
    const double value = std::strtod(field.c_str(), &end);
    if (field.empty() || *end != '\0' || !std::isfinite(value))
        throw std::runtime_error(where(row, column) + "is \"" + field + "\", not a number");
    return value;
}

double Table::half_digit(std::size_t row, const std::string& column) const {
    (void)number(row, column);
    const std::string& field = text(row, column);
    const std::size_t point = field.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : field.size() - point - 1;
    return 0.5 * std::pow(10.0, -static_cast<double>(decimals));
}

std::string Table::where(std::size_t row, const std::string& column) const {
    return file_ + " row " + std::to_string(row + 1) + " " + column + ": ";
}

} // namespace published
