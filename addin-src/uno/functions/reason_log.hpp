// The memory of the latest refusals, so that the menu can tell why a cell shows an error.
#pragma once

#include "core/base/refusal.hpp"

#include <cstddef>
#include <cstdint>
#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace jarbook::addin {

// Row and column, from 0, of one cell of an array result.
using Part = std::pair<int, int>;

struct LoggedReason {
    std::string function; // as typed into a cell: SPIRIT.STRENGTH
    std::string argument;
    std::string value;
    std::string sentence;
    int code;                      // error code of the cell
    std::optional<Part> part = {}; // where only that cell of the result is an error
    // The row of a list that is to blame, from 0 at the list's first cell.
    std::optional<std::size_t> row = {};
};

// One for the library; any thread may call. Bounded: a sheet full of errors forgets the oldest.
class ReasonLog {
public:
    static ReasonLog& get();

    // How many are remembered.
    static constexpr std::size_t bound = 64;

    void add(LoggedReason reason);
    std::vector<LoggedReason> latest() const;
    void forget();

    // How many were ever added, and those added since then (as far as they are remembered).
    std::uint64_t added() const;
    std::vector<LoggedReason> since(std::uint64_t added) const;

private:
    mutable std::mutex mutex_;
    std::deque<LoggedReason> reasons_;
    std::uint64_t added_ = 0;
};

// The error code that a cell shows for a kind of refusal. The same table is in
// extension/catalogue/errors.toml for the reference page; a test compares them.
int error_code(RefusalKind kind);

// A double that Calc shows as that error: a quiet NaN that carries the code in its lowest bits.
double error_value(int code);

// Whether it is one of these.
bool is_error_value(double value);

} // namespace jarbook::addin
