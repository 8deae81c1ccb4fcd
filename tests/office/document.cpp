#include "document.hpp"

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/sheet/XCellRangeReferrer.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSheetCellRange.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <map>

#include "text.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

struct Filter {
    const char* name;
    const char* options; // nullptr: none
};

Filter filter_of(const std::filesystem::path& file) {
    static const std::map<std::string, Filter> filters = {
        {".ods", {"calc8", nullptr}},
        {".fods", {"OpenDocument Spreadsheet Flat XML", nullptr}},
        {".xlsx", {"Calc MS Excel 2007 XML", nullptr}},
        {".xls", {"MS Excel 97", nullptr}},
        // Comma, double quotes, UTF-8, all columns as they stand.
        {".csv", {"Text - txt - csv (StarCalc)", "44,34,76,1"}},
        {".html", {"HTML (StarCalc)", nullptr}},
        {".pdf", {"calc_pdf_Export", nullptr}},
    };
    const auto found = filters.find(file.extension().string());
    if (found == filters.end())
        throw OfficeError("no way to store a file of this kind: " + file.string());
    return found->second;
}

uno::Sequence<beans::PropertyValue> store_arguments(const Filter& filter) {
    uno::Sequence<beans::PropertyValue> arguments(filter.options ? 3 : 2);
    beans::PropertyValue* argument = arguments.getArray();
    argument[0].Name = "FilterName";
    argument[0].Value <<= rtl::OUString::createFromAscii(filter.name);
    argument[1].Name = "Overwrite";
    argument[1].Value <<= true;
    if (filter.options) {
        argument[2].Name = "FilterOptions";
        argument[2].Value <<= rtl::OUString::createFromAscii(filter.options);
    }
    return arguments;
}

uno::Reference<sheet::XNamedRanges> named_ranges(const uno::Reference<uno::XInterface>& owner) {
    const uno::Reference<beans::XPropertySet> properties(owner, uno::UNO_QUERY_THROW);
    return {properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW};
}

} // namespace

Document::Document(std::shared_ptr<Session> session,
                   uno::Reference<sheet::XSpreadsheetDocument> document, std::string name)
    : session_(std::move(session)), document_(std::move(document)), name_(std::move(name)) {}

// The SDK's references do not move, they copy: a moved document must not close what it gave away.
Document::Document(Document&& other) noexcept {
    *this = std::move(other);
}

Document& Document::operator=(Document&& other) noexcept {
    std::swap(session_, other.session_);
    std::swap(document_, other.document_);
    std::swap(name_, other.name_);
    return *this;
}

Document::~Document() {
    try {
        close();
    } catch (const std::exception&) {
        // The office is gone, and the document with it.
    }
}

void Document::close() {
    if (!document_.is())
        return;
    const uno::Reference<sheet::XSpreadsheetDocument> document = document_;
    document_.clear();
    if (!session_->alive())
        return;
    session_->call("closing " + name_, [&] {
        session_->as<util::XCloseable>(document, "closing " + name_)->close(true);
    });
}

std::vector<std::string> Document::sheet_names() const {
    return session_->call("listing the sheets of " + name_, [&] {
        std::vector<std::string> names;
        for (const rtl::OUString& name : document_->getSheets()->getElementNames())
            names.push_back(to_utf8(name));
        return names;
    });
}

Sheet Document::sheet(int position) const {
    const std::vector<std::string> names = sheet_names();
    if (position < 0 || position >= static_cast<int>(names.size()))
        throw OfficeError(name_ + " has no sheet at position " + std::to_string(position));
    return sheet(names[position]);
}

Sheet Document::sheet(const std::string& name) const {
    const std::string what = "taking the sheet " + name + " of " + name_;
    return session_->call(what, [&] {
        const auto sheets = document_->getSheets();
        if (!sheets->hasByName(to_uno(name)))
            throw OfficeError(name_ + " has no sheet " + name);
        const uno::Reference<table::XCellRange> range(sheets->getByName(to_uno(name)),
                                                      uno::UNO_QUERY_THROW);
        return Sheet(session_, range, name);
    });
}

Sheet Document::add_sheet(const std::string& name) {
    session_->call("adding the sheet " + name, [&] {
        const auto sheets = document_->getSheets();
        sheets->insertNewByName(to_uno(name),
                                static_cast<sal_Int16>(sheets->getElementNames().getLength()));
    });
    return sheet(name);
}

bool Document::has_named_range(const std::string& name) const {
    return session_->call("looking for the named range " + name, [&] {
        return static_cast<bool>(named_ranges(document_)->hasByName(to_uno(name)));
    });
}

Range Document::named_range(const std::string& name) const {
    return session_->call("taking the named range " + name + " of " + name_, [&] {
        const auto ranges = named_ranges(document_);
        if (!ranges->hasByName(to_uno(name)))
            throw OfficeError(name_ + " has no named range " + name);
        const uno::Reference<sheet::XCellRangeReferrer> referrer(ranges->getByName(to_uno(name)),
                                                                 uno::UNO_QUERY_THROW);
        const auto range = referrer->getReferredCells();
        if (!range.is())
            throw OfficeError("the name " + name + " of " + name_ + " does not stand for cells");
        return Range(session_, range, name);
    });
}

Range Document::find(const std::string& reference) const {
    if (has_named_range(reference))
        return named_range(reference);
    const auto dot = reference.rfind('.');
    if (dot == std::string::npos)
        return sheet().range(reference);
    return sheet(reference.substr(0, dot)).range(reference.substr(dot + 1));
}

void Document::hard_recalculate() {
    session_->call("recalculating " + name_, [&] {
        session_->as<sheet::XCalculatable>(document_, "recalculating " + name_)->calculateAll();
    });
}

void Document::save(const std::filesystem::path& file) const {
    const Filter filter = filter_of(file);
    const std::string what = "storing " + name_ + " as " + file.string();
    // The office would make the folders itself.
    if (const auto folder = std::filesystem::absolute(file).parent_path();
        !std::filesystem::is_directory(folder))
        throw OfficeError(what + ": there is no folder " + folder.string());
    session_->call(what, [&] {
        session_->as<frame::XStorable>(document_, what)
            ->storeToURL(to_url(file), store_arguments(filter));
    });
    if (!std::filesystem::exists(file))
        throw session_->failure(what + ": no file was written", nullptr);
}

} // namespace jarbook::office
