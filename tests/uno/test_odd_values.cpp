#include "uno/check/odd_values.hpp"

#include <gtest/gtest.h>
#include <limits>

namespace jarbook::menu {
namespace {

TEST(OddValues, AFractionInThePlaceOfAStrength) {
    EXPECT_TRUE(is_fraction(0.4));
    EXPECT_FALSE(is_fraction(0.0));
    EXPECT_FALSE(is_fraction(1.0));
    EXPECT_FALSE(is_fraction(40.0));
}

TEST(OddValues, TheMiddleOfFewIsNone) {
    EXPECT_FALSE(middle_of_many({20, 21, 60}));
    EXPECT_EQ(middle_of_many({20, 21, 60, 22}), 21.5);
    EXPECT_EQ(middle_of_many({60, 20, 22, 20, 21}), 21.0);
}

TEST(OddValues, FiguresForPeople) {
    EXPECT_EQ(figure_text(79.496), "79.50");
    EXPECT_GT(figure_text(std::numeric_limits<double>::max()).size(), 300u);
}

} // namespace
} // namespace jarbook::menu
