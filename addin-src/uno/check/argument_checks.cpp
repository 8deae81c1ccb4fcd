#include "uno/check/argument_checks.hpp"

#include "core/base/refusal.hpp"
#include "texts/check.hpp"
#include "uno/check/odd_values.hpp"
#include "uno/explain/our_calls.hpp"

#include <algorithm>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using catalogue::Kind;
using catalogue::Measure;

namespace {

bool is_blank(const Value& value) {
    const auto* text = std::get_if<std::string>(&value);
    return std::holds_alternative<std::monostate>(value) || (text && text->empty());
}

// The cells of an area that hold anything, in the order of the list.
std::vector<std::pair<Place, Value>> filled(const Document& document, const Area& area) {
    std::vector<std::pair<Place, Value>> cells;
    const uno::Reference<sheet::XCellRangesQuery> query(range_at(document, area),
                                                        uno::UNO_QUERY_THROW);
    namespace Flags = sheet::CellFlags;
    const auto found =
        query->queryContentCells(Flags::VALUE | Flags::DATETIME | Flags::STRING | Flags::FORMULA)
            ->getRangeAddresses();
    for (const auto& part : found)
        for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r) {
                const Place place{part.Sheet, c, r};
                Value value = value_of(cell_at(document, place));
                if (!is_blank(value))
                    cells.emplace_back(place, std::move(value));
            }
    std::sort(cells.begin(), cells.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    return cells;
}

bool is_empty(const Document& document, const Area& area) {
    return is_blank(value_of(cell_at(document, area.first))) && filled(document, area).empty();
}

} // namespace

OddArguments::OddArguments(FormulaParts& parts) : document_(parts.document()), parts_(parts) {}

void OddArguments::add(Finding finding) {
    if (found_
            .emplace(finding.place, finding.kind, finding.argument,
                     finding.kind == Finding::Kind::empty ? finding.function : std::string())
            .second)
        findings_.push_back(std::move(finding));
}

void OddArguments::look_at(const Place& place) {
    const auto formula = parts_.reader().read(place);
    if (!formula || !formula->calls_ours)
        return;
    Where where{*formula, place, {}};
    if (formula->array)
        where.element = {place.row - formula->array->first.row,
                         place.column - formula->array->first.column};
    walk(where, formula->root);
}

void OddArguments::walk(const Where& where, const Node& node) {
    if (node.kind == Node::Kind::call && node.method.empty() && !node.children.empty()) {
        const auto [choice, taken] = parts_.branch(where, node);
        if (choice != FormulaParts::Choice::unknown) {
            walk(where, node.children.front());
            if (taken && taken != &node.children.front())
                walk(where, *taken);
            return;
        }
    }
    if (const auto* function = node.method.empty() ? nullptr : catalogue_entry(node.method))
        call(where, node, *function);
    for (const Node& child : node.children)
        walk(where, child);
}

void OddArguments::call(const Where& where, const Node& node, const catalogue::Function& function) {
    const std::size_t count = std::min(node.children.size(), function.arguments.size());
    std::map<Measure, const Area*> lists;
    for (std::size_t i = 0; i < count; ++i) {
        const Node& given = node.children[i];
        const catalogue::Argument& argument = function.arguments[i];
        const bool is_list = argument.kind == Kind::list || argument.kind == Kind::rows ||
                             argument.kind == Kind::words;
        is_list ? list(where, given, function, argument) : single(where, given, function, argument);
        if (is_list && given.area && given.area->first.sheet == given.area->last.sheet)
            lists.try_emplace(argument.measures, &*given.area);
    }
    if (function.in_order && lists.contains(Measure::strength))
        rising(where, *lists[Measure::strength], function);
    if (lists.contains(Measure::amount) && lists.contains(Measure::cut))
        no_cut(where, *lists[Measure::amount], *lists[Measure::cut], function);
    if (function.method == "chargeCheck") {
        const Value caution = parts_.value(where, node);
        const auto* text = std::get_if<std::string>(&caution);
        if (text && !text->empty())
            add({where.cell, Finding::Kind::odd, std::string(function.name), "", "", *text});
    }
}

