// The service org.jarbook.Inspector: what the menu finds and does, without its dialogs.
#pragma once

#include "uno/document/hidden_document.hpp"

#include <com/sun/star/lang/XServiceInfo.hpp>
#include <cppuhelper/implbase2.hxx>
#include <org/jarbook/XInspector.hpp>

namespace jarbook::menu {

class Inspector final
    : public cppu::WeakImplHelper2<org::jarbook::XInspector, com::sun::star::lang::XServiceInfo> {
public:
    static constexpr const char* implementation_name = "org.jarbook.InspectorImpl";
    static constexpr const char* service_name = "org.jarbook.Inspector";

    explicit Inspector(Context context) : context_(std::move(context)) {}

    com::sun::star::uno::Sequence<org::jarbook::Finding> SAL_CALL explain(const Document& document,
                                                                          sal_Int32 sheet,
                                                                          sal_Int32 column,
                                                                          sal_Int32 row) override;
    com::sun::star::uno::Sequence<org::jarbook::Finding>
        SAL_CALL checkSheet(const Document& document, sal_Int32 sheet) override;
    org::jarbook::PlainCopy SAL_CALL plainCopy(const Document& document, const rtl::OUString& url,
                                               const rtl::OUString& filter) override;

    rtl::OUString SAL_CALL getImplementationName() override;
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override;
    com::sun::star::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override;

private:
    Context context_;
};

} // namespace jarbook::menu
