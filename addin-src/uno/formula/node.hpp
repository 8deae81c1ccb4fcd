// A part of a formula: a node of its tree over the office's own tokens.
#pragma once

#include "uno/document/cell_address.hpp"
#include "uno/formula/opcodes.hpp"

#include <com/sun/star/sheet/FormulaToken.hpp>
#include <optional>
#include <string>
#include <vector>

namespace jarbook::menu {

using Token = com::sun::star::sheet::FormulaToken;
using Tokens = std::vector<Token>;

struct Node {
    enum class Kind {
        operation, // operands joined by operators; children: the operands
        call,      // a function; children: the arguments
        group,     // brackets; one child
        reference, // a cell or an area
        constant,  // a number, a text, an array, an error
        missing,   // an argument left out
        unknown,   // a name that the office does not know; children: arguments, if it is called
        other,     // what is computed as a whole: database areas, labels, external references
    };
    Kind kind = Kind::other;
    std::size_t first = 0; // tokens [first, last) of the formula
    std::size_t last = 0;
    sal_Int32 code = 0;       // of the function or the operand
    std::string method;       // of ours: "strength"; empty otherwise
    std::string text;         // of unknown: the name; of a constant text: the text
    std::optional<Area> area; // of a reference
    bool deleted = false;     // a reference whose cells were deleted
    std::vector<Node> children;
};

// What our functions are called in tokens, before the method.
inline constexpr char service_prefix[] = "org.jarbook.Spirit.";

// Whether a token calls a function of ours. Calc keeps the programmatic name where it knows the
// add-in.
bool is_ours(const Token& token, const OpCodes& codes);

} // namespace jarbook::menu
