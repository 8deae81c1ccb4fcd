// Cuts: cases worked by hand, and the properties that any run has.
#include "core/cuts/cuts.hpp"

#include "core/blending/blending.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <algorithm>
#include <gtest/gtest.h>

using namespace jarbook;

namespace {

std::string names(const std::vector<Cut>& cuts) {
    std::string text;
    for (const Cut cut : cuts)
        text.append(text.empty() ? "" : " ").append(cut_word(cut));
    return text;
}

std::vector<Lot> run(const std::vector<double>& volumes, const std::vector<double>& strengths) {
    std::vector<Lot> jars;
    for (std::size_t i = 0; i < volumes.size(); ++i)
        jars.push_back({volumes[i], strengths[i], i});
    return jars;
}

std::vector<Cut> cut(const std::vector<double>& volumes, const std::vector<double>& strengths,
                     double foreshots, double from, double to) {
    return cuts_of_run(run(volumes, strengths), foreshots, from, to);
}

Column column_of(const std::string& name, std::vector<Cell> cells) {
    return {name, std::move(cells)};
}

const Cell blank{};

rc::Gen<std::vector<Lot>> jars() {
    return rc::gen::mapcat(rc::gen::resize(rc::kNominalSize, rc::gen::inRange(1, 31)), [](int n) {
        return rc::gen::container<std::vector<Lot>>(
            static_cast<std::size_t>(n),
            rc::gen::map(rc::gen::pair(within(0.0, 1000.0), within(1.0, 95.0)),
                         [](const std::pair<double, double>& jar) {
                             return Lot{jar.first, jar.second};
                         }));
    });
}

} // namespace

// CUTNAMES: each expected row is worked by hand from the rule in cuts.hpp ---------------------

TEST(CutsOfRun, ForeshotsHeadsHeartsTails) {
    EXPECT_EQ(names(cut({150, 500, 500, 500, 500}, {84, 82, 78, 70, 52}, 150, 78, 60)),
              "foreshots heads hearts hearts tails");
}

TEST(CutsOfRun, FirstJarLargerThanTheForeshots) {
    // The first jar is foreshots whatever its size; the second begins beyond them.
    EXPECT_EQ(names(cut({500, 500}, {84, 82}, 100, 78, 60)), "foreshots heads");
    EXPECT_EQ(names(cut({500, 500}, {84, 82}, 0.001, 78, 60)), "foreshots heads");
}

TEST(CutsOfRun, ForeshotsEndInsideAJar) {
    // Middles at 50, 150, 250: 200 lies inside the second jar and past its middle.
    EXPECT_EQ(names(cut({100, 100, 100}, {84, 83, 82}, 200, 78, 60)), "foreshots foreshots heads");
    // 140 lies inside the second jar and short of its middle.
    EXPECT_EQ(names(cut({100, 100, 100}, {84, 83, 82}, 140, 78, 60)), "foreshots heads heads");
    // Exactly at a middle is within; three tenths are not exact in binary.
    EXPECT_EQ(names(cut({100, 100, 100}, {84, 83, 82}, 150, 78, 60)), "foreshots foreshots heads");
    EXPECT_EQ(names(cut({0.1, 0.1, 0.2, 0.1}, {84, 83, 82, 81}, 0.3, 78, 60)),
              "foreshots foreshots foreshots heads");
}

TEST(CutsOfRun, NoForeshots) {
    EXPECT_EQ(names(cut({100, 100}, {84, 77}, 0, 78, 60)), "heads hearts");
}

TEST(CutsOfRun, AllOfItForeshots) {
    EXPECT_EQ(names(cut({100, 100}, {84, 50}, 1000, 78, 60)), "foreshots foreshots");
}

TEST(CutsOfRun, BoundariesThemselves) {
    // At heartsFrom hearts begin; at heartsTo they still run.
    EXPECT_EQ(names(cut({1, 1, 1, 1}, {78.01, 78, 60, 59.99}, 0, 78, 60)),
              "heads hearts hearts tails");
}

TEST(CutsOfRun, NoisyReadingsDoNotPassBack) {
    EXPECT_EQ(names(cut({1, 1, 1, 1, 1, 1, 1}, {80, 77.9, 78.3, 70, 59.9, 60.4, 58}, 0, 78, 60)),
              "heads hearts hearts hearts tails tails tails");
}

TEST(CutsOfRun, BothBoundariesInOneStep) {
    EXPECT_EQ(names(cut({1, 1, 1}, {80, 55, 70}, 0, 78, 60)), "heads tails tails");
}

TEST(CutsOfRun, ABoundaryThatIsNeverReached) {
    EXPECT_EQ(names(cut({1, 1, 1}, {84, 83, 82}, 0, 78, 60)), "heads heads heads");
    EXPECT_EQ(names(cut({1, 1, 1}, {84, 75, 65}, 0, 78, 60)), "heads hearts hearts");
}

