// The sheet Shelf: the worked example followed from wash to bottle, a loss and its ± worked out by
// hand, wrong boxes and rows named in words, boxes read by their place. Random books:
// test_shelf_book.
#include <cmath>
#include <com/sun/star/sheet/XCellAddressable.hpp>
#include <com/sun/star/sheet/XCellRangeMovement.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <gtest/gtest.h>

#include "core/gauging/weighing.hpp"
#include "support/support.hpp"
#include "workbooks/plain_shelf.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using office::Document;

double number_in(const office::Cell& cell, double otherwise) {
    const office::Value value = cell.value();
    const auto* number = std::get_if<double>(&value);
    return number ? *number : otherwise;
}

class ShelfExample : public testing::Test {
protected:
    Document example = open_worked_example();
    NamedSheet shelf{example, "Shelf"};

    std::string look() const { return shelf["shelf_look"].text(); }
    std::string wrong_cells() const { return errors(shelf.sheet().used()); }
    // Row of a lot or movement, counted from 0, by the text in a column.
    std::size_t row_of(const std::string& column, const std::string& text) const {
        for (std::size_t i = 0; i < 100; ++i)
            if (shelf.in_column(column, i).text() == text)
                return i;
        throw std::runtime_error(column + " has no " + text);
    }
};

TEST_F(ShelfExample, EveryLitreIsFollowedFromWashToBottle) {
    EXPECT_EQ(wrong_cells(), "");
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << look();
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    EXPECT_EQ(shelf["season_closes"].number(), 0);
    // The same book kept in another way, from the boxes.
    std::vector<ShelfLot> lots;
    double washes = 0;
    for (std::size_t i = 0; !shelf.in_column("lot_name", i).text().empty(); ++i) {
        ShelfLot lot{shelf.in_column("lot_name", i).text(),
                     static_cast<int>(shelf.in_column("lot_date", i).number()),
                     {},
                     shelf.in_column("lot_strength", i).text().empty()};
        if (!lot.by_blending)
            lot.filled = Contents::of(shelf.in_column("lot_litres", i).number(),
                                      shelf.in_column("lot_strength", i).number());
        if (!shelf.in_column("lot_run", i).text().starts_with("Run "))
            washes += lot.filled.alcohol;
        lots.push_back(lot);
    }
    ASSERT_GE(lots.size(), 15u);
    PlainShelf book(lots, 0.8);
    for (std::size_t i = 0; !shelf.in_column("moved_lot", i).text().empty(); ++i) {
        Movement row{shelf.in_column("moved_lot", i).text(),
                     shelf.in_column("moved_what", i).text(),
                     shelf.in_column("moved_where", i).text(),
                     static_cast<int>(shelf.in_column("moved_date", i).number()),
                     number_in(shelf.in_column("moved_litres", i), -1),
                     number_in(shelf.in_column("moved_kilograms", i), -1),
                     number_in(shelf.in_column("moved_strength", i), -1),
                     shelf.in_column("moved_litres", i).text() == "all"};
        EXPECT_EQ(book.enter(row), "") << i;
    }
    for (std::size_t i = 0; i < lots.size(); ++i)
        EXPECT_NEAR(shelf.in_column("lot_alcohol_now", i).number(), book.now(lots[i].name).alcohol,
                    1e-8)
            << lots[i].name;
    EXPECT_NEAR(shelf["season_outside"].number(), washes, 1e-9);
    EXPECT_NEAR(shelf["season_bottled"].number(), book.out("bottled"), 1e-8);
    EXPECT_NEAR(shelf["season_loss"].number(), book.lost(), 1e-8);
    EXPECT_NEAR(shelf["season_stock"].number(), book.stock(), 1e-8);
}

