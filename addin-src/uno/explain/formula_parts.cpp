#include "uno/explain/formula_parts.hpp"

#include "uno/explain/formula_text.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <cmath>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XFormulaParser.hpp>
#include <com/sun/star/table/CellAddress.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

FormulaParts::FormulaParts(const Context& context, const Document& document, const OpCodes& codes,
                           Progress& progress)
    : document_(document), codes_(codes), reader_(document, codes),
      evaluator_(context, document, codes, progress), errors_(document) {}

std::optional<Place> FormulaParts::cell_meant(const Where& where, const Node& node) const {
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

std::optional<Place> FormulaParts::cell_behind(const Where& where, const Node& node) {
    if (node.kind == Node::Kind::group)
        return cell_behind(where, node.children.front());
    if (const auto meant = cell_meant(where, node))
        return meant;
    if (node.kind != Node::Kind::call || !node.method.empty())
        return std::nullopt;
    if (const auto area = referred(where, node))
        return area->single() ? std::optional(area->first) : std::nullopt;
    const auto [choice, taken] = branch(where, node);
    return choice == Choice::one ? cell_behind(where, *taken) : std::nullopt;
}

Value FormulaParts::value(const Where& where, const Node& node) {
    if (node.kind == Node::Kind::missing)
        return std::monostate{};
    if (node.kind == Node::Kind::unknown)
        return CellError{525};
    if (const auto meant = cell_meant(where, node))
        return value_of(cell_at(document_, *meant));
    if (node.kind == Node::Kind::constant) {
        const uno::Any& typed = where.formula.tokens[node.first].Data;
        double number = 0.0;
        if (typed >>= number)
            return number;
        if (typed.getValueTypeClass() == uno::TypeClass_STRING)
            return node.text;
    }
    if (!where.element)
        return evaluator_.scalar(where.formula, node);
    const auto [row, column] = *where.element;
    const auto block = evaluator_.block(where.formula, node);
    const Value* found = block->at(row, column);
    return found ? *found : Value(CellError{32767});
}

sal_Int32 FormulaParts::error_in(const Where& where, const Node& node) {
    // An error that is typed into the formula began there, and is not passed on.
    if (node.kind == Node::Kind::missing || node.kind == Node::Kind::constant)
        return 0;
    if (node.deleted)
        return 524;
    if (node.area) {
        const auto meant = cell_meant(where, node);
        if (meant || node.area->single())
            if (const sal_Int32 code = errors_.code(meant.value_or(node.area->first)))
                return code;
        return node.area->single() ? 0 : errors_.first_code(*node.area);
    }
    return error_of(value(where, node));
}

namespace {

std::optional<sal_Int32> whole_number(const Value& value) {
    if (std::holds_alternative<std::monostate>(value))
        return 0;
    const auto* number = std::get_if<double>(&value);
    if (!number || !(*number >= 0.0) || *number > 2e6)
        return std::nullopt;
    return static_cast<sal_Int32>(std::floor(*number));
}

} // namespace

// INDEX of an area that is named: found without asking Calc for an address.
std::optional<Area> FormulaParts::indexed(const Where& where, const Node& call) {
    const auto& arguments = call.children;
    if (arguments.size() < 2 || arguments.size() > 3 || !arguments[0].area)
        return std::nullopt;
    const Area& area = *arguments[0].area;
    auto row = whole_number(value(where, arguments[1]));
    auto column = arguments.size() > 2 ? whole_number(value(where, arguments[2])) : 0;
    if (!row || !column || area.first.sheet != area.last.sheet)
        return std::nullopt;
    if (arguments.size() == 2 && area.rows() == 1)
        std::swap(row, column);
    if (*row > area.rows() || *column > area.columns())
        return std::nullopt;
    Area found = area;
    if (*row > 0)
        found.first.row = found.last.row = area.first.row + *row - 1;
    if (*column > 0)
        found.first.column = found.last.column = area.first.column + *column - 1;
    return found;
}

std::optional<Area> FormulaParts::referred(const Where& where, const Node& call) {
    const std::string name = codes_.english(call.code);
    if (name == "INDEX" && !call.children.empty() && call.children[0].area)
        return indexed(where, call);
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
    const Value answer = evaluator_.scalar(where.formula, question);
    const auto* address = std::get_if<std::string>(&answer);
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

std::pair<FormulaParts::Choice, const Node*> FormulaParts::branch(const Where& where,
                                                                  const Node& call) {
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
        return which >= 1 && which < static_cast<double>(arguments.size())
                   ? at(static_cast<std::size_t>(which))
                   : at(arguments.size());
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

bool FormulaParts::counts_as_number(const Where& where, const Node& node, const std::string& text) {
    Tokens sum{{codes_.open, uno::Any()}};
    if (where.element)
        sum.push_back({codes_.push, uno::Any(addin::ustring(text))});
    else
        for (const Token& token : where.formula.part(node))
            sum.push_back(token);
    sum.insert(sum.end(), {{codes_.close, uno::Any()},
                           {codes_.function("+"), uno::Any()},
                           {codes_.push, uno::Any(0.0)}});
    return !error_of(evaluator_.scalar(where.formula, sum));
}

std::string FormulaParts::printed(const Where& where, const Node& node) {
    const uno::Reference<lang::XMultiServiceFactory> factory(document_, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XFormulaParser> parser(
        factory->createInstance("com.sun.star.sheet.FormulaParser"), uno::UNO_QUERY_THROW);
    const Tokens tokens = where.formula.part(node);
    const table::CellAddress from(static_cast<sal_Int16>(where.cell.sheet), where.cell.column,
                                  where.cell.row);
    const std::string text = addin::utf8(parser->printFormula(
        uno::Sequence<Token>(tokens.data(), static_cast<sal_Int32>(tokens.size())), from));
    // References were made absolute and got their sheet; nobody typed them so.
    return as_typed(text, sheet_name(document_, where.cell.sheet));
}

std::string FormulaParts::origin(const Where& where, const Node& node) {
    if (const auto cell = cell_behind(where, node))
        return name_seen_from(document_, *cell, where.cell.sheet);
    if (node.area)
        return name_seen_from(document_, *node.area, where.cell.sheet);
    if (node.kind == Node::Kind::constant || node.kind == Node::Kind::missing)
        return "";
    return printed(where, node);
}

} // namespace jarbook::menu
