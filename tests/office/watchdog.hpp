// Puts an end to calls that never return.
//
// A UNO call to the office blocks until the office answers. The watchdog is told before each call
// how long it may take; when the time is over it does what it was made for (it ends the office), so
// that the pending call fails instead of hanging.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <list>
#include <mutex>
#include <string>
#include <thread>

namespace jarbook::office {

class Watchdog {
    struct Watch {
        std::chrono::steady_clock::time_point end;
        std::string what;
    };
    using Watches = std::list<Watch>;

public:
    explicit Watchdog(std::function<void()> bite);
    ~Watchdog();
    Watchdog(const Watchdog&) = delete;
    Watchdog& operator=(const Watchdog&) = delete;

    // Watches as long as it lives; guards may be nested.
    class Guard {
    public:
        ~Guard();
        Guard(const Guard&) = delete;
        Guard& operator=(const Guard&) = delete;

    private:
        friend class Watchdog;
        Guard(Watchdog& dog, Watches::iterator watch) : dog_(dog), watch_(watch) {}
        Watchdog& dog_;
        Watches::iterator watch_;
    };

    [[nodiscard]] Guard guard(std::string what, std::chrono::milliseconds limit);
    // What took too long; empty as long as nothing did.
    std::string overdue();

private:
    void run();

    std::function<void()> bite_;
    std::mutex mutex_;
    std::condition_variable changed_;
    Watches watches_;
    std::string overdue_;
    bool ending_ = false;
    std::thread thread_;
};

} // namespace jarbook::office
