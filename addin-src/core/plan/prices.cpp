#include "core/plan/prices.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cstdint>

namespace jarbook::plan {

namespace {

// What is best taken where room has a price: the most valuable alcohol first, from the low limit on
// only what has a value of its own.
class Taking {
public:
    Taking(const std::vector<Offer>& offers, const Demand& demand) : demand_(demand) {
        for (const Offer& offer : offers)
            if (offer.alcohol > 0.0) // what has none costs room and gives nothing
                entries_.push_back({offer, 0.0});
    }

    struct Outcome {
        double room;
        double alcohol_price;
    };
    // Worth counts `worth_weight` times and room `room_weight` times.
    Outcome at(double worth_weight, double room_weight) {
        for (Entry& entry : entries_)
            entry.value = (worth_weight * entry.offer.worth + room_weight * entry.offer.room) /
                          entry.offer.alcohol;
        // Of equal value the strongest first: that is the most room that the prices allow.
        std::sort(entries_.begin(), entries_.end(), [](const Entry& a, const Entry& b) {
            if (a.value != b.value)
                return a.value > b.value;
            return a.offer.room * b.offer.alcohol > b.offer.room * a.offer.alcohol;
        });
        Outcome outcome{0.0, 0.0};
        constexpr double rounding = 1e-14; // of sums of order 1
        double alcohol = 0.0;
        for (const Entry& entry : entries_) {
            const double limit = entry.value > 0.0 ? demand_.high : demand_.low;
            if (alcohol >= limit)
                break;
            const double share = std::min((limit - alcohol) / entry.offer.alcohol, 1.0);
            outcome.room += share * entry.offer.room;
            alcohol += share * entry.offer.alcohol;
            outcome.alcohol_price = alcohol >= limit * (1.0 - rounding) ? entry.value : 0.0;
        }
        return outcome;
    }
    bool enough_at(double worth_weight, double room_weight) {
        return at(worth_weight, room_weight).room >= demand_.room;
    }

private:
    struct Entry {
        Offer offer;
        double value; // per alcohol
    };
    Demand demand_;
    std::vector<Entry> entries_;
};

constexpr double steepest = 1e10; // a plan that keeps its room by 1e-9 has prices below that

} // namespace

Prices best_prices(const std::vector<Offer>& offers, const Demand& demand) {
    Taking taking(offers, demand);
    if (taking.enough_at(1.0, 0.0))
        return {taking.at(1.0, 0.0).alcohol_price, 0.0};
    // Room grows with its price, in steps: the price at which it becomes enough, to the last digit.
    // A price above 1 is sought by its inverse, which a bracket can hold.
    const bool steep = !taking.enough_at(1.0, 1.0);
    if (steep && !taking.enough_at(1.0 / steepest, 1.0))
        return {};
    const auto enough = [&](double weight) {
        const bool is = steep ? taking.enough_at(weight, 1.0) : taking.enough_at(1.0, weight);
        return is ? 1.0 : -1.0;
    };
    const auto digits = [](double low, double high) { return high - low <= 2.3e-16 * high; };
    std::uintmax_t steps = 200;
    const auto [low, high] =
        boost::math::tools::bisect(enough, steep ? 1.0 / steepest : 0.0, 1.0, digits, steps);
    if (!steep)
        return {taking.at(1.0, high).alcohol_price, high};
    return {taking.at(low, 1.0).alcohol_price / low, 1.0 / low};
}

} // namespace jarbook::plan
