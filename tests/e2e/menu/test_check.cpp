// Check this sheet: everything refused, and what is allowed but odd.
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/lang/Locale.hpp>
#include <com/sun/star/util/NumberFormat.hpp>
#include <com/sun/star/util/XNumberFormatsSupplier.hpp>
#include <com/sun/star/util/XNumberFormatTypes.hpp>

#include "menu/menu_support.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

class Check : public MenuTest {
protected:
    void format_as_per_cent(const std::string& cells) {
        shared_office().call("formatting as per cent", [&] {
            const uno::Reference<util::XNumberFormatsSupplier> supplier(document().uno(),
                                                                        uno::UNO_QUERY_THROW);
            const uno::Reference<util::XNumberFormatTypes> types(supplier->getNumberFormats(),
                                                                 uno::UNO_QUERY_THROW);
            const uno::Reference<beans::XPropertySet> range(sheet().range(cells).uno(),
                                                            uno::UNO_QUERY_THROW);
            range->setPropertyValue(
                "NumberFormat",
                uno::Any(types->getStandardFormat(util::NumberFormat::PERCENT, lang::Locale())));
        });
    }
    Findings check() { return check_sheet(document()); }
    static int count(const Findings& findings, const std::string& kind) {
        int found = 0;
        for (const Finding& finding : findings)
            found += finding.kind == kind;
        return found;
    }
};

TEST_F(Check, NothingToFind) {
    sheet().range("A1:B3").set_values({{50.0, 10.0}, {60.0, 15.0}, {70.0, 20.0}});
    cell("C1").set_formula("=SPIRIT.STRENGTH(A1;B1)");
    cell("C2").set_formula("=SPIRIT.BLENDSTRENGTH(B1:B3;A1:A3)");
    cell("C3").set_formula("=SPIRIT.UNCERTAINTY(A1;B1;0.5;0.5)"); // tolerances are no strengths
    EXPECT_TRUE(check().empty()) << check().front();
}

TEST_F(Check, TheBlankRunLogIsCalm) {
    auto blank = open_blank_run_log();
    for (std::size_t i = 0; i < blank.sheet_names().size(); ++i) {
        if (blank.sheet_names()[i] == "Functions")
            continue; // its examples show a caution on purpose
        const Findings findings = check_sheet(blank, static_cast<int>(i));
        EXPECT_TRUE(findings.empty()) << blank.sheet_names()[i] << ": " << findings.front();
    }
}

TEST_F(Check, AllRefusalsWithThoseWhoShowThem) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A2").set_formula("=A1*2");
    cell("A3").set_formula("=SUM(A1:A2)");
    cell("B1").set_formula("=1/0");
    document().add_sheet("Run 2").cell("A1").set_formula("=SPIRIT.WATERTOADD(1;40;0.4)");
    cell("B2").set_formula("='Run 2'.A1");
    sheet().range("D1:D2").set_array_formula("=SPIRIT.BLENDPAIR(50;30;60;1)");
    const Findings findings = check();
    EXPECT_EQ(count(findings, "error"), 4);
    EXPECT_EQ(count(findings, "passed on"), 0);
    EXPECT_TRUE(has_finding(findings, "A1", "error", "Also shown by A2 and A3."));
    EXPECT_TRUE(has_finding(findings, "B1", "error", "divided by zero"));
    EXPECT_TRUE(has_finding(findings, "Run 2.A1", "error", "Also shown by B2."));
    EXPECT_TRUE(has_finding(findings, "D1", "error", "Also shown by D2."));
}

TEST_F(Check, EmptyCellsAsArguments) {
    cell("A1").set_number(2);
    cell("C1").set_formula("=SPIRIT.MASS(A1;B1)");                      // one value
    cell("C2").set_formula("=SPIRIT.DENSITY(40;B2)");                   // one that may be left out
    cell("C3").set_formula("=SPIRIT.PUREALCOHOL(A8:A9;B8:B9)");         // a list
    cell("C4").set_formula("=IF(B5=\"\";\"\";SPIRIT.STRENGTH(A1;B5))"); // never computed
    cell("C5").set_formula("=SPIRIT.DENSITY(40)");                      // left out
    const Findings findings = check();
    EXPECT_TRUE(has_finding(findings, "C1", "empty", "strength refers to B1"));
    EXPECT_TRUE(has_finding(findings, "C2", "empty", "temperature refers to B2"));
    EXPECT_TRUE(has_finding(findings, "C3", "empty", "volumes refers to A8:A9, all"));
    EXPECT_TRUE(has_finding(findings, "C3", "empty", "strengths refers to B8:B9, all"));
    EXPECT_EQ(count(findings, "empty"), 4);

    // In an array formula each element has its own.
    sheet().range("A1:B3").set_values({{1.0, 20.0}, {1.0, ""}, {1.0, 20.0}});
    sheet().range("C1:C5").clear();
    sheet().range("D1:D3").set_array_formula("=SPIRIT.MASS(A1:A3;B1:B3)");
    EXPECT_EQ(count(check(), "empty"), 1);
    EXPECT_TRUE(has_finding(check(), "D2", "empty", "strength refers to B2"));
}

