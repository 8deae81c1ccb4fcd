// WASHSTRENGTH: Balling's form, held against the legal factors and the published polynomial.
#include "core/gauging/wash.hpp"

#include "mixture/plain_r22.hpp"
#include "mixture/plain_sucrose.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <sstream>

using namespace jarbook;

namespace {

// Excise Notice 226, 30.2-30.3: per cent by volume = degrees lost x factor of their band.
double by_legal_factors(double original, double final_gravity) {
    const published::Table table("wash_gravity.csv", 18);
    const double lost = 1000.0 * (original - final_gravity);
    for (std::size_t row = 0; row < table.rows(); ++row)
        if (table.text(row, "kind") == "factor f" &&
            lost <= table.number(row, "gravity_lost_to") + 0.05) // bands of one decimal
            return lost * table.number(row, "value");
    throw std::runtime_error("no factor for so much gravity lost");
}

// The two figures of a row "law / Balling".
std::pair<double, double> figures(const std::string& text) {
    std::istringstream in(text);
    double law = 0.0, balling = 0.0;
    char slash = 0;
    in >> law >> slash >> balling;
    return {law, balling};
}

// Reading of a 20/20 hydrometer in a sugar solution at t: the polynomial the other way round.
double gravity_shown(double sugar, double t) {
    const double density = plain_r22::density(0.0, t) + plain_sucrose::excess(sugar, t);
    return density * (1.0 + 25e-6 * (t - 20.0)) / plain_r22::density(0.0, 20.0);
}

} // namespace

TEST(Wash, ChecksOfTheTable) {
    const published::Table table("wash_gravity.csv", 18);
    const struct {
        const char* begins;
        double original, after;
    } checks[] = {{"% vol, OG 1.040 FG 1.008", 1.040, 1.008},
                  {"% vol, OG 1.070 FG 0.998", 1.070, 0.998},
                  {"% vol, OG 1.080 FG 0.995", 1.080, 0.995}};
    int compared = 0;
    for (std::size_t row = 0; row < table.rows(); ++row)
        for (const auto& check : checks)
            if (table.text(row, "unit").starts_with(check.begins)) {
                const auto [law, balling] = figures(table.text(row, "value"));
                // Half of the second decimal.
                EXPECT_NEAR(wash_strength(check.original, check.after), balling, 0.005)
                    << check.begins;
                EXPECT_NEAR(by_legal_factors(check.original, check.after), law, 0.005);
                ++compared;
            }
    EXPECT_EQ(compared, 3);
}

// The help says within 0.3 % vol of the law, wherever the law has a factor (up to 100 degrees) and
// the wash has fermented out: to 1.020 or below.
TEST(Wash, NearTheLegalFactors) {
    for (double original = 1.010; original < 1.1005; original += 0.005)
        for (double after = 0.990; after <= std::fmin(original, 1.020); after += 0.002)
            if (1000.0 * (original - after) <= 100.7) {
                EXPECT_NEAR(wash_strength(original, after), by_legal_factors(original, after), 0.3)
                    << original << " " << after;
            }
}

// Hydrometers at other temperatures than theirs show the same wash.
RC_GTEST_PROP(Wash, TheTemperatureOfTheReadingDoesNotMatter, ()) {
    const double before = *within(0.005, 0.3);
    const double share = *within(-0.2, 1.0); // of it, that is left; below 0 under water
    const double after = std::fmax(share * before, -0.04);
    const double t1 = *within(0.001, 40.0);
    const double t2 = *within(0.001, 40.0);
    const double og = gravity_shown(before, t1), og_20 = gravity_shown(before, 20.0);
    const double fg = gravity_shown(after, t2), fg_20 = gravity_shown(after, 20.0);
    RC_PRE(og <= highest_gravity && og_20 <= highest_gravity && og >= 1.0);
    RC_PRE(fg >= lowest_final_gravity && fg_20 >= lowest_final_gravity);
    RC_PRE(after <= before * (1.0 - 1e-9));
    // Extract is found to 1e-13; 1e-10 % vol leaves room for the two polynomials' rounding.
    RC_ASSERT(std::fabs(wash_strength(og, fg, t1, t2) - wash_strength(og_20, fg_20)) < 1e-9);
}

RC_GTEST_PROP(Wash, TheMoreIsLostTheStronger, ()) {
    const double og = *within(1.001, 1.15);
    const double a = *within(0.98, 1.15);
    const double b = *within(0.98, 1.15);
    RC_PRE(a < b - 1e-6 && b < og);
    RC_ASSERT(wash_strength(og, a) > wash_strength(og, b));
    RC_ASSERT(wash_strength(og, b) > 0.0);
}

TEST(Wash, NothingFermentedIsNothing) {
    EXPECT_EQ(wash_strength(1.05, 1.05), 0.0);
    EXPECT_NEAR(wash_strength(1.0, 1.0), 0.0, 1e-12);
    EXPECT_NEAR(wash_strength(1.05, 1.05, 15.0, 15.0), 0.0, 1e-12);
}

TEST(Wash, Refusals) {
    const auto out = RefusalKind::out_of_range;
    expect_refusal([] { wash_strength(50.0, 1.0); }, out, "originalGravity",
                   {"50", "1 to 1.15", "type 1.050"});
    expect_refusal([] { wash_strength(1050.0, 1.0); }, out, "originalGravity",
                   {"1050", "type 1.050"});
    expect_refusal([] { wash_strength(1.05, 998.0); }, out, "finalGravity", {"998", "type 0.998"});
    expect_refusal([] { wash_strength(1.05, 8.0); }, out, "finalGravity", {"8", "type 1.008"});
    expect_refusal([] { wash_strength(0.0, 1.0); }, out, "originalGravity", {"Is the cell empty?"});
    expect_refusal([] { wash_strength(1.05, 0.0); }, out, "finalGravity", {"Is the cell empty?"});
    expect_refusal([] { wash_strength(1.2, 1.0); }, out, "originalGravity", {"1.2", "1.15"});
    expect_refusal([] { wash_strength(1.05, 1.0, 0.0); }, out, "originalTemperature", {"empty"});
    expect_refusal([] { wash_strength(1.05, 1.0, 20.0, 41.0); }, out, "finalTemperature",
                   {"41 °C", "0 to 40 °C"});
    expect_refusal([] { wash_strength(1.008, 1.05); }, RefusalKind::impossible, "finalGravity",
                   {"1.050", "1.008", "mixed up"});
}
