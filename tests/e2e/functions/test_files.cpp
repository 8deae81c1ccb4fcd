// Stored and opened again: names are file format, values come back to the last bit.
#include <cmath>
#include <filesystem>
#include <unistd.h>

#include "support/call.hpp"
#include "support/support.hpp"
#include "support/zip_file.hpp"

namespace jarbook::e2e {
namespace {

// A folder for the files of one test.
class Folder {
public:
    Folder()
        : path_(std::filesystem::temp_directory_path() /
                ("jarbook-files-" + std::to_string(getpid()))) {
        std::filesystem::create_directories(path_);
    }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

private:
    std::filesystem::path path_;
};

std::string upper_case(std::string text) {
    for (char& c : text)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return text;
}

// A workbook with a working example of every function, each on a sheet of its own.
class Files : public testing::Test {
protected:
    static office::Document every_function() {
        office::Document document = shared_office().new_document();
        for (const catalogue::Function* function : all_functions()) {
            office::Sheet sheet = document.add_sheet(std::string(function->method));
            const catalogue::Example& example = working_example(*function);
            for (const auto& [column, values] : example.cells)
                for (std::size_t row = 0; row < values.size(); ++row) {
                    office::Cell cell = sheet.cell(std::string(column) + std::to_string(row + 1));
                    if (const double* number = std::get_if<double>(&values[row]))
                        cell.set_number(*number);
                    else
                        cell.set_text(std::string(std::get<std::string_view>(values[row])));
                }
            sheet.cell("Z1").set_formula("=" + std::string(example.call));
            if (example.result.size() > 1)
                array_range(sheet, example).set_array_formula("=" + std::string(example.call));
        }
        return document;
    }

    static office::Range array_range(const office::Sheet& sheet,
                                     const catalogue::Example& example) {
        const char last = static_cast<char>('A' + example.result.front().size() - 1);
        return sheet.range("AA1:A" + std::string(1, last) + std::to_string(example.result.size()));
    }

    // Every value and formula of one workbook in the other.
    static void expect_same(const office::Document& before, const office::Document& after,
                            double relative_tolerance) {
        for (const catalogue::Function* function : all_functions()) {
            const std::string name(function->method);
            SCOPED_TRACE(name);
            const office::Sheet first = before.sheet(name);
            const office::Sheet second = after.sheet(name);
            EXPECT_EQ(second.cell("Z1").formula(), first.cell("Z1").formula());
            expect_same(first.cell("Z1").value(), second.cell("Z1").value(), relative_tolerance);
            const catalogue::Example& example = working_example(*function);
            if (example.result.size() == 1)
                continue;
            const auto rows_before = array_range(first, example).values();
            const auto rows_after = array_range(second, example).values();
            for (std::size_t r = 0; r < rows_before.size(); ++r)
                for (std::size_t c = 0; c < rows_before[r].size(); ++c)
                    expect_same(rows_before[r][c], rows_after[r][c], relative_tolerance);
        }
    }

    static void expect_same(const office::Value& before, const office::Value& after,
                            double relative_tolerance) {
        const double* number = std::get_if<double>(&before);
        const double* again = std::get_if<double>(&after);
        if (number && again) {
            EXPECT_LE(std::fabs(*again - *number), relative_tolerance * std::fabs(*number))
                << office::describe(before);
        } else {
            EXPECT_EQ(office::describe(after), office::describe(before));
        }
    }

    // `cached`: what values read from the file may differ by, relatively, until everything is
    // computed again.
    void expect_round_trip(const std::string& file_name, double cached) {
        const office::Document before = every_function();
        before.save(folder_ / file_name);
        office::Document after = shared_office().open(folder_ / file_name);
        expect_same(before, after, cached);
        after.hard_recalculate();
        expect_same(before, after, 0);
    }

    Folder folder_;
};

TEST_F(Files, OdsStoresServiceAndMethod) {
    every_function().save(folder_ / "names.ods");
    const std::string content = ZipFile(folder_ / "names.ods").text("content.xml");
    for (const catalogue::Function* function : all_functions()) {
        const std::string stored =
            "ORG.JARBOOK.SPIRIT." + upper_case(std::string(function->method)) + "(";
        EXPECT_NE(content.find(stored), std::string::npos) << stored;
    }
    EXPECT_EQ(content.find("=SPIRIT."), std::string::npos) << "a display name was stored";
}

// README warns of it: an office that keeps them would make README wrong. (7.4 stores NA(), 26.8 a
// name that it does not know again.)
TEST_F(Files, XlsLosesTheFunctions) {
    office::Document before = shared_office().new_document();
    before.sheet().cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    EXPECT_NEAR(before.sheet().cell("A1").number(), 53.67, 0.005);
    before.save(folder_ / "lost.xls");
    office::Document after = shared_office().open(folder_ / "lost.xls");
    after.hard_recalculate();
    EXPECT_NE(after.sheet().cell("A1").error(), 0);
}

// The only name that every office finds again in such a file.
TEST_F(Files, XlsxStoresServiceAndMethod) {
    every_function().save(folder_ / "names.xlsx");
    const ZipFile file(folder_ / "names.xlsx");
    std::string content;
    for (int sheet = 1; file.has("xl/worksheets/sheet" + std::to_string(sheet) + ".xml"); ++sheet)
        content += file.text("xl/worksheets/sheet" + std::to_string(sheet) + ".xml");
    for (const catalogue::Function* function : all_functions()) {
        const std::string stored =
            "ORG.JARBOOK.SPIRIT." + upper_case(std::string(function->method)) + "(";
        EXPECT_NE(content.find(stored), std::string::npos) << stored;
    }
    EXPECT_EQ(content.find(">SPIRIT."), std::string::npos) << "a display name was stored";
}

// These two are computed when they are read.
TEST_F(Files, OdsComesBack) {
    expect_round_trip("all.ods", 0);
}
TEST_F(Files, FlatOdsComesBack) {
    expect_round_trip("all.fods", 0);
}
// This one shows the values that it carries, written with 15 digits.
TEST_F(Files, XlsxComesBack) {
    expect_round_trip("all.xlsx", 1e-14);
}

} // namespace
} // namespace jarbook::e2e
