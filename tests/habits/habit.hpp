// What a person does to the boxes of a run sheet by habit: one action each, written in one line so
// that a sequence that went wrong can be read, shortened and done again.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace jarbook::habits {

// A rectangle of cells, counted from 0.
struct Block {
    int column = 0;
    int row = 0;
    int columns = 1;
    int rows = 1;
    bool operator==(const Block&) const = default;
};

struct Habit {
    enum class Kind {
        type,         // text into the cell, as typed
        cut_paste,    // block to the cell at to
        drag,         // the same with the mouse
        copy_paste,   // with formats
        paste_values, // the block's values only, to the cell at to
        paste_alien,  // a block of the scratch sheet, with its formats
        clear,        // Delete on a block
        fill_down,    // Ctrl+D
        fill_series,  // the handle of the first row drawn to the last
        sort,         // whole jar rows by a column (to.column), up or down (number)
        replace,      // comma for point, or the other way (number)
        undo,         // number times
        redo,
        insert_jar, // our commands at the cell
        mend,
    };
    Kind kind = Kind::type;
    Block block;
    Block to;
    std::string text;
    int number = 0;
};

// Where habits go: the jars' boxes, the lots', and single ones.
struct Boxes {
    Block jars;
    Block lots;
    std::vector<Block> single;
};

// "drag jars 1,4 3x2 to lots 1,0 1x1 number 0 text" and back: cells are counted within the jars or
// the lots, others within the sheet, so that a line means the same when rows come above.
std::string written(const Habit& habit, const Boxes& boxes);
Habit read(const std::string& line, const Boxes& boxes);

class Generator {
public:
    explicit Generator(std::uint64_t seed) : random_(seed) {}
    Habit next(const Boxes& boxes);

private:
    int below(int limit);
    Block inside(const Block& boxes, bool wide);
    Block some_block(const Boxes& boxes);
    std::string some_text(const Boxes& boxes, const Block& cell);

    std::mt19937_64 random_;
};

} // namespace jarbook::habits
