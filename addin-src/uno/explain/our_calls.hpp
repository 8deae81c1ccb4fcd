// Why a function of ours gave an error: what it was given, and what it said about it.
#pragma once

#include "catalogue.hpp"
#include "uno/explain/finding.hpp"
#include "uno/explain/formula_parts.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace jarbook::menu {

// The entry of one of our functions by its method's name; nullptr if there is none.
const catalogue::Function* catalogue_entry(const std::string& method);
// Whether it takes ranges and answers them row by row, each with its own error.
bool answers_row_by_row(const catalogue::Function& function);
// Whether Calc hands the argument over as one value, and so maps it in array formulas.
bool is_mapped(const catalogue::Argument& argument);

// What is wrong with a call.
struct CallFaults {
    Findings findings;
    std::vector<Area> lists; // hold errors, so that Calc did not call
    struct Part {            // an argument that passes an error on
        const Node* node;
        std::optional<std::pair<sal_Int32, sal_Int32>> element;
        sal_Int32 code;
    };
    std::vector<Part> parts;
    bool none() const { return findings.empty() && lists.empty() && parts.empty(); }
};

class OurCall {
public:
    OurCall(FormulaParts& parts, const FormulaParts::Where& where, const Node& call,
            const catalogue::Function& function, std::optional<std::uint64_t> reasons_before)
        : parts_(parts), where_(where), call_(call), function_(function),
          reasons_before_(reasons_before) {}

    // `code`: the error that it gives.
    CallFaults faults(sal_Int32 code);

private:
    void count_arguments(sal_Int32 code);
    // What keeps Calc from calling the function because of one argument.
    void look_at_argument(std::size_t index);
    // Errors inside a list: Calc then does not call the function at all.
    void look_at_list(const Node& node);
    // Calls the function once more and takes the reason that it keeps.
    Finding refusal(sal_Int32 code);
    // The call with single values in the place of what an array formula maps.
    Tokens element_call();
    // Adds the cell from which the refused argument comes.
    void add_origin(Finding& finding, std::optional<std::size_t> row);

    FormulaParts& parts_;
    const FormulaParts::Where& where_;
    const Node& call_;
    const catalogue::Function& function_;
    std::optional<std::uint64_t> reasons_before_; // of a call that has just been computed
    CallFaults faults_;
};

} // namespace jarbook::menu
