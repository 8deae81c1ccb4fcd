#include "menu/menu_support.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/chart2/data/XDataSource.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XEmbeddedObjectSupplier.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/ConditionOperator.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetConditionalEntries.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/table/XTableChartsSupplier.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <ostream>
#include <sstream>

#include "text.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {

using namespace com::sun::star;

std::ostream& operator<<(std::ostream& out, const Finding& finding) {
    return out << finding.cell << " [" << finding.kind << ", " << finding.function << ", "
               << finding.argument << ", " << finding.value << ", " << finding.code << ", "
               << finding.input << "] " << finding.sentence;
}

void MenuTest::define(const std::string& name, const std::string& content) {
    shared_office().call("defining a name", [&] {
        const uno::Reference<beans::XPropertySet> properties(document().uno(),
                                                             uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XNamedRanges> names(properties->getPropertyValue("NamedRanges"),
                                                        uno::UNO_QUERY_THROW);
        names->addNewByName(office::to_uno(name), office::to_uno(content),
                            table::CellAddress(0, 0, 0), 0);
    });
}

uno::Reference<org::jarbook::XInspector> inspector() {
    return {shared_office().service("org.jarbook.Inspector"), uno::UNO_QUERY_THROW};
}

namespace {

Findings findings_of(const uno::Sequence<org::jarbook::Finding>& found) {
    Findings result;
    for (const org::jarbook::Finding& finding : found)
        result.push_back({office::to_utf8(finding.cell), office::to_utf8(finding.kind),
                          office::to_utf8(finding.functionName),
                          office::to_utf8(finding.argumentName), office::to_utf8(finding.value),
                          office::to_utf8(finding.sentence), finding.code,
                          office::to_utf8(finding.input)});
    return result;
}

} // namespace

std::pair<int, int> position(const std::string& cell) {
    int column = 0;
    std::size_t at = 0;
    for (; at < cell.size() && cell[at] >= 'A'; ++at)
        column = column * 26 + (cell[at] - 'A' + 1);
    return {column - 1, std::stoi(cell.substr(at)) - 1};
}

std::vector<std::string> drawn_ranges(office::Office& office, const office::Sheet& sheet) {
    return office.call("reading charts", [&] {
        std::vector<std::string> ranges;
        const uno::Reference<table::XTableChartsSupplier> supplier(sheet.uno(),
                                                                   uno::UNO_QUERY_THROW);
        const auto charts = supplier->getCharts();
        for (const rtl::OUString& name : charts->getElementNames()) {
            const uno::Reference<document::XEmbeddedObjectSupplier> chart(charts->getByName(name),
                                                                          uno::UNO_QUERY_THROW);
            const uno::Reference<chart2::data::XDataSource> source(chart->getEmbeddedObject(),
                                                                   uno::UNO_QUERY_THROW);
            for (const auto& sequence : source->getDataSequences())
                for (const auto& part : {sequence->getLabel(), sequence->getValues()})
                    if (part.is())
                        ranges.push_back(office::to_utf8(part->getSourceRangeRepresentation()));
        }
        return ranges;
    });
}

void add_condition(office::Document& document, const std::string& cells,
                   const std::string& formula) {
    shared_office().call("adding a condition", [&] {
        const auto property = [](const char* name, const uno::Any& value) {
            beans::PropertyValue result;
            result.Name = rtl::OUString::createFromAscii(name);
            result.Value = value;
            return result;
        };
        const uno::Reference<beans::XPropertySet> range(document.sheet().range(cells).uno(),
                                                        uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XSheetConditionalEntries> entries(
            range->getPropertyValue("ConditionalFormat"), uno::UNO_QUERY_THROW);
        const beans::PropertyValue entry[] = {
            property("Operator", uno::Any(sheet::ConditionOperator_FORMULA)),
            property("Formula1", uno::Any(office::to_uno(formula))),
            property("StyleName", uno::Any(rtl::OUString("Heading 1")))};
        entries->addNew(uno::Sequence<beans::PropertyValue>(entry, 3));
        range->setPropertyValue("ConditionalFormat", uno::Any(entries));
    });
}

void close(const uno::Reference<sheet::XSpreadsheetDocument>& document) {
    const uno::Reference<util::XCloseable> closeable(document, uno::UNO_QUERY_THROW);
    closeable->close(true);
}

void set_automatic_calculation(office::Document& document, bool on) {
    shared_office().call("switching automatic calculation", [&] {
        const uno::Reference<sheet::XCalculatable> calculation(document.uno(),
                                                               uno::UNO_QUERY_THROW);
        calculation->enableAutomaticCalculation(on);
    });
}

Findings explain(office::Document& document, const std::string& cell, int sheet) {
    const auto [column, row] = position(cell);
    Findings result;
    shared_office().call_in_main_thread("explaining " + cell, [&, c = column, r = row] {
        result = findings_of(inspector()->explain(document.uno(), sheet, c, r));
    });
    return result;
}

Findings check_sheet(office::Document& document, int sheet) {
    Findings result;
    shared_office().call_in_main_thread("checking a sheet", [&] {
        result = findings_of(inspector()->checkSheet(document.uno(), sheet));
    });
    return result;
}

testing::AssertionResult has_finding(const Findings& findings, const std::string& cell,
                                     const std::string& kind, const std::string& text) {
    for (const Finding& finding : findings)
        if (finding.cell == cell && finding.kind == kind &&
            finding.sentence.find(text) != std::string::npos)
            return testing::AssertionSuccess();
    auto failure = testing::AssertionFailure()
                   << "no finding about " << cell << " (" << kind << ") with \"" << text << "\" in";
    for (const Finding& finding : findings)
        failure << "\n  " << finding;
    return failure;
}

std::string everything_about(office::Document& document) {
    return shared_office().call("looking at a document", [&] {
        std::ostringstream all;
        all.precision(17);
        const uno::Reference<container::XIndexAccess> sheets(document.uno()->getSheets(),
                                                             uno::UNO_QUERY_THROW);
        for (int i = 0; i < sheets->getCount(); ++i) {
            const std::string name = document.sheet_names()[static_cast<std::size_t>(i)];
            const office::Range used = document.sheet(i).used();
            all << "sheet " << name << " " << used.name() << "\n";
            const uno::Reference<sheet::XCellRangeFormula> formulas(used.uno(),
                                                                    uno::UNO_QUERY_THROW);
            for (const auto& row : formulas->getFormulaArray()) {
                for (const rtl::OUString& formula : row)
                    all << office::to_utf8(formula) << "|";
                all << "\n";
            }
            // In one call: cell by cell a workbook takes half a minute.
            for (const auto& row : contents(used)) {
                for (const auto& value : row)
                    std::visit([&](const auto& shown) { all << shown << "|"; }, value);
                all << "\n";
            }
            all << errors(used) << "\n";
            const uno::Reference<table::XTableChartsSupplier> charts(sheets->getByIndex(i),
                                                                     uno::UNO_QUERY_THROW);
            for (const rtl::OUString& chart : charts->getCharts()->getElementNames())
                all << "chart " << office::to_utf8(chart) << "\n";
        }
        const uno::Reference<beans::XPropertySet> properties(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<container::XNameAccess> names(
            properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW);
        for (const rtl::OUString& name : names->getElementNames())
            all << "name " << office::to_utf8(name) << "\n";
        const uno::Reference<document::XUndoManagerSupplier> undo(document.uno(),
                                                                  uno::UNO_QUERY_THROW);
        for (const rtl::OUString& step : undo->getUndoManager()->getAllUndoActionTitles())
            all << "undo " << office::to_utf8(step) << "\n";
        for (const rtl::OUString& step : undo->getUndoManager()->getAllRedoActionTitles())
            all << "redo " << office::to_utf8(step) << "\n";
        const uno::Reference<util::XModifiable> modifiable(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
        all << "modified " << bool(modifiable->isModified()) << " at "
            << office::to_utf8(model->getURL()) << "\n";
        return all.str();
    });
}

} // namespace jarbook::e2e
