#include "workbook.hpp"

#include "support.hpp"
#include "text.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <stdexcept>

namespace jarbook::e2e {

using namespace com::sun::star;

std::filesystem::path blank_run_log() {
    return std::filesystem::path(JARBOOK_WORKBOOKS) / "jarbook-run-log.ots";
}
std::filesystem::path worked_example() {
    return std::filesystem::path(JARBOOK_WORKBOOKS) / "jarbook-worked-example.ods";
}

std::map<std::string, std::string> local_names(const office::Sheet& sheet) {
    return shared_office().call("reading the names of " + sheet.name(), [&] {
        const uno::Reference<beans::XPropertySet> properties(sheet.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<container::XNameAccess> names(
            properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW);
        std::map<std::string, std::string> result;
        for (const rtl::OUString& name : names->getElementNames()) {
            const uno::Reference<sheet::XNamedRange> range(names->getByName(name),
                                                           uno::UNO_QUERY_THROW);
            // "$'Run 1'.$R$5:$T$15"
            std::string content = office::to_utf8(range->getContent());
            content.erase(0, content.rfind('.') + 1);
            std::erase(content, '$');
            result[office::to_utf8(name)] = content;
        }
        return result;
    });
}

NamedSheet::NamedSheet(const office::Document& document, const std::string& name)
    : sheet_(document.sheet(name)), names_(local_names(sheet_)) {}

std::string NamedSheet::address(const std::string& name) const {
    const auto found = names_.find(name);
    if (found == names_.end())
        throw std::runtime_error(sheet_.name() + " has no cell named " + name);
    return found->second;
}

office::Cell NamedSheet::operator[](const std::string& name) const {
    return sheet_.cell(address(name));
}

int NamedSheet::row(const std::string& name) const {
    const std::string where = address(name);
    return std::stoi(where.substr(where.find_first_of("0123456789")));
}

office::Cell NamedSheet::at(const std::string& column, int row) const {
    return sheet_.cell(column + std::to_string(row));
}

office::Rows<std::string> formulas(const office::Range& range) {
    return shared_office().call("reading formulas of " + range.name(), [&] {
        const uno::Reference<sheet::XCellRangeFormula> access(range.uno(), uno::UNO_QUERY_THROW);
        office::Rows<std::string> result;
        for (const auto& row : access->getFormulaArray()) {
            std::vector<std::string> texts;
            for (const rtl::OUString& text : row)
                texts.push_back(office::to_utf8(text));
            result.push_back(std::move(texts));
        }
        return result;
    });
}

} // namespace jarbook::e2e
