#include "texts/add_run.hpp"
#include "texts/entry.hpp"
#include "texts/insert_jar.hpp"
#include "texts/mend_boxes.hpp"
#include "texts/remove_run.hpp"
#include "texts/run_log.hpp"
#include "uno/dialogs/show_outcome.hpp"
#include "uno/menu/commands.hpp"
#include "uno/run_log/add_run.hpp"
#include "uno/run_log/insert_jar.hpp"
#include "uno/run_log/mend_boxes.hpp"
#include "uno/run_log/remove_run.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XViewFreezable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// A command that met an obstacle says so.
template <class Work>
Outcome unless_obstacle(Work&& work) {
    try {
        return work();
    } catch (const Obstacle& obstacle) {
        return Outcome::refused("", obstacle.what());
    }
}

Outcome given_up() {
    Outcome outcome;
    outcome.done = false;
    outcome.given_up = true;
    return outcome;
}

std::string with(const std::string& text, std::string_view more, const char* between = " ") {
    return text + between + std::string(more);
}

// The cell or the cells where the command is called; the first cell of the sheet if a drawing is
// selected.
Area cursor(const Situation& situation) {
    const auto selected = situation.selection();
    if (!selected.empty())
        return selected.front();
    const Place first{situation.sheet(), 0, 0};
    return {first, first};
}

std::string names_put_back(int count) {
    return count == 0 ? "" : texts::run_log::names_back{.count = std::to_string(count)}.text();
}

Outcome added_row(const Situation& situation, const Request& request, const RunToAdd& run) {
    if (!request.silent &&
        !confirmed(
            situation, std::string(texts::entry::add_run),
            texts::add_run::ask_row{.sheet = run.name, .register_name = run.register_name}.text()))
        return given_up();
    add_register_row(situation.context(), situation.document(), *run.sheet);
    Outcome outcome;
    outcome.text =
        texts::add_run::row_done{.register_name = run.register_name, .sheet = run.name}.text();
    return outcome;
}

} // namespace

Outcome add_run(const Situation& situation, const Request& request) {
    return unless_obstacle([&] {
        const Document document = situation.document();
        const RunToAdd run = run_to_add(document, situation.sheet());
        if (run.sheet)
            return added_row(situation, request, run);
        if (!request.silent &&
            !confirmed(situation, std::string(texts::entry::add_run),
                       texts::add_run::ask{.register_name = run.register_name}.text()))
            return given_up();
        const AddedRun added = add_run_sheet(situation.context(), document);
        situation.select({added.title, added.title});
        const uno::Reference<sheet::XViewFreezable> view(situation.frame()->getController(),
                                                         uno::UNO_QUERY);
        if (view.is())
            view->freezeAtPosition(0, added.rows_in_view);
        Outcome outcome;
        outcome.text =
            texts::add_run::done{.sheet = added.name, .register_name = run.register_name}.text();
        if (!added.carried_from.empty())
            outcome.text =
                with(outcome.text, texts::add_run::carried{.sheet = added.carried_from}.text());
        if (added.earlier_log)
            outcome.text = with(outcome.text,
                                texts::add_run::earlier{.register_name = run.register_name}.text());
        outcome.text = with(outcome.text, texts::add_run::final);
        return outcome;
    });
}

Outcome insert_jar(const Situation& situation, const Request&) {
    return unless_obstacle([&] {
        // As many as rows are selected, as LibreOffice does it with rows.
        const InsertedJars inserted =
            insert_jars(situation.context(), situation.document(), cursor(situation));
        situation.select({inserted.first_box, inserted.first_box});
        const std::string row = std::to_string(inserted.first_box.row + 1);
        const std::string said =
            inserted.count == 1
                ? texts::insert_jar::one{.row = row}.text()
                : texts::insert_jar::many{.count = std::to_string(inserted.count), .row = row}
                      .text();
        Outcome outcome;
        outcome.result <<= addin::ustring(said);
        // What is seen by itself needs no message.
        outcome.text = names_put_back(inserted.names_back);
        return outcome;
    });
}

Outcome mend_boxes(const Situation& situation, const Request&) {
    return unless_obstacle([&] {
        const MendedBoxes mended =
            mend_boxes(situation.context(), situation.document(), situation.sheet());
        Outcome outcome;
        const std::string cells = listed_boxes(mended.boxes);
        if (mended.boxes.empty())
            outcome.text = texts::mend_boxes::none;
        else if (mended.boxes.size() == 1)
            outcome.text = texts::mend_boxes::one{.cells = cells}.text();
        else
            outcome.text = texts::mend_boxes::many{.count = std::to_string(mended.boxes.size()),
                                                   .cells = cells}
                               .text();
        if (mended.names_back > 0)
            outcome.text = with(outcome.text, names_put_back(mended.names_back));
        if (!mended.boxes.empty())
            outcome.text = with(outcome.text, texts::mend_boxes::undo);
        return outcome;
    });
}

Outcome remove_run(const Situation& situation, const Request& request) {
    return unless_obstacle([&] {
        const Document document = situation.document();
        const RunToRemove run =
            run_to_remove(situation.context(), document, cursor(situation).first);
        Outcome outcome;
        std::string question;
        if (run.sheet) {
            question = texts::remove_run::ask{.sheet = run.name, .register_name = run.register_name}
                           .text();
            if (run.first_user)
                question = with(question,
                                texts::remove_run::ask_used{
                                    .count = std::to_string(run.users),
                                    .cell = name_seen_from(document, *run.first_user,
                                                           cursor(situation).first.sheet)}
                                    .text(),
                                "\n\n");
            outcome.text =
                run.row
                    ? texts::remove_run::done{.sheet = run.name, .register_name = run.register_name}
                          .text()
                    : texts::remove_run::done_no_row{.sheet = run.name,
                                                     .register_name = run.register_name}
                          .text();
        } else {
            question = texts::remove_run::ask_row{.row = std::to_string(*run.row + 1),
                                                  .register_name = run.register_name}
                           .text();
            outcome.text = texts::remove_run::row_done{.register_name = run.register_name}.text();
        }
        if (!request.silent &&
            !confirmed(situation, std::string(texts::entry::remove_run), question))
            return given_up();
        remove_run(document, run);
        return outcome;
    });
}

} // namespace jarbook::menu
