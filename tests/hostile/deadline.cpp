#include "deadline.hpp"

#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <unistd.h>

// Of the sanitizers' runtime, where there is one.
extern "C" [[gnu::weak]] void __sanitizer_set_death_callback(void (*callback)());

namespace jarbook::hostile {

namespace {

// Read from a signal's handler, so nothing that allocates.
std::array<char, 400> running{};

void tell() {
    if (!running[0])
        return;
    constexpr char before[] = "\nended while this ran: ";
    [[maybe_unused]] auto written = write(STDERR_FILENO, before, sizeof before - 1);
    written = write(STDERR_FILENO, running.data(), std::strlen(running.data()));
    written = write(STDERR_FILENO, "\n", 1);
}

void on_signal(int signal) {
    tell();
    std::signal(signal, SIG_DFL);
    raise(signal);
}

std::int64_t now() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

} // namespace

Deadline::Deadline(std::chrono::milliseconds limit) : limit_(limit), thread_([this] { watch(); }) {
    if (__sanitizer_set_death_callback) {
        __sanitizer_set_death_callback(tell);
        std::signal(SIGABRT, on_signal);
    } else {
        for (const int signal : {SIGSEGV, SIGABRT, SIGFPE, SIGBUS, SIGILL})
            std::signal(signal, on_signal);
    }
}

Deadline::~Deadline() {
    ending_ = true;
    thread_.join();
}

Deadline::Guard Deadline::guard(const std::string& name, std::uint64_t number) {
    std::snprintf(running.data(), running.size(), "%s %llu", name.c_str(),
                  static_cast<unsigned long long>(number));
    since_ = now();
    return Guard(*this);
}

Deadline::Guard::~Guard() {
    deadline_.since_ = 0;
    running[0] = '\0';
}

void Deadline::watch() {
    while (!ending_) {
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
        const std::int64_t since = since_;
        if (since && now() - since > std::chrono::nanoseconds(limit_).count()) {
            std::fprintf(stderr, "a call took longer than %lld ms\n",
                         static_cast<long long>(limit_.count()));
            std::abort(); // with a core, where cores are kept
        }
    }
}

} // namespace jarbook::hostile
