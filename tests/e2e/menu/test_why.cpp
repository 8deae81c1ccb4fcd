// Why this error?: from a cell that shows an error to where it began, and what to do about it.
#include "menu/menu_support.hpp"

#include <com/sun/star/util/XModifiable.hpp>

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

class Why : public MenuTest {
protected:
    // The only error found where the cell's formula gives one, and where it began.
    Finding only_error(const std::string& address) {
        Finding only;
        int count = 0;
        for (const Finding& finding : explain(document(), address))
            if (finding.kind == "error") {
                only = finding;
                ++count;
            }
        EXPECT_EQ(count, 1) << address;
        return only;
    }
};

TEST_F(Why, ACellWithoutAnErrorHasNoFindings) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    cell("A2").set_text("heads");
    for (const char* address : {"A1", "A2", "A3"})
        EXPECT_TRUE(explain(document(), address).empty()) << address;
}

TEST_F(Why, ARefusalNamesFunctionArgumentValueAndWhatIsAllowed) {
    cell("B2").set_number(60);
    cell("C1").set_formula("=SPIRIT.STRENGTH(50;B2)");
    const Finding finding = only_error("C1");
    EXPECT_EQ(finding.cell, "C1");
    EXPECT_EQ(finding.function, "SPIRIT.STRENGTH");
    EXPECT_EQ(finding.argument, "temperature");
    EXPECT_EQ(finding.value, "60");
    EXPECT_EQ(finding.code, 502);
    EXPECT_NE(finding.sentence.find("-20 to 40 °C"), std::string::npos) << finding;
    EXPECT_NE(finding.sentence.find("Look at B2."), std::string::npos) << finding;
}

TEST_F(Why, AnEmptyCellIsNamed) {
    cell("C1").set_formula("=SPIRIT.STRENGTH(50;B9)");
    EXPECT_TRUE(
        has_finding(explain(document(), "C1"), "C1", "error", "Look at B9, which is empty."));
}

TEST_F(Why, ARowOfAColumnIsFound) {
    sheet().range("A1:B4").set_values({{50.0, 10.0}, {60.0, 60.0}, {70.0, 20.0}, {80.0, 99.0}});
    sheet().range("D1:D4").set_array_formula("=SPIRIT.STRENGTHCOLUMN(A1:A4;B1:B4)");
    const Finding finding = only_error("D2");
    EXPECT_EQ(finding.function, "SPIRIT.STRENGTHCOLUMN");
    EXPECT_EQ(finding.argument, "temperatures");
    EXPECT_EQ(finding.value, "60");
    EXPECT_NE(finding.sentence.find("Look at B2."), std::string::npos) << finding;
    EXPECT_TRUE(explain(document(), "D3").empty());
    // Inside a sum, every row that is wrong.
    cell("E1").set_formula("=SUMPRODUCT(A1:A4;SPIRIT.STRENGTHCOLUMN(A1:A4;B1:B4))");
    ASSERT_EQ(cell("E1").error(), 502);
    const auto found = explain(document(), "E1");
    EXPECT_TRUE(has_finding(found, "E1", "error", "Look at B2."));
    EXPECT_TRUE(has_finding(found, "E1", "error", "Look at B4."));
}

TEST_F(Why, TextThatCalcRefusesBeforeTheCallIsFoundInItsCell) {
    cell("A1").set_text("45 % vol");
    cell("B1").set_number(10);
    cell("C1").set_formula("=SPIRIT.STRENGTH(A1;B1)");
    ASSERT_EQ(cell("C1").error(), 519);
    const Finding finding = only_error("C1");
    EXPECT_EQ(finding.argument, "reading");
    EXPECT_EQ(finding.value, "45 % vol");
    EXPECT_NE(finding.sentence.find("A1"), std::string::npos) << finding;
    EXPECT_NE(finding.sentence.find("without unit"), std::string::npos) << finding;

    // The decimal sign of another country.
    cell("A1").set_text(comma_decimal() ? "45.3.1" : "45,3");
    EXPECT_NE(only_error("C1").sentence.find("decimal sign"), std::string::npos);
}