// The numbers of the example are those of its runs, as a person would round them.
TEST_F(ShelfExample, LotsAndChargesAreThoseOfTheRunSheets) {
    for (const auto& [run, lot, name] :
         std::vector<std::array<std::string, 3>>{{"Run 1", "Feints, run 1", "feints"},
                                                 {"Run 1", "Pear spirit, run 1", "product"},
                                                 {"Run 2", "Low wines, run 2", "product"},
                                                 {"Run 3", "Low wines, run 3", "product"},
                                                 {"Run 4", "Hearts, run 4", "product"},
                                                 {"Run 4", "Feints, run 4", "feints"},
                                                 {"Run 5", "Caraway spirit, run 5", "product"},
                                                 {"Run 5", "Feints, run 5", "feints"},
                                                 {"Run 6", "Low wines, run 6", "product"},
                                                 {"Run 7", "Barley spirit, run 7", "product"},
                                                 {"Run 7", "Hearts to spare, run 7", "spare"},
                                                 {"Run 7", "Feints, run 7", "feints"}}) {
        const NamedSheet sheet(example, run);
        const std::size_t row = row_of("lot_name", lot);
        EXPECT_NEAR(shelf.in_column("lot_litres", row).number(),
                    sheet["next_" + name + "_volume"].number(), 0.0051)
            << lot;
        EXPECT_NEAR(shelf.in_column("lot_strength", row).number(),
                    sheet["next_" + name + "_strength"].number(), 0.051)
            << lot;
        EXPECT_EQ(shelf.in_column("lot_date", row).number(), sheet["run_date"].number()) << lot;
    }
    int charged = 0;
    for (std::size_t i = 0; i < 16; ++i)
        if (number_in(shelf.in_column("through_charged", i), 0) > 0) {
            EXPECT_NEAR(shelf.in_column("through_charged", i).number(),
                        shelf.in_column("through_charge", i).number(), 0.02);
            ++charged;
        }
    EXPECT_EQ(charged, 8);
}

TEST_F(ShelfExample, LossAndItsRangeByHand) {
    // The cask: 4.85 L of 70.8 % vol and water in, half a year later 5.02 kg of 60.2 % vol.
    const std::size_t cask = row_of("lot_name", "Pear cask");
    const double in = 4.85 * 0.708, litres = volume_from_mass(5.02, 60.2), left = litres * 0.602;
    EXPECT_NEAR(shelf.in_column("lot_loss", cask).number(), in - left, 1e-9);
    EXPECT_NEAR(shelf.in_column("lot_volume_now", cask).number(), litres, 1e-7);
    // 182 days with all of it: the mean stock is what was put in.
    EXPECT_NEAR(shelf.in_column("lot_loss_year", cask).number(),
                100 * (in - left) / in * 365.25 / 182, 1e-7);
    // Half-widths 0.2 (the instrument, of the difference of litres), 0.15 and 0.8 per cent; k = 2.
    const double range =
        2 / std::sqrt(3) *
        std::hypot(0.002 * (4.85 - litres), std::hypot(0.0015 * 4.85, 0.0015 * litres),
                   std::hypot(0.008 * in, 0.008 * left));
    EXPECT_NEAR(shelf.in_column("lot_loss_range", cask).number(), range, 1e-7);
    // 300 days, measured, then charged: the rate is of the time it stood there.
    const std::size_t wines = row_of("lot_name", "Low wines, autumn 2024");
    const double filled = 48.40 * 0.281, again = 48.27 * 0.2796;
    EXPECT_NEAR(shelf.in_column("lot_loss_year", wines).number(),
                100 * (filled - again) / filled * 365.25 / 301, 1e-7);
    // Three weeks say nothing of a year.
    const std::size_t can = row_of("lot_name", "Pear spirit, run 1");
    EXPECT_GT(shelf.in_column("lot_loss", can).number(), 0);
    EXPECT_EQ(shelf.in_column("lot_loss_year", can).text(), "");
}

