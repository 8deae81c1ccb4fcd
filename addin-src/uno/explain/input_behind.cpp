#include "uno/explain/formula_parts.hpp"

// From a computed cell to the box that was typed into: FormulaParts::input_behind.
namespace jarbook::menu {

namespace {

const Node& ungrouped(const Node& node) {
    const Node* inner = &node;
    while (inner->kind == Node::Kind::group)
        inner = &inner->children.front();
    return *inner;
}

} // namespace

// The operators of "a/b/c", by the operands behind them.
template <class Meant>
bool FormulaParts::each_operand_behind_first(const Where& where, const Node& node,
                                             Meant meant) const {
    if (node.kind != Node::Kind::operation || node.children.size() < 2 ||
        node.children.front().first != node.first)
        return false;
    for (std::size_t i = 1; i < node.children.size(); ++i) {
        const Node& operand = node.children[i];
        if (!meant(codes_.english(where.formula.tokens[operand.first - 1].OpCode), operand))
            return false;
    }
    return true;
}

bool FormulaParts::is_condition(const Where& where, const Node& node) const {
    if (node.kind == Node::Kind::group)
        return is_condition(where, node.children.front());
    const std::string name = codes_.english(node.code);
    if (node.kind == Node::Kind::call)
        return name == "AND" || name == "OR" || name == "NOT" || name == "ISNUMBER";
    return each_operand_behind_first(where, node, [](const std::string& with, const Node&) {
        return with == "=" || with == "<>" || with == "<" || with == ">" || with == "<=" ||
               with == ">=";
    });
}

// What a box counts with is "(INDEX(boxes;n)+correction)/(it lies in its range)", an error where it
// does not.
const Node& FormulaParts::without_guards(const Where& where, const Node& node) const {
    const Node& whole = ungrouped(node);
    if (!each_operand_behind_first(where, whole, [&](const std::string& with, const Node& by) {
            return with == "/" && is_condition(where, by);
        }))
        return whole;
    const Node& guarded = ungrouped(whole.children.front());
    const bool corrected = each_operand_behind_first(
        where, guarded, [](const std::string& with, const Node&) { return with == "+"; });
    return corrected ? guarded.children.front() : guarded;
}

std::optional<Place> FormulaParts::handed_on_by(const Place& cell) {
    const auto formula = reader_.read(cell);
    if (!formula || formula->array)
        return std::nullopt;
    const Where where{*formula, cell, {}};
    const Node* node = &formula->root;
    for (;;) {
        node = &without_guards(where, *node);
        const auto [choice, taken] = node->kind == Node::Kind::call && node->method.empty()
                                         ? branch(where, *node)
                                         : std::pair{Choice::unknown, nullptr};
        if (choice != Choice::one)
            break;
        node = taken;
    }
    return cell_behind(where, *node);
}

Place FormulaParts::input_behind(Place cell) {
    constexpr int most_steps = 32; // also the end of a circle
    for (int step = 0; step < most_steps; ++step) {
        const auto next = handed_on_by(cell);
        if (!next)
            break;
        cell = *next;
    }
    return cell;
}

} // namespace jarbook::menu
