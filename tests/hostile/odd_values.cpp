#include "odd_values.hpp"

#include <bit>
#include <cmath>
#include <iterator>
#include <limits>

namespace jarbook::hostile {

namespace {

double from_bits(std::uint64_t bits) {
    return std::bit_cast<double>(bits);
}

// As many rows as a sheet has.
constexpr std::size_t sheet_rows = 1048576;

std::vector<Value> odd_row(Random& random, std::size_t width, int depth);

Value odd_cell(Random& random, int depth) {
    switch (random.below(depth > 0 ? 10 : 9)) {
    case 0:
        return {LeftOut{}};
    case 1:
    case 2:
        return {std::u16string()};
    case 3:
        return {odd_text(random)};
    case 4:
        return odd_scalar(random);
    case 5:
        return {odd_number(random)};
    case 9:
        return {Rows{Element::any, 1, {odd_row(random, random.below(4), depth - 1)}}};
    default:
        return {random.between(0.0, 100.0)};
    }
}

std::vector<Value> odd_row(Random& random, std::size_t width, int depth) {
    std::vector<Value> row;
    while (row.size() < width)
        row.push_back(odd_cell(random, depth));
    return row;
}

} // namespace

double odd_number(Random& random) {
    using limits = std::numeric_limits<double>;
    static const double pool[] = {0.0,
                                  -0.0,
                                  1.0,
                                  -1.0,
                                  0.4,
                                  0.999999,
                                  1e-9,
                                  -1e-9,
                                  20.0,
                                  40.0,
                                  100.0,
                                  200.0,
                                  1013.25,
                                  limits::denorm_min(),
                                  -limits::denorm_min(),
                                  limits::min(),
                                  -limits::min(),
                                  limits::min() / 3,
                                  limits::max(),
                                  -limits::max(),
                                  limits::max() / 2,
                                  limits::lowest(),
                                  limits::epsilon(),
                                  limits::infinity(),
                                  -limits::infinity(),
                                  limits::quiet_NaN(),
                                  -limits::quiet_NaN(),
                                  1e-300,
                                  1e-154,
                                  1e154,
                                  1e155,
                                  1e300,
                                  -1e300,
                                  1e15,
                                  1e16,
                                  9007199254740993.0,
                                  2147483647.0,
                                  2147483648.0,
                                  -2147483648.0,
                                  -2147483649.0,
                                  4294967296.0,
                                  65536.0,
                                  1048576.0,
                                  9.2233720368547758e18,
                                  1.8446744073709552e19,
                                  -9.2233720368547758e18,
                                  45000.0,    // a date
                                  45000.4375, // a date and a time
                                  0.4375,     // a time of day
                                  from_bits(0x7ff8000000000000 | 502),
                                  from_bits(0x7ff8000000000000 | 519),
                                  from_bits(0x7ff8000000000000 | 32767),
                                  from_bits(0x7ff0000000000001), // signalling
                                  from_bits(0xfff8000000000000 | 502),
                                  from_bits(0x7fffffffffffffff)};
    switch (random.below(4)) {
    case 0: // any bits at all
        return from_bits(random.next());
    case 1: // any size, both signs
        return std::ldexp(random.between(-1.0, 1.0), static_cast<int>(random.below(400)) - 200);
    default:
        return random.of(pool);
    }
}

double number_beside(Random& random, double low, double high) {
    const double ends[] = {std::isnan(low) ? 0.0 : low, std::isnan(high) ? 1e6 : high};
    const double end = random.of(ends);
    const double infinity = std::numeric_limits<double>::infinity();
    switch (random.below(8)) {
    case 0:
        return end;
    case 1:
        return std::nextafter(end, infinity);
    case 2:
        return std::nextafter(end, -infinity);
    case 3:
        return end + 1e-9 * (random.unit() - 0.5);
    case 4:
        return end + 1e-6 * (random.unit() - 0.5);
    case 5:
        return end * 1.01 + 0.01;
    case 6:
        return end * 0.99 - 0.01;
    default:
        return -end;
    }
}

std::u16string odd_text(Random& random) {
    static const std::u16string pool[] = {u"",
                                          u" ",
                                          u"0",
                                          u"40",
                                          u"40%",
                                          u"1e5",
                                          u"1,5",
                                          u"-1.5e308",
                                          u"nan",
                                          u"inf",
                                          u"0x10",
                                          u"hearts",
                                          u" HEARTS ",
                                          u"heart",
                                          u"Foreshots",
                                          u"tails\n",
                                          u"alcohol",
                                          u"volume",
                                          u"%vol",
                                          u"% VOL 60 f",
                                          u"kg/m3",
                                          u"sg",
                                          u"TRUE",
                                          u"#N/A",
                                          u"=1+1",
                                          u"water",
                                          u"\t",
                                          u"\u00b0C",
                                          u"\u5f37\u3044",
                                          u"\u202ehearts",
                                          u"e\u0301",
                                          u"\ufeff40",
                                          u"\u00a0",
                                          u"'40",
                                          {u'\xd83d'},
                                          {u'\xde00', u'\xd83d'},
                                          {u'a', u'\0', u'b'},
                                          {u'\xd83c', u'\xdf76'}};
    switch (random.below(40)) {
    case 0:
        return std::u16string(random.below(100000), u'a');
    case 1: {
        std::u16string text(random.below(30), u'\0');
        for (char16_t& unit : text)
            unit = static_cast<char16_t>(random.next());
        return text;
    }
    default:
        return random.of(pool);
    }
}

Value odd_scalar(Random& random) {
    static constexpr int widths[] = {1, 2, 4, 8};
    switch (random.below(12)) {
    case 0:
        return {LeftOut{}};
    case 1:
        return {random.one_in(2)};
    case 2: {
        const int bytes = random.of(widths);
        // The value that so many bytes hold.
        const auto wide = static_cast<std::int64_t>(random.next());
        return {Integer{random.one_in(2) ? static_cast<std::int64_t>(random.below(100))
                                         : wide >> (64 - 8 * bytes),
                        bytes}};
    }
    case 3:
        return {static_cast<float>(odd_number(random))};
    case 4:
        return {static_cast<Foreign>(random.below(6))};
    case 5: {
        Flat flat;
        flat.values = odd_row(random, random.below(4), 1);
        return {flat};
    }
    case 6:
    case 7:
    case 8:
        return {odd_text(random)};
    default:
        return {odd_number(random)};
    }
}

Value odd_rows(Random& random, bool whole_columns) {
    Rows rows;
    if (whole_columns && random.one_in(400)) {
        // A whole column: mostly blank, all filled, or with one wrong cell at its end.
        rows.times = sheet_rows;
        rows.rows = {{odd_cell(random, 0)}};
        if (random.one_in(2))
            rows.rows = {{{random.between(1.0, 90.0)}}};
        return {rows};
    }
    switch (random.below(8)) {
    case 0: // no rows, rows without cells
        rows.rows.resize(random.below(3));
        break;
    case 1: { // typed
        static constexpr Element elements[] = {Element::number, Element::text, Element::integer};
        rows.element = random.of(elements);
        const std::size_t width = random.below(3);
        rows.rows.resize(random.below(4));
        for (auto& row : rows.rows)
            while (row.size() < width)
                row.push_back(rows.element == Element::number ? Value{odd_number(random)}
                              : rows.element == Element::text
                                  ? Value{odd_text(random)}
                                  : Value{Integer{static_cast<std::int32_t>(random.next()), 4}});
        break;
    }
    case 2: // ragged
        rows.rows.resize(random.below(6));
        for (auto& row : rows.rows)
            row = odd_row(random, random.below(4), 1);
        break;
    case 3: { // a block
        const std::size_t width = 1 + random.below(4);
        rows.rows.resize(1 + random.below(4));
        for (auto& row : rows.rows)
            row = odd_row(random, width, 0);
        break;
    }
    case 4: // a row
        rows.rows = {odd_row(random, random.below(30), random.one_in(5) ? 1 : 0)};
        break;
    default: // a column
        rows.rows.resize(random.below(30));
        for (auto& row : rows.rows)
            row = odd_row(random, 1, random.one_in(5) ? 1 : 0);
        break;
    }
    return {rows};
}

} // namespace jarbook::hostile
