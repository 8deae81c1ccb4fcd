#include "texts/copy.hpp"
#include "uno/menu/commands.hpp"
#include "uno/plain_copy/plain_copy.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/frame/XTitle.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/ui/dialogs/ExecutableDialogResults.hpp>
#include <com/sun/star/ui/dialogs/FilePicker.hpp>
#include <com/sun/star/ui/dialogs/TemplateDescription.hpp>
#include <rtl/uri.hxx>

namespace jarbook::menu {

using namespace com::sun::star;
namespace dialogs = ui::dialogs;
using addin::ustring;
using addin::utf8;

namespace {

// "Season 3 plain.ods" for a document called "Season 3.ods".
rtl::OUString proposed_name(const Document& document) {
    const uno::Reference<frame::XTitle> titled(document, uno::UNO_QUERY);
    rtl::OUString title = titled.is() ? titled->getTitle() : rtl::OUString("Jarbook");
    const sal_Int32 dot = title.lastIndexOf('.');
    if (dot > 0 && title.getLength() - dot <= 5)
        title = title.copy(0, dot);
    return ustring(texts::copy::proposed{.document = utf8(title)}.text());
}

// "Season 3 plain.ods" of its address.
rtl::OUString file_name(const rtl::OUString& url) {
    return rtl::Uri::decode(url.copy(url.lastIndexOf('/') + 1), rtl_UriDecodeWithCharset,
                            RTL_TEXTENCODING_UTF8);
}

// "season.xlsx" for the "season.xlsx.ods" that the dialog makes of it by the kind in its list;
// unless there is such a file, about which the dialog has not asked.
rtl::OUString as_typed(const Situation& situation, const rtl::OUString& url) {
    rtl::OUString typed;
    const rtl::OUString lower = url.toAsciiLowerCase();
    if (lower.endsWith(".xlsx.ods"))
        typed = url.copy(0, url.getLength() - 4);
    else if (lower.endsWith(".ods.xlsx"))
        typed = url.copy(0, url.getLength() - 5);
    if (typed.isEmpty() || ucb::SimpleFileAccess::create(situation.context())->exists(typed))
        return url;
    return typed;
}

// Asks where to store; false if the person went back.
bool ask(const Situation& situation, Request& request) {
    const auto picker = dialogs::FilePicker::createWithMode(
        situation.context(), dialogs::TemplateDescription::FILESAVE_AUTOEXTENSION);
    picker->setTitle(ustring(texts::copy::title));
    const rtl::OUString ods_title = ustring(texts::copy::kind_ods);
    const rtl::OUString xlsx_title = ustring(texts::copy::kind_xlsx);
    picker->appendFilter(ods_title, "*.ods");
    picker->appendFilter(xlsx_title, "*.xlsx");
    picker->setCurrentFilter(ods_title);
    picker->setDefaultName(proposed_name(situation.document()));
    const uno::Reference<frame::XStorable> storable(situation.document(), uno::UNO_QUERY_THROW);
    if (storable->hasLocation()) {
        const rtl::OUString url = storable->getLocation();
        picker->setDisplayDirectory(url.copy(0, url.lastIndexOf('/')));
    }
    if (picker->execute() != dialogs::ExecutableDialogResults::OK)
        return false;
    const auto files = picker->getSelectedFiles();
    if (files.getLength() == 0)
        return false;
    request.url = files[0];
    request.url = as_typed(situation, request.url);
    // What was typed counts before the list of kinds.
    const rtl::OUString lower = request.url.toAsciiLowerCase();
    const bool xlsx = lower.endsWith(".xlsx") ||
                      (!lower.endsWith(".ods") && picker->getCurrentFilter() == xlsx_title);
    if (!lower.endsWith(".xlsx") && !lower.endsWith(".ods"))
        request.url += xlsx ? rtl::OUString(".xlsx") : rtl::OUString(".ods");
    request.filter = xlsx ? rtl::OUString(filter_xlsx) : rtl::OUString(filter_ods);
    return true;
}

} // namespace

Outcome plain_copy(const Situation& situation, const Request& given) {
    Request request = given;
    if (request.url.isEmpty()) {
        if (request.silent)
            return Outcome::refused("", std::string(texts::copy::no_address));
        if (!ask(situation, request)) {
            Outcome outcome;
            outcome.done = false;
            outcome.given_up = true;
            return outcome;
        }
    }
    if (request.filter.isEmpty())
        request.filter = request.url.toAsciiLowerCase().endsWith(".xlsx")
                             ? rtl::OUString(filter_xlsx)
                             : rtl::OUString(filter_ods);
    const uno::Reference<frame::XStorable> storable(situation.document(), uno::UNO_QUERY_THROW);
    if (storable->hasLocation() && storable->getLocation() == request.url)
        return Outcome::refused("", std::string(texts::copy::itself));
    Outcome outcome;
    const PlainCopyReport report = save_plain_copy(situation.context(), situation.document(),
                                                   request.url, request.filter, *request.progress);
    outcome.text = texts::copy::saved{.file = utf8(file_name(request.url))}.text();
    outcome.text.append("\n\n").append(report_text(report));
    return outcome;
}

} // namespace jarbook::menu
