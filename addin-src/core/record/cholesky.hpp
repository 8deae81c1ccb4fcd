// Root of a small symmetric matrix, and what is solved by it.
//
// Written out, not taken from a library: there are as many rows as balances (two in a run of jars),
// and summing in this order, without the machine's own vectors and fused multiply-add, gives the
// same last digit everywhere.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace jarbook {

using Matrix = std::vector<std::vector<double>>; // rows

class Cholesky {
public:
    // Of a positive definite matrix; none where a pivot is lost to rounding, which is judged after
    // scaling the diagonal to 1.
    static std::optional<Cholesky> of(const Matrix& matrix) {
        constexpr double lost = 1e-13;
        const std::size_t n = matrix.size();
        Cholesky made;
        for (std::size_t i = 0; i < n; ++i) {
            if (!(matrix[i][i] > 0.0) || std::isinf(matrix[i][i]))
                return std::nullopt;
            made.scale_.push_back(1.0 / std::sqrt(matrix[i][i]));
        }
        made.lower_.assign(n, std::vector<double>(n, 0.0));
        for (std::size_t i = 0; i < n; ++i)
            for (std::size_t j = 0; j <= i; ++j) {
                double sum = matrix[i][j] * made.scale_[i] * made.scale_[j];
                for (std::size_t k = 0; k < j; ++k)
                    sum -= made.lower_[i][k] * made.lower_[j][k];
                if (i != j)
                    made.lower_[i][j] = sum / made.lower_[j][j];
                else if (sum > lost)
                    made.lower_[i][i] = std::sqrt(sum);
                else
                    return std::nullopt;
            }
        return made;
    }

    // L^-1 b: its square is b' A^-1 b.
    std::vector<double> half_solved(const std::vector<double>& b) const {
        std::vector<double> x(b.size());
        for (std::size_t i = 0; i < b.size(); ++i) {
            double sum = b[i] * scale_[i];
            for (std::size_t k = 0; k < i; ++k)
                sum -= lower_[i][k] * x[k];
            x[i] = sum / lower_[i][i];
        }
        return x;
    }

    // A^-1 b.
    std::vector<double> solved(const std::vector<double>& b) const {
        std::vector<double> x = half_solved(b);
        for (std::size_t i = x.size(); i-- > 0;) {
            for (std::size_t k = i + 1; k < x.size(); ++k)
                x[i] -= lower_[k][i] * x[k];
            x[i] /= lower_[i][i];
        }
        for (std::size_t i = 0; i < x.size(); ++i)
            x[i] *= scale_[i];
        return x;
    }

private:
    std::vector<double> scale_; // 1 / sqrt of the diagonal
    Matrix lower_;
};

inline double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += a[i] * b[i];
    return sum;
}

} // namespace jarbook
