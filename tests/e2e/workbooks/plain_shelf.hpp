// The book of a shelf once more, movement by movement and with its own arithmetic of mixtures: what
// the sheet is held against.
#pragma once

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "core/gauging/weighing.hpp"
#include "core/mixture/strength.hpp"

namespace jarbook::e2e {

// Alcohol in litres, mass in kg in vacuo, at 20 °C.
struct Contents {
    double alcohol = 0;
    double mass = 0;

    static Contents of(double litres, double strength) {
        return {litres * strength / 100, litres * density_from_strength(strength, 20) / 1000};
    }
    bool empty() const { return mass < 1e-9; }
    // Found by halving: the strength at which so much mass holds so much alcohol.
    double strength() const {
        if (empty() || alcohol < 1e-12)
            return 0;
        double low = 0, high = 100;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            const double held = mass * 1000 / density_from_strength(middle, 20) * middle / 100;
            (held < alcohol ? low : high) = middle;
        }
        return (low + high) / 2;
    }
    double litres() const {
        return empty() ? 0 : 1000 * mass / density_from_strength(strength(), 20);
    }
};

struct ShelfLot {
    std::string name;
    int filled_on = 0;
    Contents filled;
    bool by_blending = false; // its boxes for amount and strength are blank
};

// What stands in the boxes of a row of the book: an amount below 0 is a blank one.
struct Movement {
    std::string lot, what, where;
    int date = 0;
    double litres = -1, kilograms = -1, strength = -1;
    bool all = false;
};

// The words that the sheet has for what can be wrong with a row; empty if it fits.
class PlainShelf {
public:
    PlainShelf(std::vector<ShelfLot> lots, double volume_tolerance)
        : lots_(std::move(lots)), tolerance_(volume_tolerance) {
        for (const ShelfLot& lot : lots_)
            there_[lot.name] = {lot.filled, lot.filled_on, false};
    }

    std::string enter(const Movement& row) {
        const std::string wrong = refuse(row);
        if (!wrong.empty())
            for (const std::string& lot : {row.lot, row.what == "blended" ? row.where : ""})
                if (const auto found = there_.find(lot); found != there_.end())
                    found->second.waits = true;
        return wrong;
    }

    double filled() const {
        double sum = 0;
        for (const ShelfLot& lot : lots_)
            sum += lot.filled.alcohol;
        return sum;
    }
    double stock() const {
        double sum = 0;
        for (const auto& [name, lot] : there_)
            sum += lot.now.alcohol;
        return sum;
    }
    const Contents& now(const std::string& lot) const { return there_.at(lot).now; }
    double out(const std::string& what) const {
        const auto found = out_.find(what);
        return found == out_.end() ? 0 : found->second;
    }
    double lost() const { return lost_; }

private:
    struct State {
        Contents now;
        int last = 0;
        bool waits = false;
    };

    std::string refuse(const Movement& row) {
        const auto found = there_.find(row.lot);
        if (found == there_.end())
            return "no lot is called";
        State& lot = found->second;
        for (const ShelfLot& known : lots_)
            if (known.name == row.lot && row.date < known.filled_on)
                return "was filled later";
        if (row.date < lot.last)
            return "has a later date";
        if (row.litres >= 0 && row.kilograms >= 0)
            return "not both";
        if (row.litres < 0 && row.kilograms < 0 && !row.all)
            return "how much?";
        const bool leaves = row.what != "measured again" && row.what != "water added";
        if (row.all && (!leaves || row.strength >= 0))
            return "'all' takes the lot";
        State* into = nullptr;
        if (row.what == "blended") {
            const auto target = there_.find(row.where);
            if (target == there_.end())
                return "no lot is called";
            if (target == found)
                return "into itself";
            into = &target->second;
            for (const ShelfLot& known : lots_)
                if (known.name == row.where && row.date < known.filled_on)
                    return "was filled later";
        }
        if (lot.waits)
            return "waits for row";
        return move(row, lot, into, leaves);
    }

    std::string move(const Movement& row, State& lot, State* into, bool leaves) {
        const Contents before = lot.now;
        const double strength = row.what == "water added" ? 0
                                : row.strength >= 0       ? row.strength
                                : leaves                  ? before.strength()
                                                          : 0;
        const double there = before.litres();
        double litres = row.all ? there : row.litres;
        if (row.kilograms >= 0)
            litres = row.kilograms == 0 ? 0 : volume_from_mass(row.kilograms, strength);
        Contents moved = row.all ? before : Contents::of(litres, strength);
        if (row.what == "measured again") {
            lot.now = moved;
        } else if (row.what == "water added") {
            lot.now.mass += moved.mass;
        } else if (litres > there + 1e-9 * std::max(1.0, litres)) {
            if (litres > there + litres * tolerance_ / 100)
                return "stand there: another lot";
            lot.now = {};
        } else {
            if (row.strength >= 0) // what was measured on the way out is the whole lot's
                lot.now = Contents::of(there, strength);
            lot.now = {lot.now.alcohol - moved.alcohol, lot.now.mass - moved.mass};
            if (std::fabs(lot.now.mass) < 1e-9 || std::fabs(lot.now.alcohol) < 1e-9)
                lot.now = std::fabs(lot.now.mass) < 1e-9 ? Contents{} : Contents{0, lot.now.mass};
        }
        lost_ += before.alcohol - lot.now.alcohol - (leaves ? moved.alcohol : 0);
        if (leaves)
            out_[row.what] += moved.alcohol;
        lot.last = row.date;
        if (into) {
            into->now = {into->now.alcohol + moved.alcohol, into->now.mass + moved.mass};
            into->last = std::max(into->last, row.date);
        }
        return "";
    }

    std::vector<ShelfLot> lots_;
    double tolerance_;
    std::map<std::string, State> there_;
    std::map<std::string, double> out_;
    double lost_ = 0;
};

} // namespace jarbook::e2e
