#include "uno/explain/our_calls.hpp"

#include "texts/explain.hpp"
#include "uno/explain/calc_errors.hpp"
#include "uno/explain/error_sentences.hpp"
#include "uno/functions/reason_log.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>

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

bool answers_row_by_row(const catalogue::Function& function) {
    return std::any_of(function.arguments.begin(), function.arguments.end(),
                       [](const auto& argument) { return argument.kind == Kind::rows; });
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

std::string arguments_text(std::size_t count) {
    return count == 1 ? std::string(texts::explain::one_argument)
                      : texts::explain::arguments{.count = std::to_string(count)}.text();
}

void references_in(const Node& node, std::vector<const Node*>& out) {
    if (node.area || node.deleted)
        out.push_back(&node);
    for (const Node& child : node.children)
        references_in(child, out);
}

} // namespace

CallFaults OurCall::faults(sal_Int32 code) {
    count_arguments(code);
    if (!faults_.none())
        return std::move(faults_);
    for (std::size_t i = 0; i < call_.children.size(); ++i)
        look_at_argument(i);
    if (faults_.none())
        faults_.findings.push_back(refusal(code));
    return std::move(faults_);
}

void OurCall::count_arguments(sal_Int32 code) {
    const auto needed = static_cast<std::size_t>(
        std::count_if(function_.arguments.begin(), function_.arguments.end(),
                      [](const auto& argument) { return !argument.optional; }));
    const std::size_t given = call_.children.size();
    if (given >= needed && given <= function_.arguments.size())
        return;
    const std::string name(function_.name);
    faults_.findings.push_back({where_.cell, Finding::Kind::error, name, "", std::to_string(given),
                                texts::explain::argument_count{.function = name,
                                                               .given = arguments_text(given),
                                                               .usage = usage(function_)}
                                    .text(),
                                code});
}

void OurCall::look_at_list(const Node& node) {
    if (node.kind == Node::Kind::missing || node.kind == Node::Kind::constant)
        return;
    std::vector<const Node*> references;
    references_in(node, references);
    bool found = false;
    for (const Node* reference : references) {
        if (reference->deleted) {
            faults_.findings.push_back(began_here(parts_, where_, *reference, 524));
            found = true;
        } else if (parts_.errors().first_code(*reference->area)) {
            faults_.lists.push_back(*reference->area);
            found = true;
        }
    }
    if (found || node.area)
        return;
    // A computed list: look at what it gives, element by element.
    const auto block = parts_.evaluator().block(where_.formula, node);
    for (std::size_t r = 0; r < block->rows.size(); ++r)
        for (std::size_t c = 0; c < block->rows[r].size(); ++c)
            if (const sal_Int32 code = error_of(block->rows[r][c])) {
                faults_.parts.push_back(
                    {&node, std::pair{static_cast<sal_Int32>(r), static_cast<sal_Int32>(c)}, code});
                return;
            }
}

void OurCall::look_at_argument(std::size_t index) {
    const Node& node = call_.children[index];
    const catalogue::Argument& argument = function_.arguments[index];
    if (!is_mapped(argument)) {
        look_at_list(node);
        return;
    }
    const std::string name(function_.name);
    const std::string argument_name(argument.name);
    const auto finding = [&](std::string value, std::string sentence) -> Finding& {
        faults_.findings.push_back({where_.cell, Finding::Kind::error, name, argument_name,
                                    std::move(value), finished(std::move(sentence)), 519});
        return faults_.findings.back();
    };
    const Value given = parts_.value(where_, node);
    if (const sal_Int32 code = error_of(given)) {
        const bool wide = node.area && !node.area->single();
        if (!wide || where_.element || parts_.errors().first_code(*node.area)) {
            faults_.parts.push_back({&node, where_.element, code});
            return;
        }
        const std::string range = parts_.origin(where_, node);
        finding(range, texts::explain::range_for_one{.function = name,
                                                     .argument = argument_name,
                                                     .range = range}
                           .text());
        return;
    }
    const auto* text = std::get_if<std::string>(&given);
    if (!text || argument.kind != Kind::number || parts_.counts_as_number(where_, node, *text))
        return;
    const std::string from = parts_.origin(where_, node);
    Finding& fault =
        from.empty()
            ? finding(*text, texts::explain::text_for_number{.function = name,
                                                             .argument = argument_name,
                                                             .value = value_text(given),
                                                             .hint = text_hint(*text)}
                                 .text())
            : finding(*text, texts::explain::text_for_number_from{.function = name,
                                                                  .argument = argument_name,
                                                                  .value = value_text(given),
                                                                  .cell = from,
                                                                  .hint = text_hint(*text)}
                                 .text());
    if (const auto cell = parts_.cell_behind(where_, node))
        fault.input = parts_.input_behind(*cell);
}

