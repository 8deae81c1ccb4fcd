#include "generator.hpp"

#include "examples.hpp"
#include "odd_values.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <string>

namespace jarbook::hostile {

using catalogue::Argument;
using catalogue::Function;
using catalogue::Kind;

std::uint64_t Random::next() {
    std::uint64_t z = state_ += 0x9e3779b97f4a7c15;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
    return z ^ (z >> 31);
}

std::uint64_t call_seed(std::uint64_t run_seed, std::uint64_t n) {
    return Random(Random(run_seed).next() ^ n).next();
}

Generator::Generator(bool whole_columns) : whole_columns_(whole_columns) {
    for (const Function& function : catalogue::functions()) {
        Known& known = known_.emplace_back();
        known.numbers.resize(function.arguments.size());
        for (const catalogue::Example& example : function.examples) {
            const auto written = example_arguments(example);
            for (std::size_t i = 0; i < std::min(written.size(), known.numbers.size()); ++i)
                if (const auto* number = std::get_if<double>(&written[i].held))
                    known.numbers[i].push_back(*number);
            for (const Value& value : written)
                add_words(known.words, value);
            if (!written.empty() && example.error == 0)
                known.calls.push_back(written);
        }
        std::sort(known.words.begin(), known.words.end());
        known.words.erase(std::unique(known.words.begin(), known.words.end()), known.words.end());
        if (known.words.empty())
            known.words.emplace_back();
    }
}

double Generator::plausible_number(Random& random, std::size_t function,
                                   std::size_t argument) const {
    const Argument& shape = catalogue::functions()[function].arguments[argument];
    const auto& seen = known_[function].numbers[argument];
    if (!seen.empty() && random.one_in(3))
        return random.of(seen) * (random.one_in(2) ? 1.0 : random.between(0.5, 1.5));
    if (!std::isnan(shape.lowest) && !std::isnan(shape.highest)) {
        // Whole numbers too: a count of rows is one.
        const double number = random.between(shape.lowest, shape.highest);
        return random.one_in(3) ? std::round(number) : number;
    }
    return std::pow(10.0, random.between(-3.0, 5.0));
}

Value Generator::plausible(Random& random, std::size_t function, std::size_t argument,
                           std::size_t rows) const {
    const Argument& shape = catalogue::functions()[function].arguments[argument];
    if (shape.optional && random.one_in(2))
        return {LeftOut{}};
    switch (shape.kind) {
    case Kind::number:
        return {plausible_number(random, function, argument)};
    case Kind::flag:
        return {random.one_in(2) ? 1.0 : 0.0};
    case Kind::word:
        return {random.of(known_[function].words)};
    case Kind::list:
    case Kind::rows:
    case Kind::words:
        break;
    }
    Rows list;
    const bool lying = random.one_in(4);
    // A run's strengths fall; so do most lists that anybody types.
    std::vector<double> numbers;
    while (numbers.size() < rows)
        numbers.push_back(plausible_number(random, function, argument));
    if (!random.one_in(3))
        std::sort(numbers.rbegin(), numbers.rend());
    for (std::size_t row = 0; row < rows; ++row) {
        // The same rows are blank in all lists.
        const bool blank = rows % 5 == 4 && row % 7 == 3;
        Value cell = blank                       ? Value{std::u16string()}
                     : shape.kind != Kind::words ? Value{numbers[row]}
                                                 : Value{random.of(known_[function].words)};
        if (lying && !list.rows.empty())
            list.rows[0].push_back(std::move(cell));
        else
            list.rows.push_back({std::move(cell)});
    }
    return {list};
}

// All of them, or those of an example with its numbers a little moved: what a function of many
// arguments that have to fit together is rarely given by chance.
std::vector<Value> Generator::plausible_arguments(Random& random, std::size_t function) const {
    const std::size_t count = catalogue::functions()[function].arguments.size();
    const auto& examples = known_[function].calls;
    std::vector<Value> arguments;
    if (!examples.empty() && random.one_in(2)) {
        arguments = random.of(examples);
        arguments.resize(count);
        const double by = std::pow(10.0, random.between(-6.0, -0.3));
        if (random.one_in(4))
            return arguments;
        for (Value& value : arguments)
            move_numbers(value, [&](double number) {
                return number * (random.one_in(2) ? 1.0 : random.between(1.0 - by, 1.0 + by));
            });
        return arguments;
    }
    const std::size_t rows = random.one_in(20) ? random.below(200) : random.below(24);
    while (arguments.size() < count)
        arguments.push_back(plausible(random, function, arguments.size(), rows));
    return arguments;
}

Value Generator::hostile(Random& random, std::size_t function, std::size_t argument,
                         std::size_t rows) const {
    const Argument& shape = catalogue::functions()[function].arguments[argument];
    const bool list =
        shape.kind == Kind::list || shape.kind == Kind::rows || shape.kind == Kind::words;
    switch (random.below(6)) {
    case 0:
        return odd_scalar(random);
    case 1:
        return odd_rows(random, whole_columns_);
    case 2:
        return {odd_number(random)};
    case 3:
        return {number_beside(random, shape.lowest, shape.highest)};
    default: {
        // A plausible list with one odd cell, or a plausible value packed as one cell of a range.
        Value value = plausible(random, function, argument, rows);
        if (auto* cells = std::get_if<Rows>(&value.held); cells && !cells->rows.empty()) {
            auto& row = random.one_in(2) ? cells->rows.front() : cells->rows.back();
            if (!row.empty())
                row[random.below(row.size())] =
                    random.one_in(2) ? odd_scalar(random)
                                     : Value{number_beside(random, shape.lowest, shape.highest)};
            if (random.one_in(4))
                cells->rows.pop_back();
        } else if (!list) {
            value = {Rows{Element::any, 1, {{std::move(value)}}}};
        }
        return value;
    }
    }
}

Call Generator::call(std::uint64_t seed) const {
    Random random(seed);
    return call(random.below(catalogue::functions().size()), random.next());
}

Call Generator::call(std::size_t function, std::uint64_t seed) const {
    Random random(seed);
    const Function& wanted = catalogue::functions()[function];
    Call call{std::string(wanted.method), plausible_arguments(random, function)};
    const std::size_t count = wanted.arguments.size();
    // All plausible, one hostile, or each as it comes.
    const std::size_t mood = random.below(3);
    const std::size_t chosen = count ? random.below(count) : 0;
    const std::size_t rows = random.below(24);
    for (std::size_t i = 0; i < count; ++i)
        if (mood == 1 ? i == chosen : mood == 2 && random.one_in(2))
            call.arguments[i] = hostile(random, function, i, rows);
    // Wrong counts.
    if (random.one_in(200) && !call.arguments.empty())
        call.arguments.pop_back();
    if (random.one_in(200))
        call.arguments.push_back(odd_scalar(random));
    return call;
}

} // namespace jarbook::hostile
