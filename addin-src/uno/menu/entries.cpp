#include "uno/menu/entries.hpp"

#include "uno/menu/commands.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/uno/Exception.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

const std::vector<Command>& commands() {
    using Needs = Command::Needs;
    static const std::vector<Command> all{
        {"newRunLog", "New run log", Needs::nothing, new_run_log},
        {"workedExample", "Open the worked example", Needs::nothing, worked_example},
        {"addRun", "Add a run to this workbook", Needs::changeable_sheet, add_run},
        {"whyError", "Why this error?", Needs::sheet, why_error},
        {"checkSheet", "Check this sheet", Needs::sheet, check_this_sheet},
        {"plainCopy", "Save a copy with plain values", Needs::sheet, plain_copy},
        {"recalculate", "Recalculate everything", Needs::sheet, recalculate},
        {"functions", "Function reference", Needs::nothing, function_reference},
        {"printedTables", "Printed tables", Needs::nothing, printed_tables},
        {"about", "About Jarbook", Needs::nothing, about},
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

Outcome run(const Command& command, const Situation& situation, const Request& request) {
    if (!applies(command, situation))
        return Outcome::refused(command.title,
                                situation.document().is()
                                    ? "This document is open for reading only. Save a copy of it "
                                      "under another name first."
                                    : "This needs a spreadsheet: open one, or choose New run log.");
    try {
        Outcome outcome = command.run(situation, request);
        if (outcome.title.empty())
            outcome.title = command.title;
        if (!outcome.result.hasValue())
            outcome.result <<= addin::ustring(outcome.text);
        return outcome;
    } catch (const uno::Exception& trouble) {
        return Outcome::refused(command.title,
                                "The office could not do it: " + addin::utf8(trouble.Message));
    }
}

} // namespace jarbook::menu
