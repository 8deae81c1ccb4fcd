// More whole jars than their last digit can be proven for: the best to 1e-5, against oracles that
// count in whole units, on tasks that are made to be hard.
#include "core/plan/plan.hpp"

#include "plan/plan_oracle.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <cstdint>
#include <gtest/gtest.h>
#include <optional>
#include <vector>

using namespace jarbook;
using plan_oracle::Kind;

namespace {

constexpr double promised = 1e-5; // of the volume asked: plan.hpp

// By how much of the volume asked the plan is more than that; that it keeps to the rules.
double excess_of(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const BlendPlan plan = plan_whole_jars(jars, wish);
    plan_oracle::expect_plan(jars, wish, plan, 0.05);
    double alcohol = 0.0;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        EXPECT_TRUE(plan.volumes[i] == 0.0 || plan.volumes[i] == jars[i].jar.volume) << i;
        alcohol += plan.volumes[i] * jars[i].jar.strength;
    }
    // Equal inputs give equal plans.
    EXPECT_EQ(plan_whole_jars(jars, wish).volumes, plan.volumes);
    return alcohol / (wish.final_volume * wish.target) - 1.0;
}

// Jars whose alcohol is a whole number of units: for each sum of units the most room (alcohol less
// mass, / the wish) of a choice that has it.
std::vector<std::optional<double>> most_room(const std::vector<PlanJar>& jars,
                                             const BlendWish& wish, double unit, std::size_t most) {
    const plan_oracle::Measures m = plan_oracle::measure(jars, wish);
    std::vector<std::optional<double>> room(most + 1);
    room[0] = 0.0;
    for (const std::size_t i : m.used) {
        const auto units = static_cast<std::size_t>(
            std::llround(jars[i].jar.volume * jars[i].jar.strength / unit));
        const double own = m.alcohol[i] - m.mass[i];
        for (std::size_t sum = most; sum + 1 > units; --sum)
            if (room[sum - units] && (!room[sum] || *room[sum] < *room[sum - units] + own))
                room[sum] = *room[sum - units] + own;
    }
    return room;
}

// The least excess of any choice, by that; none where there is no choice.
std::optional<double> least_excess(const std::vector<PlanJar>& jars, const BlendWish& wish,
                                   double unit) {
    const double wanted = wish.final_volume * wish.target / unit;
    const auto most = static_cast<std::size_t>(std::floor(wanted * 1.05 + 1e-6));
    const auto room = most_room(jars, wish, unit, most);
    for (auto sum = static_cast<std::size_t>(std::ceil(wanted - 1e-6)); sum <= most; ++sum)
        if (room[sum] && *room[sum] >= -1e-9)
            return static_cast<double>(sum) / wanted - 1.0;
    return std::nullopt;
}

// 60 jars of 0.3 to 1 L in steps of 0.05, their strengths in steps of `step` % vol.
std::vector<PlanJar> decimal_jars(double weakest, double strongest, double step,
                                  std::mt19937_64& random) {
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    std::vector<PlanJar> jars;
    for (std::size_t i = 0; i < 60; ++i)
        jars.push_back(
            {{0.05 * whole(6, 20),
              step * whole(static_cast<int>(weakest / step), static_cast<int>(strongest / step)),
              i},
             1.0});
    return jars;
}

// Below 1e-5, and no two of these nor of their sums alike.
double trace(std::size_t i) {
    return 1e-5 * std::fmod(0.6180339887498949 * static_cast<double>(i + 1), 1.0);
}

void expect_least(const std::vector<PlanJar>& jars, const BlendWish& wish, double unit) {
    const auto wanted = least_excess(jars, wish, unit);
    if (!wanted) {
        plan_oracle::expect_impossible([&] { plan_whole_jars(jars, wish); });
        return;
    }
    const double excess = excess_of(jars, wish);
    EXPECT_GE(excess, *wanted - 1e-9);
    EXPECT_LE(excess, *wanted + promised + 1e-9);
}

} // namespace

TEST(PlanWholeMany, SixtyDecimalJars) {
    std::mt19937_64 random(60);
    for (int i = 0; i < 4; ++i) {
        const auto strong = decimal_jars(55, 88, 0.5, random);
        expect_least(strong, {12.0 + i, 43.0}, 0.025);
        // Half of these are weaker than the target: room decides.
        expect_least(decimal_jars(5, 88, 0.5, random), {9.0 + i, 60.0}, 0.025);
        // Near the strongest there is next to no room, and often no plan.
        expect_least(decimal_jars(55, 70, 0.5, random), {3.0 + i, 69.0}, 0.025);
    }
}

TEST(PlanWholeMany, NoSumFits) {
    // Alcohol in steps of 2.5 L % vol, and a wish between two of them: nothing comes nearer than
    // half a step, here 1.25 / 386.25, and all but 2^60 choices say so.
    std::mt19937_64 random(61);
    const auto jars = decimal_jars(50, 80, 50.0, random);
    for (const double volume : {386.25 / 40.0, 371.25 / 40.0, 501.25 / 40.0})
        expect_least(jars, {volume, 40.0}, 1.25);
}

