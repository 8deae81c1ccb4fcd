#include "uno/explain/explainer.hpp"

#include <algorithm>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

Explainer::Explainer(const Context& context, const Document& document, const OpCodes& codes)
    : document_(document), codes_(codes), reader_(document, codes),
      evaluator_(context, document, codes) {}

Findings Explainer::explain(const Place& place) {
    Findings findings;
    explain_cell(place, findings);
    return findings;
}

void Explainer::explain_cell(const Place& place, Findings& out) {
    const sal_Int32 code = cell_at(document_, place)->getError();
    if (code == 0 || !visited_.insert(place).second)
        return;
    const auto formula = reader_.read(place);
    if (!formula)
        return;
    Where where{*formula, place, {}};
    if (formula->array) {
        const Place& first = formula->array->first;
        where.element = {place.row - first.row, place.column - first.column};
        const auto [rows, columns] = evaluator_.size(*formula, formula->tokens);
        const bool beyond = (rows > 1 && where.element->first >= rows) ||
                            (columns > 1 && where.element->second >= columns);
        if (code == 32767 && beyond) {
            const std::string size = std::to_string(rows) + (rows == 1 ? " row" : " rows") +
                                     " and " + std::to_string(columns) +
                                     (columns == 1 ? " column" : " columns");
            out.push_back({place, Finding::Kind::error, "", "", "",
                           "The array formula was entered over " +
                               name_seen_from(document_, *formula->array, place.sheet) +
                               ", but its result has only " + size +
                               "; this cell is beyond its end. Nothing is wrong with the result.",
                           code});
            return;
        }
    }
    if (is_stale(where)) {
        out.push_back({place, Finding::Kind::stale, "", "", "",
                       "The cell shows " + error_text(code) + ", but computed again it gives " +
                           shown(value(where, formula->root)) + ". Choose Recalculate everything.",
                       code});
        return;
    }
    path_.push_back(place);
    explain_node(where, formula->root, code, out);
    path_.pop_back();
}

bool Explainer::is_stale(const Where& where) {
    // The office does not hand out which error a formula holds as a constant.
    for (const Token& token : where.formula.tokens)
        if (token.OpCode == codes_.push && !token.Data.hasValue())
            return false;
    return error_of(value(where, where.formula.root)) == 0;
}

void Explainer::follow(const Where& where, const Place& to, Findings& out) {
    const sal_Int32 code = cell_at(document_, to)->getError();
    const auto met = std::find(path_.begin(), path_.end(), to);
    if (met != path_.end()) {
        std::string circle;
        for (auto cell = met; cell != path_.end(); ++cell)
            circle += name_seen_from(document_, *cell, where.cell.sheet) + " uses ";
        out.push_back({where.cell, Finding::Kind::error, "", "", "",
                       "The formulas depend on each other in a circle: " + circle +
                           name_seen_from(document_, to, where.cell.sheet) + ".",
                       code});
        return;
    }
    const std::string name = name_seen_from(document_, to, where.cell.sheet);
    out.push_back({where.cell, Finding::Kind::passed_on, "", "", "",
                   "It uses " + name + ", which shows " + error_text(code) + ".", code, to});
    explain_cell(to, out);
}

std::vector<Place> Explainer::error_cells(const Area& area, sal_Int32 code) const {
    std::vector<Place> all;
    std::vector<Place> same;
    for (sal_Int32 s = area.first.sheet; s <= area.last.sheet; ++s) {
        Area on_sheet = area;
        on_sheet.first.sheet = on_sheet.last.sheet = s;
        const uno::Reference<sheet::XCellRangesQuery> query(range_at(document_, on_sheet),
                                                            uno::UNO_QUERY_THROW);
        const auto found =
            query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddresses();
        for (const auto& part : found)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c) {
                    all.push_back({s, c, r});
                    if (cell_at(document_, all.back())->getError() == code)
                        same.push_back(all.back());
                }
    }
    return same.empty() ? all : same;
}

std::optional<Place> Explainer::cell_meant(const Where& where, const Node& node) const {
    if (node.kind == Node::Kind::group)
        return cell_meant(where, node.children.front());
    if (!node.area)
        return std::nullopt;
    if (node.area->single())
        return node.area->first;
    if (!where.element || node.area->first.sheet != node.area->last.sheet)
        return std::nullopt;
    const auto [row, column] = *where.element;
    const Place meant{node.area->first.sheet,
                      node.area->first.column + (node.area->columns() == 1 ? 0 : column),
                      node.area->first.row + (node.area->rows() == 1 ? 0 : row)};
    if (!node.area->contains(meant))
        return std::nullopt;
    return meant;
}

