#include "core/mixture/r22.hpp"

#include "core/base/refusal.hpp"
#include "core/base/roots.hpp"
#include "core/mixture/freezing.hpp"
#include "core/mixture/r22_coefficients.hpp"
#include "texts/r22.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <vector>

namespace jarbook::r22 {

namespace {

// Newton's iteration doubles the right digits with each step, so that a last step of 2^-24 of the
// value (6e-8) leaves less than 1e-13: far below the 1e-9 % vol promised.
constexpr int newton_bits = 25;
// Next to an end of the bracket a Newton step overshoots it, is replaced by half the way to the
// end, and that half, being short, would pass for convergence: 1e-6 % vol lost. So the brackets are
// a millionth wider than the range; the formula is smooth there, and the root itself is not
// outside.
constexpr double margin = 1e-6;

// The mass fraction (lowest...1) at which the formula has that density.
double solve_density(double density_kg_m3, const DensityAt& formula, double guess, double lowest,
                     std::string_view argument) {
    // Convergence is counted relative to the unknown, so 1 + p is solved for: next to water p is
    // below the rounding of the density, and its own digits would be sought in vain.
    const auto density = [&](double p_plus_1) {
        const auto [rho, slope] = formula.with_slope(p_plus_1 - 1.0);
        return std::make_tuple(rho - density_kg_m3, slope);
    };
    const double root =
        newton_root(density, std::clamp(guess, lowest, 1.0) + 1.0, lowest + 1.0 - margin,
                    2.0 + margin, newton_bits, texts::r22::not_solved, argument);
    return std::clamp(root - 1.0, lowest, 1.0); // but for rounding
}

// The mass fraction at which ethanol has that volume, times its density: p rho(p) = target.
double solve_volume(double target, const DensityAt& formula, double guess) {
    const auto volume = [&](double p) {
        const auto [rho, slope] = formula.with_slope(p);
        return std::make_tuple(p * rho - target, rho + p * slope);
    };
    // At 0 the end is approached in relative terms, and nothing is lost.
    const double root = newton_root(volume, std::clamp(guess, 0.0, 1.0), 0.0, 1.0 + margin,
                                    newton_bits, texts::r22::not_solved, "strength");
    return std::min(root, 1.0); // but for rounding
}

// First guesses for both inverses, interpolated from the formula itself when first needed.
class Guesses {
public:
    static const Guesses& get() {
        static const Guesses guesses;
        return guesses;
    }

    // Mass fraction for a per cent by volume at 20 degC; off by less than 1e-6 there, and by
    // less than 1e-3 for volumes at 10...30 degC.
    double from_pct_vol(double pct_vol) const {
        const double position = pct_vol * volume_steps / 100.0;
        const int cell = std::clamp(static_cast<int>(position), 0, volume_steps - 1);
        const double x = position - cell;
        const Node& a = by_volume_[cell];
        const Node& b = by_volume_[cell + 1];
        // Cubic Hermite.
        const double d = b.value - a.value;
        return a.value + x * (a.slope + x * (3 * d - 2 * a.slope - b.slope +
                                             x * (a.slope + b.slope - 2 * d)));
    }

    // Mass fraction for a density, by the share of the way from the most watery liquid (0) to
    // ethanol (1), at a temperature; off by a few 1e-4.
    double from_density_share(double share, double temperature_c) const {
        const double row_position = (temperature_c - lowest_temperature_c) / temperature_step_c;
        const int row = std::clamp(static_cast<int>(row_position), 0, temperature_steps - 1);
        const double position = std::clamp(share, 0.0, 1.0) * density_steps;
        const int column = std::min(static_cast<int>(position), density_steps - 1);
        const double x = position - column;
        const double y = row_position - row;
        const auto at = [&](int r) {
            const float* p = &by_density_[static_cast<std::size_t>(r) * (density_steps + 1)];
            return static_cast<double>(p[column]) +
                   x * static_cast<double>(p[column + 1] - p[column]);
        };
        const double relative = at(row) + y * (at(row + 1) - at(row));
        const double lowest = lowest_liquid_mass_fraction(temperature_c);
        return lowest + relative * (1.0 - lowest);
    }

private:
    struct Node {
        double value;
        double slope; // per cell
    };
    static constexpr int volume_steps = 200;
    static constexpr int density_steps = 256;
    static constexpr int temperature_steps = 24;
    static constexpr double temperature_step_c = 2.5; // 0 degC, where freezing begins, is a node

    Guesses() : by_volume_(volume_steps + 1) {
        const DensityAt& formula = density_at_20c();
        const double ethanol = formula.ethanol();
        for (int i = 0; i <= volume_steps; ++i) {
            const double share = static_cast<double>(i) / volume_steps;
            const double p = solve_volume(share * ethanol, formula, share);
            const auto [rho, slope] = formula.with_slope(p);
            by_volume_[i] = {p, ethanol / ((rho + p * slope) * volume_steps)};
        }
        by_density_.reserve((temperature_steps + 1) * (density_steps + 1));
        for (int r = 0; r <= temperature_steps; ++r) {
            const double t = lowest_temperature_c + r * temperature_step_c;
            const DensityAt at(t);
            const double lowest = lowest_liquid_mass_fraction(t);
            const double heavy = at(lowest);
            const double light = at.ethanol();
            for (int c = 0; c <= density_steps; ++c) {
                const double share = static_cast<double>(c) / density_steps;
                const double target = heavy + share * (light - heavy);
                const double p = solve_density(target, at, 0.5, lowest, "");
                by_density_.push_back(static_cast<float>((p - lowest) / (1.0 - lowest)));
            }
        }
    }

