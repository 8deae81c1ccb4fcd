#include "uno/run_log/add_run.hpp"

#include "texts/add_run.hpp"
#include "texts/run_log.hpp"
#include "uno/document/action_lock.hpp"
#include "uno/document/properties.hpp"
#include "uno/run_log/pristine_sheet.hpp"
#include "uno/run_log/run_register.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheets2.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/style/XStyleLoader.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <optional>
#include <string_view>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

// What belongs to the still, the heat, the place and the instruments rather than to the run.
constexpr const char* carried_over[] = {"run_still",
                                        "boiler_volume",
                                        "watts",
                                        "stages",
                                        "stages_range",
                                        "known_stages",
                                        "known_range",
                                        "known_still",
                                        "reflux",
                                        "pressure",
                                        "reading_tolerance",
                                        "reading_scatter",
                                        "temperature_tolerance",
                                        "volume_tolerance",
                                        "jar_unit",
                                        "cooling_rise",
                                        "alcoholometer_correction",
                                        "alcoholometer_checked",
                                        "thermometer_correction",
                                        "thermometer_checked"};

// What the sheet Instruments offers to new runs where somebody has chosen that it should: the
// correction and the day of its check, blank unless there is one. As values: a run keeps the
// correction that it was measured with, whatever later checks say.
struct Offer {
    const char *correction, *checked, *to_correction, *to_checked;
};
constexpr Offer offers[] = {{"offer_alcoholometer_correction", "offer_alcoholometer_checked",
                             "alcoholometer_correction", "alcoholometer_checked"},
                            {"offer_thermometer_correction", "offer_thermometer_checked",
                             "thermometer_correction", "thermometer_checked"}};

// "Run 9" where the highest number of a sheet of that kind is 8. LibreOffice takes "run 9" and
// "RUN 9" for the same name.
std::string next_name(const Document& document) {
    int highest = 0;
    const auto names = document->getSheets()->getElementNames();
    for (const rtl::OUString& sheet : names) {
        rtl::OUString number;
        if (!sheet.startsWithIgnoreAsciiCase("Run ", &number))
            continue;
        const std::string digits = utf8(number);
        int value = 0;
        const char* const end = digits.data() + digits.size();
        const auto [stop, trouble] = std::from_chars(digits.data(), end, value);
        if (trouble == std::errc() && stop == end)
            highest = std::max(highest, value);
    }
    return "Run " + std::to_string(highest + 1);
}

rtl::OUString text_of(const Document& document, const Place& place) {
    const uno::Reference<text::XTextRange> text(cell_at(document, place), uno::UNO_QUERY_THROW);
    return text->getString();
}

// What earlier builds had in the box of the stages from the start: nobody's choice.
constexpr double stages_from_the_start = 1.15;

// Values only: formats, help and checks of the new sheet stay.
bool carry_over(const Document& document, sal_Int32 from, sal_Int32 to) {
    bool any = false;
    for (const char* name : carried_over) {
        const auto source = named_area(document, from, name);
        const auto target = named_area(document, to, name);
        if (!source || !target)
            continue;
        const auto old_cell = cell_at(document, source->first);
        const auto new_cell = cell_at(document, target->first);
        if (old_cell->getError() != 0)
            continue;
        if (std::string_view(name) == "stages" && old_cell->getValue() == stages_from_the_start)
            continue;
        const auto type = old_cell->getType();
        if (type == table::CellContentType_VALUE ||
            (type == table::CellContentType_FORMULA && old_cell->getValue() != 0))
            new_cell->setValue(old_cell->getValue());
        else if (type == table::CellContentType_TEXT)
            uno::Reference<text::XTextRange>(new_cell, uno::UNO_QUERY_THROW)
                ->setString(text_of(document, source->first));
        else
            continue;
        any = true;
    }
    return any;
}

std::optional<double> number_in(const Document& document, const std::optional<Area>& area) {
    if (!area)
        return std::nullopt;
    const auto cell = cell_at(document, area->first);
    const uno::Reference<beans::XPropertySet> properties(cell, uno::UNO_QUERY_THROW);
    sal_Int32 result = 0;
    properties->getPropertyValue("FormulaResultType2") >>= result;
    if (cell->getError() != 0 || result != sheet::FormulaResult::VALUE)
        return std::nullopt;
    return cell->getValue();
}

void take_corrections(const Document& document, sal_Int32 to) {
    const sal_Int32 count = document->getSheets()->getElementNames().getLength();
    for (sal_Int32 from = 0; from < count; ++from)
        for (const Offer& offer : offers) {
            const auto correction =
                number_in(document, named_area(document, from, offer.correction));
            const auto checked = number_in(document, named_area(document, from, offer.checked));
            const auto box = named_area(document, to, offer.to_correction);
            const auto day = named_area(document, to, offer.to_checked);
            if (!correction || !checked || !box || !day)
                continue;
            cell_at(document, box->first)->setValue(*correction);
            cell_at(document, day->first)->setValue(*checked);
        }
}

// Columns of the block "stills": name, finished runs, mean, its uncertainty, spread, uncertainty of
// a next run's value.
constexpr sal_Int32 mean_column = 2;
constexpr sal_Int32 next_column = 5;

