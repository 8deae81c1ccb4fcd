#include "habit.hpp"

#include <algorithm>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace jarbook::habits {

namespace {

constexpr const char* names[] = {"type",         "cut_paste",   "drag",    "copy_paste",
                                 "paste_values", "paste_alien", "clear",   "fill_down",
                                 "fill_series",  "sort",        "replace", "undo",
                                 "redo",         "insert_jar",  "mend"};

// What is typed rightly, and what is typed wrongly, by place in a jar row: clock, amount, reading,
// temperature, notes, use in blend, cut.
const std::vector<std::string> right[] = {{"9:40", "10:05", "23:50", "0:10", "14:30:00"},
                                          {"500", "1000", "250", "480", "750", "1020"},
                                          {"82.4", "78", "71.5", "66.8", "55", "31.5", "12"},
                                          {"18", "20.5", "24", "27", "15"},
                                          {"smells of glue", "clear", "pears", "12"},
                                          {"1", "0", "2"},
                                          {"hearts", "heads", "tails", "foreshots"}};
const std::vector<std::string> wrong[] = {
    {"10.30", "25:10", "half past nine", "9", "10:30 pm", "31,5"},
    {"1,5", "500 mL", "-3", "0", "1e9", "1.5.26", "may 5", "abc"},
    {"31,5", "0.315", "66,8%", "20%", "120", "0", "9/5", "abc", "2026-05-01"},
    {"0", "-30", "68", "20 C", "abc", "5/9", "20,5"},
    {"=1/0", "0"},
    {"x", "-1", "yes", "1,5"},
    {"heart", "Hearts", " tails ", "1", "feints"}};
const std::vector<std::string> numbers{"12",   "180", "30", "40",  "20",   "0.5",
                                       "6000", "1",   "95", "0",   "31,5", "abc",
                                       "20%",  "0.2", "-5", "1e6", "may 5"};

bool begins_in(const Block& boxes, const Block& block) {
    return block.column >= boxes.column && block.column < boxes.column + boxes.columns &&
           block.row >= boxes.row && block.row < boxes.row + boxes.rows;
}

std::string written(const Block& block, const Boxes& boxes) {
    std::ostringstream out;
    const auto from = [&](const char* name, const Block& first) {
        out << name << " " << block.column - first.column << "," << block.row - first.row << " "
            << block.columns << "x" << block.rows;
    };
    if (begins_in(boxes.jars, block))
        from("jars", boxes.jars);
    else if (begins_in(boxes.lots, block))
        from("lots", boxes.lots);
    else
        from("sheet", {});
    return out.str();
}

Block read_block(std::istream& in, const Boxes& boxes) {
    Block block;
    std::string within;
    char comma = 0;
    char times = 0;
    in >> within >> block.column >> comma >> block.row >> block.columns >> times >> block.rows;
    const Block first = within == "jars" ? boxes.jars : within == "lots" ? boxes.lots : Block{};
    block.column += first.column;
    block.row += first.row;
    return block;
}

} // namespace

std::string written(const Habit& habit, const Boxes& boxes) {
    std::ostringstream out;
    out << names[static_cast<int>(habit.kind)] << " " << written(habit.block, boxes) << " to "
        << written(habit.to, boxes) << " number " << habit.number << " text " << habit.text;
    return out.str();
}

Habit read(const std::string& line, const Boxes& boxes) {
    std::istringstream in(line);
    std::string name, word;
    Habit habit;
    in >> name;
    const auto known = std::find(std::begin(names), std::end(names), name);
    if (known == std::end(names))
        throw std::runtime_error("no habit: " + line);
    habit.kind = static_cast<Habit::Kind>(known - std::begin(names));
    habit.block = read_block(in, boxes);
    in >> word;
    habit.to = read_block(in, boxes);
    in >> word >> habit.number >> word;
    in.ignore(1);
    std::getline(in, habit.text);
    if (!in && !in.eof())
        throw std::runtime_error("not a whole habit: " + line);
    return habit;
}

