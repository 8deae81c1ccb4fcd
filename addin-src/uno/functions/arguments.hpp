// What a cell hands over, turned into what the core takes.
//
// Calc passes a required number as double. Anything else comes as `any`: void where it was left
// out, a double (an empty cell is 0), a string, or rows of cells; a blank inside a range is an
// empty string.
#pragma once

#include "core/base/lists.hpp"
#include "core/gauging/lots.hpp"

#include <com/sun/star/uno/Any.hxx>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jarbook::addin {

// Whether the argument was left out.
bool is_left_out(const com::sun::star::uno::Any& value);

// An optional number: its value, or the fallback where it was left out. Text, or a range of more
// than one cell, is refused by name.
double number_or(const com::sun::star::uno::Any& value, std::string_view name, double fallback);

// The same without a fallback.
std::optional<double> optional_number(const com::sun::star::uno::Any& value, std::string_view name);

// An optional word: its text, or the fallback where it was left out or the cell is blank.
std::string word_or(const com::sun::star::uno::Any& value, std::string_view name,
                    std::string_view fallback);

// An optional yes or no; numbers count as Calc counts them (0 is no).
bool flag_or(const com::sun::star::uno::Any& value, std::string_view name, bool fallback);

// A list: a cell, one row or one column of cells. A block of several rows and columns is refused.
Column column(const com::sun::star::uno::Any& value, std::string_view name);

// An optional list.
std::optional<Column> optional_column(const com::sun::star::uno::Any& value, std::string_view name);

// Lots of lists that belong together; volumeTemperatures may be left out.
std::vector<Lot> lots_argument(const com::sun::star::uno::Any& volumes,
                               const com::sun::star::uno::Any& strengths,
                               const com::sun::star::uno::Any& volume_temperatures);

// A result that fills a column of cells: numbers, or what each cell is to hold.
com::sun::star::uno::Any column_result(const std::vector<double>& values);
com::sun::star::uno::Any column_result(const std::vector<com::sun::star::uno::Any>& cells);

} // namespace jarbook::addin
