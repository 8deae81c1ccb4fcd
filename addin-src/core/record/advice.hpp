// What to do about a run's readings, in a sentence.
#pragma once

#include "core/record/verdict.hpp"

#include <string>

namespace jarbook {

// They fit (and what would have had to be wrong to show); one reading to look at first, with what
// would make it fit; several that explain it equally well; or none. Volumes in the unit they came
// in. The sentences stand in extension/texts/record.toml.
std::string advice(const RunReadings& run, const Verdict& verdict);

} // namespace jarbook
