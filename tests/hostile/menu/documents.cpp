#include "documents.hpp"

#include <algorithm>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/sheet/DataPilotFieldOrientation.hpp>
#include <com/sun/star/sheet/GeneralFunction.hpp>
#include <com/sun/star/sheet/XDataPilotDescriptor.hpp>
#include <com/sun/star/sheet/XDataPilotTablesSupplier.hpp>
#include <com/sun/star/table/CellAddress.hpp>
#include <com/sun/star/util/XMergeable.hpp>

#include "preparing.hpp"

namespace jarbook::hostile {

using namespace com::sun::star;
using office::FlatFile;
using Rows = FlatFile::Rows;

namespace {

const std::string refused = "=ORG.JARBOOK.SPIRIT.STRENGTH(50;55)";

std::string number(long value) {
    return std::to_string(value);
}

Rows chain(int size) {
    Rows rows{{refused}};
    for (int row = 2; row <= size; ++row)
        rows.push_back({"=[.A" + number(row - 1) + "]+[.B" + number(row) + "]"});
    return rows;
}

Rows circle(int size) {
    Rows rows{{"=[.A" + number(size) + "]"}};
    for (int row = 2; row <= size; ++row)
        rows.push_back({"=[.A" + number(row - 1) + "]+1"});
    return rows;
}

Rows refusals(int size) {
    Rows rows;
    for (int row = 1; row <= size; ++row)
        rows.push_back({"=ORG.JARBOOK.SPIRIT.STRENGTH(50;[.B" + number(row) + "])",
                        row % 3 == 0 ? "warm" : number(50 + row % 40)});
    return rows;
}

// Each began where it stands.
Rows errors(int size) {
    Rows rows;
    const char* const kinds[] = {"=1/[.B", "=LN([.B", "=NOWHERE([.B", "=VALUE([.C"};
    for (int row = 1; row <= size; ++row) {
        std::string formula = kinds[row % 4] + number(row) + "]";
        if (row % 4 != 0)
            formula += ")";
        rows.push_back({formula, row % 4 == 1 ? "-1" : "0", "warm"});
    }
    return rows;
}

Rows sums_from_the_top(int size) {
    Rows rows{{refused}};
    for (int row = 2; row <= size; ++row)
        rows.push_back({"=SUM([.A$1:.A" + number(row - 1) + "])"});
    return rows;
}

Rows sound(int size) {
    Rows rows;
    for (int row = 1; row <= size; ++row)
        rows.push_back({"=IF([.B" + number(row) + "]=\"\";\"\";ORG.JARBOOK.SPIRIT.STRENGTH([.B" +
                            number(row) + "];[.C" + number(row) + "]))",
                        number(40 + row % 50), number(10 + row % 20)});
    return rows;
}

FlatFile one_sheet(const Rows& rows) {
    FlatFile file;
    file.add_sheet("Sheet1", rows);
    return file;
}

FlatFile many_sheets(int count) {
    FlatFile file;
    for (int sheet = 1; sheet <= count; ++sheet) {
        const std::string before = "Sheet" + number(sheet - 1);
        file.add_sheet("Sheet" + number(sheet),
                       {{sheet == 1 ? refused : "=[$" + before + ".A1]+1"}, {refused, "=1/0"}});
    }
    return file;
}

FlatFile odd_sheet_names() {
    FlatFile file;
    const char* names[] = {"Anna''s jars", "1.5 L",     "a$b", "Überlauf", "蒸留",
                           "run.1",        "перегонка", "=A1", "  "};
    Rows first{{refused}};
    for (const std::string name : names)
        first.push_back(
            {"=['" + (name[0] == 'A' ? std::string("Anna''s jars") : name) + "'.A1]*2+[.A1]"});
    file.add_sheet("Sheet1", first);
    for (std::string name : names) {
        if (name[0] == 'A')
            name = "Anna's jars";
        file.add_sheet(name, {{"=ORG.JARBOOK.SPIRIT.STRENGTH(50;[.B1]*2)", "30"},
                              {"=INDIRECT(\"'\"&\"Sheet1\"&\"'.A1\")"}});
    }
    return file;
}

FlatFile names_that_shadow() {
    FlatFile file;
    file.add_sheet("Sheet1", {{"=STRENGTH"}, {"=DOUBLED9"}, {"=SELF+1"}, {"=HIDDEN*2"}, {"=GONE"}});
    file.add_name("STRENGTH", "ORG.JARBOOK.SPIRIT.STRENGTH(50;60)");
    file.add_name("HIDDEN", "STRENGTH+ORG.JARBOOK.SPIRIT.MASS(1;[$Sheet1.$Z$9])");
    file.add_name("SELF", "SELF+1");
    file.add_name("GONE", "[#REF!.A1]");
    // Each uses the one before twice. Not more of them: Calc itself opens such names blindly when
    // it loads them, and 40 keep it busy for ever.
    file.add_name("DOUBLED0", "STRENGTH+1");
    for (int level = 1; level <= 9; ++level)
        file.add_name("DOUBLED" + number(level),
                      "DOUBLED" + number(level - 1) + "+DOUBLED" + number(level - 1));
    return file;
}

Rows nested() {
    std::string deep = "[.B1]";
    for (int level = 0; level < 60; ++level)
        deep = "(1+" + deep + ")";
    std::string calls = "[.B1]";
    for (int level = 0; level < 40; ++level)
        calls = "IF(1;" + calls + ";0)";
    std::string wide = "[.B1]";
    for (int term = 0; term < 1500; ++term)
        wide += "+[.B" + number(term + 1) + "]";
    return {{"=ORG.JARBOOK.SPIRIT.STRENGTH(50;" + deep + ")", "60"},
            {"=ORG.JARBOOK.SPIRIT.STRENGTH(50;" + calls + ")"},
            {"=" + wide, refused}};
}

Rows long_texts() {
    return {{"=ORG.JARBOOK.SPIRIT.STRENGTH([.B1];20)", std::string(60000, 'x')},
            {"=ORG.JARBOOK.SPIRIT.CUTTOTAL([.C1:.C2];[.D1:.D2];[.B1:.B2];[.B1])",
             std::string(30000, '9')},
            {"=" + std::string(200, 'Q') + "(1)"},
            {"=[.B1]+1"}};
}

Rows takers_of_formulas(int size) {
    Rows rows{{"=ORG.JARBOOK.SPIRIT.STRENGTH(50;[.C1])", "", "10"}};
    for (int row = 2; row <= size; ++row)
        rows.push_back({"=[.A" + number(row - 1) + "]*1",
                        row % 10 == 0 ? "=FORMULA([.A" + number(row) + "])" : "", "5"});
    rows.push_back({"=MULTIPLE.OPERATIONS([.A" + number(size) + "];[.C1];[.C2])"});
    return rows;
}

std::string million_rows() {
    // 1,048,576 rows of two numbers, then nothing; formulas over them stand on the first sheet.
    return "<table:table table:name=\"Data\"><table:table-row "
           "table:number-rows-repeated=\"1048576\"><table:table-cell office:value-type=\"float\" "
           "office:value=\"1\"/><table:table-cell office:value-type=\"float\" "
           "office:value=\"0\"/></table:table-row></table:table>";
}

void add_pivot_table(office::Office& office, office::Document& document) {
    document.add_sheet("Pivot");
    office.call("making a pivot table", [&] {
        const uno::Reference<sheet::XDataPilotTablesSupplier> supplier(
            document.sheet("Pivot").uno(), uno::UNO_QUERY_THROW);
        const auto tables = supplier->getDataPilotTables();
        const auto descriptor = tables->createDataPilotDescriptor();
        descriptor->setSourceRange({0, 0, 0, 2, 6});
        const auto field = [&](sal_Int32 index, sheet::DataPilotFieldOrientation orientation) {
            const uno::Reference<beans::XPropertySet> properties(
                descriptor->getDataPilotFields()->getByIndex(index), uno::UNO_QUERY_THROW);
            properties->setPropertyValue("Orientation", uno::Any(orientation));
        };
        field(0, sheet::DataPilotFieldOrientation_ROW);
        field(2, sheet::DataPilotFieldOrientation_DATA);
        tables->insertNewByName("cuts", table::CellAddress(1, 0, 0), descriptor);
    });
}

} // namespace

std::vector<HardDocument> growing_documents(int size) {
    return {{"chain", one_sheet(chain(size)), {}, "A" + number(size)},
            {"refusals", one_sheet(refusals(size)), {}, "A1"},
            {"errors", one_sheet(errors(size)), {}, "A1"},
            {"sound", one_sheet(sound(size)), {}, "A1"}};
}

std::vector<HardDocument> hard_documents(int size) {
    using office::Document;
    using office::Office;
    std::vector<HardDocument> all = growing_documents(size);
    const auto add = [&](HardDocument document) { all.push_back(std::move(document)); };
    add({"circle", one_sheet(circle(size)), {}, "A" + number(size / 2)});
    add({"sums from the top", one_sheet(sums_from_the_top(std::min(size, 3000))), {}, "A900"});
    add({"many sheets", many_sheets(std::clamp(size / 100, 20, 1000)), {}, "A2"});
    {
        FlatFile file;
        file.add_sheet(
            "Sheet1",
            {{"=ORG.JARBOOK.SPIRIT.PUREALCOHOL([$Data.A1:.A1048576];[$Data.B1:.B1048576])"},
             {"=SUMPRODUCT([$Data.A1:.A1048576]/[$Data.B1:.B1048576])"},
             {"=ORG.JARBOOK.SPIRIT.STRENGTH(50;SUM([$Data.A1:.B1048576]))"}});
        if (size >= 100000)
            add({"a million rows", file.add_sheet_xml(million_rows()), {}, "A2"});
    }
    add({"odd sheet names", odd_sheet_names(), {}, "A5"});
    add({"names that shadow", names_that_shadow(), {}, "A2"});
    add({"nested", one_sheet(nested()), {}, "A1"});
    add({"long texts", one_sheet(long_texts()), {}, "A1"});
    add({"takers of formulas", one_sheet(takers_of_formulas(size)), {}, "A1"});
    add({"protected", one_sheet(refusals(50)),
         [](Office& office, Document& document) {
             protect(office, document, document.sheet(), "");
         },
         "A1"});
    add({"protected by a password", one_sheet(refusals(50)),
         [](Office& office, Document& document) {
             protect(office, document, document.sheet(), "still");
         },
         "A1"});
    add({"read only", one_sheet(refusals(50)), {}, "A1", "", true});
    add({"shared", FlatFile(one_sheet(refusals(50))).share(), {}, "A1"});
    add({"links to other files",
         one_sheet({{"=['file:///nowhere/season.ods'#$Runs.A1]+1"},
                    {"=ORG.JARBOOK.SPIRIT.STRENGTH(['file:///nowhere/season.ods'#$Runs.A1];20)"},
                    {refused}}),
         {},
         "A2"});
    add({"hidden sheets", many_sheets(6),
         [](Office& office, Document& document) {
             for (const char* sheet : {"Sheet2", "Sheet4"})
                 set_property(office, document.sheet(sheet).uno(), "IsVisible", uno::Any(false));
         },
         "A2"});
    add({"merged cells", one_sheet(refusals(60)),
         [](Office& office, Document& document) {
             office.call("merging", [&] {
                 for (const char* cells : {"A1:B2", "A10:C30", "B40:B60"})
                     uno::Reference<util::XMergeable>(document.sheet().range(cells).uno(),
                                                      uno::UNO_QUERY_THROW)
                         ->merge(true);
             });
         },
         "A1"});
    add({"matrix formulas", one_sheet(refusals(std::min(size, 2000))),
         [size](Office&, Document& document) {
             const std::string last = number(std::min(size, 2000));
             document.sheet()
                 .range("D1:D" + last)
                 .set_array_formula("=SPIRIT.STRENGTH(50;B1:B" + last + ")");
             document.sheet().range("F1:I5").set_array_formula(
                 "=SPIRIT.CUTTABLE(B1:B3;B1:B3;B1:B3)");
         },
         "D2"});
    add({"pivot table",
         one_sheet({{"cut", "jar", "volume"},
                    {"heads", "1", "0.5"},
                    {"hearts", "2", refused},
                    {"hearts", "3", "0.5"},
                    {"tails", "4", "0.4"},
                    {"tails", "5", "=1/0"},
                    {"tails", "6", "0.1"}}),
         add_pivot_table, "C3"});
    add({"tracked changes", one_sheet(refusals(20)),
         [](Office& office, Document& document) {
             set_property(office, document.uno(), "RecordChanges", uno::Any(true));
             document.sheet().cell("B1").set_number(20);
             document.sheet().cell("B3").set_text("hot");
         },
         "A2"});
    add({"a cell being edited", one_sheet(refusals(20)),
         [](Office& office, Document& document) {
             call_office(office, document, ".uno:SetInputMode");
         },
         "A1"});
    add({"closed while a command works", one_sheet(refusals(size)), {}, "A1", "", false, true});
    add({"nothing", one_sheet({{""}}), {}, "A1"});
    return all;
}

} // namespace jarbook::hostile
