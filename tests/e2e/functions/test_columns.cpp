// Functions that answer ranges row by row: each row as its scalar sibling answers it, an error in
// its own row only, blank rows blank; and a hundred thousand rows in one call.
#include "support/support.hpp"

#include <cmath>
#include <random>

namespace jarbook::e2e {
namespace {

constexpr int not_a_number = 519;
constexpr int out_of_range = 502;
constexpr int impossible = 503;

struct Sibling {
    const char* column; // its call over A1:D5
    const char* single; // the same for row 1, filled down
    std::vector<std::string> arguments;
};

const Sibling siblings[] = {
    {"SPIRIT.STRENGTHCOLUMN(A1:A5;B1:B5;15;3e-5)",
     "SPIRIT.STRENGTH(A#;B#;15;3e-5)",
     {"readings", "temperatures"}},
    {"SPIRIT.READINGCOLUMN(A1:A5;B1:B5)", "SPIRIT.READING(A#;B#)", {"strengths", "temperatures"}},
    {"SPIRIT.DENSITYCOLUMN(A1:A5;B1:B5)", "SPIRIT.DENSITY(A#;B#)", {"strengths", "temperatures"}},
    {"SPIRIT.VOLUMECOLUMN(A1:A5;B1:B5;B1:B5;20)",
     "SPIRIT.VOLUME(A#;B#;B#;20)",
     {"volumes", "strengths"}},
    {"SPIRIT.MASSCOLUMN(A1:A5;B1:B5)", "SPIRIT.MASS(A#;B#)", {"volumes", "strengths"}},
    {"SPIRIT.FORECASTSTRENGTHCOLUMN(100;40;B1:B5;1.15)",
     "SPIRIT.FORECASTSTRENGTH(100;40;B#;1.15)",
     {"", "collected"}},
};

class Columns : public CalcTest, public testing::WithParamInterface<Sibling> {
protected:
    void SetUp() override {
        CalcTest::SetUp();
        sheet().range("A1:B5").set_values(
            {{61.5, 12.0}, {40.0, 20.0}, {55.5, 31.5}, {72.0, 8.0}, {38.0, 25.0}});
    }
    std::string single(int row) {
        std::string formula = std::string("=") + GetParam().single;
        for (std::size_t at; (at = formula.find('#')) != std::string::npos;)
            formula.replace(at, 1, std::to_string(row));
        return formula;
    }
    office::Rows<office::Value> column() {
        forget_reasons();
        auto rows = evaluate_array(std::string("=") + GetParam().column, 5);
        reasons_ = captured_reasons();
        cell("Z1").clear();
        return rows;
    }
    const std::string& argument(char letter) { return GetParam().arguments[letter - 'A']; }
    std::vector<Reason> reasons_;
};

TEST_P(Columns, EachRowIsWhatItsSiblingAnswers) {
    const auto rows = column();
    EXPECT_TRUE(reasons_.empty());
    for (int i = 1; i <= 5; ++i)
        EXPECT_EQ(rows[i - 1][0], evaluate(single(i), "Y1").value) << "row " << i;
}

TEST_P(Columns, ABlankRowStaysBlankAndNoOtherMoves) {
    const auto plain = column();
    cell("A3").clear();
    cell("B3").set_formula("=\"\""); // as blank as an empty cell
    const auto rows = column();
    EXPECT_EQ(rows[2][0], office::Value(std::string()));
    for (const int i : {0, 1, 3, 4})
        EXPECT_EQ(rows[i][0], plain[i][0]);
    EXPECT_TRUE(reasons_.empty());
}

TEST_P(Columns, AnErrorStaysInItsRowAndTellsIt) {
    const auto plain = column();
    const auto expect_only = [&](int code, const std::string& name) {
        const auto rows = column();
        for (const int i : {0, 1, 2, 4})
            EXPECT_EQ(rows[i][0], plain[i][0]) << i;
        EXPECT_EQ(rows[3][0], office::Value(office::CellError{code}));
        ASSERT_FALSE(reasons_.empty());
        EXPECT_EQ(reasons_.back().code, code);
        EXPECT_EQ(reasons_.back().argument, name);
        EXPECT_NE(reasons_.back().sentence.find("row 4 of " + name), std::string::npos)
            << reasons_.back().sentence;
    };
    // B is an argument of each.
    const office::Value before = cell("B4").value();
    cell("B4").set_number(-77.0);
    expect_only(out_of_range, argument('B'));
    cell("B4").set_text("half a jar");
    expect_only(not_a_number, argument('B'));
    if (!argument('A').empty()) {
        cell("B4").clear();
        expect_only(not_a_number, argument('B'));
    }
    cell("B4").set_number(std::get<double>(before));
    EXPECT_EQ(column(), plain);
}

TEST_P(Columns, AnErrorCellInARangeIsNeverANumber) {
    cell("B4").set_formula("=1/0");
    for (const auto& row : column())
        EXPECT_TRUE(std::holds_alternative<office::CellError>(row[0]));
}
std::string function_name(const testing::TestParamInfo<Sibling>& info) {
    const std::string call = info.param.column;
    return call.substr(7, call.find('(') - 7);
}
INSTANTIATE_TEST_SUITE_P(Of, Columns, testing::ValuesIn(siblings), function_name);

class ColumnShapes : public CalcTest {};

TEST_F(ColumnShapes, OneValueServesAllRowsAndBlocksKeepTheirShape) {
    sheet().range("A1:B2").set_values({{50.0, 60.0}, {70.0, 80.0}});
    const auto block = evaluate_array("=SPIRIT.STRENGTHCOLUMN(A1:B2;15)", 2, 2);
    for (int r = 0; r < 2; ++r)
        for (int c = 0; c < 2; ++c)
            EXPECT_EQ(
                block[r][c],
                evaluate("=SPIRIT.STRENGTH(" + std::to_string(50 + 20 * r + 10 * c) + ";15)", "Y1")
                    .value);
    const Outcome uneven = evaluate("=SPIRIT.STRENGTHCOLUMN(A1:B2;A1:A2)", "Y1");
    EXPECT_TRUE(is_error(uneven, not_a_number));
    EXPECT_NE(uneven.reason_about("temperatures"), nullptr);
    // What does not vary and is wrong is wrong for all, and said once.
    const Outcome whole = evaluate("=SPIRIT.STRENGTHCOLUMN(A1:B2;55)", "Y1");
    EXPECT_TRUE(is_error(whole, out_of_range));
    EXPECT_EQ(whole.reasons.size(), 1u);
    EXPECT_EQ(evaluate("=SPIRIT.STRENGTHCOLUMN(50;10)", "Y1").value,
              evaluate("=SPIRIT.STRENGTH(50;10)", "Y2").value);
    // Weak spirit freezes where strong does not, at one temperature for all.
    sheet().range("A1:A2").set_values({{5.0}, {60.0}});
    const auto frozen = evaluate_array("=SPIRIT.DENSITYCOLUMN(A1:A2;-10)", 2);
    EXPECT_EQ(frozen[0][0], office::Value(office::CellError{impossible}));
    EXPECT_TRUE(std::holds_alternative<double>(frozen[1][0]));
}

TEST_F(ColumnShapes, AHundredThousandRowsInOneCall) {
    constexpr int rows = 100'000;
    constexpr int bad = 77'777;
    std::mt19937 random(7);
    std::uniform_real_distribution<double> reading(10.0, 90.0), temperature(5.0, 35.0);
    office::Rows<office::Value> values;
    for (int i = 1; i <= rows; ++i)
        values.push_back({reading(random), i == bad ? 99.0 : temperature(random)});
    sheet().range("A1:B100000").set_values(values);
    forget_reasons();
    sheet().range("C1:C100000").set_array_formula("=SPIRIT.STRENGTHCOLUMN(A1:A100000;B1:B100000)");
    EXPECT_EQ(cell("C1").error(), 0); // computed when first asked for
    const auto reasons = captured_reasons();
    ASSERT_FALSE(reasons.empty());
    EXPECT_NE(reasons.back().sentence.find("row 77777 of temperatures"), std::string::npos)
        << reasons.back().sentence;
    EXPECT_EQ(cell("C77777").error(), out_of_range);
    for (int i = 1; i <= rows; i += 997)
        EXPECT_EQ(
            office::Value(cell("C" + std::to_string(i)).number()),
            evaluate("=SPIRIT.STRENGTH(A" + std::to_string(i) + ";B" + std::to_string(i) + ")",
                     "Y1")
                .value);
    EXPECT_EQ(cell("C100000").error(), 0);
    cell("Y2").set_formula("=SUMPRODUCT(ISERROR(C1:C100000)*1)");
    EXPECT_EQ(cell("Y2").number(), 1.0);
    sheet().range("C1:C100000").clear();
    // A sum over all of them, without the bad row.
    cell("B77777").set_number(20);
    const double direct =
        evaluate("=SUMPRODUCT(SPIRIT.STRENGTHCOLUMN(A1:A100000;B1:B100000))", "Y1").reasons.empty()
            ? cell("Y1").number()
            : 0.0;
    EXPECT_GT(direct, 10.0 * rows);
    const Outcome many = evaluate("=SPIRIT.STRENGTHCOLUMN(A1:A100001;B1:B100001)", "Y1");
    EXPECT_TRUE(is_error(many, out_of_range));
    ASSERT_FALSE(many.reasons.empty());
    EXPECT_NE(many.reasons.back().sentence.find("100001 rows"), std::string::npos);
}

} // namespace
} // namespace jarbook::e2e
