// A run of a thousand jars in a real Calc: cuts and plan as array formulas and as single cells,
// equal to each other, to the core and to what Calc itself sums up; stored, opened again, equal.
#include <cmath>
#include <filesystem>
#include <unistd.h>

#include "core/cuts/cuts.hpp"
#include "core/plan/plan.hpp"
#include "support/support.hpp"

namespace jarbook::e2e {
namespace {

constexpr int rows = 1000;

// Jars in the order they ran: strengths fall from 84 to 30 % vol, with a noise of half a per cent.
std::vector<Lot> long_run() {
    std::vector<Lot> jars;
    for (int i = 0; i < rows; ++i)
        jars.push_back({400.0 + 10.0 * (i % 7),
                        std::round(10.0 * (84.0 - 0.054 * i + 0.5 * std::sin(1.7 * i))) / 10.0,
                        static_cast<std::size_t>(i)});
    return jars;
}

// Strengths that such a run passes, in decimals that a file keeps.
double passed(int i) {
    return std::round(1000.0 * (80.0 - 0.045 * i)) / 1000.0;
}

// Columns: A volumes, B strengths (row 1001: water), C cuts, D preferences, F to I the table, J the
// plan, K passages of the strengths in P, L the first of them one by one, R to U the table by
// single cells.
class LongRun : public testing::Test {
protected:
    static void SetUpTestSuite() { document_ = workbook(); }
    static void TearDownTestSuite() { document_.reset(); }
    static std::optional<office::Document> document_;

    static office::Document workbook() {
        office::Document document = shared_office().new_document();
        office::Sheet sheet = document.sheet();
        office::Rows<office::Value> cells;
        for (const Lot& jar : long_run())
            cells.push_back(
                {jar.volume, jar.strength, office::Blank{}, static_cast<double>(jar.row % 4)});
        sheet.range("A1:D1000").set_values(cells);
        sheet.cell("B1001").set_number(0);
        // &"" so that Calc's own functions can compare the names: see the function's note.
        sheet.range("C1:C1000")
            .set_array_formula("=SPIRIT.CUTNAMES(A1:A1000;B1:B1000;2000;79;52)&\"\"");
        sheet.range("F1:I5").set_array_formula("=SPIRIT.CUTTABLE(A1:A1000;B1:B1000;C1:C1000)");
        sheet.range("J1:J1001")
            .set_array_formula("=SPIRIT.BLENDPLAN(A1:A1000;B1:B1000;150000;43;D1:D1000)");
        // A number of its own in every row: mapped over a range, and one by one.
        sheet.range("K1:K1000").set_array_formula("=SPIRIT.CUTPOINT(A1:A1000;B1:B1000;P1:P1000)");
        office::Rows<std::string> single;
        office::Rows<office::Value> strengths;
        for (int i = 1; i <= rows; ++i) {
            strengths.push_back({passed(i - 1)});
            if (i <= 100)
                single.push_back(
                    {"=SPIRIT.CUTPOINT($A$1:$A$1000;$B$1:$B$1000;P" + std::to_string(i) + ")"});
        }
        sheet.range("P1:P1000").set_values(strengths);
        sheet.range("L1:L100").set_formulas(single);
        for (int i = 0; i < 4; ++i)
            for (int j = 0; j < 4; ++j)
                sheet.cell(std::string(1, static_cast<char>('R' + j)) + std::to_string(i + 1))
                    .set_formula("=SPIRIT.CUTTOTAL(A1:A1000;B1:B1000;C1:C1000;\"" +
                                 std::string(cut_word(all_cuts[i])) + "\";\"" + quantities[j] +
                                 "\")");
        document.hard_recalculate();
        return document;
    }
    static constexpr const char* quantities[] = {"volume", "strength", "alcohol", "share"};

    static void expect_same(const office::Document& before, const office::Document& after,
                            double relative_tolerance) {
        for (const char* range :
             {"C1:C1000", "F1:I5", "J1:J1001", "K1:K1000", "L1:L100", "R1:U4"}) {
            SCOPED_TRACE(range);
            const auto first = before.sheet().range(range).values();
            const auto second = after.sheet().range(range).values();
            ASSERT_EQ(first.size(), second.size());
            for (std::size_t r = 0; r < first.size(); ++r)
                for (std::size_t c = 0; c < first[r].size(); ++c) {
                    const double* number = std::get_if<double>(&first[r][c]);
                    const double* again = std::get_if<double>(&second[r][c]);
                    if (number && again)
                        EXPECT_LE(std::fabs(*again - *number),
                                  relative_tolerance * std::fabs(*number))
                            << "row " << r;
                    else
                        EXPECT_EQ(office::describe(second[r][c]), office::describe(first[r][c]))
                            << "row " << r;
                }
        }
    }

