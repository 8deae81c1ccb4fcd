#include "core/record/verdict.hpp"

#include "core/base/refusal.hpp"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

namespace jarbook {

namespace {

// The reading left out, and whether what the others give for it can be.
struct LeftOut {
    Suspect suspect;
    bool possible;
};

std::optional<LeftOut> left_out(const RunReadings& run, double chi_squared, std::size_t lot,
                                bool is_strength) {
    const std::size_t at = is_strength ? strength_of_lot(lot) : volume_of(lot);
    const RunReconciled without = reconciled_run(run, at);
    if (without.all.ended != Ended::found)
        return std::nullopt;
    LeftOut result{{lot, is_strength, is_strength ? run.lots[lot].strength : run.lots[lot].volume,
                    without.all.values[at], without.all.uncertainty[at],
                    chi_squared - without.all.chi_squared},
                   true};
    for (std::size_t i = 0; i < run.lots.size(); ++i)
        result.possible = result.possible && without.all.values[volume_of(i)] > 0.0;
    const double implied = result.suspect.implied;
    if (is_strength)
        result.possible = result.possible && implied >= 0.0 && implied <= strongest_true_pct;
    return result;
}

std::vector<Suspect> suspects_of(const RunReadings& run, double chi_squared) {
    std::vector<LeftOut> all;
    for (std::size_t lot = 0; lot < run.lots.size(); ++lot)
        for (const bool is_strength : {false, true})
            if (auto one = left_out(run, chi_squared, lot, is_strength))
                all.push_back(*one);
    double greatest = 0.0;
    for (const LeftOut& one : all)
        greatest = std::fmax(greatest, one.suspect.fall);
    std::vector<Suspect> suspects;
    bool explained = false;
    for (const LeftOut& one : all)
        if (one.possible && one.suspect.fall >= greatest - limit_of_one_degree) {
            suspects.push_back(one.suspect);
            explained = explained || chi_squared - one.suspect.fall <= limit_of_one_degree;
        }
    if (!explained)
        suspects.clear();
    return suspects;
}

} // namespace

Verdict judged(const RunReadings& run) {
    Verdict verdict{};
    verdict.reconciled = reconciled_run(run);
    require_solved(verdict.reconciled);
    verdict.chi_squared = verdict.reconciled.all.chi_squared;
    verdict.degrees = verdict.reconciled.all.degrees;
    verdict.probability = boost::math::gamma_q(0.5 * static_cast<double>(verdict.degrees),
                                               0.5 * std::fmax(verdict.chi_squared, 0.0));
    verdict.fits = verdict.probability >= significance;
    if (!verdict.fits)
        verdict.suspects = suspects_of(run, verdict.chi_squared);
    return verdict;
}

} // namespace jarbook
