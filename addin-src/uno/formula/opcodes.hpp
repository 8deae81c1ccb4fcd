// What the office's formula tokens mean. Their numbers differ between versions of the office, so
// they are asked for.
#pragma once

#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <map>
#include <set>
#include <string>
#include <string_view>

namespace jarbook::menu {

class OpCodes {
public:
    // The document's factory has the mapper.
    explicit OpCodes(
        const com::sun::star::uno::Reference<com::sun::star::lang::XMultiServiceFactory>& factory);

    sal_Int32 push, external, name, missing, bad, spaces, whitespace, array_part, database_area,
        open, close, separator, divide;

    bool is_operator(sal_Int32 code) const { return operators_.contains(code); }
    bool is_space(sal_Int32 code) const { return code == spaces || code == whitespace; }
    // A function of Calc by its English name; -1 if it has none of that name.
    sal_Int32 function(std::string_view english) const;
    // The English name of a function of Calc or an operator; empty if it is none.
    std::string english(sal_Int32 code) const;

private:
    std::set<sal_Int32> operators_;
    std::map<std::string, sal_Int32, std::less<>> by_name_;
    std::map<sal_Int32, std::string> names_;
};

} // namespace jarbook::menu
