#include "commands.hpp"

#include "version.hpp"

namespace jarbook::menu {

Outcome about(const Situation&, const Request&) {
    Outcome outcome;
    outcome.title = std::string("Jarbook ") + addin::version_text;
    outcome.text =
        "Jarbook puts the arithmetic of the legal alcohol tables and the physics of the pot still "
        "into the cells of a spreadsheet, and comes with the workbook that carries a run from "
        "charge to bottle.\n"
        "\n"
        "CAUTIONS\n"
        "Distilling spirits without a licence is unlawful in many countries: local law and "
        "licensed practice come first.\n"
        "Spirit vapour burns and explodes: ventilate, no flame, never unattended, never a closed "
        "outlet. Charge at or below 40 % vol. Let the still cool, twenty minutes at least (common "
        "practice), before opening it.\n"
        "Foreshots are thrown away, and throwing them away does not make doubtful material safe: "
        "methanol comes over through the whole run.\n"
        "The numbers are as good as the instruments; duty and labelling need approved ones.\n"
        "\n"
        "SOURCES\n"
        "Density and strength of ethanol-water mixtures: OIML R 22 (1975), general formula; the "
        "same in Directive 76/766/EEC, annex.\n"
        "Alcoholometers: instrument of constant mass; OIML R 44.\n"
        "Proof, gauging, weights in air: 27 CFR part 30.\n"
        "Freezing points, and checks of densities: CRC Handbook of Chemistry and Physics.\n"
        "Equilibrium of the vapour at 101.3 kPa: Carey and Lewis, Ind. Eng. Chem. 24 (1932) 882; "
        "vapour pressures and heats: Perry's Chemical Engineers' Handbook (DIPPR equations).\n"
        "Excess enthalpy: Larkin, J. Chem. Thermodyn. 7 (1975) 137.\n"
        "Sucrose solutions: ICUMSA SPS-4.\n"
        "Uncertainty: JCGM 100:2008 (GUM).\n"
        "Each function's own source, range and examples: Function reference.\n"
        "\n"
        "LICENCE\n"
        "Mozilla Public License 2.0; its text is in the package. No warranty.";
    return outcome;
}

} // namespace jarbook::menu
