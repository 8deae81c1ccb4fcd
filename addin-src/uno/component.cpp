// The constructors that extension/jarbook.components names. Each gives an acquired object.
//
// A library that is installed into a running office works in a process of its own until the office
// is started again, and there the office asks for a factory instead: component_getFactory below,
// made of the same constructors.
#include "uno/functions/reasons.hpp"
#include "uno/functions/spirit.hpp"
#include "uno/menu/inspector.hpp"
#include "uno/menu/protocol_handler.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XSet.hpp>
#include <com/sun/star/lang/XSingleComponentFactory.hpp>
#include <com/sun/star/uno/Sequence.hxx>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/factory.hxx>
#include <dlfcn.h>
#include <osl/file.hxx>
#include <string_view>

namespace uno = com::sun::star::uno;
using Arguments = uno::Sequence<uno::Any>;

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* jarbook_spirit(uno::XComponentContext*,
                                                                const Arguments&) {
    return cppu::acquire(new jarbook::addin::Spirit);
}

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* jarbook_reasons(uno::XComponentContext*,
                                                                 const Arguments&) {
    return cppu::acquire(new jarbook::addin::Reasons);
}

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* jarbook_inspector(uno::XComponentContext* context,
                                                                   const Arguments&) {
    return cppu::acquire(new jarbook::menu::Inspector(context));
}

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* jarbook_menu(uno::XComponentContext* context,
                                                              const Arguments&) {
    return cppu::acquire(new jarbook::menu::ProtocolHandler(context));
}

namespace {

template <uno::XInterface* (*constructor)(uno::XComponentContext*, const Arguments&)>
uno::Reference<uno::XInterface>
    SAL_CALL made(const uno::Reference<uno::XComponentContext>& context) {
    return {constructor(context.get(), {}), SAL_NO_ACQUIRE};
}

struct Component {
    const char* implementation;
    const char* service;
    cppu::ComponentFactoryFunc make;
};

template <class Object, auto constructor>
constexpr Component component{Object::implementation_name, Object::service_name, made<constructor>};

// As in extension/jarbook.components; a test holds the two together.
constexpr Component components[] = {
    component<jarbook::addin::Spirit, jarbook_spirit>,
    component<jarbook::addin::Reasons, jarbook_reasons>,
    component<jarbook::menu::Inspector, jarbook_inspector>,
    component<jarbook::menu::ProtocolHandler, jarbook_menu>,
};

// The process that the office starts for us knows none of our types, which it needs before the
// first call comes in: they stand in the package, beside this library.
void make_types_known(void* service_manager) {
    Dl_info library;
    rtl::OUString url;
    if (!dladdr(reinterpret_cast<void*>(&jarbook_spirit), &library) ||
        osl::FileBase::getFileURLFromSystemPath(jarbook::addin::ustring(library.dli_fname), url) !=
            osl::FileBase::E_None)
        return;
    const rtl::OUString types = url.copy(0, url.lastIndexOf('/')) + "/jarbook.rdb";
    uno::Reference<uno::XComponentContext> context;
    uno::Reference<com::sun::star::beans::XPropertySet>(
        static_cast<uno::XInterface*>(service_manager), uno::UNO_QUERY_THROW)
        ->getPropertyValue("DefaultContext") >>= context;
    const uno::Reference<com::sun::star::container::XSet> manager(
        context->getValueByName("/singletons/com.sun.star.reflection.theTypeDescriptionManager"),
        uno::UNO_QUERY_THROW);
    manager->insert(uno::Any(types));
}

} // namespace

extern "C" SAL_DLLPUBLIC_EXPORT void* component_getFactory(const char* implementation,
                                                           void* service_manager, void*) {
    try {
        [[maybe_unused]] static const bool once = (make_types_known(service_manager), true);
        for (const Component& component : components) {
            if (std::string_view(implementation) != component.implementation)
                continue;
            const auto name = rtl::OUString::createFromAscii(component.implementation);
            const auto service = rtl::OUString::createFromAscii(component.service);
            const uno::Reference<com::sun::star::lang::XSingleComponentFactory> factory =
                cppu::createSingleComponentFactory(component.make, name,
                                                   uno::Sequence<rtl::OUString>(&service, 1));
            factory->acquire();
            return factory.get();
        }
    } catch (const uno::Exception&) {
        // No factory: the office says so.
    }
    return nullptr;
}
