#include "uno/dialogs/command_progress.hpp"

#include "texts/dialog.hpp"
#include "uno/dialogs/dialog.hpp"
#include "uno/dialogs/hears_closing.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XActionListener.hpp>
#include <com/sun/star/awt/XButton.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/awt/XFixedText.hpp>
#include <com/sun/star/awt/XProgressBar.hpp>
#include <com/sun/star/awt/XToolkitExperimental.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/awt/XTopWindowListener.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/TerminationVetoException.hpp>
#include <com/sun/star/frame/XTerminateListener.hpp>
#include <com/sun/star/task/XStatusIndicator.hpp>
#include <com/sun/star/task/XStatusIndicatorFactory.hpp>
#include <com/sun/star/util/CloseVetoException.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XCloseListener.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cppuhelper/implbase4.hxx>
#include <rtl/ref.hxx>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

constexpr auto before_window = std::chrono::seconds(1);
constexpr auto between_looks = std::chrono::milliseconds(100);
constexpr sal_Int32 whole = 1000;
constexpr sal_Int32 width = 190;
constexpr sal_Int32 height = 52;

// Closes a document when the command that kept it open is off the stack.
class CloseLater final : public cppu::WeakImplHelper1<awt::XCallback> {
public:
    explicit CloseLater(uno::Reference<util::XCloseable> document)
        : document_(std::move(document)) {}
    void SAL_CALL notify(const uno::Any&) override {
        try {
            document_->close(true);
        } catch (const uno::Exception&) {
            // Somebody else keeps it open now, and has to close it.
        }
    }

private:
    uno::Reference<util::XCloseable> document_;
};

// Hears the Stop button, and whoever wants to close the document or the office meanwhile.
class StopEar final
    : public HearsClosing<cppu::WeakImplHelper4<awt::XActionListener, awt::XTopWindowListener,
                                                frame::XTerminateListener, util::XCloseListener>> {
public:
    bool stopped() const { return stopped_; }
    bool to_be_closed() const { return to_be_closed_; }

    void SAL_CALL actionPerformed(const awt::ActionEvent&) override { stopped_ = true; }
    void SAL_CALL windowClosing(const lang::EventObject&) override { stopped_ = true; }

    void SAL_CALL queryTermination(const lang::EventObject&) override {
        stopped_ = true;
        throw frame::TerminationVetoException();
    }
    void SAL_CALL notifyTermination(const lang::EventObject&) override { stopped_ = true; }

    void SAL_CALL queryClosing(const lang::EventObject&, sal_Bool gets_ownership) override {
        stopped_ = true;
        to_be_closed_ = to_be_closed_ || gets_ownership;
        throw util::CloseVetoException();
    }
    void SAL_CALL notifyClosing(const lang::EventObject&) override { stopped_ = true; }
    void SAL_CALL disposing(const lang::EventObject&) override { stopped_ = true; }

private:
    bool stopped_ = false;
    bool to_be_closed_ = false;
};

} // namespace

class CommandProgress::Window {
public:
    Window(const Situation& situation, const std::string& title)
        : situation_(situation), ear_(new StopEar),
          dialog_(situation.context(), title, width, height) {
        dialog_.add_label("step", {6, 6, width - 12, 10}, "");
        const auto bar = dialog_.add("ProgressBar", "bar", {6, 18, width - 12, 10});
        bar->setPropertyValue("ProgressValueMin", uno::Any(sal_Int32(0)));
        bar->setPropertyValue("ProgressValueMax", uno::Any(whole));
        dialog_.add_button("stop", {width - 56, 33, 50, 14}, std::string(texts::dialog::stop),
                           Dialog::Ends::no);
        dialog_.make(situation);
        const uno::Reference<awt::XButton> stop(dialog_.control("stop"), uno::UNO_QUERY_THROW);
        stop->addActionListener(ear_.get());
        const uno::Reference<awt::XTopWindow> top(dialog_.window(), uno::UNO_QUERY_THROW);
        top->addTopWindowListener(ear_.get());
        toolkit_.set(awt::Toolkit::create(situation.context()), uno::UNO_QUERY);
        // First of all: showing anything may serve windows.
        keep_open();
        take_no_input();
        show_in_status_bar(title);
        uno::Reference<awt::XWindow>(dialog_.window(), uno::UNO_QUERY_THROW)->setVisible(true);
    }

