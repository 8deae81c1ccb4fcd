// A run log in a real Calc with a view, to which habits are done as a person does them, and a fresh
// one to which the same is typed anew.
#pragma once

#include "habit.hpp"
#include "office.hpp"

#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <map>
#include <memory>
#include <optional>

namespace jarbook::habits {

// One open run log.
class RunLog {
public:
    RunLog(office::Office& office, const std::string& file);
    ~RunLog();

    void do_habit(const Habit& habit);
    // Our commands, silently; what they say.
    std::string command(const std::string& name, const Block& selected);

    // Where the boxes are now; from the rows that are there, not from names.
    Boxes boxes() const;
    int jars() const;
    office::Sheet run() const;

    // The sheet as it is: one entry a cell.
    struct Content {
        std::vector<std::vector<std::string>> formulas; // of each cell; a constant as it is
        std::vector<std::vector<std::string>> values;   // "n12.5", "ttext", "" or "error"
    };
    Content content() const;
    // Types what the other sheet's boxes show into this one's; as many jars.
    void type_afresh(const Content& other);
    // Which cells are boxes to fill in, with as many jars as there are.
    class BoxMap {
    public:
        explicit BoxMap(std::vector<Block> boxes);
        bool has(int column, int row) const;
        const std::vector<Block>& blocks() const { return boxes_; }

    private:
        std::vector<Block> boxes_;
    };
    BoxMap box_map() const;
    // Where the cells of a name of the pristine sheet are with so many jars.
    Block named(const std::string& name, int jars) const;
    bool is_protected() const;

private:
    void select(const Block& block, int sheet = 1);
    // Whether nothing in it is locked.
    bool is_open(const Block& block) const;
    bool would_be_refused(const Habit& habit) const;
    // Whether the next step of Undo (or of Redo) is a Replace all.
    bool next_is_replace(bool undo) const;
    void
    dispatch(const std::string& command,
             const std::vector<std::pair<std::string, com::sun::star::uno::Any>>& arguments = {});
    void make_scratch_sheet();

    office::Office& office_;
    office::Document document_;
    com::sun::star::uno::Reference<com::sun::star::frame::XDispatchProvider> frame_;
    std::map<std::string, Block> names_; // of the pristine sheet
    std::vector<Block> boxes_;           // of the pristine sheet
    int last_row_ = 0;
};

} // namespace jarbook::habits
