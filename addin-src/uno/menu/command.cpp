#include "command.hpp"

#include "arguments.hpp"
#include "commands.hpp"

#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/uno/Exception.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

Document Situation::document() const {
    if (!frame_.is() || !frame_->getController().is())
        return {};
    return {frame_->getController()->getModel(), uno::UNO_QUERY};
}

bool Situation::read_only() const {
    const uno::Reference<frame::XStorable> storable(document(), uno::UNO_QUERY);
    return storable.is() && storable->isReadonly();
}

sal_Int32 Situation::sheet() const {
    const uno::Reference<sheet::XSpreadsheetView> view(frame_->getController(),
                                                       uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeAddressable> sheet(view->getActiveSheet(),
                                                             uno::UNO_QUERY_THROW);
    return sheet->getRangeAddress().Sheet;
}

std::vector<Area> Situation::selection() const {
    const uno::Reference<view::XSelectionSupplier> supplier(frame_->getController(),
                                                            uno::UNO_QUERY_THROW);
    const uno::Any selected = supplier->getSelection();
    const uno::Reference<sheet::XCellRangeAddressable> one(selected, uno::UNO_QUERY);
    if (one.is())
        return {area_of(one->getRangeAddress())};
    std::vector<Area> areas;
    const uno::Reference<sheet::XSheetCellRanges> several(selected, uno::UNO_QUERY);
    if (several.is()) {
        const auto addresses = several->getRangeAddresses();
        for (const auto& address : addresses)
            areas.push_back(area_of(address));
    }
    return areas;
}

void Situation::select(const Area& area) const {
    const uno::Reference<view::XSelectionSupplier> supplier(frame_->getController(),
                                                            uno::UNO_QUERY_THROW);
    uno::Reference<table::XCellRange> range = range_at(document(), area);
    if (area.single()) { // of merged cells all of them, as a click would
        const uno::Reference<sheet::XSheetCellRange> one(range, uno::UNO_QUERY_THROW);
        const auto cursor = sheet_at(document(), area.first.sheet)->createCursorByRange(one);
        cursor->collapseToMergedArea();
        range.set(cursor, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XCellRangeAddressable> merged(range, uno::UNO_QUERY_THROW);
        range = range_at(document(), area_of(merged->getRangeAddress()));
    }
    supplier->select(uno::Any(range));
}

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
