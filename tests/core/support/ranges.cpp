#include "support/ranges.hpp"

#include <cmath>
#include <cstdint>

rc::Gen<double> within(double low, double high) {
    const auto share = rc::gen::map(
        rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::int64_t>(0, (1LL << 40) + 1)),
        [](std::int64_t n) { return static_cast<double>(n) / static_cast<double>(1LL << 40); });
    const auto tiny = rc::gen::map(rc::gen::resize(rc::kNominalSize, rc::gen::inRange(100, 1501)),
                                   [](int n) { return std::pow(10.0, -n / 100.0); });
    const auto inside = [=](double s) {
        return std::fmin(std::fmax(low + s * (high - low), low), high);
    };
    const auto from_above = [=](double s) {
        return std::fmin(std::fmax(high - s * (high - low), low), high);
    };
    return rc::gen::weightedOneOf<double>({{8, rc::gen::map(share, inside)},
                                           {1, rc::gen::map(tiny, inside)},
                                           {1, rc::gen::map(tiny, from_above)},
                                           {1, rc::gen::element(low, high)}});
}

template void rc::detail::checkGTest(void (*&&)());
