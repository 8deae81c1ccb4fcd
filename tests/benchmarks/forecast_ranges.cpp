// Prints how often the ranges that a run sheet shows hold: invented runs of invented stills, with
// noise of the stated size. An argument is the number of runs for each line (1,000). Figures:
// README.md.
//
// The range is the sheet's (run_sheet/forecast.py), said once more: of stages, charge, and of model
// and instrument together, in squares.
#include "core/record/consensus.hpp"
#include "core/record/stages_uncertainty.hpp"
#include "core/still/forecast.hpp"
#include "core/still/stages.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <vector>

namespace {

using namespace jarbook;

struct Instruments {
    double alcoholometer, scatter, thermometer, volume_pct; // half-widths
    double common() const { return std::hypot(alcoholometer, 0.35 * thermometer); }
    double charge() const { return std::hypot(common(), scatter); }
    double shift() const {
        return std::sqrt(1.0 + 4.0 / 3.0 * (common() * common() + scatter * scatter));
    }
};

struct Range {
    double stages, low, high;
};

// What the sheet says.
struct Sheet {
    Charge charge;
    Instruments tools;

    double curve(double x, double stages) const {
        return forecast_strength(charge, x, {stages, 1013.25});
    }
    // Volume and strength of the charge, both off so far that its alcohol is off as by the two in
    // squares.
    Charge more() const {
        const double volume = 0.01 * tools.volume_pct, strength = tools.charge() / charge.strength;
        const double part =
            2.0 / std::sqrt(3.0) * std::hypot(volume, strength) / (volume + strength);
        return {charge.volume * (1.0 + part * volume), charge.strength * (1.0 + part * strength)};
    }
    bool holds(double x, double read, const Range& range) const {
        const double middle = curve(x, range.stages);
        const double a = curve(x, std::max(1.0, range.low)) - middle;
        const double b = curve(x, range.high) - middle;
        const double end = read > middle ? std::max(a, b) : std::min(a, b);
        const double charged = forecast_strength(more(), x, {range.stages, 1013.25}) - middle;
        const double off = std::sqrt(end * end + charged * charged + tools.shift() * tools.shift());
        return std::fabs(read - middle) <= off;
    }
    static double up_to(const Charge& of, double limit, double stages) {
        const Still still{stages, 1013.25};
        return limit >= forecast_strength(of, 0.0, still) ? 0.0 : forecast_volume(of, limit, still);
    }
    // Half-width of the litres that have run at a strength.
    double litres_within(double limit, const Range& range) const {
        const double v = up_to(charge, limit, range.stages);
        const double lower = std::max(limit / 2.0, limit - tools.shift());
        const double by_stages = std::max(std::fabs(up_to(charge, limit, range.low) - v),
                                          std::fabs(up_to(charge, limit, range.high) - v));
        const double by_charge = up_to(more(), limit, range.stages) - v;
        const double by_model = up_to(charge, lower, range.stages) - v;
        return std::sqrt(by_stages * by_stages + by_charge * by_charge + by_model * by_model);
    }
};

// The stages by which the model's 1 % vol can be mistaken for others: its first strength tells.
Range with_model(const Sheet& sheet, const Range& now) {
    const double slope = (sheet.curve(0.0, now.stages + 0.1) - sheet.curve(0.0, now.stages)) / 0.1;
    const double own = std::hypot(now.stages - now.low, 1.0 / slope);
    const double more = std::hypot(now.high - now.stages, 1.0 / slope);
    return {now.stages, std::max(1.0, now.stages - own), now.stages + more};
}

// What was known before, and what the jars say (what is used for the rest of a run).
Range narrowed(const Range& before, double fitted, double doubt) {
    const double prior = (before.high - before.low) / 4.0;
    double stages = fitted;
    double own = doubt;
    if (std::fabs(fitted - before.stages) <= 2.0 * std::hypot(doubt, prior)) {
        const double weight = 1.0 / (doubt * doubt), other = 1.0 / (prior * prior);
        stages = (fitted * weight + before.stages * other) / (weight + other);
        own = 1.0 / std::sqrt(weight + other);
    }
    return {stages, stages - 2.0 * own, stages + 2.0 * own};
}

struct Count {
    long inside = 0, of = 0;
    void add(bool in) {
        inside += in;
        ++of;
    }
    double pct() const { return of == 0 ? 0.0 : 100.0 * double(inside) / double(of); }
};

struct Tally {
    Count jars, stop;
    Count later[3], rest[3]; // from the third, sixth, ninth jar on
};
constexpr std::size_t known_at[] = {3, 6, 9};

Tally invented(bool known, const Instruments& tools, bool stripping, int runs, unsigned seed) {
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto off = [&](double half_width) { return between(-half_width, half_width); };
    std::normal_distribution<double> normal;
    Tally tally;
    while (tally.jars.of < 12L * runs) {
        // The still, what is known of it, and what it does today
        Range before{1.15, 1.0, 1.4};
        double today = between(1.0, 1.4);
        if (known) {
            const double still = between(1.08, 1.32), spread = 0.02;
            std::vector<UncertainValue> values;
            for (int i = 0; i < 6; ++i)
                values.push_back(
                    {std::max(1.0, still + spread * normal(random) + 0.02 * normal(random)), 0.02});
            const Consensus all = consensus(values);
            before = {all.mean, std::max(1.0, all.mean - 2.0 * all.next_uncertainty),
                      all.mean + 2.0 * all.next_uncertainty};
            today = std::max(1.0, still + spread * normal(random));
        }
        const double common = off(tools.common());
        const Charge truth{between(2.0, 100.0),
                           stripping ? between(6.0, 12.0) : between(20.0, 38.0)};
        const Charge typed{truth.volume * (1.0 + 0.01 * off(tools.volume_pct)),
                           truth.strength + common + off(tools.scatter)};
        const double model = 0.5 * normal(random); // ± 1 % vol is twice that
        const Still still{today, 1013.25};
        const double stop = stripping ? 5.0 : 20.0;
        // The run ends where the strength, as it is read, is at the stop; the model is off by less
        // where less runs.
        const auto shown = [&](double x) {
            const double q = forecast_strength(truth, x, still);
            return std::max(0.0, q + model * std::min(1.0, q / 10.0));
        };
        double low = 0.0, high = 0.9 * truth.volume;
        for (int i = 0; i < 50; ++i) {
            const double middle = 0.5 * (low + high);
            (shown(middle) + common > stop ? low : high) = middle;
        }
        const double end = low;
        if (end < 0.02 * truth.volume)
            continue;
        const Sheet sheet{typed, tools};
        const double whole = Sheet::up_to(typed, stop, before.stages);
        tally.stop.add(std::fabs(end - whole) <= sheet.litres_within(stop, before));

        std::vector<Lot> jars, read;
        std::vector<double> middles; // as the sheet has them
        double x = 0.0, seen = 0.0;
        for (int i = 0; i < 12; ++i) {
            const double volume = end / 12.0;
            const double strength = shown(x + 0.5 * volume);
            x += volume;
            const double said = volume * (1.0 + 0.01 * off(tools.volume_pct));
            read.push_back({said, std::clamp(strength + common + off(tools.scatter), 0.1, 97.0)});
            middles.push_back(seen + 0.5 * said);
            seen += said;
            tally.jars.add(sheet.holds(middles.back(), read.back().strength, before));
        }
        for (std::size_t k = 0; k < 3; ++k) {
            const std::vector<Lot> so_far(read.begin(), read.begin() + std::ptrdiff_t(known_at[k]));
            Range now = before;
            try {
                const double fitted = fitted_stages(typed, so_far, 1013.25);
                const double doubt =
                    stages_uncertainty(typed, so_far, tools.common(), tools.charge(), 1013.25);
                now = narrowed(before, fitted, doubt);
            } catch (...) { // weaker than one stage gives: the sheet keeps what was known before
            }
            for (std::size_t i = known_at[k]; i < read.size(); ++i)
                tally.later[k].add(sheet.holds(middles[i], read[i].strength, now));
            const double all = Sheet::up_to(typed, stop, now.stages);
            const Range wide = with_model(sheet, now);
            tally.rest[k].add(std::fabs(seen - all) <= sheet.litres_within(stop, wide));
        }
    }
    return tally;
}

} // namespace

