#include "support/call.hpp"

#include <cctype>
#include <stdexcept>

namespace jarbook::e2e {

Call Call::parse(std::string_view text) {
    const auto open = text.find('(');
    if (open == std::string_view::npos || text.back() != ')')
        throw std::invalid_argument("not a call: " + std::string(text));
    Call call{std::string(text.substr(0, open)), {}};
    const std::string_view inside = text.substr(open + 1, text.size() - open - 2);
    if (inside.empty())
        return call;
    int depth = 0;
    bool quoted = false;
    call.arguments.emplace_back();
    for (const char c : inside) {
        if (c == '"')
            quoted = !quoted;
        else if (!quoted && (c == '(' || c == '{'))
            ++depth;
        else if (!quoted && (c == ')' || c == '}'))
            --depth;
        if (c == ';' && !quoted && depth == 0)
            call.arguments.emplace_back();
        else
            call.arguments.back() += c;
    }
    return call;
}

std::string Call::formula() const {
    std::string text = "=" + name + "(";
    for (std::size_t i = 0; i < arguments.size(); ++i)
        text += (i ? ";" : "") + arguments[i];
    return text + ")";
}

Call Call::with(std::size_t index, const std::string& argument) const {
    Call changed = *this;
    if (changed.arguments.size() <= index)
        changed.arguments.resize(index + 1);
    changed.arguments[index] = argument;
    return changed;
}

bool ColumnReference::is_one(std::string_view argument) {
    const auto is_cell = [](std::string_view cell) {
        if (cell.size() < 2 || !std::isupper(static_cast<unsigned char>(cell[0])))
            return false;
        for (const char c : cell.substr(1))
            if (!std::isdigit(static_cast<unsigned char>(c)))
                return false;
        return true;
    };
    const auto colon = argument.find(':');
    if (colon == std::string_view::npos)
        return is_cell(argument) && argument.substr(1) == "1";
    const std::string_view first = argument.substr(0, colon);
    const std::string_view last = argument.substr(colon + 1);
    return is_cell(first) && is_cell(last) && first.substr(1) == "1" && first[0] == last[0];
}

ColumnReference ColumnReference::parse(std::string_view argument) {
    if (!is_one(argument))
        throw std::invalid_argument("no column from row 1: " + std::string(argument));
    const auto colon = argument.find(':');
    const std::string_view last =
        colon == std::string_view::npos ? argument : argument.substr(colon + 1);
    return {argument[0], std::stoi(std::string(last.substr(1)))};
}

std::string ColumnReference::text() const {
    return std::string(1, column) + "1:" + column + std::to_string(rows);
}

const catalogue::Example& working_example(const catalogue::Function& function) {
    for (const catalogue::Example& example : function.examples) {
        if (example.error != 0)
            continue;
        if (function.arguments.empty())
            return example;
        const Call call = Call::parse(example.call);
        bool fits = true;
        for (std::size_t i = 0; i < call.arguments.size() && i < function.arguments.size(); ++i) {
            const auto kind = function.arguments[i].kind;
            if ((kind == catalogue::Kind::list || kind == catalogue::Kind::rows ||
                 kind == catalogue::Kind::words) &&
                !call.arguments[i].empty())
                fits = fits && ColumnReference::is_one(call.arguments[i]);
        }
        if (fits)
            return example;
    }
    throw std::logic_error(
        "the catalogue has no example with a result, and lists in columns from row 1, for " +
        std::string(function.name));
}

std::vector<const catalogue::Function*> all_functions() {
    std::vector<const catalogue::Function*> result;
    for (const catalogue::Function& function : catalogue::functions())
        result.push_back(&function);
    return result;
}

std::vector<const catalogue::Function*> functions_with_arguments() {
    std::vector<const catalogue::Function*> result = all_functions();
    std::erase_if(result, [](const auto* function) { return function->arguments.empty(); });
    return result;
}

} // namespace jarbook::e2e
