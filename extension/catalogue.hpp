// The catalogue of the cell functions as a table, for the binding and the tests. The data are made
// from extension/catalogue/*.toml at build time; UNO-free.
#pragma once

#include <limits>
#include <span>
#include <string_view>
#include <utility>
#include <variant>

namespace jarbook::catalogue {

enum class Kind {
    number, // a number
    list,   // numbers: a cell, a row or a column
    rows,   // numbers: a cell, or a range that is answered row by row
    words,  // texts: a cell, a row or a column
    word,   // a text
    flag,   // TRUE or FALSE
};

// What an argument is to Check this sheet, which looks at such values whatever the function.
enum class Measure { nothing, strength, temperature, amount, cut };

struct Argument {
    std::string_view name;
    Kind kind;
    bool optional;
    std::string_view unit;
    double lowest;  // NaN: no limit of its own
    double highest; // NaN: no limit of its own
    bool above;     // lowest itself is not allowed
    bool refuses_zero;
    bool wish;   // between 0 and 1 exclusive is refused: 40, not 0.40
    bool blanks; // of a list: a blank beside a row that is filled means something
    Measure measures;
    std::string_view text;
    std::string_view help; // as the office shows it: text, range, default
};

using Value = std::variant<double, std::string_view>;
// A column letter, and the values from row 1 down.
using Cells = std::pair<std::string_view, std::span<const Value>>;

struct Example {
    std::string_view call;        // SPIRIT.STRENGTH(50;10), separators as in files
    std::span<const Cells> cells; // column letter, from row 1
    std::span<const std::span<const Value>> result; // rows; empty where an error is expected
    double tolerance;
    int error; // 0: none
    std::string_view source;
};

struct Function {
    std::string_view method;
    std::string_view name; // as typed: SPIRIT.STRENGTH
    std::string_view group;
    std::string_view gives;
    std::string_view summary;
    std::string_view note;
    std::string_view source;
    bool in_order; // rows of its lists are the jars in the order in which they ran
    std::span<const Argument> arguments;
    std::span<const Example> examples;
};

struct Error {
    int code;
    std::string_view shown;
    std::string_view kind;
    std::string_view meaning;
    std::string_view remedy;
};

std::span<const Function> functions();
std::span<const Error> errors();

// From look_again.toml: beyond these a value is allowed, but a person should look.
extern const double strength_rise;   // % vol
extern const double far_temperature; // °C

} // namespace jarbook::catalogue
