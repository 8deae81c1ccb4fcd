// A refusal: why a function gives no number.
//
// The core never clamps, extrapolates or guesses. What it cannot answer it refuses by throwing a
// Refusal, which names the argument as the contract names it, the offending value and what would
// be allowed, in a sentence that a distiller understands. The binding turns it into an error value
// in the cell and keeps the sentence for the menu.
#pragma once

#include <cstddef>
#include <exception>
#include <optional>
#include <string>
#include <string_view>

namespace jarbook {

// The kinds differ in what the person has to do about them; each has one error value in the cell
// (see extension/catalogue/errors.toml, from which the reference page's table is made).
enum class RefusalKind {
    not_a_number,   // text, a blank or an unknown word where something else belongs; lists that do
                    // not belong together -> #VALUE!
    out_of_range,   // a number outside the range that the argument or the formula has -> Err:502
    impossible,     // every argument is in its range, but together they have no answer -> #NUM!
    nothing_there,  // a figure of something that is not there: strength of an empty cut -> #N/A
    no_convergence, // the bound on work was reached without a proven answer -> Err:523
};

// Where a value stands: an argument, as the contract names it (empty: all of them together), and in
// a list its row.
struct ArgumentPlace {
    template <class Name>
    ArgumentPlace(const Name& name, std::optional<std::size_t> list_row = {})
        : argument(name), row(list_row) {}

    std::string_view argument;
    std::optional<std::size_t> row; // from 0

    // "strengths", or "row 3 of strengths" (counted from 1): what sentences call it.
    std::string text() const;
};

class Refusal : public std::exception {
public:
    Refusal(RefusalKind kind, const ArgumentPlace& place, std::string_view value,
            std::string_view sentence)
        : kind_(kind), argument_(place.argument), row_(place.row), value_(value),
          sentence_(sentence) {}

    RefusalKind kind() const noexcept { return kind_; }
    // The argument's name in the contract; empty where the refusal is about all of them together.
    const std::string& argument() const noexcept { return argument_; }
    // Where the argument is a list and one row of it is to blame: that row, from 0 at the list's
    // first cell, blanks counted.
    std::optional<std::size_t> row() const noexcept { return row_; }
    // The offending value as a person would write it; empty where there is none.
    const std::string& value() const noexcept { return value_; }
    // The whole reason: argument, value, allowed range or missing quantity.
    const std::string& sentence() const noexcept { return sentence_; }
    const char* what() const noexcept override { return sentence_.c_str(); }

private:
    RefusalKind kind_;
    std::string argument_;
    std::optional<std::size_t> row_;
    std::string value_;
    std::string sentence_;
};

// A number as a person would write it: up to six significant digits, no exponent where avoidable.
std::string number_text(double value);

// The same with as many digits as it takes to look different from the limit that it missed: a
// computed 100.0000001 is not refused as "100; allowed: 0 to 100".
std::string number_text_apart(double value, double limit);

// With so many decimals, as an instrument or a rule writes it: "1.050". What rounds to 0 has no
// minus.
std::string fixed_text(double value, int decimals);

// "40 % vol"
std::string pct_vol_text(double strength);

// "temperature is 55 °C; allowed: -20 to 40 °C". The unit is written as given, with a space before
// it, and may be empty.
[[noreturn]] void refuse_range(const ArgumentPlace& place, double value, double lowest,
                               double highest, std::string_view unit, std::string_view hint = "");

// Refuses NaN, infinities and anything outside lowest...highest (both included).
void require_range(const ArgumentPlace& place, double value, double lowest, double highest,
                   std::string_view unit, std::string_view hint = "");

// Amounts that can be reckoned with, in whatever unit the caller counts: beyond them, sums and
// ratios of doubles overflow or lose their digits, and come out plausible but wrong.
inline constexpr double largest_amount = 1e15;
inline constexpr double smallest_amount = 1e-100; // but for 0 itself

// An amount (volume or mass): zero, or smallest_amount to largest_amount.
inline bool is_amount(double value) {
    return value == 0.0 || (value >= smallest_amount && value <= largest_amount);
}
void require_amount(const ArgumentPlace& place, double value);
// The refusal of what is none.
[[noreturn]] void refuse_amount(const ArgumentPlace& place, double value);

// An amount that has to be there: above zero, smallest_amount to largest_amount.
void require_positive(const ArgumentPlace& place, double value, std::string_view unit);

// A strength that exists: 0...100 % vol at 20 °C.
void require_strength(const ArgumentPlace& place, double strength);

// A strength that is wished for or a limit: 0 or 1...100 % vol. Between 0 and 1 exclusive it is
// taken for a percent-formatted cell and refused with "40, not 0.40".
void require_wished_strength(const ArgumentPlace& place, double strength);

[[noreturn]] void refuse(RefusalKind kind, const ArgumentPlace& place, std::string_view value,
                         std::string_view sentence);

} // namespace jarbook
