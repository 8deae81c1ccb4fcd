#include "uno/formula/formula.hpp"

#include "uno/formula/formula_tree.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/sheet/ComplexReference.hpp>
#include <com/sun/star/sheet/NameToken.hpp>
#include <com/sun/star/sheet/ReferenceFlags.hpp>
#include <com/sun/star/sheet/SingleReference.hpp>
#include <com/sun/star/sheet/XArrayFormulaTokens.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
namespace Flags = sheet::ReferenceFlags;

namespace {

// Names may refer to names; Calc itself refuses circles, this bound only keeps us from hanging.
constexpr int deepest_name = 32;
// A few names, each of which uses the next one twice, open into more tokens than memory has room
// for. Names beyond this are not opened, and then count as a whole.
constexpr std::size_t most_tokens = 100'000;

void make_absolute(sheet::SingleReference& reference, const Place& home) {
    if (reference.Flags & Flags::COLUMN_RELATIVE)
        reference.Column = home.column + reference.RelativeColumn;
    if (reference.Flags & Flags::ROW_RELATIVE)
        reference.Row = home.row + reference.RelativeRow;
    if (reference.Flags & Flags::SHEET_RELATIVE)
        reference.Sheet = home.sheet + reference.RelativeSheet;
    reference.RelativeColumn = reference.RelativeRow = reference.RelativeSheet = 0;
    const sal_Int32 deleted =
        reference.Flags & (Flags::COLUMN_DELETED | Flags::ROW_DELETED | Flags::SHEET_DELETED);
    reference.Flags = deleted | Flags::SHEET_3D;
}

void make_absolute(uno::Any& data, const Place& home) {
    sheet::SingleReference single;
    sheet::ComplexReference both;
    if (data >>= single) {
        make_absolute(single, home);
        data <<= single;
    } else if (data >>= both) {
        make_absolute(both.Reference1, home);
        make_absolute(both.Reference2, home);
        data <<= both;
    }
}

Token bare(sal_Int32 code) {
    return {code, uno::Any()};
}

} // namespace

bool is_ours(const Token& token, const OpCodes& codes) {
    if (token.OpCode != codes.external)
        return false;
    rtl::OUString name;
    return (token.Data >>= name) && name.startsWithIgnoreAsciiCase(service_prefix);
}

Tokens Formula::part(const Node& node) const {
    return {tokens.begin() + static_cast<std::ptrdiff_t>(node.first),
            tokens.begin() + static_cast<std::ptrdiff_t>(node.last)};
}

FormulaReader::FormulaReader(const Document& document, const OpCodes& codes)
    : document_(document), codes_(codes) {
    for (const char* name : {"INDIRECT", "SHEET", "SHEETS", "CELL", "FORMULA"})
        depend_on_sheet_.insert(codes.function(name));
    depend_on_sheet_.erase(-1);
}

bool FormulaReader::is_bound_to_sheet(const Tokens& tokens) const {
    return std::any_of(tokens.begin(), tokens.end(),
                       [&](const Token& token) { return depend_on_sheet_.contains(token.OpCode); });
}

const FormulaReader::Content* FormulaReader::content(const Token& token) const {
    sheet::NameToken which;
    if (!(token.Data >>= which))
        return nullptr;
    const sal_Int32 owner = which.Sheet >= 0 ? which.Sheet : -1;
    if (owners_met_.insert(owner).second) {
        uno::Reference<beans::XPropertySet> properties(document_, uno::UNO_QUERY_THROW);
        if (owner >= 0)
            properties.set(sheet_at(document_, owner), uno::UNO_QUERY_THROW);
        const uno::Reference<container::XEnumerationAccess> names(
            properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW);
        const auto all = names->createEnumeration();
        while (all->hasMoreElements()) {
            const uno::Reference<beans::XPropertySet> name(all->nextElement(),
                                                           uno::UNO_QUERY_THROW);
            sal_Int32 index = -1;
            if (!(name->getPropertyValue("TokenIndex") >>= index))
                continue;
            const uno::Reference<sheet::XFormulaTokens> tokens(name, uno::UNO_QUERY_THROW);
            names_.emplace(NameKey{owner, index}, tokens->getTokens());
        }
    }
    const auto known = names_.find({owner, which.Index});
    return known == names_.end() ? nullptr : &known->second;
}

void FormulaReader::append(const Content& from, const Place& home, int depth, Tokens& to) const {
    for (const Token& token : from) {
        if (token.OpCode == codes_.name && depth < deepest_name && to.size() < most_tokens) {
            if (const Content* hidden = content(token)) {
                to.push_back(bare(codes_.open));
                append(*hidden, home, depth + 1, to);
                to.push_back(bare(codes_.close));
                continue;
            }
        }
        to.push_back(token);
        if (token.OpCode == codes_.push)
            make_absolute(to.back().Data, home);
    }
}

std::optional<Area> FormulaReader::array_around(const Place& place) const {
    const auto cell = cell_at(document_, place);
    if (cell->getType() != table::CellContentType_FORMULA || !cell->getFormula().startsWith("{="))
        return std::nullopt;
    const auto sheet = sheet_at(document_, place.sheet);
    const uno::Reference<sheet::XSheetCellRange> range(range_at(document_, {place, place}),
                                                       uno::UNO_QUERY_THROW);
    const auto cursor = sheet->createCursorByRange(range);
    cursor->collapseToCurrentArray();
    const uno::Reference<sheet::XCellRangeAddressable> found(cursor, uno::UNO_QUERY_THROW);
    return area_of(found->getRangeAddress());
}

std::optional<Formula> FormulaReader::read(const Place& place) const {
    const auto cell = cell_at(document_, place);
    if (cell->getType() != table::CellContentType_FORMULA)
        return std::nullopt;
    Formula formula;
    formula.home = place;
    formula.array = array_around(place);
    if (formula.array) {
        // The tokens belong to the first cell; relative references count from there.
        formula.home = formula.array->first;
        const uno::Reference<sheet::XArrayFormulaTokens> array(range_at(document_, *formula.array),
                                                               uno::UNO_QUERY_THROW);
        append(array->getArrayTokens(), formula.home, 0, formula.tokens);
    } else {
        const uno::Reference<sheet::XFormulaTokens> single(cell, uno::UNO_QUERY_THROW);
        append(single->getTokens(), formula.home, 0, formula.tokens);
    }
    formula.root = tree(formula.tokens, codes_);
    formula.calls_ours = std::any_of(formula.tokens.begin(), formula.tokens.end(),
                                     [&](const Token& token) { return is_ours(token, codes_); });
    formula.bound_to_sheet = is_bound_to_sheet(formula.tokens);
    return formula;
}

bool FormulaReader::needs_extension(const Content& tokens) const {
    // A work list, with each name on it once: names may use each other in any number.
    std::vector<const Content*> open{&tokens};
    std::set<const Content*> met;
    while (!open.empty()) {
        const Content* next = open.back();
        open.pop_back();
        for (const Token& token : *next) {
            if (is_ours(token, codes_))
                return true;
            if (token.OpCode != codes_.name)
                continue;
            const Content* hidden = content(token);
            if (hidden && met.insert(hidden).second)
                open.push_back(hidden);
        }
    }
    return false;
}

bool FormulaReader::needs_extension(const uno::Reference<table::XCell>& cell) const {
    if (cell->getType() != table::CellContentType_FORMULA)
        return false;
    const uno::Reference<sheet::XFormulaTokens> tokens(cell, uno::UNO_QUERY_THROW);
    return needs_extension(tokens->getTokens());
}

} // namespace jarbook::menu
