// The service org.jarbook.Reasons: the latest refusals, for the menu and the tests.
#pragma once

#include <com/sun/star/lang/XServiceInfo.hpp>
#include <cppuhelper/implbase2.hxx>
#include <org/jarbook/XReasons.hpp>

namespace jarbook::addin {

class Reasons final
    : public cppu::WeakImplHelper2<org::jarbook::XReasons, com::sun::star::lang::XServiceInfo> {
public:
    static constexpr const char* implementation_name = "org.jarbook.ReasonsImpl";
    static constexpr const char* service_name = "org.jarbook.Reasons";

    com::sun::star::uno::Sequence<org::jarbook::Reason> SAL_CALL latest() override;
    void SAL_CALL forget() override;

    rtl::OUString SAL_CALL getImplementationName() override;
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override;
    com::sun::star::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override;
};

} // namespace jarbook::addin
