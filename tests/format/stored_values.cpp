#include "stored_values.hpp"

#include "workbooks/workbook.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace jarbook::format {

namespace {

std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text)
        result += c == '\\'   ? std::string("\\\\")
                  : c == '\n' ? std::string("\\n")
                  : c == '\t' ? std::string("\\t")
                              : std::string(1, c);
    return result;
}

std::string unescaped(const std::string& text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\\' || i + 1 == text.size()) {
            result += text[i];
            continue;
        }
        const char c = text[++i];
        result += c == 'n' ? '\n' : c == 't' ? '\t' : c;
    }
    return result;
}

std::string address(const Place& place) {
    std::string letters;
    for (int left = place.column + 1; left > 0; left = (left - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (left - 1) % 26));
    return letters + std::to_string(place.row + 1);
}

Place place_from(const std::string& sheet, const std::string& address) {
    Place place{sheet, 0, 0};
    std::size_t i = 0;
    for (; i < address.size() && address[i] >= 'A' && address[i] <= 'Z'; ++i)
        place.column = place.column * 26 + (address[i] - 'A' + 1);
    --place.column;
    place.row = std::stoi(address.substr(i)) - 1;
    return place;
}

std::string exact(double number) {
    char text[40];
    std::snprintf(text, sizeof text, "%.17g", number);
    return text;
}

std::string written(const Stored& stored) {
    if (std::holds_alternative<AnyText>(stored))
        return "v\t";
    const auto& value = std::get<office::Value>(stored);
    if (const double* number = std::get_if<double>(&value))
        return "n\t" + exact(*number);
    if (const auto* error = std::get_if<office::CellError>(&value))
        return "e\t" + std::to_string(error->code);
    return "t\t" + escaped(std::get<std::string>(value));
}

Stored stored_from(const std::string& kind, const std::string& text) {
    if (kind == "v")
        return AnyText{};
    if (kind == "n")
        return office::Value(std::strtod(text.c_str(), nullptr));
    if (kind == "e")
        return office::Value(office::CellError{std::stoi(text)});
    if (kind == "t")
        return office::Value(unescaped(text));
    throw std::runtime_error("no kind of value: " + kind);
}

std::string shown(const Stored& stored) {
    if (std::holds_alternative<AnyText>(stored))
        return "(any text)";
    const auto& value = std::get<office::Value>(stored);
    const double* number = std::get_if<double>(&value);
    return number ? exact(*number) : office::describe(value);
}

bool is_same(const Stored& expected, const Stored& found) {
    const auto* now = std::get_if<office::Value>(&found);
    const auto* then = std::get_if<office::Value>(&expected);
    if (!now || !then)
        return !then && now ? std::holds_alternative<std::string>(*now) : !then && !now;
    const double* a = std::get_if<double>(then);
    const double* b = std::get_if<double>(now);
    if (!a || !b)
        return *then == *now;
    return std::fabs(*a - *b) <= 1e-9 * std::max(1.0, std::fabs(*a));
}

} // namespace

std::string describe(const Place& place) {
    return "$'" + place.sheet + "'." + address(place);
}

StoredValues values_of(const office::Document& document) {
    StoredValues result;
    for (const std::string& name : document.sheet_names()) {
        const office::Range used = document.sheet(name).used();
        const auto contents = e2e::contents(used);
        const auto formulas = e2e::formulas(used);
        for (std::size_t r = 0; r < contents.size(); ++r)
            for (std::size_t c = 0; c < contents[r].size(); ++c) {
                const Place place{name, static_cast<int>(c), static_cast<int>(r)};
                const std::string& formula = formulas[r][c];
                const auto& content = contents[r][c];
                const double* number = std::get_if<double>(&content);
                const bool formula_of_version = formula.find(".VERSION()") != std::string::npos &&
                                                formula.find('=') != std::string::npos;
                if (number && std::isnan(*number))
                    result[place] = used.cell(place.column, place.row).value();
                else if (number)
                    result[place] = office::Value(*number);
                else if (const auto& text = std::get<std::string>(content); text.empty())
                    continue;
                else if (formula_of_version)
                    result[place] = AnyText{};
                else
                    result[place] = office::Value(text);
            }
    }
    return result;
}

void write(const StoredValues& values, const std::filesystem::path& file) {
    std::ofstream out(file, std::ios::binary);
    for (const auto& [place, stored] : values)
        out << place.sheet << '\t' << address(place) << '\t' << written(stored) << '\n';
    out.close();
    if (!out)
        throw std::runtime_error("cannot be written: " + file.string());
}

StoredValues read(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    StoredValues result;
    for (std::string line; std::getline(in, line);) {
        std::istringstream parts(line);
        std::string sheet, where, kind, text;
        std::getline(parts, sheet, '\t');
        std::getline(parts, where, '\t');
        std::getline(parts, kind, '\t');
        std::getline(parts, text, '\t');
        result[place_from(sheet, where)] = stored_from(kind, text);
    }
    if (result.empty())
        throw std::runtime_error("no values can be read: " + file.string());
    return result;
}

std::vector<std::string> differences(const StoredValues& expected, const StoredValues& found) {
    std::vector<std::string> result;
    for (const auto& [place, then] : expected) {
        const auto now = found.find(place);
        if (now == found.end())
            result.push_back(describe(place) + " showed " + shown(then) + " and shows nothing");
        else if (!is_same(then, now->second))
            result.push_back(describe(place) + " showed " + shown(then) + " and shows " +
                             shown(now->second));
    }
    for (const auto& [place, now] : found)
        if (!expected.count(place))
            result.push_back(describe(place) + " showed nothing and shows " + shown(now));
    return result;
}

} // namespace jarbook::format