TEST_F(Why, ErrorsAreFollowedThroughReferencesAndSheets) {
    document().add_sheet("Run 2").cell("A1").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A1").set_formula("='Run 2'.A1/2");
    cell("A2").set_formula("=A1+1");
    cell("A3").set_formula("=SUM(A1:A2)");
    const Findings findings = explain(document(), "A2");
    ASSERT_EQ(findings.size(), 3u);
    EXPECT_EQ(findings[0].kind, "passed on");
    EXPECT_EQ(findings[0].cell, "A2");
    EXPECT_EQ(findings[1].kind, "passed on");
    EXPECT_EQ(findings[1].cell, "A1");
    EXPECT_EQ(findings[2].kind, "error");
    EXPECT_EQ(findings[2].cell, "Run 2.A1");
    EXPECT_EQ(findings[2].argument, "temperature");
    EXPECT_EQ(only_error("A3").cell, "Run 2.A1") << "reached in two ways, told once";
}

TEST_F(Why, NestedCallsNameTheInnerOne) {
    cell("A1").set_formula("=SPIRIT.MASS(SPIRIT.VOLUME(1;60;20;55);60)*2");
    const Finding finding = only_error("A1");
    EXPECT_EQ(finding.function, "SPIRIT.VOLUME");
    EXPECT_EQ(finding.argument, "toTemperature");
    EXPECT_EQ(finding.value, "55");
}

TEST_F(Why, OnlyTheBranchThatWasTaken) {
    cell("B1").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A1").set_formula("=IF(1;SPIRIT.WATERTOADD(1;40;0.4);B1)");
    EXPECT_EQ(only_error("A1").function, "SPIRIT.WATERTOADD");
    cell("A1").set_formula("=IF(0;SPIRIT.WATERTOADD(1;40;0.4);B1)");
    EXPECT_EQ(only_error("A1").cell, "B1");
    cell("A1").set_formula("=IFERROR(B1;SPIRIT.WATERTOADD(1;40;0.4))");
    EXPECT_EQ(only_error("A1").function, "SPIRIT.WATERTOADD");
    cell("A1").set_formula("=CHOOSE(2;B1;SPIRIT.WATERTOADD(1;40;0.4))");
    EXPECT_EQ(only_error("A1").function, "SPIRIT.WATERTOADD");
}

TEST_F(Why, NamedExpressionsAreOpened) {
    cell("B2").set_number(60);
    define("MYSTRENGTH", "SPIRIT.STRENGTH(50;$Sheet1.$B$2)");
    define("TWICE", "MYSTRENGTH*2");
    cell("A1").set_formula("=TWICE+1");
    ASSERT_EQ(cell("A1").error(), 502);
    const Finding finding = only_error("A1");
    EXPECT_EQ(finding.function, "SPIRIT.STRENGTH");
    EXPECT_NE(finding.sentence.find("B2"), std::string::npos) << finding;
}

TEST_F(Why, ARangeOfANameMayRunBackwards) {
    // Beside column C the name means F9:$C$9.
    define("ACROSS", "SUM($Sheet1.B$9:$Sheet1.$C$9)");
    cell("D9").set_formula("=1/0");
    cell("E1").set_formula("=ACROSS");
    ASSERT_EQ(cell("E1").error(), 532);
    EXPECT_EQ(only_error("E1").cell, "D9");
    cell("E1").set_formula("=SPIRIT.PUREALCOHOL(ACROSS;40)");
    EXPECT_EQ(only_error("E1").cell, "D9");
    define("LIST", "$Sheet1.B$9:$Sheet1.$C$9");
    cell("E1").set_formula("=SPIRIT.PUREALCOHOL(LIST;LIST)");
    EXPECT_EQ(only_error("E1").cell, "D9");
}

TEST_F(Why, RangesNameTheRow) {
    sheet().range("A1:B3").set_values({{2.0, 60.0}, {3.0, 50.0}, {4.0, ""}});
    cell("D1").set_formula("=SPIRIT.BLENDSTRENGTH(A1:A3;B1:B3)");
    EXPECT_TRUE(
        has_finding(explain(document(), "D1"), "D1", "error", "Look at B3, which is empty."));
    cell("B2").set_text("strong");
    cell("B3").set_number(40);
    EXPECT_TRUE(has_finding(explain(document(), "D1"), "D1", "error", "Look at B2."));
}