int Generator::below(int limit) {
    return static_cast<int>(random_() % static_cast<std::uint64_t>(std::max(limit, 1)));
}

// Mostly a few cells among the boxes; now and then one that reaches over the edge.
Block Generator::inside(const Block& boxes, bool wide) {
    Block block;
    block.columns = wide ? boxes.columns : 1 + below(std::min(boxes.columns, 4));
    block.rows = 1 + below(std::min(boxes.rows, 5));
    block.column = boxes.column + (wide ? 0 : below(boxes.columns - block.columns + 1));
    // Most jars are typed in the first rows.
    const int rows = below(3) == 0 ? boxes.rows : std::min(boxes.rows, 12);
    block.row = boxes.row + below(std::max(rows - block.rows + 1, 1));
    if (below(25) == 0)
        block.rows = boxes.rows + below(3) - 1;
    if (below(40) == 0)
        block.columns += 1;
    return block;
}

Block Generator::some_block(const Boxes& boxes) {
    const int dice = below(20);
    if (dice < 15)
        return inside(boxes.jars, below(3) == 0);
    if (dice < 18 || boxes.single.empty())
        return inside(boxes.lots, below(3) == 0);
    return boxes.single[static_cast<std::size_t>(below(static_cast<int>(boxes.single.size())))];
}

std::string Generator::some_text(const Boxes& boxes, const Block& cell) {
    const auto one_of = [&](const std::vector<std::string>& texts) {
        return texts[static_cast<std::size_t>(below(static_cast<int>(texts.size())))];
    };
    const int column = cell.column - boxes.jars.column;
    const bool jar = cell.row >= boxes.jars.row && cell.row < boxes.jars.row + boxes.jars.rows;
    if (jar && column >= 0 && column < static_cast<int>(std::size(right)))
        return one_of(below(4) == 0 ? wrong[column] : right[column]);
    return one_of(numbers);
}

Habit Generator::next(const Boxes& boxes) {
    using Kind = Habit::Kind;
    static const std::vector<Kind> often{
        Kind::type,       Kind::type,         Kind::type,        Kind::type,      Kind::type,
        Kind::type,       Kind::type,         Kind::type,        Kind::cut_paste, Kind::cut_paste,
        Kind::cut_paste,  Kind::drag,         Kind::drag,        Kind::drag,      Kind::copy_paste,
        Kind::copy_paste, Kind::paste_values, Kind::paste_alien, Kind::clear,     Kind::clear,
        Kind::fill_down,  Kind::fill_series,  Kind::sort,        Kind::sort,      Kind::replace,
        Kind::undo,       Kind::undo,         Kind::undo,        Kind::redo,      Kind::redo,
        Kind::insert_jar, Kind::mend};
    Habit habit;
    habit.kind = often[static_cast<std::size_t>(below(static_cast<int>(often.size())))];
    habit.block = some_block(boxes);
    habit.to = some_block(boxes);
    switch (habit.kind) {
    case Kind::type:
        habit.block.columns = habit.block.rows = 1;
        if (below(3) > 0) { // a jar as it comes
            habit.block.column = boxes.jars.column + below(boxes.jars.columns);
            habit.block.row = boxes.jars.row + below(std::min(boxes.jars.rows, 12));
        }
        habit.text = some_text(boxes, habit.block);
        break;
    case Kind::paste_alien: // a block of the scratch sheet
        habit.block = {below(4), below(6), 1 + below(3), 1 + below(3)};
        break;
    case Kind::sort:
        habit.to.column = boxes.jars.column + (below(2) == 0 ? 0 : below(boxes.jars.columns));
        habit.number = below(4) == 0;
        break;
    case Kind::replace:
        habit.number = below(2);
        break;
    case Kind::undo:
    case Kind::redo:
        habit.number = 1 + below(4);
        break;
    case Kind::fill_down:
    case Kind::fill_series:
        habit.block.rows = std::max(habit.block.rows, 2);
        break;
    default:
        break;
    }
    return habit;
}

} // namespace jarbook::habits
