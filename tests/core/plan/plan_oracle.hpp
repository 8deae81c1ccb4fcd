// Blend plans by brute force, and what any plan has to keep to: written plainly from what a plan
// is, with the plain R 22 formula. Small cases only.
#pragma once

#include "core/plan/plan.hpp"

#include "core/base/refusal.hpp"
#include "mixture/plain_r22.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace plan_oracle {

using jarbook::BlendPlan;
using jarbook::BlendWish;
using jarbook::Lot;
using jarbook::PlanJar;

// Jars of volume, strength and preference.
inline std::vector<PlanJar> jars_of(const std::vector<std::array<double, 3>>& rows) {
    std::vector<PlanJar> jars;
    for (const auto& [volume, strength, preference] : rows)
        jars.push_back({{volume, strength, jars.size()}, preference});
    return jars;
}

// Where brute force finds no plan, there has to be a refusal.
template <class F>
void expect_impossible(F plan) {
    try {
        plan();
        ADD_FAILURE() << "a plan where brute force finds none";
    } catch (const jarbook::Refusal& refusal) {
        EXPECT_EQ(refusal.kind(), jarbook::RefusalKind::impossible) << refusal.sentence();
    }
}

// kg per L at 20 degC
inline double density(double strength) {
    return plain_r22::density(plain_r22::mass_fraction(strength, 20.0), 20.0) / 1000.0;
}

// Alcohol and mass of each whole jar, / those of the wish.
struct Measures {
    std::vector<double> alcohol;
    std::vector<double> mass;
    std::vector<double> preference; // / greatest
    std::vector<std::size_t> used;  // jars that hold something and have a preference
};

inline Measures measure(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    Measures m;
    double greatest = 0.0;
    for (const PlanJar& jar : jars)
        greatest = std::max(greatest, jar.preference);
    for (std::size_t i = 0; i < jars.size(); ++i) {
        const Lot& lot = jars[i].jar;
        m.alcohol.push_back(lot.volume * lot.strength / (wish.final_volume * wish.target));
        m.mass.push_back(lot.volume * density(lot.strength) /
                         (wish.final_volume * density(wish.target)));
        m.preference.push_back(greatest > 0.0 ? jars[i].preference / greatest : 0.0);
        if (jars[i].preference > 0.0 && lot.volume > 0.0)
            m.used.push_back(i);
    }
    return m;
}

// What misses a limit by less than this counts as meeting it: what plan.hpp promises.
inline constexpr double limit = 1e-9;
// Two worths, costs or volumes closer than this are equal: rounding of sums of a dozen.
inline constexpr double same = 1e-11;

// The best choice of whole jars of all 2^n; none where there is none.
inline std::optional<std::vector<bool>> best_whole(const std::vector<PlanJar>& jars,
                                                   const BlendWish& wish) {
    const Measures m = measure(jars, wish);
    std::optional<std::vector<bool>> best;
    double best_cost = 0.0;
    double best_alcohol = 0.0;
    for (unsigned set = 0; set < 1u << m.used.size(); ++set) {
        std::vector<bool> taken(jars.size(), false);
        double alcohol = 0.0;
        double mass = 0.0;
        double cost = 0.0;
        for (std::size_t k = 0; k < m.used.size(); ++k)
            if (set >> k & 1) {
                const std::size_t i = m.used[k];
                taken[i] = true;
                alcohol += m.alcohol[i];
                mass += m.mass[i];
                cost += (1.0 - m.preference[i]) * m.alcohol[i];
            }
        if (alcohol < 1.0 - limit || alcohol > 1.05 + limit || mass > alcohol + limit)
            continue;
        const auto better = [&] {
            if (std::fabs(cost - best_cost) > same)
                return cost < best_cost;
            if (std::fabs(alcohol - best_alcohol) > same)
                return alcohol < best_alcohol;
            return taken > *best; // takes the first jar on which they differ
        };
        if (!best || better()) {
            best = taken;
            best_cost = cost;
            best_alcohol = alcohol;
        }
    }
    return best;
}

struct Shares {
    std::vector<double> share; // of each jar
    double worth;              // sum of preference * alcohol
};