TEST_F(ShelfExample, WhatDoesNotFitIsNamedAndTheAccountWaits) {
    const auto expect_said = [&](const std::string& words) {
        EXPECT_NE(look().find(words), std::string::npos) << words << "\n" << look();
        EXPECT_EQ(shelf["shelf_closes"].text(), "");
        EXPECT_NE(shelf["shelf_account"].text().find("waits"), std::string::npos);
        EXPECT_EQ(wrong_cells(), "") << words;
    };
    const auto with = [&](const std::string& column, std::size_t row, const std::string& typed,
                          const std::string& words) {
        office::Cell cell = shelf.in_column(column, row);
        const std::string held = cell.formula();
        if (typed.starts_with('\''))
            cell.set_text(typed.substr(1));
        else
            typed.empty() ? cell.clear() : cell.set_formula_local(typed);
        expect_said(words);
        cell.set_formula(held);
        EXPECT_EQ(shelf["shelf_looks"].number(), 0) << "after " << typed << ": " << look();
    };
    const std::string slip = comma_decimal() ? "'9.5" : "'9,5";
    const std::string right = comma_decimal() ? "9,5" : "9.5";
    // Lots
    with("lot_name", 5, "", "Lots, row 6: give the lot a name");
    with("lot_name", 5, "Feints, RUN 1", "two lots are called Feints, run 1");
    with("lot_kind", 5, "vinegar", "Kind: 'vinegar' is not in the list");
    with("lot_kind", 5, "", "choose its kind");
    with("lot_date", 5, "", "Enter the date");
    with("lot_date", 5, "'autumn", "'autumn' is no date");
    with("lot_litres", 5, "", "Lots, row 6: how much?");
    with("lot_litres", 5, slip, "is text: type " + right);
    with("lot_litres", 5, "-3", "-3 is not from");
    with("lot_kilograms", 5, "12", "litres or kilograms, not both");
    with("lot_strength", 5, comma_decimal() ? "0,4" : "0.4", "for 40 % type 40");
    with("lot_strength", 5, "", "its strength is missing");
    with("lot_allowed", 5, "120", "120 is not from 0 to 100");
    // Movements
    with("moved_lot", 9, "", "Book, row 10: which lot?");
    with("moved_lot", 9, "Low wines, run 22", "no lot is called Low wines, run 22");
    with("moved_what", 9, "drunk", "What: 'drunk' is not in the list");
    with("moved_where", 9, "", "to which run?");
    with("moved_date", 9, "2025-10-01", "was filled later, on 2025-10-18");
    with("moved_date", 9, "2025-11-02", "has a later date, 2025-11-02");
    with("moved_litres", 9, "21", "Book, row 10: 21");
    with("moved_litres", 9, "", "how much?");
    with("moved_litres", 9, "all", "'all' takes the lot as the book has it");
    with("moved_kilograms", 9, "3", "not both");
    with("moved_strength", 26, "", "a weight alone does not show the alcohol");
    with("moved_strength", 16, "5", "water has no strength");
    with("moved_where", 15, "Hearts, run 7", "Lots, row 11: how much?"); // the cask is filled by it
    office::Cell where = shelf.in_column("moved_where", 15);
    where.set_text("Plum cask");
    EXPECT_EQ(shelf.in_column("moved_words", 15).text(),
              "no lot is called Plum cask: enter it under Lots, amount blank");
    where.set_text("Hearts, run 4");
    EXPECT_EQ(shelf.in_column("moved_words", 15).text(), "a lot cannot be blended into itself");
    where.set_text("Pear cask");
    office::Cell strength = shelf.in_column("moved_strength", 9);
    strength.set_formula("=1/0");
    EXPECT_EQ(wrong_cells(), "Shelf.I" + std::to_string(shelf.row("moved_strength") + 9))
        << "only the box itself";
    EXPECT_NE(look().find("% vol: an error: clear the box"), std::string::npos) << look();
    strength.set_number(33.6);
    // What waits for a wrong row is not counted, and not called wrong itself where the first is.
    office::Cell litres = shelf.in_column("moved_litres", 9);
    litres.set_number(30);
    EXPECT_EQ(shelf.in_column("moved_words", 10).text(), "waits for row 10, the same lot");
    EXPECT_NE(look().find("(and 1 more below)"), std::string::npos) << look();
    EXPECT_EQ(shelf.in_column("lot_alcohol_now", row_of("lot_name", "Low wines, run 2")).text(),
              "");
    EXPECT_GT(shelf.in_column("lot_alcohol_now", row_of("lot_name", "Pear cask")).number(), 3);
}

