#include "uno/functions/reason_log.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>

namespace jarbook::addin {

ReasonLog& ReasonLog::get() {
    static ReasonLog log;
    return log;
}

void ReasonLog::add(LoggedReason reason) {
    const std::lock_guard lock(mutex_);
    if (reasons_.size() == bound)
        reasons_.pop_front();
    reasons_.push_back(std::move(reason));
    ++added_;
}

std::vector<LoggedReason> ReasonLog::latest() const {
    const std::lock_guard lock(mutex_);
    return {reasons_.begin(), reasons_.end()};
}

void ReasonLog::forget() {
    const std::lock_guard lock(mutex_);
    reasons_.clear();
}

std::uint64_t ReasonLog::added() const {
    const std::lock_guard lock(mutex_);
    return added_;
}

std::vector<LoggedReason> ReasonLog::since(std::uint64_t added) const {
    const std::lock_guard lock(mutex_);
    const auto fresh =
        static_cast<std::ptrdiff_t>(std::min<std::uint64_t>(added_ - added, reasons_.size()));
    return {reasons_.end() - fresh, reasons_.end()};
}

int error_code(RefusalKind kind) {
    switch (kind) {
    case RefusalKind::not_a_number:
        return 519; // #VALUE!
    case RefusalKind::out_of_range:
        return 502; // Err:502, invalid argument
    case RefusalKind::impossible:
        return 503; // #NUM!
    case RefusalKind::nothing_there:
        return 32767; // #N/A
    case RefusalKind::no_convergence:
        return 523; // Err:523, calculation does not converge
    }
    return 519;
}

double error_value(int code) {
    return std::bit_cast<double>(std::uint64_t{0x7ff8000000000000} |
                                 static_cast<std::uint64_t>(code));
}

bool is_error_value(double value) {
    constexpr std::uint64_t code_bits = 0xffff;
    const auto bits = std::bit_cast<std::uint64_t>(value);
    return (bits & ~code_bits) == 0x7ff8000000000000 && (bits & code_bits) != 0;
}

} // namespace jarbook::addin
