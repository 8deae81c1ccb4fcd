#include "uno/run_log/add_run.hpp"

#include "uno/document/action_lock.hpp"
#include "uno/document/package_files.hpp"
#include "uno/run_log/run_book.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <charconv>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/sheet/XPrintAreas.hpp>
#include <com/sun/star/sheet/XSpreadsheets2.hpp>
#include <com/sun/star/style/XStyleFamiliesSupplier.hpp>
#include <com/sun/star/style/XStyleLoader.hpp>
#include <com/sun/star/text/XTextRange.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include "uno/document/properties.hpp"

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;
using addin::utf8;

namespace {

sal_Int32 sheet_count(const Document& document) {
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    return sheets->getCount();
}

// "Run 9" where the highest number of a sheet of that kind is 8.
std::string next_name(const Document& document) {
    int highest = 0;
    const auto names = document->getSheets()->getElementNames();
    for (const rtl::OUString& sheet : names) {
        const std::string name = utf8(sheet);
        int number = 0;
        if (!name.starts_with("Run "))
            continue;
        const char* const end = name.data() + name.size();
        const auto [stop, trouble] = std::from_chars(name.data() + 4, end, number);
        if (trouble == std::errc() && stop == end)
            highest = std::max(highest, number);
    }
    return "Run " + std::to_string(highest + 1);
}

// Behind the last run sheet; before the Run book if there is none.
sal_Int32 place_for_run(const Document& document, sal_Int32 run_book) {
    for (sal_Int32 s = sheet_count(document); s-- > 0;)
        if (named_area(document, s, "run_title"))
            return s + 1;
    return run_book;
}

// What importing a sheet leaves behind: how it is printed.
void take_over_page(const Document& from, sal_Int32 from_sheet, const Document& to,
                    sal_Int32 to_sheet, const rtl::OUString& template_url) {
    const uno::Reference<beans::XPropertySet> source(sheet_at(from, from_sheet),
                                                     uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> target(sheet_at(to, to_sheet), uno::UNO_QUERY_THROW);
    rtl::OUString style;
    source->getPropertyValue("PageStyle") >>= style;
    const uno::Reference<style::XStyleFamiliesSupplier> supplier(to, uno::UNO_QUERY_THROW);
    const auto families = supplier->getStyleFamilies();
    const uno::Reference<container::XNameAccess> pages(families->getByName("PageStyles"),
                                                       uno::UNO_QUERY_THROW);
    if (!pages->hasByName(style)) {
        const uno::Reference<style::XStyleLoader> loader(families, uno::UNO_QUERY_THROW);
        Properties options;
        options.add("LoadCellStyles", false).add("LoadPageStyles", true);
        options.add("OverwriteStyles", false);
        loader->loadStylesFromURL(template_url, options.sequence());
    }
    target->setPropertyValue("PageStyle", uno::Any(style));

    const uno::Reference<sheet::XPrintAreas> printed_from(source, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XPrintAreas> printed_to(target, uno::UNO_QUERY_THROW);
    auto areas = printed_from->getPrintAreas();
    auto* area = areas.getArray();
    for (sal_Int32 i = 0; i < areas.getLength(); ++i)
        area[i].Sheet = static_cast<sal_Int16>(to_sheet);
    printed_to->setPrintAreas(areas);
    if (printed_from->getPrintTitleRows()) {
        auto rows = printed_from->getTitleRows();
        rows.Sheet = static_cast<sal_Int16>(to_sheet);
        printed_to->setTitleRows(rows);
        printed_to->setPrintTitleRows(true);
    }
}

// Drops the undo steps, also when something went wrong on the way. (Locking the undo manager would
// not do: importing a sheet opens it again.)
class UndoDropped {
public:
    explicit UndoDropped(const Document& document) : document_(document) {}
    ~UndoDropped() {
        try {
            const uno::Reference<document::XUndoManagerSupplier> supplier(document_,
                                                                          uno::UNO_QUERY_THROW);
            supplier->getUndoManager()->clear();
        } catch (const uno::Exception&) {
            // The document is being closed.
        }
    }
    UndoDropped(const UndoDropped&) = delete;
    UndoDropped& operator=(const UndoDropped&) = delete;

private:
    Document document_;
};

} // namespace

std::string obstacle_to_run(const Document& document) {
    const uno::Reference<util::XProtectable> structure(document, uno::UNO_QUERY_THROW);
    if (structure->isProtected())
        return "The structure of this document is protected. Take the protection away first: "
               "Tools, Protect Spreadsheet Structure.";
    if (!run_book_of(document))
        return "This document has no Run book to enter a run into. Runs are added to a run log: "
               "choose New run log.";
    return "";
}

AddedRun add_run_sheet(const Context& context, const Document& document) {
    const auto run_book = run_book_of(document);
    const rtl::OUString url = packed_url(context, packed::run_log);
    const HiddenDocument pristine = HiddenDocument::from_template(context, url);
    const auto model_book = run_book_of(pristine.document());
    sal_Int32 model = 0;
    while (model < sheet_count(pristine.document()) &&
           !named_area(pristine.document(), model, "run_title"))
        ++model;
    if (!run_book || !model_book || model == sheet_count(pristine.document()))
        throw uno::RuntimeException("the packed run log is not whole", nullptr);

    const UndoDropped dropped(document);
    const ActionLock lock(document);
    const Unprotected open(sheet_at(document, run_book->sheet)); // before anything is done
    AddedRun added;
    added.name = next_name(document);
    const sal_Int32 at = place_for_run(document, run_book->sheet);
    const uno::Reference<sheet::XSpreadsheets2> sheets(document->getSheets(), uno::UNO_QUERY_THROW);
    sheets->importSheet(pristine.document(), ustring(sheet_name(pristine.document(), model)), at);
    const uno::Reference<container::XNamed> named(sheet_at(document, at), uno::UNO_QUERY_THROW);
    named->setName(ustring(added.name));
    take_over_page(pristine.document(), model, document, at, url);

    const auto title = named_area(document, at, "run_title");
    if (!title)
        throw uno::RuntimeException("the packed run sheet has no title", nullptr);
    added.title = title->first;
    const uno::Reference<text::XTextRange> text(cell_at(document, added.title),
                                                uno::UNO_QUERY_THROW);
    text->setString(ustring(added.name));

    added.register_sheet = sheet_name(document, run_book_of(document)->sheet);
    enter_in_run_book(document, at, pristine.document(), *model_book, model);
    return added;
}

} // namespace jarbook::menu
