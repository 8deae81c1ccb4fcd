#include "office.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/sheet/FunctionArgument.hpp>
#include <com/sun/star/sheet/XFunctionDescriptions.hpp>

#include "text.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

uno::Reference<sheet::XSpreadsheetDocument> load(Session& session, const rtl::OUString& url,
                                                 const std::string& what, Shown shown = Shown::no) {
    return session.call(what, [&] {
        uno::Sequence<beans::PropertyValue> hidden(1);
        hidden.getArray()[0].Name = "Hidden";
        hidden.getArray()[0].Value <<= shown == Shown::no;
        const auto loader = session.as<frame::XComponentLoader>(session.desktop(), what);
        const auto component = loader->loadComponentFromURL(url, "_blank", 0, hidden);
        if (!component.is())
            throw session.failure(what + ": the office cannot load it", nullptr);
        return session.as<sheet::XSpreadsheetDocument>(component, what + " as a spreadsheet");
    });
}

template <class Type>
Type property(const uno::Sequence<beans::PropertyValue>& properties, const char* name) {
    Type result{};
    for (const beans::PropertyValue& property : properties)
        if (property.Name.equalsAscii(name))
            property.Value >>= result;
    return result;
}

} // namespace

Office::Office(Options options)
    : options_(std::move(options)), profile_(options_.profile),
      session_(std::make_shared<Session>(options_, profile_)) {}

Office::~Office() {
    end();
}

void Office::restart() {
    if (!end())
        throw OfficeError("the office did not end in good order before its restart\n" + log());
    session_ = std::make_shared<Session>(options_, profile_);
}

bool Office::end() {
    return session_->end();
}
bool Office::alive() {
    return session_->alive();
}
pid_t Office::pid() const {
    return session_->pid();
}
const std::filesystem::path& Office::profile() const {
    return profile_.folder();
}
std::string Office::log() const {
    return profile_.log_tail();
}

uno::Reference<uno::XInterface> Office::service(const std::string& name) {
    return session_->service(name);
}

uno::Reference<uno::XComponentContext> Office::context() {
    return session_->context();
}

Document Office::new_document() {
    return {session_, load(*session_, "private:factory/scalc", "making a new spreadsheet"),
            "the new spreadsheet"};
}

Document Office::open(const std::filesystem::path& file, Shown shown) {
    if (!std::filesystem::exists(file))
        throw OfficeError("there is no file " + file.string());
    return {session_, load(*session_, to_url(file), "opening " + file.string(), shown),
            file.string()};
}

std::vector<Document> Office::open_documents() {
    return session_->call("looking for open documents", [&] {
        std::vector<Document> result;
        const auto all = session_->desktop()->getComponents()->createEnumeration();
        while (all->hasMoreElements()) {
            const uno::Reference<sheet::XSpreadsheetDocument> document(all->nextElement(),
                                                                       uno::UNO_QUERY);
            if (document.is())
                result.push_back(Document(session_, document, "an open document"));
        }
        return result;
    });
}

std::vector<FunctionDescription> Office::function_descriptions() {
    const std::string what = "reading the function descriptions";
    const auto all = session_->as<sheet::XFunctionDescriptions>(
        service("com.sun.star.sheet.FunctionDescriptions"), what);
    return session_->call(what, [&] {
        std::vector<FunctionDescription> result;
        const sal_Int32 count = all->getCount();
        for (sal_Int32 index = 0; index < count; ++index) {
            uno::Sequence<beans::PropertyValue> properties;
            all->getByIndex(index) >>= properties;
            FunctionDescription function;
            function.name = to_utf8(property<rtl::OUString>(properties, "Name"));
            function.description = to_utf8(property<rtl::OUString>(properties, "Description"));
            for (const sheet::FunctionArgument& argument :
                 property<uno::Sequence<sheet::FunctionArgument>>(properties, "Arguments"))
                function.arguments.push_back({to_utf8(argument.Name), to_utf8(argument.Description),
                                              static_cast<bool>(argument.IsOptional)});
            result.push_back(std::move(function));
        }
        return result;
    });
}

} // namespace jarbook::office