TEST_F(Why, AnErrorInAListIsFollowedThoughTheFunctionWasNeverCalled) {
    sheet().range("A1:A2").set_values({{2.0}, {3.0}});
    cell("B1").set_number(60);
    cell("B2").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("D1").set_formula("=SPIRIT.BLENDSTRENGTH(A1:A2;B1:B2)");
    ASSERT_EQ(cell("D1").error(), 504);
    EXPECT_EQ(only_error("D1").cell, "B2");
    // A computed list.
    cell("B2").set_number(0);
    cell("D1").set_formula("=SPIRIT.BLENDSTRENGTH(A1:A2;10/B1:B2)");
    EXPECT_EQ(only_error("D1").code, 532);
}

TEST_F(Why, ArrayFormulasAreExplainedElementByElement) {
    sheet().range("A1:A3").set_values({{50.0}, {60.0}, {70.0}});
    sheet().range("B1:B3").set_values({{10.0}, {55.0}, {-30.0}});
    sheet().range("C1:C3").set_array_formula("=SPIRIT.STRENGTH(A1:A3;B1:B3)");
    EXPECT_TRUE(explain(document(), "C1").empty());
    EXPECT_EQ(only_error("C2").value, "55");
    EXPECT_TRUE(has_finding(explain(document(), "C2"), "C2", "error", "Look at B2."));
    EXPECT_EQ(only_error("C3").value, "-30");
    // Summed up: two elements, two reasons.
    sheet().range("D1:D1").set_array_formula("=SUM(SPIRIT.STRENGTH(A1:A3;B1:B3))");
    const Findings findings = explain(document(), "D1");
    ASSERT_EQ(findings.size(), 2u);
    EXPECT_EQ(findings[0].value, "55");
    EXPECT_EQ(findings[1].value, "-30");
    // Calc's own functions that compute arrays in a plain formula.
    cell("B1").set_number(0);
    cell("E1").set_formula("=SUMPRODUCT(A1:A3/B1:B3)");
    EXPECT_TRUE(has_finding(explain(document(), "E1"), "E1", "error", "B1 is 0"));
}

TEST_F(Why, OneCellOfAnArrayResult) {
    // Heads and tails have no jar; each cell tells of its own cut.
    sheet().range("A1:C2").set_values({{2.0, 75.0, "foreshots"}, {3.0, 65.0, "hearts"}});
    sheet().range("E1:H5").set_array_formula("=SPIRIT.CUTTABLE(A1:A2;B1:B2;C1:C2)");
    EXPECT_TRUE(explain(document(), "F3").empty());
    ASSERT_EQ(cell("F2").error(), 32767);
    EXPECT_TRUE(has_finding(explain(document(), "F2"), "F2", "error", "in the cut heads"));
    EXPECT_TRUE(has_finding(explain(document(), "F4"), "F4", "error", "in the cut tails"));
    EXPECT_EQ(only_error("F4").argument, "cuts");
    EXPECT_EQ(only_error("F4").function, "SPIRIT.CUTTABLE");
    // Taken out of the result in a plain formula.
    cell("J1").set_formula("=INDEX(SPIRIT.CUTTABLE(A1:A2;B1:B2;C1:C2);4;2)");
    ASSERT_EQ(cell("J1").error(), 32767);
    EXPECT_TRUE(has_finding(explain(document(), "J1"), "J1", "error", "in the cut tails"));
    // No alcohol at all: no cut has a share of it.
    sheet().range("B1:B2").set_values({{0.0}, {0.0}});
    ASSERT_EQ(cell("H3").error(), 32767);
    EXPECT_TRUE(has_finding(explain(document(), "H3"), "H3", "error", "no alcohol"));
}

TEST_F(Why, ASecondWayToTheSameCellIsNotTold) {
    cell("B1").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("B2").set_formula("=B1*2");
    cell("B3").set_formula("=B2+B1");
    const Findings findings = explain(document(), "B3");
    ASSERT_EQ(findings.size(), 2u) << findings.back();
    EXPECT_EQ(findings[0].cell, "B3");
    EXPECT_NE(findings[0].sentence.find("It uses B1"), std::string::npos) << "the short way";
    EXPECT_EQ(findings[1].cell, "B1");
    EXPECT_EQ(findings[1].kind, "error");
}