TEST(CutsOfRun, AForeshotsReadingPassesNoBoundary) {
    // The first drops run weak where the head was wet: not yet hearts.
    EXPECT_EQ(names(cut({1, 1, 1}, {70, 83, 77}, 1, 78, 60)), "foreshots heads hearts");
}

TEST(CutsOfRun, EmptyJarsPassNoBoundary) {
    // A row typed as 0 and 0 is no jar; the first that holds something is the foreshots.
    EXPECT_EQ(names(cut({0, 1, 1, 0, 1}, {0, 84, 82, 0, 77}, 0.5, 78, 60)),
              "foreshots foreshots heads heads hearts");
}

TEST(CutsOfRun, Refusals) {
    expect_refusal([] { cut({1}, {80}, 0, 60, 60); }, RefusalKind::impossible, "heartsFrom",
                   {"60", "above heartsTo"});
    expect_refusal([] { cut({1}, {80}, 0, 50, 60); }, RefusalKind::impossible, "heartsFrom",
                   {"50", "60"});
    expect_refusal([] { cut({1}, {80}, -1, 78, 60); }, RefusalKind::out_of_range, "foreshotsVolume",
                   {"-1", "0 or more"});
    expect_refusal([] { cut({1}, {80}, 0, 0.78, 60); }, RefusalKind::out_of_range, "heartsFrom",
                   {"0.78", "40, not 0.40"});
    expect_refusal([] { cut({1}, {80}, 0, 78, 0); }, RefusalKind::out_of_range, "heartsTo",
                   {"0", "1 to 100", "empty"});
    expect_refusal([] { cut({1}, {80}, 0, 101, 60); }, RefusalKind::out_of_range, "heartsFrom",
                   {"101"});
}

RC_GTEST_PROP(CutsOfRun, NeverTurnBack, ()) {
    const auto lots = *jars();
    const double to = *within(1.0, 80.0);
    const double from = *within(to + 0.1, 100.0);
    const auto cuts = cuts_of_run(lots, *within(0.0, 2000.0), from, to);
    RC_ASSERT(cuts.size() == lots.size());
    RC_ASSERT(std::is_sorted(cuts.begin(), cuts.end()));
}

// Lists with cuts -----------------------------------------------------------------------------

TEST(CutJars, BlankRowsAreLeftOut) {
    const auto jars = cut_jars_from(
        column_of("volumes", {0.5, blank, 0.5, std::string()}),
        column_of("strengths", {82.0, std::string(), 78.0, blank}),
        column_of("cuts", {std::string("Heads"), blank, std::string(" hearts "), std::string()}));
    ASSERT_EQ(jars.size(), 2u);
    EXPECT_EQ(jars[0].cut, Cut::heads);
    EXPECT_EQ(jars[1].cut, Cut::hearts);
    EXPECT_EQ(jars[1].jar.row, 2u);
}

TEST(CutJars, AMistypedNameIsNamedWithItsRow) {
    expect_refusal(
        [] {
            cut_jars_from(column_of("volumes", {blank, 0.5, 0.5}),
                          column_of("strengths", {blank, 82.0, 78.0}),
                          column_of("cuts", {blank, std::string("heads"), std::string("herats")}));
        },
        RefusalKind::not_a_number, "cuts",
        {"row 3 of cuts", "\"herats\"", "foreshots, heads, hearts, tails"});
}

TEST(CutJars, ARowBlankInOneListOnly) {
    expect_refusal(
        [] {
            cut_jars_from(column_of("volumes", {0.5, 0.5}), column_of("strengths", {82.0, 78.0}),
                          column_of("cuts", {std::string("heads"), blank}));
        },
        RefusalKind::not_a_number, "cuts", {"row 2 of cuts"});
    expect_refusal(
        [] {
            cut_jars_from(column_of("volumes", {0.5, blank}), column_of("strengths", {82.0, blank}),
                          column_of("cuts", {std::string("heads"), std::string("hearts")}));
        },
        RefusalKind::not_a_number, "strengths", {"row 2"});
    expect_refusal(
        [] {
            cut_jars_from(column_of("volumes", {0.5}), column_of("strengths", {82.0}),
                          column_of("cuts", {2.0}));
        },
        RefusalKind::not_a_number, "cuts", {"row 1 of cuts", "2"});
}

// CUTTABLE and CUTTOTAL -----------------------------------------------------------------------

namespace {
std::vector<CutJar> worked_run() {
    return {{{0.15, 84.0}, Cut::foreshots},
            {{0.5, 82.0}, Cut::heads},
            {{0.5, 78.0}, Cut::hearts},
            {{0.5, 70.0}, Cut::hearts},
            {{0.5, 52.0}, Cut::tails}};
}
} // namespace

