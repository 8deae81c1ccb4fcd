#include "uno/menu/entries.hpp"

#include "texts/entry.hpp"
#include "texts/menu.hpp"
#include "uno/dialogs/command_progress.hpp"
#include "uno/menu/commands.hpp"
#include "uno/menu/guard.hpp"
#include "uno/text/utf8.hpp"

namespace jarbook::menu {

using namespace com::sun::star;

const std::vector<Command>& commands() {
    using Needs = Command::Needs;
    static const std::vector<Command> all{
        {"newRunLog", texts::entry::new_run_log, Needs::nothing, new_run_log},
        {"workedExample", texts::entry::worked_example, Needs::nothing, worked_example},
        {"addRun", texts::entry::add_run, Needs::changeable_sheet, add_run},
        {"insertJar", texts::entry::insert_jar, Needs::changeable_sheet, insert_jar},
        {"mendBoxes", texts::entry::mend_boxes, Needs::changeable_sheet, mend_boxes},
        {"removeRun", texts::entry::remove_run, Needs::changeable_sheet, remove_run},
        {"takeFromShelf", texts::entry::take_from_shelf, Needs::changeable_sheet, take_from_shelf},
        {"addToShelf", texts::entry::add_to_shelf, Needs::changeable_sheet, add_to_shelf},
        {"whyError", texts::entry::why_error, Needs::sheet, why_error},
        {"checkSheet", texts::entry::check_sheet, Needs::sheet, check_this_sheet},
        {"plainCopy", texts::entry::plain_copy, Needs::sheet, plain_copy},
        {"recalculate", texts::entry::recalculate, Needs::sheet, recalculate},
        {"functions", texts::entry::functions, Needs::nothing, function_reference},
        {"printedTables", texts::entry::printed_tables, Needs::nothing, printed_tables},
        {"about", texts::entry::about, Needs::nothing, about},
    };
    return all;
}

const Command* command(const rtl::OUString& name) {
    for (const Command& known : commands())
        if (name.equalsAscii(known.name))
            return &known;
    return nullptr;
}

bool applies(const Command& command, const Situation& situation) {
    switch (command.needs) {
    case Command::Needs::nothing:
        return true;
    case Command::Needs::sheet:
        return situation.document().is();
    case Command::Needs::changeable_sheet:
        return situation.document().is() && !situation.read_only();
    }
    return false;
}

namespace {

// Windows are served while a command works, and might call another.
class AtWork {
public:
    AtWork() : first_(!busy()) { busy() = true; }
    ~AtWork() {
        if (first_)
            busy() = false;
    }
    AtWork(const AtWork&) = delete;
    AtWork& operator=(const AtWork&) = delete;
    bool alone() const { return first_; }

private:
    // Commands run on the office's main thread, or under its mutex.
    static bool& busy() {
        static bool at_work = false;
        return at_work;
    }
    bool first_;
};

Outcome called(const Command& command, const Situation& situation, const Request& given) {
    const std::string title(command.title);
    if (!applies(command, situation))
        return Outcome::refused(title,
                                std::string(situation.document().is() ? texts::menu::read_only
                                                                      : texts::menu::needs_sheet));
    const AtWork work;
    if (!work.alone())
        return Outcome::refused(title, std::string(texts::menu::busy));
    Request request = given;
    if (!request.silent || request.shows_progress)
        request.progress = std::make_shared<CommandProgress>(situation, title);
    Outcome outcome = command.run(situation, request);
    if (outcome.title.empty())
        outcome.title = title;
    if (!outcome.result.hasValue())
        outcome.result <<= addin::ustring(outcome.text);
    return outcome;
}

} // namespace

Outcome run(const Command& command, const Situation& situation, const Request& request) {
    return guarded(std::string(command.title), [&] { return called(command, situation, request); });
}

} // namespace jarbook::menu
