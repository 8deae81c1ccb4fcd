// Calls that come in over the pipe run in threads of their own, while the office's main thread
// goes on with its timers. LibreOffice 25.2 may end itself when a call of many seconds takes
// objects with timers away under it; a menu's command, which runs in the main thread, meets nothing
// of the kind.
#include <com/sun/star/awt/AsyncCallback.hpp>
#include <condition_variable>
#include <cppuhelper/implbase1.hxx>
#include <exception>
#include <mutex>
#include <rtl/ref.hxx>

#include "office.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

// The office's main thread calls it, and waits; whatever it calls in turn is run by that thread.
class Visit final : public cppu::WeakImplHelper1<awt::XCallback> {
public:
    explicit Visit(const std::function<void()>& work) : work_(work) {}

    void SAL_CALL notify(const uno::Any&) override {
        std::exception_ptr trouble;
        try {
            work_();
        } catch (...) {
            trouble = std::current_exception();
        }
        const std::lock_guard lock(mutex_);
        trouble_ = trouble;
        done_ = true;
        changed_.notify_all();
    }

    // Whether it is done by then; throws what the work threw.
    bool done_within(std::chrono::milliseconds limit) {
        std::unique_lock lock(mutex_);
        if (!changed_.wait_for(lock, limit, [&] { return done_; }))
            return false;
        if (trouble_)
            std::rethrow_exception(trouble_);
        return true;
    }

private:
    std::function<void()> work_;
    std::mutex mutex_;
    std::condition_variable changed_;
    bool done_ = false;
    std::exception_ptr trouble_;
};

} // namespace

void Office::call_in_main_thread(const std::string& what, const std::function<void()>& work) {
    session_->call(what, [&] {
        const rtl::Reference<Visit> visit(new Visit(work));
        awt::AsyncCallback::create(session_->context())->addCallback(visit.get(), uno::Any());
        while (!visit->done_within(std::chrono::milliseconds(200)))
            if (!session_->alive())
                throw session_->failure(what, nullptr);
    });
}

} // namespace jarbook::office
