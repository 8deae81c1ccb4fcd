#include "uno/dialogs/text_dialog.hpp"

#include "texts/dialog.hpp"
#include "uno/dialogs/dialog.hpp"

namespace jarbook::menu {

void show_text(const Situation& situation, const Outcome& outcome) {
    Dialog dialog(situation.context(), outcome.title, 320, 262);
    dialog.add_reading("text", {6, 6, 308, 230}, outcome.text);
    dialog.add_button("close", {264, 242, 50, 14}, std::string(texts::dialog::close),
                      Dialog::Ends::yes);
    dialog.make(situation);
    dialog.execute();
    dialog.dispose();
}

} // namespace jarbook::menu