TEST(CutTable, WorkedByHand) {
    const auto table = cut_table(worked_run());
    // Pure alcohol is volume times strength: 0.126, 0.41, 0.39 + 0.35, 0.26; together 1.536.
    const double alcohol[] = {0.126, 0.41, 0.74, 0.26, 1.536};
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_NEAR(table[i].alcohol, alcohol[i], 1e-14) << i;
        EXPECT_NEAR(table[i].share.value(), alcohol[i] / 1.536, 1e-14) << i;
    }
    // A cut of one jar is that jar; two jars contract by 0.22 mL a litre (worked out independently
    // from the R 22 coefficients, to the printed digits).
    EXPECT_NEAR(table[1].volume, 0.5, 1e-12);
    EXPECT_NEAR(table[1].strength.value(), 82.0, 1e-9);
    EXPECT_NEAR(table[2].volume, 0.99977942, 1e-8);
    EXPECT_NEAR(table[2].strength.value(), 74.016326, 1e-6);
    EXPECT_NEAR(table[4].volume, 2.14626741, 1e-8);
    EXPECT_NEAR(table[4].strength.value(), 71.566105, 1e-6);
}

TEST(CutTable, ACutWithoutJars) {
    const auto table = cut_table({{{0.5, 80.0}, Cut::hearts}});
    for (const std::size_t empty : {0u, 1u, 3u}) {
        EXPECT_EQ(table[empty].volume, 0.0);
        EXPECT_EQ(table[empty].alcohol, 0.0);
        EXPECT_EQ(table[empty].share, 0.0);
        EXPECT_FALSE(table[empty].strength);
    }
    EXPECT_EQ(table[2].share, 1.0);
}

TEST(CutTable, NoJarsAndNoAlcohol) {
    for (const CutFigures& row : cut_table({})) {
        EXPECT_EQ(row.volume, 0.0);
        EXPECT_EQ(row.share, 0.0);
        EXPECT_FALSE(row.strength);
    }
    // Water has a strength, 0, but nothing to take a share of.
    const auto water = cut_table({{{0.5, 0.0}, Cut::tails}});
    EXPECT_EQ(water[3].strength, 0.0);
    EXPECT_FALSE(water[3].share);
    EXPECT_EQ(water[0].share, 0.0);
    // A jar of which nothing is left has no strength.
    EXPECT_FALSE(cut_table({{{0.0, 60.0}, Cut::tails}})[3].strength);
}

TEST(CutTotal, IsTheTable) {
    const auto jars = worked_run();
    const auto table = cut_table(jars);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(cut_total(jars, all_cuts[i], CutQuantity::alcohol), table[i].alcohol);
        EXPECT_EQ(cut_total(jars, all_cuts[i], CutQuantity::volume), table[i].volume);
        EXPECT_EQ(cut_total(jars, all_cuts[i], CutQuantity::strength), table[i].strength);
        EXPECT_EQ(cut_total(jars, all_cuts[i], CutQuantity::share), table[i].share);
    }
}

TEST(CutTotal, OfNothing) {
    const std::vector<CutJar> jars{{{0.5, 80.0}, Cut::hearts}};
    EXPECT_EQ(cut_total(jars, Cut::tails, CutQuantity::alcohol), 0.0);
    EXPECT_EQ(cut_total(jars, Cut::tails, CutQuantity::volume), 0.0);
    EXPECT_EQ(cut_total(jars, Cut::tails, CutQuantity::share), 0.0);
    expect_refusal([&] { cut_total(jars, Cut::tails, CutQuantity::strength); },
                   RefusalKind::nothing_there, "cut", {"tails", "no strength"});
    expect_refusal(
        [] {
            cut_total({{{0.5, 0.0}, Cut::tails}}, Cut::tails, CutQuantity::share);
        },
        RefusalKind::nothing_there, "strengths", {"no alcohol"});
}

TEST(CutTotal, Words) {
    EXPECT_EQ(cut_named(" FORESHOTS", "cut"), Cut::foreshots);
    EXPECT_EQ(cut_quantity_named("Share"), CutQuantity::share);
    EXPECT_EQ(cut_quantity_named("volume "), CutQuantity::volume);
    expect_refusal([] { cut_quantity_named("litres"); }, RefusalKind::not_a_number, "quantity",
                   {"\"litres\"", "alcohol, volume, strength, share"});
    expect_refusal([] { cut_named("all", "cut"); }, RefusalKind::not_a_number, "cut",
                   {"\"all\"", "tails"});
}

