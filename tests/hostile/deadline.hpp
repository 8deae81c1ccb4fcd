// A time limit for each call, and a word about which call it was that did not come back.
#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <string>
#include <thread>

namespace jarbook::hostile {

class Deadline {
public:
    // Ends the program when a guard lives longer than the limit. Also when the program is ended by
    // a signal or a sanitizer while a guard lives, the guard's name and number are written.
    explicit Deadline(std::chrono::milliseconds limit);
    ~Deadline();
    Deadline(const Deadline&) = delete;
    Deadline& operator=(const Deadline&) = delete;

    class Guard {
    public:
        ~Guard();
        Guard(const Guard&) = delete;
        Guard& operator=(const Guard&) = delete;

    private:
        friend class Deadline;
        explicit Guard(Deadline& deadline) : deadline_(deadline) {}
        Deadline& deadline_;
    };
    // "NAME NUMBER" is what is running.
    [[nodiscard]] Guard guard(const std::string& name, std::uint64_t number);

private:
    void watch();

    std::chrono::milliseconds limit_;
    std::atomic<std::int64_t> since_{0}; // steady clock in ns; 0: nothing runs
    std::atomic<bool> ending_{false};
    std::thread thread_;
};

} // namespace jarbook::hostile
