#include "process.hpp"

#include <cerrno>
#include <csignal>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <set>
#include <sstream>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include "error.hpp"

extern char** environ;

namespace jarbook::office {

namespace {

std::string name_of(const std::string& setting) {
    return setting.substr(0, setting.find('='));
}

std::vector<std::string> merged_environment(const std::vector<std::string>& changes) {
    std::vector<std::string> result;
    for (char** entry = environ; *entry; ++entry) {
        bool changed = false;
        for (const std::string& change : changes)
            changed = changed || name_of(change) == name_of(*entry);
        if (!changed)
            result.emplace_back(*entry);
    }
    for (const std::string& change : changes)
        if (change.find('=') != std::string::npos)
            result.push_back(change);
    return result;
}

std::vector<char*> pointers(const std::vector<std::string>& texts) {
    std::vector<char*> result;
    for (const std::string& text : texts)
        result.push_back(const_cast<char*>(text.c_str()));
    result.push_back(nullptr);
    return result;
}

} // namespace

Process::Process(const std::vector<std::string>& command,
                 const std::vector<std::string>& environment, const std::filesystem::path& log) {
    // Everything that allocates is done before the fork: the parent may have other threads.
    const std::vector<std::string> settings = merged_environment(environment);
    const std::vector<char*> arguments = pointers(command);
    const std::vector<char*> variables = pointers(settings);
    const std::string log_name = log.string();

    const pid_t parent = getpid();
    const pid_t child = fork();
    if (child < 0)
        throw OfficeError(command.front() + " cannot be started: " + std::strerror(errno));
    if (child == 0) {
        setpgid(0, 0);
        prctl(PR_SET_PDEATHSIG, SIGKILL);
        if (getppid() != parent)
            _exit(127);
        const int nothing = open("/dev/null", O_RDONLY);
        const int output = open(log_name.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
        if (nothing >= 0)
            dup2(nothing, STDIN_FILENO);
        if (output >= 0) {
            dup2(output, STDOUT_FILENO);
            dup2(output, STDERR_FILENO);
        }
        execve(arguments[0], arguments.data(), variables.data());
        constexpr char message[] = "the program could not be executed\n";
        [[maybe_unused]] const auto written = write(STDERR_FILENO, message, sizeof message - 1);
        _exit(127);
    }
    pid_ = child;
    setpgid(child, child); // also here, so that kill() has the group whoever comes first
}

Process::~Process() {
    if (!status())
        kill();
    wait(std::chrono::seconds(10));
}

std::optional<int> Process::status() {
    if (status_)
        return status_;
    int raw = 0;
    const pid_t ended = waitpid(pid_, &raw, WNOHANG);
    if (ended == pid_)
        status_ = WIFSIGNALED(raw) ? 128 + WTERMSIG(raw) : WEXITSTATUS(raw);
    else if (ended < 0 && errno == ECHILD)
        status_ = 127; // somebody else has waited for it; it is gone
    return status_;
}

std::optional<int> Process::wait(std::chrono::milliseconds limit) {
    const auto end = std::chrono::steady_clock::now() + limit;
    while (!status() && std::chrono::steady_clock::now() < end)
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    return status_;
}

bool Process::holds_socket(const std::string& path_end) const {
    std::set<std::string> sockets; // as the links in /proc/PID/fd read: socket:[INODE]
    std::ifstream all("/proc/net/unix");
    for (std::string line; std::getline(all, line);) {
        std::istringstream fields(line);
        std::string skipped, inode, path;
        for (int field = 0; field < 6; ++field)
            fields >> skipped;
        if (fields >> inode >> path && path.ends_with(path_end))
            sockets.insert("socket:[" + inode + "]");
    }
    std::error_code ignored; // the process or a file of it may be gone
    const std::filesystem::path files = "/proc/" + std::to_string(pid_) + "/fd";
    for (const auto& file : std::filesystem::directory_iterator(files, ignored))
        if (sockets.count(std::filesystem::read_symlink(file, ignored).string()))
            return true;
    return false;
}

void Process::kill() noexcept {
    ::kill(-pid_, SIGKILL);
}

} // namespace jarbook::office
