#include "run_log/run_log_support.hpp"

#include "text.hpp"

#include <algorithm>
#include <cmath>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XActionLockable.hpp>
#include <com/sun/star/document/XExporter.hpp>
#include <com/sun/star/document/XFilter.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/drawing/XDrawPagesSupplier.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <unistd.h>

namespace jarbook::e2e {

using namespace com::sun::star;

void select(const office::Document& document, const std::string& sheet, const std::string& cells) {
    show_sheet(document, sheet);
    shared_office().call("selecting " + cells, [&] {
        const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<view::XSelectionSupplier> view(model->getCurrentController(),
                                                            uno::UNO_QUERY_THROW);
        view->select(uno::Any(document.sheet(sheet).range(cells).uno()));
    });
}

Said call_command(const office::Document& document, const std::string& entry) {
    const Dispatched dispatched = dispatch(frame_of(document), entry);
    rtl::OUString text;
    dispatched.result >>= text;
    return {dispatched.done, office::to_utf8(text)};
}

Said call_at(const office::Document& document, const std::string& sheet, const std::string& cells,
             const std::string& entry) {
    select(document, sheet, cells);
    return call_command(document, entry);
}

testing::AssertionResult refused(const Said& said, const std::string& because) {
    if (said.done)
        return testing::AssertionFailure() << "done: " << said.text;
    if (said.text.find(because) == std::string::npos)
        return testing::AssertionFailure() << "says " << said.text << "\nnot " << because;
    return testing::AssertionSuccess();
}

namespace {

uno::Reference<document::XUndoManager> undo_manager(const office::Document& document) {
    const uno::Reference<document::XUndoManagerSupplier> supplier(document.uno(),
                                                                  uno::UNO_QUERY_THROW);
    return supplier->getUndoManager();
}

uno::Reference<beans::XPropertySet> properties(const office::Sheet& sheet) {
    return {sheet.uno(), uno::UNO_QUERY_THROW};
}

uno::Reference<sheet::XNamedRanges> names_of(const office::Sheet& sheet) {
    return {properties(sheet)->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW};
}

} // namespace

std::vector<std::string> undo_titles(const office::Document& document) {
    return shared_office().call("reading undo steps", [&] {
        std::vector<std::string> titles;
        for (const rtl::OUString& title : undo_manager(document)->getAllUndoActionTitles())
            titles.push_back(office::to_utf8(title));
        return titles;
    });
}

void undo(const office::Document& document) {
    shared_office().call_in_main_thread("undoing", [&] { undo_manager(document)->undo(); });
}

void redo(const office::Document& document) {
    shared_office().call_in_main_thread("redoing", [&] { undo_manager(document)->redo(); });
}

bool is_protected(const office::Sheet& sheet) {
    return shared_office().call("asking for protection", [&] {
        return bool(
            uno::Reference<util::XProtectable>(sheet.uno(), uno::UNO_QUERY_THROW)->isProtected());
    });
}

void protect(const office::Sheet& sheet, const std::string& password) {
    shared_office().call("protecting", [&] {
        uno::Reference<util::XProtectable>(sheet.uno(), uno::UNO_QUERY_THROW)
            ->protect(office::to_uno(password));
    });
}

void unprotect(const office::Sheet& sheet, const std::string& password) {
    shared_office().call("taking protection away", [&] {
        uno::Reference<util::XProtectable>(sheet.uno(), uno::UNO_QUERY_THROW)
            ->unprotect(office::to_uno(password));
    });
}

std::string page_of(const office::Sheet& sheet) {
    return shared_office().call("reading the page", [&] {
        std::ostringstream page;
        rtl::OUString style;
        properties(sheet)->getPropertyValue("PageStyle") >>= style;
        page << office::to_utf8(style);
        const uno::Reference<sheet::XPrintAreas> areas(sheet.uno(), uno::UNO_QUERY_THROW);
        for (const auto& area : areas->getPrintAreas())
            page << " " << area.StartColumn << "," << area.StartRow << "-" << area.EndColumn << ","
                 << area.EndRow;
        if (areas->getPrintTitleRows())
            page << " rows " << areas->getTitleRows().StartRow << "-"
                 << areas->getTitleRows().EndRow;
        return page.str();
    });
}

std::string hidden_of(const office::Sheet& sheet) {
    const office::Range used = sheet.used();
    return shared_office().call("looking for what is hidden", [&] {
        std::ostringstream hidden;
        const uno::Reference<table::XColumnRowRange> both(sheet.uno(), uno::UNO_QUERY_THROW);
        const auto look = [&](const uno::Reference<container::XIndexAccess>& all, int count,
                              const char* what) {
            for (int i = 0; i < count; ++i) {
                const uno::Reference<beans::XPropertySet> one(all->getByIndex(i),
                                                              uno::UNO_QUERY_THROW);
                bool visible = true;
                one->getPropertyValue("IsVisible") >>= visible;
                if (!visible)
                    hidden << what << i << " ";
            }
        };
        look(uno::Reference<container::XIndexAccess>(both->getRows(), uno::UNO_QUERY_THROW),
             used.rows(), "row ");
        look(uno::Reference<container::XIndexAccess>(both->getColumns(), uno::UNO_QUERY_THROW),
             used.columns(), "column ");
        return hidden.str();
    });
}

std::vector<std::string> pictures_of_charts(const office::Document& document, int index) {
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-chart-" + std::to_string(getpid()) + ".png");
    std::vector<std::string> pictures;
    shared_office().call_in_main_thread("drawing charts", [&] {
        const uno::Reference<drawing::XDrawPagesSupplier> supplier(document.uno(),
                                                                   uno::UNO_QUERY_THROW);
        const uno::Reference<container::XIndexAccess> shapes(
            supplier->getDrawPages()->getByIndex(index), uno::UNO_QUERY_THROW);
        for (sal_Int32 i = 0; i < shapes->getCount(); ++i) {
            const uno::Reference<lang::XServiceInfo> shape(shapes->getByIndex(i),
                                                           uno::UNO_QUERY_THROW);
            if (!shape->supportsService("com.sun.star.drawing.OLE2Shape"))
                continue;
            const uno::Reference<document::XExporter> exporter(
                shared_office().service("com.sun.star.drawing.GraphicExportFilter"),
                uno::UNO_QUERY_THROW);
            exporter->setSourceDocument({shape, uno::UNO_QUERY_THROW});
            uno::Sequence<beans::PropertyValue> how(2);
            how.getArray()[0].Name = "URL";
            how.getArray()[0].Value <<= office::to_url(file);
            how.getArray()[1].Name = "MediaType";
            how.getArray()[1].Value <<= rtl::OUString("image/png");
            uno::Reference<document::XFilter>(exporter, uno::UNO_QUERY_THROW)->filter(how);
            std::ifstream in(file, std::ios::binary);
            pictures.emplace_back(std::istreambuf_iterator<char>(in),
                                  std::istreambuf_iterator<char>());
        }
    });
    std::filesystem::remove(file);
    return pictures;
}

void remove_sheet(const office::Document& document, const std::string& name) {
    shared_office().call("removing a sheet",
                         [&] { document.uno()->getSheets()->removeByName(office::to_uno(name)); });
}

void duplicate_sheet(const office::Document& document, const std::string& name,
                     const std::string& copy) {
    shared_office().call("duplicating a sheet", [&] {
        document.uno()->getSheets()->copyByName(office::to_uno(name), office::to_uno(copy), 2);
    });
}

void remove_local_names(const office::Sheet& sheet) {
    shared_office().call("removing names", [&] {
        const auto names = names_of(sheet);
        // Without the lock Calc would compile all formulas anew for each name.
        const uno::Reference<document::XActionLockable> lock(names, uno::UNO_QUERY_THROW);
        lock->addActionLock();
        for (const rtl::OUString& name : names->getElementNames())
            names->removeByName(name);
        lock->removeActionLock();
    });
}

void point_nowhere(const office::Sheet& sheet, const std::vector<std::string>& names) {
    shared_office().call("pointing names nowhere", [&] {
        const auto all = names_of(sheet);
        for (const std::string& name : names)
            uno::Reference<sheet::XNamedRange>(all->getByName(office::to_uno(name)),
                                               uno::UNO_QUERY_THROW)
                ->setContent("#REF!");
    });
}

std::string register_sheet(const office::Document& document) {
    for (const std::string& name : document.sheet_names())
        if (local_names(document.sheet(name)).count("register") > 0)
            return name;
    return "";
}

std::pair<int, int> rows_of(const NamedSheet& sheet, const std::string& name) {
    const std::string cells = sheet.address(name);
    const auto row = [](const std::string& cell) {
        return std::stoi(cell.substr(cell.find_first_of("0123456789")));
    };
    const std::size_t colon = cells.find(':');
    if (colon == std::string::npos)
        return {row(cells), row(cells)};
    return {row(cells.substr(0, colon)), row(cells.substr(colon + 1))};
}

std::string column_of(const NamedSheet& sheet, const std::string& name) {
    const std::string cells = sheet.address(name);
    return cells.substr(0, cells.find_first_of("0123456789"));
}

namespace {

// A column of the jars from the first on, in one call.
void type_column(const NamedSheet& run, const std::string& name,
                 const std::vector<office::Value>& values) {
    const int first = rows_of(run, name).first;
    const std::string column = column_of(run, name);
    office::Rows<office::Value> cells;
    for (const office::Value& value : values)
        cells.push_back({value});
    run.sheet()
        .range(column + std::to_string(first) + ":" + column +
               std::to_string(first + static_cast<int>(values.size()) - 1))
        .set_values(cells);
}

} // namespace

void type_jars(const office::Document& document, const std::string& sheet,
               const std::vector<double>& amounts) {
    const NamedSheet run(document, sheet);
    std::vector<office::Value> amount, reading, temperature;
    for (const double mL : amounts) {
        const bool there = mL > 0;
        amount.push_back(there ? office::Value(mL) : office::Blank());
        reading.push_back(there ? office::Value(80 - (mL - 900)) : office::Blank());
        temperature.push_back(there ? office::Value(20.0) : office::Blank());
    }
    type_column(run, "jar_amount", amount);
    type_column(run, "jar_reading", reading);
    type_column(run, "jar_temperature", temperature);
}

std::string describe_differences(const office::Rows<std::variant<double, std::string>>& one,
                                 const office::Rows<std::variant<double, std::string>>& other) {
    std::ostringstream text;
    if (one.size() != other.size())
        text << one.size() << " and " << other.size() << " rows ";
    const auto shown = [](const std::variant<double, std::string>& value) {
        std::ostringstream out;
        std::visit([&](const auto& content) { out << content; }, value);
        return out.str();
    };
    const auto same = [](const std::variant<double, std::string>& a,
                         const std::variant<double, std::string>& b) {
        if (a.index() != b.index())
            return false;
        if (const auto* number = std::get_if<double>(&a)) {
            const double second = std::get<double>(b);
            return *number == second || (std::isnan(*number) && std::isnan(second)) ||
                   std::abs(*number - second) <= 1e-9 * std::max(1.0, std::abs(second));
        }
        return a == b;
    };
    int told = 0;
    for (std::size_t r = 0; r < std::min(one.size(), other.size()); ++r)
        for (std::size_t c = 0; c < std::min(one[r].size(), other[r].size()); ++c)
            if (!same(one[r][c], other[r][c]) && ++told <= 8)
                text << "row " << r + 1 << " column " << c + 1 << ": " << shown(one[r][c])
                     << " and " << shown(other[r][c]) << "\n";
    return text.str();
}

void fill_charge(const office::Document& document, const std::string& sheet) {
    NamedSheet run(document, sheet);
    run["boiler_volume"].set_number(250);
    run["watts"].set_number(6000);
    const int lot = rows_of(run, "lot_volume").first;
    run.at(column_of(run, "lot_volume"), lot).set_number(180);
    run.at(column_of(run, "lot_known"), lot).set_number(30);
}

} // namespace jarbook::e2e
