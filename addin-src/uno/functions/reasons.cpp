#include "uno/functions/reasons.hpp"
#include "uno/text/utf8.hpp"

#include "uno/functions/arguments.hpp"
#include "uno/functions/reason_log.hpp"

#include <cppuhelper/supportsservice.hxx>

namespace jarbook::addin {

com::sun::star::uno::Sequence<org::jarbook::Reason> Reasons::latest() {
    const auto logged = ReasonLog::get().latest();
    com::sun::star::uno::Sequence<org::jarbook::Reason> result(
        static_cast<sal_Int32>(logged.size()));
    org::jarbook::Reason* to = result.getArray();
    for (const LoggedReason& reason : logged)
        *to++ = {ustring(reason.function), ustring(reason.argument), ustring(reason.value),
                 ustring(reason.sentence), reason.code};
    return result;
}

void Reasons::forget() {
    ReasonLog::get().forget();
}

rtl::OUString Reasons::getImplementationName() {
    return ustring(implementation_name);
}

sal_Bool Reasons::supportsService(const rtl::OUString& name) {
    return cppu::supportsService(this, name);
}

com::sun::star::uno::Sequence<rtl::OUString> Reasons::getSupportedServiceNames() {
    const rtl::OUString name = ustring(service_name);
    return com::sun::star::uno::Sequence<rtl::OUString>(&name, 1);
}

} // namespace jarbook::addin
