// Workbooks of earlier versions, and of other offices, show in this one what they showed then.
#include "stored_values.hpp"
#include "support/support.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <unistd.h>

namespace jarbook::format {
namespace {

namespace fs = std::filesystem;

fs::path folder() {
    const char* other = std::getenv("JARBOOK_FORMAT_FILES");
    return other && *other ? other : JARBOOK_FORMAT;
}

std::vector<fs::path> workbooks() {
    std::vector<fs::path> result;
    for (const auto& entry : fs::recursive_directory_iterator(folder()))
        if (entry.path().extension() == ".ods" || entry.path().extension() == ".xlsx")
            result.push_back(entry.path());
    std::sort(result.begin(), result.end());
    return result;
}

std::string test_name(const testing::TestParamInfo<fs::path>& info) {
    std::string name = fs::relative(info.param, folder()).string();
    std::replace_if(
        name.begin(), name.end(), [](unsigned char c) { return !std::isalnum(c); }, '_');
    return name;
}

StoredValues stored_then(const fs::path& workbook) {
    return read(fs::path(workbook).replace_extension(".tsv"));
}

// Deliberate changes of later versions: what the file beside says is shown instead.
StoredValues expected_values(const fs::path& workbook) {
    StoredValues values = stored_then(workbook);
    const fs::path changes = fs::path(workbook).replace_extension(".changes.tsv");
    if (fs::exists(changes))
        for (auto& [place, stored] : read(changes))
            values[place] = stored;
    return values;
}

class Workbook : public testing::TestWithParam<fs::path> {
protected:
    static void expect(const StoredValues& expected, const office::Document& document,
                       const char* when) {
        const auto found = differences(expected, values_of(document));
        EXPECT_EQ(found.size(), 0u) << when;
        for (std::size_t i = 0; i < std::min<std::size_t>(found.size(), 20); ++i)
            ADD_FAILURE() << when << ": " << found[i];
    }
};

TEST_P(Workbook, ShowsWhatItShowed) {
    const StoredValues expected = expected_values(GetParam());
    ASSERT_GT(expected.size(), 100u);
    // From a copy: an office locks the file that it opens.
    const fs::path copy =
        fs::temp_directory_path() /
        ("jarbook-format-" + std::to_string(getpid()) + GetParam().extension().string());
    fs::copy_file(GetParam(), copy, fs::copy_options::overwrite_existing);
    office::Document document = e2e::shared_office().open(copy);
    fs::remove(copy);
    // .ods is computed when read, .xlsx shows its stored values until it is computed again.
    const bool shows_stored = GetParam().extension() == ".xlsx";
    expect(shows_stored ? stored_then(GetParam()) : expected, document, "as opened");
    document.hard_recalculate();
    expect(expected, document, "computed again");
}
INSTANTIATE_TEST_SUITE_P(Of, Workbook, testing::ValuesIn(workbooks()), test_name);

TEST(StoredValues, AreWrittenAndReadBack) {
    StoredValues values;
    values[{"Run 1", 0, 0}] = office::Value(0.1 + 0.2);
    values[{"Run 1", 27, 92}] = office::Value(std::string("two\nlines\tand \\ more"));
    values[{"A sheet", 1, 1}] = office::Value(office::CellError{502});
    values[{"A sheet", 1, 2}] = AnyText{};
    const fs::path file =
        fs::temp_directory_path() / ("jarbook-values-" + std::to_string(getpid()));
    write(values, file);
    const StoredValues again = read(file);
    fs::remove(file);
    EXPECT_EQ(again, values);
    EXPECT_TRUE(differences(values, again).empty());
}

TEST(StoredValues, EveryDifferenceIsSeen) {
    const Place place{"Run 1", 2, 3};
    const auto one = [&](Stored stored) { return StoredValues{{place, std::move(stored)}}; };
    const auto number = one(office::Value(100.0));
    EXPECT_EQ(differences(number, one(office::Value(100.0 + 2e-8))).size(), 0u);
    for (const StoredValues& other :
         {one(office::Value(100.0 + 2e-7)), one(office::Value(std::string("100"))),
          one(office::Value(office::CellError{502})), StoredValues{}}) {
        const auto found = differences(number, other);
        ASSERT_EQ(found.size(), 1u);
        EXPECT_NE(found[0].find("$'Run 1'.C4 showed 100"), std::string::npos) << found[0];
    }
    EXPECT_EQ(differences({}, number).size(), 1u);
    EXPECT_EQ(differences(one(AnyText{}), one(office::Value(std::string("0.2.0")))).size(), 0u);
    EXPECT_EQ(differences(one(AnyText{}), number).size(), 1u);
}

} // namespace
} // namespace jarbook::format