TEST_F(Why, MoreCausesThanAnybodyReads) {
    office::Rows<std::string> wrong(1000, {"=1/0"});
    sheet().range("A1:A1000").set_formulas(wrong);
    cell("C1").set_formula("=SUM(A1:A1000)");
    const Findings findings = explain(document(), "C1");
    EXPECT_LE(findings.size(), 30u);
    EXPECT_TRUE(has_finding(findings, "A1", "error", "divided by zero"));
    EXPECT_TRUE(has_finding(findings, "C1", "passed on", "more causes than the 20 told here"));
}

TEST_F(Why, TheBoxToCorrectIsNamedThroughFormulasThatReadByPlace) {
    // As a run sheet reads its boxes: by row number, within a block that cannot be moved.
    sheet().range("A10:E10").set_values({{"", "mL", "", "reading", "°C"}});
    sheet().range("A11:E12").set_values(
        {{1.0, 500.0, "", 66.0, 20.0}, {2.0, 500.0, "", 61.0, 60.0}});
    cell("F12").set_formula("=IF(INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;4)=\"\";\"\";"
                            "SPIRIT.STRENGTH(INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;4);"
                            "INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5)))");
    ASSERT_EQ(cell("F12").error(), 502);
    Finding finding = only_error("F12");
    EXPECT_EQ(finding.cell, "F12");
    EXPECT_EQ(finding.input, "E12");
    EXPECT_NE(finding.sentence.find("Look at E12."), std::string::npos) << finding;
    // Through a cell that only hands it on, and from a total.
    cell("H12").set_formula("=INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5)");
    cell("F12").set_formula("=SPIRIT.STRENGTH(INDEX($D:$D;ROW());H12)");
    cell("F20").set_formula("=SUM(F11:F12)");
    finding = only_error("F20");
    EXPECT_EQ(finding.cell, "F12");
    EXPECT_EQ(finding.input, "E12");
    // Through one that corrects it and refuses what lies out of range.
    cell("H12").set_formula("=IFERROR((INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5)+$Z$1)/"
                            "(MEDIAN(INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5);-20;80)="
                            "INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5))/ISNUMBER($A$12);\"\")");
    ASSERT_EQ(cell("F12").error(), 502);
    finding = only_error("F12");
    EXPECT_EQ(finding.input, "E12");
    // But not through one that computes something else.
    cell("H12").set_formula("=E12/ISNUMBER(A12)-1/2");
    finding = only_error("F12");
    EXPECT_EQ(finding.input, "H12");
    // Text that Calc refuses before the call.
    cell("H12").set_formula("=INDEX($A$10:$E$13;ROW()-ROW($A$10)+1;5)");
    cell("E12").set_text("warm");
    finding = only_error("F12");
    EXPECT_EQ(finding.input, "E12");
    EXPECT_EQ(finding.value, "warm");
    // A list that is taken out of a block by its column.
    cell("E12").set_number(20);
    cell("B12").set_text("half");
    cell("F12").clear();
    cell("G1").set_formula("=SPIRIT.PUREALCOHOL(INDEX($A$11:$E$12;0;2);INDEX($A$11:$E$12;0;4))");
    finding = only_error("G1");
    EXPECT_EQ(finding.argument, "volumes");
    EXPECT_EQ(finding.input, "B12");
}

TEST_F(Why, FormulasAreQuotedAsTheyWereTyped) {
    for (const char* name : {"Run 1", "Anna's jars", "1.5 L $", "Überlauf"}) {
        office::Document other = shared_office().new_document();
        office::Sheet named = other.add_sheet(name);
        named.cell("C12").set_number(30);
        named.cell("A1").set_formula("=SPIRIT.STRENGTH(50;C12*2)");
        const Findings findings = explain(other, "A1", 1);
        EXPECT_TRUE(has_finding(findings, "A1", "error", "It is computed as C12*2.")) << name;
        // What stands in quotation marks is left alone.
        named.cell("A1").set_formula("=SPIRIT.STRENGTH(50;LEN(\"$C$12\")*C12)");
        EXPECT_TRUE(has_finding(explain(other, "A1", 1), "A1", "error", "LEN(\"$C$12\")*C12"))
            << name;
    }
}

