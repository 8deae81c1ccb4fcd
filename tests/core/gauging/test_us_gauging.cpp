// United States gauging: 27 CFR part 30, its printed table entries and every worked example.
#include "core/blending/blending.hpp"
#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/lots.hpp"
#include "core/gauging/scales.hpp"
#include "core/gauging/weighing.hpp"
#include "support/published.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>
#include <regex>
#include <vector>

using namespace jarbook;
using published::Table;

namespace {

constexpr double litres_per_gallon = 231.0 * 0.016387064; // 231 cubic inches, 27 CFR 30.11
constexpr double kg_per_lb = 0.45359237;
double celsius(double f) {
    return (f - 32.0) / 1.8;
}
const double sixty_f_c = celsius(60.0);

double strength_of_proof(double proof) {
    return convert_strength(proof, "proof", "%vol");
}

// Table 4 and 5: wine gallons at 60 degF in a pound, and pounds in a gallon.
double gallons_per_lb(double proof) {
    return volume_from_mass(kg_per_lb, strength_of_proof(proof), sixty_f_c) / litres_per_gallon;
}
double lb_per_gallon(double proof) {
    return mass_from_volume(litres_per_gallon, strength_of_proof(proof), sixty_f_c) / kg_per_lb;
}
double proof_gallons_per_lb(double proof) {
    return gallons_per_lb(proof) * proof / 100.0;
}

// Table 7: correction of volume to 60 degF.
double volume_factor(double proof, double f) {
    return volume_at(1.0, strength_of_proof(proof), celsius(f), sixty_f_c);
}

// The tables rest on another formula of density than R 22, on an ethanol of SG 0.7939 (rounded:
// half a digit is 6.3e-5 of it); R 22's U(rho) of 0.05 kg/m3 is 6.2e-5. Together, of any weight per
// volume:
constexpr double density_basis = 1.25e-4;

// Printed entries of Table 1 in a text: "193@72=190.2" is reading, degF, true proof.
struct Entry {
    double reading, f, proof;
};
std::vector<Entry> entries_in(const std::string& text) {
    std::vector<Entry> entries;
    const std::regex form(R"((\d+)@(\d+)=(\d+\.\d))");
    for (std::sregex_iterator it(text.begin(), text.end(), form), end; it != end; ++it)
        entries.push_back({std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3])});
    return entries;
}

} // namespace

TEST(UsGauging, Table1ToThePrintedTenth) {
    // Every entry of Table 1 that could be read: in the file of entries, and in the examples'
    // texts.
    std::vector<Entry> entries;
    const Table values("us_gauging_table_values.csv", 21);
    for (std::size_t row = 0; row < values.rows(); ++row)
        if (values.text(row, "table") == "1")
            entries.push_back({values.number(row, "proof_or_reading"),
                               values.number(row, "temperature_F"), values.number(row, "value")});
    ASSERT_EQ(entries.size(), 4u);
    const Table examples("us_27cfr30_examples.csv", 15);
    for (const std::size_t row : {0u, 1u})
        for (const Entry& entry : entries_in(examples.text(row, "given")))
            entries.push_back(entry);
    ASSERT_EQ(entries.size(), 10u); // 7 different ones
    for (const Entry& entry : entries)
        EXPECT_NEAR(us_proof_from_reading(entry.reading, entry.f), entry.proof, 0.05)
            << entry.reading << " at " << entry.f << " F"; // half the printed 0.1
}

