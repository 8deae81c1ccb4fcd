#include "core/mixture/freezing.hpp"

#include <algorithm>
#include <iterator>

namespace jarbook {

namespace {

struct Row {
    double mass_pct;
    double depression_c;
};

// CRC Handbook, 102nd ed., as above; the first row is water.
constexpr Row table[] = {
    {0, 0},      {0.5, 0.2},  {1, 0.4},    {2, 0.81},   {3, 1.23},   {4, 1.65},   {5, 2.09},
    {6, 2.54},   {7, 2.99},   {8, 3.47},   {9, 3.96},   {10, 4.47},  {11, 5},     {12, 5.56},
    {13, 6.13},  {14, 6.73},  {15, 7.36},  {16, 8.01},  {17, 8.69},  {18, 9.4},   {19, 10.14},
    {20, 10.92}, {22, 12.6},  {24, 14.47}, {26, 16.41}, {28, 18.43}, {30, 20.47}, {32, 22.44},
    {34, 24.27}, {36, 25.98}, {38, 27.62}, {40, 29.26}, {42, 30.98}, {44, 32.68}, {46, 34.36},
    {48, 36.04}, {50, 37.67}, {52, 39.2},  {54, 40.65}, {56, 42.06}, {58, 43.49}, {60, 44.93},
    {62, 46.28}, {64, 47.52}, {66, 48.64}, {68, 49.52},
};

} // namespace

double freezing_point_c(double mass_fraction) {
    const double pct = 100.0 * mass_fraction;
    const auto after = std::ranges::upper_bound(table, pct, {}, &Row::mass_pct);
    if (after == std::end(table))
        return -std::prev(std::end(table))->depression_c;
    if (after == std::begin(table))
        return 0.0;
    const auto before = after - 1;
    const double share = (pct - before->mass_pct) / (after->mass_pct - before->mass_pct);
    return 0.0 - (before->depression_c + share * (after->depression_c - before->depression_c));
}

double lowest_liquid_mass_fraction(double temperature_c) {
    if (temperature_c >= 0.0)
        return 0.0;
    const double depression = -temperature_c;
    const auto after = std::ranges::lower_bound(table, depression, {}, &Row::depression_c);
    if (after == std::end(table))
        return std::prev(std::end(table))->mass_pct / 100.0;
    const auto before = after - 1;
    const double share =
        (depression - before->depression_c) / (after->depression_c - before->depression_c);
    return (before->mass_pct + share * (after->mass_pct - before->mass_pct)) / 100.0;
}

} // namespace jarbook
