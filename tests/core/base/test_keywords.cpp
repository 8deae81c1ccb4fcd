// Words are folded alike in every locale: LibreOffice sets the user's for the whole process.
#include "core/base/keywords.hpp"

#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <gtest/gtest.h>

using namespace jarbook;

TEST(Keywords, CaseAndSpacesAreLeftOut) {
    EXPECT_EQ(folded("tails"), "tails");
    EXPECT_EQ(folded(" Hea rts\t\n\v\f\r"), "hearts");
    EXPECT_EQ(folded("%VOL60F"), "%vol60f");
    EXPECT_EQ(folded("AZ az @[`{"), "azaz@[`{");
    EXPECT_EQ(folded(""), "");
}

TEST(Keywords, LettersOutsideAsciiStay) {
    EXPECT_EQ(folded("\xc3\x84PFEL"), "\xc3\x84pfel"); // UTF-8
    EXPECT_EQ(folded("a\xa0z\xff"), "a\xa0z\xff");
}

// A locale whose single bytes have other letters: in Turkish the capital of i has a dot, and 0xA0
// is a space. It is made on the spot, because a machine seldom has it.
TEST(Keywords, AlikeInATurkishLocale) {
    const auto folder = std::filesystem::temp_directory_path() / "jarbook-locale";
    std::filesystem::create_directories(folder);
    const std::string made =
        "localedef -i tr_TR -f ISO-8859-9 " + (folder / "tr_TR").string() + " >/dev/null 2>&1";
    const int status = std::system(made.c_str());
    setenv("LOCPATH", folder.c_str(), 1);
    const bool there = std::setlocale(LC_ALL, "tr_TR") != nullptr;
    if (there) {
        EXPECT_EQ(folded("TAILS"), "tails");
        EXPECT_EQ(folded("a\xa0z\xdd\xc4"), "a\xa0z\xdd\xc4");
    }
    std::setlocale(LC_ALL, "C");
    unsetenv("LOCPATH");
    std::filesystem::remove_all(folder);
    if (!there)
        GTEST_SKIP() << "no sources of a Turkish locale here (status " << status << ")";
}
