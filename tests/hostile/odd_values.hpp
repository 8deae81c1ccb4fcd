// Values at which arithmetic and conversions break.
#pragma once

#include "generator.hpp"

namespace jarbook::hostile {

// Denormal to infinity, NaN with and without an error code, signalling NaN, ends of integer types,
// dates, values beside the ends of ranges.
double odd_number(Random& random);
// `low` or `high` or what lies next to them; NaN stands for "no limit".
double number_beside(Random& random, double low, double high);
// Blank, spaces, numbers as text, words of other arguments, long, with NUL, with half a surrogate
// pair, right to left.
std::u16string odd_text(Random& random);
// A scalar of any kind.
Value odd_scalar(Random& random);
// Rows of cells: ragged, nested, empty, blocks, typed otherwise, and whole columns if wanted.
Value odd_rows(Random& random, bool whole_columns);

} // namespace jarbook::hostile