TEST_F(Why, CellsBeyondAnArraysEnd) {
    sheet().range("A1:A4").set_array_formula("=SPIRIT.BLENDPAIR(50;30;40;1)");
    ASSERT_EQ(cell("A3").error(), 32767);
    EXPECT_TRUE(has_finding(explain(document(), "A3"), "A3", "error", "only 2 rows and 1 column"));
    sheet().range("B1:B2").set_array_formula("=SPIRIT.BLENDPAIR(50;30;60;1)");
    EXPECT_EQ(only_error("B2").argument, "target");
}

TEST_F(Why, ARangeInThePlaceOfOneValue) {
    sheet().range("A1:A3").set_values({{50.0}, {60.0}, {70.0}});
    cell("C9").set_formula("=SPIRIT.STRENGTH(A1:A3;10)");
    ASSERT_EQ(cell("C9").error(), 519);
    EXPECT_TRUE(has_finding(explain(document(), "C9"), "C9", "error", "array formula"));
}

TEST_F(Why, MistakesOfSpellingAndNumber) {
    cell("A1").set_formula("=SPIRIT.STRENGHT(50;10)");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "SPIRIT.STRENGTH meant?"));
    cell("A1").set_formula("=nowhere+1");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "nowhere"));
    cell("A1").set_formula("=SPIRIT.STRENGTH(50)");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error",
                            "SPIRIT.STRENGTH(reading; temperature; [reference]; [glass])"));
}

TEST_F(Why, ErrorsThatAreCalcsOwn) {
    cell("A1").set_formula("=1/B9");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "B9 is empty"));
    cell("B1").set_text("jar");
    cell("A1").set_formula("=B1*2");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "B1 is the text \"jar\""));
    cell("A1").set_formula("=A2+1");
    cell("A2").set_formula("=A1+1");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "A1 uses A2 uses A1"));
    cell("A1").set_formula("=VLOOKUP(3;B1:C2;2;0)");
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "VLOOKUP gives #N/A"));
    cell("A1").set_formula("=#REF!");
    // LibreOffice 26.8 takes it for a reference that is gone.
    EXPECT_TRUE(has_finding(explain(document(), "A1"), "A1", "error", "written into the formula") ||
                has_finding(explain(document(), "A1"), "A1", "error", "is no longer there"));
}

TEST_F(Why, ReferencesThatAreComputed) {
    document().add_sheet("Run 2").cell("B7").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A1").set_formula("=INDIRECT(\"'Run 2'.B7\")");
    EXPECT_EQ(only_error("A1").cell, "Run 2.B7");
    cell("A1").set_formula("=OFFSET('Run 2'.A1;6;1)");
    EXPECT_EQ(only_error("A1").cell, "Run 2.B7");
    // On its own sheet, where the scratch sheet would be the wrong one.
    cell("C3").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A1").set_formula("=SPIRIT.MASS(1;INDIRECT(\"C3\"))");
    EXPECT_EQ(only_error("A1").cell, "C3");
    cell("C3").set_number(120);
    EXPECT_EQ(only_error("A1").value, "120");
}

TEST_F(Why, TheDocumentIsLeftAlone) {
    sheet().range("A1:B3").set_values({{50.0, 55.0}, {60.0, -25.0}, {70.0, "x"}});
    sheet().range("C1:C3").set_array_formula("=SPIRIT.STRENGTH(A1:A3;B1:B3)");
    cell("D1").set_formula("=INDIRECT(\"C1\")");
    cell("D2").set_formula("=SUM(C1:C3)");
    for (const bool modified : {false, true}) {
        shared_office().call("setting the modified flag", [&] {
            const uno::Reference<util::XModifiable> flag(document().uno(), uno::UNO_QUERY_THROW);
            flag->setModified(modified);
        });
        const std::string before = everything_about(document());
        ASSERT_NE(before.find("undo "), std::string::npos) << "nothing to compare";
        for (const char* address : {"C1", "C2", "C3", "D1", "D2"})
            EXPECT_FALSE(explain(document(), address).empty()) << address;
        check_sheet(document());
        EXPECT_EQ(everything_about(document()), before);
    }
}

} // namespace
} // namespace jarbook::e2e