int main(int argc, char** argv) {
    const int runs = argc > 1 ? std::atoi(argv[1]) : 1000;
    std::printf(
        "| invented runs | jars inside the range of Before | litres at the stop | later jars "
        "inside, from jar 3 / 6 / 9 on | litres at the stop, from jar 3 / 6 / 9 on |\n"
        "| --- | --- | --- | --- | --- |\n");
    struct Line {
        const char* name;
        bool known;
        Instruments tools;
        bool stripping;
    };
    const Instruments usual{0.5, 0.1, 0.5, 1.0}, good{0.2, 0.15, 0.2, 0.8};
    for (const Line& line :
         {Line{"spirit runs, still unknown (1.0 to 1.4 stages)", false, usual, false},
          Line{"spirit runs, six earlier runs", true, usual, false},
          Line{"the same, better instruments", true, good, false},
          Line{"stripping runs, still unknown", false, usual, true},
          Line{"stripping runs, six earlier runs", true, usual, true}}) {
        const Tally t = invented(line.known, line.tools, line.stripping, runs, 20261128);
        std::printf("| %s | %.1f %% | %.1f %% | %.1f / %.1f / %.1f %% | %.1f / %.1f / %.1f %% |\n",
                    line.name, t.jars.pct(), t.stop.pct(), t.later[0].pct(), t.later[1].pct(),
                    t.later[2].pct(), t.rest[0].pct(), t.rest[1].pct(), t.rest[2].pct());
        std::fflush(stdout);
    }
}
