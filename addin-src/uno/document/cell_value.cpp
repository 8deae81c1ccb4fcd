#include "uno/document/cell_value.hpp"

#include "core/base/refusal.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/text/XTextRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

std::string error_text(sal_Int32 code) {
    switch (code) {
    case 503:
        return "#NUM!";
    case 519:
        return "#VALUE!";
    case 521:
        return "#NULL!";
    case 524:
        return "#REF!";
    case 525:
        return "#NAME?";
    case 532:
        return "#DIV/0!";
    case 32767:
        return "#N/A";
    }
    return "Err:" + std::to_string(code);
}

std::string shown(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return number_text(*number);
    if (const auto* text = std::get_if<std::string>(&value))
        return text->empty() ? "an empty text" : "the text \"" + *text + "\"";
    if (const auto* error = std::get_if<CellError>(&value))
        return error_text(error->code);
    return "empty";
}

Value value_of(const uno::Reference<table::XCell>& cell) {
    const auto text = [&] {
        const uno::Reference<text::XTextRange> range(cell, uno::UNO_QUERY_THROW);
        return addin::utf8(range->getString());
    };
    switch (cell->getType()) {
    case table::CellContentType_EMPTY:
        return std::monostate{};
    case table::CellContentType_VALUE:
        return cell->getValue();
    case table::CellContentType_TEXT:
        return text();
    default:
        break;
    }
    if (const sal_Int32 code = cell->getError())
        return CellError{code};
    const uno::Reference<beans::XPropertySet> properties(cell, uno::UNO_QUERY_THROW);
    sal_Int32 type = 0;
    properties->getPropertyValue("FormulaResultType2") >>= type;
    if (type == sheet::FormulaResult::STRING)
        return text();
    return cell->getValue();
}

namespace {

rtl::OUString error_formula(sal_Int32 code, Errors errors) {
    switch (code) {
    case 503:
    case 519:
    case 521:
    case 524:
    case 525:
    case 532:
    case 32767:
        return ustring("=" + error_text(code));
    }
    return errors == Errors::common ? rtl::OUString("=#VALUE!")
                                    : ustring("=#ERR" + std::to_string(code) + "!");
}

} // namespace

rtl::OUString constant_formula(const Value& value, Errors errors) {
    if (const auto* error = std::get_if<CellError>(&value))
        return error_formula(error->code, errors);
    return std::holds_alternative<std::string>(value) ? rtl::OUString("=\"\"") : rtl::OUString();
}

void write_constant(const uno::Reference<table::XCell>& cell, const Value& value, Errors errors) {
    if (const auto* number = std::get_if<double>(&value)) {
        cell->setValue(*number);
    } else if (const auto* text = std::get_if<std::string>(&value)) {
        if (text->empty()) {
            cell->setFormula(constant_formula(value, errors));
            return;
        }
        const uno::Reference<text::XTextRange> range(cell, uno::UNO_QUERY_THROW);
        range->setString(ustring(*text));
    } else {
        cell->setFormula(constant_formula(value, errors));
    }
}

} // namespace jarbook::menu