Value Explainer::value(const Where& where, const Node& node) {
    if (node.kind == Node::Kind::missing)
        return std::monostate{};
    if (node.kind == Node::Kind::unknown)
        return CellError{525};
    if (const auto meant = cell_meant(where, node))
        return value_of(cell_at(document_, *meant));
    if (!where.element)
        return evaluator_.scalar(where.formula, node);
    const auto [row, column] = *where.element;
    const Block block =
        evaluator_.block(where.formula, where.formula.part(node), row + 1, column + 1);
    const Value* found = block.at(row, column);
    return found ? *found : Value(CellError{32767});
}

// What a part passes on to the function or operator around it; 0 if nothing.
sal_Int32 Explainer::error_in(const Where& where, const Node& node) {
    if (node.kind == Node::Kind::missing)
        return 0;
    if (node.kind == Node::Kind::constant)
        return 0; // an error typed into the formula is told by began_here
    if (node.deleted)
        return 524;
    if (node.area && !node.area->single()) {
        const auto meant = cell_meant(where, node);
        if (meant)
            if (const sal_Int32 code = cell_at(document_, *meant)->getError())
                return code;
        const auto cells = error_cells(*node.area, 0);
        return cells.empty() ? 0 : cell_at(document_, cells.front())->getError();
    }
    return error_of(value(where, node));
}

void Explainer::explain_node(const Where& where, const Node& node, sal_Int32 code, Findings& out) {
    switch (node.kind) {
    case Node::Kind::reference:
        explain_reference(where, node, code, out);
        return;
    case Node::Kind::group:
        explain_node(where, node.children.front(), code, out);
        return;
    case Node::Kind::call:
        if (!node.method.empty())
            explain_ours(where, node, code, out);
        else if (const auto area = referred(where, node); area && !error_cells(*area, code).empty())
            for (const Place& cell : error_cells(*area, code))
                follow(where, cell, out);
        else if (!explain_taken(where, node, code, out) &&
                 !explain_branch(where, node, code, out) &&
                 !(computes_arrays(node) && explain_elements(where, node, out)))
            explain_parts(where, node, code, out);
        return;
    case Node::Kind::operation:
        explain_parts(where, node, code, out);
        return;
    default:
        out.push_back(began_here(where, node, code));
    }
}

std::optional<Area> Explainer::referred(const Where& where, const Node& call) {
    const std::string name = codes_.english(call.code);
    if (where.element || (name != "INDIRECT" && name != "OFFSET" && name != "INDEX"))
        return std::nullopt;
    // CELL tells the upper left corner; the size is asked for apart.
    Tokens question{{codes_.function("CELL"), uno::Any()},
                    {codes_.open, uno::Any()},
                    {codes_.push, uno::Any(rtl::OUString("ADDRESS"))},
                    {codes_.separator, uno::Any()}};
    const Tokens part = where.formula.part(call);
    question.insert(question.end(), part.begin(), part.end());
    question.push_back({codes_.close, uno::Any()});
    const Value told = evaluator_.scalar(where.formula, question);
    const auto* address = std::get_if<std::string>(&told);
    if (!address)
        return std::nullopt;
    auto area = area_named(document_, *address, where.cell.sheet);
    if (area) {
        const auto [rows, columns] = evaluator_.size(where.formula, part);
        area->last.row += rows - 1;
        area->last.column += columns - 1;
    }
    return area;
}

void Explainer::explain_reference(const Where& where, const Node& node, sal_Int32 code,
                                  Findings& out) {
    if (node.deleted || !node.area) {
        out.push_back(began_here(where, node, 524));
        return;
    }
    const auto meant = cell_meant(where, node);
    if (meant && cell_at(document_, *meant)->getError()) {
        follow(where, *meant, out);
        return;
    }
    const auto cells = error_cells(*node.area, code);
    for (const Place& cell : cells)
        follow(where, cell, out);
    if (cells.empty())
        out.push_back(began_here(where, node, code));
}

void Explainer::explain_parts(const Where& where, const Node& node, sal_Int32 code, Findings& out) {
    std::vector<std::pair<const Node*, sal_Int32>> wrong;
    for (const Node& child : node.children)
        if (const sal_Int32 passed = error_in(where, child))
            wrong.emplace_back(&child, passed);
    // Those with the same error are to blame; if there is none, whatever is wrong.
    const bool same =
        std::any_of(wrong.begin(), wrong.end(), [&](auto& part) { return part.second == code; });
    for (const auto& [child, passed] : wrong)
        if (!same || passed == code)
            explain_node(where, *child, passed, out);
    // In an array formula SUM and its like take all elements, not only this cell's.
    const bool elements = wrong.empty() && where.formula.array && node.kind == Node::Kind::call &&
                          explain_elements(where, node, out);
    if (wrong.empty() && !elements)
        out.push_back(began_here(where, node, code));
}

