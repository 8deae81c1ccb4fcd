// Why a function of ours gave an error: what it was given, and what it said about it.
#include "uno/explain/explainer.hpp"

#include "uno/explain/error_sentences.hpp"
#include "uno/functions/reason_log.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <charconv>

namespace jarbook::menu {

using catalogue::Kind;
using com::sun::star::uno::Any;

const catalogue::Function* catalogue_entry(const std::string& method) {
    for (const auto& function : catalogue::functions())
        if (function.method == method)
            return &function;
    return nullptr;
}

bool is_mapped(const catalogue::Argument& argument) {
    return !argument.optional && (argument.kind == Kind::number || argument.kind == Kind::word);
}

namespace {

bool is_list(const catalogue::Argument& argument) {
    return argument.kind == Kind::list || argument.kind == Kind::words;
}

std::string usage(const catalogue::Function& function) {
    std::string text(function.name);
    text += "(";
    for (const auto& argument : function.arguments) {
        if (&argument != &function.arguments.front())
            text += "; ";
        text.append(argument.optional ? "[" : "").append(argument.name);
        text.append(argument.optional ? "]" : "");
    }
    return text + ")";
}

// The core counts rows of lists from 1 at the list's first cell and says "row 3 of strengths".
std::optional<sal_Int32> row_named(const std::string& sentence, std::string_view argument) {
    const std::string after = " of " + std::string(argument);
    for (std::size_t at = sentence.find("row "); at != std::string::npos;
         at = sentence.find("row ", at + 1)) {
        sal_Int32 row = 0;
        const char* const begin = sentence.data() + at + 4;
        const char* const end = sentence.data() + sentence.size();
        const auto [stop, trouble] = std::from_chars(begin, end, row);
        if (trouble == std::errc() && row > 0 &&
            std::string_view(stop, static_cast<std::size_t>(end - stop)).starts_with(after))
            return row - 1;
    }
    return std::nullopt;
}

void references_in(const Node& node, std::vector<const Node*>& out) {
    if (node.area)
        out.push_back(&node);
    for (const Node& child : node.children)
        references_in(child, out);
}

std::string finished(std::string sentence) {
    if (!sentence.empty() && std::string_view(".?!").find(sentence.back()) == std::string::npos)
        sentence += ".";
    return sentence;
}

} // namespace

// Errors inside a list: Calc then does not call the function at all.
bool Explainer::explain_list(const Where& where, const Node& node, Findings& out) {
    if (node.kind == Node::Kind::missing || node.kind == Node::Kind::constant)
        return false;
    std::vector<const Node*> references;
    references_in(node, references);
    bool found = false;
    for (const Node* reference : references) {
        if (reference->deleted) {
            out.push_back(began_here(where, *reference, 524));
            found = true;
            continue;
        }
        for (const Place& cell : error_cells(*reference->area, 0)) {
            follow(where, cell, out);
            found = true;
        }
    }
    if (found || node.area)
        return found;
    // A computed list: look at what it gives, element by element.
    const Tokens tokens = where.formula.part(node);
    const auto [rows, columns] = evaluator_.size(where.formula, tokens);
    const Block block = evaluator_.block(where.formula, tokens, rows, columns);
    for (sal_Int32 r = 0; r < rows; ++r)
        for (sal_Int32 c = 0; c < columns; ++c)
            if (const sal_Int32 code = block.at(r, c) ? error_of(*block.at(r, c)) : 0) {
                explain_node({where.formula, where.cell, std::pair{r, c}}, node, code, out);
                return true;
            }
    return false;
}

bool Explainer::counts_as_number(const Where& where, const Node& node, const std::string& text) {
    Tokens sum{{codes_.open, Any()}};
    if (where.element)
        sum.push_back({codes_.push, Any(addin::ustring(text))});
    else
        for (const Token& token : where.formula.part(node))
            sum.push_back(token);
    sum.insert(sum.end(),
               {{codes_.close, Any()}, {codes_.function("+"), Any()}, {codes_.push, Any(0.0)}});
    return !error_of(evaluator_.scalar(where.formula, sum));
}

// What keeps Calc from calling the function because of one argument.
bool Explainer::explain_argument(const Where& where, const Node& call, std::size_t index,
                                 const catalogue::Function& function, Findings& out) {
    const Node& node = call.children[index];
    const catalogue::Argument& argument = function.arguments[index];
    if (!is_mapped(argument))
        return explain_list(where, node, out);
    const Value given = value(where, node);
    const auto finding = [&](std::string shown_value, const std::string& sentence) {
        out.push_back({where.cell, Finding::Kind::error, std::string(function.name),
                       std::string(argument.name), std::move(shown_value),
                       std::string(function.name) + ": " + sentence, 519});
        return true;
    };
    if (const sal_Int32 code = error_of(given)) {
        const bool wide = node.area && !node.area->single();
        if (wide && !where.element && error_cells(*node.area, 0).empty())
            return finding(origin(where, node),
                           std::string(argument.name) + " is the range " + origin(where, node) +
                               "; one value is needed there. To have a result for every row, enter "
                               "the formula as an array formula (Ctrl+Shift+Enter).");
        explain_node(where, node, code, out);
        return true;
    }
    const auto* text = std::get_if<std::string>(&given);
    if (!text || argument.kind != Kind::number)
        return false;
    if (counts_as_number(where, node, *text))
        return false;
    const std::string from = origin(where, node);
    return finding(*text, std::string(argument.name) + " is " + shown(given) +
                              (from.empty() ? "" : " (" + from + ")") +
                              "; a number is needed there. " + text_hint(*text));
}

// The call with single values in the place of what an array formula maps.
Tokens Explainer::element_call(const Where& where, const Node& call,
                               const catalogue::Function& function) {
    Tokens tokens{where.formula.tokens[call.first], {codes_.open, Any()}};
    for (std::size_t i = 0; i < call.children.size(); ++i) {
        if (i > 0)
            tokens.push_back({codes_.separator, Any()});
        const Node& node = call.children[i];
        const bool mapped = i < function.arguments.size() && is_mapped(function.arguments[i]);
        if (!mapped) {
            const Tokens part = where.formula.part(node);
            tokens.insert(tokens.end(), part.begin(), part.end());
            continue;
        }
        const Value given = value(where, node);
        if (const auto* text = std::get_if<std::string>(&given))
            tokens.push_back({codes_.push, Any(addin::ustring(*text))});
        else if (const auto* number = std::get_if<double>(&given))
            tokens.push_back({codes_.push, Any(*number)});
        else
            tokens.push_back({codes_.push, Any(0.0)}); // an empty cell counts as 0
    }
    tokens.push_back({codes_.close, Any()});
    return tokens;
}

// Adds the cell from which the refused argument comes.
void Explainer::add_origin(const Where& where, const Node& call,
                           const catalogue::Function& function, Finding& finding) {
    const auto argument = std::find_if(function.arguments.begin(), function.arguments.end(),
                                       [&](const auto& a) { return a.name == finding.argument; });
    const auto index = static_cast<std::size_t>(argument - function.arguments.begin());
    if (index >= call.children.size())
        return;
    const Node& node = call.children[index];
    if (is_list(*argument)) {
        const auto row = row_named(finding.sentence, finding.argument);
        if (!row || !node.area)
            return;
        Place cell = node.area->first;
        (node.area->columns() > 1 ? cell.column : cell.row) += *row;
        finding.sentence += " Look at " + name_seen_from(document_, cell, where.cell.sheet) + ".";
        return;
    }
    const std::string from = origin(where, node);
    if (from.empty())
        return;
    const auto cell = cell_meant(where, node);
    const bool empty =
        cell && std::holds_alternative<std::monostate>(value_of(cell_at(document_, *cell)));
    if (cell)
        finding.sentence += " Look at " + from + (empty ? ", which is empty." : ".");
    else
        finding.sentence += " It is computed as " + from + ".";
}

Finding Explainer::captured(const Where& where, const Node& call, sal_Int32 code,
                            const catalogue::Function& function) {
    const Tokens tokens =
        where.element ? element_call(where, call, function) : where.formula.part(call);
    const auto mark = addin::ReasonLog::get().added();
    evaluator_.scalar(where.formula, tokens);
    const auto reasons = addin::ReasonLog::get().since(mark);
    // A reason for this cell of the result, or else for all of it.
    const auto logged_for = [&](const std::optional<addin::Part>& part) {
        return std::find_if(reasons.rbegin(), reasons.rend(), [&](const auto& logged) {
            return logged.function == function.name && logged.part == part;
        });
    };
    const addin::Part part = where.element.value_or(addin::Part{0, 0});
    auto reason = logged_for(part);
    if (reason == reasons.rend())
        reason = logged_for(std::nullopt);
    Finding finding{where.cell, Finding::Kind::error, std::string(function.name), "", "", "", code};
    if (reason != reasons.rend()) {
        finding.argument = reason->argument;
        finding.value = reason->value;
        finding.sentence = finished(reason->sentence);
        add_origin(where, call, function, finding);
        return finding;
    }
    finding.sentence = std::string(function.name) + ": ";
    for (const auto& error : catalogue::errors())
        if (error.code == code) {
            finding.sentence += std::string(error.meaning) + " " + std::string(error.remedy);
            return finding;
        }
    finding.sentence += meaning_of(code);
    return finding;
}

void Explainer::explain_ours(const Where& where, const Node& call, sal_Int32 code, Findings& out) {
    const catalogue::Function* function = catalogue_entry(call.method);
    if (!function) {
        explain_parts(where, call, code, out);
        return;
    }
    const auto needed = static_cast<std::size_t>(
        std::count_if(function->arguments.begin(), function->arguments.end(),
                      [](const auto& argument) { return !argument.optional; }));
    if (call.children.size() < needed || call.children.size() > function->arguments.size()) {
        out.push_back({where.cell, Finding::Kind::error, std::string(function->name), "",
                       std::to_string(call.children.size()),
                       std::string(function->name) + " was given " +
                           std::to_string(call.children.size()) +
                           (call.children.size() == 1 ? " argument" : " arguments") +
                           "; it is written " + usage(*function) + ".",
                       code});
        return;
    }
    bool found = false;
    for (std::size_t i = 0; i < call.children.size(); ++i)
        found = explain_argument(where, call, i, *function, out) || found;
    if (!found)
        out.push_back(captured(where, call, code, *function));
}

} // namespace jarbook::menu
