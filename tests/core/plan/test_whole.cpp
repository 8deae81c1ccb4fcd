// Whole jars: against brute force, worked cases, ties, reasons, the bound on work.
#include "core/plan/plan.hpp"

#include "plan/plan_oracle.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;
using plan_oracle::jars_of;
using plan_oracle::Kind;

namespace {

// Which jars the plan takes, and that it takes them whole.
std::vector<bool> taken(const std::vector<PlanJar>& jars, const BlendPlan& plan) {
    std::vector<bool> result;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        result.push_back(plan.volumes[i] > 0.0);
        EXPECT_TRUE(plan.volumes[i] == 0.0 || plan.volumes[i] == jars[i].jar.volume) << i;
    }
    return result;
}

std::vector<bool> chosen(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const BlendPlan plan = plan_whole_jars(jars, wish);
    plan_oracle::expect_plan(jars, wish, plan, 0.05);
    return taken(jars, plan);
}

void expect_best(Kind kind, std::size_t count, std::uint64_t seed, int& possible) {
    const auto task = plan_oracle::drawn(kind, count, seed);
    SCOPED_TRACE(task.name);
    const auto wanted = plan_oracle::best_whole(task.jars, task.wish);
    if (wanted) {
        ++possible;
        EXPECT_EQ(chosen(task.jars, task.wish), *wanted);
        return;
    }
    plan_oracle::expect_impossible([&] { plan_whole_jars(task.jars, task.wish); });
}

using Bits = std::vector<bool>;

} // namespace

TEST(PlanWhole, EqualsBruteForce) {
    int possible = 0;
    int tasks = 0;
    for (const Kind kind : plan_oracle::kinds)
        for (std::uint64_t seed = 1; seed <= 600; ++seed, ++tasks)
            expect_best(kind, 1 + seed % 12, seed, possible);
    EXPECT_GT(possible, tasks / 4); // else nothing was compared
    EXPECT_LT(possible, tasks * 9 / 10);
}

TEST(PlanWhole, EqualsBruteForceBeyondOneBlockAndOneGap) {
    // Halves of more than 64 subsets are searched in blocks, and of more than 20 jars only some are
    // open at first.
    int possible = 0;
    for (const Kind kind : plan_oracle::kinds)
        for (std::uint64_t seed = 1; seed <= 3; ++seed)
            expect_best(kind, 16, 2000 + seed, possible);
    EXPECT_GT(possible, 6);
    for (const Kind kind : {Kind::random, Kind::decimal, Kind::with_water})
        expect_best(kind, 22, 3000, possible);
}

TEST(PlanWhole, WorkedByHand) {
    // Pure alcohol 0.39, 0.36, 0.33. 1.7 at 43 % vol: 0.731 to 0.76755; only the first two.
    const auto jars = jars_of({{0.5, 78, 1}, {0.5, 72, 1}, {0.5, 66, 1}});
    EXPECT_EQ(chosen(jars, {1.7, 43}), (Bits{true, true, false}));
    // 1.6: 0.688 to 0.7224: first and third (0.72) or second and third (0.69): the less.
    EXPECT_EQ(chosen(jars, {1.6, 43}), (Bits{false, true, true}));
    // Preferences come before volume: greatest 3, so 0 + 2 * 0.33 against 1 * 0.36 + 2 * 0.33.
    EXPECT_EQ(chosen(jars_of({{0.5, 78, 3}, {0.5, 72, 2}, {0.5, 66, 1}}), {1.6, 43}),
              (Bits{true, false, true}));
    // The final volume is that of the alcohol taken at the target.
    EXPECT_NEAR(plan_oracle::recomputed(jars, plan_whole_jars(jars, {1.7, 43})).volume, 0.75 / 0.43,
                1e-9);
}

TEST(PlanWhole, TiesGoToTheOrderOfTheJars) {
    // Equal jars: the first ones.
    EXPECT_EQ(chosen(jars_of({{1, 60, 1}, {1, 60, 1}, {1, 60, 1}, {1, 60, 1}}), {3, 40}),
              (Bits{true, true, false, false}));
    // Equal pure alcohol in unequal jars: 0.7 + 0.5 = 0.65 + 0.55, all in decimals.
    const auto decimal = jars_of({{1, 65, 1}, {1, 70, 1}, {1, 50, 1}, {1, 55, 1}});
    EXPECT_EQ(chosen(decimal, {3, 40}), (Bits{true, false, false, true}));
    // 0.5 * 70 = 0.7 * 50 = 35, in volumes and strengths that are not exact in binary.
    EXPECT_EQ(chosen(jars_of({{0.7, 50, 1}, {0.5, 70, 1}}), {0.35 / 0.4, 40}), (Bits{true, false}));
    EXPECT_EQ(chosen(jars_of({{0.5, 70, 1}, {0.7, 50, 1}}), {0.35 / 0.4, 40}), (Bits{true, false}));
    // Costs tie, too: 0.3 is not exact in binary; (0.3 - 0.1) of 0.4 against (0.3 - 0.2) of 0.8.
    EXPECT_EQ(chosen(jars_of({{1, 40, 0.3}, {1, 40, 0.1}, {1, 80, 0.2}}), {2, 40}),
              (Bits{true, true, false}));
}

