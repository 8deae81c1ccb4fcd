#include "uno/plain_copy/plain_copy.hpp"

#include "texts/copy.hpp"
#include "texts/working.hpp"
#include "uno/document/properties.hpp"
#include "uno/document/save_document.hpp"
#include "uno/plain_copy/cell_blocks.hpp"
#include "uno/plain_copy/extension_cells.hpp"
#include "uno/plain_copy/names_and_rules.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/sheet/XArrayFormulaRange.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

bool has_password(const Document& document) {
    const uno::Reference<frame::XModel> model(document, uno::UNO_QUERY_THROW);
    const auto arguments = model->getArgs();
    return std::any_of(arguments.begin(), arguments.end(), [](const auto& argument) {
        return (argument.Name == "EncryptionData" || argument.Name == "Password") &&
               argument.Value.hasValue();
    });
}

} // namespace

PlainCopyReport save_plain_copy(const Context& context, const Document& document,
                                const rtl::OUString& url, const rtl::OUString& filter,
                                Progress& progress) {
    const bool xlsx = filter == filter_xlsx;
    if (!xlsx && filter != filter_ods)
        throw lang::IllegalArgumentException(addin::ustring(texts::copy::wrong_kind), nullptr, 2);
    const uno::Reference<frame::XStorable> original(document, uno::UNO_QUERY_THROW);
    if (original->hasLocation() && original->getLocation() == url)
        throw lang::IllegalArgumentException(addin::ustring(texts::copy::itself), nullptr, 1);

    const OpCodes codes(uno::Reference<lang::XMultiServiceFactory>(document, uno::UNO_QUERY_THROW));
    const FormulaReader reader(document, codes);
    const ExtensionCells cells = extension_cells(reader, progress);
    // All are taken before the copy is touched.
    const std::vector<ValueRun> runs = values_of(document, cells, progress);

    const HiddenDocument copy = HiddenDocument::copy_of(context, document);
    const uno::Reference<sheet::XCalculatable> calculation(copy.document(), uno::UNO_QUERY_THROW);
    const bool automatic = calculation->isAutomaticCalculationEnabled();
    calculation->enableAutomaticCalculation(false);
    PlainCopyReport report;
    for (const Area& array : cells.arrays) {
        const uno::Reference<sheet::XArrayFormulaRange> range(range_at(copy.document(), array),
                                                              uno::UNO_QUERY_THROW);
        range->setArrayFormula("");
    }
    progress.begin(std::string(texts::working::values), runs.size());
    for (const ValueRun& run : runs) {
        progress.at(static_cast<std::size_t>(&run - runs.data()));
        write_run(copy.document(), run, xlsx ? Errors::common : Errors::all, progress);
        report.cells += static_cast<sal_Int32>(run.values.size());
    }
    report.arrays = static_cast<sal_Int32>(cells.arrays.size());
    report.password_dropped = has_password(document);
    const FormulaReader in_copy(copy.document(), codes);
    report.remarks = remarks_on_rules(in_copy);
    report.names = remove_names(in_copy);
    calculation->enableAutomaticCalculation(automatic);
    if (automatic) // loading leaves a few formulas at 0, such as those in repeated rows
        calculation->calculateAll();

    Properties store;
    store.add("FilterName", filter).add("Overwrite", true);
    store_to(context, copy.document(), url, store);
    return report;
}

std::string report_text(const PlainCopyReport& report) {
    std::string text;
    if (report.cells == 0)
        text = texts::copy::no_cells;
    else if (report.cells == 1)
        text = texts::copy::one_cell;
    else
        text = texts::copy::cells{.count = std::to_string(report.cells)}.text();
    if (report.cells > 0)
        text.append(" ").append(texts::copy::the_rest);
    std::string names;
    for (const std::string& name : report.names)
        names += (names.empty() ? "" : ", ") + name;
    if (!names.empty())
        text.append("\n\n").append(texts::copy::names{.list = names}.text());
    if (report.password_dropped)
        text.append("\n\n").append(texts::copy::password);
    if (!report.remarks.empty())
        text.append("\n\n").append(report.remarks);
    return text;
}

} // namespace jarbook::menu