TEST(UsGauging, Section30_23AndTheProofingPage) {
    // Both examples interpolate Table 1 by thirds of its printed tenths; PROOF takes the corrected
    // reading and temperature themselves. Tolerance: each printed entry is off by up to 0.05, and
    // the interpolation weighs the first 1 + 2(a + b) times in the worst case.
    const Table examples("us_27cfr30_examples.csv", 15);
    ASSERT_EQ(examples.text(0, "section"), "30.23");
    EXPECT_NEAR(us_proof_from_reading(192.85 - 0.03, 72.10 + 0.05), 189.972,
                0.05 * (1.0 + 2.0 * (0.82 + 0.15)));
    EXPECT_NEAR(us_proof_from_reading(192.85 - 0.03, 72.10 + 0.05),
                examples.number(0, "answer_value"), 0.05 * (1.0 + 2.0 * (0.82 + 0.15)) + 0.05);
    ASSERT_EQ(examples.text(1, "section"), "TTB proofing page");
    EXPECT_NEAR(us_proof_from_reading(80.35 - 0.03, (20.1 + 0.1) * 1.8 + 32.0), 76.576,
                0.05 * (1.0 + 2.0 * (0.32 + 0.36)));
    EXPECT_NEAR(us_proof_from_reading(80.35 - 0.03, (20.1 + 0.1) * 1.8 + 32.0),
                examples.number(1, "answer_value"), 0.05 * (1.0 + 2.0 * (0.32 + 0.36)) + 0.05);
}

TEST(UsGauging, Section30_25And30_51VolumeCorrection) {
    const Table examples("us_27cfr30_examples.csv", 15);
    const Table values("us_gauging_table_values.csv", 21);
    for (std::size_t row = 0; row < values.rows(); ++row)
        if (values.text(row, "table") == "7") {
            EXPECT_NEAR(volume_factor(values.number(row, "proof_or_reading"),
                                      values.number(row, "temperature_F")),
                        values.number(row, "value"), values.half_digit(row, "value"))
                << values.where(row, "value");
        }
    // 30.25: a specific gravity of 1.1525 at 68 degF corrected by Table 7. The printed factor has
    // three decimals, the answer four.
    ASSERT_EQ(examples.text(2, "section"), "30.25");
    EXPECT_NEAR(1.1525 / volume_factor(115.0, 68.0), examples.number(2, "answer_value"),
                1.1525 * 0.0005 + 0.00005);
    // 30.51: 48.96 wine gallons an inch, 88 inches, 72 degF, 86.8 proof.
    ASSERT_EQ(examples.text(5, "section"), "30.51");
    EXPECT_NEAR(48.96 * 88.0 * volume_factor(86.8, 72.0) * 0.868,
                examples.number(5, "answer_value"), 48.96 * 88.0 * 0.868 * 0.0005 + 0.05);
}

TEST(UsGauging, Section30_61TrueProof) {
    const Table examples("us_27cfr30_examples.csv", 15);
    ASSERT_EQ(examples.text(6, "section"), "30.61");
    EXPECT_NEAR(us_proof_from_reading(193.0, 75.0), examples.number(6, "answer_value"), 0.05);
}

TEST(UsGauging, Tables3To5) {
    const Table values("us_gauging_table_values.csv", 21);
    int checked = 0;
    for (std::size_t row = 0; row < values.rows(); ++row) {
        const std::string& table = values.text(row, "table");
        const std::string& quantity = values.text(row, "quantity");
        if (table != "3" && table != "4" && table != "5")
            continue;
        const double proof = values.number(row, "proof_or_reading");
        double ours = 0.0;
        if (quantity.find("proof gallons per ") == 0) {
            const std::string lb = quantity.substr(std::string("proof gallons per ").size());
            ours = proof_gallons_per_lb(proof) * (lb == "pound" ? 1.0 : std::stod(lb));
        } else if (quantity == "pounds per wine gallon") {
            ours = lb_per_gallon(proof);
        } else {
            ASSERT_EQ(quantity.find("wine gallons per pound"), 0u) << quantity;
            ours = gallons_per_lb(proof);
        }
        const double printed = values.number(row, "value");
        EXPECT_NEAR(ours, printed, values.half_digit(row, "value") + density_basis * printed)
            << values.where(row, quantity);
        ++checked;
    }
    EXPECT_EQ(checked, 11);
}

