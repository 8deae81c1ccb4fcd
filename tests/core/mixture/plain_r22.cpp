#include "mixture/plain_r22.hpp"

#include "support/published.hpp"

#include <string>

namespace plain_r22 {

Coefficients::Coefficients() {
    const published::Table table("oiml_r22_coefficients.csv", 54);
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const std::string& name = table.text(row, "name");
        const auto k = static_cast<std::size_t>(table.number(row, "k"));
        const double value = table.number(row, "value");
        if (name == "A")
            A[k] = value;
        else if (name == "B")
            B[k] = value;
        else
            C[static_cast<std::size_t>(table.number(row, "i"))][k] = value;
    }
}

} // namespace plain_r22
