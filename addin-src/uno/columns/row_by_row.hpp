// A function over whole ranges in one call: each row gets its own answer, or its own error.
//
// Calc takes some 2.5 µs for a call, whatever it computes; asked once for a column it is a
// fraction.
#pragma once

#include "core/base/lists.hpp"
#include "uno/functions/arguments.hpp"

#include <com/sun/star/uno/Sequence.hxx>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jarbook::addin {

inline constexpr sal_Int32 most_rows = 100'000; // blank ones cost Calc their square
inline constexpr sal_Int32 most_cells = 1'000'000;

// An argument that varies: one value for all rows, or a range of any shape.
class Varying {
public:
    // `name` is the contract's, `one` what the core calls a single value of it. Refused by name:
    // one that is left out without `fallback`, a single value that is no number, ragged or empty
    // ranges and such that are too large.
    Varying(const com::sun::star::uno::Any& value, std::string_view name, std::string_view one,
            std::optional<double> fallback = {});

    bool is_range() const { return rows_ > 0; }
    sal_Int32 rows() const { return rows_; }
    sal_Int32 columns() const { return columns_; }
    const std::string& name() const { return name_; }
    const std::string& one() const { return one_; }

    enum class Held { number, blank, other };
    // What stands there; the number is put into `number`.
    Held at(sal_Int32 row, sal_Int32 column, double& number) const;
    // What a person sees there; for sentences.
    std::string shown(sal_Int32 row, sal_Int32 column) const;

private:
    std::string name_;
    std::string one_;
    double single_ = 0.0;
    sal_Int32 rows_ = 0; // of a range
    sal_Int32 columns_ = 0;
    com::sun::star::uno::Sequence<com::sun::star::uno::Sequence<com::sun::star::uno::Any>> anys_;
    com::sun::star::uno::Sequence<com::sun::star::uno::Sequence<double>> numbers_;
};

// f gets the numbers of one row, in the order of the arguments, and gives one or refuses. The
// ranges are of one shape, and so is the result: numbers alone where every row is one, else a
// number, an empty text (a row that is blank in all ranges) or an error, whose reason is kept with
// its place, per row (those of the first rows, as many as are remembered). What is wrong for all
// rows (a value out of its range that does not vary) is refused whole.
com::sun::star::uno::Any row_by_row(const char* function, const std::vector<Varying>& arguments,
                                    const std::function<double(const double*)>& f);

} // namespace jarbook::addin
