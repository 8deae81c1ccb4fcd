#include "uno/formula/evaluator.hpp"

#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XArrayFormulaTokens.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

uno::Sequence<Token> sequence(const Tokens& tokens) {
    return {tokens.data(), static_cast<sal_Int32>(tokens.size())};
}

} // namespace

const Value* Block::at(sal_Int32 row, sal_Int32 column) const {
    if (rows.empty())
        return nullptr;
    const auto r = static_cast<std::size_t>(rows.size() == 1 ? 0 : row);
    if (r >= rows.size())
        return nullptr;
    const auto c = static_cast<std::size_t>(rows[r].size() == 1 ? 0 : column);
    return c < rows[r].size() ? &rows[r][c] : nullptr;
}

Evaluator::Evaluator(const Context& context, const Document& document, const OpCodes& codes)
    : context_(context), document_(document), codes_(codes), bench_(context, document, codes) {}

const Document& Evaluator::whole() {
    if (!whole_) {
        whole_.emplace(HiddenDocument::copy_of(context_, document_));
        const auto sheets = whole_->document()->getSheets();
        rtl::OUString name("Jarbook scratch");
        while (sheets->hasByName(name))
            name += "_";
        const uno::Reference<container::XIndexAccess> all(sheets, uno::UNO_QUERY_THROW);
        whole_scratch_ = all->getCount();
        sheets->insertNewByName(name, static_cast<sal_Int16>(whole_scratch_));
    }
    return whole_->document();
}

Evaluator::Desk Evaluator::desk_for(const Tokens& tokens) {
    if (Bench::suffices(tokens, codes_))
        return {bench_.document(), Bench::scratch, bench_.laid_out(tokens)};
    const Document& copy = whole();
    return {copy, whole_scratch_, tokens};
}

Value Evaluator::scalar(const Formula& formula, const Tokens& tokens) {
    if (tokens.empty())
        return std::monostate{};
    if (formula.bound_to_sheet && !formula.array && !Bench::suffices(tokens, codes_))
        return in_own_cell(formula, tokens);
    const Desk desk = desk_for(tokens);
    const auto cell = cell_at(desk.document, {desk.scratch, formula.home.column, formula.home.row});
    const uno::Reference<sheet::XFormulaTokens> entry(cell, uno::UNO_QUERY_THROW);
    entry->setTokens(sequence(desk.tokens));
    const Value result = value_of(cell);
    cell->setFormula("");
    return result;
}

Value Evaluator::in_own_cell(const Formula& formula, const Tokens& tokens) {
    const auto cell = cell_at(whole(), formula.home);
    const uno::Reference<sheet::XFormulaTokens> entry(cell, uno::UNO_QUERY_THROW);
    const auto original = entry->getTokens();
    entry->setTokens(sequence(tokens));
    const Value result = value_of(cell);
    entry->setTokens(original);
    return result;
}

Tokens Evaluator::call(std::string_view function, const Tokens& inside) const {
    Tokens tokens{{codes_.function(function), uno::Any()}, {codes_.open, uno::Any()}};
    tokens.insert(tokens.end(), inside.begin(), inside.end());
    tokens.push_back({codes_.close, uno::Any()});
    return tokens;
}

namespace {

// Enters an array formula, reads it, takes it away.
Block computed(const uno::Reference<table::XCellRange>& range, sal_Int32 rows, sal_Int32 columns,
               const Tokens& tokens) {
    const uno::Reference<sheet::XArrayFormulaTokens> entry(range, uno::UNO_QUERY_THROW);
    entry->setArrayTokens(sequence(tokens));
    Block block;
    block.rows.resize(static_cast<std::size_t>(rows));
    for (sal_Int32 r = 0; r < rows; ++r)
        for (sal_Int32 c = 0; c < columns; ++c)
            block.rows[static_cast<std::size_t>(r)].push_back(
                value_of(range->getCellByPosition(c, r)));
    const uno::Reference<sheet::XArrayFormulaRange> formula(range, uno::UNO_QUERY_THROW);
    formula->setArrayFormula("");
    return block;
}

} // namespace

std::pair<sal_Int32, sal_Int32> Evaluator::size(const Formula& formula, const Tokens& tokens) {
    const Desk desk = desk_for(tokens);
    const Place place{desk.scratch, formula.home.column, formula.home.row};
    const auto count = [&](const char* function) {
        const Block block =
            computed(range_at(desk.document, {place, place}), 1, 1, call(function, desk.tokens));
        const auto* number = std::get_if<double>(&block.rows[0][0]);
        return number && *number >= 1 ? static_cast<sal_Int32>(*number) : 1;
    };
    return {count("ROWS"), count("COLUMNS")};
}

Block Evaluator::block(const Formula& formula, const Tokens& tokens, sal_Int32 rows,
                       sal_Int32 columns) {
    const auto own = size(formula, tokens);
    rows = std::min(rows, own.first);
    columns = std::min(columns, own.second);
    // From its own cell if there is room, for the sake of ROW() and COLUMN().
    const Desk desk = desk_for(tokens);
    const uno::Reference<table::XColumnRowRange> sheet(sheet_at(desk.document, desk.scratch),
                                                       uno::UNO_QUERY_THROW);
    const bool room = formula.home.row + rows <= sheet->getRows()->getCount() &&
                      formula.home.column + columns <= sheet->getColumns()->getCount();
    const sal_Int32 top = room ? formula.home.row : 0;
    const sal_Int32 left = room ? formula.home.column : 0;
    const Area area{{desk.scratch, left, top}, {desk.scratch, left + columns - 1, top + rows - 1}};
    return computed(range_at(desk.document, area), rows, columns, desk.tokens);
}

} // namespace jarbook::menu
