#include "uno/menu/commands.hpp"

#include "uno/text/version.hpp"

namespace jarbook::menu {

Outcome about(const Situation&, const Request&) {
    const std::string version = addin::version_text;
    Outcome outcome;
    outcome.title = "Jarbook " + version;
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
        "Density, strength, volume and mass of ethanol-water mixtures: OIML R 22 (1975), general "
        "formula; the same in Directive 76/766/EEC, annex.\n"
        "Alcoholometers: instrument of constant mass, OIML R 44; glass, ISO 1768.\n"
        "Proof, US gauging, degrees at 60 °F: 27 CFR part 30.\n"
        "Freezing: CRC Handbook of Chemistry and Physics.\n"
        "Boiling and vapour: van Laar equation, coefficients after Perry's Chemical Engineers' "
        "Handbook, Table 13-4, supported by a fit to Carey and Lewis, Ind. Eng. Chem. 24 (1932) "
        "882; vapour pressures and heats: Perry, 8th edition.\n"
        "The course of a run: Rayleigh's equation, Phil. Mag. 4 (1902) 521.\n"
        "Heat of mixing: Larkin, J. Chem. Thermodyn. 7 (1975) 137.\n"
        "Sugar: ICUMSA SPS-4.\n"
        "Uncertainty: GUM, JCGM 100:2008.\n"
        "Each function's own source, range and examples: Function reference.\n"
        "\n"
        "LICENCES\n"
        "Jarbook " +
        version +
        ": Mozilla Public License 2.0. No warranty.\n"
        "Parts of Boost's headers are compiled into it; Boost Software License 1.0.\n"
        "The package holds LICENSE and NOTICE.";
    return outcome;
}

} // namespace jarbook::menu
