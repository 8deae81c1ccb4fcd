// The first cell of all: reading a jar, entered as somebody of the locale types it.
#include "support/support.hpp"

namespace jarbook::e2e {
namespace {

class Strength : public CalcTest {};

TEST_F(Strength, ReadingOf50At10DegreesIs5367) {
    // OIML R 22 with an instrument of constant mass (glass 25e-6 per °C); printed tables are quoted
    // with 53.7 (secondary). Tolerance: half of the last digit given.
    const Outcome outcome = evaluate("=SPIRIT.STRENGTH(50;10)");
    EXPECT_TRUE(is_number(outcome, 53.67, 0.005));
    EXPECT_TRUE(outcome.reasons.empty());
}

TEST_F(Strength, TypedInTheLocale) {
    const std::string separator = comma_decimal() ? ";" : ",";
    const std::string reading = comma_decimal() ? "50,5" : "50.5";
    office::Cell typed = cell("A1");
    typed.set_formula_local("=SPIRIT.STRENGTH(" + reading + separator + "10" + separator +
                            separator + ")");
    const Outcome stored = evaluate("=SPIRIT.STRENGTH(50.5;10)");
    ASSERT_EQ(stored.error(), 0) << stored;
    EXPECT_EQ(typed.number(), std::get<double>(stored.value));
    EXPECT_NE(typed.formula_local().find(reading), std::string::npos) << typed.formula_local();
    EXPECT_NE(typed.formula_local().find("SPIRIT.STRENGTH("), std::string::npos)
        << "displayed under another name: " << typed.formula_local();

    // Semicolons are taken in every locale, also with blanks as in printed examples.
    typed.set_formula_local("=SPIRIT.STRENGTH( " + reading + "; 10)");
    EXPECT_EQ(typed.number(), std::get<double>(stored.value));

    // And it is shown as the locale writes numbers, not as text.
    typed.set_formula_local("=SPIRIT.STRENGTH(50" + separator + "20)/8");
    EXPECT_EQ(typed.text(), comma_decimal() ? "6,25" : "6.25");
}

TEST_F(Strength, LowerCaseIsTheSameFunction) {
    cell("A1").set_formula_local(comma_decimal() ? "=spirit.strength(50;10)"
                                                 : "=spirit.strength(50,10)");
    EXPECT_NEAR(cell("A1").number(), 53.67, 0.005);
}

TEST_F(Strength, MapsOverRowsInAnArrayFormula) {
    sheet().range("A1:B3").set_values({{50.0, 10.0}, {60.0, 15.0}, {70.0, 25.0}});
    const auto mapped = evaluate_array("=SPIRIT.STRENGTH(A1:A3;B1:B3)", 3);
    for (int row = 0; row < 3; ++row) {
        const std::string number = std::to_string(row + 1);
        const Outcome single = evaluate("=SPIRIT.STRENGTH(A" + number + ";B" + number + ")");
        ASSERT_EQ(single.error(), 0) << single;
        EXPECT_EQ(mapped[row][0], single.value) << "row " << number;
    }
}

TEST_F(Strength, AnEmptyTemperatureCellIsRefusedWithItsReason) {
    const Outcome outcome = evaluate("=SPIRIT.STRENGTH(50;B7)");
    EXPECT_TRUE(is_error(outcome, 502));
    const Reason* reason = outcome.reason_about("temperature");
    ASSERT_NE(reason, nullptr) << outcome;
    EXPECT_NE(reason->sentence.find("empty"), std::string::npos) << reason->sentence;
}

} // namespace
} // namespace jarbook::e2e
