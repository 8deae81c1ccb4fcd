// An add-in that computes nothing: each function gives back its first number, or 1.
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase2.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <org/jarbook/benchmark/XNothing.hpp>

namespace {

namespace uno = com::sun::star::uno;
using uno::Any;

class Nothing final : public cppu::WeakImplHelper2<org::jarbook::benchmark::XNothing,
                                                   com::sun::star::lang::XServiceInfo> {
public:
    double SAL_CALL scalars(double a, double, const Any&, const Any&) override { return a; }
    double SAL_CALL more(double a, double, double, const Any&, const Any&) override { return a; }
    double SAL_CALL lists(const Any&, const Any&, const Any&) override { return 1.0; }

    rtl::OUString SAL_CALL getImplementationName() override {
        return "org.jarbook.benchmark.NothingImpl";
    }
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override {
        return cppu::supportsService(this, name);
    }
    uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override {
        const rtl::OUString name = "org.jarbook.benchmark.Nothing";
        return uno::Sequence<rtl::OUString>(&name, 1);
    }
};

} // namespace

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* jarbook_nothing(uno::XComponentContext*,
                                                                 const uno::Sequence<Any>&) {
    return cppu::acquire(new Nothing);
}
