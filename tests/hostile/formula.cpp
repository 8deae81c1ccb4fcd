#include "formula.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

namespace jarbook::hostile {

using catalogue::Argument;
using catalogue::Kind;

namespace {

constexpr int fixed_rows = 40;

// Arguments that only a sheet has. Errors among them reach nobody's call.
const std::vector<std::string> sheet_only = {
    "Fixed.A1",          // empty
    "Fixed.A1:A40",      // empty
    "Fixed.B1:B40",      // numbers
    "Fixed.C1:C40",      // numbers, blanks between
    "Fixed.D1:D40",      // an error in one row
    "Fixed.D5",          // an error
    "Fixed.E1:E40",      // dates
    "Fixed.F1:F40",      // texts that look like numbers
    "Fixed.G1:G40",      // booleans
    "Fixed.H1:H40",      // formulas that give empty text
    "Fixed.B1:C40",      // a block
    "Fixed.B1:I1",       // a row
    "Fixed.B1~Fixed.B3", // a union
    "Fixed.B1:Calls.B3", // through sheets
    "Fixed.B1048576",
    "INDIRECT(\"Fixed.B1:B3\")",
    "OFFSET(Fixed.B1;0;0;5;1)",
    "INDIRECT(\"nowhere\")",
    "NA()",
    "1/0",
    "SQRT(-1)",
    "1E300*1E300",
    "TODAY()",
    "TRUE()",
    "\"\"",
    "\"40\"&\"\"",
    "1=1",
    "{1;2|3;4}",
    "{1|2|3}",
    "{1;2;3}",
    "{\"hearts\";\"tails\"}",
    "ROW(Fixed.B1:B40)",
    "Fixed.B1:B40*2",
    "Fixed.B1:B40&\"\"",
    "IF(Fixed.B1:B40>20;Fixed.B1:B40;\"\")",
    "SPIRIT.DENSITY(200)",
    "SPIRIT.BLENDPAIR(75;20;40;10)",
};

bool is_list(const Argument& argument) {
    return argument.kind == Kind::list || argument.kind == Kind::rows ||
           argument.kind == Kind::words;
}

std::string quoted(const std::u16string& text) {
    std::string result = "\"";
    for (const char16_t unit : text.substr(0, 200)) {
        // What no file can store is left out, and what is not ASCII is written as UTF-8.
        if (unit < 0x20 || (unit >= 0xd800 && unit < 0xe000) || unit >= 0xfffe)
            continue;
        if (unit < 0x80) {
            result.append(unit == u'"' ? 2 : 1, static_cast<char>(unit));
        } else if (unit < 0x800) {
            result += static_cast<char>(0xc0 | (unit >> 6));
            result += static_cast<char>(0x80 | (unit & 0x3f));
        } else {
            result += static_cast<char>(0xe0 | (unit >> 12));
            result += static_cast<char>(0x80 | ((unit >> 6) & 0x3f));
            result += static_cast<char>(0x80 | (unit & 0x3f));
        }
    }
    return result + '"';
}

std::optional<double> plain_number(const Value& value) {
    if (const auto* number = std::get_if<double>(&value.held))
        return *number;
    if (const auto* number = std::get_if<float>(&value.held))
        return *number;
    if (const auto* number = std::get_if<Integer>(&value.held))
        return static_cast<double>(number->value);
    if (const auto* flag = std::get_if<bool>(&value.held))
        return *flag ? 1.0 : 0.0;
    return std::nullopt;
}

class Writer {
public:
    // `one_values`: no arrays where one number belongs. Calc calls a function of many cells once
    // for each of its cells then: a forecast of 10,000 rows 60,000 times, which takes it ten
    // minutes.
    Writer(Random& random, Cells& cells, bool one_values)
        : random_(random), cells_(cells), one_values_(one_values) {}

    std::string argument(const Argument& shape, const Value& value) {
        const bool one_value = one_values_ && !is_list(shape);
        if (!one_value && random_.one_in(25)) {
            formula_.exact = false;
            formula_.calc_may_refuse = true;
            return random_.of(sheet_only);
        }
        if (std::holds_alternative<LeftOut>(value.held)) {
            // An empty argument of a required number is 0 for Calc.
            formula_.exact &= shape.optional;
            formula_.calc_may_refuse |= !shape.optional;
            return "";
        }
        if (const auto number = plain_number(value))
            return number_text(*number);
        if (const auto* text = std::get_if<std::u16string>(&value.held)) {
            formula_.calc_may_refuse |= shape.kind == Kind::number && !shape.optional;
            formula_.exact &= shape.kind != Kind::number;
            return quoted(*text);
        }
        if (const auto* rows = std::get_if<Rows>(&value.held); rows && !one_value) {
            formula_.calc_may_refuse |= !is_list(shape) && !shape.optional;
            return list_text(*rows);
        }
        // What no sheet can send.
        formula_.exact = false;
        formula_.calc_may_refuse = true;
        return one_value ? "Fixed.D5" : random_.of(sheet_only);
    }

