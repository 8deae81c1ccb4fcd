#include "uno/document/cell_value.hpp"

#include "core/base/refusal.hpp"
#include "texts/value.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/text/XTextRange.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

// A cell may hold a book; a sentence quotes its beginning.
std::string shortened(const std::string& text) {
    constexpr std::size_t longest = 200;
    if (text.size() <= longest)
        return text;
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80)
        --end; // not within a letter
    return text.substr(0, end) + "…";
}

} // namespace

std::string value_text(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return number_text(*number);
    if (const auto* text = std::get_if<std::string>(&value))
        return text->empty() ? std::string(texts::value::empty_text)
                             : texts::value::quoted{.content = shortened(*text)}.text();
    if (const auto* error = std::get_if<CellError>(&value))
        return error_text(error->code);
    return std::string(texts::value::empty);
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
        return "=" + ustring(error_text(code));
    }
    return errors == Errors::common ? rtl::OUString("=#VALUE!")
                                    : "=#ERR" + rtl::OUString::number(code) + "!";
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