RC_GTEST_PROP(CutTable, CutsMakeUpTheWhole, ()) {
    std::vector<CutJar> jars_with_cuts;
    for (const Lot& lot : *jars())
        jars_with_cuts.push_back(
            {lot, all_cuts[static_cast<std::size_t>(*rc::gen::inRange(0, 4))]});
    const auto table = cut_table(jars_with_cuts);
    std::vector<Lot> cuts;
    double alcohol = 0.0;
    double share = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        if (table[i].strength)
            cuts.push_back({table[i].volume, *table[i].strength});
        alcohol += table[i].alcohol;
        share += table[i].share.value_or(0.0);
    }
    RC_ASSERT(std::fabs(alcohol - table[4].alcohol) <= 1e-12 * table[4].alcohol);
    if (cuts.empty())
        return;
    RC_ASSERT(std::fabs(share - 1.0) <= 1e-12);
    // Poured together, the cuts are the run: mass and alcohol are kept, in 30 sums and 5 inverses.
    RC_ASSERT(std::fabs(blend(cuts).strength - *table[4].strength) <= 1e-9);
    RC_ASSERT(std::fabs(blend(cuts).volume - table[4].volume) <= 1e-11 * table[4].volume);
}

// CUTPOINT ------------------------------------------------------------------------------------

TEST(CutPoint, WorkedByHand) {
    // Middles at 0.25, 0.75, 1.25, 1.75.
    const auto jars = run({0.5, 0.5, 0.5, 0.5}, {80, 82, 78, 66});
    EXPECT_NEAR(cut_point(jars, 75.0), 1.375, 1e-15); // a quarter of the way from 78 to 66
    EXPECT_NEAR(cut_point(jars, 81.0), 0.875, 1e-15); // falling side, not between 80 and 82
    EXPECT_NEAR(cut_point(jars, 82.0), 0.75, 1e-15);  // the strongest jar's middle
    EXPECT_NEAR(cut_point(jars, 78.0), 1.25, 1e-15);
    EXPECT_NEAR(cut_point(jars, 66.0), 1.75, 1e-15); // the last middle
}

TEST(CutPoint, TheFirstPassageOfANoisyRun) {
    // 71 is passed between 74 and 70, then between 72 and 64 again.
    EXPECT_NEAR(cut_point(run({1, 1, 1, 1}, {74, 70, 72, 64}), 71.0), 0.5 + 0.75, 1e-15);
}

TEST(CutPoint, LevelStretches) {
    EXPECT_NEAR(cut_point(run({1, 1, 1}, {74, 74, 70}), 74.0), 0.5, 1e-15);
    EXPECT_NEAR(cut_point(run({1, 1, 1}, {74, 74, 70}), 72.0), 2.0, 1e-15);
}

TEST(CutPoint, EmptyJarsAreLeftOut) {
    EXPECT_NEAR(cut_point(run({1, 0, 1}, {74, 0, 70}), 72.0), 1.0, 1e-15);
}

TEST(CutPoint, NotReached) {
    const auto jars = run({0.5, 0.5, 0.5}, {80, 82, 78});
    expect_refusal([&] { cut_point(jars, 60.0); }, RefusalKind::impossible, "strength",
                   {"60", "82", "78"});
    expect_refusal([&] { cut_point(jars, 83.0); }, RefusalKind::impossible, "strength",
                   {"83", "82"});
    // 79 and 80 were run before the strongest jar, on the rising side; after it the run stopped.
    expect_refusal(
        [] {
            cut_point(run({1, 1, 1}, {78, 80, 82}), 80.0);
        },
        RefusalKind::impossible, "strength", {"80", "82"});
    expect_refusal([] { cut_point({}, 60.0); }, RefusalKind::nothing_there, "volumes", {"no jar"});
    expect_refusal([&] { cut_point(jars, 0.6); }, RefusalKind::out_of_range, "strength",
                   {"0.6", "40, not 0.40"});
    expect_refusal([&] { cut_point(jars, 0.0); }, RefusalKind::out_of_range, "strength", {"empty"});
}

RC_GTEST_PROP(CutPoint, LiesWhereTheJarsSay, ()) {
    // A run that falls: between the middles of the jars either side of the strength.
    auto lots = *jars();
    std::sort(lots.begin(), lots.end(),
              [](const Lot& a, const Lot& b) { return a.strength > b.strength; });
    for (Lot& lot : lots)
        lot.volume += 1.0;
    const double strength = *within(lots.back().strength, lots.front().strength);
    const double collected = cut_point(lots, strength);
    double before = 0.0;
    for (const Lot& lot : lots) {
        const double middle = before + lot.volume / 2.0;
        if (lot.strength > strength)
            RC_ASSERT(middle <= collected * (1.0 + 1e-12));
        if (lot.strength < strength)
            RC_ASSERT(middle >= collected * (1.0 - 1e-12));
        before += lot.volume;
    }
}
