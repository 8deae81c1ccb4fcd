#include "watchdog.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace jarbook::office {

Watchdog::Watchdog(std::function<void()> bite)
    : bite_(std::move(bite)), thread_([this] { run(); }) {}

Watchdog::~Watchdog() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

Watchdog::Guard::~Guard() {
    const std::lock_guard lock(dog_.mutex_);
    dog_.watches_.erase(watch_);
}

Watchdog::Guard Watchdog::guard(std::string what, std::chrono::milliseconds limit) {
    // Under emulation all takes longer: scripts/test-arm64 says how many times as long.
    const char* patience = std::getenv("JARBOOK_PATIENCE");
    const int times = patience ? std::max(1, std::atoi(patience)) : 1;
    const std::lock_guard lock(mutex_);
    watches_.push_front({std::chrono::steady_clock::now() + limit * times, std::move(what)});
    changed_.notify_all();
    return {*this, watches_.begin()};
}

std::string Watchdog::overdue() {
    const std::lock_guard lock(mutex_);
    return overdue_;
}

void Watchdog::run() {
    std::unique_lock lock(mutex_);
    while (!ending_) {
        const auto first =
            std::min_element(watches_.begin(), watches_.end(),
                             [](const Watch& a, const Watch& b) { return a.end < b.end; });
        if (first == watches_.end()) {
            changed_.wait(lock);
        } else if (std::chrono::steady_clock::now() >= first->end) {
            overdue_ = first->what;
            bite_();
            return;
        } else {
            // A copy: the guard may go away while we wait.
            const auto end = first->end;
            changed_.wait_until(lock, end);
        }
    }
}

} // namespace jarbook::office
