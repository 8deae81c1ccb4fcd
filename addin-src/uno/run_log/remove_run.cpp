#include "uno/run_log/remove_run.hpp"

#include "texts/remove_run.hpp"
#include "texts/run_log.hpp"
#include "uno/document/action_lock.hpp"
#include "uno/run_log/cell_references.hpp"
#include "uno/run_log/run_register.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

// Run sheets refer to themselves only, and the register's rows go with their runs.
void count_users(const Document& document, const std::optional<Register>& book, RunToRemove& run) {
    for (sal_Int32 s = 0; s < sheet_count(document); ++s) {
        if (run_sheet_kind(document, s) != RunSheet::none)
            continue;
        const uno::Reference<sheet::XCellRangesQuery> query(sheet_at(document, s),
                                                            uno::UNO_QUERY_THROW);
        const auto parts = query->queryContentCells(sheet::CellFlags::FORMULA)->getRangeAddresses();
        for (const auto& part : parts) {
            const Area area = area_of(part);
            const uno::Reference<sheet::XCellRangeFormula> cells(range_at(document, area),
                                                                 uno::UNO_QUERY_THROW);
            const auto rows = cells->getFormulaArray();
            for (sal_Int32 r = 0; r < rows.getLength(); ++r)
                for (sal_Int32 c = 0; c < rows[r].getLength(); ++c) {
                    const Place place{s, area.first.column + c, area.first.row + r};
                    if (book && book->rows.contains(place) && place.row == run.row)
                        continue;
                    bool uses = false;
                    for (const CellReference& reference : cell_references(utf8(rows[r][c])))
                        uses = uses || reference.sheet == run.name;
                    if (!uses)
                        continue;
                    ++run.users;
                    if (!run.first_user)
                        run.first_user = place;
                }
        }
    }
}

RunToRemove row_to_remove(const Document& document, const Register& book, sal_Int32 row) {
    const std::string name = sheet_name(document, book.sheet);
    for (const RegisterRow& entry : register_rows(document, book)) {
        if (entry.row != row)
            continue;
        if (entry.run)
            throw Obstacle(texts::remove_run::row_lives{.row = std::to_string(row + 1),
                                                        .sheet = sheet_name(document, *entry.run)}
                               .text());
        return {{}, {}, row, name, 0, {}};
    }
    throw Obstacle(texts::remove_run::no_row{.register_name = name}.text());
}

} // namespace

RunToRemove run_to_remove(const Context& context, const Document& document, const Place& cursor) {
    require_not_shared(document);
    const auto book = register_of(document);
    if (book && book->sheet == cursor.sheet)
        return row_to_remove(document, *book, cursor.row);
    RunSheet kind = run_sheet_kind(document, cursor.sheet);
    if (kind == RunSheet::none) {
        const PristineSheet pristine(context);
        if (rows_of_run_sheet(pristine, document, cursor.sheet))
            kind = RunSheet::present;
    }
    if (kind == RunSheet::none)
        throw Obstacle(std::string(texts::run_log::no_run_sheet));
    require_open_structure(document);
    bool others = false;
    for (const sal_Int32 sheet : run_sheets(document))
        others = others || sheet != cursor.sheet;
    if (!others)
        throw Obstacle(std::string(texts::remove_run::last));
    RunToRemove run;
    run.sheet = cursor.sheet;
    run.name = sheet_name(document, cursor.sheet);
    if (book) {
        run.register_name = sheet_name(document, book->sheet);
        for (const RegisterRow& entry : register_rows(document, *book))
            if (entry.run == run.sheet)
                run.row = entry.row;
    }
    count_users(document, book, run);
    return run;
}

void remove_run(const Document& document, const RunToRemove& run) {
    const ActionLock lock(document);
    const auto book = register_of(document);
    if (!run.sheet) {
        UndoStep step(document, texts::remove_run::row_undo);
        {
            const Register there = require_register(document);
            const Unprotected open(document, there.sheet);
            remove_from_register(document, there, run.row.value_or(there.end_row - 1));
        }
        step.keep();
        return;
    }
    const UndoDropped dropped(document);
    if (book && run.row) {
        const Unprotected open(document, book->sheet); // before anything is done
        document->getSheets()->removeByName(ustring(run.name));
        remove_from_register(document, require_register(document), *run.row);
    } else {
        document->getSheets()->removeByName(ustring(run.name));
    }
}

} // namespace jarbook::menu