Tokens OurCall::element_call() {
    const OpCodes& codes = parts_.codes();
    Tokens tokens{where_.formula.tokens[call_.first], {codes.open, Any()}};
    for (std::size_t i = 0; i < call_.children.size(); ++i) {
        if (i > 0)
            tokens.push_back({codes.separator, Any()});
        const Node& node = call_.children[i];
        const bool by_row = function_.arguments[i].kind == Kind::rows;
        if (!is_mapped(function_.arguments[i]) && (!by_row || node.kind == Node::Kind::missing)) {
            const Tokens part = where_.formula.part(node);
            tokens.insert(tokens.end(), part.begin(), part.end());
            continue;
        }
        const Value given = parts_.value(where_, node);
        if (const auto* text = std::get_if<std::string>(&given))
            tokens.push_back({codes.push, Any(addin::ustring(*text))});
        else if (const auto* number = std::get_if<double>(&given))
            tokens.push_back({codes.push, Any(*number)});
        else if (by_row)
            tokens.push_back({codes.push, Any(rtl::OUString())}); // a blank is not 0 there
        else
            tokens.push_back({codes.push, Any(0.0)}); // an empty cell counts as 0
    }
    tokens.push_back({codes.close, Any()});
    return tokens;
}

void OurCall::add_origin(Finding& finding, std::optional<std::size_t> row) {
    const auto argument = std::find_if(function_.arguments.begin(), function_.arguments.end(),
                                       [&](const auto& a) { return a.name == finding.argument; });
    const auto index = static_cast<std::size_t>(argument - function_.arguments.begin());
    if (index >= call_.children.size())
        return;
    const Node& node = call_.children[index];
    std::optional<Place> cell;
    if (is_list(*argument)) {
        std::optional<Area> list = node.area;
        if (!list && node.kind == Node::Kind::call)
            list = parts_.referred(where_, node);
        if (!row || !list)
            return;
        cell = list->first;
        (list->columns() > 1 ? cell->column : cell->row) += static_cast<sal_Int32>(*row);
        if (!list->contains(*cell))
            return;
    } else {
        cell = parts_.cell_behind(where_, node);
    }
    if (!cell) {
        const std::string formula = parts_.origin(where_, node);
        if (!formula.empty())
            finding.sentence += texts::explain::computed_as{.formula = formula}.text();
        return;
    }
    const Place input = parts_.input_behind(*cell);
    finding.input = input;
    const std::string name = name_seen_from(parts_.document(), input, where_.cell.sheet);
    const bool empty = cell_at(parts_.document(), input)->getType() ==
                       com::sun::star::table::CellContentType_EMPTY;
    finding.sentence += empty ? texts::explain::look_at_empty{.cell = name}.text()
                              : texts::explain::look_at{.cell = name}.text();
}

Finding OurCall::refusal(sal_Int32 code) {
    if (!where_.element && answers_row_by_row(function_)) { // a plain cell shows the first row
        const FormulaParts::Where first{where_.formula, where_.cell, std::pair{0, 0}};
        return OurCall(parts_, first, call_, function_, {}).refusal(code);
    }
    const auto before = reasons_before_.value_or(addin::ReasonLog::get().added());
    if (!reasons_before_)
        parts_.evaluator().scalar(where_.formula,
                                  where_.element ? element_call() : where_.formula.part(call_));
    const auto reasons = addin::ReasonLog::get().since(before);
    // A reason for this cell of the result, or else for all of it.
    const auto logged_for = [&](const std::optional<addin::Part>& part) {
        return std::find_if(reasons.rbegin(), reasons.rend(), [&](const auto& logged) {
            return logged.function == function_.name && logged.part == part;
        });
    };
    auto reason = logged_for(where_.element.value_or(addin::Part{0, 0}));
    if (reason == reasons.rend())
        reason = logged_for(std::nullopt);
    const std::string name(function_.name);
    Finding finding{where_.cell, Finding::Kind::error, name, "", "", "", code};
    if (reason != reasons.rend()) {
        finding.argument = reason->argument;
        finding.value = reason->value;
        finding.sentence = finished(reason->sentence);
        add_origin(finding, reason->row);
        return finding;
    }
    std::string meaning = meaning_of(code);
    for (const auto& error : catalogue::errors())
        if (error.code == code)
            meaning = std::string(error.meaning) + " " + std::string(error.remedy);
    finding.sentence = texts::explain::our_error{.function = name, .meaning = meaning}.text();
    return finding;
}

} // namespace jarbook::menu
