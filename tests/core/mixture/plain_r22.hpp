// The R 22 formula once more, written plainly from its definition and the published coefficients,
// with bisection for the inverses: a second opinion on the core, slow and simple. Shared with the
// benchmark, where it is what STRENGTH is measured against.
#pragma once

namespace plain_r22 {

struct Coefficients {
    double A[13] = {};    // A[k], k = 1...12
    double B[7] = {};     // B[k], k = 1...6
    double C[6][12] = {}; // C[i][k]

    static const Coefficients& get() {
        static const Coefficients coefficients;
        return coefficients;
    }

private:
    Coefficients();
};

// kg/m3 in vacuo: the sum as it is printed. In double its large terms cost up to 1e-9 kg/m3; in
// long double they cost nothing to speak of.
template <class Real = double>
Real density(Real p, Real t) {
    const Coefficients& c = Coefficients::get();
    constexpr int m[6] = {0, 11, 10, 9, 4, 2};
    const Real tau = t - 20;
    Real sum = c.A[1];
    Real power = 1;
    for (int k = 2; k <= 12; ++k)
        sum += c.A[k] * (power *= p);
    power = 1;
    for (int k = 1; k <= 6; ++k)
        sum += c.B[k] * (power *= tau);
    Real tau_power = 1;
    for (int i = 1; i <= 5; ++i) {
        tau_power *= tau;
        power = 1;
        for (int k = 1; k <= m[i]; ++k)
            sum += c.C[i][k] * (power *= p) * tau_power;
    }
    return sum;
}

// Root of a function that changes its sign once in [low, high], by halving until no double is left
// between the ends.
template <class F>
double bisect(F f, double low, double high) {
    const bool rising = f(high) > f(low);
    for (;;) {
        const double middle = 0.5 * (low + high);
        if (middle <= low || middle >= high)
            return middle;
        ((f(middle) > 0.0) == rising ? high : low) = middle;
    }
}

// % by volume at t of a mass fraction, and back.
inline double pct_vol(double p, double t) {
    return 100.0 * p * density(p, t) / density(1.0, t);
}
inline double mass_fraction(double pct, double t) {
    return bisect([&](double p) { return pct_vol(p, t) - pct; }, 0.0, 1.0);
}

// % vol at 20 degC of a reading: what alcoholometer.hpp says, in two bisections.
inline double strength_from_reading(double reading, double t, double reference = 20.0,
                                    double glass = 25e-6) {
    const double rho =
        density(mass_fraction(reading, reference), reference) / (1.0 + glass * (t - reference));
    return pct_vol(bisect([&](double p) { return density(p, t) - rho; }, 0.0, 1.0), 20.0);
}

} // namespace plain_r22
