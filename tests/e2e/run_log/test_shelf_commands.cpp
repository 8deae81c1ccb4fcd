// Add to shelf, Take from shelf: nothing typed twice, nothing counted twice, also after Undo.
#include "run_log/run_log_support.hpp"

#include "support/support.hpp"
#include "text.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace jarbook::e2e {
namespace {

const std::string run = "Run 1";

// What is typed on the shelf.
std::vector<office::Rows<std::variant<double, std::string>>> typed(const NamedSheet& shelf) {
    return {contents(shelf.sheet().range(shelf.address("lots_block"))),
            contents(shelf.sheet().range(shelf.address("movements_block")))};
}

// A spirit run with its cuts and jars, ready to be put on the shelf.
office::Document finished_run() {
    office::Document log = open_blank_run_log();
    fill_charge(log, run);
    std::vector<double> amounts;
    for (int i = 0; i < 20; ++i)
        amounts.push_back(900 + 3 * i);
    type_jars(log, run, amounts);
    NamedSheet sheet(log, run);
    sheet["run_date"].set_number(46000);
    sheet["run_kind"].set_text("spirit run");
    for (std::size_t i = 0; i < amounts.size(); ++i)
        sheet.in_column("jar_cut", i)
            .set_text(i < 1    ? "foreshots"
                      : i < 3  ? "heads"
                      : i < 12 ? "hearts"
                               : "tails");
    return log;
}

TEST(Shelf, WhatARunMadeIsPutThereOnce) {
    office::Document log = finished_run();
    const NamedSheet sheet(log, run);
    const NamedSheet shelf(log, "Shelf");
    ASSERT_GT(sheet["next_product_volume"].number(), 1);
    const auto blank = typed(shelf);
    const auto steps = undo_titles(log).size();

    const Said added = call_at(log, run, "A1", "addToShelf");
    ASSERT_TRUE(added.done) << added.text;
    EXPECT_NE(added.text.find("Hearts, Run 1 ("), std::string::npos) << added.text;
    EXPECT_NE(added.text.find("Feints, Run 1 ("), std::string::npos) << added.text;
    EXPECT_EQ(undo_titles(log).size(), steps + 1);
    EXPECT_TRUE(is_protected(shelf.sheet()));
    EXPECT_EQ(shelf.in_column("lot_name", 0).text(), "Hearts, Run 1");
    EXPECT_EQ(shelf.in_column("lot_kind", 0).text(), "hearts");
    EXPECT_EQ(shelf.in_column("lot_run", 0).text(), run);
    EXPECT_EQ(shelf.in_column("lot_date", 0).text(), sheet["run_date"].text());
    EXPECT_NEAR(shelf.in_column("lot_litres", 0).number(), sheet["next_product_volume"].number(),
                5.1e-5);
    EXPECT_NEAR(shelf.in_column("lot_strength", 1).number(), sheet["next_feints_strength"].number(),
                5.1e-4);
    EXPECT_EQ(shelf.in_column("lot_name", 2).text(), "") << "foreshots are thrown away";
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << shelf["shelf_look"].text();
    EXPECT_EQ(check_sheet(log, 1).size(), 0u);
    const auto once = typed(shelf);

    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "On the shelf already"));
    EXPECT_EQ(typed(shelf), once);
    undo(log);
    EXPECT_EQ(typed(shelf), blank);
    EXPECT_TRUE(is_protected(shelf.sheet()));
    redo(log);
    EXPECT_EQ(typed(shelf), once);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "On the shelf already"));
    undo(log);
    ASSERT_TRUE(call_at(log, run, "A1", "addToShelf").done);
    EXPECT_EQ(typed(shelf), once) << "after Undo as the first time";

    // Renamed, it is still the same lot; gone, it is entered again, the other is not.
    shelf.in_column("lot_name", 0).set_text("Pear");
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "Pear; Feints, Run 1"));
    const std::string row = std::to_string(shelf.row("lot_name"));
    shelf.sheet().range("B" + row + ":J" + row).clear();
    const Said again = call_at(log, run, "A1", "addToShelf");
    ASSERT_TRUE(again.done) << again.text;
    EXPECT_NE(again.text.find("On the shelf already"), std::string::npos) << again.text;
    EXPECT_EQ(shelf.in_column("lot_name", 2).text(), "Hearts, Run 1") << "behind all in use";
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << shelf["shelf_look"].text();
    // Under another kind it is not counted twice either.
    NamedSheet(log, run)["bottling_strength"].set_number(40);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "Nothing was entered."));
}

