// A pot-still run: differential distillation of ethanol-water at constant pressure, per unit of
// charge.
//
// Rayleigh's equation (Lord Rayleigh, Phil. Mag. 4 (1902) 521): of n moles in the boiler with mole
// fraction x, over which the still delivers the fraction y,
//
//   d ln n / dx = 1 / (y - x).
//
// It is integrated along boiler composition in the coordinate
//
//   v = ln(x / (a - x)),  a the azeotrope's fraction,
//
// in which the integrand is smooth and bounded from the azeotrope down to water. With the lift
// L(v) = ln(y / (a - y)) - v that the still gives,
//
//   g = d ln n / dv = (1 + exp(-v - L)) / ((1 + exp(-v)) (1 - exp(-L))).
//
// On panels of v, L is computed at the nodes of a Gauss-Legendre rule and kept as the Legendre
// series through them; the rule's integral of g within a panel is the integral of g's own series.
// Where the distillate holds less than 1e-10 of ethanol, the lift is constant (infinite dilution)
// and what follows is exact: ln n = v g. Errors are below 1e-9 relative
// (tests/core/test_forecast.cpp).
//
// `stages` equilibrium stages, 1...10: y = V(V(...V(x))), V the equilibrium's vapour; between whole
// numbers linear in y. What the distillate holds is what has left the boiler, so that mass and
// alcohol balance by construction. Volumes at 20 degC by R 22, all of the distillate put together.
#pragma once

#include "equilibrium.hpp"

#include <array>
#include <cstddef>
#include <utility>
#include <vector>

namespace jarbook {

inline constexpr double lowest_stages = 1.0;
inline constexpr double highest_stages = 10.0;
inline constexpr double lowest_charge_strength = 1.0;
// Just below the azeotrope, measured (97.2 % vol) and the model's (97.6...98.3 from 1100 to 600
// hPa).
inline constexpr double highest_charge_strength = 97.0;

// Mole fraction that a still of so many stages delivers over a boiler of mole fraction x.
double distillate_fraction(const Equilibrium& equilibrium, double x, double stages);

class PotRun {
public:
    // A charge of 1 unit of volume at 20 degC: 1...97 % vol, stages 1...10, pressure 600...1100
    // hPa. Stronger charges are refused: at the azeotrope the vapour is no stronger than the
    // boiler, above it weaker, and such a run does not fall.
    PotRun(double charge_strength, double stages, double pressure_hpa);

    // How far the run is: the fall of v from the charge's, 0 at the first drop, without end.
    using Progress = double;

    // Everything at one moment of the run. Amounts per unit of charge volume (kmol per m3 of
    // charge, which is mol per L).
    struct Moment {
        double boiler_fraction;     // mole fraction of ethanol in the boiler
        double distillate_fraction; // mole fraction of ethanol running
        double left_mol;            // in the boiler
        double ethanol_mol;         // collected
        double water_mol;           // collected
        double rate_mol;            // distilled per unit of progress
    };
    Moment at(Progress progress) const;

    // Strength running, of all collected, and in the boiler: % vol at 20 degC.
    double strength(Progress progress) const;
    double first_strength() const { return first_strength_; }
    double mean_strength(Progress progress) const;
    double boiler_strength(Progress progress) const;
    double boiler_temperature_c(Progress progress) const;
    // Collected, per unit of charge volume, all together at 20 degC; 0 to 1.
    double collected(Progress progress) const;
    // Pure alcohol collected, per unit of charge volume.
    double alcohol(Progress progress) const;

    // When that much has been collected; 0 <= volume < 1, not checked.
    Progress when_collected(double volume) const;
    // When the distillate has fallen to that mole fraction; above 0 and at most the first, not
    // checked.
    Progress when_running(double distillate_fraction) const;
    // When, from a moment on, that much has run into an empty jar. The volume and collected(from)
    // together are below 1, not checked.
    Progress when_jar_filled(Progress from, double volume) const;
    // Strength of what runs between two moments.
    double strength_between(Progress from, Progress to) const;

    const Equilibrium& equilibrium() const { return equilibrium_; }
    double charge_strength() const { return charge_strength_; }
    double stages() const { return stages_; }
    double pressure_hpa() const { return pressure_hpa_; }

private:
    static constexpr int nodes = 10;
    static constexpr double panel_width = 1.0;
    // A stretch of the run; polynomials in t = -1...1 along it.
    struct Panel {
        std::array<double, nodes> lift;       // L
        std::array<double, nodes + 1> boiled; // ln(n0/n)
        double logit_at_end;                  // v + L
        double collected_at_end;
    };
    // The run's two functions and what follows from them by exponentials, at one moment.
    struct Local {
        double falling; // exp(-progress)
        double fallen;  // 1 - exp(-progress)
        double x;
        double y;
        double left; // n/n0
        double gone; // 1 - n/n0
        double rate; // g
    };
    struct Amounts {
        double ethanol_mol = 0.0;
        double water_mol = 0.0;
    };

    void build_panels();
    Local local(Progress progress) const;
    Local local_in(const Panel& panel, double t, Progress progress) const;
    Local local_from(double lift, double boiled, Progress progress) const;
    Amounts amounts(const Local& here) const;
    // Volume of what was collected beyond `before`, and its slope by progress.
    std::pair<double, double> volume_and_slope(const Local& here, const Amounts& before) const;
    Progress solve_volume(double volume, const Amounts& before, Progress low, Progress high,
                          Progress guess) const;
    double panel_start(std::size_t i) const { return panel_width * static_cast<double>(i); }

    double charge_strength_;
    double stages_;
    double pressure_hpa_;
    Equilibrium equilibrium_;
    double azeotrope_;
    double charge_fraction_ = 0.0;
    double charge_v_ = 0.0;
    double charge_odds_ = 0.0; // exp(-v) of the charge
    double charge_mol_ = 0.0;  // per unit of charge volume
    double first_strength_ = 0.0;
    std::vector<Panel> panels_;
    // From here on the lift is constant.
    double tail_start_ = 0.0;
    double tail_lift_ = 0.0;
    double tail_boiled_ = 0.0;
    double tail_rate_ = 0.0;
};

} // namespace jarbook
