#include "r22.hpp"
#include "alcoholometer.hpp"

#include <gtest/gtest.h>

TEST(R22, DensityOfEthanolAt20CAsPrinted) {
    // OIML R 22:1975, p. 5 and Table IVa: 789.24; half a printed digit.
    EXPECT_NEAR(jarbook::r22::density_kg_m3(1.0, 20.0), 789.24, 0.005);
}
TEST(R22, X) {
    EXPECT_NEAR(jarbook::strength_from_reading(50.0, 10.0), 53.67, 0.005);
}
