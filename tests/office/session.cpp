#include "session.hpp"

#include <atomic>
#include <com/sun/star/bridge/UnoUrlResolver.hpp>
#include <com/sun/star/bridge/XUnoUrlResolver.hpp>
#include <com/sun/star/connection/NoConnectException.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/lang/XComponent.hpp>
#include <cppuhelper/bootstrap.hxx>
#include <random>
#include <rtl/bootstrap.hxx>
#include <thread>
#include <unistd.h>

#include "office.hpp"
#include "text.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

std::filesystem::path program_of(const Options& options) {
    return options.program.empty() ? std::filesystem::path(JARBOOK_OFFICE_PROGRAM)
                                   : options.program;
}

// The types of the office's API are not among those of the bare runtime: they have to be named
// before the local context is made, else calls over the bridge fail for want of a description.
void name_types(const Options& options) {
    rtl::OUString urls;
    for (const auto& entry : std::filesystem::directory_iterator(program_of(options) / "types"))
        if (entry.path().extension() == ".rdb")
            urls += to_url(entry.path()) + " ";
    for (const auto& file : options.types)
        urls += to_url(file) + " ";
    rtl::Bootstrap::set("URE_MORE_TYPES", urls);
}

std::string new_pipe_name() {
    static std::atomic<int> count{0};
    std::random_device random;
    return "jarbook-" + std::to_string(getpid()) + "-" + std::to_string(count++) + "-" +
           std::to_string(random());
}

std::vector<std::string> command_line(const Options& options, const Profile& profile,
                                      const std::string& pipe) {
    std::vector<std::string> command = {
        (program_of(options) / "soffice.bin").string(),
        "-env:UserInstallation=" + to_utf8(to_url(profile.folder())),
        "--accept=pipe,name=" + pipe + ";urp;StarOffice.ComponentContext",
        "--nologo",
        "--nodefault",
        "--nofirststartwizard",
        "--nolockcheck",
    };
    if (!options.recovery)
        command.push_back("--norestore");
    if (options.display.empty() && !options.recovery)
        command.push_back("--headless");
    return command;
}

std::vector<std::string> environment_changes(const Options& options) {
    std::vector<std::string> changes = {"LD_LIBRARY_PATH", "URE_BOOTSTRAP"};
    if (options.display.empty())
        changes.insert(changes.end(), {"DISPLAY", "WAYLAND_DISPLAY", "SAL_USE_VCLPLUGIN=svp"});
    else
        changes.push_back("DISPLAY=" + options.display);
    return changes;
}

} // namespace

Session::Session(const Options& options, Profile& profile)
    : profile_(profile), limit_(options.call_timeout), watchdog_([this] { process_->kill(); }) {
    try {
        start(options);
    } catch (...) {
        end();
        throw;
    }
}

Session::~Session() {
    end();
}

void Session::start(const Options& options) {
    profile_.prepare(options.locale);
    name_types(options);
    local_ = cppu::defaultBootstrap_InitialComponentContext();

    const std::string pipe = new_pipe_name();
    const std::string url = "uno:pipe,name=" + pipe + ";urp;StarOffice.ComponentContext";
    const std::vector<std::string> command = command_line(options, profile_, pipe);
    const std::vector<std::string> environment = environment_changes(options);
    const std::string what = "starting the office (" + command.front() + ")";
    // An office that finds its profile in use hands over to the one that uses it, which then
    // answers in its place. That one is not ours: it is let go of, untouched.
    const auto in_use = [&] {
        return OfficeError("another office is using the profile " + profile_.folder().string() +
                           "; close it first");
    };
    // A fresh profile makes the office end with 81: "start me again".
    constexpr int wants_restart = 81;
    int starts_left = 4;

    const auto end = std::chrono::steady_clock::now() + options.start_timeout;
    while (std::chrono::steady_clock::now() < end) {
        const auto status = process_ ? process_->status() : wants_restart;
        if (status == 0)
            throw in_use();
        if (status == wants_restart && starts_left-- > 0)
            process_ = std::make_unique<Process>(command, environment, profile_.log());
        else if (status)
            throw failure(what + " ended with status " + std::to_string(*status), nullptr);
        bool connected = false;
        try {
            connected = connect(url);
        } catch (const OfficeError&) {
            // One that hands over may go while it is being asked.
            if (process_->wait(std::chrono::seconds(2)) == 0)
                throw in_use();
            throw;
        }
        if (connected) {
            if (process_->holds_socket(pipe))
                return;
            desktop_.clear();
            remote_.clear();
            throw in_use();
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    throw failure(what + ": no connection within " + std::to_string(options.start_timeout.count()) +
                      " ms",
                  nullptr);
}

bool Session::connect(const std::string& url) {
    // The pipe may be open before the office is ready to answer on it.
    return call("connecting to the office", [&] {
        const uno::Reference<bridge::XUnoUrlResolver> resolver =
            bridge::UnoUrlResolver::create(local_);
        try {
            remote_ = as<uno::XComponentContext>(resolver->resolve(to_uno(url)),
                                                 "asking the office for its context");
        } catch (const connection::NoConnectException&) {
            return false;
        }
        desktop_.set(frame::Desktop::create(remote_), uno::UNO_QUERY_THROW);
        return true;
    });
}

OfficeError Session::failure(const std::string& what, const uno::Exception* trouble) {
    std::string message = what;
    if (const std::string overdue = watchdog_.overdue(); !overdue.empty())
        message += ": took too long (" + overdue + "), the office was ended";
    else if (trouble)
        message += ": " + to_utf8(trouble->Message);
    if (process_)
        if (const auto status = process_->wait(std::chrono::milliseconds(trouble ? 200 : 0)))
            message += " [the office is gone, status " + std::to_string(*status) + "]";
    if (const std::string log = profile_.log_tail(); !log.empty())
        message += "\nThe office wrote:\n" + log;
    return OfficeError(message);
}

bool Session::alive() {
    return process_ && !process_->status() && watchdog_.overdue().empty();
}

uno::Reference<uno::XInterface> Session::service(const std::string& name) {
    return call("making " + name, [&] {
        const auto result =
            remote_->getServiceManager()->createInstanceWithContext(to_uno(name), remote_);
        if (!result.is())
            throw failure("the office has no service " + name, nullptr);
        return result;
    });
}

bool Session::end() noexcept {
    if (!process_)
        return false;
    bool orderly = false;
    try {
        if (alive() && desktop_.is()) {
            const auto guard = watchdog_.guard("ending the office", std::chrono::seconds(30));
            try {
                desktop_->terminate();
            } catch (const uno::Exception&) {
                // The connection may fall before the answer is through.
            }
            desktop_.clear();
            remote_.clear();
            orderly = process_->wait(std::chrono::seconds(20)) == 0;
        }
        desktop_.clear();
        remote_.clear();
        // Also takes down the bridge.
        if (const uno::Reference<lang::XComponent> context(local_, uno::UNO_QUERY); context.is())
            context->dispose();
        local_.clear();
    } catch (const std::exception&) {
    } catch (const uno::Exception&) {
    }
    process_.reset(); // ends what has not ended
    return orderly;
}

} // namespace jarbook::office
