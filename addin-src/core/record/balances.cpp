#include "core/record/balances.hpp"

#include "core/record/cholesky.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace jarbook {

namespace {

constexpr int most_steps = 50;
constexpr double at_rest = 1e-10; // standard uncertainties
// What rounding leaves of a balance whose terms are together about 1.
constexpr double rounding = 64.0 * std::numeric_limits<double>::epsilon();

// One step's linear task: J of the balances, and of what is held; S J' and M of what is measured.
class Linear {
public:
    Linear(const Readings& readings, const std::vector<bool>& measured, Matrix slope)
        : slope_(std::move(slope)), by_reading_(slope_.size()), m_(slope_.size()) {
        const std::size_t n = readings.values.size();
        for (std::size_t k = 0; k < slope_.size(); ++k) {
            by_reading_[k].assign(n, 0.0);
            for (std::size_t i = 0; i < n; ++i)
                if (measured[i])
                    by_reading_[k][i] = readings.own[i] * readings.own[i] * slope_[k][i];
            for (const std::vector<double>& effect : readings.shared) {
                double moved = 0.0; // the balance, by the effect
                for (std::size_t i = 0; i < n; ++i)
                    if (measured[i])
                        moved += effect[i] * slope_[k][i];
                for (std::size_t i = 0; i < n; ++i)
                    if (measured[i])
                        by_reading_[k][i] += effect[i] * moved;
            }
        }
        for (std::size_t k = 0; k < slope_.size(); ++k)
            for (std::size_t l = 0; l < slope_.size(); ++l)
                m_[k].push_back(dot(slope_[k], by_reading_[l]));
        for (std::size_t k = 0; k < slope_.size(); ++k) // the same by both ways but for rounding
            for (std::size_t l = 0; l < k; ++l)
                m_[l][k] = m_[k][l];
        root_ = Cholesky::of(m_);
    }

    bool solvable() const { return root_.has_value(); }
    const Matrix& slope() const { return slope_; }
    const Matrix& m() const { return m_; }
    const Cholesky& root() const { return *root_; }
    // (S J')_i,k
    double by_reading(std::size_t k, std::size_t i) const { return by_reading_[k][i]; }
    std::vector<double> column(std::size_t i) const {
        std::vector<double> result;
        for (const std::vector<double>& row : slope_)
            result.push_back(row[i]);
        return result;
    }
    std::vector<double> by_reading(std::size_t i) const {
        std::vector<double> result;
        for (const std::vector<double>& row : by_reading_)
            result.push_back(row[i]);
        return result;
    }

private:
    Matrix slope_;
    Matrix by_reading_;
    Matrix m_;
    std::optional<Cholesky> root_;
};

// What takes the unmeasured values out: B' M^-1 B and its root, B their columns of J.
struct Unmeasured {
    Matrix columns;
    Matrix solved; // M^-1 B, a row for each
    std::optional<Cholesky> root;

    Unmeasured(const Linear& linear, const std::vector<std::size_t>& which) {
        Matrix normal(which.size());
        for (std::size_t u = 0; u < which.size(); ++u) {
            columns.push_back(linear.column(which[u]));
            solved.push_back(linear.root().solved(columns.back()));
        }
        for (std::size_t u = 0; u < which.size(); ++u)
            for (std::size_t w = 0; w < which.size(); ++w)
                normal[u].push_back(dot(columns[u], solved[w]));
        root = Cholesky::of(normal);
    }

    // a' P b, with P = M^-1 - M^-1 B (B' M^-1 B)^-1 B' M^-1.
    double form(const Cholesky& m, const std::vector<double>& a) const {
        const std::vector<double> half = m.half_solved(a);
        double sum = dot(half, half);
        if (!columns.empty()) {
            std::vector<double> seen;
            for (const std::vector<double>& row : solved)
                seen.push_back(dot(row, a));
            const std::vector<double> lost = root->half_solved(seen);
            sum -= dot(lost, lost);
        }
        return std::fmax(sum, 0.0); // but for rounding
    }
};

} // namespace

double Readings::variance(std::size_t at) const {
    double sum = own[at] * own[at];
    for (const std::vector<double>& effect : shared)
        sum += effect[at] * effect[at];
    return sum;
}

