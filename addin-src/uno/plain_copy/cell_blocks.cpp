#include "uno/plain_copy/cell_blocks.hpp"

#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <tuple>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

// How a value is written in bulk. Texts of several lines go one by one: only so they stay lines.
enum class Way { data, formula, alone };

Way way_of(const Value& value) {
    if (std::holds_alternative<double>(value))
        return Way::data;
    const auto* text = std::get_if<std::string>(&value);
    if (!text || text->empty())
        return Way::formula;
    return text->find('\n') == std::string::npos ? Way::data : Way::alone;
}

ValueRun read_run(const Document& document, const Place& first, const Place& last) {
    ValueRun run{first, {}};
    const uno::Reference<sheet::XCellRangeData> range(range_at(document, {first, last}),
                                                      uno::UNO_QUERY_THROW);
    const auto data = range->getDataArray();
    for (sal_Int32 r = 0; r < data.getLength(); ++r) {
        double number = 0.0;
        rtl::OUString text;
        if (data[r][0] >>= number)
            run.values.emplace_back(number);
        else if (data[r][0] >>= text)
            run.values.emplace_back(utf8(text));
        else // which error it is only the cell tells
            run.values.push_back(
                value_of(cell_at(document, {first.sheet, first.column, first.row + r})));
    }
    return run;
}

template <class Element, class Convert>
uno::Sequence<uno::Sequence<Element>> column(const Value* from, std::size_t count,
                                             Convert convert) {
    uno::Sequence<uno::Sequence<Element>> rows(static_cast<sal_Int32>(count));
    auto* row = rows.getArray();
    for (std::size_t i = 0; i < count; ++i) {
        const Element cell = convert(from[i]);
        row[i] = uno::Sequence<Element>(&cell, 1);
    }
    return rows;
}

uno::Any datum(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return uno::Any(*number);
    return uno::Any(ustring(std::get<std::string>(value)));
}

} // namespace

std::vector<ValueRun> values_of(const Document& document, const ExtensionCells& cells,
                                Progress& progress) {
    std::vector<ValueRun> runs;
    std::vector<Place> single = cells.single;
    std::sort(single.begin(), single.end(), [](const Place& a, const Place& b) {
        return std::tie(a.sheet, a.column, a.row) < std::tie(b.sheet, b.column, b.row);
    });
    for (std::size_t i = 0; i < single.size();) {
        progress.going_on();
        std::size_t end = i + 1;
        while (end < single.size() && single[end].sheet == single[i].sheet &&
               single[end].column == single[i].column && single[end].row == single[end - 1].row + 1)
            ++end;
        runs.push_back(read_run(document, single[i], single[end - 1]));
        i = end;
    }
    for (const Area& array : cells.arrays)
        for (sal_Int32 c = array.first.column; c <= array.last.column; ++c)
            runs.push_back(read_run(document, {array.first.sheet, c, array.first.row},
                                    {array.first.sheet, c, array.last.row}));
    return runs;
}

void write_run(const Document& document, const ValueRun& run, Errors errors, Progress& progress) {
    // Only writing cell by cell passes the protection of a sheet.
    const uno::Reference<util::XProtectable> sheet(sheet_at(document, run.first.sheet),
                                                   uno::UNO_QUERY_THROW);
    const bool in_bulk = !sheet->isProtected();
    const auto place = [&](std::size_t i) {
        return Place{run.first.sheet, run.first.column, run.first.row + static_cast<sal_Int32>(i)};
    };
    for (std::size_t i = 0; i < run.values.size();) {
        const Way way = way_of(run.values[i]);
        std::size_t end = i + 1;
        while (end < run.values.size() && way_of(run.values[end]) == way)
            ++end;
        const std::size_t count = end - i;
        if (way == Way::alone || !in_bulk) {
            for (; i < end; ++i) {
                progress.going_on();
                write_constant(cell_at(document, place(i)), run.values[i], errors);
            }
            continue;
        }
        const auto range = range_at(document, {place(i), place(end - 1)});
        const Value* from = run.values.data() + i;
        if (way == Way::data) {
            const uno::Reference<sheet::XCellRangeData> data(range, uno::UNO_QUERY_THROW);
            data->setDataArray(column<uno::Any>(from, count, datum));
        } else {
            const uno::Reference<sheet::XCellRangeFormula> formulas(range, uno::UNO_QUERY_THROW);
            formulas->setFormulaArray(column<rtl::OUString>(
                from, count, [&](const Value& value) { return constant_formula(value, errors); }));
        }
        i = end;
    }
}

} // namespace jarbook::menu
