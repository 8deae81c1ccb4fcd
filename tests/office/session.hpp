// One running office and the connection to it: what Office and its documents share.
#pragma once

#include <chrono>
#include <com/sun/star/frame/XDesktop.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/uno/Exception.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <functional>
#include <memory>
#include <string>

#include "error.hpp"
#include "process.hpp"
#include "profile.hpp"
#include "watchdog.hpp"

namespace jarbook::office {

struct Options;

class Session {
public:
    // Starts the office and connects. Throws OfficeError.
    Session(const Options& options, Profile& profile);
    ~Session();
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;

    // Runs a piece of work with the office that may take `limit` (or the option's callTimeout).
    // What the office throws becomes an OfficeError; after a time-out the office is gone.
    template <class Work>
    auto call(const std::string& what, Work&& work) {
        return call(what, limit_, std::forward<Work>(work));
    }
    template <class Work>
    auto call(const std::string& what, std::chrono::milliseconds limit, Work&& work) {
        const auto guard = watchdog_.guard(what, limit);
        try {
            return work();
        } catch (const com::sun::star::uno::Exception& trouble) {
            throw failure(what, &trouble);
        }
    }
    // Looks for an interface; its absence is an error that says what was being done.
    template <class Interface>
    com::sun::star::uno::Reference<Interface> as(const com::sun::star::uno::BaseReference& object,
                                                 const std::string& what) {
        com::sun::star::uno::Reference<Interface> result(object, com::sun::star::uno::UNO_QUERY);
        if (!result.is())
            throw failure(what + ": the office gives no such object", nullptr);
        return result;
    }

    OfficeError failure(const std::string& what, const com::sun::star::uno::Exception* trouble);

    bool alive();
    pid_t pid() const { return process_->pid(); }
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context() const {
        return remote_;
    }
    com::sun::star::uno::Reference<com::sun::star::uno::XInterface>
    service(const std::string& name);
    const com::sun::star::uno::Reference<com::sun::star::frame::XDesktop>& desktop() const {
        return desktop_;
    }

    // Asks the office to end and waits; what does not end is ended. References to its objects must
    // have been released before. Returns whether it ended by itself with status 0.
    bool end() noexcept;

private:
    void start(const Options& options);
    bool connect(const std::string& url);

    Profile& profile_;
    std::chrono::milliseconds limit_;
    std::unique_ptr<Process> process_;
    com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> local_;
    com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> remote_;
    com::sun::star::uno::Reference<com::sun::star::frame::XDesktop> desktop_;
    // Last, so that it ends first: it ends the process.
    Watchdog watchdog_;
};

} // namespace jarbook::office
