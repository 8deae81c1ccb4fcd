#include "core/record/reconciliation.hpp"

#include "core/base/keywords.hpp"
#include "core/base/refusal.hpp"
#include "core/mixture/r22.hpp"
#include "texts/reconcile.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace jarbook {

namespace {

// Standard uncertainty of a half-width: rectangular, GUM (JCGM 100:2008) 4.3.7.
const double per_half_width = 1.0 / std::sqrt(3.0);

struct DensityOfStrength {
    double density; // kg/m3
    double slope;   // kg/m3 per % vol
};

DensityOfStrength inside(double strength) {
    const r22::DensityAt& formula = r22::density_at_20c();
    const double p = r22::mass_fraction_from_pct_vol(strength, formula);
    const auto [density, slope] = formula.with_slope(p);
    // q = 100 p rho(p) / rho(1)
    return {density, slope * 0.01 * formula.ethanol() / (density + p * slope)};
}

DensityOfStrength density_of(double strength) {
    const double there = std::clamp(strength, 0.0, 100.0);
    const DensityOfStrength at = inside(there);
    return {at.density + at.slope * (strength - there), at.slope};
}

// Alcohol and mass, both over the mass of all that was read.
class RunBalances {
public:
    explicit RunBalances(const RunReadings& run) : run_(run) {
        double mass = 0.0;
        for (const LotReading& lot : run.lots)
            mass += lot.volume * density_of(lot.strength).density;
        per_mass_ = 1.0 / mass;
    }

    Linearised operator()(const std::vector<double>& x) const {
        const std::size_t n = x.size();
        Linearised here{{0.0, 0.0}, {std::vector<double>(n), std::vector<double>(n)}};
        const double ethanol = 0.01 * r22::density_at_20c().ethanol();
        for (std::size_t i = 0; i < run_.lots.size(); ++i) {
            const double sign = run_.lots[i].direction == Direction::in ? per_mass_ : -per_mass_;
            const double volume = x[volume_of(i)];
            const double strength = x[strength_of_lot(i)];
            const auto [density, slope] = density_of(strength);
            here.off[0] += sign * volume * strength * ethanol;
            here.slope[0][volume_of(i)] = sign * strength * ethanol;
            here.slope[0][strength_of_lot(i)] = sign * volume * ethanol;
            here.off[1] += sign * volume * density;
            here.slope[1][volume_of(i)] = sign * density;
            here.slope[1][strength_of_lot(i)] = sign * volume * slope;
        }
        return here;
    }

private:
    const RunReadings& run_;
    double per_mass_;
};

Readings readings_of(const RunReadings& run) {
    Readings readings;
    for (const LotReading& lot : run.lots) {
        readings.values.push_back(lot.volume);
        readings.own.push_back(0.01 * lot.volume_tolerance_pct * lot.volume * per_half_width);
        readings.values.push_back(lot.strength);
        readings.own.push_back(lot.strength_tolerance * per_half_width);
    }
    if (run.common_strength_tolerance > 0.0) {
        std::vector<double> effect(readings.values.size(), 0.0);
        for (std::size_t i = 0; i < run.lots.size(); ++i)
            effect[strength_of_lot(i)] = run.common_strength_tolerance * per_half_width;
        readings.shared.push_back(std::move(effect));
    }
    return readings;
}

Direction direction_in(const Column& directions, std::size_t row) {
    const std::string& text = text_in(directions, row);
    const std::string word = folded(text);
    if (word == "in")
        return Direction::in;
    if (word == "out")
        return Direction::out;
    const ArgumentPlace place = row_of(directions, row);
    refuse(RefusalKind::not_a_number, place, text,
           texts::reconcile::no_direction{.place = place.text(), .word = text}.text());
}

} // namespace

RunReadings run_readings_from(const Column& directions, const Column& volumes,
                              const Column& strengths, const Column& volume_tolerances,
                              const Column& strength_tolerances, double common_strength_tolerance) {
    std::vector<const Column*> together{&directions, &volumes, &strengths};
    for (const Column* tolerances : {&volume_tolerances, &strength_tolerances})
        if (tolerances->cells.size() != 1)
            together.push_back(tolerances);
    const auto tolerance = [](const Column& column, std::size_t row, std::string_view unit) {
        const std::size_t at = column.cells.size() == 1 ? 0 : row;
        const bool empty = column.cells[at] == Cell(0.0);
        return number_in_range(column, at, least_tolerance, greatest_tolerance, unit,
                               empty ? texts::refusal::is_it_empty : "");
    };
    // The one value is wrong also where no row needs it.
    if (volume_tolerances.cells.size() == 1)
        tolerance(volume_tolerances, 0, texts::reconcile::percent);
    if (strength_tolerances.cells.size() == 1)
        tolerance(strength_tolerances, 0, texts::unit::pct_vol);
    require_range("commonStrengthTolerance", common_strength_tolerance, 0.0, greatest_tolerance,
                  texts::unit::pct_vol);

    RunReadings run;
    run.common_strength_tolerance = common_strength_tolerance;
    const std::vector<std::size_t> rows = rows_in_common(together);
    if (rows.size() > most_lots)
        refuse(RefusalKind::impossible, volumes.name, std::to_string(rows.size()),
               texts::reconcile::too_many{.lots = std::to_string(rows.size()),
                                          .most = std::to_string(most_lots)}
                   .text());
    bool any_in = false;
    bool any_out = false;
    for (const std::size_t row : rows) {
        const Direction direction = direction_in(directions, row);
        const double volume = amount_in(volumes, row);
        if (volume == 0.0) {
            const ArgumentPlace place = row_of(volumes, row);
            refuse(RefusalKind::out_of_range, place, "0",
                   texts::reconcile::no_volume{.place = place.text()}.text());
        }
        run.lots.push_back({direction, volume,
                            number_in_range(strengths, row, 0.0, 100.0, texts::unit::pct_vol),
                            tolerance(volume_tolerances, row, texts::reconcile::percent),
                            tolerance(strength_tolerances, row, texts::unit::pct_vol), row});
        (direction == Direction::in ? any_in : any_out) = true;
    }
    if (!any_in || !any_out)
        refuse(RefusalKind::impossible, directions.name, "",
               any_out  ? texts::reconcile::nothing_in
               : any_in ? texts::reconcile::nothing_out
                        : texts::reconcile::no_lots);
    return run;
}

