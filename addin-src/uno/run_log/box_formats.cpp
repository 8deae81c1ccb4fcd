#include "uno/run_log/box_formats.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertyState.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellCursor.hpp>
#include <com/sun/star/sheet/XSheetCondition.hpp>
#include <com/sun/star/sheet/XSheetOperation.hpp>
#include <com/sun/star/sheet/XSpreadsheet.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <vector>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

using PropertySet = uno::Reference<beans::XPropertySet>;

// Hard formats that a box may have or get by pasting. Borders come as one property; the number
// format is a key of its own document.
constexpr const char* formats[] = {
    "CellBackColor", "CellProtection", "CharColor",       "CharContoured", "CharEmphasis",
    "CharFontName",  "CharHeight",     "CharPosture",     "CharShadowed",  "CharStrikeout",
    "CharUnderline", "CharWeight",     "CharWordMode",    "CharLocale",    "DiagonalBLTR2",
    "DiagonalTLBR2", "HoriJustify",    "IsTextWrapped",   "Orientation",   "ParaBottomMargin",
    "ParaIndent",    "ParaLeftMargin", "ParaRightMargin", "ParaTopMargin", "RotateAngle",
    "ShadowFormat",  "ShrinkToFit",    "TableBorder2",    "VertJustify",   "WritingMode"};

constexpr const char* check_properties[] = {
    "Type",         "IgnoreBlankCells", "ShowList",   "ShowInputMessage", "InputTitle",
    "InputMessage", "ShowErrorMessage", "ErrorTitle", "ErrorMessage",     "ErrorAlertStyle"};

uno::Any get(const PropertySet& of, const char* name) {
    return of->getPropertyValue(rtl::OUString::createFromAscii(name));
}

beans::PropertyState state(const PropertySet& of, const char* name) {
    const uno::Reference<beans::XPropertyState> states(of, uno::UNO_QUERY_THROW);
    return states->getPropertyState(rtl::OUString::createFromAscii(name));
}

struct Format {
    rtl::OUString code;
    lang::Locale locale;
    bool operator==(const Format& other) const {
        return code == other.code && locale.Language == other.locale.Language &&
               locale.Country == other.locale.Country;
    }
};

uno::Reference<util::XNumberFormats> number_formats(const Document& document) {
    const uno::Reference<util::XNumberFormatsSupplier> supplier(document, uno::UNO_QUERY_THROW);
    return supplier->getNumberFormats();
}

Format number_format(const Document& document, const PropertySet& cell) {
    sal_Int32 key = 0;
    get(cell, "NumberFormat") >>= key;
    const auto found = number_formats(document)->getByKey(key);
    Format format;
    found->getPropertyValue("FormatString") >>= format.code;
    found->getPropertyValue("Locale") >>= format.locale;
    return format;
}

// The merged cells that a cell belongs to.
Area merged(const Document& document, const Place& place) {
    const uno::Reference<sheet::XSheetCellRange> one(range_at(document, {place, place}),
                                                     uno::UNO_QUERY_THROW);
    const auto cursor = sheet_at(document, place.sheet)->createCursorByRange(one);
    cursor->collapseToMergedArea();
    const uno::Reference<sheet::XCellRangeAddressable> all(cursor, uno::UNO_QUERY_THROW);
    return area_of(all->getRangeAddress());
}

PropertySet check_of(const PropertySet& cell) {
    return {get(cell, "Validation"), uno::UNO_QUERY_THROW};
}

bool same_check(const PropertySet& one, const PropertySet& other) {
    for (const char* name : check_properties)
        if (get(one, name) != get(other, name))
            return false;
    const uno::Reference<sheet::XSheetCondition> a(one, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSheetCondition> b(other, uno::UNO_QUERY_THROW);
    return a->getOperator() == b->getOperator() && a->getFormula1() == b->getFormula1() &&
           a->getFormula2() == b->getFormula2();
}

// A format that is hard on the one and not on the other, or another.
bool same_hard_format(const PropertySet& model, const PropertySet& cell, const char* name) {
    const bool hard = state(model, name) == beans::PropertyState_DIRECT_VALUE;
    if (hard != (state(cell, name) == beans::PropertyState_DIRECT_VALUE))
        return false;
    return !hard || get(model, name) == get(cell, name);
}

} // namespace

bool BoxFormats::same(const Place& pristine_box, const Place& box) const {
    const PropertySet model(cell_at(pristine_, pristine_box), uno::UNO_QUERY_THROW);
    const PropertySet cell(cell_at(document_, box), uno::UNO_QUERY_THROW);
    if (get(model, "CellStyle") != get(cell, "CellStyle"))
        return false;
    if (!std::all_of(std::begin(formats), std::end(formats),
                     [&](const char* name) { return same_hard_format(model, cell, name); }))
        return false;
    if (!(number_format(pristine_, model) == number_format(document_, cell)))
        return false;
    const Area wanted = merged(pristine_, pristine_box);
    const Area there = merged(document_, box);
    return wanted.columns() == there.columns() && wanted.rows() == there.rows() &&
           same_check(check_of(model), check_of(cell));
}

void BoxFormats::mend(const Place& pristine_box, const Place& box) const {
    const PropertySet model(cell_at(pristine_, pristine_box), uno::UNO_QUERY_THROW);
    const PropertySet cell(cell_at(document_, box), uno::UNO_QUERY_THROW);

    const Area wanted = merged(pristine_, pristine_box);
    const Area there = merged(document_, box);
    if (wanted.columns() != there.columns() || wanted.rows() != there.rows()) {
        const uno::Reference<util::XMergeable> apart(range_at(document_, there),
                                                     uno::UNO_QUERY_THROW);
        apart->merge(false);
        if (!wanted.single()) {
            const Area together{
                box, {box.sheet, box.column + wanted.columns() - 1, box.row + wanted.rows() - 1}};
            const uno::Reference<util::XMergeable> cells(range_at(document_, together),
                                                         uno::UNO_QUERY_THROW);
            cells->merge(true);
        }
    }

    const uno::Reference<sheet::XSheetOperation> contents(range_at(document_, {box, box}),
                                                          uno::UNO_QUERY_THROW);
    contents->clearContents(sheet::CellFlags::HARDATTR);
    cell->setPropertyValue("CellStyle", get(model, "CellStyle"));
    for (const char* name : formats)
        if (state(model, name) == beans::PropertyState_DIRECT_VALUE)
            cell->setPropertyValue(rtl::OUString::createFromAscii(name), get(model, name));
    const Format format = number_format(pristine_, model);
    const auto own = number_formats(document_);
    sal_Int32 key = own->queryKey(format.code, format.locale, false);
    if (key < 0)
        key = own->addNew(format.code, format.locale);
    if (!(number_format(document_, cell) == format))
        cell->setPropertyValue("NumberFormat", uno::Any(key));

    const PropertySet wish = check_of(model);
    const PropertySet check = check_of(cell);
    for (const char* name : check_properties)
        check->setPropertyValue(rtl::OUString::createFromAscii(name), get(wish, name));
    const uno::Reference<sheet::XSheetCondition> from(wish, uno::UNO_QUERY_THROW);
    const uno::Reference<sheet::XSheetCondition> to(check, uno::UNO_QUERY_THROW);
    to->setOperator(from->getOperator());
    to->setFormula1(from->getFormula1());
    to->setFormula2(from->getFormula2());
    cell->setPropertyValue("Validation", uno::Any(check));
}

} // namespace jarbook::menu
