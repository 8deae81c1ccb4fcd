// What the harness throws when the office does not do what it was asked.
#pragma once

#include <stdexcept>
#include <string>

namespace jarbook::office {

// The message tells what was being done, what the office said, and the tail of its own error
// output.
class OfficeError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

} // namespace jarbook::office