Reconciled reconcile(const Readings& readings, const Balances& balances,
                     const std::vector<std::size_t>& unmeasured, const std::vector<Held>& held) {
    const std::size_t n = readings.values.size();
    std::vector<bool> measured(n, true);
    for (const std::size_t at : unmeasured)
        measured[at] = false;
    std::vector<double> sd(n);
    for (std::size_t i = 0; i < n; ++i)
        sd[i] = std::sqrt(readings.variance(i));

    Reconciled result;
    result.values = readings.values;
    for (const Held& one : held)
        result.values[one.at] = one.value;
    std::vector<double>& x = result.values;

    std::optional<Linear> linear;
    std::vector<double> multipliers;
    for (result.steps = 1; result.steps <= most_steps; ++result.steps) {
        Linearised here = balances(x);
        for (const Held& one : held) {
            here.off.push_back((x[one.at] - one.value) / sd[one.at]);
            here.slope.emplace_back(n, 0.0).at(one.at) = 1.0 / sd[one.at];
        }
        linear.emplace(readings, measured, std::move(here.slope));
        if (!linear->solvable()) {
            result.ended = Ended::singular;
            return result;
        }
        const Unmeasured out(*linear, unmeasured);
        if (!out.root) {
            result.ended = Ended::singular;
            return result;
        }
        // r = f(x) + J (y - x); values not measured pull nowhere.
        std::vector<double> r = here.off;
        for (std::size_t k = 0; k < r.size(); ++k)
            for (std::size_t i = 0; i < n; ++i)
                if (measured[i])
                    r[k] += linear->slope()[k][i] * (readings.values[i] - x[i]);
        std::vector<double> moves;
        for (const std::vector<double>& row : out.solved)
            moves.push_back(-dot(row, r));
        moves = out.root->solved(moves);
        for (std::size_t u = 0; u < unmeasured.size(); ++u)
            for (std::size_t k = 0; k < r.size(); ++k)
                r[k] += out.columns[u][k] * moves[u];
        multipliers = linear->root().solved(r);

        double change = 0.0;
        const auto move = [&](std::size_t i, double to) {
            change = std::fmax(change, std::fabs(to - x[i]) / sd[i]);
            if (std::isnan(to))
                change = HUGE_VAL;
            x[i] = to;
        };
        for (std::size_t i = 0; i < n; ++i)
            if (measured[i])
                move(i, readings.values[i] - dot(linear->by_reading(i), multipliers));
        for (std::size_t u = 0; u < unmeasured.size(); ++u)
            move(unmeasured[u], x[unmeasured[u]] + moves[u]);
        result.chi_squared = dot(r, multipliers);

        // By how many standard uncertainties rounding of the balances moves the values.
        double rest = at_rest;
        for (std::size_t k = 0; k < r.size(); ++k)
            rest = std::fmax(rest, rounding / std::sqrt(linear->m()[k][k]));
        if (change <= rest) {
            result.ended = Ended::found;
            break;
        }
        if (std::isinf(change))
            return result;
    }
    if (result.ended != Ended::found)
        return result;

    result.degrees = multipliers.size() - held.size() - unmeasured.size();
    for (std::size_t k = multipliers.size() - held.size(); k < multipliers.size(); ++k)
        result.held_pull.push_back(multipliers[k]);
    const Unmeasured out(*linear, unmeasured);
    for (std::size_t i = 0; i < n; ++i) {
        const double seen = out.form(linear->root(), linear->column(i));
        // Where the square is rounding beside what M itself gives, nothing is seen of the reading.
        const bool visible = measured[i] && seen > 0.0;
        result.difference_uncertainty.push_back(visible ? 1.0 / std::sqrt(seen) : HUGE_VAL);
        result.deletion_residual.push_back(
            visible ? -dot(linear->column(i), multipliers) / std::sqrt(seen) : 0.0);
        const double adjusted = measured[i] ? out.form(linear->root(), linear->by_reading(i)) : 0.0;
        result.adjustment_uncertainty.push_back(std::sqrt(adjusted));
        result.uncertainty.push_back(std::sqrt(std::fmax(readings.variance(i) - adjusted, 0.0)));
    }
    for (std::size_t u = 0; u < unmeasured.size(); ++u) {
        std::vector<double> alone(unmeasured.size(), 0.0);
        alone[u] = 1.0;
        const std::vector<double> half = out.root->half_solved(alone);
        result.uncertainty[unmeasured[u]] = std::sqrt(dot(half, half));
    }
    return result;
}

} // namespace jarbook
