#include "preparing.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/frame/XDispatchHelper.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/util/XProtectable.hpp>

namespace jarbook::hostile {

using namespace com::sun::star;

namespace {

uno::Reference<frame::XFrame> frame_of(office::Document& document) {
    const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
    return model->getCurrentController()->getFrame();
}

} // namespace

void call_office(office::Office& office, office::Document& document, const char* command) {
    office.call_in_main_thread(command, [&] {
        const uno::Reference<frame::XDispatchHelper> helper(
            office.service("com.sun.star.frame.DispatchHelper"), uno::UNO_QUERY_THROW);
        const uno::Reference<frame::XDispatchProvider> frame(frame_of(document),
                                                             uno::UNO_QUERY_THROW);
        helper->executeDispatch(frame, rtl::OUString::createFromAscii(command), "", 0, {});
    });
}

void protect(office::Office& office, office::Document& document, const office::Sheet& sheet,
             const char* password) {
    office.call("protecting", [&] {
        for (const uno::Reference<uno::XInterface>& what :
             {uno::Reference<uno::XInterface>(sheet.uno()),
              uno::Reference<uno::XInterface>(document.uno())}) {
            const uno::Reference<util::XProtectable> protectable(what, uno::UNO_QUERY_THROW);
            protectable->protect(rtl::OUString::createFromAscii(password));
        }
    });
}

void set_property(office::Office& office, const uno::Reference<uno::XInterface>& object,
                  const char* name, const uno::Any& value) {
    office.call(name, [&] {
        const uno::Reference<beans::XPropertySet> properties(object, uno::UNO_QUERY_THROW);
        properties->setPropertyValue(rtl::OUString::createFromAscii(name), value);
    });
}

} // namespace jarbook::hostile