TEST(PlanWholeMany, ClustersOfSumsThatNoDigitTellsApart) {
    // 60 jars of 50 % vol but for a trace: sums lie in clusters, 2^60 of them in 61.
    std::vector<PlanJar> jars;
    for (std::size_t i = 0; i < 60; ++i)
        jars.push_back({{1.0, 50.0 + trace(i), i}, 1.0});
    // 20.5 jars are asked for: 21 of them, whichever.
    const double asked = 20.5 * 50.0 / 40.0;
    EXPECT_NEAR(excess_of(jars, {asked, 40.0}), 21.0 / 20.5 - 1.0, promised);
    // 9.5 jars: the tenth is 5.3 % too much, and that is proven.
    expect_refusal(
        [&] {
            plan_whole_jars(jars, {9.5 * 50.0 / 40.0, 40.0});
        },
        RefusalKind::impossible, "finalVolume", {"no choice of whole jars"});
}

TEST(PlanWholeMany, ClustersWithWeakJars) {
    // As many of 30 as of 80 % vol, but for a trace, and 60 % vol asked: at most so many weak
    // ones for each strong one.
    std::vector<PlanJar> jars;
    for (std::size_t i = 0; i < 60; ++i)
        jars.push_back({{1.0, (i % 2 == 0 ? 30.0 : 80.0) + trace(i), i}, 1.0});
    for (const double volume : {10.0, 13.3, 17.7, 21.1}) {
        // The same with 30 and 80 exactly: 10 L % vol is the unit.
        auto plain = jars;
        for (PlanJar& jar : plain)
            jar.jar.strength = std::round(jar.jar.strength);
        const auto wanted = least_excess(plain, {volume, 60.0}, 10.0);
        ASSERT_TRUE(wanted) << volume;
        EXPECT_NEAR(excess_of(jars, {volume, 60.0}), *wanted, 2.0 * promised) << volume;
    }
}

TEST(PlanWholeMany, PreferencesComeFirst) {
    // Ten jars at 2 and fifty at 1. Least cost is least alcohol of the fifty.
    std::mt19937_64 random(62);
    for (int i = 0; i < 3; ++i) {
        auto jars = decimal_jars(55, 88, 0.5, random);
        for (std::size_t k = 0; k < 10; ++k)
            jars[6 * k].preference = 2.0;
        const BlendWish wish{12.0 + i, 43.0};
        const BlendPlan plan = plan_whole_jars(jars, wish);
        plan_oracle::expect_plan(jars, wish, plan, 0.05);
        double dear = 0.0;
        for (std::size_t k = 0; k < jars.size(); ++k)
            if (jars[k].preference == 1.0)
                dear += plan.volumes[k] * jars[k].jar.strength;
        // The least by units: what the fifty must add to a choice of the ten.
        constexpr double unit = 0.025;
        const double wanted = wish.final_volume * wish.target / unit;
        const auto most = static_cast<std::size_t>(std::floor(wanted * 1.05 + 1e-6));
        std::vector<PlanJar> liked;
        std::vector<PlanJar> others;
        for (const PlanJar& jar : jars)
            (jar.preference == 2.0 ? liked : others).push_back(jar);
        const auto first = most_room(liked, wish, unit, most);
        const auto second = most_room(others, wish, unit, most);
        std::optional<std::size_t> least;
        for (std::size_t b = 0; b <= most && !least; ++b)
            for (std::size_t a = 0; second[b] && a + b <= most && !least; ++a)
                if (first[a] && static_cast<double>(a + b) >= wanted - 1e-6)
                    least = b;
        ASSERT_TRUE(least);
        EXPECT_NEAR(dear / unit, static_cast<double>(*least), promised * wanted + 1e-6);
    }
}

TEST(PlanWholeMany, SixtyFourOfEveryKind) {
    // Dense: of 2^64 choices some lie within 1e-5 of what was asked, and one is found.
    for (const Kind kind : {Kind::random, Kind::alike, Kind::with_water})
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            auto task = plan_oracle::drawn(kind, 64, seed);
            task.wish = {12.0, 40.0};
            SCOPED_TRACE(task.name);
            const double excess = excess_of(task.jars, task.wish);
            if (kind == Kind::alike) {
                EXPECT_LE(excess, promised);
            }
        }
}

// A price per strength of jars this much alike is so steep that a jar's deviation, as a whole
// number, was beyond what one holds.
TEST(PlanWholeMany, SteepPricesStayWithinWholeNumbers) {
    for (const double apart : {2e-4, 1e-5, 1e-6, 1e-7}) {
        const auto jars =
            plan_oracle::jars_of({{10, 40.0 + apart, 1}, {10, 40.0 - apart, 2}, {10, 10.0, 2}});
        const BlendWish wish{10.0, 40.0};
        const auto wanted = plan_oracle::best_whole(jars, wish);
        ASSERT_TRUE(wanted);
        const BlendPlan plan = plan_whole_jars(jars, wish);
        plan_oracle::expect_plan(jars, wish, plan, 0.05);
        for (std::size_t i = 0; i < jars.size(); ++i)
            EXPECT_EQ(plan.volumes[i] > 0.0, (*wanted)[i]) << apart << " jar " << i + 1;
    }
}