// The best divided plan among all vertices: jars full or empty but for the one or two that the two
// balances fix. Of equal worth the one that takes the most of the first jar, then of the second.
inline std::optional<Shares> best_divided(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const Measures m = measure(jars, wish);
    std::vector<Shares> vertices;
    const auto consider = [&](std::vector<double> share) {
        double alcohol = 0.0;
        double mass = 0.0;
        double worth = 0.0;
        for (const std::size_t i : m.used) {
            if (!(share[i] > -limit && share[i] < 1.0 + limit))
                return;
            share[i] = std::clamp(share[i], 0.0, 1.0);
            alcohol += share[i] * m.alcohol[i];
            mass += share[i] * m.mass[i];
            worth += m.preference[i] * share[i] * m.alcohol[i];
        }
        if (std::fabs(alcohol - 1.0) <= limit && mass <= 1.0 + limit)
            vertices.push_back({share, worth});
    };
    for (unsigned set = 0; set < 1u << m.used.size(); ++set) {
        std::vector<double> full(jars.size(), 0.0);
        double alcohol = 1.0; // still to be had
        double mass = 1.0;
        std::vector<std::size_t> rest;
        for (std::size_t k = 0; k < m.used.size(); ++k) {
            const std::size_t i = m.used[k];
            if (set >> k & 1) {
                full[i] = 1.0;
                alcohol -= m.alcohol[i];
                mass -= m.mass[i];
            } else {
                rest.push_back(i);
            }
        }
        if (alcohol < -limit || mass < -limit)
            continue;
        consider(full);
        for (std::size_t a = 0; a < rest.size(); ++a) {
            const std::size_t i = rest[a];
            std::vector<double> share = full;
            share[i] =
                alcohol / m.alcohol[i]; // of a jar of water: infinite or none, not considered
            consider(share);
            share[i] = mass / m.mass[i];
            consider(share);
            for (std::size_t b = a + 1; b < rest.size(); ++b) {
                const std::size_t h = rest[b];
                const double determinant = m.alcohol[i] * m.mass[h] - m.alcohol[h] * m.mass[i];
                if (std::fabs(determinant) < 1e-14)
                    continue; // of one strength
                share = full;
                share[i] = (alcohol * m.mass[h] - m.alcohol[h] * mass) / determinant;
                share[h] = (m.alcohol[i] * mass - alcohol * m.mass[i]) / determinant;
                consider(share);
            }
        }
    }
    if (vertices.empty())
        return std::nullopt;
    double most = 0.0;
    for (const Shares& vertex : vertices)
        most = std::max(most, vertex.worth);
    std::optional<Shares> best;
    for (const Shares& vertex : vertices) {
        if (vertex.worth < most - 1e-8)
            continue;
        const auto later = [&] {
            for (std::size_t i = 0; i < jars.size(); ++i)
                if (std::fabs(vertex.share[i] - best->share[i]) > 1e-6)
                    return vertex.share[i] < best->share[i];
            return true;
        };
        if (!best || !later())
            best = vertex;
    }
    best->worth = most;
    return best;
}

// Volume and strength of a plan recomputed by mass with the plain formula.
inline Lot recomputed(const std::vector<PlanJar>& jars, const BlendPlan& plan) {
    double mass = plan.water * density(0.0);
    double alcohol = 0.0;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        mass += plan.volumes[i] * density(jars[i].jar.strength);
        alcohol += plan.volumes[i] * jars[i].jar.strength / 100.0 * density(100.0);
    }
    const double p = std::min(alcohol / mass, 1.0);
    return {mass / (plain_r22::density(p, 20.0) / 1000.0), plain_r22::pct_vol(p, 20.0)};
}

