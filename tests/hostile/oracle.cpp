// What the catalogue says of arguments: text where a number belongs, numbers out of their range.
#include "generator.hpp"

#include <cmath>

namespace jarbook::hostile {

using catalogue::Argument;
using catalogue::Kind;

namespace {

std::optional<std::string> wrong_number(const Argument& shape, double number) {
    const std::string is = std::string(shape.name) + " is " + std::to_string(number);
    if (!std::isfinite(number))
        return is + ", not a number";
    // NaN, for no limit, is never exceeded.
    if (number < shape.lowest || number > shape.highest || (shape.above && number == shape.lowest))
        return is + ", out of its range";
    if (shape.refuses_zero && number == 0.0)
        return is + ", which stands for an empty cell";
    if (shape.wish && number > 0.0 && number < 1.0)
        return is + ", not in % vol";
    return std::nullopt;
}

// One value, or one row or column of cells.
std::optional<std::string> wrong_shape(const Argument& shape, const Rows& rows) {
    const std::string name(shape.name);
    const std::size_t count = rows.rows.size() * rows.times;
    const bool list = shape.kind == Kind::list || shape.kind == Kind::words;
    for (const auto& row : rows.rows) {
        if (row.empty())
            return name + " has a row without cells";
        if (row.size() > 1 && count > 1)
            return name + " is a block";
        if (!list && row.size() > 1)
            return name + " is a range";
    }
    if (count == 0 || (!list && count > 1))
        return name + " is a range of " + std::to_string(count) + " rows";
    return std::nullopt;
}

} // namespace

std::optional<std::string> must_be_refused(const catalogue::Function& function, const Call& call) {
    for (std::size_t i = 0; i < std::min(call.arguments.size(), function.arguments.size()); ++i) {
        const Argument& shape = function.arguments[i];
        const Value& value = call.arguments[i];
        if (shape.kind == Kind::number) {
            if (const auto* number = std::get_if<double>(&value.held))
                if (auto why = wrong_number(shape, *number))
                    return why;
            // Calc and UNO's reflection read text as a number where a number is required.
            const auto* text = std::get_if<std::u16string>(&value.held);
            if (text && !text->empty() && shape.optional)
                return std::string(shape.name) + " is a text";
        }
        const auto* rows = std::get_if<Rows>(&value.held);
        if (!rows || shape.kind == Kind::flag)
            continue;
        if (shape.kind ==
            Kind::rows) { // each row has its own answer; only shapes are refused whole
            for (const auto& row : rows->rows)
                if (row.size() != rows->rows.front().size())
                    return std::string(shape.name) + " is ragged";
            continue;
        }
        if (shape.optional || shape.kind == Kind::list || shape.kind == Kind::words)
            if (auto why = wrong_shape(shape, *rows))
                return why;
        if (shape.kind != Kind::list || rows->element != Element::any)
            continue;
        for (const auto& row : rows->rows)
            for (const Value& cell : row) {
                if (const auto* number = std::get_if<double>(&cell.held))
                    if (auto why = wrong_number(shape, *number))
                        return why;
                const auto* text = std::get_if<std::u16string>(&cell.held);
                if (text && !text->empty())
                    return std::string(shape.name) + " holds a text";
            }
    }
    return std::nullopt;
}

} // namespace jarbook::hostile
