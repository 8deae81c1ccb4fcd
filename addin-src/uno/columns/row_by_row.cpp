#include "uno/columns/row_by_row.hpp"

#include "core/base/refusal.hpp"
#include "texts/arguments.hpp"
#include "texts/columns.hpp"
#include "texts/lists.hpp"
#include "uno/functions/guard.hpp"
#include "uno/functions/reason_log.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace jarbook::addin {

using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;
using rtl::OUString;

namespace {

template <class Element>
void require_shape(const Sequence<Sequence<Element>>& rows, const std::string& name) {
    const sal_Int32 count = rows.getLength();
    const sal_Int32 width = count > 0 ? rows[0].getLength() : 0;
    if (width == 0)
        refuse(RefusalKind::not_a_number, name, "", texts::columns::no_cells{.name = name}.text());
    if (count > most_rows || sal_Int64{count} * width > most_cells)
        refuse(RefusalKind::out_of_range, name, std::to_string(count),
               texts::columns::too_many{.name = name, .rows = std::to_string(count)}.text());
    for (const Sequence<Element>& row : rows)
        if (row.getLength() != width)
            refuse(RefusalKind::not_a_number, name, "",
                   texts::columns::ragged{.name = name}.text());
}

// The place of an answer within ranges of one shape.
struct Spot {
    sal_Int32 row, column, rows, columns;

    // Its number along a single row or column.
    std::size_t position() const { return static_cast<std::size_t>(rows == 1 ? column : row); }
    std::string text() const {
        if (rows > 1 && columns > 1)
            return texts::columns::spot{.row = std::to_string(row + 1),
                                        .column = std::to_string(column + 1)}
                .text();
        return texts::columns::row{.row = std::to_string(position() + 1)}.text();
    }
    std::string of(const Varying& argument) const {
        return argument.is_range()
                   ? texts::columns::of{.spot = text(), .list = argument.name()}.text()
                   : argument.name();
    }
};

// The same refusal in the words of the call: the argument as the contract names it, and its row.
Refusal in_the_call(const Refusal& refusal, const std::vector<Varying>& arguments,
                    const Spot& spot) {
    const auto found = std::ranges::find(arguments, refusal.argument(), &Varying::one);
    const bool varies = found != arguments.end();
    const std::string name = varies ? found->name() : refusal.argument();
    std::string sentence = refusal.sentence();
    if (varies && sentence.starts_with(found->one()))
        sentence.replace(0, found->one().size(), spot.of(*found));
    const bool ranges = spot.rows > 1 || spot.columns > 1;
    if (ranges && !(varies && found->is_range() && sentence.starts_with(spot.text())))
        sentence = texts::columns::in_row{.spot = spot.text(), .reason = sentence}.text();
    const auto row = varies && found->is_range() ? std::optional(spot.position()) : std::nullopt;
    return Refusal(refusal.kind(), ArgumentPlace(name, row), refusal.value(), sentence);
}

// Why a row has no numbers to compute with.
Refusal no_number(const std::vector<Varying>& arguments, const Spot& spot) {
    double number = 0.0;
    const auto is = [&](Varying::Held held) {
        return std::ranges::find_if(arguments, [&](const Varying& argument) {
            return argument.at(spot.row, spot.column, number) == held;
        });
    };
    if (const auto text = is(Varying::Held::other); text != arguments.end()) {
        const std::string entry = text->shown(spot.row, spot.column);
        return Refusal(
            RefusalKind::not_a_number, ArgumentPlace(text->name(), spot.position()), entry,
            texts::lists::text_no_number{.place = spot.of(*text), .entry = entry}.text());
    }
    const auto blank = is(Varying::Held::blank);
    const auto filled = std::ranges::find_if(arguments, [&](const Varying& argument) {
        return argument.is_range() &&
               argument.at(spot.row, spot.column, number) == Varying::Held::number;
    });
    return Refusal(
        RefusalKind::not_a_number, ArgumentPlace(blank->name(), spot.position()),
        texts::lists::blank,
        texts::lists::row_incomplete{.place = spot.of(*blank), .other = filled->name()}.text());
}

// Whether it would be the same in every row.
bool is_for_all_rows(const Refusal& refusal, const std::vector<Varying>& arguments) {
    const auto found = std::ranges::find(arguments, refusal.argument(), &Varying::one);
    return refusal.kind() == RefusalKind::out_of_range &&
           (found == arguments.end() || !found->is_range());
}

} // namespace

