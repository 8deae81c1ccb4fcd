// The constructors that extension/jarbook.components names. Each gives an acquired object.
#include "menu/inspector.hpp"
#include "menu/protocol_handler.hpp"
#include "reasons.hpp"
#include "spirit.hpp"

#include <com/sun/star/uno/Sequence.hxx>
#include <com/sun/star/uno/XComponentContext.hpp>

using Arguments = com::sun::star::uno::Sequence<com::sun::star::uno::Any>;

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
jarbook_spirit(com::sun::star::uno::XComponentContext*, const Arguments&) {
    return cppu::acquire(new jarbook::addin::Spirit);
}

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
jarbook_reasons(com::sun::star::uno::XComponentContext*, const Arguments&) {
    return cppu::acquire(new jarbook::addin::Reasons);
}

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
jarbook_inspector(com::sun::star::uno::XComponentContext* context, const Arguments&) {
    return cppu::acquire(new jarbook::menu::Inspector(context));
}

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
jarbook_menu(com::sun::star::uno::XComponentContext* context, const Arguments&) {
    return cppu::acquire(new jarbook::menu::ProtocolHandler(context));
}
