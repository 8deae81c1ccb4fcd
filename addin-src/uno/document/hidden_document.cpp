#include "uno/document/hidden_document.hpp"

#include "uno/document/properties.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/MacroExecMode.hpp>
#include <com/sun/star/document/UpdateDocMode.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/XLoadable.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/SequenceInputStream.hpp>
#include <com/sun/star/io/SequenceOutputStream.hpp>
#include <com/sun/star/util/XCloseable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// The format that keeps everything a Calc document has.
constexpr const char* own_filter = "calc8";

// Without frame, window and view: that takes a third of the time, and nobody comes upon it.
Document create(const Context& context) {
    return {context->getServiceManager()->createInstanceWithContext(
                "com.sun.star.sheet.SpreadsheetDocument", context),
            uno::UNO_QUERY_THROW};
}

Document load(const Context& context, const rtl::OUString& url, Properties more) {
    more.add("URL", url);
    more.add("Hidden", true);
    more.add("MacroExecutionMode", sal_Int16(document::MacroExecMode::NEVER_EXECUTE));
    more.add("UpdateDocMode", sal_Int16(document::UpdateDocMode::NO_UPDATE));
    const Document document = create(context);
    const uno::Reference<frame::XLoadable> loadable(document, uno::UNO_QUERY_THROW);
    loadable->load(more.sequence());
    return document;
}

} // namespace

HiddenDocument::HiddenDocument(Document document) : document_(std::move(document)) {
    const uno::Reference<document::XUndoManagerSupplier> undo(document_, uno::UNO_QUERY);
    if (undo.is())
        undo->getUndoManager()->lock();
}

void HiddenDocument::only_compute() {
    const uno::Reference<beans::XPropertySet> properties(document_, uno::UNO_QUERY_THROW);
    for (const char* name : {"IsUndoEnabled", "IsAdjustHeightEnabled"})
        properties->setPropertyValue(rtl::OUString::createFromAscii(name), uno::Any(false));
}

HiddenDocument HiddenDocument::copy_of(const Context& context, const Document& document) {
    const auto output = io::SequenceOutputStream::create(context);
    const uno::Reference<frame::XStorable> storable(document, uno::UNO_QUERY_THROW);
    Properties store;
    store.add("FilterName", rtl::OUString::createFromAscii(own_filter));
    store.add("OutputStream", uno::Reference<io::XOutputStream>(output.get()));
    storable->storeToURL("private:stream", store.sequence());

    Properties open;
    open.add("FilterName", rtl::OUString::createFromAscii(own_filter));
    const auto input =
        io::SequenceInputStream::createStreamFromSequence(context, output->getWrittenBytes());
    open.add("InputStream", uno::Reference<io::XInputStream>(input.get()));
    if (storable->hasLocation())
        open.add("DocumentBaseURL", storable->getLocation()); // relative links keep their meaning
    return HiddenDocument(load(context, "private:stream", std::move(open)));
}

HiddenDocument HiddenDocument::empty(const Context& context) {
    const Document document = create(context);
    const uno::Reference<frame::XLoadable> loadable(document, uno::UNO_QUERY_THROW);
    loadable->initNew();
    return HiddenDocument(document);
}

HiddenDocument HiddenDocument::from_template(const Context& context, const rtl::OUString& url) {
    Properties open;
    open.add("FilterName", rtl::OUString("calc8_template")).add("AsTemplate", true);
    return HiddenDocument(load(context, url, std::move(open)));
}

HiddenDocument::~HiddenDocument() {
    if (!document_.is())
        return;
    try {
        const uno::Reference<util::XCloseable> closeable(document_, uno::UNO_QUERY_THROW);
        document_.clear();
        closeable->close(true);
    } catch (const uno::Exception&) {
        // Somebody else holds it: with close(true) it is theirs to close.
    }
}

} // namespace jarbook::menu
