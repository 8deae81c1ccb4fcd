#include "uno/menu/protocol_handler.hpp"

#include "texts/menu.hpp"
#include "uno/dialogs/show_outcome.hpp"
#include "uno/menu/guard.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/FeatureStateEvent.hpp>
#include <cppuhelper/supportsservice.hxx>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

constexpr char protocol[] = "org.jarbook.menu:";

const Command* command_of(const util::URL& url) {
    rtl::OUString name;
    if (!url.Complete.startsWith(protocol, &name))
        return nullptr;
    return command(name);
}

Request request_of(const uno::Sequence<beans::PropertyValue>& arguments) {
    Request request;
    for (const auto& argument : arguments) {
        if (argument.Name == "Silent")
            argument.Value >>= request.silent;
        else if (argument.Name == "URL")
            argument.Value >>= request.url;
        else if (argument.Name == "FilterName")
            argument.Value >>= request.filter;
        else if (argument.Name == "Progress")
            argument.Value >>= request.shows_progress;
    }
    return request;
}

} // namespace

void ProtocolHandler::initialize(const uno::Sequence<uno::Any>& arguments) {
    if (arguments.getLength() > 0)
        arguments[0] >>= frame_;
}

uno::Reference<frame::XDispatch> ProtocolHandler::queryDispatch(const util::URL& url,
                                                                const rtl::OUString&, sal_Int32) {
    if (!command_of(url))
        return {};
    return this;
}

uno::Sequence<uno::Reference<frame::XDispatch>>
ProtocolHandler::queryDispatches(const uno::Sequence<frame::DispatchDescriptor>& descriptors) {
    uno::Sequence<uno::Reference<frame::XDispatch>> result(descriptors.getLength());
    auto* to = result.getArray();
    for (const auto& descriptor : descriptors)
        *to++ = queryDispatch(descriptor.FeatureURL, descriptor.FrameName, descriptor.SearchFlags);
    return result;
}

Outcome ProtocolHandler::called(const util::URL& url, const Request& request) {
    const Command* known = command_of(url);
    if (!known)
        return Outcome::refused("Jarbook", std::string(texts::menu::unknown_command));
    const Situation situation(context_, frame_);
    Outcome outcome = run(*known, situation, request);
    if (!request.silent)
        quietly([&] { show(situation, outcome); });
    return outcome;
}

void ProtocolHandler::dispatch(const util::URL& url,
                               const uno::Sequence<beans::PropertyValue>& arguments) {
    const uno::Reference<uno::XInterface> alive(static_cast<frame::XDispatchProvider*>(this));
    quietly([&] { called(url, request_of(arguments)); });
}

void ProtocolHandler::dispatchWithNotification(
    const util::URL& url, const uno::Sequence<beans::PropertyValue>& arguments,
    const uno::Reference<frame::XDispatchResultListener>& listener) {
    const uno::Reference<uno::XInterface> alive(static_cast<frame::XDispatchProvider*>(this));
    const Outcome outcome = guarded("Jarbook", [&] { return called(url, request_of(arguments)); });
    if (!listener.is())
        return;
    frame::DispatchResultEvent event;
    event.Source = alive;
    event.State =
        outcome.done ? frame::DispatchResultState::SUCCESS : frame::DispatchResultState::FAILURE;
    event.Result =
        outcome.result.hasValue() ? outcome.result : uno::Any(addin::ustring(outcome.text));
    quietly([&] { listener->dispatchFinished(event); });
}

// The menu asks each time that it is opened, so it is told at once and nobody is remembered.
void ProtocolHandler::addStatusListener(const uno::Reference<frame::XStatusListener>& listener,
                                        const util::URL& url) {
    const Command* known = command_of(url);
    if (!known || !listener.is())
        return;
    quietly([&] {
        frame::FeatureStateEvent event;
        event.Source = static_cast<frame::XDispatchProvider*>(this);
        event.FeatureURL = url;
        event.IsEnabled = applies(*known, Situation(context_, frame_));
        event.Requery = false;
        listener->statusChanged(event);
    });
}

void ProtocolHandler::removeStatusListener(const uno::Reference<frame::XStatusListener>&,
                                           const util::URL&) {}

rtl::OUString ProtocolHandler::getImplementationName() {
    return addin::ustring(implementation_name);
}

sal_Bool ProtocolHandler::supportsService(const rtl::OUString& name) {
    return cppu::supportsService(this, name);
}

uno::Sequence<rtl::OUString> ProtocolHandler::getSupportedServiceNames() {
    const rtl::OUString name = addin::ustring(service_name);
    return uno::Sequence<rtl::OUString>(&name, 1);
}

} // namespace jarbook::menu
