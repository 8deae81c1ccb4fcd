#include "uno/check/odd_values.hpp"

#include <boost/math/statistics/univariate_statistics.hpp>
#include <cstdio>

namespace jarbook::menu {

std::optional<double> middle_of_many(std::vector<double> values) {
    constexpr std::size_t enough = 4;
    if (values.size() < enough)
        return std::nullopt;
    return boost::math::statistics::median(values);
}

std::string figure_text(double value) {
    char text[400]; // the largest double has 309 digits before the point
    std::snprintf(text, sizeof text, "%.2f", value);
    return text;
}

} // namespace jarbook::menu