void OddArguments::typed(const Where& where, const Node& node, const catalogue::Function& function,
                         const catalogue::Argument& argument) {
    if (node.kind != Node::Kind::constant || argument.measures != Measure::strength)
        return;
    const Value value = parts_.value(where, node);
    const auto* number = std::get_if<double>(&value);
    if (!number || !is_fraction(*number))
        return;
    const std::string name(argument.name);
    add({where.cell, Finding::Kind::odd, std::string(function.name), name, number_text(*number),
         texts::check::fraction_typed{.function = std::string(function.name),
                                      .argument = name,
                                      .value = number_text(*number)}
             .text()});
}

void OddArguments::single(const Where& where, const Node& node, const catalogue::Function& function,
                          const catalogue::Argument& argument) {
    if (node.area && !node.area->single() && !where.element && is_mapped(argument)) {
        const std::string name(argument.name);
        const std::string range = name_seen_from(document_, *node.area, where.cell.sheet);
        add({where.cell, Finding::Kind::odd, std::string(function.name), name, range,
             texts::check::range_for_one{
                 .function = std::string(function.name), .argument = name, .range = range}
                 .text()});
        return;
    }
    if (const auto cell = parts_.cell_behind(where, node))
        single_cell(where, *cell, node, function, argument);
    else
        typed(where, node, function, argument);
}

void OddArguments::single_cell(const Where& where, const Place& cell, const Node& node,
                               const catalogue::Function& function,
                               const catalogue::Argument& argument) {
    const std::string name(argument.name);
    const std::string function_name(function.name);
    const Value given = value_of(cell_at(document_, cell));
    if (std::holds_alternative<std::monostate>(given)) {
        add({where.cell, Finding::Kind::empty, function_name, name, "",
             texts::check::empty_cell{.function = function_name,
                                      .argument = name,
                                      .cell = name_seen_from(document_, cell, where.cell.sheet)}
                 .text()});
        return;
    }
    if (const auto* text = std::get_if<std::string>(&given)) {
        if (argument.kind == Kind::number && !text->empty() &&
            parts_.counts_as_number(where, node, *text))
            add({cell, Finding::Kind::odd, function_name, name, *text,
                 texts::check::kept_as_text{.content = *text}.text()});
        return;
    }
    const auto* number = std::get_if<double>(&given);
    if (!number)
        return;
    if (argument.measures == Measure::strength)
        strength(cell, function, argument, *number);
    if (argument.measures == Measure::temperature)
        temperatures_[{cell.sheet, false, cell.column}][cell] = *number;
}

void OddArguments::list(const Where& where, const Node& node, const catalogue::Function& function,
                        const catalogue::Argument& argument) {
    if (!node.area || node.area->first.sheet != node.area->last.sheet)
        return;
    const Area& area = *node.area;
    const std::string name(argument.name);
    const std::string function_name(function.name);
    if (is_empty(document_, area)) {
        const std::string range = name_seen_from(document_, area, where.cell.sheet);
        add({where.cell, Finding::Kind::empty, function_name, name, "",
             area.single() ? texts::check::empty_list_cell{.function = function_name,
                                                           .argument = name,
                                                           .cell = range}
                                 .text()
                           : texts::check::empty_list{.function = function_name,
                                                      .argument = name,
                                                      .range = range}
                                 .text()});
        return;
    }
    if (argument.measures != Measure::strength && argument.measures != Measure::temperature)
        return;
    const bool along_row = area.columns() > 1;
    for (const Area& part : lists_[argument.measures].add(area))
        for (const auto& [cell, value] : filled(document_, part)) {
            const auto* number = std::get_if<double>(&value);
            if (!number)
                continue;
            if (argument.measures == Measure::strength)
                strength(cell, function, argument, *number);
            else
                temperatures_[{cell.sheet, along_row, along_row ? cell.row : cell.column}][cell] =
                    *number;
        }
}