TEST(UsGauging, WeightOfWater) {
    // 27 CFR 30.41(b) and 21.161. Water itself: R 22 is up to 0.010 kg/m3 (1e-5) from IAPWS-95
    // (test_r22), and the tables' air is not stated: 0.02 kg/m3 of it are 2e-5; half the digits.
    const Table values("us_gauging_table_values.csv", 21);
    ASSERT_EQ(values.text(13, "quantity"), "wine gallons per pound of water");
    EXPECT_NEAR(gallons_per_lb(0.0), values.number(13, "value"),
                values.half_digit(13, "value") + 3e-5 * values.number(13, "value"));
    ASSERT_EQ(values.text(17, "quantity"), "weight of one US gallon of water in air");
    EXPECT_NEAR(lb_per_gallon(0.0), values.number(17, "value"),
                values.half_digit(17, "value") + 3e-5 * values.number(17, "value"));
}

TEST(UsGauging, Section30_63ProofGallonsByWeight) {
    const Table examples("us_27cfr30_examples.csv", 15);
    for (const std::size_t row : {7u, 8u, 9u})
        ASSERT_EQ(examples.text(row, "section"), "30.63");
    // Each is a sum of four entries of Table 3, printed to 0.1.
    EXPECT_NEAR(60378.0 * proof_gallons_per_lb(190.0), examples.number(7, "answer_value"),
                4 * 0.05 + density_basis * 16884.1);
    EXPECT_NEAR(321.5 * proof_gallons_per_lb(86.0), examples.number(8, "answer_value"),
                4 * 0.05 + density_basis * 35.1);
    EXPECT_NEAR(examples.number(8, "answer_value") / 0.86, examples.number(9, "answer_value"),
                0.05);
    EXPECT_NEAR(321.5 * gallons_per_lb(86.0), examples.number(9, "answer_value"),
                (4 * 0.05) / 0.86 + 0.05 + density_basis * 40.8);
}

TEST(UsGauging, Section30_64GallonsByWeight) {
    const Table examples("us_27cfr30_examples.csv", 15);
    for (const std::size_t row : {10u, 11u, 12u})
        ASSERT_EQ(examples.text(row, "section"), "30.64");
    // 81,000 lb by a factor of five decimals.
    EXPECT_NEAR(81000.0 * gallons_per_lb(190.0), examples.number(10, "answer_value"),
                81000.0 * 5e-6 + 0.05 + density_basis * 11921.6);
    EXPECT_NEAR(81000.0 * proof_gallons_per_lb(190.0), examples.number(11, "answer_value"),
                81000.0 * 5e-6 + 0.05 + density_basis * 22650.8);
    // 1000 lb of 200 proof to 190: 82.03 lb of water, from two factors of five decimals (0.04 lb)
    // and the difference of two weights of 1000 lb, of which only what changes of the basis between
    // 200 and 190 proof matters: taken as all of it once, 0.13 lb.
    const double strong = strength_of_proof(200.0);
    const double litres = volume_from_mass(1000.0 * kg_per_lb, strong);
    const double water = water_to_add(litres, strong, strength_of_proof(190.0));
    EXPECT_NEAR(mass_from_volume(water, 0.0) / kg_per_lb, examples.number(12, "answer_value"),
                0.04 + 0.005 + density_basis * 1082.0);
}

TEST(UsGauging, Section30_65WeightOfVolumes) {
    const Table examples("us_27cfr30_examples.csv", 15);
    for (const std::size_t row : {13u, 14u})
        ASSERT_EQ(examples.text(row, "section"), "30.65");
    EXPECT_NEAR(100.0 * lb_per_gallon(190.0), examples.number(13, "answer_value"),
                0.005 + density_basis * 679.43);
    EXPECT_NEAR(100.0 * lb_per_gallon(190.0) / 1.9, examples.number(14, "answer_value"),
                0.005 + density_basis * 357.60);
}

