#include "documents.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <com/sun/star/sheet/XSpreadsheets.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <com/sun/star/util/XProtectable.hpp>

#include "preparing.hpp"
#include "text.hpp"

namespace jarbook::hostile {

using namespace com::sun::star;
using office::Document;
using office::Office;

namespace {

using Prepare = std::function<void(Office&, Document&)>;

constexpr const char* first_jar = ""; // found by its name, or about there where names are gone
constexpr const char* run_sheet = "Run 1";
constexpr const char* run_register = "Runs";

void rename(Office& office, const office::Sheet& sheet, const char* name) {
    office.call("renaming a sheet", [&] {
        uno::Reference<container::XNamed>(sheet.uno(), uno::UNO_QUERY_THROW)
            ->setName(office::to_uno(name));
    });
}

void remove_names(Office& office, const office::Sheet& sheet) {
    office.call("removing names", [&] {
        const uno::Reference<beans::XPropertySet> properties(sheet.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XNamedRanges> names(properties->getPropertyValue("NamedRanges"),
                                                        uno::UNO_QUERY_THROW);
        for (const rtl::OUString& name : names->getElementNames())
            names->removeByName(name);
    });
}

void remove_sheet(Office& office, Document& document, const char* name) {
    office.call("removing a sheet",
                [&] { document.uno()->getSheets()->removeByName(office::to_uno(name)); });
}

} // namespace

std::vector<HardDocument> hard_run_logs(int size) {
    const std::filesystem::path log = JARBOOK_WORKBOOKS "/jarbook-run-log.ots";
    std::vector<HardDocument> all;
    const auto add = [&](const std::string& name, Prepare prepare, const char* select = first_jar) {
        HardDocument hard;
        hard.name = "run log: " + name;
        hard.prepare = std::move(prepare);
        hard.select = select;
        hard.sheet = run_sheet;
        hard.workbook = log;
        all.push_back(std::move(hard));
    };
    add("as it comes", {});
    add("a box of the head selected", {}, "C4");
    add("a whole sheet selected", {}, "A1:AMJ1048576");
    add("protected by passwords", [](Office& office, Document& document) {
        for (const char* name : {run_sheet, run_register})
            office.call("taking the protection off", [&] {
                uno::Reference<util::XProtectable>(document.sheet(name).uno(), uno::UNO_QUERY_THROW)
                    ->unprotect("");
            });
        protect(office, document, document.sheet(run_sheet), "still");
        protect(office, document, document.sheet(run_register), "still");
    });
    add("many sheets", [size](Office& office, Document& document) {
        office.call("adding sheets", [&] {
            // Some before the runs; in front of many formulas each takes long.
            for (int sheet = 0; sheet < std::clamp(size / 100, 20, 1000); ++sheet)
                document.uno()->getSheets()->insertNewByName(
                    "Sheet " + rtl::OUString::number(sheet),
                    static_cast<sal_Int16>(sheet < 20 ? 0 : sheet));
        });
    });
    add("names removed", [](Office& office, Document& document) {
        remove_names(office, document.sheet(run_sheet));
    });
    add("names of the register removed", [](Office& office, Document& document) {
        remove_names(office, document.sheet(run_register));
    });
    add("no register",
        [](Office& office, Document& document) { remove_sheet(office, document, run_register); });
    add("other scripts", [](Office& office, Document& document) {
        rename(office, document.sheet(run_register), "'Runs' $1.A");
        rename(office, document.sheet("Guide"), "蒸留");
    });
    add("hidden register", [](Office& office, Document& document) {
        set_property(office, document.sheet(run_register).uno(), "IsVisible", uno::Any(false));
    });
    add("merged boxes", [](Office& office, Document& document) {
        office.call("merging", [&] {
            uno::Reference<util::XProtectable>(document.sheet(run_sheet).uno(),
                                               uno::UNO_QUERY_THROW)
                ->unprotect("");
            for (const char* cells : {"A1:D3", "B48:D52", "C50:C60"})
                uno::Reference<util::XMergeable>(document.sheet(run_sheet).range(cells).uno(),
                                                 uno::UNO_QUERY_THROW)
                    ->merge(true);
        });
    });
    add("tracked changes", [](Office& office, Document& document) {
        set_property(office, document.uno(), "RecordChanges", uno::Any(true));
    });
    add("a cell being edited", [](Office& office, Document& document) {
        call_office(office, document, ".uno:SetInputMode");
    });
    add("closed while a command works", {});
    all.back().closed_meanwhile = true;
    add("read only", {});
    all.back().read_only = true;
    add("worked example", {});
    all.back().workbook = JARBOOK_WORKBOOKS "/jarbook-worked-example.ods";
    return all;
}

} // namespace jarbook::hostile
