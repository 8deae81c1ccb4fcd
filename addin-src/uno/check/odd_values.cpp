#include "uno/check/odd_values.hpp"

#include "core/base/refusal.hpp"

#include <boost/math/statistics/univariate_statistics.hpp>

namespace jarbook::menu {

std::optional<double> middle_of_many(std::vector<double> values) {
    constexpr std::size_t enough = 4;
    if (values.size() < enough)
        return std::nullopt;
    return boost::math::statistics::median(values);
}

std::string figure_text(double value) {
    return fixed_text(value, 2);
}

} // namespace jarbook::menu
