// Lists of cells: which rows belong together, and what is refused with its row.
#include "core/base/lists.hpp"

#include "support/refusals.hpp"

#include <gtest/gtest.h>
#include <optional>

using namespace jarbook;

namespace {
const Cell blank{};
const Cell empty_text{std::string()};
} // namespace

TEST(Lists, Blank) {
    EXPECT_TRUE(is_blank(blank));
    EXPECT_TRUE(is_blank(empty_text));
    EXPECT_FALSE(is_blank(Cell(0.0)));
    EXPECT_FALSE(is_blank(Cell(std::string(" "))));
}

TEST(Lists, RowsBlankInAllAreSkipped) {
    const Column volumes{"volumes", {500.0, blank, 400.0, empty_text, 300.0}};
    const Column strengths{"strengths", {80.0, empty_text, 70.0, blank, 60.0}};
    EXPECT_EQ(rows_in_common({&volumes, &strengths}), (std::vector<std::size_t>{0, 2, 4}));
    EXPECT_EQ(rows_in_common({&volumes}), (std::vector<std::size_t>{0, 2, 4}));
    const Column nothing{"volumes", {}};
    EXPECT_TRUE(rows_in_common({&nothing}).empty());
}

TEST(Lists, ARowBlankInOneOnlyIsNamed) {
    const Column volumes{"volumes", {500.0, 450.0, 400.0}};
    const Column strengths{"strengths", {80.0, blank, 70.0}};
    const Column temperatures{"volumeTemperatures", {20.0, 20.0, empty_text}};
    expect_refusal(
        [&] {
            (void)rows_in_common({&volumes, &strengths});
        },
        RefusalKind::not_a_number, "strengths", {"row 2 of strengths", "volumes", "fill it in"});
    expect_refusal(
        [&] {
            (void)rows_in_common({&strengths, &volumes});
        },
        RefusalKind::not_a_number, "strengths", {"row 2 of strengths"});
    expect_refusal(
        [&] {
            (void)rows_in_common({&volumes, &temperatures});
        },
        RefusalKind::not_a_number, "volumeTemperatures", {"row 3 of volumeTemperatures"});
}

TEST(Lists, ListsOfUnequalLengthAreRefusedWithBothLengths) {
    const Column volumes{"volumes", {500.0, 450.0, 400.0}};
    const Column strengths{"strengths", {80.0, 70.0}};
    expect_refusal(
        [&] {
            (void)rows_in_common({&volumes, &strengths});
        },
        RefusalKind::not_a_number, "strengths",
        {"volumes has 3 rows", "strengths has 2;", "equal length"});
}

TEST(Lists, NumbersAndTexts) {
    const Column column{"strengths", {80.0, std::string("80%"), blank, 0.0}};
    EXPECT_EQ(number_in(column, 0), 80.0);
    EXPECT_EQ(number_in(column, 3), 0.0);
    expect_refusal([&] { (void)number_in(column, 1); }, RefusalKind::not_a_number, "strengths",
                   {"row 2 of strengths", "\"80%\"", "a number is needed there"});
    expect_refusal([&] { (void)number_in(column, 2); }, RefusalKind::not_a_number, "strengths",
                   {"row 3 of strengths", "blank", "a number is needed there"});
    EXPECT_EQ(text_in(column, 1), "80%");
    expect_refusal([&] { (void)text_in(column, 0); }, RefusalKind::not_a_number, "strengths",
                   {"row 1 of strengths", "80", "a word is needed there"});
    expect_refusal([&] { (void)text_in(column, 2); }, RefusalKind::not_a_number, "strengths",
                   {"row 3 of strengths", "blank", "a word is needed there"});
}

TEST(Lists, ARefusalHasTheRowAsANumber) {
    const auto row_refused = [](auto f) -> std::optional<std::size_t> {
        try {
            f();
        } catch (const Refusal& refusal) {
            return refusal.row();
        }
        ADD_FAILURE() << "not refused";
        return std::nullopt;
    };
    const Column volumes{"volumes", {500.0, -1.0, 400.0}};
    const Column strengths{"strengths", {80.0, 70.0, blank}};
    EXPECT_EQ(row_refused([&] { (void)amount_in(volumes, 1); }), 1u);
    EXPECT_EQ(row_refused([&] { (void)number_in(strengths, 2); }), 2u);
    EXPECT_EQ(row_refused([&] { (void)number_in_range(strengths, 0, 0.0, 50.0, ""); }), 0u);
    EXPECT_EQ(row_refused([&] { (void)text_in(strengths, 1); }), 1u);
    EXPECT_EQ(row_refused([&] { (void)rows_in_common({&volumes, &strengths}); }), 2u);
    // A list of one cell, or all of a list, is no row.
    const Column one{"strengths", {140.0}};
    EXPECT_EQ(row_refused([&] { (void)number_in_range(one, 0, 0.0, 100.0, ""); }), std::nullopt);
    EXPECT_EQ(row_refused([&] { (void)rows_in_common({&volumes, &one}); }), std::nullopt);
}
