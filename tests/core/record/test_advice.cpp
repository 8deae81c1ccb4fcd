// What is said of a run's readings, word by word.
#include "core/record/advice.hpp"

#include "record/invented_runs.hpp"

#include <gtest/gtest.h>

namespace {

using namespace jarbook;

RunReadings three_lots(double residue_volume, double residue_strength, double unit = 1.0) {
    RunReadings run;
    run.lots = {{Direction::in, 10.0 * unit, 30.0, 1.0, 0.5, 0},
                {Direction::out, 3.6 * unit, 68.0, 1.0, 0.5, 2},
                {Direction::out, residue_volume * unit, residue_strength, 2.0, 0.5, 4}};
    return run;
}

std::string advice_on(const RunReadings& run) {
    return advice(run, judged(run));
}

TEST(Advice, SaysWhatWouldHaveShown) {
    const RunReadings run = three_lots(6.5, 8.5);
    EXPECT_EQ(advice_on(run),
              "The readings fit. An error smaller than about 0.29 (2.9 %) or 1.2 % vol in the "
              "charge need not show; a single lot out would have to be off by at least 0.19 or "
              "1.9 % vol.");
    // And so it does: four times in five.
    std::mt19937_64 random(5);
    int shown = 0;
    const auto said = judged(run).reconciled.all.difference_uncertainty;
    for (int i = 0; i < 2000; ++i) {
        RunReadings truth = run;
        const auto balanced = reconciled_lots(run);
        for (std::size_t lot = 0; lot < 3; ++lot) {
            truth.lots[lot].volume = balanced[lot].volume;
            truth.lots[lot].strength = balanced[lot].strength;
        }
        RunReadings read = invented::as_read(truth, invented::Noise::normal, random);
        read.lots[0].volume += noticed_four_times_in_five * said[0];
        shown += !judged(read).fits;
    }
    EXPECT_NEAR(shown / 2000.0, 0.8, 0.03); // three standard deviations
}

TEST(Advice, NamesOneReadingWithWhatWouldMakeItFit) {
    EXPECT_EQ(advice_on(three_lots(6.1, 8.5)),
              "Look at the volume of row 5 first: about 0.4 more would make it fit, 6.50 instead "
              "of 6.1.");
    EXPECT_EQ(advice_on(three_lots(65.0, 8.5)),
              "Look at the volume of row 5 first: about 58 less would make it fit, 6.50 instead "
              "of 65.");
    // In millilitres no more digits than are known.
    EXPECT_EQ(advice_on(three_lots(6.1, 8.5, 1000.0)),
              "Look at the volume of row 5 first: about 400 more would make it fit, 6500 instead "
              "of 6100.");
}

TEST(Advice, SaysWhatCannotBeTold) {
    EXPECT_EQ(advice_on(three_lots(6.5, 5.5)),
              "A strength is wrong; which one cannot be told. Measure charge and residue again.");

    // Two jars of one strength, one of them far too large.
    RunReadings several;
    several.lots = {{Direction::in, 10.0, 30.0, 1.0, 0.5, 0},
                    {Direction::out, 2.3, 68.0, 1.0, 0.5, 2},
                    {Direction::out, 1.7, 68.0, 1.0, 0.5, 4},
                    {Direction::out, 6.5, 8.5, 2.0, 0.5, 6}};
    const std::string text = advice_on(several);
    EXPECT_EQ(text.find("Which reading is wrong cannot be told. These explain it equally well: "),
              0u)
        << text;
    EXPECT_NE(text.find("volume of row 3 (1.90 instead of 2.3)"), std::string::npos) << text;
    EXPECT_NE(text.find("volume of row 5 (1.30 instead of 1.7)"), std::string::npos) << text;

    RunReadings two = three_lots(6.5, 12.5);
    two.lots[0].volume = 10.8;
    EXPECT_EQ(advice_on(two), "No single reading explains it: look for a lost lot, or two errors.");
}

TEST(Advice, SaysHowManyMoreExplainIt) {
    // Twenty jars of one strength, one of them far too large.
    RunReadings run;
    run.lots.push_back({Direction::in, 20.0, 30.0, 0.1, 0.1, 0});
    for (std::size_t i = 0; i < 20; ++i)
        run.lots.push_back({Direction::out, 0.36, 68.0, 1.0, 0.1, i + 1});
    run.lots.push_back({Direction::out, 13.0, 8.5, 0.1, 0.1, 21});
    run.lots[7].volume = 0.6;
    const std::string text = advice_on(run);
    EXPECT_NE(text.find(" and 15 more."), std::string::npos) << text;
}

TEST(Advice, SaysWhatIsHeld) {
    RunReadings run = three_lots(6.55, 0.1);
    run.lots[1].volume = 3.75;
    run.lots[1].strength = 81.0;
    for (std::size_t lot : {0u, 1u}) {
        run.lots[lot].strength_tolerance = 0.1;
        run.lots[lot].volume_tolerance_pct = 0.3;
    }
    const std::string text = advice_on(run);
    EXPECT_NE(text.find(". The strength of row 5 is held at 0 % vol."), std::string::npos) << text;
}

} // namespace
