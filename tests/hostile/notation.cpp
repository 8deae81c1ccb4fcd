#include "call.hpp"

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace jarbook::hostile {

namespace {

constexpr std::array<const char*, 6> foreign_names = {"char",   "type",      "enum",
                                                      "struct", "exception", "interface"};
constexpr std::array<const char*, 4> element_marks = {"", "D", "S", "I"};

template <class Number>
std::string shortest(Number value) {
    std::array<char, 64> text;
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
    return {text.data(), end};
}

std::string number(double value) {
    if (!std::isnan(value))
        return shortest(value);
    std::array<char, 32> text;
    std::snprintf(text.data(), text.size(), "nan(%016llx)",
                  static_cast<unsigned long long>(std::bit_cast<std::uint64_t>(value)));
    return text.data();
}

std::string quoted(const std::u16string& text) {
    std::string result = "\"";
    for (const char16_t unit : text) {
        if (unit >= 0x20 && unit < 0x7f && unit != u'"' && unit != u'\\') {
            result += static_cast<char>(unit);
        } else {
            std::array<char, 8> escape;
            std::snprintf(escape.data(), escape.size(), "\\u%04x", static_cast<unsigned>(unit));
            result += escape.data();
        }
    }
    return result + '"';
}

struct Writer {
    std::string operator()(LeftOut) const { return "_"; }
    std::string operator()(double value) const { return "n:" + number(value); }
    std::string operator()(const std::u16string& text) const { return "s:" + quoted(text); }
    std::string operator()(bool value) const { return value ? "b:true" : "b:false"; }
    std::string operator()(Integer value) const {
        return "i" + std::to_string(value.bytes) + ":" + std::to_string(value.value);
    }
    std::string operator()(float value) const { return "f:" + shortest(value); }
    std::string operator()(const Rows& rows) const {
        std::string result;
        if (rows.times != 1)
            result = std::to_string(rows.times) + "*";
        result += element_marks[static_cast<std::size_t>(rows.element)];
        result += "{";
        for (std::size_t r = 0; r < rows.rows.size(); ++r) {
            if (r)
                result += "|";
            for (std::size_t c = 0; c < rows.rows[r].size(); ++c)
                result.append(c ? ";" : "").append(notation(rows.rows[r][c]));
        }
        // One row without a cell is not the same as no row.
        if (rows.rows.size() == 1 && rows.rows[0].empty())
            result += "|!";
        return result + "}";
    }
    std::string operator()(const Flat& flat) const {
        std::string result = "[";
        for (std::size_t i = 0; i < flat.values.size(); ++i)
            result.append(i ? ";" : "").append(notation(flat.values[i]));
        return result + "]";
    }
    std::string operator()(Foreign value) const {
        return std::string("x:") + foreign_names[static_cast<std::size_t>(value)];
    }
};

class Reader {
public:
    explicit Reader(std::string_view text) : text_(text) {}

    Call call() {
        Call result;
        while (!at_end() && peek() != ' ')
            result.method += take();
        while (!at_end()) {
            expect(' ');
            result.arguments.push_back(value());
        }
        return result;
    }

private:
    bool at_end() const { return at_ == text_.size(); }
    char peek() const { return at_end() ? '\0' : text_[at_]; }
    char take() { return at_end() ? fail("more") : text_[at_++]; }
    void expect(char wanted) {
        if (take() != wanted)
            fail(std::string(1, wanted));
    }
    bool skip(std::string_view wanted) {
        if (!text_.substr(at_).starts_with(wanted))
            return false;
        at_ += wanted.size();
        return true;
    }
    [[noreturn]] char fail(const std::string& wanted) const {
        throw BadNotation("at " + std::to_string(at_) + " of \"" + std::string(text_) +
                          "\": expected " + wanted);
    }

    template <class Number>
    Number parsed(int base = 0) {
        Number result{};
        const char* end = text_.data() + text_.size();
        std::from_chars_result read;
        if constexpr (std::is_floating_point_v<Number>)
            read = std::from_chars(text_.data() + at_, end, result);
        else
            read = std::from_chars(text_.data() + at_, end, result, base ? base : 10);
        if (read.ec != std::errc())
            fail("a number");
        at_ = static_cast<std::size_t>(read.ptr - text_.data());
        return result;
    }

    double number_value() {
        if (!skip("nan("))
            return parsed<double>();
        const auto bits = parsed<std::uint64_t>(16);
        expect(')');
        return std::bit_cast<double>(bits);
    }

    std::u16string text_value() {
        std::u16string result;
        expect('"');
        while (peek() != '"' || at_end()) {
            if (skip("\\u")) {
                const std::string_view digits = text_.substr(at_, 4);
                unsigned unit = 0;
                if (std::from_chars(digits.data(), digits.data() + digits.size(), unit, 16).ptr !=
                    digits.data() + 4)
                    fail("four hexadecimal digits");
                at_ += 4;
                result += static_cast<char16_t>(unit);
            } else {
                result += static_cast<char16_t>(static_cast<unsigned char>(take()));
            }
        }
        expect('"');
        return result;
    }

    Rows rows_value(Element element, std::size_t times) {
        Rows result{element, times, {}};
        expect('{');
        if (skip("}"))
            return result;
        result.rows.emplace_back();
        if (skip("|!}"))
            return result;
        while (!skip("}")) {
            if (skip("|")) {
                result.rows.emplace_back();
                continue;
            }
            if (!result.rows.back().empty())
                expect(';');
            result.rows.back().push_back(value());
        }
        return result;
    }

    Value value() {
        if (skip("_"))
            return {LeftOut{}};
        if (skip("n:"))
            return {number_value()};
        if (skip("s:"))
            return {text_value()};
        if (skip("b:true"))
            return {true};
        if (skip("b:false"))
            return {false};
        if (skip("f:"))
            return {parsed<float>()};
        if (skip("i")) {
            const int bytes = take() - '0';
            expect(':');
            return {Integer{parsed<std::int64_t>(), bytes}};
        }
        if (skip("x:")) {
            for (std::size_t i = 0; i < foreign_names.size(); ++i)
                if (skip(foreign_names[i]))
                    return {static_cast<Foreign>(i)};
            fail("a foreign kind");
        }
        if (skip("[")) {
            Flat flat;
            while (!skip("]")) {
                if (!flat.values.empty())
                    expect(';');
                flat.values.push_back(value());
            }
            return {flat};
        }
        std::size_t times = 1;
        if (peek() >= '0' && peek() <= '9') {
            times = parsed<std::size_t>();
            expect('*');
        }
        for (std::size_t i = 1; i < element_marks.size(); ++i)
            if (skip(element_marks[i]))
                return {rows_value(static_cast<Element>(i), times)};
        return {rows_value(Element::any, times)};
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

} // namespace

std::string notation(const Value& value) {
    return std::visit(Writer(), value.held);
}

std::string notation(const Call& call) {
    std::string result = call.method;
    for (const Value& argument : call.arguments)
        result += " " + notation(argument);
    return result;
}

Call call_from(std::string_view line) {
    return Reader(line).call();
}

bool Value::operator==(const Value& other) const {
    const auto* mine = std::get_if<double>(&held);
    const auto* its = std::get_if<double>(&other.held);
    if (mine && its)
        return std::bit_cast<std::uint64_t>(*mine) == std::bit_cast<std::uint64_t>(*its);
    const auto* small = std::get_if<float>(&held);
    const auto* its_small = std::get_if<float>(&other.held);
    if (small && its_small && std::isnan(*small))
        return std::isnan(*its_small);
    return held == other.held;
}

} // namespace jarbook::hostile
