#include "uno/explain/error_sentences.hpp"

#include <clocale>
#include <gtest/gtest.h>

namespace jarbook::menu {
namespace {

TEST(UnknownName, TheNearestOfOurFunctionsIsProposed) {
    EXPECT_EQ(unknown_name("spirit.strenght", true),
              "There is no function SPIRIT.STRENGHT. Is SPIRIT.STRENGTH meant?");
    EXPECT_NE(unknown_name("STRENGTH", true).find("SPIRIT.STRENGTH meant?"), std::string::npos)
        << "the prefix left out";
    EXPECT_EQ(unknown_name("VLOOKAPP", true), "There is no function VLOOKAPP. Is it spelt right?");
    EXPECT_EQ(unknown_name(std::string(50000, 'Q'), true).find("meant"), std::string::npos);
}

TEST(UnknownName, ANameAndAFunctionOfALaterVersion) {
    EXPECT_EQ(unknown_name("feints", false),
              "The name feints is not defined in this document. Is it spelt right?");
    EXPECT_NE(unknown_name("org.jarbook.spirit.purify", true).find("SPIRIT.PURIFY"),
              std::string::npos);
}

TEST(UnknownName, LettersAreThoseOfNoCountry) {
    // Under a Turkish locale the C library's small i has another capital.
    const std::string before = std::setlocale(LC_ALL, nullptr);
    std::setlocale(LC_ALL, "tr_TR.UTF-8");
    EXPECT_NE(unknown_name("spirit.reading1", true).find("SPIRIT.READING meant?"),
              std::string::npos);
    std::setlocale(LC_ALL, before.c_str());
}

TEST(Meaning, EveryErrorHasASentence) {
    for (int code = 501; code < 545; ++code) {
        const std::string meaning = meaning_of(code);
        ASSERT_FALSE(meaning.empty()) << code;
        EXPECT_EQ(meaning.back(), '.') << code;
    }
    EXPECT_EQ(meaning_of(532), "A number is divided by zero.");
    EXPECT_EQ(meaning_of(999), "LibreOffice gives the error Err:999.");
}

TEST(TextHint, SaysWhatToType) {
    EXPECT_EQ(text_hint("heads"), "");
    EXPECT_NE(text_hint("31,5").find("decimal sign"), std::string::npos);
    EXPECT_NE(text_hint("66.8 % vol").find("without unit"), std::string::npos);
    EXPECT_NE(text_hint("").find("empty text"), std::string::npos);
}

TEST(Circle, LongOnesAreShortened) {
    EXPECT_EQ(circle_text({"A1", "A2", "A1"}), "A1 uses A2 uses A1");
    std::vector<std::string> cells;
    for (int row = 1; row <= 100; ++row)
        cells.push_back("A" + std::to_string(row));
    cells.push_back("A1");
    const std::string text = circle_text(cells);
    EXPECT_TRUE(text.starts_with("A1 uses A2 uses A3 uses A4 (… 93 more …) uses A98")) << text;
    EXPECT_TRUE(text.ends_with(" uses A1")) << text;
}

TEST(Finished, EndsWithOneStop) {
    EXPECT_EQ(finished("wrong"), "wrong.");
    EXPECT_EQ(finished("wrong. "), "wrong.");
    EXPECT_EQ(finished("Is it?"), "Is it?");
    EXPECT_EQ(finished(""), "");
}

} // namespace
} // namespace jarbook::menu