TEST_F(ShelfExample, WhatIsAllowedButOddIsSaidAndCounts) {
    office::Cell strength = shelf.in_column("moved_strength", 9);
    strength.set_number(31);
    EXPECT_NE(look().find("Book, row 10: the book had"), std::string::npos) << look();
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    strength.set_number(33.6);
    // 0.6 per cent more than the book has: within the vessel's 0.8, the lot is empty.
    office::Cell litres = shelf.in_column("moved_litres", 9);
    litres.set_number(20.03);
    EXPECT_NE(look().find("within the vessel's error"), std::string::npos) << look();
    EXPECT_LT(shelf.in_column("moved_loss", 9).number(), 0);
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    litres.set_number(19.85);
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << look();
    // The same feints put on the shelf twice.
    const std::size_t row = row_of("lot_name", "Barley wash, brew 2") + 1;
    for (const auto& [column, text] : std::map<std::string, std::string>{
             {"lot_name", "Feints again"}, {"lot_kind", "feints"}, {"lot_run", "Run 7"}})
        shelf.in_column(column, row).set_text(text);
    shelf.in_column("lot_date", row).set_number(46010);
    shelf.in_column("lot_litres", row).set_number(10.29);
    shelf.in_column("lot_strength", row).set_number(55.6);
    EXPECT_NE(look().find("Run 7: more stands here (19"), std::string::npos) << look();
    EXPECT_EQ(wrong_cells(), "");
}

TEST_F(ShelfExample, BoxesAreReadByTheirPlace) {
    const double before = shelf["shelf_stock"].number();
    shared_office().call("cutting and pasting a movement", [&] {
        const uno::Reference<util::XProtectable> protection(shelf.sheet().uno(),
                                                            uno::UNO_QUERY_THROW);
        protection->unprotect({});
        const uno::Reference<sheet::XCellRangeMovement> sheet(shelf.sheet().uno(),
                                                              uno::UNO_QUERY_THROW);
        const auto box = [&](const char* name, std::size_t row) {
            return uno::Reference<sheet::XCellAddressable>(shelf.in_column(name, row).uno(),
                                                           uno::UNO_QUERY_THROW)
                ->getCellAddress();
        };
        const auto from = box("moved_lot", 26), to = box("moved_strength", 26);
        sheet->moveRange(box("moved_lot", 29),
                         {from.Sheet, from.Column, from.Row, to.Column, to.Row});
        const auto lot = box("lot_name", 18), end = box("lot_allowed", 18);
        sheet->moveRange(box("lot_name", 21),
                         {lot.Sheet, lot.Column, lot.Row, end.Column, end.Row});
    });
    EXPECT_EQ(wrong_cells(), "");
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << look();
    EXPECT_NEAR(shelf["shelf_stock"].number(), before, 1e-9);
    EXPECT_EQ(shelf.in_column("moved_alcohol", 26).text(), "");
    EXPECT_GT(shelf.in_column("moved_alcohol", 29).number(), 3);
}

TEST(BlankShelf, IsCalm) {
    const Document log = open_blank_run_log();
    const NamedSheet shelf(log, "Shelf");
    EXPECT_EQ(errors(shelf.sheet().used()), "");
    EXPECT_TRUE(shelf["shelf_look"].text().starts_with("Enter each lot"))
        << shelf["shelf_look"].text();
    for (const auto& [name, address] : local_names(shelf.sheet()))
        if (name == "kinds_table")
            continue;
        else if (name.starts_with("lot_") || name.starts_with("moved_") ||
                 name.starts_with("season_"))
            for (const auto& row : contents(shelf.sheet().range(address)))
                if (name != "lot_state") {
                    EXPECT_EQ(std::get<std::string>(row[0]), "") << name;
                }
    // One lot by weight is enough.
    shelf.in_column("lot_name", 0).set_text("Feints");
    shelf.in_column("lot_kind", 0).set_text("feints");
    shelf.in_column("lot_date", 0).set_number(46000);
    shelf.in_column("lot_kilograms", 0).set_number(2.5);
    shelf.in_column("lot_strength", 0).set_number(55);
    EXPECT_NEAR(shelf["shelf_stock"].number(), volume_from_mass(2.5, 55) * 0.55, 1e-9);
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    EXPECT_TRUE(shelf["shelf_look"].text().starts_with("Every row fits"));
    EXPECT_EQ(errors(shelf.sheet().used()), "");
}

} // namespace
} // namespace jarbook::e2e