TEST(UsGauging, Table6FromMemory) {
    // Two entries from memory (no text could be read): 100 volumes of 100 proof hold 50 of alcohol
    // and 53.73 of water, all at 60 degF.
    const Table values("us_gauging_table_values.csv", 21);
    ASSERT_EQ(values.text(19, "quantity"), "parts of water per 100 parts of spirit");
    ASSERT_EQ(values.text(20, "quantity"), "parts of alcohol per 100 parts of spirit");
    const double strength = strength_of_proof(100.0);
    const double at_20c = volume_at(100.0, strength, sixty_f_c, 20.0);
    const auto [alcohol, water] = blend_pair(100.0, 0.0, strength, at_20c);
    EXPECT_NEAR(volume_at(water, 0.0, 20.0, sixty_f_c), values.number(19, "value"),
                values.half_digit(19, "value") + density_basis * 53.73);
    EXPECT_NEAR(volume_at(alcohol, 100.0, 20.0, sixty_f_c), values.number(20, "value"), 0.005);
}

TEST(UsGauging, EveryExampleOfTheFileIsChecked) {
    // Rows 4 and 5 (30.32) stand in test_sweetened, the others above: 15 in all, by their sections.
    const Table examples("us_27cfr30_examples.csv", 15);
    const std::vector<std::string> sections{"30.23",    "TTB proofing page",
                                            "30.25",    "30.32(b)",
                                            "30.32(b)", "30.51",
                                            "30.61",    "30.63",
                                            "30.63",    "30.63",
                                            "30.64",    "30.64",
                                            "30.64",    "30.65",
                                            "30.65"};
    for (std::size_t row = 0; row < examples.rows(); ++row)
        EXPECT_EQ(examples.text(row, "section"), sections[row]) << "row " << row + 1;
}

TEST(UsGauging, ProofIsTheReadingAtSixtyDegrees) {
    for (double proof = 0.0; proof <= 200.0; proof += 2.5)
        EXPECT_NEAR(us_proof_from_reading(proof, 60.0), proof, 2e-9); // two per cents' rounding
    // And what an instrument of that reference shows: 1e-9 % vol, twice.
    for (double f = 21.0; f <= 104.0; f += 4.0) // 32 °F is a Celsius 0, which STRENGTH refuses
        for (double reading = 60.0; reading <= 180.0; reading += 10.0)
            EXPECT_NEAR(
                us_proof_from_reading(reading, f),
                convert_strength(strength_from_reading(reading / 2.0, celsius(f), {sixty_f_c}),
                                 "%vol", "proof"),
                4e-9);
}

TEST(UsGauging, Refusals) {
    const auto proof = [](double reading, double f) {
        return [=] { (void)us_proof_from_reading(reading, f); };
    };
    const auto out = RefusalKind::out_of_range;
    expect_refusal(proof(201.0, 60.0), out, "reading", {"201 proof", "0 to 200 proof"});
    expect_refusal(proof(-1.0, 60.0), out, "reading", {"-1 proof", "0 to 200 proof"});
    expect_refusal(proof(100.0, 0.0), out, "temperatureF", {"0 °F", "Is the cell empty?", "0.001"});
    expect_refusal(proof(100.0, 104.5), out, "temperatureF", {"104.5 °F", "-4 to 104 °F"});
    expect_refusal(proof(100.0, -4.5), out, "temperatureF", {"-4.5 °F", "-4 to 104 °F"});
    expect_refusal(proof(200.0, 40.0), RefusalKind::impossible, "reading",
                   {"200 proof at 40 °F", "lighter than ethanol", "Allowed", "proof"});
    expect_refusal(proof(0.0, 90.0), RefusalKind::impossible, "reading",
                   {"0 proof at 90 °F", "denser than water", "to 200 proof"});
    EXPECT_NO_THROW(proof(100.0, 104.0)());
    EXPECT_NO_THROW(proof(100.0, -4.0)());
}
