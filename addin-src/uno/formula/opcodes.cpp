#include "uno/formula/opcodes.hpp"

#include "uno/text/utf8.hpp"

#include <com/sun/star/sheet/FormulaLanguage.hpp>
#include <com/sun/star/sheet/FormulaMapGroup.hpp>
#include <com/sun/star/sheet/FormulaMapGroupSpecialOffset.hpp>
#include <com/sun/star/sheet/XFormulaOpCodeMapper.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
namespace Offset = sheet::FormulaMapGroupSpecialOffset;
namespace Group = sheet::FormulaMapGroup;

OpCodes::OpCodes(const uno::Reference<lang::XMultiServiceFactory>& factory) {
    const uno::Reference<sheet::XFormulaOpCodeMapper> mapper(
        factory->createInstance("com.sun.star.sheet.FormulaOpCodeMapper"), uno::UNO_QUERY_THROW);
    const auto group = [&](sal_Int32 which) {
        return mapper->getAvailableMappings(sheet::FormulaLanguage::ENGLISH, which);
    };

    const auto specials = group(Group::SPECIAL);
    const auto special = [&](sal_Int32 offset) { return specials[offset].Token.OpCode; };
    push = special(Offset::PUSH);
    external = special(Offset::EXTERNAL);
    name = special(Offset::NAME);
    missing = special(Offset::MISSING);
    bad = special(Offset::BAD);
    spaces = special(Offset::SPACES);
    array_part = special(Offset::MAT_REF);
    database_area = special(Offset::DB_AREA);
    whitespace = specials.getLength() > Offset::WHITESPACE ? special(Offset::WHITESPACE) : spaces;

    for (const auto which :
         {Group::SEPARATORS, Group::UNARY_OPERATORS, Group::BINARY_OPERATORS, Group::FUNCTIONS}) {
        const auto entries = group(which);
        for (const auto& entry : entries) {
            const std::string text = addin::utf8(entry.Name);
            by_name_.emplace(text, entry.Token.OpCode);
            names_.emplace(entry.Token.OpCode, text);
            if (which == Group::UNARY_OPERATORS || which == Group::BINARY_OPERATORS)
                operators_.insert(entry.Token.OpCode);
        }
    }
    open = function("(");
    close = function(")");
    separator = function(";");
    if (separator < 0)
        separator = function(",");
    divide = function("/");
}

sal_Int32 OpCodes::function(std::string_view english) const {
    const auto found = by_name_.find(english);
    return found == by_name_.end() ? -1 : found->second;
}

std::string OpCodes::english(sal_Int32 code) const {
    const auto found = names_.find(code);
    return found == names_.end() ? std::string() : found->second;
}

} // namespace jarbook::menu
