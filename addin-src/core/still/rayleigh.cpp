#include "core/still/rayleigh.hpp"

#include "core/base/refusal.hpp"
#include "core/base/roots.hpp"
#include "texts/pot_run.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <tuple>
#include <utility>

namespace jarbook {

namespace {

// ln of the share of a below which the distillate follows the law of infinite dilution.
const double diluted_logit = std::log(1e-10);

template <std::size_t N>
double value_of(const std::array<double, N>& c, double t) {
    double value = c[N - 1];
    for (std::size_t k = N - 1; k-- > 0;)
        value = value * t + c[k];
    return value;
}

// Value and slope of a polynomial.
template <std::size_t N>
std::pair<double, double> value_and_slope(const std::array<double, N>& c, double t) {
    double value = c[N - 1];
    double slope = 0.0;
    for (std::size_t k = N - 1; k-- > 0;) {
        slope = slope * t + value;
        value = value * t + c[k];
    }
    return {value, slope};
}

// The polynomial through values at the nodes of the Gauss-Legendre rule of N points. The rule
// itself gives the coefficients of its Legendre series, c_k = (2k+1)/2 sum_i w_i P_k(t_i) f(t_i).
template <unsigned N>
class GaussPolynomial {
    using Rule = boost::math::quadrature::gauss<double, N>;

public:
    using Coefficients = std::array<double, N>; // of powers of t

    static const GaussPolynomial& get() {
        static const GaussPolynomial only;
        return only;
    }
    const std::array<double, N>& nodes() const { return nodes_; }

    Coefficients through(const std::array<double, N>& values) const {
        Coefficients c{};
        for (std::size_t i = 0; i < N; ++i)
            for (std::size_t k = 0; k < N; ++k)
                c[k] += matrix_[i][k] * values[i];
        return c;
    }

private:
    GaussPolynomial() {
        static_assert(N % 2 == 0);
        std::array<double, N> weights;
        for (std::size_t i = 0; i < N / 2; ++i) {
            nodes_[N / 2 - 1 - i] = -Rule::abscissa()[i];
            nodes_[N / 2 + i] = Rule::abscissa()[i];
            weights[N / 2 - 1 - i] = weights[N / 2 + i] = Rule::weights()[i];
        }
        // P_k in powers of t, by (k+1) P_{k+1} = (2k+1) t P_k - k P_{k-1}.
        std::array<Coefficients, N> legendre{};
        legendre[0][0] = 1.0;
        legendre[1][1] = 1.0;
        for (std::size_t k = 1; k + 1 < N; ++k) {
            const auto degree = static_cast<double>(k);
            for (std::size_t j = 0; j < N; ++j) {
                const double times_t = j > 0 ? legendre[k][j - 1] : 0.0;
                legendre[k + 1][j] =
                    ((2.0 * degree + 1.0) * times_t - degree * legendre[k - 1][j]) / (degree + 1.0);
            }
        }
        for (std::size_t i = 0; i < N; ++i)
            for (std::size_t k = 0; k < N; ++k) {
                const double share =
                    (static_cast<double>(k) + 0.5) * weights[i] * value_of(legendre[k], nodes_[i]);
                for (std::size_t j = 0; j < N; ++j)
                    matrix_[i][j] += share * legendre[k][j];
            }
    }

    std::array<double, N> nodes_;
    std::array<Coefficients, N> matrix_{};
};

} // namespace

double RayleighCurve::rate(double v, double lift) {
    const double lowering = std::exp(-lift);
    // (1 + exp(-v) lowering) / (1 + exp(-v)), written for either sign of v.
    const double ratio = v > 0.0 ? (1.0 + std::exp(-v) * lowering) / (1.0 + std::exp(-v))
                                 : (std::exp(v) + lowering) / (std::exp(v) + 1.0);
    return ratio / (1.0 - lowering);
}

RayleighCurve::RayleighCurve(const std::function<double(double)>& lift, double start_v)
    : start_v_(start_v) {
    const auto& rule = GaussPolynomial<nodes>::get();
    constexpr double half = 0.5 * width;
    // Ten stages from 97 % vol take 35; the bound is against a lift that never ends.
    constexpr std::size_t most_panels = 200;
    std::array<double, nodes> lifts;
    std::array<double, nodes> rates;
    double boiled = 0.0;
    while (panels_.size() < most_panels) {
        const double start = width * static_cast<double>(panels_.size());
        for (std::size_t i = 0; i < nodes; ++i) {
            const double v = start_v - start - half * (1.0 + rule.nodes()[i]);
            lifts[i] = lift(v);
            rates[i] = rate(v, lifts[i]);
        }
        Panel& panel = panels_.emplace_back();
        panel.lift = rule.through(lifts);
        const auto slope = rule.through(rates);
        panel.boiled[0] = 0.0;
        for (std::size_t k = 0; k < nodes; ++k)
            panel.boiled[k + 1] = half * slope[k] / static_cast<double>(k + 1);
        panel.boiled[0] = boiled - value_of(panel.boiled, -1.0);
        boiled = value_of(panel.boiled, 1.0);

        const double at_end = value_of(panel.lift, 1.0);
        const double v = start_v - start - width;
        panel.logit_at_end = v + at_end;
        if (panel.logit_at_end < diluted_logit) {
            tail_start_ = start + width;
            tail_ = {at_end, boiled};
            tail_rate_ = rate(-HUGE_VAL, at_end);
            return;
        }
    }
    refuse(RefusalKind::no_convergence, "", "", texts::pot_run::endless);
}

RayleighCurve::Point RayleighCurve::at(Progress progress) const {
    if (progress >= tail_start_)
        return {tail_.lift, tail_.boiled + (progress - tail_start_) * tail_rate_};
    const auto i = std::min(static_cast<std::size_t>(progress / width), panels_.size() - 1);
    const double t = 2.0 * (progress / width - static_cast<double>(i)) - 1.0;
    return {value_of(panels_[i].lift, t), value_of(panels_[i].boiled, t)};
}

RayleighCurve::Progress RayleighCurve::when_logit(double logit) const {
    const auto panel =
        std::lower_bound(panels_.begin(), panels_.end(), logit,
                         [](const Panel& one, double wanted) { return one.logit_at_end > wanted; });
    if (panel == panels_.end())
        return start_v_ + tail_.lift - logit;
    constexpr double half = 0.5 * width;
    const double start = width * static_cast<double>(panel - panels_.begin());
    // A root at a panel's very end is not to lie at the bracket's: there Newton would bisect.
    constexpr double margin = 0.01;
    // Newton doubles the right digits with each step: a last step of 2^-27 leaves rounding only.
    const double t = newton_root(
        [&](double u) {
            const auto [lift, slope] = value_and_slope(panel->lift, u);
            return std::make_tuple(start_v_ - start - half * (1.0 + u) + lift - logit,
                                   slope - half);
        },
        0.0, -1.0 - margin, 1.0 + margin, 28, texts::pot_run::not_solved);
    return start + half * (1.0 + t);
}

} // namespace jarbook