    std::vector<Node> by_volume_;
    std::vector<float> by_density_; // half the cache, and far better than the interpolation
};

} // namespace

namespace {

// Coefficients of a polynomial about p = 0, the first of them that of p^lowest_power, carried to p
// = DensityAt::middle by repeated synthetic division. In long double, at compile time: the printed
// digits of the coefficients are kept.
template <std::size_t lowest_power, std::size_t n>
constexpr auto about_middle(const std::array<double, n>& c) {
    constexpr std::size_t size = n + lowest_power;
    std::array<long double, size> work{};
    for (std::size_t k = 0; k < n; ++k)
        work[k + lowest_power] = c[k];
    for (std::size_t done = 0; done + 1 < size; ++done)
        for (std::size_t k = size - 1; k > done; --k)
            work[k - 1] += work[k] * DensityAt::middle;
    std::array<double, size> result{};
    for (std::size_t k = 0; k < size; ++k)
        result[k] = static_cast<double>(work[k]);
    return result;
}

constexpr auto middle_A = about_middle<0>(A);
constexpr auto middle_C1 = about_middle<1>(C1);
constexpr auto middle_C2 = about_middle<1>(C2);
constexpr auto middle_C3 = about_middle<1>(C3);
constexpr auto middle_C4 = about_middle<1>(C4);
constexpr auto middle_C5 = about_middle<1>(C5);

} // namespace

DensityAt::DensityAt(double temperature_c) : temperature_c_(temperature_c), coefficient_(middle_A) {
    const double tau = temperature_c - reference_temperature_c;
    if (tau != 0.0)
        add_temperature(tau);
    ethanol_ = (*this)(1.0);
}

void DensityAt::add_temperature(double tau) {
    double power = 0.0;
    for (std::size_t k = B.size(); k-- > 0;)
        power = (power + B[k]) * tau;
    coefficient_[0] += power;
    const auto add = [this](const auto& c, double factor) {
        for (std::size_t k = 0; k < c.size(); ++k)
            coefficient_[k] += c[k] * factor;
    };
    const double tau2 = tau * tau;
    add(middle_C1, tau);
    add(middle_C2, tau2);
    add(middle_C3, tau2 * tau);
    add(middle_C4, tau2 * tau2);
    add(middle_C5, tau2 * tau2 * tau);
}

const DensityAt& density_at_20c() {
    static const DensityAt formula(reference_temperature_c);
    return formula;
}

double density_kg_m3(double mass_fraction, double temperature_c) {
    return DensityAt(temperature_c)(mass_fraction);
}

double density_slope_per_c(double mass_fraction, double temperature_c) {
    constexpr double step_c = 1e-3;
    const double below = std::fmax(temperature_c - step_c, lowest_temperature_c);
    const double above = std::fmin(temperature_c + step_c, highest_temperature_c);
    return (density_kg_m3(mass_fraction, above) - density_kg_m3(mass_fraction, below)) /
           (above - below);
}

double mass_fraction_from_density(double density_kg_m3, const DensityAt& formula,
                                  std::string_view argument) {
    const double t = formula.temperature_c();
    const double lowest = lowest_liquid_mass_fraction(t);
    const double heavy = formula(lowest);
    const double light = formula.ethanol();
    // A density that misses an end by rounding alone is that end: 1e-9 kg/m3 is about 1e-9 % vol.
    constexpr double rounding_kg_m3 = 1e-9;
    const auto refuse_as = [&]<class Text>(Text, double limit) {
        const std::string shown = number_text_apart(density_kg_m3, limit);
        refuse(RefusalKind::impossible, argument, shown,
               Text{.argument = std::string(argument),
                    .density = shown,
                    .temperature = number_text(t),
                    .limit = number_text(limit)}
                   .text());
    };
    if (!(density_kg_m3 <= heavy + rounding_kg_m3)) {
        if (lowest > 0.0)
            refuse_as(texts::r22::denser_than_liquid{}, heavy);
        refuse_as(texts::r22::denser_than_water{}, heavy);
    }
    if (!(density_kg_m3 >= light - rounding_kg_m3))
        refuse_as(texts::r22::lighter_than_ethanol{}, light);
    if (density_kg_m3 >= heavy)
        return lowest;
    if (density_kg_m3 <= light)
        return 1.0;
    const double guess =
        Guesses::get().from_density_share((heavy - density_kg_m3) / (heavy - light), t);
    return solve_density(density_kg_m3, formula, guess, lowest, argument);
}

double pct_vol_from_mass_fraction(double mass_fraction, const DensityAt& formula) {
    // Next to pure ethanol the rounding of the two densities may give a few 1e-16 more than all.
    return 100.0 * std::min(mass_fraction * formula(mass_fraction) / formula.ethanol(), 1.0);
}

double mass_fraction_from_pct_vol(double pct_vol, const DensityAt& formula) {
    if (pct_vol <= 0.0)
        return 0.0;
    if (pct_vol >= 100.0)
        return 1.0;
    return solve_volume(0.01 * pct_vol * formula.ethanol(), formula,
                        Guesses::get().from_pct_vol(pct_vol));
}

} // namespace jarbook::r22
