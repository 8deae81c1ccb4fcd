#include "core/record/advice.hpp"
#include "core/record/consensus.hpp"
#include "core/record/reconciliation.hpp"
#include "core/record/stages_uncertainty.hpp"
#include "core/record/verdict.hpp"
#include "uno/functions/guard.hpp"
#include "uno/functions/spirit.hpp"
#include "uno/text/utf8.hpp"

namespace jarbook::addin {

using com::sun::star::uno::Sequence;

namespace {

RunReadings run_readings_argument(const Any& directions, const Any& volumes, const Any& strengths,
                                  const Any& volume_tolerances, const Any& strength_tolerances,
                                  const Any& common_strength_tolerance) {
    return run_readings_from(column(directions, "directions"), column(volumes, "volumes"),
                             column(strengths, "strengths"),
                             column(volume_tolerances, "volumeTolerances"),
                             column(strength_tolerances, "strengthTolerances"),
                             number_or(common_strength_tolerance, "commonStrengthTolerance", 0.0));
}

} // namespace

Any Spirit::reconcile(const Any& directions, const Any& volumes, const Any& strengths,
                      const Any& volumeTolerances, const Any& strengthTolerances,
                      const Any& commonStrengthTolerance) {
    return any_result("RECONCILE", [&] {
        const auto lots =
            reconciled_lots(run_readings_argument(directions, volumes, strengths, volumeTolerances,
                                                  strengthTolerances, commonStrengthTolerance));
        // One row a row of the lists, empty text where the row is blank.
        const auto count = static_cast<sal_Int32>(column(volumes, "volumes").cells.size());
        const Any blank[] = {Any(OUString()), Any(OUString()), Any(OUString()), Any(OUString())};
        Sequence<Sequence<Any>> rows(count);
        Sequence<Any>* row = rows.getArray();
        for (sal_Int32 i = 0; i < count; ++i)
            row[i] = Sequence<Any>(blank, 4);
        for (const ReconciledLot& lot : lots) {
            const Any figures[] = {Any(lot.volume), Any(lot.strength), Any(lot.volume_residual),
                                   Any(lot.strength_residual)};
            row[lot.row] = Sequence<Any>(figures, 4);
        }
        return Any(rows);
    });
}

Any Spirit::reconcileTest(const Any& directions, const Any& volumes, const Any& strengths,
                          const Any& volumeTolerances, const Any& strengthTolerances,
                          const Any& commonStrengthTolerance) {
    return any_result("RECONCILETEST", [&] {
        const RunReadings run =
            run_readings_argument(directions, volumes, strengths, volumeTolerances,
                                  strengthTolerances, commonStrengthTolerance);
        const Verdict verdict = judged(run);
        require_reconciled(run, verdict.reconciled);
        const bool one = verdict.suspects.size() == 1;
        const auto row = one ? run.lots[verdict.suspects[0].lot].row + 1 : 0;
        const double which = one ? (verdict.suspects[0].is_strength ? 2.0 : 1.0) : 0.0;
        return column_result(std::vector<double>{
            verdict.chi_squared, static_cast<double>(verdict.degrees), verdict.probability,
            static_cast<double>(verdict.suspects.size()), static_cast<double>(row), which});
    });
}

Any Spirit::reconcileAdvice(const Any& directions, const Any& volumes, const Any& strengths,
                            const Any& volumeTolerances, const Any& strengthTolerances,
                            const Any& commonStrengthTolerance) {
    return any_result("RECONCILEADVICE", [&] {
        const RunReadings run =
            run_readings_argument(directions, volumes, strengths, volumeTolerances,
                                  strengthTolerances, commonStrengthTolerance);
        return Any(ustring(advice(run, judged(run))));
    });
}

Any Spirit::consensus(const Any& values, const Any& uncertainties) {
    return any_result("CONSENSUS", [&] {
        const Consensus found = jarbook::consensus(uncertain_values_from(
            column(values, "values"), column(uncertainties, "uncertainties")));
        return column_result(std::vector<double>{found.mean, found.mean_uncertainty, found.spread,
                                                 found.next_uncertainty});
    });
}

double Spirit::stagesUncertainty(double chargeVolume, double chargeStrength, const Any& volumes,
                                 const Any& strengths, double strengthTolerance,
                                 double chargeTolerance, const Any& pressure) {
    return number("STAGESUNCERTAINTY", [&] {
        return stages_uncertainty({chargeVolume, chargeStrength},
                                  lots_argument(volumes, strengths, Any()), strengthTolerance,
                                  chargeTolerance,
                                  number_or(pressure, "pressure", standard_pressure_hpa));
    });
}

} // namespace jarbook::addin
