// Follows an error to the cell where it began, and tells why it began there.
#pragma once

#include "catalogue.hpp"
#include "uno/explain/finding.hpp"
#include "uno/formula/evaluator.hpp"
#include "uno/formula/formula.hpp"

#include <optional>
#include <set>
#include <vector>

namespace jarbook::menu {

// Reads the document and leaves it alone; parts of formulas are computed elsewhere (see Evaluator).
class Explainer {
public:
    Explainer(const Context& context, const Document& document, const OpCodes& codes);

    // From this cell to where its errors began, in the order in which they are come upon; each cell
    // once in the life of this object. Empty if the cell shows no error.
    Findings explain(const Place& place);

    const FormulaReader& reader() const { return reader_; }
    Evaluator& evaluator() { return evaluator_; }

    // A formula, or the element of an array formula, that is being looked at. Parts of it are
    // computed alone, or as that element of an array.
    struct Where {
        const Formula& formula;
        Place cell;                                             // that shows the error
        std::optional<std::pair<sal_Int32, sal_Int32>> element; // row and column, from 0
    };

    // What a part of the formula gives.
    Value value(const Where& where, const Node& node);
    // "C12", "C12*2": where an argument comes from; empty for what is typed into the formula.
    std::string origin(const Where& where, const Node& node);
    // Whether Calc takes a text in this place for a number, by its settings.
    bool counts_as_number(const Where& where, const Node& node, const std::string& text);
    // The cell that a reference means here: a single cell, or the array's element of an area.
    std::optional<Place> cell_meant(const Where& where, const Node& node) const;
    // The branch that IF and its like take; nothing if that cannot be told or there is none.
    enum class Choice { unknown, none, one };
    std::pair<Choice, const Node*> branch(const Where& where, const Node& call);

private:
    void explain_cell(const Place& place, Findings& out);
    // Whether computing the cell again gives no error.
    bool is_stale(const Where& where);
    void explain_node(const Where& where, const Node& node, sal_Int32 code, Findings& out);
    // Operands or arguments that pass their error on.
    void explain_parts(const Where& where, const Node& node, sal_Int32 code, Findings& out);
    // Functions that compute their arguments as arrays even in a plain formula.
    bool computes_arrays(const Node& call) const;
    // Every element that is wrong in arguments that are computed as arrays.
    bool explain_elements(const Where& where, const Node& call, Findings& out);
    void explain_reference(const Where& where, const Node& node, sal_Int32 code, Findings& out);
    // The cell that INDEX takes out of what a function of ours gives.
    bool explain_taken(const Where& where, const Node& call, sal_Int32 code, Findings& out);
    bool explain_branch(const Where& where, const Node& call, sal_Int32 code, Findings& out);
    void follow(const Where& where, const Place& to, Findings& out);
    // The cells that INDIRECT, OFFSET or INDEX refer to.
    std::optional<Area> referred(const Where& where, const Node& call);
    std::vector<Place> error_cells(const Area& area, sal_Int32 code) const;
    sal_Int32 error_in(const Where& where, const Node& node);

    // explain_ours.cpp
    void explain_ours(const Where& where, const Node& call, sal_Int32 code, Findings& out);
    bool explain_argument(const Where& where, const Node& call, std::size_t index,
                          const catalogue::Function& function, Findings& out);
    bool explain_list(const Where& where, const Node& node, Findings& out);
    Finding captured(const Where& where, const Node& call, sal_Int32 code,
                     const catalogue::Function& function);
    Tokens element_call(const Where& where, const Node& call, const catalogue::Function& function);
    void add_origin(const Where& where, const Node& call, const catalogue::Function& function,
                    Finding& finding);

    // explain_calc.cpp
    Finding began_here(const Where& where, const Node& node, sal_Int32 code);
    std::string printed(const Where& where, const Node& node);

    Document document_;
    const OpCodes& codes_;
    FormulaReader reader_;
    Evaluator evaluator_;
    std::set<Place> visited_;
    std::vector<Place> path_; // from the cell asked about to the one being looked at
};

// The entry of one of our functions by its method's name; nullptr if there is none.
const catalogue::Function* catalogue_entry(const std::string& method);
// Whether Calc hands the argument over as one value, and so maps it in array formulas.
bool is_mapped(const catalogue::Argument& argument);

} // namespace jarbook::menu
