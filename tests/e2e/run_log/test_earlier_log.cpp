// A run log that was begun with Jarbook 0.1.0: each command does its work or says what it is.
#include "run_log/run_log_support.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>
#include <unistd.h>

namespace jarbook::e2e {
namespace {

namespace fs = std::filesystem;

office::Document open_earlier(const std::string& name) {
    const fs::path copy =
        fs::temp_directory_path() / ("jarbook-earlier-" + std::to_string(getpid()) + ".ods");
    fs::copy_file(fs::path(JARBOOK_FORMAT) / "0.1.0" / name, copy,
                  fs::copy_options::overwrite_existing);
    office::Document document = shared_office().open(copy);
    fs::remove(copy);
    return document;
}

TEST(EarlierLog, TakesTheNewSheetIntoItsOwnRegister) {
    office::Document log = open_earlier("run-log.ods");
    const std::string book = register_sheet(log);
    ASSERT_EQ(book, "Run book");
    const auto before = formulas(log.sheet("Run 8").used());
    const int end = NamedSheet(log, book).row("register_end");
    const auto sheets = log.sheet_names();
    const Said said = call_at(log, "Guide", "A1", "addRun");
    ASSERT_TRUE(said.done) << said.text;
    EXPECT_NE(said.text.find("0.1.0"), std::string::npos) << said.text;
    EXPECT_EQ(log.sheet_names().size(), sheets.size() + 1);
    EXPECT_EQ(formulas(log.sheet("Run 8").used()), before);

    NamedSheet added(log, "Run 9");
    EXPECT_EQ(added["boiler_volume"].number(), NamedSheet(log, "Run 8")["boiler_volume"].number());
    EXPECT_EQ(errors(added.sheet().used()), "");
    EXPECT_EQ(
        check_sheet(log, int(std::find(sheets.begin(), sheets.end(), "Run 8") - sheets.begin()) + 1)
            .size(),
        0u);
    // Its row says in the old columns what the new sheet says.
    NamedSheet runs(log, book);
    EXPECT_EQ(runs.row("register_end"), end + 1);
    EXPECT_EQ(runs.at("A", end).text(), "Run 9");
    fill_charge(log, "Run 9");
    EXPECT_EQ(runs.at("E", end).text(), added["charge_volume"].text());
    std::vector<double> amounts(12, 0);
    for (std::size_t i = 0; i < amounts.size(); ++i)
        amounts[i] = 900 + double(i);
    type_jars(log, "Run 9", amounts);
    EXPECT_NEAR(runs.at("H", end).number(), added["sum_collected_alcohol"].number(), 1e-9);
    EXPECT_EQ(errors(runs.sheet().used()), "");
}

TEST(EarlierLog, ItsOwnSheetsStayAsTheyAreAndSaySo) {
    office::Document log = open_earlier("run-log.ods");
    const auto before = formulas(log.sheet("Run 1").used());
    EXPECT_TRUE(refused(call_at(log, "Run 1", "B60", "insertJar"), "0.1.0"));
    EXPECT_TRUE(refused(call_at(log, "Run 1", "B60", "mendBoxes"), "0.1.0"));
    EXPECT_EQ(formulas(log.sheet("Run 1").used()), before);
    const int end = NamedSheet(log, "Run book").row("register_end");
    ASSERT_TRUE(call_at(log, "Run 2", "A1", "removeRun").done);
    EXPECT_EQ(NamedSheet(log, "Run book").row("register_end"), end - 1);
    EXPECT_EQ(errors(log.sheet("Run book").used()), "");
}

} // namespace
} // namespace jarbook::e2e
