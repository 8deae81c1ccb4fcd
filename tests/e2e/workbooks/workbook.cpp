#include "workbooks/workbook.hpp"

#include "support/support.hpp"
#include "text.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/sheet/FormulaResult.hpp>
#include <com/sun/star/sheet/XCellRangeData.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/sheet/XNamedRange.hpp>
#include <limits>
#include <stdexcept>
#include <unistd.h>

namespace jarbook::e2e {

using namespace com::sun::star;

namespace {

office::Document open_copy(const std::string& name) {
    static int count = 0;
    const auto folder =
        std::filesystem::temp_directory_path() / ("jarbook-workbooks-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder);
    const auto copy = folder / (std::to_string(++count) + name);
    std::filesystem::copy_file(std::filesystem::path(JARBOOK_WORKBOOKS) / name, copy,
                               std::filesystem::copy_options::overwrite_existing);
    office::Document document = shared_office().open(copy);
    // It has been read; a document needs its file no longer.
    std::filesystem::remove_all(folder);
    return document;
}

} // namespace

office::Document open_blank_run_log() {
    return open_copy("jarbook-run-log.ots");
}
office::Document open_worked_example() {
    return open_copy("jarbook-worked-example.ods");
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

office::Cell NamedSheet::in_column(const std::string& name, std::size_t i) const {
    const std::string where = address(name);
    const std::size_t digits = where.find_first_of("0123456789");
    return at(where.substr(0, digits), std::stoi(where.substr(digits)) + static_cast<int>(i));
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

office::Rows<std::variant<double, std::string>> contents(const office::Range& range) {
    return shared_office().call("reading " + range.name(), [&] {
        const uno::Reference<sheet::XCellRangeData> access(range.uno(), uno::UNO_QUERY_THROW);
        office::Rows<std::variant<double, std::string>> result;
        for (const auto& row : access->getDataArray()) {
            std::vector<std::variant<double, std::string>> values;
            for (const uno::Any& value : row) {
                double number = std::numeric_limits<double>::quiet_NaN();
                rtl::OUString text;
                if (value >>= text)
                    values.emplace_back(office::to_utf8(text));
                else
                    values.emplace_back((value >>= number, number));
            }
            result.push_back(std::move(values));
        }
        return result;
    });
}

std::string errors(const office::Range& range) {
    return shared_office().call("looking for errors in " + range.name(), [&] {
        const uno::Reference<sheet::XCellRangesQuery> query(range.uno(), uno::UNO_QUERY_THROW);
        return office::to_utf8(
            query->queryFormulaCells(sheet::FormulaResult::ERROR)->getRangeAddressesAsString());
    });
}

} // namespace jarbook::e2e
