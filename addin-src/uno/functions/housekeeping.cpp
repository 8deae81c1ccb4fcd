#include "uno/functions/spirit.hpp"
#include "uno/text/utf8.hpp"

#include "core/still/charge_check.hpp"
#include "uno/functions/guard.hpp"
#include "uno/text/version.hpp"

#include <cppuhelper/supportsservice.hxx>

namespace jarbook::addin {

Any Spirit::chargeCheck(double volume, double strength, double boilerVolume, const Any& limit,
                        const Any& stopStrength) {
    return any_result("CHARGECHECK", [&] {
        return Any(ustring(charge_cautions(volume, strength, boilerVolume,
                                           number_or(limit, "limit", loosest_limit_pct_vol),
                                           optional_number(stopStrength, "stopStrength"))));
    });
}

OUString Spirit::version() {
    return ustring(version_text);
}

OUString Spirit::getImplementationName() {
    return ustring(implementation_name);
}

sal_Bool Spirit::supportsService(const OUString& name) {
    return cppu::supportsService(this, name);
}

com::sun::star::uno::Sequence<OUString> Spirit::getSupportedServiceNames() {
    const OUString name = ustring(service_name);
    return com::sun::star::uno::Sequence<OUString>(&name, 1);
}

} // namespace jarbook::addin
