// Calls made up from a seed: of every function of the catalogue, with arguments from the plausible,
// which reach deep into the arithmetic, to whatever a sheet or another program might send.
#pragma once

#include "call.hpp"
#include "catalogue.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace jarbook::hostile {

// SplitMix64: small, and the same on every machine.
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next();
    // 0 ... n - 1
    std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }
    // 0 <= x < 1
    double unit() { return static_cast<double>(next() >> 11) * 0x1p-53; }
    double between(double low, double high) { return low + (high - low) * unit(); }
    bool one_in(std::size_t n) { return below(n) == 0; }
    template <class Pool>
    const auto& of(const Pool& pool) {
        return pool[below(std::size(pool))];
    }

private:
    std::uint64_t state_;
};

// The seed of the n-th call of a run.
std::uint64_t call_seed(std::uint64_t run_seed, std::uint64_t n);

class Generator {
public:
    // `whole_columns`: whether lists of a million rows are among the arguments.
    explicit Generator(bool whole_columns = true);

    Call call(std::uint64_t seed) const;
    // The same, of one function.
    Call call(std::size_t function, std::uint64_t seed) const;

private:
    // What the examples of a function show of it: the numbers at each argument, and its words.
    struct Known {
        std::vector<std::vector<double>> numbers;
        std::vector<std::u16string> words;
        // The arguments of the examples that give a result.
        std::vector<std::vector<Value>> calls;
    };
    Value plausible(Random& random, std::size_t function, std::size_t argument,
                    std::size_t rows) const;
    double plausible_number(Random& random, std::size_t function, std::size_t argument) const;
    std::vector<Value> plausible_arguments(Random& random, std::size_t function) const;
    Value hostile(Random& random, std::size_t function, std::size_t argument,
                  std::size_t rows) const;

    bool whole_columns_;
    std::vector<Known> known_;
};

// The catalogue's word on a call: why it must be refused, or nothing if it need not.
std::optional<std::string> must_be_refused(const catalogue::Function& function, const Call& call);

} // namespace jarbook::hostile
