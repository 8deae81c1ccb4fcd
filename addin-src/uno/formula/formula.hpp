// A cell's formula as a tree over the office's own tokens.
//
// Named expressions are opened: their tokens stand in brackets in place of the name, so that what
// they hide is seen. References are made absolute (column, row and sheet), so that a part of the
// formula can be computed anywhere.
#pragma once

#include "uno/formula/node.hpp"

#include <com/sun/star/sheet/FormulaToken.hpp>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace jarbook::menu {

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
    using Content = com::sun::star::uno::Sequence<Token>;
    using NameKey = std::pair<sal_Int32, sal_Int32>; // sheet (-1: the document's) and index

    bool is_bound_to_sheet(const Tokens& tokens) const;
    // What a name stands for; nullptr if it is none of this document.
    const Content* content(const Token& name) const;
    void append(const Content& from, const Place& home, int depth, Tokens& to) const;

    Document document_;
    const OpCodes& codes_;
    std::set<sal_Int32> depend_on_sheet_; // functions whose result depends on the sheet
    // Contents of the names, as far as their owners were met.
    mutable std::map<NameKey, Content> names_;
    mutable std::set<sal_Int32> owners_met_;
};

} // namespace jarbook::menu