Varying::Varying(const Any& value, std::string_view name, std::string_view one,
                 std::optional<double> fallback)
    : name_(name), one_(one) {
    if (is_left_out(value) && fallback) {
        single_ = *fallback;
        return;
    }
    if (is_left_out(value))
        refuse(RefusalKind::not_a_number, name_, "",
               texts::arguments::missing{.name = name_}.text());
    if (value >>= anys_) {
        require_shape(anys_, name_);
        rows_ = anys_.getLength();
        columns_ = anys_[0].getLength();
    } else if (value >>= numbers_) {
        require_shape(numbers_, name_);
        rows_ = numbers_.getLength();
        columns_ = numbers_[0].getLength();
    }
    if (rows_ > 1 || columns_ > 1)
        return;
    rows_ = columns_ = 0; // a range of one cell is one value
    single_ = number_or(value, name_, 0.0);
}

Varying::Held Varying::at(sal_Int32 row, sal_Int32 column, double& number) const {
    if (!is_range()) {
        number = single_;
        return Held::number;
    }
    if (numbers_.hasElements()) {
        number = numbers_[row][column];
        return Held::number;
    }
    const Any& cell = anys_[row][column];
    if (cell >>= number) // every number of UNO widens
        return Held::number;
    if (!cell.hasValue())
        return Held::blank;
    bool flag = false;
    if (cell >>= flag) {
        number = flag ? 1.0 : 0.0;
        return Held::number;
    }
    OUString text;
    return (cell >>= text) && text.isEmpty() ? Held::blank : Held::other;
}

std::string Varying::shown(sal_Int32 row, sal_Int32 column) const {
    OUString text;
    const Any& cell = anys_[row][column];
    return utf8((cell >>= text) ? text : cell.getValueTypeName());
}

Any row_by_row(const char* function, const std::vector<Varying>& arguments,
               const std::function<double(const double*)>& f) {
    const Varying* shape = nullptr;
    for (const Varying& argument : arguments) {
        if (!argument.is_range())
            continue;
        if (shape && (shape->rows() != argument.rows() || shape->columns() != argument.columns()))
            refuse(RefusalKind::not_a_number, argument.name(), "",
                   texts::columns::other_shape{.one = shape->name(),
                                               .one_rows = std::to_string(shape->rows()),
                                               .one_columns = std::to_string(shape->columns()),
                                               .other = argument.name(),
                                               .other_rows = std::to_string(argument.rows()),
                                               .other_columns = std::to_string(argument.columns())}
                       .text());
        shape = &argument;
    }
    const sal_Int32 rows = shape ? shape->rows() : 1;
    const sal_Int32 columns = shape ? shape->columns() : 1;

    Sequence<Sequence<double>> numbers(rows);
    std::vector<std::pair<sal_Int32, sal_Int32>> blanks;
    // Told at the end, if the call is not refused as a whole after all.
    std::vector<std::pair<Part, Refusal>> reasons;
    bool only_numbers = true;
    std::vector<double> values(arguments.size());
    Sequence<double>* const into = numbers.getArray();
    for (sal_Int32 r = 0; r < rows; ++r) {
        into[r] = Sequence<double>(columns);
        double* const cells = into[r].getArray();
        for (sal_Int32 c = 0; c < columns; ++c) {
            std::size_t ranges = 0, blank = 0, other = 0;
            for (std::size_t i = 0; i < arguments.size(); ++i) {
                const auto held = arguments[i].at(r, c, values[i]);
                ranges += arguments[i].is_range();
                blank += held == Varying::Held::blank;
                other += held == Varying::Held::other;
            }
            if (blank > 0 && blank == ranges) {
                blanks.emplace_back(r, c);
                cells[c] = 0.0;
                continue;
            }
            const Spot spot{r, c, rows, columns};
            try {
                if (blank + other > 0)
                    throw no_number(arguments, spot);
                cells[c] = f(values.data());
                if (!std::isfinite(cells[c]))
                    throw Refusal(RefusalKind::no_convergence, "", "",
                                  texts::arguments::not_finite);
            } catch (const Refusal& refusal) {
                if (is_for_all_rows(refusal, arguments))
                    throw in_the_call(refusal, arguments, {0, 0, 1, 1});
                // Those of ours are in the words of the call already.
                const bool ours = blank + other > 0;
                cells[c] = error_value(error_code(refusal.kind()));
                only_numbers = false;
                if (reasons.size() < ReasonLog::bound)
                    reasons.emplace_back(Part{r, c},
                                         ours ? refusal : in_the_call(refusal, arguments, spot));
            }
        }
    }
    for (const auto& [place, refusal] : reasons)
        refused(function, refusal, place);
    if (only_numbers && blanks.empty())
        return Any(numbers);
    Sequence<Sequence<Any>> mixed(rows);
    Sequence<Any>* const out = mixed.getArray();
    for (sal_Int32 r = 0; r < rows; ++r) {
        out[r] = Sequence<Any>(columns);
        Any* const cells = out[r].getArray();
        for (sal_Int32 c = 0; c < columns; ++c)
            cells[c] <<= std::as_const(numbers)[r][c];
    }
    for (const auto& [r, c] : blanks)
        out[r].getArray()[c] <<= OUString();
    return Any(mixed);
}

} // namespace jarbook::addin
