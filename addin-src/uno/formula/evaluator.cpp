#include "uno/formula/evaluator.hpp"

#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XArrayFormulaTokens.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// Values of computed arrays that are kept; beyond it they are computed again.
constexpr std::size_t most_values_kept = 2'000'000;

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

Evaluator::Evaluator(const Context& context, const Document& document, const OpCodes& codes,
                     Progress& progress)
    : context_(context), document_(document), codes_(codes), progress_(progress),
      scratch_(context, document, codes) {}

const Document& Evaluator::whole_copy() {
    if (!whole_copy_) {
        whole_copy_.emplace(HiddenDocument::copy_of(context_, document_));
        const auto sheets = whole_copy_->document()->getSheets();
        rtl::OUString name("Jarbook scratch");
        while (sheets->hasByName(name))
            name += "_";
        const uno::Reference<container::XIndexAccess> all(sheets, uno::UNO_QUERY_THROW);
        entry_sheet_ = all->getCount();
        sheets->insertNewByName(name, static_cast<sal_Int16>(entry_sheet_));
        whole_copy_->only_compute();
    }
    return whole_copy_->document();
}

Evaluator::Workplace Evaluator::workplace_for(const Tokens& tokens) {
    if (scratch_.suffices(tokens))
        return {scratch_.document(), ScratchDocument::entry_sheet, scratch_.copied_for(tokens)};
    const Document& copy = whole_copy();
    return {copy, entry_sheet_, tokens};
}

Value Evaluator::scalar(const Formula& formula, const Tokens& tokens) {
    progress_.going_on();
    if (tokens.empty())
        return std::monostate{};
    if (formula.bound_to_sheet && !formula.array && !scratch_.suffices(tokens))
        return in_own_cell(formula, tokens);
    const Workplace at = workplace_for(tokens);
    const auto cell = cell_at(at.document, {at.sheet, formula.home.column, formula.home.row});
    const uno::Reference<sheet::XFormulaTokens> entry(cell, uno::UNO_QUERY_THROW);
    entry->setTokens(sequence(at.tokens));
    const Value result = value_of(cell);
    cell->setFormula("");
    return result;
}

Value Evaluator::in_own_cell(const Formula& formula, const Tokens& tokens) {
    const auto cell = cell_at(whole_copy(), formula.home);
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

// An array formula as long as this object lives.
class Entered {
public:
    Entered(const uno::Reference<table::XCellRange>& range, const Tokens& tokens) : range_(range) {
        const uno::Reference<sheet::XArrayFormulaTokens> entry(range, uno::UNO_QUERY_THROW);
        entry->setArrayTokens(sequence(tokens));
    }
    ~Entered() {
        try {
            const uno::Reference<sheet::XArrayFormulaRange> formula(range_, uno::UNO_QUERY_THROW);
            formula->setArrayFormula("");
        } catch (const uno::Exception&) {
            // The document is being closed.
        }
    }
    Entered(const Entered&) = delete;
    Entered& operator=(const Entered&) = delete;

private:
    uno::Reference<table::XCellRange> range_;
};

} // namespace

std::pair<sal_Int32, sal_Int32> Evaluator::size(const Formula& formula, const Tokens& tokens) {
    progress_.going_on();
    const Workplace at = workplace_for(tokens);
    const Place place{at.sheet, formula.home.column, formula.home.row};
    const auto cell = range_at(at.document, {place, place});
    const auto count = [&](const char* function) {
        const Entered entered(cell, call(function, at.tokens));
        const Value counted = value_of(cell->getCellByPosition(0, 0));
        const auto* number = std::get_if<double>(&counted);
        return number && *number >= 1 ? static_cast<sal_Int32>(*number) : 1;
    };
    return {count("ROWS"), count("COLUMNS")};
}

Block Evaluator::read(const Document& document, const Area& area) {
    Block block;
    block.rows.reserve(static_cast<std::size_t>(area.rows()));
    constexpr sal_Int32 at_once = 20000;
    const sal_Int32 step = std::max<sal_Int32>(1, at_once / area.columns());
    for (sal_Int32 top = area.first.row; top <= area.last.row; top += step) {
        progress_.going_on();
        const sal_Int32 bottom = std::min(area.last.row, top + step - 1);
        const auto range = range_at(document, {{area.first.sheet, area.first.column, top},
                                               {area.first.sheet, area.last.column, bottom}});
        const auto data =
            uno::Reference<sheet::XCellRangeData>(range, uno::UNO_QUERY_THROW)->getDataArray();
        for (sal_Int32 r = 0; r < data.getLength(); ++r) {
            std::vector<Value>& row = block.rows.emplace_back();
            row.reserve(static_cast<std::size_t>(data[r].getLength()));
            for (sal_Int32 c = 0; c < data[r].getLength(); ++c) {
                double number = 0.0;
                rtl::OUString text;
                if (data[r][c] >>= number)
                    row.emplace_back(number);
                else if (data[r][c] >>= text)
                    row.emplace_back(addin::utf8(text));
                else // which error it is only the cell tells
                    row.push_back(value_of(range->getCellByPosition(c, r)));
            }
        }
    }
    return block;
}

Block Evaluator::computed(const Formula& formula, const Tokens& tokens) {
    const auto [rows, columns] = size(formula, tokens);
    // From its own cell if there is space, for the sake of ROW() and COLUMN().
    const Workplace at = workplace_for(tokens);
    const uno::Reference<table::XColumnRowRange> sheet(sheet_at(at.document, at.sheet),
                                                       uno::UNO_QUERY_THROW);
    const bool space = formula.home.row + rows <= sheet->getRows()->getCount() &&
                       formula.home.column + columns <= sheet->getColumns()->getCount();
    const sal_Int32 top = space ? formula.home.row : 0;
    const sal_Int32 left = space ? formula.home.column : 0;
    const Area area{{at.sheet, left, top}, {at.sheet, left + columns - 1, top + rows - 1}};
    const Entered entered(range_at(at.document, area), at.tokens);
    return read(at.document, area);
}

std::shared_ptr<const Block> Evaluator::block(const Formula& formula, const Node& node) {
    const std::tuple key(formula.home, node.first, node.last);
    if (const auto known = blocks_.find(key); known != blocks_.end())
        return known->second;
    const auto fresh = std::make_shared<const Block>(computed(formula, formula.part(node)));
    const std::size_t values =
        fresh->rows.empty() ? 0 : fresh->rows.size() * fresh->rows.front().size();
    if (values_kept_ + values > most_values_kept) {
        blocks_.clear();
        values_kept_ = 0;
    }
    values_kept_ += values;
    blocks_.emplace(key, fresh);
    return fresh;
}

} // namespace jarbook::menu
