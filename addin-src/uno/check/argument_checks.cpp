#include "uno/check/argument_checks.hpp"

#include "core/base/refusal.hpp"

#include <algorithm>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <cstdio>

namespace jarbook::menu {

using namespace com::sun::star;
using catalogue::Kind;

namespace {

// A jar may be read this much stronger than the one before without a word: half a division of a
// usual alcoholometer and half a degree of its thermometer, twice (common practice, no source).
constexpr double rise_without_a_word = 0.5; // % vol

// A temperature is far from the others if it is this far from their median, at the least, and also
// four of their own robust standard deviations.
constexpr double far_temperature = 5.0; // °C
constexpr double far_deviations = 4.0;
constexpr double deviation_of_mad = 1.4826; // normal distribution: standard deviation / MAD
constexpr std::size_t enough_temperatures = 4;

bool is_strength(const catalogue::Argument& argument) {
    // Tolerances have the plain unit.
    return argument.unit.starts_with("% vol at") || argument.unit.starts_with("% vol on");
}

bool is_measured_temperature(const catalogue::Argument& argument) {
    return argument.name == "temperature" || argument.name == "temperatures" ||
           argument.name == "volumeTemperatures";
}

// Functions whose lists are the jars in the order in which they ran.
bool in_run_order(const catalogue::Function& function) {
    for (const std::string_view method : {"cutNames", "cutTotal", "cutTable", "cutPoint", "stages"})
        if (function.method == method)
            return true;
    return false;
}

// For people: two decimals are more than any of the instruments has.
std::string figure(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.2f", value);
    return text;
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1)
        return *middle;
    return (*middle + *std::max_element(values.begin(), middle)) / 2.0;
}

bool is_blank(const Value& value) {
    const auto* text = std::get_if<std::string>(&value);
    return std::holds_alternative<std::monostate>(value) || (text && text->empty());
}

// The cells of an area that hold anything, in the order of the list.
std::vector<Place> filled(const Document& document, const Area& area) {
    std::vector<Place> cells;
    const uno::Reference<sheet::XCellRangesQuery> query(range_at(document, area),
                                                        uno::UNO_QUERY_THROW);
    namespace Flags = sheet::CellFlags;
    const auto found =
        query->queryContentCells(Flags::VALUE | Flags::DATETIME | Flags::STRING | Flags::FORMULA)
            ->getRangeAddresses();
    for (const auto& part : found)
        for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                cells.push_back({part.Sheet, c, r});
    std::sort(cells.begin(), cells.end());
    std::erase_if(cells,
                  [&](const Place& cell) { return is_blank(value_of(cell_at(document, cell))); });
    return cells;
}

} // namespace

OddArguments::OddArguments(const Document& document, Explainer& explainer)
    : document_(document), explainer_(explainer) {}

void OddArguments::add(Finding finding) {
    if (told_
            .emplace(finding.place, finding.kind, finding.argument,
                     finding.kind == Finding::Kind::empty ? finding.function : std::string())
            .second)
        findings_.push_back(std::move(finding));
}

