#include "uno/functions/arguments.hpp"

#include "core/base/refusal.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/uno/Sequence.hxx>

namespace jarbook::addin {

using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;

bool is_left_out(const Any& value) {
    return !value.hasValue();
}

namespace {

// One value that is not a range. Calc sends doubles and strings; other offices' bridges also
// integers and booleans, which widen to double.
Cell cell_from(const Any& value, std::string_view name) {
    double number = 0.0;
    if (value >>= number)
        return number;
    bool flag = false;
    if (value >>= flag)
        return flag ? 1.0 : 0.0;
    rtl::OUString text;
    if (value >>= text)
        return utf8(text);
    if (!value.hasValue())
        return std::monostate{};
    refuse(RefusalKind::not_a_number, name, utf8(value.getValueTypeName()),
           std::string(name) + " is neither a number nor text");
}

template <class Element, class Convert>
std::vector<Cell> cells_from(const Sequence<Sequence<Element>>& rows, std::string_view name,
                             Convert convert) {
    const sal_Int32 count = rows.getLength();
    const sal_Int32 width = count > 0 ? rows[0].getLength() : 0;
    if (count > 1 && width > 1)
        refuse(RefusalKind::not_a_number, name, "",
               std::string(name) + " is a block of " + std::to_string(count) + " rows and " +
                   std::to_string(width) + " columns; a list is one row or one column");
    if (count == 0 || width == 0)
        refuse(RefusalKind::not_a_number, name, "",
               std::string(name) + " has no cells; a list is one row or one column");
    std::vector<Cell> cells;
    cells.reserve(static_cast<std::size_t>(count) * static_cast<std::size_t>(width));
    for (sal_Int32 r = 0; r < count; ++r) {
        const Sequence<Element>& row = rows[r];
        if (row.getLength() != width)
            refuse(RefusalKind::not_a_number, name, "",
                   std::string(name) + " has rows of different lengths; a list is one row or one "
                                       "column");
        for (sal_Int32 c = 0; c < row.getLength(); ++c)
            cells.push_back(convert(row[c]));
    }
    return cells;
}

std::optional<std::vector<Cell>> range_from(const Any& value, std::string_view name) {
    Sequence<Sequence<Any>> anys;
    if (value >>= anys)
        return cells_from(anys, name, [&](const Any& cell) { return cell_from(cell, name); });
    Sequence<Sequence<double>> numbers;
    if (value >>= numbers)
        return cells_from(numbers, name, [](double number) { return Cell(number); });
    return std::nullopt;
}

// The single cell behind an optional scalar. A whole column is refused before it is converted.
Cell single_cell(const Any& value, std::string_view name) {
    const auto require_one = [&](const auto& rows) {
        const sal_Int64 count =
            rows.hasElements() ? sal_Int64{rows.getLength()} * rows[0].getLength() : 0;
        if (count != 1)
            refuse(RefusalKind::not_a_number, name, std::to_string(count) + " cells",
                   std::string(name) + " is a range of " + std::to_string(count) +
                       " cells; one value belongs there");
    };
    Sequence<Sequence<Any>> anys;
    if (value >>= anys) {
        require_one(anys);
        return cell_from(anys[0][0], name);
    }
    Sequence<Sequence<double>> numbers;
    if (value >>= numbers) {
        require_one(numbers);
        return numbers[0][0];
    }
    return cell_from(value, name);
}

[[noreturn]] void refuse_text(std::string_view name, const Cell& cell, const char* wanted) {
    const auto* text = std::get_if<std::string>(&cell);
    const std::string shown = text && !text->empty() ? "the text \"" + *text + "\"" : "blank";
    refuse(RefusalKind::not_a_number, name, text ? *text : "",
           std::string(name) + " is " + shown + "; " + wanted + " belongs there");
}

} // namespace

double number_or(const Any& value, std::string_view name, double fallback) {
    double plain = 0.0;
    if (value >>= plain)
        return plain;
    if (is_left_out(value))
        return fallback;
    const Cell cell = single_cell(value, name);
    if (const auto* number = std::get_if<double>(&cell))
        return *number;
    refuse_text(name, cell, "a number");
}

std::optional<double> optional_number(const Any& value, std::string_view name) {
    if (is_left_out(value))
        return std::nullopt;
    return number_or(value, name, 0.0);
}

std::string word_or(const Any& value, std::string_view name, std::string_view fallback) {
    if (is_left_out(value))
        return std::string(fallback);
    const Cell cell = single_cell(value, name);
    if (const auto* text = std::get_if<std::string>(&cell); text && !text->empty())
        return *text;
    if (const auto* number = std::get_if<double>(&cell))
        refuse(RefusalKind::not_a_number, name, number_text(*number),
               std::string(name) + " is " + number_text(*number) + "; a word belongs there");
    return std::string(fallback);
}

bool flag_or(const Any& value, std::string_view name, bool fallback) {
    if (is_left_out(value))
        return fallback;
    const Cell cell = single_cell(value, name);
    if (const auto* number = std::get_if<double>(&cell))
        return *number != 0.0;
    if (is_blank(cell))
        return fallback;
    refuse_text(name, cell, "TRUE or FALSE");
}

Column column(const Any& value, std::string_view name) {
    if (is_left_out(value))
        refuse(RefusalKind::not_a_number, name, "", std::string(name) + " is missing");
    if (auto range = range_from(value, name))
        return {std::string(name), std::move(*range)};
    return {std::string(name), {cell_from(value, name)}};
}

std::optional<Column> optional_column(const Any& value, std::string_view name) {
    if (is_left_out(value))
        return std::nullopt;
    return column(value, name);
}

std::vector<Lot> lots_argument(const Any& volumes, const Any& strengths,
                               const Any& volume_temperatures) {
    const auto temperatures = optional_column(volume_temperatures, "volumeTemperatures");
    return lots_from(column(volumes, "volumes"), column(strengths, "strengths"),
                     temperatures ? &*temperatures : nullptr);
}

Any column_result(const std::vector<double>& values) {
    return column_result(std::vector<Any>(values.begin(), values.end()));
}

Any column_result(const std::vector<Any>& cells) {
    Sequence<Sequence<Any>> rows(static_cast<sal_Int32>(cells.size()));
    Sequence<Any>* row = rows.getArray();
    for (const Any& cell : cells)
        *row++ = Sequence<Any>(&cell, 1);
    return Any(rows);
}

} // namespace jarbook::addin
