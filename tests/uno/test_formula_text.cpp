#include "uno/explain/formula_text.hpp"

#include <gtest/gtest.h>

namespace jarbook::menu {
namespace {

TEST(AsTyped, TheOwnSheetAndDollarsGo) {
    EXPECT_EQ(as_typed("$Sheet1.$C$12*2", "Sheet1"), "C12*2");
    EXPECT_EQ(as_typed("$'Run 1'.$C$12*2", "Run 1"), "C12*2");
    EXPECT_EQ(as_typed("SUM($'Run 1'.$A$1:$'Run 1'.$A$9;$'Run 1'.$B$1)", "Run 1"), "SUM(A1:A9;B1)");
    EXPECT_EQ(as_typed("'Anna's jars'.$C$12", "Anna's jars"), "C12") << "as Calc prints it";
    EXPECT_EQ(as_typed("$'Anna''s jars'.$C$12", "Anna's jars"), "C12");
}

TEST(AsTyped, OtherSheetsAndTextsStay) {
    EXPECT_EQ(as_typed("$'Run 2'.$C$12", "Run 1"), "'Run 2'.C12");
    EXPECT_EQ(as_typed("$'a$b'.$C$12", "Run 1"), "'a$b'.C12") << "a dollar of the name";
    EXPECT_EQ(as_typed("LEN(\"$Sheet1.$A$1\")", "Sheet1"), "LEN(\"$Sheet1.$A$1\")");
    EXPECT_EQ(as_typed("\"say \"\"$5\"\"\"&$Sheet1.$A$1", "Sheet1"), "\"say \"\"$5\"\"\"&A1");
    EXPECT_EQ(as_typed("$MySheet1.$A$1", "Sheet1"), "MySheet1.A1") << "ends alike";
}

TEST(AsTyped, ASheetThatIsCalledLikeANumber) {
    EXPECT_EQ(as_typed("2.5*$'2'.$A$1", "2"), "2.5*A1");
    EXPECT_EQ(as_typed("1.5+$'1'.$A$1", "1"), "1.5+A1");
}

} // namespace
} // namespace jarbook::menu