TEST(PlanWhole, ManyEqualJars) {
    // Equal jars of equal preference: the first ones, as many as are needed.
    std::vector<PlanJar> jars;
    for (std::size_t i = 0; i < 40; ++i)
        jars.push_back({{0.5, 60.0, i}, 1.0});
    const auto bits = chosen(jars, {10.0, 40.0}); // 4 L of pure alcohol: 13.33 jars of 0.3
    EXPECT_EQ(std::count(bits.begin(), bits.end(), true), 14);
    EXPECT_TRUE(std::is_sorted(bits.rbegin(), bits.rend()));
}

TEST(PlanWhole, TheWindowIsFivePerCentWide) {
    const auto jars = jars_of({{1, 60, 1}});
    EXPECT_EQ(chosen(jars, {1.5, 40}), (Bits{true}));        // exactly
    EXPECT_EQ(chosen(jars, {1.5 / 1.05, 40}), (Bits{true})); // 5 % more, exactly
    expect_refusal(
        [&] {
            plan_whole_jars(jars, {1.42, 40});
        },
        RefusalKind::impossible, "finalVolume", {"1.42 to 1.491", "40 % vol", "above is 1.5"});
}

TEST(PlanWhole, WeakJarsNeedStrongOnes) {
    // 50 of 30 % vol is no use at 40 without stronger company.
    const auto jars = jars_of({{1, 30, 1}, {1, 50, 1}, {1, 60, 1}});
    EXPECT_EQ(chosen(jars, {2.0, 40}), (Bits{true, true, false}));
    EXPECT_EQ(chosen(jars_of({{1, 30, 2}, {1, 30, 2}, {1, 70, 1}}), {2.5, 40}),
              (Bits{true, false, true}));
}

TEST(PlanWhole, TheNearestVolumes) {
    const auto jars = jars_of({{0.5, 78, 1}, {0.5, 72, 1}, {0.5, 66, 1}});
    // 2 at 43 % vol: 0.86 to 0.903; below are 0.75 (1.74419), above 1.08 (2.51163).
    expect_refusal(
        [&] {
            plan_whole_jars(jars, {2, 43});
        },
        RefusalKind::impossible, "finalVolume",
        {"2 to 2.1", "below is 1.74419", "above is 2.51163"});
    // A single jar too big is the nearest above.
    expect_refusal(
        [&] {
            plan_whole_jars(jars_of({{20, 43, 1}}), {2, 43});
        },
        RefusalKind::impossible, "finalVolume", {"above is 20"});
}

TEST(PlanWhole, FortyJarsOfEveryKind) {
    for (const Kind kind : plan_oracle::kinds)
        for (std::uint64_t seed = 1; seed <= 2; ++seed) {
            auto task = plan_oracle::drawn(kind, 40, seed);
            SCOPED_TRACE(task.name);
            try {
                const Bits bits = chosen(task.jars, task.wish);
                // Equal inputs give equal plans, also after other tasks.
                EXPECT_EQ(chosen(task.jars, task.wish), bits);
            } catch (const Refusal& refusal) {
                EXPECT_EQ(refusal.kind(), RefusalKind::impossible) << refusal.sentence();
            }
        }
}

TEST(PlanWhole, TheBoundOnWork) {
    // 70 jars alike in preference and unlike in everything else: nothing tells which to leave open.
    std::mt19937_64 random(1);
    auto task = plan_oracle::random_task(Kind::alike, 70, random);
    task.wish = {10.0, 20.0};
    expect_refusal([&] { plan_whole_jars(task.jars, task.wish); }, RefusalKind::no_convergence,
                   "wholeJars", {"70 whole jars", "bound on work"});
    // Preferences tell 200 jars apart.
    task = plan_oracle::random_task(Kind::random, 200, random);
    task.wish = {30.0, 20.0};
    EXPECT_NO_THROW(chosen(task.jars, task.wish));
}
