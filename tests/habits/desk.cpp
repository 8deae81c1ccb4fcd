#include "desk.hpp"

#include "boxes.hpp"
#include "text.hpp"

#include <algorithm>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/DispatchHelper.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/XDispatchResultListener.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/util/CellProtection.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>
#include <rtl/ref.hxx>
#include <sstream>
#include <stdexcept>

namespace jarbook::habits {

using namespace com::sun::star;

namespace {

constexpr int run_sheet = 1; // of the blank run log
constexpr int scratch_rows = 9;

class ResultEar final : public cppu::WeakImplHelper1<frame::XDispatchResultListener> {
public:
    void SAL_CALL dispatchFinished(const frame::DispatchResultEvent& event) override {
        event.Result >>= text;
    }
    void SAL_CALL disposing(const lang::EventObject&) override {}
    rtl::OUString text;
};

Block block_of(const table::CellRangeAddress& address) {
    return {address.StartColumn, address.StartRow, address.EndColumn - address.StartColumn + 1,
            address.EndRow - address.StartRow + 1};
}

table::CellRangeAddress address_of(const Block& block, int sheet) {
    return {static_cast<sal_Int16>(sheet), block.column, block.row,
            block.column + block.columns - 1, block.row + block.rows - 1};
}

beans::PropertyValue property(const std::string& name, const uno::Any& value) {
    beans::PropertyValue result;
    result.Name = office::to_uno(name);
    result.Value = value;
    return result;
}

} // namespace

RunLog::RunLog(office::Office& office, const std::string& file)
    : office_(office), document_(office.open(file)) {
    office_.call("looking at the run sheet", [&] {
        const uno::Reference<frame::XModel> model(document_.uno(), uno::UNO_QUERY_THROW);
        frame_.set(model->getCurrentController()->getFrame(), uno::UNO_QUERY_THROW);
        const uno::Reference<beans::XPropertySet> sheet(run().uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<container::XNameAccess> names(sheet->getPropertyValue("NamedRanges"),
                                                           uno::UNO_QUERY_THROW);
        for (const rtl::OUString& name : names->getElementNames()) {
            const uno::Reference<sheet::XCellRangeReferrer> referrer(names->getByName(name),
                                                                     uno::UNO_QUERY_THROW);
            const uno::Reference<sheet::XCellRangeAddressable> cells(referrer->getReferredCells(),
                                                                     uno::UNO_QUERY_THROW);
            names_[office::to_utf8(name)] = block_of(cells->getRangeAddress());
        }
        for (const auto& area : office::open_areas(run().uno()))
            boxes_.push_back(block_of(area));
    });
    last_row_ = run().used().rows() - 1;
    make_scratch_sheet();
}

RunLog::~RunLog() {
    frame_.clear();
    try {
        document_.close();
    } catch (const std::exception&) {
        // The office is gone.
    }
}

office::Sheet RunLog::run() const {
    return document_.sheet(run_sheet);
}

// Cells as they come from elsewhere: bold, locked, with formats, checks, dates, texts and formulas
// of their own.
void RunLog::make_scratch_sheet() {
    office::Sheet scratch = document_.add_sheet("Elsewhere");
    const char* cells[scratch_rows][6] = {{"500", "78.5", "20", "2026-05-01", "31,5", "'66.8"},
                                          {"480", "77", "21", "10:30", "hearts", "=A1*2"},
                                          {"510", "0.315", "22", "12:00", "tails", "=1/0"},
                                          {"1000", "66", "19", "abc", "1", "=NA()"},
                                          {"250", "55", "18", "0.2", "2", "=\"\""},
                                          {"300", "42", "20", "x", "heads", "12"},
                                          {"700", "12", "20", "9:05", "hearts", "20"},
                                          {"800", "90", "25", "9:40", "foreshots", "3"},
                                          {"900", "20", "0", "0:20", "1", "4"}};
    for (int r = 0; r < scratch_rows; ++r)
        for (int c = 0; c < 6; ++c)
            scratch.cell(c, r).set_formula(cells[r][c]);
    office_.call("formatting cells from elsewhere", [&] {
        const auto format = [&](const std::string& range, const char* name, const uno::Any& value) {
            const uno::Reference<beans::XPropertySet> to(scratch.range(range).uno(),
                                                         uno::UNO_QUERY_THROW);
            to->setPropertyValue(rtl::OUString::createFromAscii(name), value);
        };
        format("A1:B4", "CharWeight", uno::Any(150.0f));
        format("B1:C6", "CellBackColor", uno::Any(sal_Int32(0xffcc00)));
        format("E1:E3", "NumberFormat", uno::Any(sal_Int32(100))); // text
        const uno::Reference<container::XIndexAccess> sheets(document_.uno()->getSheets(),
                                                             uno::UNO_QUERY_THROW);
        const uno::Reference<document::XUndoManagerSupplier> undo(document_.uno(),
                                                                  uno::UNO_QUERY_THROW);
        undo->getUndoManager()->clear();
    });
}

void RunLog::select(const Block& block, int sheet) {
    const uno::Reference<frame::XModel> model(document_.uno(), uno::UNO_QUERY_THROW);
    const auto controller = model->getCurrentController();
    const uno::Reference<container::XIndexAccess> sheets(document_.uno()->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSpreadsheet> shown(sheets->getByIndex(sheet),
                                                    uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSpreadsheetView> view(controller, uno::UNO_QUERY_THROW);
    view->setActiveSheet(shown);
    const uno::Reference<view::XSelectionSupplier> selection(controller, uno::UNO_QUERY_THROW);
    selection->select(uno::Any(shown->getCellRangeByPosition(
        block.column, block.row, block.column + block.columns - 1, block.row + block.rows - 1)));
}

void RunLog::dispatch(const std::string& command,
                      const std::vector<std::pair<std::string, uno::Any>>& arguments) {
    std::vector<beans::PropertyValue> given;
    for (const auto& [name, value] : arguments)
        given.push_back(property(name, value));
    const auto helper = frame::DispatchHelper::create(office_.context());
    helper->executeDispatch(
        frame_, office::to_uno(".uno:" + command), "", 0,
        uno::Sequence<beans::PropertyValue>(given.data(), static_cast<sal_Int32>(given.size())));
}

std::string RunLog::command(const std::string& name, const Block& selected) {
    std::string said;
    office_.call_in_main_thread(name, [&] {
        select(selected);
        util::URL url;
        url.Complete = office::to_uno("org.jarbook.menu:" + name);
        url.Protocol = "org.jarbook.menu:";
        url.Path = office::to_uno(name);
        const uno::Reference<frame::XNotifyingDispatch> entry(
            frame_->queryDispatch(url, "_self", 0), uno::UNO_QUERY_THROW);
        const rtl::Reference<ResultEar> ear(new ResultEar);
        const beans::PropertyValue silent = property("Silent", uno::Any(true));
        entry->dispatchWithNotification(url, uno::Sequence<beans::PropertyValue>(&silent, 1),
                                        ear.get());
        said = office::to_utf8(ear->text);
    });
    return said;
}

// With the whole of the merged cells that it cuts through: LibreOffice pastes into those, too.
bool RunLog::is_open(const Block& block) const {
    const uno::Reference<sheet::XSheetCellRange> range(
        run().uno()->getCellRangeByPosition(
            block.column, block.row, block.column + block.columns - 1, block.row + block.rows - 1),
        uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSpreadsheet> sheet(run().uno(), uno::UNO_QUERY_THROW);
    const auto whole = sheet->createCursorByRange(range);
    whole->collapseToMergedArea();
    const uno::Reference<beans::XPropertySet> cells(whole, uno::UNO_QUERY_THROW);
    util::CellProtection protection;
    // Of some locked and some open cells there is no answer.
    return (cells->getPropertyValue("CellProtection") >>= protection) && !protection.IsLocked;
}

// LibreOffice refuses what touches a locked cell, with a message that nobody is there to close (and
// that ends a headless 7.4).
bool RunLog::would_be_refused(const Habit& habit) const {
    using Kind = Habit::Kind;
    const Block target{habit.to.column, habit.to.row, habit.block.columns, habit.block.rows};
    switch (habit.kind) {
    case Kind::type:
    case Kind::clear:
    case Kind::fill_down:
    case Kind::fill_series:
        return !is_open(habit.block);
    case Kind::cut_paste:
    case Kind::drag:
        return !is_open(habit.block) || !is_open(target);
    case Kind::copy_paste:
    case Kind::paste_values:
    case Kind::paste_alien:
        return !is_open(target);
    case Kind::sort:
    case Kind::replace:
        return !is_open(boxes().jars);
    case Kind::undo:
    case Kind::redo:
    case Kind::insert_jar:
    case Kind::mend:
        break;
    }
    return false;
}

void RunLog::do_habit(const Habit& habit) {
    using Kind = Habit::Kind;
    const Block target{habit.to.column, habit.to.row, 1, 1};
    if (habit.kind == Kind::insert_jar) {
        if (jars() < 45)
            command("insertJar", habit.block);
        return;
    }
    if (habit.kind == Kind::mend) {
        command("mendBoxes", habit.block);
        return;
    }
    office_.call_in_main_thread(written(habit, boxes()), [&] {
        if (would_be_refused(habit))
            return;
        switch (habit.kind) {
        case Kind::type:
            select(habit.block);
            dispatch("EnterString", {{"StringName", uno::Any(office::to_uno(habit.text))}});
            break;
        case Kind::cut_paste:
            select(habit.block);
            dispatch("Cut");
            select(target);
            dispatch("Paste");
            break;
        case Kind::drag: {
            const uno::Reference<sheet::XCellRangeMovement> cells(run().uno(),
                                                                  uno::UNO_QUERY_THROW);
            try {
                cells->moveRange({run_sheet, habit.to.column, habit.to.row},
                                 address_of(habit.block, run_sheet));
            } catch (const uno::RuntimeException&) {
                // Refused, as over protected cells.
            }
            break;
        }
        case Kind::copy_paste:
            select(habit.block);
            dispatch("Copy");
            select(target);
            dispatch("Paste");
            break;
        case Kind::paste_values:
            select(habit.block);
            dispatch("Copy");
            select(target);
            dispatch("InsertContents", {{"Flags", uno::Any(rtl::OUString("SVD"))},
                                        {"FormulaCommand", uno::Any(sal_Int16(0))},
                                        {"SkipEmptyCells", uno::Any(false)},
                                        {"Transpose", uno::Any(false)},
                                        {"AsLink", uno::Any(false)},
                                        {"MoveMode", uno::Any(sal_Int16(4))}});
            break;
        case Kind::paste_alien:
            select(habit.block, static_cast<int>(document_.sheet_names().size()) - 1);
            dispatch("Copy");
            select(target);
            dispatch("Paste");
            break;
        case Kind::clear:
            select(habit.block);
            dispatch("ClearContents");
            break;
        case Kind::fill_down:
            select(habit.block);
            dispatch("FillDown");
            break;
        case Kind::fill_series: {
            Block head = habit.block;
            head.rows = 1;
            select(head);
            const Block end{habit.block.column + habit.block.columns - 1,
                            habit.block.row + habit.block.rows - 1, 1, 1};
            std::string name;
            for (int c = end.column + 1; c > 0; c = (c - 1) / 26)
                name.insert(name.begin(), static_cast<char>('A' + (c - 1) % 26));
            dispatch("AutoFill",
                     {{"EndCell", uno::Any(office::to_uno(name + std::to_string(end.row + 1)))}});
            break;
        }
        case Kind::sort: {
            select(boxes().jars);
            dispatch("DataSort", {{"ByRows", uno::Any(true)},
                                  {"HasHeader", uno::Any(false)},
                                  {"CaseSensitive", uno::Any(false)},
                                  {"NaturalSort", uno::Any(false)},
                                  {"IncludeAttribs", uno::Any(true)},
                                  {"UserDefIndex", uno::Any(sal_Int32(0))},
                                  {"Col1", uno::Any(sal_Int32(habit.to.column + 1))},
                                  {"Ascending1", uno::Any(habit.number == 0)}});
            break;
        }
        case Kind::replace: {
            select(boxes().jars);
            dispatch(
                "ExecuteSearch",
                {{"SearchItem.SearchString", uno::Any(rtl::OUString(habit.number ? "," : "."))},
                 {"SearchItem.ReplaceString", uno::Any(rtl::OUString(habit.number ? "." : ","))},
                 {"SearchItem.Command", uno::Any(sal_Int16(3))},
                 {"SearchItem.Selection", uno::Any(true)},
                 {"SearchItem.CellType", uno::Any(sal_Int16(0))},
                 {"Quiet", uno::Any(true)}});
            break;
        }
        case Kind::undo:
        case Kind::redo:
            for (int i = 0; i < habit.number; ++i) {
                // LibreOffice 7.4 tells no formula of what an undone Replace all gives back, not
                // even =A1 of an empty document: a person has to recalculate (Known limits).
                const bool untold = next_is_replace(habit.kind == Kind::undo);
                dispatch(habit.kind == Kind::undo ? "Undo" : "Redo");
                if (untold)
                    document_.hard_recalculate();
            }
            break;
        case Kind::insert_jar:
        case Kind::mend:
            break;
        }
    });
}

bool RunLog::next_is_replace(bool undo) const {
    const auto manager =
        uno::Reference<document::XUndoManagerSupplier>(document_.uno(), uno::UNO_QUERY_THROW)
            ->getUndoManager();
    if (undo ? !manager->isUndoPossible() : !manager->isRedoPossible())
        return false;
    const rtl::OUString title =
        undo ? manager->getCurrentUndoActionTitle() : manager->getCurrentRedoActionTitle();
    return title == "Replace" || title == "Ersetzen";
}

int RunLog::jars() const {
    const Block amounts = names_.at("jar_amount");
    return amounts.rows + run().used().rows() - 1 - last_row_;
}

RunLog::BoxMap::BoxMap(std::vector<Block> boxes) : boxes_(std::move(boxes)) {}

bool RunLog::BoxMap::has(int column, int row) const {
    return std::any_of(boxes_.begin(), boxes_.end(), [&](const Block& block) {
        return column >= block.column && column < block.column + block.columns &&
               row >= block.row && row < block.row + block.rows;
    });
}

// Those of the pristine sheet, the jars' with the rows that were inserted.
RunLog::BoxMap RunLog::box_map() const {
    const Block amounts = names_.at("jar_amount");
    const int more = jars() - amounts.rows;
    const int last = amounts.row + amounts.rows - 1;
    std::vector<Block> blocks;
    for (Block block : boxes_) {
        if (block.row > last)
            block.row += more;
        else if (block.row + block.rows - 1 >= last - 1)
            block.rows += more;
        blocks.push_back(block);
    }
    return BoxMap(std::move(blocks));
}

Block RunLog::named(const std::string& name, int count) const {
    Block block = names_.at(name);
    const Block amounts = names_.at("jar_amount");
    const int more = count - amounts.rows;
    if (block.row == amounts.row && block.rows == amounts.rows)
        block.rows += more;
    else if (block.row >= amounts.row + amounts.rows)
        block.row += more;
    return block;
}

Boxes RunLog::boxes() const {
    Boxes result;
    const int count = jars();
    const BoxMap map = box_map();
    result.jars = named("jar_clock", count);
    result.jars.columns = named("jar_cut", count).column - result.jars.column + 1;
    result.lots = named("lot_known", count);
    result.lots.columns = named("lot_kind", count).column - result.lots.column + 1;
    for (const auto& [name, where] : names_)
        if (where.columns == 1 && where.rows == 1) {
            const Block here = named(name, count);
            if (map.has(here.column, here.row))
                result.single.push_back(here);
        }
    return result;
}

RunLog::Content RunLog::content() const {
    const office::Range used = run().used();
    return office_.call("reading the run sheet", [&] {
        Content content;
        const uno::Reference<sheet::XCellRangeFormula> formulas(used.uno(), uno::UNO_QUERY_THROW);
        for (const auto& row : formulas->getFormulaArray()) {
            auto& texts = content.formulas.emplace_back();
            for (const rtl::OUString& text : row)
                texts.push_back(office::to_utf8(text));
        }
        const uno::Reference<sheet::XCellRangeData> data(used.uno(), uno::UNO_QUERY_THROW);
        for (const auto& row : data->getDataArray()) {
            auto& values = content.values.emplace_back();
            for (const uno::Any& any : row) {
                double number = 0;
                rtl::OUString text;
                if (any >>= text) {
                    values.push_back(text.isEmpty() ? "" : "t" + office::to_utf8(text));
                } else if (any >>= number) {
                    char digits[40];
                    std::snprintf(digits, sizeof digits, "n%.17g", number);
                    values.emplace_back(digits);
                } else {
                    values.emplace_back("error");
                }
            }
        }
        const uno::Reference<sheet::XCellRangesQuery> query(used.uno(), uno::UNO_QUERY_THROW);
        const auto errors = query->queryFormulaCells(sheet::FormulaResult::ERROR);
        for (const auto& part : errors->getRangeAddresses())
            for (sal_Int32 r = part.StartRow; r <= part.EndRow; ++r)
                for (sal_Int32 c = part.StartColumn; c <= part.EndColumn; ++c)
                    content.values[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)] =
                        "error";
        return content;
    });
}

void RunLog::type_afresh(const Content& other) {
    const BoxMap map = box_map();
    office_.call("typing afresh", [&] {
        for (const Block& block : map.blocks()) {
            uno::Sequence<uno::Sequence<uno::Any>> rows(block.rows);
            for (int r = 0; r < block.rows; ++r) {
                uno::Sequence<uno::Any> cells(block.columns);
                for (int c = 0; c < block.columns; ++c) {
                    const std::string& value =
                        other.values[static_cast<std::size_t>(block.row + r)]
                                    [static_cast<std::size_t>(block.column + c)];
                    if (value.starts_with('n'))
                        cells.getArray()[c] <<= std::stod(value.substr(1));
                    else
                        cells.getArray()[c] <<=
                            office::to_uno(value.empty() ? value : value.substr(1));
                }
                rows.getArray()[r] = cells;
            }
            const uno::Reference<sheet::XCellRangeData> data(
                run().uno()->getCellRangeByPosition(block.column, block.row,
                                                    block.column + block.columns - 1,
                                                    block.row + block.rows - 1),
                uno::UNO_QUERY_THROW);
            data->setDataArray(rows);
        }
        // What shows an error shows it when it is typed, too.
        for (std::size_t r = 0; r < other.values.size(); ++r)
            for (std::size_t c = 0; c < other.values[r].size(); ++c)
                if (map.has(static_cast<int>(c), static_cast<int>(r)) &&
                    (other.values[r][c] == "error" ||
                     (other.values[r][c].empty() && other.formulas[r][c].starts_with('='))))
                    run()
                        .uno()
                        ->getCellByPosition(static_cast<sal_Int32>(c), static_cast<sal_Int32>(r))
                        ->setFormula(other.values[r][c] == "error" ? rtl::OUString("=#VALUE!")
                                                                   : rtl::OUString("=\"\""));
    });
}

bool RunLog::is_protected() const {
    return office_.call("asking for protection", [&] {
        return bool(
            uno::Reference<util::XProtectable>(run().uno(), uno::UNO_QUERY_THROW)->isProtected());
    });
}

} // namespace jarbook::habits