    ~Window() {
        quietly([&] {
            const auto desktop = frame::Desktop::create(situation_.context());
            desktop->removeTerminateListener(ear_.get());
        });
        quietly([&] {
            if (document_.is())
                document_->removeCloseListener(ear_.get());
        });
        for (const auto& window : disabled_)
            quietly([&] { window->setEnable(true); });
        quietly([&] {
            if (indicator_.is())
                indicator_->end();
        });
        quietly([&] { dialog_.dispose(); });
        quietly([&] {
            const uno::Reference<util::XCloseable> closeable(document_, uno::UNO_QUERY);
            if (ear_->to_be_closed() && closeable.is())
                awt::AsyncCallback::create(situation_.context())
                    ->addCallback(new CloseLater(closeable), uno::Any());
        });
    }

    // Shows how far the command is and serves all windows.
    void tell(const std::string& step, std::size_t done, std::size_t pieces) {
        const uno::Reference<awt::XFixedText> label(dialog_.control("step"), uno::UNO_QUERY);
        const uno::Reference<awt::XProgressBar> bar(dialog_.control("bar"), uno::UNO_QUERY);
        const auto value = pieces == 0
                               ? sal_Int32(0)
                               : static_cast<sal_Int32>(static_cast<double>(done) /
                                                        static_cast<double>(pieces) * whole);
        if (label.is())
            label->setText(ustring(pieces > 1
                                       ? texts::dialog::progress{.step = step,
                                                                 .done = std::to_string(done),
                                                                 .all = std::to_string(pieces)}
                                             .text()
                                       : step));
        if (bar.is())
            bar->setValue(value);
        if (indicator_.is())
            indicator_->setValue(value);
        if (toolkit_.is())
            toolkit_->processEventsToIdle();
    }
    bool stopped() const { return ear_->stopped(); }

private:
    template <class F>
    static void quietly(F f) {
        try {
            f();
        } catch (const uno::Exception&) {
            // It is gone already.
        }
    }

    void show_in_status_bar(const std::string& title) {
        quietly([&] {
            const uno::Reference<task::XStatusIndicatorFactory> factory(situation_.frame(),
                                                                        uno::UNO_QUERY);
            if (!factory.is())
                return;
            indicator_ = factory->createStatusIndicator();
            if (indicator_.is())
                indicator_->start(ustring(title), whole);
        });
    }

    void take_no_input() {
        quietly([&] {
            const auto desktop = frame::Desktop::create(situation_.context());
            const uno::Reference<container::XIndexAccess> frames(desktop->getFrames(),
                                                                 uno::UNO_QUERY_THROW);
            for (sal_Int32 i = 0; i < frames->getCount(); ++i) {
                const uno::Reference<frame::XFrame> frame(frames->getByIndex(i), uno::UNO_QUERY);
                if (!frame.is() || !frame->getContainerWindow().is())
                    continue;
                frame->getContainerWindow()->setEnable(false);
                disabled_.push_back(frame->getContainerWindow());
            }
        });
    }

    void keep_open() {
        quietly([&] {
            document_.set(situation_.document(), uno::UNO_QUERY);
            if (document_.is())
                document_->addCloseListener(ear_.get());
            frame::Desktop::create(situation_.context())->addTerminateListener(ear_.get());
        });
    }

    Situation situation_;
    rtl::Reference<StopEar> ear_;
    Dialog dialog_;
    uno::Reference<awt::XToolkitExperimental> toolkit_;
    uno::Reference<task::XStatusIndicator> indicator_;
    uno::Reference<util::XCloseBroadcaster> document_;
    std::vector<uno::Reference<awt::XWindow>> disabled_;
};

CommandProgress::CommandProgress(const Situation& situation, std::string title)
    : situation_(situation), title_(std::move(title)),
      next_look_(std::chrono::steady_clock::now() + before_window) {}

CommandProgress::~CommandProgress() = default;

void CommandProgress::begin(const std::string& step, std::size_t pieces) {
    step_ = step;
    pieces_ = pieces;
    at(0);
}

void CommandProgress::at(std::size_t done) {
    done_ = done;
    going_on();
}

void CommandProgress::going_on() {
    if (std::chrono::steady_clock::now() < next_look_)
        return;
    look();
    next_look_ = std::chrono::steady_clock::now() + between_looks;
}

void CommandProgress::look() {
    if (!window_)
        window_ = std::make_unique<Window>(situation_, title_);
    window_->tell(step_, done_, pieces_);
    if (window_->stopped())
        throw Stopped();
}

} // namespace jarbook::menu
