#include "uno/functions/arguments.hpp"

#include "core/base/refusal.hpp"
#include "texts/arguments.hpp"
#include "texts/lists.hpp"
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
           texts::arguments::neither{.name = std::string(name)}.text());
}

template <class Element, class Convert>
std::vector<Cell> cells_from(const Sequence<Sequence<Element>>& rows, std::string_view name,
                             Convert convert) {
    const sal_Int32 count = rows.getLength();
    const sal_Int32 width = count > 0 ? rows[0].getLength() : 0;
    if (count > 1 && width > 1)
        refuse(RefusalKind::not_a_number, name, "",
               texts::arguments::block{.name = std::string(name),
                                       .rows = std::to_string(count),
                                       .columns = std::to_string(width)}
                   .text());
    if (count == 0 || width == 0)
        refuse(RefusalKind::not_a_number, name, "",
               texts::arguments::no_cells{.name = std::string(name)}.text());
    std::vector<Cell> cells;
    cells.reserve(static_cast<std::size_t>(count) * static_cast<std::size_t>(width));
    for (sal_Int32 r = 0; r < count; ++r) {
        const Sequence<Element>& row = rows[r];
        if (row.getLength() != width)
            refuse(RefusalKind::not_a_number, name, "",
                   texts::arguments::ragged{.name = std::string(name)}.text());
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
            refuse(
                RefusalKind::not_a_number, name,
                texts::lists::cells{.count = std::to_string(count)}.text(),
                texts::arguments::several{.name = std::string(name), .count = std::to_string(count)}
                    .text());
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

// The text of a cell that holds no number; empty where it is blank.
std::string text_of(const Cell& cell) {
    const auto* text = std::get_if<std::string>(&cell);
    return text ? *text : std::string();
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
    const std::string text = text_of(cell);
    refuse(RefusalKind::not_a_number, name, text,
           text.empty()
               ? texts::lists::blank_no_number{.place = std::string(name)}.text()
               : texts::lists::text_no_number{.place = std::string(name), .entry = text}.text());
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
    if (const auto* number = std::get_if<double>(&cell))
        refuse(
            RefusalKind::not_a_number, name, number_text(*number),
            texts::lists::number_no_word{.place = std::string(name), .value = number_text(*number)}
                .text());
    return is_blank(cell) ? std::string(fallback) : text_of(cell);
}

bool flag_or(const Any& value, std::string_view name, bool fallback) {
    if (is_left_out(value))
        return fallback;
    const Cell cell = single_cell(value, name);
    if (const auto* number = std::get_if<double>(&cell))
        return *number != 0.0;
    if (is_blank(cell))
        return fallback;
    const std::string text = text_of(cell);
    refuse(RefusalKind::not_a_number, name, text,
           texts::arguments::text_no_flag{.name = std::string(name), .entry = text}.text());
}

Column column(const Any& value, std::string_view name) {
    if (is_left_out(value))
        refuse(RefusalKind::not_a_number, name, "",
               texts::arguments::missing{.name = std::string(name)}.text());
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
