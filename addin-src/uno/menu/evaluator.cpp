#include "evaluator.hpp"

#include "arguments.hpp"
#include "refusal.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XArrayFormulaTokens.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/text/XTextRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

uno::Sequence<Token> sequence(const Tokens& tokens) {
    return {tokens.data(), static_cast<sal_Int32>(tokens.size())};
}

} // namespace

std::string error_text(sal_Int32 code) {
    switch (code) {
    case 503:
        return "#NUM!";
    case 519:
        return "#VALUE!";
    case 521:
        return "#NULL!";
    case 524:
        return "#REF!";
    case 525:
        return "#NAME?";
    case 532:
        return "#DIV/0!";
    case 32767:
        return "#N/A";
    }
    return "Err:" + std::to_string(code);
}

std::string shown(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return number_text(*number);
    if (const auto* text = std::get_if<std::string>(&value))
        return text->empty() ? "an empty text" : "the text \"" + *text + "\"";
    if (const auto* error = std::get_if<CellError>(&value))
        return error_text(error->code);
    return "empty";
}

Value value_of(const uno::Reference<table::XCell>& cell) {
    const auto text = [&] {
        const uno::Reference<text::XTextRange> range(cell, uno::UNO_QUERY_THROW);
        return addin::utf8(range->getString());
    };
    switch (cell->getType()) {
    case table::CellContentType_EMPTY:
        return std::monostate{};
    case table::CellContentType_VALUE:
        return cell->getValue();
    case table::CellContentType_TEXT:
        return text();
    default:
        break;
    }
    if (const sal_Int32 code = cell->getError())
        return CellError{code};
    const uno::Reference<beans::XPropertySet> properties(cell, uno::UNO_QUERY_THROW);
    sal_Int32 type = 0;
    properties->getPropertyValue("FormulaResultType2") >>= type;
    if (type == sheet::FormulaResult::STRING)
        return text();
    return cell->getValue();
}

const Value* Block::at(sal_Int32 row, sal_Int32 column) const {
    if (rows.empty())
        return nullptr;
    const auto r = static_cast<std::size_t>(rows.size() == 1 ? 0 : row);
    if (r >= rows.size())
        return nullptr;
    const auto c = static_cast<std::size_t>(rows[r].size() == 1 ? 0 : column);
    return c < rows[r].size() ? &rows[r][c] : nullptr;
}

Evaluator::Evaluator(const Document& copy, const OpCodes& codes) : copy_(copy), codes_(codes) {
    const auto sheets = copy_->getSheets();
    rtl::OUString name("Jarbook scratch");
    while (sheets->hasByName(name))
        name += "_";
    const uno::Reference<container::XIndexAccess> all(sheets, uno::UNO_QUERY_THROW);
    scratch_ = all->getCount();
    sheets->insertNewByName(name, static_cast<sal_Int16>(scratch_));
}

Value Evaluator::scalar(const Formula& formula, const Tokens& tokens) {
    if (tokens.empty())
        return std::monostate{};
    if (formula.bound_to_sheet && !formula.array)
        return in_own_cell(formula, tokens);
    const auto cell = cell_at(copy_, {scratch_, formula.home.column, formula.home.row});
    const uno::Reference<sheet::XFormulaTokens> entry(cell, uno::UNO_QUERY_THROW);
    entry->setTokens(sequence(tokens));
    const Value result = value_of(cell);
    cell->setFormula("");
    return result;
}

Value Evaluator::in_own_cell(const Formula& formula, const Tokens& tokens) {
    const auto cell = cell_at(copy_, formula.home);
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
    const auto count = [&](const char* function) {
        const auto range = range_at(copy_, {{scratch_, formula.home.column, formula.home.row},
                                            {scratch_, formula.home.column, formula.home.row}});
        const Block block = computed(range, 1, 1, call(function, tokens));
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
    const uno::Reference<table::XColumnRowRange> sheet(sheet_at(copy_, scratch_),
                                                       uno::UNO_QUERY_THROW);
    const bool room = formula.home.row + rows <= sheet->getRows()->getCount() &&
                      formula.home.column + columns <= sheet->getColumns()->getCount();
    const sal_Int32 top = room ? formula.home.row : 0;
    const sal_Int32 left = room ? formula.home.column : 0;
    const Area area{{scratch_, left, top}, {scratch_, left + columns - 1, top + rows - 1}};
    return computed(range_at(copy_, area), rows, columns, tokens);
}

} // namespace jarbook::menu