TEST(Shelf, WhatIsChargedIsTakenOnce) {
    office::Document log = finished_run();
    NamedSheet sheet(log, run);
    const NamedSheet shelf(log, "Shelf");
    EXPECT_TRUE(refused(call_at(log, run, "A1", "takeFromShelf"), "has a name"));
    sheet.in_column("lot_name", 0).set_text("Low wines");
    sheet.in_column("lot_temperature", 0).set_number(20);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "takeFromShelf"), "Not on the shelf"));
    shelf.in_column("lot_name", 0).set_text("low wines");
    shelf.in_column("lot_kind", 0).set_text("low wines");
    shelf.in_column("lot_date", 0).set_number(45990);
    shelf.in_column("lot_litres", 0).set_number(200);
    shelf.in_column("lot_strength", 0).set_number(30);
    const auto before = typed(shelf);
    const Said taken = call_at(log, run, "A1", "takeFromShelf");
    ASSERT_TRUE(taken.done) << taken.text;
    EXPECT_EQ(shelf.in_column("moved_lot", 0).text(), "low wines");
    EXPECT_EQ(shelf.in_column("moved_what", 0).text(), "charged");
    EXPECT_EQ(shelf.in_column("moved_where", 0).text(), run);
    EXPECT_NEAR(shelf.in_column("moved_alcohol", 0).number(), sheet["lots_alcohol"].number(), 5e-4);
    EXPECT_NEAR(shelf.in_column("through_charged", 0).number(),
                shelf.in_column("through_charge", 0).number(), 5e-4);
    EXPECT_EQ(shelf["shelf_closes"].number(), 0);
    EXPECT_EQ(shelf["shelf_looks"].number(), 0) << shelf["shelf_look"].text();
    const auto once = typed(shelf);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "takeFromShelf"), "Booked for Run 1 already"));
    EXPECT_EQ(typed(shelf), once);
    undo(log);
    EXPECT_EQ(typed(shelf), before);
    ASSERT_TRUE(call_at(log, run, "A1", "takeFromShelf").done);
    EXPECT_EQ(typed(shelf), once);
    // More than there is: booked as measured, and named at once.
    undo(log);
    shelf.in_column("lot_litres", 0).set_number(20);
    const Said more = call_at(log, run, "A1", "takeFromShelf");
    ASSERT_TRUE(more.done) << more.text;
    EXPECT_NE(more.text.find("Book, row 1: 180"), std::string::npos) << more.text;
    EXPECT_EQ(shelf["shelf_closes"].text(), "");
    EXPECT_EQ(errors(shelf.sheet().used()), "");
}

TEST(Shelf, TheWorkedExampleHasEverythingAlready) {
    office::Document example = open_worked_example();
    const auto before = typed(NamedSheet(example, "Shelf"));
    for (int i = 1; i <= 7; ++i) {
        const std::string name = "Run " + std::to_string(i);
        EXPECT_TRUE(refused(call_at(example, name, "A1", "addToShelf"), "already")) << name;
        EXPECT_TRUE(refused(call_at(example, name, "A1", "takeFromShelf"), "already")) << name;
    }
    EXPECT_EQ(typed(NamedSheet(example, "Shelf")), before);
    EXPECT_TRUE(refused(call_at(example, "Little pot 1", "A1", "takeFromShelf"), "shelf"));
}

TEST(Shelf, WhereItCannotItSaysWhyAndLeavesEverything) {
    office::Document log = finished_run();
    NamedSheet sheet(log, run);
    const NamedSheet shelf(log, "Shelf");
    EXPECT_TRUE(refused(call_at(log, "Guide", "A1", "addToShelf"), "no run sheet"));
    EXPECT_TRUE(refused(call_at(log, "Shelf", "A1", "takeFromShelf"), "no run sheet"));
    sheet["run_date"].clear();
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "no date"));
    sheet["run_date"].set_number(46000);
    sheet.in_column("jar_reading", 4).set_text("much");
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "nothing to put on the shelf"));
    sheet.in_column("jar_reading", 4).set_number(80);
    const auto [first, last] = rows_of(shelf, "lot_name");
    shelf.at("B", last).set_text("the last lot");
    auto before = typed(shelf);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "0 blank rows left"));
    EXPECT_EQ(typed(shelf), before);
    shelf.at("B", last).clear();
    unprotect(shelf.sheet(), "");
    protect(shelf.sheet(), "mine");
    before = typed(shelf);
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "password"));
    EXPECT_EQ(typed(shelf), before);
    unprotect(shelf.sheet(), "mine");
    protect(shelf.sheet(), "");
    remove_sheet(log, "Shelf");
    EXPECT_TRUE(refused(call_at(log, run, "A1", "addToShelf"), "no sheet Shelf"));
}

} // namespace
} // namespace jarbook::e2e