TEST_F(Check, AnEmptyArgumentThatIsRefusedIsToldOnce) {
    cell("C1").set_formula("=SPIRIT.STRENGTH(50;B1)");
    const Findings findings = check();
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].kind, "error");
}

TEST_F(Check, StrengthsFormattedAsPerCent) {
    sheet().range("A1:B3").set_values({{1.0, 0.4}, {1.0, 0.5}, {1.0, 0.6}});
    format_as_per_cent("B1:B2");
    cell("C1").set_formula("=SPIRIT.MASS(A1;B1)");
    cell("C2").set_formula("=SPIRIT.BLENDSTRENGTH(A1:A3;B1:B3)");
    const Findings findings = check();
    EXPECT_EQ(findings.size(), 3u);
    EXPECT_TRUE(has_finding(findings, "B1", "odd", "holds 0.4 and shows 40 %"));
    EXPECT_TRUE(has_finding(findings, "B2", "odd", "formatted as per cent"));
    EXPECT_TRUE(has_finding(findings, "B3", "odd", "40, not 0.40")) << "a fraction, not formatted";
    // A share may well be per cent.
    sheet().clear();
    cell("A1").set_formula("=SPIRIT.CUTTOTAL(5;70;\"hearts\";\"hearts\";\"share\")");
    format_as_per_cent("A1");
    EXPECT_TRUE(check().empty()) << check().front();
}

TEST_F(Check, AFractionTypedIntoTheFormula) {
    cell("A1").set_formula("=SPIRIT.MASS(1;0.4)");
    EXPECT_TRUE(has_finding(check(), "A1", "odd", "40, not 0.40"));
}

// A1:INDEX(C1:C9;2) is A1:C2: what stands between counts, though no reference names it.
TEST_F(Check, ARangeUpToAnIndexHasAllBetween) {
    sheet().range("A1:C2").set_values({{1.0, 2.0, 4.0}, {8.0, 16.0, 32.0}});
    cell("E1").set_formula("=IF(SUM(A1:INDEX(C1:C9;2))=63;SPIRIT.MASS(1;0.4);0)");
    cell("E2").set_formula("=IF(SUM(A1:INDEX(C1:C9;1))=7;0;SPIRIT.MASS(1;0.4))");
    cell("E3").set_formula("=IF(SUM(INDEX(B1:B9;2):A1)=27;SPIRIT.MASS(1;0.5);0)");
    const Findings findings = check();
    EXPECT_TRUE(has_finding(findings, "E1", "odd", "40, not 0.40"));
    EXPECT_TRUE(has_finding(findings, "E3", "odd", "is 0.5 % vol"));
    EXPECT_EQ(findings.size(), 2u);
}

TEST_F(Check, StrengthsThatRiseAlongARun) {
    sheet().range("A1:C5").set_values({{1.0, 80.0, "heads"},
                                       {1.0, 78.0, "hearts"},
                                       {1.0, 78.4, "hearts"},
                                       {1.0, 79.5, "hearts"},
                                       {1.0, 60.0, "tails"}});
    cell("D1").set_formula("=SPIRIT.CUTTOTAL(A1:A5;B1:B5;C1:C5;\"hearts\")");
    const Findings findings = check();
    ASSERT_EQ(findings.size(), 1u) << "0.4 % vol is within what instruments tell apart";
    EXPECT_TRUE(has_finding(findings, "B4", "odd", "79.50 % vol after 78.40 % vol in B3"));
    // A blend has no order.
    cell("D1").set_formula("=SPIRIT.BLENDSTRENGTH(A1:A5;B1:B5)");
    EXPECT_TRUE(check().empty());
}

TEST_F(Check, ATemperatureFarFromTheOthers) {
    for (int row = 1; row <= 8; ++row) {
        const std::string at = std::to_string(row);
        cell("A" + at).set_number(70 - row);
        cell("B" + at).set_number(row == 5 ? 32 : 22 + row * 0.3);
        cell("C" + at).set_formula("=SPIRIT.STRENGTH(A" + at + ";B" + at + ")");
    }
    const Findings findings = check();
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_TRUE(has_finding(findings, "B5", "odd", "32 °C is far from the others"));
    // Readings that differ by the day are no reason for a word.
    cell("B5").set_number(25);
    EXPECT_TRUE(check().empty());
    // In a list.
    sheet().range("D1:D4").set_values({{20.0}, {21.0}, {20.0}, {2.0}});
    cell("E1").set_formula("=SPIRIT.PUREALCOHOL(A1:A4;A1:A4;D1:D4)");
    EXPECT_TRUE(has_finding(check(), "D4", "odd", "2 °C is far from the others"));
}

