#include "uno/explain/cell_explainer.hpp"

#include "texts/explain.hpp"
#include "uno/explain/calc_errors.hpp"
#include "uno/explain/our_calls.hpp"
#include "uno/functions/reason_log.hpp"

#include <algorithm>

namespace jarbook::menu {

namespace {

// Cells of one area that are followed, and values of one array that are explained: beyond it they
// are alike to a person who has to correct the first.
constexpr std::size_t most_followed = 32;
constexpr std::size_t most_elements = 8;

// Functions that compute their arguments as arrays even in a plain formula.
bool computes_arrays(const std::string& function) {
    static constexpr std::string_view names[] = {
        "SUMPRODUCT", "MMULT", "TRANSPOSE", "LOOKUP",   "FREQUENCY", "LINEST",
        "LOGEST",     "TREND", "GROWTH",    "CORREL",   "SLOPE",     "INTERCEPT",
        "RSQ",        "STEYX", "SUMXMY2",   "SUMX2MY2", "SUMX2PY2",  "FORECAST"};
    return std::find(std::begin(names), std::end(names), function) != std::end(names);
}

bool calls_ours(const Node& node) {
    return !node.method.empty() ||
           std::any_of(node.children.begin(), node.children.end(), calls_ours);
}

std::string rows_text(sal_Int32 rows) {
    return rows == 1 ? std::string(texts::explain::one_row)
                     : texts::explain::rows{.count = std::to_string(rows)}.text();
}

std::string columns_text(sal_Int32 columns) {
    return columns == 1 ? std::string(texts::explain::one_column)
                        : texts::explain::columns{.count = std::to_string(columns)}.text();
}

} // namespace

Explanation CellExplainer::explain(const Place& place) {
    result_ = {};
    reasons_before_.reset();
    const sal_Int32 code = parts_.errors().code(place);
    const auto formula = parts_.reader().read(place);
    if (!formula) {
        result_.findings.push_back(
            {place, Finding::Kind::error, "", "", "", meaning_of(code), code});
        return std::move(result_);
    }
    Where where{*formula, place, {}};
    if (formula->array) {
        const Place& first = formula->array->first;
        where.element = {place.row - first.row, place.column - first.column};
    }
    if (is_beyond_array(where, code))
        return std::move(result_);
    if (is_stale(where, code)) {
        result_.findings.push_back(
            {place, Finding::Kind::stale, "", "", "",
             texts::explain::stale{.error = error_text(code),
                                   .value = value_text(parts_.value(where, formula->root))}
                 .text(),
             code});
        return std::move(result_);
    }
    node(where, formula->root, code);
    return std::move(result_);
}

bool CellExplainer::is_beyond_array(const Where& where, sal_Int32 code) {
    if (!where.element || code != 32767)
        return false;
    const auto block = parts_.evaluator().block(where.formula, where.formula.root);
    const auto rows = static_cast<sal_Int32>(block->rows.size());
    const auto columns = static_cast<sal_Int32>(rows == 0 ? 0 : block->rows.front().size());
    const bool beyond = (rows > 1 && where.element->first >= rows) ||
                        (columns > 1 && where.element->second >= columns);
    if (beyond)
        result_.findings.push_back(
            {where.cell, Finding::Kind::error, "", "", "",
             texts::explain::array_end{
                 .range = name_seen_from(parts_.document(), *where.formula.array, where.cell.sheet),
                 .rows = rows_text(rows),
                 .columns = columns_text(columns)}
                 .text(),
             code});
    return beyond;
}

bool CellExplainer::is_stale(const Where& where, sal_Int32 code) {
    // The office does not hand out which error a formula holds as a constant.
    for (const Token& token : where.formula.tokens)
        if (token.OpCode == parts_.codes().push && !token.Data.hasValue())
            return false;
    // An operator passes on the error of a cell beside it: no need to compute.
    const Node& root = where.formula.root;
    if (root.kind == Node::Kind::operation || root.kind == Node::Kind::reference) {
        const auto shows_it = [&](const Node& part) {
            const auto cell = parts_.cell_meant(where, part);
            return cell && parts_.errors().code(*cell) == code;
        };
        if (shows_it(root) || std::any_of(root.children.begin(), root.children.end(), shows_it))
            return false;
    }
    reasons_before_ = addin::ReasonLog::get().added();
    return error_of(parts_.value(where, root)) == 0;
}

void CellExplainer::add_sources(const Area& area, sal_Int32 code) {
    for (const Place& cell : parts_.errors().in(area, code, most_followed))
        result_.sources.push_back(cell);
}

void CellExplainer::node(const Where& where, const Node& part, sal_Int32 code) {
    switch (part.kind) {
    case Node::Kind::reference:
        reference(where, part, code);
        return;
    case Node::Kind::group:
        node(where, part.children.front(), code);
        return;
    case Node::Kind::call:
        call(where, part, code);
        return;
    case Node::Kind::operation:
        parts(where, part, code);
        return;
    default:
        result_.findings.push_back(began_here(parts_, where, part, code));
    }
}

void CellExplainer::call(const Where& where, const Node& call, sal_Int32 code) {
    if (!call.method.empty()) {
        our_call(where, call, code);
        return;
    }
    if (const auto area = parts_.referred(where, call); area && parts_.errors().first_code(*area)) {
        add_sources(*area, code);
        return;
    }
    if (!taken_by_index(where, call, code) && !taken_branch(where, call, code) &&
        !(computes_arrays(parts_.codes().english(call.code)) && elements(where, call)))
        parts(where, call, code);
}

void CellExplainer::our_call(const Where& where, const Node& call, sal_Int32 code) {
    const catalogue::Function* function = catalogue_entry(call.method);
    if (!function) {
        parts(where, call, code);
        return;
    }
    // The whole cell is this call, and has just been computed.
    const auto just_computed =
        &call == &where.formula.root && !where.element ? reasons_before_ : std::nullopt;
    CallFaults faults = OurCall(parts_, where, call, *function, just_computed).faults(code);
    std::move(faults.findings.begin(), faults.findings.end(), std::back_inserter(result_.findings));
    for (const Area& area : faults.lists)
        add_sources(area, 0);
    for (const CallFaults::Part& part : faults.parts)
        node({where.formula, where.cell, part.element}, *part.node, part.code);
}

void CellExplainer::reference(const Where& where, const Node& part, sal_Int32 code) {
    if (part.deleted || !part.area) {
        result_.findings.push_back(began_here(parts_, where, part, 524));
        return;
    }
    const auto meant = parts_.cell_meant(where, part);
    if (meant && parts_.errors().code(*meant)) {
        result_.sources.push_back(*meant);
        return;
    }
    if (parts_.errors().first_code(*part.area))
        add_sources(*part.area, code);
    else
        result_.findings.push_back(began_here(parts_, where, part, code));
}

void CellExplainer::parts(const Where& where, const Node& whole, sal_Int32 code) {
    std::vector<std::pair<const Node*, sal_Int32>> wrong;
    for (const Node& child : whole.children)
        if (const sal_Int32 passed = parts_.error_in(where, child))
            wrong.emplace_back(&child, passed);
    // Those with the same error are to blame; if there is none, whatever is wrong.
    const bool same =
        std::any_of(wrong.begin(), wrong.end(), [&](auto& part) { return part.second == code; });
    for (const auto& [child, passed] : wrong)
        if (!same || passed == code)
            node(where, *child, passed);
    // In an array formula SUM and its like take all elements, not only this cell's.
    const bool found = wrong.empty() && where.formula.array && whole.kind == Node::Kind::call &&
                       elements(where, whole);
    if (wrong.empty() && !found)
        result_.findings.push_back(began_here(parts_, where, whole, code));
}

bool CellExplainer::taken_by_index(const Where& where, const Node& call, sal_Int32 code) {
    const auto& arguments = call.children;
    if (where.element || parts_.codes().english(call.code) != "INDEX" || arguments.size() < 2 ||
        arguments[0].method.empty())
        return false;
    const auto block = parts_.evaluator().block(where.formula, arguments[0]);
    const auto rows = static_cast<sal_Int32>(block->rows.size());
    const auto columns = static_cast<sal_Int32>(rows == 0 ? 0 : block->rows.front().size());
    const auto number = [&](std::size_t index) {
        const Value given = index < arguments.size() ? parts_.value(where, arguments[index])
                                                     : Value(std::monostate{});
        const double* found = std::get_if<double>(&given);
        return found && *found >= 0 && *found < 2e6 ? static_cast<sal_Int32>(*found) : 0;
    };
    std::pair<sal_Int32, sal_Int32> taken{number(1), number(2)};
    if (rows == 1 && arguments.size() == 2)
        taken = {1, taken.first};
    if (columns == 1 && taken.second == 0)
        taken.second = 1;
    const auto [row, column] = taken;
    if (row < 1 || row > rows || column < 1 || column > columns)
        return false;
    const Value* element = block->at(row - 1, column - 1);
    if (!element || error_of(*element) != code)
        return false;
    node({where.formula, where.cell, std::pair{row - 1, column - 1}}, arguments[0], code);
    return true;
}

bool CellExplainer::taken_branch(const Where& where, const Node& call, sal_Int32 code) {
    const auto [choice, taken] = parts_.branch(where, call);
    if (choice != FormulaParts::Choice::one || parts_.error_in(where, *taken) == 0)
        return false;
    node(where, *taken, code);
    return true;
}

bool CellExplainer::elements(const Where& where, const Node& call) {
    std::size_t found = 0;
    for (const Node& child : call.children) {
        if (child.kind != Node::Kind::call && child.kind != Node::Kind::operation &&
            child.kind != Node::Kind::group)
            continue;
        // Calc does not hand an array's rows to an add-in one by one, but in an array formula; some
        // of ours take them all at once.
        const catalogue::Function* ours =
            child.method.empty() ? nullptr : catalogue_entry(child.method);
        if (!where.formula.array && calls_ours(child) && !(ours && answers_row_by_row(*ours)))
            continue;
        const auto block = parts_.evaluator().block(where.formula, child);
        for (std::size_t r = 0; r < block->rows.size(); ++r)
            for (std::size_t c = 0; c < block->rows[r].size(); ++c) {
                const sal_Int32 code = error_of(block->rows[r][c]);
                if (!code)
                    continue;
                if (++found > most_elements) {
                    result_.findings.push_back({where.cell, Finding::Kind::passed_on, "", "", "",
                                                std::string(texts::explain::more_elements), code});
                    return true;
                }
                node({where.formula, where.cell,
                      std::pair{static_cast<sal_Int32>(r), static_cast<sal_Int32>(c)}},
                     child, code);
            }
    }
    return found > 0;
}

} // namespace jarbook::menu
