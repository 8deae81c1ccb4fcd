#include "uno/dialogs/show_outcome.hpp"

#include "uno/dialogs/findings_dialog.hpp"
#include "uno/dialogs/text_dialog.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/awt/MessageBoxButtons.hpp>
#include <com/sun/star/awt/MessageBoxResults.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XMessageBoxFactory.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

// Longer texts are read in a dialog that can be scrolled.
constexpr std::size_t message_length = 600;

sal_Int16 message(const Situation& situation, awt::MessageBoxType type, sal_Int32 buttons,
                  const std::string& title, const std::string& text) {
    const uno::Reference<awt::XMessageBoxFactory> factory(awt::Toolkit::create(situation.context()),
                                                          uno::UNO_QUERY_THROW);
    uno::Reference<awt::XWindowPeer> parent;
    if (situation.frame().is())
        parent.set(situation.frame()->getContainerWindow(), uno::UNO_QUERY);
    const auto box =
        factory->createMessageBox(parent, type, buttons, ustring(title), ustring(text));
    return box->execute();
}

} // namespace

void show(const Situation& situation, const Outcome& outcome) {
    if (outcome.given_up)
        return;
    if (!outcome.findings.empty())
        show_findings(situation, outcome);
    else if (outcome.text.size() > message_length)
        show_text(situation, outcome);
    else if (!outcome.text.empty())
        message(situation,
                outcome.done ? awt::MessageBoxType_INFOBOX : awt::MessageBoxType_WARNINGBOX,
                awt::MessageBoxButtons::BUTTONS_OK, outcome.title, outcome.text);
}

bool confirmed(const Situation& situation, const std::string& title, const std::string& question) {
    return message(situation, awt::MessageBoxType_QUERYBOX,
                   awt::MessageBoxButtons::BUTTONS_OK_CANCEL, title,
                   question) == awt::MessageBoxResults::OK;
}

} // namespace jarbook::menu
