// What a workbook showed when it was stored, kept as text beside it, and compared with what it
// shows now.
#pragma once

#include "office.hpp"

#include <compare>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace jarbook::format {

// A sheet, and a cell's column and row counted from 0.
struct Place {
    std::string sheet;
    int column = 0;
    int row = 0;
    auto operator<=>(const Place&) const = default;
};
std::string describe(const Place& place);

// Some text or other: the extension's version, which differs from one to the next.
struct AnyText {
    bool operator==(const AnyText&) const = default;
};
using Stored = std::variant<office::Value, AnyText>;
// Of every cell that shows something. Blank cells and empty texts are not among them.
using StoredValues = std::map<Place, Stored>;

StoredValues values_of(const office::Document& document);

// One line a cell: sheet, address, kind (n number, t text, e error, v any text), value.
void write(const StoredValues& values, const std::filesystem::path& file);
StoredValues read(const std::filesystem::path& file);

// What differs: a line for each cell. Numbers are the same within 1e-9 of their size, or 1e-9 near
// zero: a later version may round in another order, yet nothing that anybody reads may change.
std::vector<std::string> differences(const StoredValues& expected, const StoredValues& found);

} // namespace jarbook::format
