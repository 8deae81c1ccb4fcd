#include "menu/menu_dispatch.hpp"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XDispatchResultListener.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <cppuhelper/implbase1.hxx>
#include <rtl/ref.hxx>
#include <vector>

#include "support/support.hpp"
#include "text.hpp"

namespace jarbook::e2e {

using namespace com::sun::star;
using Book = uno::Reference<sheet::XSpreadsheetDocument>;
using Provider = uno::Reference<frame::XDispatchProvider>;

namespace {

class ResultEar final : public cppu::WeakImplHelper1<frame::XDispatchResultListener> {
public:
    void SAL_CALL dispatchFinished(const frame::DispatchResultEvent& event) override {
        heard = true;
        dispatched = {event.State == frame::DispatchResultState::SUCCESS, event.Result};
    }
    void SAL_CALL disposing(const lang::EventObject&) override {}
    bool heard = false;
    Dispatched dispatched;
};

class Called final : public cppu::WeakImplHelper1<awt::XCallback> {
public:
    explicit Called(std::function<void()> work) : work_(std::move(work)) {}
    void SAL_CALL notify(const uno::Any&) override { work_(); }

private:
    std::function<void()> work_;
};

beans::PropertyValue property(const char* name, const uno::Any& value) {
    beans::PropertyValue result;
    result.Name = rtl::OUString::createFromAscii(name);
    result.Value = value;
    return result;
}

} // namespace

util::URL address_of(const std::string& entry) {
    util::URL url;
    url.Complete = office::to_uno("org.jarbook.menu:" + entry);
    url.Protocol = "org.jarbook.menu:";
    url.Path = office::to_uno(entry);
    return url;
}

Provider frame_of(const Book& book) {
    return shared_office().call("looking for a frame", [&] {
        const uno::Reference<frame::XModel> model(book, uno::UNO_QUERY_THROW);
        return Provider(model->getCurrentController()->getFrame(), uno::UNO_QUERY_THROW);
    });
}

Provider frame_of(const office::Document& document) {
    return frame_of(document.uno());
}

Dispatched dispatch(const Provider& provider, const std::string& entry,
                    const std::map<std::string, rtl::OUString>& arguments,
                    const std::function<void()>& meanwhile) {
    Dispatched result;
    shared_office().call_in_main_thread("calling " + entry, [&] {
        const util::URL url = address_of(entry);
        const uno::Reference<frame::XNotifyingDispatch> dispatch(
            provider->queryDispatch(url, "_self", 0), uno::UNO_QUERY_THROW);
        std::vector<beans::PropertyValue> given{property("Silent", uno::Any(true))};
        if (meanwhile) {
            given.push_back(property("Progress", uno::Any(true)));
            awt::AsyncCallback::create(shared_office().context())
                ->addCallback(new Called(meanwhile), uno::Any());
        }
        for (const auto& [name, value] : arguments)
            given.push_back(property(name.c_str(), uno::Any(value)));
        const rtl::Reference<ResultEar> ear(new ResultEar);
        dispatch->dispatchWithNotification(
            url,
            uno::Sequence<beans::PropertyValue>(given.data(), static_cast<sal_Int32>(given.size())),
            ear.get());
        if (!ear->heard)
            throw office::OfficeError(entry + " did not tell what it came to");
        result = ear->dispatched;
    });
    return result;
}

void show_sheet(const Book& book, const std::string& name) {
    shared_office().call("showing a sheet", [&] {
        const uno::Reference<frame::XModel> model(book, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XSpreadsheetView> view(model->getCurrentController(),
                                                           uno::UNO_QUERY_THROW);
        view->setActiveSheet(uno::Reference<sheet::XSpreadsheet>(
            book->getSheets()->getByName(office::to_uno(name)), uno::UNO_QUERY_THROW));
    });
}

void show_sheet(const office::Document& document, const std::string& name) {
    show_sheet(document.uno(), name);
}

Book open_read_only(const std::filesystem::path& file) {
    return shared_office().call("opening for reading only", [&] {
        const beans::PropertyValue how[] = {property("Hidden", uno::Any(true)),
                                            property("ReadOnly", uno::Any(true))};
        const uno::Reference<frame::XComponentLoader> desktop(
            shared_office().service("com.sun.star.frame.Desktop"), uno::UNO_QUERY_THROW);
        return Book(desktop->loadComponentFromURL(office::to_url(file), "_blank", 0,
                                                  uno::Sequence<beans::PropertyValue>(how, 2)),
                    uno::UNO_QUERY_THROW);
    });
}

} // namespace jarbook::e2e
