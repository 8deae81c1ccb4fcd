// jarbook-make-format FOLDER: workbooks that hold whatever of ours a file can hold, stored by the
// office of this machine with the extension of this version, and their values beside them:
//   functions   every example of the catalogue, and our functions in every place of a formula
//   run-log     the worked example
// Made once at each release, and kept: see tests/data/format/README.md.
#include "stored_values.hpp"
#include "support/call.hpp"
#include "support/support.hpp"
#include "text.hpp"
#include "workbooks/workbook.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/sheet/XNamedRanges.hpp>
#include <iostream>

using namespace jarbook;

namespace {

std::string range_of(const std::string& column, std::size_t columns, std::size_t rows) {
    std::string last = column;
    last.back() = static_cast<char>(last.back() + columns - 1);
    return column + "1:" + last + std::to_string(rows);
}

void put_example(office::Sheet sheet, const catalogue::Example& example) {
    for (const auto& [column, values] : example.cells)
        for (std::size_t row = 0; row < values.size(); ++row) {
            office::Cell cell = sheet.cell(std::string(column) + std::to_string(row + 1));
            if (const double* number = std::get_if<double>(&values[row]))
                cell.set_number(*number);
            else if (const auto text = std::get<std::string_view>(values[row]); !text.empty())
                cell.set_text(std::string(text));
        }
    const std::string formula = "=" + std::string(example.call);
    sheet.cell("Z1").set_formula(formula);
    // One cell more each way, to see where the result ends.
    if (example.result.size() > 1 || (example.error == 0 && example.result[0].size() > 1))
        sheet.range(range_of("AA", example.result[0].size() + 1, example.result.size() + 1))
            .set_array_formula(formula);
}

void define(office::Document& document, const char* name, const char* content) {
    e2e::shared_office().call("defining a name", [&] {
        using namespace com::sun::star;
        const uno::Reference<beans::XPropertySet> properties(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XNamedRanges> names(properties->getPropertyValue("NamedRanges"),
                                                        uno::UNO_QUERY_THROW);
        names->addNewByName(office::to_uno(name), office::to_uno(content), table::CellAddress(), 0);
    });
}

// Where a formula may hold a call of ours.
void put_ways_of_calling(office::Document& document) {
    office::Sheet sheet = document.add_sheet("Ways of calling");
    sheet.range("A1:D4").set_values({{50.0, 10.0, 1.5, 4.0},
                                     {60.5, 20.0, 2.0, 3.0},
                                     {70.0, office::Blank{}, 0.0, 2.0},
                                     {80.0, 25.0, office::Blank{}, 1.0}});
    define(document, "READING", "$'Ways of calling'.$A$1:$A$4");
    define(document, "TRUESTRENGTH", "SPIRIT.STRENGTH($'Ways of calling'.$A$2;12)");
    const char* const formulas[] = {
        "=SPIRIT.STRENGTH(A1;B1)",
        "=SPIRIT.STRENGTH(A1;B1;;)",
        "=SPIRIT.STRENGTH(A1+0.5;B1)",
        "=spirit.strength(A1;B1)*2+1",
        "=IF(SPIRIT.STRENGTH(A1;B1)>50;\"strong\";\"weak\")",
        "=SPIRIT.STRENGTH(SPIRIT.STRENGTH(A1;B1);B2)",
        "=SUM(SPIRIT.STRENGTH(A1;B1);SPIRIT.STRENGTH(A2;B2))",
        "=SPIRIT.PUREALCOHOL(C1:C2;A1:A2)",
        "=SPIRIT.PUREALCOHOL(D:D;A:A)",
        "=SPIRIT.PUREALCOHOL(C:C;A:A)", // a strength without its volume
        "=SPIRIT.PUREALCOHOL({1.5;2};{50;60})",
        "=SPIRIT.PUREALCOHOL(C1:C2;READING)",
        "=TRUESTRENGTH",
        "=TRUESTRENGTH-SPIRIT.STRENGTH(A2;12)",
        "=IFERROR(SPIRIT.STRENGTH(A1;99);-1)",
        "=ISERROR(SPIRIT.STRENGTH(A1;99))",
        "=SPIRIT.STRENGTH(A3;B3)", // a blank cell is 0
        "=SPIRIT.STRENGTH(\"fifty\";10)",
        "=SPIRIT.STRENGTH(OFFSET(A1;1;0);INDIRECT(\"B2\"))",
        "=SPIRIT.STRENGTH($'strength 1'.Z1;20)",
        "=ROUND(SPIRIT.STRENGTH(A1;B1);2)&\" % vol\"",
        "=\"Jarbook \"&SPIRIT.VERSION()",
    };
    int row = 0;
    for (const char* formula : formulas)
        sheet.cell("E" + std::to_string(++row)).set_formula(formula);
    sheet.range("F1:F4").set_array_formula("=SPIRIT.STRENGTH(A1:A4;15)");
    sheet.range("G1:G4").set_array_formula("=SPIRIT.STRENGTH(READING;{10|20|30|99})");
    sheet.range("H1:H3").set_array_formula("=SPIRIT.STRENGTH(A1:A3;B1:B3)*C1:C3");
    sheet.range("I1:I4").set_array_formula("=1/C1:C3");
}

office::Document every_function() {
    office::Document document = e2e::shared_office().new_document();
    for (const auto& function : catalogue::functions()) {
        int number = 0;
        for (const auto& example : function.examples)
            put_example(
                document.add_sheet(std::string(function.method) + " " + std::to_string(++number)),
                example);
    }
    put_ways_of_calling(document);
    return document;
}

void keep(office::Document document, const std::filesystem::path& folder, const std::string& name) {
    document.hard_recalculate();
    const auto values = format::values_of(document);
    document.save(folder / (name + ".ods"));
    document.save(folder / (name + ".xlsx"));
    write(values, folder / (name + ".tsv"));
    std::cout << name << ": " << values.size() << " values" << std::endl;
}

} // namespace

int main(int count, char** words) {
    if (count != 2) {
        std::cerr << "jarbook-make-format FOLDER\n";
        return 2;
    }
    int status = 0;
    try {
        const std::filesystem::path folder = words[1];
        std::filesystem::create_directories(folder);
        keep(every_function(), folder, "functions");
        keep(e2e::open_worked_example(), folder, "run-log");
    } catch (const std::exception& trouble) {
        std::cerr << trouble.what() << "\n";
        status = 1;
    }
    e2e::end_shared_office();
    return status;
}
