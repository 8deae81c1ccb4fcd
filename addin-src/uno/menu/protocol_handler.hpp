// The service org.jarbook.Menu: answers to the addresses of the menu.
//
// A dispatch may carry the arguments Silent, URL, FilterName and Progress (see Request). A listener
// of dispatchWithNotification gets SUCCESS or FAILURE, and as result the document that was opened,
// the findings, or the text that would have been shown.
#pragma once

#include "uno/menu/entries.hpp"

#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <cppuhelper/implbase4.hxx>

namespace jarbook::menu {

class ProtocolHandler final
    : public cppu::WeakImplHelper4<
          com::sun::star::frame::XDispatchProvider, com::sun::star::frame::XNotifyingDispatch,
          com::sun::star::lang::XInitialization, com::sun::star::lang::XServiceInfo> {
public:
    static constexpr const char* implementation_name = "org.jarbook.MenuImpl";
    static constexpr const char* service_name = "org.jarbook.Menu";

    explicit ProtocolHandler(Context context) : context_(std::move(context)) {}

    // XInitialization: the frame.
    void SAL_CALL
    initialize(const com::sun::star::uno::Sequence<com::sun::star::uno::Any>& arguments) override;

    com::sun::star::uno::Reference<com::sun::star::frame::XDispatch>
        SAL_CALL queryDispatch(const com::sun::star::util::URL& url, const rtl::OUString& target,
                               sal_Int32 flags) override;
    com::sun::star::uno::Sequence<com::sun::star::uno::Reference<com::sun::star::frame::XDispatch>>
        SAL_CALL queryDispatches(
            const com::sun::star::uno::Sequence<com::sun::star::frame::DispatchDescriptor>&
                descriptors) override;

    void SAL_CALL
    dispatch(const com::sun::star::util::URL& url,
             const com::sun::star::uno::Sequence<com::sun::star::beans::PropertyValue>& arguments)
        override;
    void SAL_CALL dispatchWithNotification(
        const com::sun::star::util::URL& url,
        const com::sun::star::uno::Sequence<com::sun::star::beans::PropertyValue>& arguments,
        const com::sun::star::uno::Reference<com::sun::star::frame::XDispatchResultListener>&
            listener) override;
    void SAL_CALL addStatusListener(
        const com::sun::star::uno::Reference<com::sun::star::frame::XStatusListener>& listener,
        const com::sun::star::util::URL& url) override;
    void SAL_CALL removeStatusListener(
        const com::sun::star::uno::Reference<com::sun::star::frame::XStatusListener>& listener,
        const com::sun::star::util::URL& url) override;

    rtl::OUString SAL_CALL getImplementationName() override;
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override;
    com::sun::star::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override;

private:
    Outcome called(const com::sun::star::util::URL& url, const Request& request);

    Context context_;
    com::sun::star::uno::Reference<com::sun::star::frame::XFrame> frame_;
};

} // namespace jarbook::menu