namespace {

// The strength farthest outside 0...100 % vol, in standard uncertainties; none of those held, nor
// the one that is not believed.
std::optional<Held> farthest_outside(const RunReadings& run, const Readings& readings,
                                     const RunReconciled& found,
                                     std::optional<std::size_t> disbelieved) {
    // Farther out than this is not rounding.
    double farthest = 1e-9;
    std::optional<Held> result;
    for (std::size_t i = 0; i < run.lots.size(); ++i) {
        const std::size_t at = strength_of_lot(i);
        if (at == disbelieved || found.is_held(at))
            continue;
        const double bound = std::clamp(found.all.values[at], 0.0, 100.0);
        const double outside =
            std::fabs(found.all.values[at] - bound) / std::sqrt(readings.variance(at));
        if (outside > farthest) {
            farthest = outside;
            result = Held{at, bound};
        }
    }
    return result;
}

// One that is held, but would go inside if let go: its pull is away from the bound.
std::optional<std::size_t> wants_inside(const RunReconciled& found) {
    for (std::size_t i = 0; i < found.held.size(); ++i)
        if (found.held[i].value == 0.0 ? found.all.held_pull[i] > 0.0
                                       : found.all.held_pull[i] < 0.0)
            return i;
    return std::nullopt;
}

} // namespace

bool RunReconciled::is_held(std::size_t at) const {
    return std::any_of(held.begin(), held.end(), [&](const Held& one) { return one.at == at; });
}

RunReconciled reconciled_run(const RunReadings& run, std::optional<std::size_t> disbelieved) {
    const Readings readings = readings_of(run);
    const RunBalances balances(run);
    std::vector<std::size_t> unmeasured;
    if (disbelieved)
        unmeasured.push_back(*disbelieved);
    RunReconciled result;
    // One after the other is held, the one farthest outside first, for each pulls the others along;
    // each is let go once at most, so that this ends.
    std::vector<std::size_t> let_go;
    while (true) {
        result.all = reconcile(readings, balances, unmeasured, result.held);
        if (result.all.ended != Ended::found)
            return result;
        const auto inside = wants_inside(result);
        if (inside && std::count(let_go.begin(), let_go.end(), result.held[*inside].at) == 0) {
            let_go.push_back(result.held[*inside].at);
            result.held.erase(result.held.begin() + static_cast<std::ptrdiff_t>(*inside));
        } else if (const auto outside = farthest_outside(run, readings, result, disbelieved)) {
            result.held.push_back(*outside);
        } else {
            break;
        }
    }
    // What rounding leaves outside is put on the bound.
    for (std::size_t i = 0; i < run.lots.size(); ++i)
        if (const std::size_t at = strength_of_lot(i); at != disbelieved)
            result.all.values[at] = std::clamp(result.all.values[at], 0.0, 100.0);
    return result;
}

void require_solved(const RunReconciled& reconciled) {
    if (reconciled.all.ended == Ended::singular)
        refuse(RefusalKind::impossible, "volumes", "", texts::reconcile::singular);
    if (reconciled.all.ended == Ended::no_end)
        refuse(RefusalKind::no_convergence, "volumes", "", texts::reconcile::no_end);
}

void require_reconciled(const RunReadings& run, const RunReconciled& reconciled) {
    require_solved(reconciled);
    for (std::size_t i = 0; i < run.lots.size(); ++i) {
        const double volume = reconciled.all.values[volume_of(i)];
        if (volume > 0.0)
            continue;
        const std::string row = std::to_string(run.lots[i].row + 1);
        refuse(RefusalKind::impossible, {"volumes", run.lots[i].row},
               number_text(run.lots[i].volume),
               texts::reconcile::volume_gone{.row = row,
                                             .needed = number_text(volume),
                                             .volume = number_text(run.lots[i].volume)}
                   .text());
    }
}

std::vector<ReconciledLot> reconciled_lots(const RunReadings& run) {
    const RunReconciled reconciled = reconciled_run(run);
    require_reconciled(run, reconciled);
    std::vector<ReconciledLot> lots;
    for (std::size_t i = 0; i < run.lots.size(); ++i) {
        const std::size_t volume = volume_of(i);
        const std::size_t strength = strength_of_lot(i);
        lots.push_back({run.lots[i].row, reconciled.all.values[volume],
                        reconciled.all.values[strength], reconciled.all.deletion_residual[volume],
                        reconciled.all.deletion_residual[strength], reconciled.is_held(strength)});
    }
    return lots;
}

} // namespace jarbook
