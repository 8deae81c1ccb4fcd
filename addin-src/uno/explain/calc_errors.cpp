#include "uno/explain/calc_errors.hpp"

#include "texts/calc.hpp"

#include <algorithm>

namespace jarbook::menu {

namespace {

bool is_error_constant(const Node& node, const Formula& formula) {
    return node.kind == Node::Kind::constant && !formula.tokens[node.first].Data.hasValue();
}

bool holds_error_constant(const Node& node, const Formula& formula) {
    return is_error_constant(node, formula) ||
           std::any_of(node.children.begin(), node.children.end(),
                       [&](const Node& child) { return is_error_constant(child, formula); });
}

std::string about_text(std::string sentence, const std::string& from, const std::string& text) {
    const std::string value = value_text(text);
    const std::string hint = text_hint(text);
    if (from.empty())
        return finished(
            texts::calc::typed_text{.sentence = std::move(sentence), .value = value, .hint = hint}
                .text());
    return finished(texts::calc::operand_text{
        .sentence = std::move(sentence), .operand = from, .value = value, .hint = hint}
                        .text());
}

std::string about_divisor(std::string sentence, const std::string& from, const Value& divisor) {
    if (from.empty())
        return texts::calc::divisor{.sentence = std::move(sentence), .value = value_text(divisor)}
            .text();
    return texts::calc::operand{
        .sentence = std::move(sentence), .operand = from, .value = value_text(divisor)}
        .text();
}

} // namespace

Finding began_here(FormulaParts& parts, const FormulaParts::Where& where, const Node& node,
                   sal_Int32 code) {
    const OpCodes& codes = parts.codes();
    Finding finding{where.cell, Finding::Kind::error, "", "", "", "", code};
    if (node.kind == Node::Kind::unknown) {
        finding.value = node.text;
        finding.sentence = unknown_name(node.text, !node.children.empty());
        return finding;
    }
    if (holds_error_constant(node, where.formula)) {
        finding.sentence = texts::calc::written_in{.error = error_text(code)}.text();
        return finding;
    }
    finding.sentence = meaning_of(code);
    if (node.kind == Node::Kind::call)
        finding.sentence = texts::calc::gives{.function = codes.english(node.code),
                                              .error = error_text(code),
                                              .meaning = finding.sentence}
                               .text();
    // Point at the operand that is to blame, if one sticks out.
    for (const Node& child : node.children) {
        if (child.kind == Node::Kind::missing || (child.area && !parts.cell_meant(where, child)))
            continue;
        const Value operand = parts.value(where, child);
        const auto* text = std::get_if<std::string>(&operand);
        const auto* number = std::get_if<double>(&operand);
        const bool zero = std::holds_alternative<std::monostate>(operand) || (number && !*number);
        const bool divisor = node.kind == Node::Kind::call ||
                             (child.first > node.first &&
                              where.formula.tokens[child.first - 1].OpCode == codes.divide);
        const bool wrong_text = code == 519 && text;
        const bool wrong_divisor = code == 532 && zero && divisor;
        if (!wrong_text && !wrong_divisor)
            continue;
        const std::string from = parts.origin(where, child);
        if (const auto cell = parts.cell_behind(where, child))
            finding.input = parts.input_behind(*cell);
        finding.value = wrong_text ? *text : value_text(operand);
        finding.sentence = wrong_text ? about_text(finding.sentence, from, *text)
                                      : about_divisor(finding.sentence, from, operand);
        break;
    }
    return finding;
}

} // namespace jarbook::menu
