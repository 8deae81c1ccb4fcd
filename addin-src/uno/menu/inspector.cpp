#include "uno/menu/inspector.hpp"

#include "uno/check/sheet_check.hpp"
#include "uno/explain/inspection.hpp"
#include "uno/menu/guard.hpp"
#include "uno/plain_copy/plain_copy.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <cppuhelper/supportsservice.hxx>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

uno::Sequence<org::jarbook::Finding> Inspector::explain(const Document& document, sal_Int32 sheet,
                                                        sal_Int32 column, sal_Int32 row) {
    return for_caller([&] {
        NoProgress waits;
        return handed_out(document,
                          explain_cells(context_, document, {{sheet, column, row}}, waits), sheet);
    });
}

uno::Sequence<org::jarbook::Finding> Inspector::checkSheet(const Document& document,
                                                           sal_Int32 sheet) {
    return for_caller([&] {
        NoProgress waits;
        return handed_out(document, check_sheet(context_, document, sheet, waits), sheet);
    });
}

org::jarbook::PlainCopy Inspector::plainCopy(const Document& document, const rtl::OUString& url,
                                             const rtl::OUString& filter) {
    return for_caller([&]() -> org::jarbook::PlainCopy {
        NoProgress waits;
        const PlainCopyReport report = save_plain_copy(context_, document, url, filter, waits);
        uno::Sequence<rtl::OUString> names(static_cast<sal_Int32>(report.names.size()));
        std::transform(report.names.begin(), report.names.end(), names.getArray(), ustring);
        return {report.cells, report.arrays, names, report.password_dropped,
                ustring(report.remarks)};
    });
}

rtl::OUString Inspector::getImplementationName() {
    return ustring(implementation_name);
}

sal_Bool Inspector::supportsService(const rtl::OUString& name) {
    return cppu::supportsService(this, name);
}

uno::Sequence<rtl::OUString> Inspector::getSupportedServiceNames() {
    const rtl::OUString name = ustring(service_name);
    return uno::Sequence<rtl::OUString>(&name, 1);
}

} // namespace jarbook::menu
