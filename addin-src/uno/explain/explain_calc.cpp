// Errors that began in the office's own functions and operators.
#include "uno/explain/explainer.hpp"

#include "uno/explain/error_sentences.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XFormulaParser.hpp>
#include <com/sun/star/table/CellAddress.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

std::string Explainer::printed(const Where& where, const Node& node) {
    const uno::Reference<lang::XMultiServiceFactory> factory(document_, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XFormulaParser> parser(
        factory->createInstance("com.sun.star.sheet.FormulaParser"), uno::UNO_QUERY_THROW);
    const Tokens tokens = where.formula.part(node);
    const table::CellAddress from(static_cast<sal_Int16>(where.cell.sheet), where.cell.column,
                                  where.cell.row);
    std::string text = addin::utf8(parser->printFormula(
        uno::Sequence<Token>(tokens.data(), static_cast<sal_Int32>(tokens.size())), from));
    // References were made absolute and got their sheet; nobody typed them so.
    std::string own(1, '$');
    own.append(sheet_name(document_, where.cell.sheet)).append(".");
    for (std::size_t at = text.find(own); at != std::string::npos; at = text.find(own))
        text.erase(at, own.size());
    std::erase(text, '$');
    return text;
}

std::string Explainer::origin(const Where& where, const Node& node) {
    if (const auto meant = cell_meant(where, node))
        return name_seen_from(document_, *meant, where.cell.sheet);
    if (node.area)
        return name_seen_from(document_, *node.area, where.cell.sheet);
    if (node.kind == Node::Kind::constant || node.kind == Node::Kind::missing)
        return "";
    return printed(where, node);
}

namespace {

bool is_error_constant(const Node& node, const Formula& formula) {
    return node.kind == Node::Kind::constant && !formula.tokens[node.first].Data.hasValue();
}

} // namespace

Finding Explainer::began_here(const Where& where, const Node& node, sal_Int32 code) {
    Finding finding{where.cell, Finding::Kind::error, "", "", "", "", code};
    if (node.kind == Node::Kind::unknown) {
        finding.value = node.text;
        finding.sentence = unknown_name(node.text, !node.children.empty());
        return finding;
    }
    finding.sentence = meaning_of(code);
    if (node.kind == Node::Kind::call)
        finding.sentence =
            codes_.english(node.code) + " gives " + error_text(code) + ". " + finding.sentence;
    if (is_error_constant(node, where.formula) ||
        std::any_of(node.children.begin(), node.children.end(),
                    [&](auto& child) { return is_error_constant(child, where.formula); })) {
        finding.sentence = "The error " + error_text(code) + " is written into the formula itself.";
        return finding;
    }
    // Point at the operand that is to blame, if one sticks out.
    for (std::size_t i = 0; i < node.children.size(); ++i) {
        const Node& child = node.children[i];
        if (child.kind == Node::Kind::missing || (child.area && !cell_meant(where, child)))
            continue;
        const Value operand = value(where, child);
        const std::string from = origin(where, child);
        const auto* text = std::get_if<std::string>(&operand);
        if (code == 519 && text) {
            finding.value = *text;
            finding.sentence += (from.empty() ? " It is " : " " + from + " is ") + shown(operand) +
                                ". " + text_hint(*text);
            break;
        }
        const auto* number = std::get_if<double>(&operand);
        const bool zero = std::holds_alternative<std::monostate>(operand) || (number && !*number);
        const bool divisor = node.kind == Node::Kind::call ||
                             (child.first > node.first &&
                              where.formula.tokens[child.first - 1].OpCode == codes_.divide);
        if (code == 532 && zero && divisor) {
            finding.value = shown(operand);
            finding.sentence +=
                (from.empty() ? " The divisor is " : " " + from + " is ") + shown(operand) + ".";
            break;
        }
    }
    return finding;
}

} // namespace jarbook::menu
