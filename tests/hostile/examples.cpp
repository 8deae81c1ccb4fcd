#include "examples.hpp"

#include <cctype>
#include <cstdlib>
#include <optional>

namespace jarbook::hostile {

namespace {

std::u16string wide(std::string_view ascii) {
    return {ascii.begin(), ascii.end()};
}

// "50;;\"sg\"" at its separators; nothing where there are brackets inside.
std::optional<std::vector<std::string>> split(std::string_view text) {
    std::vector<std::string> parts(1);
    bool quoted = false;
    for (const char c : text) {
        quoted ^= c == '"';
        if (!quoted && (c == '(' || c == '{'))
            return std::nullopt;
        if (!quoted && c == ';')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    return parts;
}

Value cell_from(const catalogue::Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return {*number};
    return {wide(std::get<std::string_view>(value))};
}

// "A1:A3" or "B2"
std::optional<Value> referred(const catalogue::Example& example, const std::string& part) {
    if (part.empty() || !std::isalpha(static_cast<unsigned char>(part[0])))
        return std::nullopt;
    const auto colon = part.find(':');
    const int first = std::atoi(part.c_str() + 1);
    const int last = colon == std::string::npos ? first : std::atoi(part.c_str() + colon + 2);
    for (const auto& [column, values] : example.cells) {
        if (column != part.substr(0, 1))
            continue;
        Rows rows;
        for (int row = first; row <= last; ++row)
            rows.rows.push_back({static_cast<std::size_t>(row) <= values.size()
                                     ? cell_from(values[row - 1])
                                     : Value{std::u16string()}});
        if (first == last)
            return rows.rows[0][0];
        return Value{rows};
    }
    return std::nullopt;
}

std::optional<Value> value_of(const catalogue::Example& example, const std::string& part) {
    if (part.empty())
        return Value{LeftOut{}};
    if (part == "TRUE" || part == "FALSE")
        return Value{part == "TRUE" ? 1.0 : 0.0};
    if (part.size() >= 2 && part.front() == '"' && part.back() == '"')
        return Value{wide(std::string_view(part).substr(1, part.size() - 2))};
    char* end = nullptr;
    const double number = std::strtod(part.c_str(), &end);
    if (!*end)
        return Value{number};
    return referred(example, part);
}

} // namespace

std::vector<Value> example_arguments(const catalogue::Example& example) {
    const std::string_view call = example.call;
    const auto open = call.find('(');
    if (!call.starts_with("SPIRIT.") || open == std::string_view::npos || call.back() != ')')
        return {};
    const auto parts = split(call.substr(open + 1, call.size() - open - 2));
    std::vector<Value> arguments;
    for (const std::string& part : parts.value_or(std::vector<std::string>())) {
        const auto value = value_of(example, part);
        if (!value)
            return {};
        arguments.push_back(*value);
    }
    return arguments;
}

void add_words(std::vector<std::u16string>& words, const Value& value) {
    if (const auto* text = std::get_if<std::u16string>(&value.held))
        words.push_back(*text);
    if (const auto* rows = std::get_if<Rows>(&value.held))
        for (const auto& row : rows->rows)
            for (const Value& cell : row)
                add_words(words, cell);
}

void move_numbers(Value& value, const std::function<double(double)>& moved) {
    if (auto* number = std::get_if<double>(&value.held))
        *number = moved(*number);
    if (auto* rows = std::get_if<Rows>(&value.held))
        for (auto& row : rows->rows)
            for (Value& cell : row)
                move_numbers(cell, moved);
}

} // namespace jarbook::hostile
