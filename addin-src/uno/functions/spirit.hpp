// The add-in service org.jarbook.Spirit: one short method for each cell function, which converts,
// calls the core once and converts back. The methods stand in one file for each group of the
// catalogue.
#pragma once

#include <com/sun/star/lang/XServiceInfo.hpp>
#include <cppuhelper/implbase2.hxx>
#include <org/jarbook/XSpirit.hpp>

namespace jarbook::addin {

using com::sun::star::uno::Any;
using rtl::OUString;

class Spirit final
    : public cppu::WeakImplHelper2<org::jarbook::XSpirit, com::sun::star::lang::XServiceInfo> {
public:
    static constexpr const char* implementation_name = "org.jarbook.SpiritImpl";
    static constexpr const char* service_name = "org.jarbook.Spirit";

    // Strength and scales: spirit_strength.cpp
    double SAL_CALL strength(double reading, double temperature, const Any& reference,
                             const Any& glass) override;
    double SAL_CALL reading(double strength, double temperature, const Any& reference,
                            const Any& glass) override;
    double SAL_CALL density(double strength, const Any& temperature) override;
    double SAL_CALL strengthFromDensity(double density, const Any& temperature) override;
    double SAL_CALL proof(double reading, double temperatureF) override;
    double SAL_CALL convert(double value, const OUString& from, const OUString& to) override;
    double SAL_CALL sweetened(double reading, double temperature, double sugar) override;
    double SAL_CALL uncertainty(double reading, double temperature, double readingTolerance,
                                double temperatureTolerance, const Any& reference) override;
    double SAL_CALL pycnometerDensity(double emptyMass, double waterMass, double spiritMass,
                                      const Any& waterTemperature, const Any& spiritTemperature,
                                      const Any& glass) override;
    double SAL_CALL plummetDensity(double waterLoad, double spiritLoad, const Any& waterTemperature,
                                   const Any& spiritTemperature, const Any& glass) override;
    double SAL_CALL washStrength(double originalGravity, double finalGravity,
                                 const Any& originalTemperature,
                                 const Any& finalTemperature) override;
    double SAL_CALL sampleStrength(double sampleVolume, double madeUpVolume, double reading,
                                   double temperature, const Any& sampleTemperature,
                                   const Any& reference) override;

    // Volume, mass, pure alcohol: spirit_volume.cpp
    double SAL_CALL volume(double volume, double strength, double fromTemperature,
                           double toTemperature) override;
    double SAL_CALL mass(double volume, double strength, const Any& temperature) override;
    double SAL_CALL volumeFromMass(double mass, double strength, const Any& temperature) override;
    double SAL_CALL pureAlcohol(const Any& volumes, const Any& strengths,
                                const Any& volumeTemperatures) override;
    double SAL_CALL recovery(double chargeVolume, double chargeStrength, const Any& volumes,
                             const Any& strengths, const Any& volumeTemperatures) override;
    double SAL_CALL residueStrength(double chargeVolume, double chargeStrength, const Any& volumes,
                                    const Any& strengths, const Any& volumeTemperatures) override;
    double SAL_CALL pureAlcoholUncertainty(const Any& amounts, const Any& readings,
                                           const Any& temperatures, const Any& amountTolerance,
                                           double readingTolerance, double temperatureTolerance,
                                           const Any& amountScatter, const Any& readingScatter,
                                           const Any& temperatureScatter, const Any& weighed,
                                           const Any& reference) override;
    Any SAL_CALL pureAlcoholBudget(const Any& amounts, const Any& readings, const Any& temperatures,
                                   const Any& amountTolerance, double readingTolerance,
                                   double temperatureTolerance, const Any& amountScatter,
                                   const Any& readingScatter, const Any& temperatureScatter,
                                   const Any& weighed, const Any& reference) override;

    // Dilution and blending: spirit_blending.cpp
    double SAL_CALL waterToAdd(double volume, double strength, double target,
                               const Any& temperature) override;
    double SAL_CALL spiritToAdd(double volume, double strength, double target, double addedStrength,
                                const Any& temperature) override;
    double SAL_CALL spiritNeeded(double finalVolume, double strength, double target) override;
    double SAL_CALL blendStrength(const Any& volumes, const Any& strengths,
                                  const Any& volumeTemperatures) override;
    double SAL_CALL blendVolume(const Any& volumes, const Any& strengths,
                                const Any& volumeTemperatures) override;
    double SAL_CALL contraction(const Any& volumes, const Any& strengths) override;
    Any SAL_CALL blendPair(double strengthA, double strengthB, double target,
                           double finalVolume) override;
    Any SAL_CALL blendPlan(const Any& volumes, const Any& strengths, double finalVolume,
                           double target, const Any& preference, const Any& wholeJars) override;
    Any SAL_CALL liqueur(double finalVolume, double strength, double sugar,
                         double spiritStrength) override;

    // Cuts: spirit_cuts.cpp
    Any SAL_CALL cutNames(const Any& volumes, const Any& strengths, double foreshotsVolume,
                          double heartsFrom, double heartsTo) override;
    double SAL_CALL cutTotal(const Any& volumes, const Any& strengths, const Any& cuts,
                             const OUString& cut, const Any& quantity) override;
    Any SAL_CALL cutTable(const Any& volumes, const Any& strengths, const Any& cuts) override;
    double SAL_CALL cutPoint(const Any& volumes, const Any& strengths, double strength) override;

    // Forecasting a pot-still run: spirit_forecast.cpp
    double SAL_CALL boilingPoint(double strength, const Any& pressure) override;
    double SAL_CALL vapourStrength(double strength, const Any& pressure) override;
    double SAL_CALL boilerStrength(double boilingPoint, const Any& pressure) override;
    double SAL_CALL dewStrength(double vapourTemperature, const Any& pressure) override;
    double SAL_CALL forecastStrength(double chargeVolume, double chargeStrength, double collected,
                                     const Any& stages, const Any& pressure) override;
    double SAL_CALL forecastVolume(double chargeVolume, double chargeStrength, double strength,
                                   const Any& stages, const Any& pressure) override;
    double SAL_CALL forecastAlcohol(double chargeVolume, double chargeStrength, double fromStrength,
                                    double toStrength, const Any& stages,
                                    const Any& pressure) override;
    Any SAL_CALL forecastTable(double chargeVolume, double chargeStrength, double stop, double rows,
                               const Any& stages, const Any& pressure) override;
    double SAL_CALL stages(double chargeVolume, double chargeStrength, const Any& volumes,
                           const Any& strengths, const Any& pressure) override;
    double SAL_CALL runTime(double chargeVolume, double chargeStrength, double stop, double watts,
                            const Any& stages, const Any& reflux, const Any& pressure) override;
    double SAL_CALL heatUpTime(double volume, double strength, double fromTemperature, double watts,
                               const Any& metalMass, const Any& metal) override;
    double SAL_CALL coolingWater(double chargeVolume, double chargeStrength, double stop,
                                 double rise, const Any& distillateTemperature, const Any& stages,
                                 const Any& reflux, const Any& pressure) override;

    // Safety and housekeeping: spirit_housekeeping.cpp
    Any SAL_CALL chargeCheck(double volume, double strength, double boilerVolume, const Any& limit,
                             const Any& stopStrength) override;
    OUString SAL_CALL version() override;

    // What the readings say together: record.cpp
    Any SAL_CALL reconcile(const Any& directions, const Any& volumes, const Any& strengths,
                           const Any& volumeTolerances, const Any& strengthTolerances,
                           const Any& commonStrengthTolerance) override;
    Any SAL_CALL reconcileTest(const Any& directions, const Any& volumes, const Any& strengths,
                               const Any& volumeTolerances, const Any& strengthTolerances,
                               const Any& commonStrengthTolerance) override;
    Any SAL_CALL reconcileAdvice(const Any& directions, const Any& volumes, const Any& strengths,
                                 const Any& volumeTolerances, const Any& strengthTolerances,
                                 const Any& commonStrengthTolerance) override;
    Any SAL_CALL consensus(const Any& values, const Any& uncertainties) override;
    double SAL_CALL stagesUncertainty(double chargeVolume, double chargeStrength,
                                      const Any& volumes, const Any& strengths,
                                      double strengthTolerance, double chargeTolerance,
                                      const Any& pressure) override;

    // Columns at once: ../columns/columns.cpp
    Any SAL_CALL strengthColumn(const Any& readings, const Any& temperatures, const Any& reference,
                                const Any& glass) override;
    Any SAL_CALL readingColumn(const Any& strengths, const Any& temperatures, const Any& reference,
                               const Any& glass) override;
    Any SAL_CALL densityColumn(const Any& strengths, const Any& temperatures) override;
    Any SAL_CALL volumeColumn(const Any& volumes, const Any& strengths, const Any& fromTemperatures,
                              const Any& toTemperatures) override;
    Any SAL_CALL massColumn(const Any& volumes, const Any& strengths,
                            const Any& temperatures) override;
    Any SAL_CALL forecastStrengthColumn(double chargeVolume, double chargeStrength,
                                        const Any& collected, const Any& stages,
                                        const Any& pressure) override;

    // XServiceInfo
    OUString SAL_CALL getImplementationName() override;
    sal_Bool SAL_CALL supportsService(const OUString& name) override;
    com::sun::star::uno::Sequence<OUString> SAL_CALL getSupportedServiceNames() override;
};

} // namespace jarbook::addin
