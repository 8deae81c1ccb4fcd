// Rayleigh's equation along boiler composition.
//
// Of n moles in the boiler with mole fraction x, over which the still delivers the fraction y
// (Lord Rayleigh, Phil. Mag. 4 (1902) 521):
//
//   d ln n / dx = 1 / (y - x).
//
// With a the composition that distilling cannot pass (the azeotrope's, or 1 without one) it is
// integrated in
//
//   v = ln(x / (a - x)),
//
// where the integrand is smooth and bounded from next to a down to nothing. With the lift that the
// still gives, L(v) = ln(y / (a - y)) - v > 0,
//
//   g = d ln n / dv = (1 + exp(-v - L)) / ((1 + exp(-v)) (1 - exp(-L))).
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

namespace jarbook {

// The curve from one boiler composition on, down to nothing. Panels of v: L and g are computed at
// the nodes of a Gauss-Legendre rule and kept as the polynomials through them, so that the integral
// over a panel is the rule's. Where y is below 1e-10 a, L is constant (infinite dilution), g with
// it, and the curve goes on exactly. Errors of ln n and L are below 1e-9
// (tests/core/test_rayleigh.cpp).
class RayleighCurve {
public:
    // The lift as a function of v, positive, and v at the start.
    RayleighCurve(const std::function<double(double)>& lift, double start_v);

    // How far the run is: the fall of v from its start, 0 or more, without end.
    using Progress = double;

    struct Point {
        double lift;
        double boiled; // ln(n0 / n)
    };
    Point at(Progress progress) const;

    // When v + L = ln(y / (a - y)) has fallen to a value at or below that of the start.
    Progress when_logit(double logit) const;

    // g, from v and L at one point; also at the far end, where exp(-v) overflows.
    static double rate(double v, double lift);

    double start_v() const { return start_v_; }
    // The panels' ends; behind the last the lift is constant.
    std::size_t panels() const { return panels_.size(); }
    Progress end_of_panel(std::size_t i) const { return width * static_cast<double>(i + 1); }
    double tail_rate() const { return tail_rate_; }

private:
    static constexpr unsigned nodes = 12;
    static constexpr double width = 1.5;
    struct Panel {
        std::array<double, nodes> lift;       // powers of t = -1...1
        std::array<double, nodes + 1> boiled; // powers of t
        double logit_at_end;
    };

    double start_v_;
    std::vector<Panel> panels_;
    Progress tail_start_ = 0.0;
    Point tail_{};
    double tail_rate_ = 0.0;
};

} // namespace jarbook
