#include "looking.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <sstream>

#include "text.hpp"

namespace jarbook::hostile {

using namespace com::sun::star;

std::string content(office::Office& office, office::Document& document) {
    return office.call("looking at a document", [&] {
        std::ostringstream all;
        const auto sheets = document.sheet_names();
        for (std::size_t s = 0; s < sheets.size(); ++s) {
            all << sheets[s];
            if (s >= 20)
                continue;
            const office::Range used = document.sheet(static_cast<int>(s)).used();
            all << " " << used.name() << "\n";
            const int rows = std::min(used.rows(), 300);
            const uno::Reference<sheet::XCellRangeFormula> formulas(
                used.uno()->getCellRangeByPosition(0, 0, std::min(used.columns(), 20) - 1,
                                                   rows - 1),
                uno::UNO_QUERY_THROW);
            for (const auto& row : formulas->getFormulaArray())
                for (const rtl::OUString& formula : row)
                    all << office::to_utf8(formula) << "|";
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
        const uno::Reference<util::XModifiable> modifiable(document.uno(), uno::UNO_QUERY_THROW);
        all << "modified " << bool(modifiable->isModified()) << "\n";
        return all.str();
    });
}

namespace {

uno::Reference<container::XNameAccess> names_of(const office::Sheet& sheet) {
    const uno::Reference<beans::XPropertySet> properties(sheet.uno(), uno::UNO_QUERY_THROW);
    return {properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW};
}

// Rows between the named ones whose first cells say anything.
int rows_said(const uno::Reference<container::XNameAccess>& names) {
    const uno::Reference<sheet::XCellRangeReferrer> name(names->getByName("register"),
                                                         uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeData> cells(name->getReferredCells(), uno::UNO_QUERY);
    if (!cells.is())
        return 0;
    int said = 0;
    for (const auto& row : cells->getDataArray()) {
        rtl::OUString text;
        if (row.getLength() > 0 && (row[0] >>= text) && !text.isEmpty())
            ++said;
    }
    return said;
}

} // namespace

std::string first_jar(const office::Sheet& sheet) {
    const auto names = names_of(sheet);
    if (!names->hasByName("jars_top"))
        return "C48";
    const uno::Reference<sheet::XCellRangeReferrer> name(names->getByName("jars_top"),
                                                         uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XCellRangeAddressable> cells(name->getReferredCells(),
                                                             uno::UNO_QUERY_THROW);
    return "C" + std::to_string(cells->getRangeAddress().EndRow + 2);
}

Runs runs_of(office::Office& office, office::Document& document) {
    return office.call("counting runs", [&] {
        Runs runs;
        const auto sheets = document.sheet_names();
        for (std::size_t s = 0; s < sheets.size() && s < 60; ++s) {
            const auto names = names_of(document.sheet(static_cast<int>(s)));
            if (names->hasByName("run_title"))
                ++runs.sheets;
            if (names->hasByName("register"))
                runs.registered = rows_said(names);
        }
        return runs;
    });
}

std::string difference(const std::string& before, const std::string& after) {
    const auto [one, other] =
        std::mismatch(before.begin(), before.end(), after.begin(), after.end());
    return "\"" + std::string(one, std::min(one + 60, before.end())) + "\" is now \"" +
           std::string(other, std::min(other + 60, after.end())) + "\"";
}

} // namespace jarbook::hostile