    Formula formula_;

private:
    std::string number_text(double number) {
        if (!std::isfinite(number)) {
            formula_.calc_may_refuse = true;
            formula_.exact = false;
            return "(1/0)";
        }
        std::array<char, 32> text;
        const auto end = std::to_chars(text.data(), text.data() + text.size(), number).ptr;
        const std::string written(text.data(), end);
        // Long numbers and the smallest would be read with a last digit of their own.
        if (written.size() <= 15 && std::fabs(number) > 1e-290 && random_.one_in(2))
            return written;
        return cells_.put({number});
    }

    std::string list_text(const Rows& rows) {
        if (rows.times > 1) {
            formula_.exact = false;
            formula_.calc_may_refuse = true;
            return random_.one_in(2) ? "Fixed.B1:B1048576" : "Fixed.A1:A1048576";
        }
        std::vector<office::Value> column;
        for (const auto& row : rows.rows) {
            // One column; blocks and rows come from the fixed sheet.
            formula_.exact &= row.size() == 1;
            for (const Value& cell : row)
                column.push_back(cell_value(cell));
        }
        if (column.empty()) {
            formula_.exact = false;
            return "Fixed.A1:A3";
        }
        return cells_.put(column);
    }

    office::Value cell_value(const Value& cell) {
        if (const auto number = plain_number(cell)) {
            if (std::isfinite(*number))
                return *number;
            formula_.exact = false;
            return 0.0;
        }
        if (const auto* text = std::get_if<std::u16string>(&cell.held)) {
            const std::string in_quotes = quoted(*text);
            std::string plain = in_quotes.substr(1, in_quotes.size() - 2);
            formula_.exact &= !plain.empty() || text->empty();
            if (plain.empty())
                return office::Blank{};
            return plain;
        }
        formula_.exact = false;
        return office::Blank{};
    }

    Random& random_;
    Cells& cells_;
    bool one_values_;
};

bool fills_cells(const catalogue::Function& function) {
    return std::any_of(function.examples.begin(), function.examples.end(),
                       [](const catalogue::Example& example) {
                           return example.result.size() > 1 ||
                                  (example.result.size() == 1 && example.result[0].size() > 1);
                       });
}

// A, B, ... Z, AA ...
std::string column_name(std::size_t index) {
    std::string name;
    for (++index; index > 0; index = (index - 1) / 26)
        name.insert(name.begin(), static_cast<char>('A' + (index - 1) % 26));
    return name;
}

} // namespace

std::string Cells::put(const std::vector<office::Value>& column) {
    const std::string name = column_name(columns_.size());
    columns_.push_back(column);
    std::string reference = sheet_ + "." + name + "1";
    if (column.size() > 1)
        reference += ":" + name + std::to_string(column.size());
    return reference;
}

office::Rows<office::Value> Cells::rows() const {
    std::size_t height = 0;
    for (const auto& column : columns_)
        height = std::max(height, column.size());
    office::Rows<office::Value> result(height);
    for (std::size_t r = 0; r < height; ++r)
        for (const auto& column : columns_)
            result[r].push_back(r < column.size() ? column[r] : office::Value(office::Blank{}));
    return result;
}

void fill_fixed_sheet(office::Document& document) {
    office::Sheet sheet = document.add_sheet("Fixed");
    office::Rows<std::string> formulas;
    for (int row = 1; row <= fixed_rows; ++row) {
        const std::string number = std::to_string(row);
        formulas.push_back({number, row % 3 ? number : "", row == 5 ? "=NA()" : number,
                            "=DATE(2025;1;" + number + ")", "'" + number,
                            row % 2 ? "=TRUE()" : "=FALSE()", "=\"\"", "=" + number + "*2"});
    }
    sheet.range("B1:I" + std::to_string(fixed_rows)).set_formulas(formulas);
}

Formula formula_from(const catalogue::Function& function, const Call& call, Random& random,
                     Cells& cells) {
    Writer writer(random, cells, fills_cells(function));
    std::string text = "=" + std::string(function.name) + "(";
    for (std::size_t i = 0; i < call.arguments.size(); ++i) {
        if (i)
            text += ";";
        static const Argument none{};
        text += writer.argument(i < function.arguments.size() ? function.arguments[i] : none,
                                call.arguments[i]);
    }
    Formula formula = writer.formula_;
    formula.text = text + ")";
    if (call.arguments.size() != function.arguments.size()) {
        formula.calc_may_refuse = true;
        formula.exact = false;
    }
    return formula;
}

} // namespace jarbook::hostile
