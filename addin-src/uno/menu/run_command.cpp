#include "uno/dialogs/show_outcome.hpp"
#include "uno/menu/commands.hpp"
#include "uno/run_log/add_run.hpp"

#include <com/sun/star/sheet/XViewFreezable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

Outcome add_run(const Situation& situation, const Request& request) {
    const Document document = situation.document();
    if (const std::string obstacle = obstacle_to_run(document); !obstacle.empty())
        return Outcome::refused("", obstacle);
    if (!request.silent &&
        !confirmed(situation, "Add a run to this workbook",
                   "A new run sheet will be added, and its row in the Run book.\n\nThis cannot be "
                   "undone, and Undo will no longer take back what was done before it.")) {
        Outcome outcome;
        outcome.done = false;
        outcome.given_up = true;
        return outcome;
    }
    const AddedRun added = add_run_sheet(situation.context(), document);
    situation.select({added.title, added.title});
    // The title row stays in sight, as on the other run sheets.
    const uno::Reference<sheet::XViewFreezable> view(situation.frame()->getController(),
                                                     uno::UNO_QUERY);
    if (view.is())
        view->freezeAtPosition(0, 1);
    Outcome outcome;
    outcome.text = "The sheet " + added.name + " is ready to be filled in, and the " +
                   added.register_sheet + " has a row for it. This step cannot be undone.";
    return outcome;
}

} // namespace jarbook::menu