TEST_F(Check, AJarWithNoCut) {
    sheet().range("A1:C4").set_values(
        {{1.0, 80.0, "heads"}, {1.0, 78.0, ""}, {"", "", ""}, {1.0, 60.0, "tails"}});
    sheet().range("E1:H5").set_array_formula("=SPIRIT.CUTTABLE(A1:A4;B1:B4;C1:C4)");
    const Findings findings = check();
    EXPECT_TRUE(has_finding(findings, "C2", "odd", "The jar in A2 has no cut"));
    EXPECT_TRUE(has_finding(findings, "E1", "error", "Look at C2, which is empty."));
    EXPECT_EQ(count(findings, "odd"), 1) << "the blank row is no jar";
}

TEST_F(Check, NumbersKeptAsText) {
    cell("A1").set_text("50");
    cell("C1").set_formula("=SPIRIT.STRENGTH(A1;10)");
    ASSERT_EQ(cell("C1").error(), 0);
    EXPECT_TRUE(has_finding(check(), "A1", "odd", "kept as text"));
}

TEST_F(Check, ATemperatureOfSeveralFunctionsIsToldOnce) {
    sheet().range("A1:A5").set_values({{20.0}, {20.5}, {60.0}, {21.0}, {20.0}});
    sheet().range("B1:B5").set_values({{50.0}, {50.0}, {50.0}, {50.0}, {50.0}});
    sheet().range("C1:C5").set_array_formula("=SPIRIT.MASS(1;B1:B5)");
    for (const char* row : {"1", "2", "3", "4", "5"})
        cell(std::string("D") + row).set_formula(std::string("=SPIRIT.STRENGTH(50;A") + row + ")");
    cell("E1").set_formula("=SPIRIT.PUREALCOHOL(C1:C5;B1:B5;A1:A5)");
    int told = 0;
    for (const Finding& finding : check())
        told += finding.cell == "A3" && finding.kind == "odd";
    EXPECT_EQ(told, 1);
}

TEST_F(Check, CautionsOfTheCharge) {
    cell("A1").set_formula("=SPIRIT.CHARGECHECK(50;60;100)");
    EXPECT_TRUE(has_finding(check(), "A1", "odd", "60"));
}

TEST_F(Check, ARangeOfWhichAPlainFormulaTakesOneCell) {
    sheet().range("A1:B3").set_values({{1.0, 40.0}, {2.0, 50.0}, {3.0, 60.0}});
    cell("D1").set_formula("=SUMPRODUCT(SPIRIT.MASS(A1:A3;B1:B3))");
    cell("D2").set_formula("=SPIRIT.MASS(1;40)");
    ASSERT_EQ(cell("D1").number(), cell("D2").number()) << "this Calc sums them up";
    EXPECT_TRUE(has_finding(check(), "D1", "odd", "only the cell in its own row"));
    sheet().range("D1:D1").set_array_formula("=SUM(SPIRIT.MASS(A1:A3;B1:B3))");
    EXPECT_TRUE(check().empty()) << check().front();
}

TEST_F(Check, EachCellInErrorStandsInTheListOnce) {
    cell("A1").set_formula("=1/0");
    cell("A2").set_formula("=1/0");
    cell("B1").set_formula("=A1+A2");
    cell("B2").set_formula("=B1*2");
    const Findings findings = check();
    ASSERT_EQ(findings.size(), 2u);
    EXPECT_TRUE(has_finding(findings, "A1", "error", "Also shown by B1 and B2."));
    EXPECT_TRUE(has_finding(findings, "A2", "error", "divided by zero"));
}

TEST_F(Check, ACellThatWasNotComputedAgain) {
    // With automatic calculation off the cell keeps its error until somebody asks.
    cell("B1").set_number(60);
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;B1)");
    ASSERT_EQ(cell("A1").error(), 502);
    set_automatic_calculation(document(), false);
    cell("B1").set_number(10);
    ASSERT_EQ(cell("A1").error(), 502) << "nothing to test";
    EXPECT_TRUE(has_finding(check(), "A1", "stale", "computed again it gives 53.669"));
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "stale", "Recalculate everything"));
}

} // namespace
} // namespace jarbook::e2e