void OddArguments::look_at(const Place& place) {
    const auto formula = explainer_.reader().read(place);
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
        const auto [choice, taken] = explainer_.branch(where, node);
        if (choice != Explainer::Choice::unknown) {
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
    const Area* volumes = nullptr;
    const Area* strengths = nullptr;
    const Area* cuts = nullptr;
    for (std::size_t i = 0; i < count; ++i) {
        const Node& given = node.children[i];
        const catalogue::Argument& argument = function.arguments[i];
        const bool is_list = argument.kind == Kind::list || argument.kind == Kind::words;
        is_list ? list(where, given, function, argument) : single(where, given, function, argument);
        if (!given.area)
            continue;
        if (argument.name == "volumes")
            volumes = &*given.area;
        if (argument.name == "strengths")
            strengths = &*given.area;
        if (argument.name == "cuts")
            cuts = &*given.area;
    }
    if (strengths && in_run_order(function))
        rising(where, *strengths, function);
    if (volumes && cuts)
        no_cut(where, *volumes, *cuts, function);
    if (function.method == "chargeCheck") {
        const Value caution = explainer_.value(where, node);
        const auto* text = std::get_if<std::string>(&caution);
        if (text && !text->empty())
            add({where.cell, Finding::Kind::odd, std::string(function.name), "", "", *text});
    }
}

void OddArguments::single(const Where& where, const Node& node, const catalogue::Function& function,
                          const catalogue::Argument& argument) {
    const std::string name(argument.name);
    const auto cell = explainer_.cell_meant(where, node);
    if (node.area && !node.area->single() && !where.element && is_mapped(argument)) {
        const std::string range = name_seen_from(document_, *node.area, where.cell.sheet);
        add({where.cell, Finding::Kind::odd, std::string(function.name), name, range,
             std::string(function.name) + ": " + name + " is the range " + range +
                 ", of which a plain formula takes only the cell in its own row or column, also "
                 "inside SUM or SUMPRODUCT. For all of them enter the formula as an array formula "
                 "(Ctrl+Shift+Enter)."});
        return;
    }
    if (!cell) {
        if (node.kind == Node::Kind::constant && is_strength(argument)) {
            const Value typed = explainer_.value(where, node);
            const auto* number = std::get_if<double>(&typed);
            if (number && *number > 0.0 && *number < 1.0)
                add({where.cell, Finding::Kind::odd, std::string(function.name), name,
                     number_text(*number),
                     std::string(function.name) + ": " + name + " is " + number_text(*number) +
                         " % vol, next to nothing; strengths are written 40, not 0.40."});
        }
        return;
    }
    const Value given = value_of(cell_at(document_, *cell));
    const std::string from = name_seen_from(document_, *cell, where.cell.sheet);
    if (std::holds_alternative<std::monostate>(given)) {
        add({where.cell, Finding::Kind::empty, std::string(function.name), name, "",
             std::string(function.name) + ": " + name + " refers to " + from +
                 ", which is empty and counts as 0."});
        return;
    }
    if (const auto* text = std::get_if<std::string>(&given);
        text && argument.kind == Kind::number && !text->empty()) {
        if (explainer_.counts_as_number(where, node, *text))
            add({*cell, Finding::Kind::odd, std::string(function.name), name, *text,
                 "The number " + *text +
                     " is kept as text here; sums pass over it. Type it again "
                     "into a cell that is not formatted as text."});
        return;
    }
    const auto* number = std::get_if<double>(&given);
    if (!number)
        return;
    if (is_strength(argument))
        percent(*cell, function, argument, *number);
    if (is_measured_temperature(argument))
        temperature(*cell, argument, *number, false);
}

void OddArguments::list(const Where& where, const Node& node, const catalogue::Function& function,
                        const catalogue::Argument& argument) {
    if (!node.area)
        return;
    const std::string name(argument.name);
    const auto cells = filled(document_, *node.area);
    if (cells.empty()) {
        const bool one = node.area->single();
        add({where.cell, Finding::Kind::empty, std::string(function.name), name, "",
             std::string(function.name) + ": " + name + " refers to " +
                 name_seen_from(document_, *node.area, where.cell.sheet) +
                 (one ? ", which is empty." : ", all of which is empty.")});
        return;
    }
    for (const Place& cell : cells) {
        const Value value = value_of(cell_at(document_, cell));
        const auto* number = std::get_if<double>(&value);
        if (!number)
            continue;
        if (is_strength(argument))
            percent(cell, function, argument, *number);
        if (is_measured_temperature(argument))
            temperature(cell, argument, *number, node.area->columns() > 1);
    }
}

void OddArguments::percent(const Place& cell, const catalogue::Function& function,
                           const catalogue::Argument& argument, double value) {
    const std::string name(argument.name);
    if (!fractions_.insert(cell).second)
        return; // told already, as an argument of another name
    if (is_percent(cell))
        add({cell, Finding::Kind::odd, std::string(function.name), name, number_text(value),
             "This " + name + " is formatted as per cent: the cell holds " + number_text(value) +
                 " and shows " + number_text(value * 100.0) +
                 " %. Strengths are plain numbers in % vol: 40, not 40 % (0.40)."});
    else if (value > 0.0 && value < 1.0 &&
             cell_at(document_, cell)->getType() == table::CellContentType_VALUE)
        add({cell, Finding::Kind::odd, std::string(function.name), name, number_text(value),
             "This " + name + " is " + number_text(value) +
                 " % vol, next to nothing; strengths are written 40, not 0.40."});
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
    std::optional<std::pair<Place, double>> before;
    for (const Place& cell : filled(document_, strengths)) {
        const Value value = value_of(cell_at(document_, cell));
        const auto* number = std::get_if<double>(&value);
        if (!number)
            continue;
        if (before && *number > before->second + rise_without_a_word)
            add({cell, Finding::Kind::odd, std::string(function.name), "strengths", figure(*number),
                 "The strength rises along the run: " + figure(*number) + " % vol after " +
                     figure(before->second) + " % vol in " +
                     name_seen_from(document_, before->first, where.cell.sheet) +
                     ". Look at both readings and temperatures."});
        before.emplace(cell, *number);
    }
}

void OddArguments::no_cut(const Where& where, const Area& volumes, const Area& cuts,
                          const catalogue::Function& function) {
    for (const Place& jar : filled(document_, volumes)) {
        const Value amount = value_of(cell_at(document_, jar));
        const auto* number = std::get_if<double>(&amount);
        if (number && *number == 0.0)
            continue;
        const Place cut{cuts.first.sheet,
                        cuts.first.column +
                            (cuts.columns() > 1 ? jar.column - volumes.first.column : 0),
                        cuts.first.row + (cuts.rows() > 1 ? jar.row - volumes.first.row : 0)};
        if (cuts.contains(cut) && is_blank(value_of(cell_at(document_, cut))))
            add({cut, Finding::Kind::odd, std::string(function.name), "cuts", "",
                 "The jar in " + name_seen_from(document_, jar, where.cell.sheet) +
                     " has no cut: choose foreshots, heads, hearts or tails."});
    }
}

void OddArguments::temperature(const Place& cell, const catalogue::Argument& argument, double value,
                               bool along_row) {
    temperatures_[{std::string(argument.name), cell.sheet, along_row,
                   along_row ? cell.row : cell.column}][cell] = value;
}

Findings OddArguments::findings() const {
    Findings result = findings_;
    std::set<Place> told; // a cell may be the temperature of several functions
    for (const auto& [key, cells] : temperatures_) {
        if (cells.size() < enough_temperatures)
            continue;
        std::vector<double> values;
        for (const auto& [cell, value] : cells)
            values.push_back(value);
        const double middle = median(values);
        for (double& value : values)
            value = std::fabs(value - middle);
        const double far =
            std::max(far_temperature, far_deviations * deviation_of_mad * median(values));
        for (const auto& [cell, value] : cells)
            if (std::fabs(value - middle) > far && told.insert(cell).second)
                result.push_back({cell, Finding::Kind::odd, "", std::get<0>(key),
                                  number_text(value),
                                  "A temperature of " + number_text(value) +
                                      " °C is far from the others beside it (their middle is " +
                                      figure(middle) + " °C). Is it read and typed right?"});
    }
    return result;
}

} // namespace jarbook::menu
