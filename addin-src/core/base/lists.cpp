#include "core/base/lists.hpp"

#include "texts/lists.hpp"

#include <cmath>

namespace jarbook {

void refuse_no_number(const Column& column, std::size_t row) {
    const Cell& cell = column.cells[row];
    const ArgumentPlace place = row_of(column, row);
    if (is_blank(cell))
        refuse(RefusalKind::not_a_number, place, texts::lists::blank,
               texts::lists::blank_no_number{.place = place.text()}.text());
    const auto& text = std::get<std::string>(cell);
    refuse(RefusalKind::not_a_number, place, text,
           texts::lists::text_no_number{.place = place.text(), .entry = text}.text());
}

double number_in_range(const Column& column, std::size_t row, double lowest, double highest,
                       std::string_view unit, std::string_view hint) {
    const double value = number_in(column, row);
    // Written so that NaN fails; the text is made only when needed.
    if (!(value >= lowest && value <= highest) || std::isinf(value))
        refuse_range(place_of(column, row), value, lowest, highest, unit, hint);
    return value;
}

double amount_in(const Column& column, std::size_t row) {
    const double value = number_in(column, row);
    if (!is_amount(value))
        refuse_amount(place_of(column, row), value);
    return value;
}

const std::string& text_in(const Column& column, std::size_t row) {
    const Cell& cell = column.cells[row];
    if (const auto* text = std::get_if<std::string>(&cell); text && !text->empty())
        return *text;
    const ArgumentPlace place = row_of(column, row);
    if (const auto* number = std::get_if<double>(&cell))
        refuse(RefusalKind::not_a_number, place, number_text(*number),
               texts::lists::number_no_word{.place = place.text(), .value = number_text(*number)}
                   .text());
    refuse(RefusalKind::not_a_number, place, texts::lists::blank,
           texts::lists::blank_no_word{.place = place.text()}.text());
}

void refuse_incomplete(const Column& blank, std::string_view filled, std::size_t row) {
    const ArgumentPlace place = row_of(blank, row);
    refuse(
        RefusalKind::not_a_number, place, texts::lists::blank,
        texts::lists::row_incomplete{.place = place.text(), .other = std::string(filled)}.text());
}

std::vector<std::size_t> rows_in_common(const std::vector<const Column*>& columns) {
    const Column& first = *columns.front();
    for (const Column* column : columns) {
        if (column->cells.size() == first.cells.size())
            continue;
        refuse(RefusalKind::not_a_number, column->name, std::to_string(column->cells.size()),
               texts::lists::unequal{.one = first.name,
                                     .one_rows = std::to_string(first.cells.size()),
                                     .other = column->name,
                                     .other_rows = std::to_string(column->cells.size())}
                   .text());
    }
    std::vector<std::size_t> rows;
    rows.reserve(first.cells.size());
    for (std::size_t row = 0; row < first.cells.size(); ++row) {
        const Column* blank = nullptr;
        const Column* filled = nullptr;
        for (const Column* column : columns)
            (is_blank(column->cells[row]) ? blank : filled) = column;
        if (blank && filled)
            refuse_incomplete(*blank, filled->name, row);
        if (!blank)
            rows.push_back(row);
    }
    return rows;
}

} // namespace jarbook
