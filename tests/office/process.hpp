// A child process that does not outlive its owner.
#pragma once

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <sys/types.h>
#include <vector>

namespace jarbook::office {

class Process {
public:
    // Starts command[0] in a process group of its own. `environment` holds NAME=VALUE settings that
    // are added to the inherited ones, or NAME alone to take one away. Both outputs go to `log`.
    // The child is ended by the kernel when the thread that started it ends.
    Process(const std::vector<std::string>& command, const std::vector<std::string>& environment,
            const std::filesystem::path& log);
    ~Process();
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    pid_t pid() const noexcept { return pid_; }
    // The exit status, 128 + signal after a signal, or nothing while it runs.
    std::optional<int> status();
    // Waits for the end, at most that long.
    std::optional<int> wait(std::chrono::milliseconds limit);
    // Whether the process itself holds a local socket whose path ends so.
    bool holds_socket(const std::string& path_end) const;
    // Ends the process and what it started, at once. May be called from another thread.
    void kill() noexcept;

private:
    pid_t pid_ = -1;
    std::optional<int> status_;
};

} // namespace jarbook::office
