// A cell's formula as a tree over the office's own tokens.
//
// Named expressions are opened: their tokens stand in brackets in place of the name, so that what
// they hide is seen. References are made absolute (column, row and sheet), so that a part of the
// formula can be computed anywhere.
#pragma once

#include "opcodes.hpp"
#include "place.hpp"

#include <com/sun/star/sheet/FormulaToken.hpp>
#include <map>
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

class Formula {
public:
    Place home;
    Tokens tokens;
    Node root;
    std::optional<Area> array; // of a whole array formula
    bool calls_ours = false;   // openly or through a named expression
    // Uses functions whose result depends on the sheet that they stand on (INDIRECT, SHEET, …).
    bool bound_to_sheet = false;

    Tokens part(const Node& node) const;
};

// Reads formulas of one document; remembers its names.
class FormulaReader {
public:
    FormulaReader(const Document& document, const OpCodes& codes);

    // Nothing if the cell holds no formula. A cell of an array formula gives the whole formula.
    std::optional<Formula> read(const Place& place) const;
    // Whether the cell's formula calls a function of ours, openly or through a named expression.
    bool needs_extension(const com::sun::star::uno::Reference<com::sun::star::table::XCell>&) const;
    bool needs_extension(const com::sun::star::uno::Sequence<Token>& tokens) const;
    // The array formula that the cell is a part of.
    std::optional<Area> array_around(const Place& place) const;

    const Document& document() const { return document_; }
    const OpCodes& codes() const { return codes_; }

private:
    std::optional<com::sun::star::uno::Sequence<Token>> content(const Token& name) const;
    void append(const com::sun::star::uno::Sequence<Token>& from, const Place& home, int depth,
                Tokens& to) const;
    bool needs(const com::sun::star::uno::Sequence<Token>& tokens, int depth) const;

    Document document_;
    const OpCodes& codes_;
    // Contents of the names met so far: by sheet (-1: the document's) and index.
    mutable std::map<std::pair<sal_Int32, sal_Int32>,
                     std::optional<com::sun::star::uno::Sequence<Token>>>
        names_;
};

} // namespace jarbook::menu
