// A call of one cell function with arguments of any kind, and its notation in one line of text, so
// that a call that once failed can be kept and made again exactly.
//
//     strength n:50 n:nan(7ff80000000001f6) _ n:2.5e-05
//     blendStrength {n:1|s:""|n:3} 1048576*{n:40} b:true
//
// _ left out; n: number; s: text, \ and " and what is not printable ASCII as \uXXXX; b: boolean;
// i1: i2: i4: i8: integers of so many bytes; f: a number of four bytes. {a;b|c;d} rows of cells,
// also ragged and nested; N*{...} the same rows N times over; D{...}, S{...}, I{...} rows that hold
// nothing but numbers, texts or integers and are typed so; [a;b] a sequence without rows; x: what
// no office sends as an argument (char, type, enum, struct, exception, interface).
#pragma once

#include <com/sun/star/uno/Any.hxx>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace jarbook::hostile {

struct Value;

struct LeftOut {
    bool operator==(const LeftOut&) const = default;
};
struct Integer {
    std::int64_t value = 0;
    int bytes = 4;
    bool operator==(const Integer&) const = default;
};
enum class Element { any, number, text, integer };
struct Rows {
    Element element = Element::any;
    std::size_t times = 1;
    std::vector<std::vector<Value>> rows;
    bool operator==(const Rows&) const = default;
};
struct Flat {
    std::vector<Value> values;
    bool operator==(const Flat&) const = default;
};
enum class Foreign { character, type, enumeration, structure, exception, interface };

struct Value {
    std::variant<LeftOut, double, std::u16string, bool, Integer, float, Rows, Flat, Foreign> held;
    // Numbers by their bits, so that NaN equals itself.
    bool operator==(const Value& other) const;
};

struct Call {
    std::string method;
    std::vector<Value> arguments;
    bool operator==(const Call&) const = default;
};

class BadNotation : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

std::string notation(const Value& value);
std::string notation(const Call& call);
// Throws BadNotation.
Call call_from(std::string_view line);

// The value as UNO carries it.
com::sun::star::uno::Any any_from(const Value& value);

} // namespace jarbook::hostile