bool Explainer::explain_taken(const Where& where, const Node& call, sal_Int32 code, Findings& out) {
    const auto& arguments = call.children;
    if (where.element || codes_.english(call.code) != "INDEX" || arguments.size() < 2 ||
        arguments[0].method.empty())
        return false;
    const Tokens tokens = where.formula.part(arguments[0]);
    const auto [rows, columns] = evaluator_.size(where.formula, tokens);
    const auto number = [&](std::size_t index) {
        const Value given =
            index < arguments.size() ? value(where, arguments[index]) : Value(std::monostate{});
        const double* found = std::get_if<double>(&given);
        return found ? static_cast<sal_Int32>(*found) : 0;
    };
    std::pair<sal_Int32, sal_Int32> taken{number(1), number(2)};
    if (rows == 1 && arguments.size() == 2)
        taken = {1, taken.first};
    if (columns == 1 && taken.second == 0)
        taken.second = 1;
    const auto [row, column] = taken;
    if (row < 1 || row > rows || column < 1 || column > columns)
        return false;
    const Block block = evaluator_.block(where.formula, tokens, rows, columns);
    const Value* element = block.at(row - 1, column - 1);
    if (!element || error_of(*element) != code)
        return false;
    explain_node({where.formula, where.cell, std::pair{row - 1, column - 1}}, arguments[0], code,
                 out);
    return true;
}

std::pair<Explainer::Choice, const Node*> Explainer::branch(const Where& where, const Node& call) {
    const std::string name = codes_.english(call.code);
    const auto& arguments = call.children;
    const auto at = [&](std::size_t index) -> std::pair<Choice, const Node*> {
        if (index >= arguments.size() || arguments[index].kind == Node::Kind::missing)
            return {Choice::none, nullptr};
        return {Choice::one, &arguments[index]};
    };
    if (arguments.empty())
        return {Choice::unknown, nullptr};
    if (name == "IF" || name == "CHOOSE") {
        const Value condition = value(where, arguments[0]);
        if (error_of(condition))
            return {Choice::one, &arguments[0]};
        const double* number = std::get_if<double>(&condition);
        const double which = number ? *number : 0.0;
        if (name == "IF")
            return at(which != 0.0 ? 1 : 2);
        return which >= 1 ? at(static_cast<std::size_t>(which)) : at(arguments.size());
    }
    if (name == "IFERROR" || name == "IFNA") {
        const sal_Int32 code = error_of(value(where, arguments[0]));
        return at(code != 0 && (name == "IFERROR" || code == 32767) ? 1 : 0);
    }
    if (name == "IFS") {
        for (std::size_t i = 0; i + 1 < arguments.size(); i += 2) {
            const Value condition = value(where, arguments[i]);
            if (error_of(condition))
                return {Choice::one, &arguments[i]};
            const double* number = std::get_if<double>(&condition);
            if (number && *number != 0.0)
                return at(i + 1);
        }
        return {Choice::none, nullptr};
    }
    return {Choice::unknown, nullptr};
}

bool Explainer::explain_branch(const Where& where, const Node& call, sal_Int32 code,
                               Findings& out) {
    const auto [choice, taken] = branch(where, call);
    if (choice != Choice::one || error_in(where, *taken) == 0)
        return false;
    explain_node(where, *taken, code, out);
    return true;
}

bool Explainer::computes_arrays(const Node& call) const {
    static constexpr std::string_view names[] = {
        "SUMPRODUCT", "MMULT", "TRANSPOSE", "LOOKUP",   "FREQUENCY", "LINEST",
        "LOGEST",     "TREND", "GROWTH",    "CORREL",   "SLOPE",     "INTERCEPT",
        "RSQ",        "STEYX", "SUMXMY2",   "SUMX2MY2", "SUMX2PY2",  "FORECAST"};
    return std::find(std::begin(names), std::end(names), codes_.english(call.code)) !=
           std::end(names);
}

namespace {
bool calls_ours(const Node& node) {
    return !node.method.empty() ||
           std::any_of(node.children.begin(), node.children.end(), calls_ours);
}
} // namespace

bool Explainer::explain_elements(const Where& where, const Node& call, Findings& out) {
    bool found = false;
    for (const Node& child : call.children) {
        if (child.kind != Node::Kind::call && child.kind != Node::Kind::operation &&
            child.kind != Node::Kind::group)
            continue;
        // Calc does not hand an array's rows to an add-in one by one, but in an array formula.
        if (!where.formula.array && calls_ours(child))
            continue;
        const Tokens tokens = where.formula.part(child);
        const auto [rows, columns] = evaluator_.size(where.formula, tokens);
        const Block block = evaluator_.block(where.formula, tokens, rows, columns);
        for (sal_Int32 r = 0; r < rows; ++r)
            for (sal_Int32 c = 0; c < columns; ++c) {
                const Value* element = block.at(r, c);
                const sal_Int32 code = element ? error_of(*element) : 0;
                if (!code)
                    continue;
                found = true;
                explain_node({where.formula, where.cell, std::pair{r, c}}, child, code, out);
            }
    }
    return found;
}

} // namespace jarbook::menu
