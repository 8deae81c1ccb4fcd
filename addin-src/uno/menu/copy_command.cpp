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
using addin::utf8;

namespace {

constexpr char ods_title[] = "OpenDocument spreadsheet (.ods)";
constexpr char xlsx_title[] = "Office Open XML spreadsheet (.xlsx)";

// "Season 3 plain.ods" for a document called "Season 3.ods".
rtl::OUString proposed_name(const Document& document) {
    const uno::Reference<frame::XTitle> titled(document, uno::UNO_QUERY);
    rtl::OUString title = titled.is() ? titled->getTitle() : rtl::OUString("Jarbook");
    const sal_Int32 dot = title.lastIndexOf('.');
    if (dot > 0 && title.getLength() - dot <= 5)
        title = title.copy(0, dot);
    return title + " plain.ods";
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
    picker->setTitle("Save a copy with plain values");
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
            return Outcome::refused("", "Where should the copy go? The address is missing.");
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
        return Outcome::refused("", "The copy must not take the place of the document itself. "
                                    "Choose another name.");
    Outcome outcome;
    const PlainCopyReport report =
        save_plain_copy(situation.context(), situation.document(), request.url, request.filter);
    outcome.text = "Saved: " + utf8(file_name(request.url)) + "\n\n" + told(report);
    return outcome;
}

} // namespace jarbook::menu