double number_at(const Document& document, const Place& place) {
    const auto cell = cell_at(document, place);
    return cell->getError() == 0 ? cell->getValue() : 0.0; // a text counts as 0
}

// What the earlier runs of the still say of its stages, into boxes of the new sheet: the mean, and
// twice the standard uncertainty of a next run's. Values, no references: a run's forecast stays as
// it was made, and the sheet can be renamed, copied and stored as .xlsx. Nothing is written if
// fewer than three runs tell, or if register or sheet have no place for it (earlier builds).
void propose_stages(const Document& document, const Register& book, sal_Int32 run_sheet) {
    const auto stills = named_area(document, book.sheet, "stills");
    const auto still = named_area(document, run_sheet, "run_still");
    const auto stages = named_area(document, run_sheet, "known_stages");
    const auto range = named_area(document, run_sheet, "known_range");
    const auto whose = named_area(document, run_sheet, "known_still");
    if (!stills || !still || !stages || !range || !whose)
        return;
    const rtl::OUString name = text_of(document, still->first).trim();
    if (name.isEmpty())
        return;
    for (sal_Int32 row = stills->first.row; row <= stills->last.row; ++row) {
        const auto at = [&](sal_Int32 column) {
            return Place{book.sheet, stills->first.column + column, row};
        };
        if (!text_of(document, at(0)).trim().equalsIgnoreAsciiCase(name))
            continue;
        const double mean = number_at(document, at(mean_column));
        const double next = number_at(document, at(next_column));
        if (mean < 1.0 || next <= 0.0)
            return;
        // As many decimals as mean something; the range rather wider.
        cell_at(document, stages->first)->setValue(std::round(1000.0 * mean) / 1000.0);
        cell_at(document, range->first)->setValue(std::ceil(2000.0 * next) / 1000.0);
        uno::Reference<text::XTextRange>(cell_at(document, whose->first), uno::UNO_QUERY_THROW)
            ->setString(name);
        return;
    }
    return;
}

} // namespace

RunToAdd run_to_add(const Document& document, sal_Int32 cursor_sheet) {
    const Register book = require_register(document);
    require_not_shared(document);
    RunToAdd run;
    run.register_name = sheet_name(document, book.sheet);
    if (run_sheet_kind(document, cursor_sheet) != RunSheet::none) {
        const auto rows = register_rows(document, book);
        if (std::none_of(rows.begin(), rows.end(),
                         [&](const RegisterRow& row) { return row.run == cursor_sheet; })) {
            run.sheet = cursor_sheet;
            run.name = sheet_name(document, cursor_sheet);
            return run;
        }
    }
    require_open_structure(document);
    return run;
}

AddedRun add_run_sheet(const Context& context, const Document& document) {
    const PristineSheet pristine(context);
    const Register book = require_register(document);
    const UndoDropped dropped(document);
    const ActionLock lock(document);
    const Unprotected open(document, book.sheet); // before anything is done
    put_all_names_back(pristine, document);

    AddedRun added;
    added.name = next_name(document);
    const auto runs = run_sheets(document);
    // Behind the last run sheet; before the register if there is none.
    const sal_Int32 at = runs.empty() ? book.sheet : runs.back() + 1;
    const uno::Reference<sheet::XSpreadsheets2> sheets(document->getSheets(), uno::UNO_QUERY_THROW);
    sheets->importSheet(pristine.document(),
                        ustring(sheet_name(pristine.document(), pristine.sheet())), at);
    const uno::Reference<container::XNamed> named(sheet_at(document, at), uno::UNO_QUERY_THROW);
    try {
        named->setName(ustring(added.name));
        take_over_page(pristine, document, at);
        const auto title = named_area(document, at, "run_title");
        if (!title)
            throw Obstacle(std::string(texts::run_log::not_whole));
        added.title = title->first;
        if (!runs.empty() && carry_over(document, runs.back(), at))
            added.carried_from = sheet_name(document, runs.back());
        take_corrections(document, at);
        propose_stages(document, book, at);
        enter_in_register(document, at, pristine);
        uno::Reference<text::XTextRange>(cell_at(document, added.title), uno::UNO_QUERY_THROW)
            ->setString(ustring(added.name));
    } catch (...) {
        document->getSheets()->removeByName(named->getName());
        throw;
    }
    for (const sal_Int32 run : runs)
        added.earlier_log = added.earlier_log || run_sheet_kind(document, run) == RunSheet::earlier;
    const uno::Reference<sheet::XPrintAreas> printed(
        sheet_at(pristine.document(), pristine.sheet()), uno::UNO_QUERY_THROW);
    // What repeats on each printed page, and the headings of the jars below it
    added.rows_in_view = printed->getPrintTitleRows() ? printed->getTitleRows().EndRow + 2 : 1;
    return added;
}

void add_register_row(const Context& context, const Document& document, sal_Int32 sheet) {
    const PristineSheet pristine(context);
    const Register book = require_register(document);
    UndoStep step(document, texts::add_run::row_undo);
    {
        const ActionLock lock(document);
        const Unprotected open(document, book.sheet);
        enter_in_register(document, sheet, pristine);
    }
    step.keep();
}

} // namespace jarbook::menu
