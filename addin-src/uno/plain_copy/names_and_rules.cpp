#include "uno/plain_copy/names_and_rules.hpp"

#include "texts/copy.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XCellFormatRangesSupplier.hpp>
#include <com/sun/star/sheet/XConditionalFormat.hpp>
#include <com/sun/star/sheet/XConditionalFormats.hpp>
#include <com/sun/star/sheet/XFormulaTokens.hpp>
#include <com/sun/star/sheet/XMultiFormulaTokens.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XUniqueCellFormatRangesSupplier.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

using Owner = uno::Reference<beans::XPropertySet>;

// The document, then its sheets: all that own names.
std::vector<Owner> owners(const Document& document) {
    std::vector<Owner> result{Owner(document, uno::UNO_QUERY_THROW)};
    const uno::Reference<container::XIndexAccess> sheets(document->getSheets(),
                                                         uno::UNO_QUERY_THROW);
    for (sal_Int32 s = 0; s < sheets->getCount(); ++s)
        result.emplace_back(sheets->getByIndex(s), uno::UNO_QUERY_THROW);
    return result;
}

bool needs(const FormulaReader& reader, const uno::Reference<uno::XInterface>& object) {
    const uno::Reference<sheet::XMultiFormulaTokens> several(object, uno::UNO_QUERY);
    if (several.is()) {
        for (sal_Int32 i = 0; i < several->getCount(); ++i)
            if (reader.needs_extension(several->getTokens(i)))
                return true;
        return false;
    }
    const uno::Reference<sheet::XFormulaTokens> one(object, uno::UNO_QUERY);
    return one.is() && reader.needs_extension(one->getTokens());
}

bool text_needs(const rtl::OUString& formula) {
    return formula.toAsciiUpperCase().indexOf("SPIRIT.") >= 0;
}

bool conditional_format_needs(const Owner& sheet) {
    const uno::Reference<sheet::XConditionalFormats> formats(
        sheet->getPropertyValue("ConditionalFormats"), uno::UNO_QUERY);
    if (!formats.is())
        return false;
    const auto all = formats->getConditionalFormats();
    for (const auto& format : all) {
        const uno::Reference<container::XIndexAccess> entries(format, uno::UNO_QUERY);
        for (sal_Int32 i = 0; entries.is() && i < entries->getCount(); ++i) {
            const Owner entry(entries->getByIndex(i), uno::UNO_QUERY);
            for (const char* property : {"Formula1", "Formula2"}) {
                rtl::OUString formula;
                try {
                    if (entry.is() &&
                        (entry->getPropertyValue(rtl::OUString::createFromAscii(property)) >>=
                         formula) &&
                        text_needs(formula))
                        return true;
                } catch (const beans::UnknownPropertyException&) {
                    // Colour scales and the like have no formula of this name.
                }
            }
        }
    }
    return false;
}

bool validity_needs(const FormulaReader& reader, const Owner& sheet) {
    const uno::Reference<sheet::XUniqueCellFormatRangesSupplier> supplier(sheet, uno::UNO_QUERY);
    if (!supplier.is())
        return false;
    const auto groups = supplier->getUniqueCellFormatRanges();
    for (sal_Int32 i = 0; i < groups->getCount(); ++i) {
        const Owner cells(groups->getByIndex(i), uno::UNO_QUERY_THROW);
        const uno::Reference<uno::XInterface> validity(cells->getPropertyValue("Validation"),
                                                       uno::UNO_QUERY);
        if (validity.is() && needs(reader, validity))
            return true;
    }
    return false;
}

} // namespace

std::vector<std::string> remove_names(const FormulaReader& reader) {
    std::vector<std::string> removed;
    // All are found before the first goes: one may need the other.
    std::vector<std::pair<uno::Reference<sheet::XNamedRanges>, rtl::OUString>> found;
    for (const Owner& owner : owners(reader.document())) {
        const uno::Reference<sheet::XNamedRanges> names(owner->getPropertyValue("NamedRanges"),
                                                        uno::UNO_QUERY_THROW);
        const auto all = names->getElementNames();
        for (const rtl::OUString& name : all) {
            const uno::Reference<uno::XInterface> expression(names->getByName(name),
                                                             uno::UNO_QUERY);
            if (needs(reader, expression))
                found.emplace_back(names, name);
        }
    }
    for (const auto& [names, name] : found) {
        names->removeByName(name);
        removed.push_back(addin::utf8(name));
    }
    return removed;
}

std::string remarks_on_rules(const FormulaReader& reader) {
    std::string formats;
    std::string rules;
    const auto all = owners(reader.document());
    for (auto sheet = all.begin() + 1; sheet != all.end(); ++sheet) {
        const uno::Reference<container::XNamed> named(*sheet, uno::UNO_QUERY_THROW);
        const std::string name = addin::utf8(named->getName());
        if (conditional_format_needs(*sheet))
            formats.append(formats.empty() ? "" : ", ").append(name);
        if (validity_needs(reader, *sheet))
            rules.append(rules.empty() ? "" : ", ").append(name);
    }
    std::string remarks;
    if (!formats.empty())
        remarks = texts::copy::formats{.sheets = formats}.text();
    if (!rules.empty())
        remarks.append(remarks.empty() ? "" : " ")
            .append(texts::copy::rules{.sheets = rules}.text());
    return remarks;
}

} // namespace jarbook::menu
