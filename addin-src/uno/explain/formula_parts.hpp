// What the parts of a formula give, and from which cells.
#pragma once

#include "uno/explain/error_cells.hpp"
#include "uno/formula/evaluator.hpp"
#include "uno/formula/formula.hpp"

#include <optional>
#include <utility>

namespace jarbook::menu {

// Reads the document and leaves it alone; parts of formulas are computed elsewhere (see Evaluator).
class FormulaParts {
public:
    FormulaParts(const Context& context, const Document& document, const OpCodes& codes,
                 Progress& progress);

    const Document& document() const { return document_; }
    const OpCodes& codes() const { return codes_; }
    const FormulaReader& reader() const { return reader_; }
    Evaluator& evaluator() { return evaluator_; }
    ErrorCells& errors() { return errors_; }

    // A formula, or the element of an array formula, that is being looked at. Parts of it are
    // computed alone, or as that element of an array.
    struct Where {
        const Formula& formula;
        Place cell;                                             // that shows the error
        std::optional<std::pair<sal_Int32, sal_Int32>> element; // row and column, from 0
    };

    // What a part of the formula gives.
    Value value(const Where& where, const Node& node);
    // The error that a part passes on to what is around it; 0 if none.
    sal_Int32 error_in(const Where& where, const Node& node);
    // The cell that a reference means here: a single cell, or the array's element of an area.
    std::optional<Place> cell_meant(const Where& where, const Node& node) const;
    // The same, also through INDEX, OFFSET, INDIRECT and the branch that IF and its like take.
    std::optional<Place> cell_behind(const Where& where, const Node& node);
    // From there on through formulas that only hand on another cell's value, to the cell that was
    // typed into, or computed.
    Place input_behind(Place cell);
    // The cells that INDIRECT, OFFSET or INDEX refer to.
    std::optional<Area> referred(const Where& where, const Node& call);
    // The branch that IF and its like take; nothing if that cannot be told or there is none.
    enum class Choice { unknown, none, one };
    std::pair<Choice, const Node*> branch(const Where& where, const Node& call);
    // Whether Calc takes a text in this place for a number, by its settings.
    bool counts_as_number(const Where& where, const Node& node, const std::string& text);

    // "C12", "C12*2": where an argument comes from; empty for what is typed into the formula.
    std::string origin(const Where& where, const Node& node);

private:
    std::optional<Area> indexed(const Where& where, const Node& call);
    std::optional<Place> handed_on_by(const Place& cell);
    template <class Meant>
    bool each_operand_behind_first(const Where& where, const Node& node, Meant meant) const;
    bool is_condition(const Where& where, const Node& node) const;
    const Node& without_guards(const Where& where, const Node& node) const;
    std::string printed(const Where& where, const Node& node);

    Document document_;
    const OpCodes& codes_;
    FormulaReader reader_;
    Evaluator evaluator_;
    ErrorCells errors_;
};

} // namespace jarbook::menu