// No jar is overdrawn, and none is used that is not to be; volume and strength are those asked, to
// what plan.hpp promises, which is a thousand times finer than what an issue of a label could show.
inline void expect_plan(const std::vector<PlanJar>& jars, const BlendWish& wish,
                        const BlendPlan& plan, double most_excess) {
    ASSERT_EQ(plan.volumes.size(), jars.size());
    for (std::size_t i = 0; i < jars.size(); ++i) {
        EXPECT_GE(plan.volumes[i], 0.0) << i;
        EXPECT_LE(plan.volumes[i], jars[i].jar.volume) << i;
        if (jars[i].preference == 0.0) {
            EXPECT_EQ(plan.volumes[i], 0.0) << i;
        }
    }
    EXPECT_GE(plan.water, 0.0);
    const Lot lot = recomputed(jars, plan);
    constexpr double promised = 2e-9;
    EXPECT_NEAR(lot.strength / wish.target, 1.0, promised);
    EXPECT_GE(lot.volume / wish.final_volume, 1.0 - promised);
    EXPECT_LE(lot.volume / wish.final_volume, 1.0 + most_excess + promised);
}

// Random tasks of kinds that have been trouble elsewhere.
enum class Kind {
    random,     // real volumes, strengths, preferences
    equal,      // equal jars, few preferences
    decimal,    // decimal figures, so that sums tie; empty jars and preferences of 0
    alike,      // all preferences alike
    edge,       // the wish is a blend of some of the jars: just possible
    steep,      // strengths nearly equal
    with_water, // jars of water among them
};
inline constexpr Kind kinds[] = {Kind::random, Kind::equal, Kind::decimal,   Kind::alike,
                                 Kind::edge,   Kind::steep, Kind::with_water};

struct Task {
    std::vector<PlanJar> jars;
    BlendWish wish;
};

inline Task random_task(Kind kind, std::size_t count, std::mt19937_64& random) {
    // Not std::uniform_...: those differ between libraries, and tasks are to be the same
    // everywhere.
    const auto real = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
    };
    const auto whole = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    Task task;
    for (std::size_t i = 0; i < count; ++i) {
        PlanJar jar{{real(0.1, 1.0), real(5.0, 95.0), i}, real(0.1, 3.0)};
        if (kind == Kind::equal)
            jar = {{0.5, 60.0 + 10.0 * whole(0, 1), i}, 1.0 + whole(0, 1)};
        else if (kind == Kind::decimal)
            jar = {{0.25 * whole(0, 3), 10.0 * whole(0, 9), i}, 1.0 * whole(0, 2)};
        else if (kind == Kind::alike)
            jar.preference = 1.0;
        else if (kind == Kind::steep)
            jar.jar.strength = 67.0 + 1e-3 * whole(0, 5);
        else if (kind == Kind::with_water && whole(0, 2) == 0)
            jar.jar.strength = 0.0;
        task.jars.push_back(jar);
    }
    double alcohol = 0.0;
    for (const PlanJar& jar : task.jars)
        if (jar.preference > 0.0)
            alcohol += jar.jar.volume * jar.jar.strength;
    task.wish.target = kind == Kind::steep     ? 67.0 + 1e-3 * whole(0, 5)
                       : kind == Kind::equal   ? 60.0
                       : kind == Kind::decimal ? 40.0
                                               : real(20.0, 80.0);
    // Now and then all that there is, or a little more.
    task.wish.final_volume =
        alcohol / task.wish.target * (whole(0, 5) == 0 ? 1.0 : real(0.1, 1.02));
    if (kind == Kind::edge) {
        BlendPlan some{std::vector<double>(count, 0.0), 0.0};
        for (std::size_t i = 0; i < count; ++i)
            if (whole(0, 1) == 1)
                some.volumes[i] = task.jars[i].jar.volume;
        const Lot lot = recomputed(task.jars, some);
        if (lot.volume > 0.0)
            task.wish = {lot.volume, lot.strength};
    }
    if (!(task.wish.final_volume > 0.0))
        task.wish.final_volume = 1.0;
    return task;
}

// The task that a seed gives, and what to call it where it fails.
struct Drawn : Task {
    std::string name;
};
inline Drawn drawn(Kind kind, std::size_t count, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    return {random_task(kind, count, random), "kind " + std::to_string(static_cast<int>(kind)) +
                                                  ", jars " + std::to_string(count) + ", seed " +
                                                  std::to_string(seed)};
}

} // namespace plan_oracle
