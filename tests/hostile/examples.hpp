// The arguments of the catalogue's examples as values.
#pragma once

#include "call.hpp"
#include "catalogue.hpp"

#include <functional>
#include <string>
#include <vector>

namespace jarbook::hostile {

// The arguments of the example's one call, cells put in; nothing where they are more than numbers,
// texts, references to its cells and what is left out (a formula inside, an inline array).
std::vector<Value> example_arguments(const catalogue::Example& example);

// Adds the texts that a value holds.
void add_words(std::vector<std::u16string>& words, const Value& value);

// Exchanges every number that a value holds.
void move_numbers(Value& value, const std::function<double(double)>& moved);

} // namespace jarbook::hostile