    static void expect_round_trip(const std::string& ending, double cached) {
        const std::filesystem::path file =
            std::filesystem::temp_directory_path() /
            ("jarbook-long-run-" + std::to_string(getpid()) + ending);
        document_->save(file);
        {
            office::Document after = shared_office().open(file);
            expect_same(*document_, after, cached);
            after.hard_recalculate();
            expect_same(*document_, after, 0);
        }
        std::filesystem::remove(file);
    }
};

std::optional<office::Document> LongRun::document_;

TEST_F(LongRun, IsWhatTheCoreComputes) {
    const office::Sheet sheet = document_->sheet();
    const auto run = long_run();
    const auto cuts = cuts_of_run(run, 2000, 79, 52);
    std::vector<CutJar> jars;
    std::vector<PlanJar> plan_jars;
    const auto names = sheet.range("C1:C1000").values();
    for (std::size_t i = 0; i < run.size(); ++i) {
        EXPECT_EQ(names[i][0], office::Value(std::string(cut_word(cuts[i])))) << i;
        jars.push_back({run[i], cuts[i]});
        plan_jars.push_back({run[i], static_cast<double>(i % 4)});
    }
    const auto table = cut_table(jars);
    const auto shown = sheet.range("F1:I5").values();
    for (std::size_t i = 0; i < table.size(); ++i) {
        EXPECT_EQ(shown[i][0], office::Value(table[i].volume));
        EXPECT_EQ(shown[i][1], office::Value(table[i].strength.value()));
        EXPECT_EQ(shown[i][2], office::Value(table[i].alcohol));
        EXPECT_EQ(shown[i][3], office::Value(table[i].share.value()));
    }
    const BlendPlan plan = plan_divided(plan_jars, {150000, 43});
    const auto planned = sheet.range("J1:J1001").values();
    for (std::size_t i = 0; i < run.size(); ++i)
        EXPECT_EQ(planned[i][0], office::Value(plan.volumes[i])) << i;
    EXPECT_EQ(planned[1000][0], office::Value(plan.water));
    const auto points = sheet.range("K1:L1000").values();
    for (std::size_t i = 0; i < points.size(); ++i) {
        EXPECT_EQ(points[i][0], office::Value(cut_point(run, passed(static_cast<int>(i))))) << i;
        if (i < 100) {
            EXPECT_EQ(points[i][1], points[i][0]) << i;
        }
    }
}

TEST_F(LongRun, SingleCellsAreTheTable) {
    const auto table = document_->sheet().range("F1:I4").values();
    EXPECT_EQ(document_->sheet().range("R1:U4").values(), table);
    for (const auto& row : table)
        for (const office::Value& value : row)
            EXPECT_TRUE(std::holds_alternative<double>(value)) << office::describe(value);
}

TEST_F(LongRun, AgreesWithWhatCalcSumsUp) {
    const office::Sheet sheet = document_->sheet();
    for (int i = 0; i < 4; ++i) {
        const std::string row = std::to_string(i + 1);
        const std::string name(cut_word(all_cuts[i]));
        office::Cell sum = sheet.cell("W" + row);
        sum.set_formula("=SUMPRODUCT((C1:C1000=\"" + name + "\")*A1:A1000*B1:B1000)/100");
        // Two orders of summing a thousand products.
        const double alcohol = sheet.cell("H" + row).number();
        EXPECT_GT(alcohol, 0.0);
        EXPECT_NEAR(sum.number(), alcohol, 1e-12 * alcohol);
    }
    // The plan poured together: jars, then water (whose strength is in B1001).
    office::Cell strength = sheet.cell("W5");
    strength.set_formula("=SPIRIT.BLENDSTRENGTH(J1:J1001;B1:B1001)");
    EXPECT_NEAR(strength.number(), 43.0, 43e-9);
    office::Cell volume = sheet.cell("W6");
    volume.set_formula("=SPIRIT.BLENDVOLUME(J1:J1001;B1:B1001)");
    EXPECT_NEAR(volume.number(), 150000.0, 150000e-9);
    office::Cell unused = sheet.cell("W7");
    unused.set_formula("=SUMIF(D1:D1000;0;J1:J1000)");
    EXPECT_EQ(unused.number(), 0.0);
}

// These two are computed when they are read.
TEST_F(LongRun, OdsComesBack) {
    expect_round_trip(".ods", 0);
}
TEST_F(LongRun, FlatOdsComesBack) {
    expect_round_trip(".fods", 0);
}
// This one shows the values that it carries, written with 15 digits.
TEST_F(LongRun, XlsxComesBack) {
    expect_round_trip(".xlsx", 1e-14);
}

} // namespace
} // namespace jarbook::e2e