void OddArguments::strength(const Place& cell, const catalogue::Function& function,
                            const catalogue::Argument& argument, double value) {
    if (!strengths_.insert(cell).second)
        return; // told already, as an argument of another name
    const std::string name(argument.name);
    if (is_percent(cell))
        add({cell, Finding::Kind::odd, std::string(function.name), name, number_text(value),
             texts::check::per_cent{
                 .argument = name, .value = number_text(value), .shown = number_text(value * 100.0)}
                 .text()});
    else if (is_fraction(value) &&
             cell_at(document_, cell)->getType() == table::CellContentType_VALUE)
        add({cell, Finding::Kind::odd, std::string(function.name), name, number_text(value),
             texts::check::fraction{.argument = name, .value = number_text(value)}.text()});
}

bool OddArguments::is_percent(const Place& cell) {
    const uno::Reference<beans::XPropertySet> properties(cell_at(document_, cell),
                                                         uno::UNO_QUERY_THROW);
    sal_Int32 key = 0;
    properties->getPropertyValue("NumberFormat") >>= key;
    const auto [known, fresh] = percent_formats_.try_emplace(key, false);
    if (fresh) {
        const uno::Reference<util::XNumberFormatsSupplier> supplier(document_,
                                                                    uno::UNO_QUERY_THROW);
        const auto format = supplier->getNumberFormats()->getByKey(key);
        sal_Int16 type = 0;
        format->getPropertyValue("Type") >>= type;
        known->second = type & util::NumberFormat::PERCENT;
    }
    return known->second;
}

void OddArguments::rising(const Where& where, const Area& strengths,
                          const catalogue::Function& function) {
    // A list that goes on where another ended is compared with the end of that.
    constexpr sal_Int32 overlap = 100;
    for (Area part : rising_.add(strengths)) {
        part.first.row = std::max(strengths.first.row, part.first.row - overlap);
        part.first.column = std::max(strengths.first.column, part.first.column - overlap);
        std::optional<std::pair<Place, double>> before;
        for (const auto& [cell, value] : filled(document_, part)) {
            const auto* number = std::get_if<double>(&value);
            if (!number)
                continue;
            if (before && *number > before->second + catalogue::strength_rise)
                add({cell, Finding::Kind::odd, std::string(function.name), "strengths",
                     figure_text(*number),
                     texts::check::rises{
                         .strength = figure_text(*number),
                         .before = figure_text(before->second),
                         .cell = name_seen_from(document_, before->first, where.cell.sheet)}
                         .text()});
            before.emplace(cell, *number);
        }
    }
}

void OddArguments::no_cut(const Where& where, const Area& amounts, const Area& cuts,
                          const catalogue::Function& function) {
    for (const Area& part : cuts_[{amounts.first, cuts.first}].add(amounts))
        for (const auto& [jar, amount] : filled(document_, part)) {
            const auto* number = std::get_if<double>(&amount);
            if (number && *number == 0.0)
                continue;
            const Place cut{cuts.first.sheet,
                            cuts.first.column +
                                (cuts.columns() > 1 ? jar.column - amounts.first.column : 0),
                            cuts.first.row + (cuts.rows() > 1 ? jar.row - amounts.first.row : 0)};
            if (cuts.contains(cut) && is_blank(value_of(cell_at(document_, cut))))
                add({cut, Finding::Kind::odd, std::string(function.name), "cuts", "",
                     texts::check::no_cut{.cell = name_seen_from(document_, jar, where.cell.sheet)}
                         .text()});
        }
}

Findings OddArguments::findings() const {
    Findings result = findings_;
    std::set<Place> told; // a cell may be the temperature of several functions
    for (const auto& [key, cells] : temperatures_) {
        std::vector<double> values;
        for (const auto& [cell, value] : cells)
            values.push_back(value);
        const auto middle = middle_of_many(std::move(values));
        if (!middle)
            continue;
        for (const auto& [cell, value] : cells)
            if (std::fabs(value - *middle) > catalogue::far_temperature && told.insert(cell).second)
                result.push_back({cell, Finding::Kind::odd, "", "temperature", number_text(value),
                                  texts::check::far_temperature{.value = number_text(value),
                                                                .middle = figure_text(*middle)}
                                      .text()});
    }
    return result;
}

} // namespace jarbook::menu
