#include "uno/dialogs/web_page.hpp"
#include "uno/document/package_files.hpp"
#include "uno/document/properties.hpp"
#include "uno/menu/commands.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/frame/Desktop.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/util/XModifiable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// A new, untitled document made from a packed file, in a window.
Document open_untitled(const Context& context, const char* path) {
    Properties properties;
    properties.add("AsTemplate", true);
    const auto desktop = frame::Desktop::create(context);
    const Document document(desktop->loadComponentFromURL(packed_url(context, path), "_default", 0,
                                                          properties.sequence()),
                            uno::UNO_QUERY_THROW);
    // It must not remember the file that it was made from: a path of this machine, and the office
    // would ask about updates from it.
    const uno::Reference<document::XDocumentPropertiesSupplier> supplier(document,
                                                                         uno::UNO_QUERY_THROW);
    const auto about = supplier->getDocumentProperties();
    about->setTemplateName("");
    about->setTemplateURL("");
    about->setTemplateDate(util::DateTime());
    const uno::Reference<util::XModifiable> modifiable(document, uno::UNO_QUERY_THROW);
    modifiable->setModified(false);
    return document;
}

Outcome opened(const Document& document) {
    Outcome outcome;
    outcome.result <<= document;
    return outcome;
}

bool show_sheet(const Document& document, const char* name) {
    const uno::Reference<frame::XModel> model(document, uno::UNO_QUERY_THROW);
    const rtl::OUString wanted = rtl::OUString::createFromAscii(name);
    const uno::Reference<sheet::XSpreadsheetView> view(model->getCurrentController(),
                                                       uno::UNO_QUERY);
    if (!view.is() || !document->getSheets()->hasByName(wanted))
        return false;
    const uno::Reference<sheet::XSpreadsheet> sheet(document->getSheets()->getByName(wanted),
                                                    uno::UNO_QUERY_THROW);
    view->setActiveSheet(sheet);
    return true;
}

// The sheet of that name in the document at hand, else in a new run log.
Outcome sheet_here_or_in_new(const Situation& situation, const char* name) {
    if (const Document here = situation.document(); here.is() && show_sheet(here, name))
        return opened(here);
    const Document fresh = open_untitled(situation.context(), packed::run_log);
    show_sheet(fresh, name);
    return opened(fresh);
}

} // namespace

Outcome new_run_log(const Situation& situation, const Request&) {
    return opened(open_untitled(situation.context(), packed::run_log));
}

Outcome worked_example(const Situation& situation, const Request&) {
    return opened(open_untitled(situation.context(), packed::worked_example));
}

Outcome function_reference(const Situation& situation, const Request& request) {
    const rtl::OUString page = packed_url(situation.context(), packed::functions);
    Outcome outcome;
    outcome.result <<= page;
    if (request.silent || open_page(situation.context(), page))
        return outcome;
    // No browser: the same text stands in a sheet.
    return sheet_here_or_in_new(situation, functions_sheet);
}

Outcome printed_tables(const Situation& situation, const Request&) {
    return sheet_here_or_in_new(situation, printed_sheet);
}

} // namespace jarbook::menu
