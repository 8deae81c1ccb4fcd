// Random books of the sheet Shelf (fill, charge, blend, add water, bottle, withdraw, weigh, undo)
// against the same book kept in another way: it balances, or the row that does not fit is named.
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <cstdlib>
#include <gtest/gtest.h>
#include <iostream>
#include <random>

#include "run_log/run_log_support.hpp"
#include "support/support.hpp"
#include "workbooks/plain_shelf.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using office::Blank;
using office::Document;
using office::Value;

constexpr int first_day = 45901; // 2025-09-01
constexpr double tolerance = 1;  // per cent, what the sheet has where its box is blank

class Chance {
public:
    explicit Chance(unsigned seed) : bits_(seed) {}
    int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(bits_); }
    bool one_in(int count) { return below(count) == 0; }
    // As a person types it: to a hundredth.
    double between(double low, double high) {
        return std::round(100 * std::uniform_real_distribution<double>(low, high)(bits_)) / 100;
    }
    template <class List>
    auto& of(List& list) {
        return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
    }

private:
    std::mt19937 bits_;
};

Value amount(double typed) {
    return typed < 0 ? Value(Blank{}) : Value(typed);
}

class Shelf {
public:
    explicit Shelf(const Document& document) : document_(document), sheet_(document, "Shelf") {}
    const NamedSheet& sheet() const { return sheet_; }

    void clear() const {
        for (const char* name : {"lots_block", "movements_block"})
            sheet_.sheet().range(sheet_.address(name)).clear();
    }
    void type(int row, const ShelfLot& lot, double litres, double strength) const {
        std::vector<Value> boxes{lot.name, std::string("spirit"), Blank{}, Blank{},
                                 static_cast<double>(lot.filled_on)};
        boxes.insert(boxes.end(), {lot.by_blending ? Value(Blank{}) : Value(litres), Blank{},
                                   lot.by_blending ? Value(Blank{}) : Value(strength), Blank{}});
        type("lots_block", row, boxes);
    }
    void type(int row, const Movement& moved) const {
        type("movements_block", row,
             {moved.lot, moved.what, moved.where.empty() ? Value(Blank{}) : Value(moved.where),
              Blank{}, static_cast<double>(moved.date),
              moved.all ? Value(std::string("all")) : amount(moved.litres), amount(moved.kilograms),
              amount(moved.strength)});
    }
    std::string look() const { return sheet_["shelf_look"].text(); }

private:
    void type(const char* block, int row, const std::vector<Value>& boxes) const {
        const std::string where = sheet_.address(block);
        const int line = std::stoi(where.substr(1)) + row;
        // Cell by cell, as one step of Undo. (What setDataArray writes on a protected sheet,
        // Calc 7.4 does not take back.)
        shared_office().call("typing a row", [&] {
            const uno::Reference<document::XUndoManagerSupplier> supplier(document_.uno(),
                                                                          uno::UNO_QUERY_THROW);
            const auto undo = supplier->getUndoManager();
            undo->enterUndoContext("a row");
            for (std::size_t i = 0; i < boxes.size(); ++i) {
                office::Cell cell = sheet_.at(std::string(1, static_cast<char>('B' + i)), line);
                if (const auto* number = std::get_if<double>(&boxes[i]))
                    cell.set_number(*number);
                else if (const auto* text = std::get_if<std::string>(&boxes[i]))
                    cell.set_text(*text);
            }
            undo->leaveUndoContext();
        });
    }
    const Document& document_;
    NamedSheet sheet_;
};

Movement random_movement(Chance& chance, const std::vector<ShelfLot>& lots, const PlainShelf& book,
                         int& day) {
    const std::vector<std::string> whats{"measured again", "water added", "charged",  "blended",
                                         "blended",        "bottled",     "withdrawn"};
    day += chance.below(9);
    Movement row;
    row.date = day;
    row.lot = chance.of(lots).name;
    row.what = chance.of(whats);
    if (row.what == "charged")
        row.where = "Run 1";
    if (row.what == "blended")
        row.where = chance.of(lots).name;
    const double there = book.now(row.lot).litres();
    const double strength = book.now(row.lot).strength();
    if (row.what == "measured again") {
        row.strength = std::round(10 * strength * chance.between(0.98, 1)) / 10;
        row.litres = std::round(100 * there * chance.between(0.97, 1.001)) / 100;
    } else if (row.what == "water added") {
        row.litres = chance.between(0, 3);
    } else {
        row.litres = std::round(100 * there * chance.between(0, 0.7)) / 100;
        if (chance.one_in(3))
            row.strength = std::round(10 * strength) / 10;
        if (chance.one_in(6) && there > 0) { // all but for the last digit
            row.litres = std::round(100 * there * chance.between(1, 1.008)) / 100;
            row.strength = -1;
        } else if (chance.one_in(6)) {
            row.litres = row.strength = -1;
            row.all = true;
        }
    }
    if (chance.one_in(5) && row.litres >= 0) {
        row.kilograms = row.litres;
        row.litres = -1;
    }
    // Slips
    if (chance.one_in(12))
        row.litres = there * 1.5 + 1;
    if (chance.one_in(25))
        row.lot = "Nobody's";
    if (chance.one_in(25))
        row.date = first_day - 1;
    if (chance.one_in(25))
        row.litres = row.kilograms = -1, row.all = false;
    return row;
}

// Balances, or names the row: what the sheet shows of a book that is `rows` long.
void expect_same(const Shelf& shelf, const std::vector<ShelfLot>& lots, const PlainShelf& book,
                 int wrong_row, const std::string& wrong) {
    const NamedSheet& sheet = shelf.sheet();
    ASSERT_EQ(errors(sheet.sheet().used()), "");
    if (wrong_row > 0) {
        EXPECT_NE(shelf.look().find("Book, row " + std::to_string(wrong_row) + ": "),
                  std::string::npos)
            << shelf.look();
        EXPECT_NE(shelf.look().find(wrong), std::string::npos) << shelf.look();
        EXPECT_EQ(sheet["shelf_closes"].text(), "") << "no figure while a row does not fit";
        EXPECT_EQ(sheet["season_stock"].text(), "");
        return;
    }
    EXPECT_NEAR(sheet["shelf_closes"].number(), 0, 1e-9);
    EXPECT_NEAR(sheet["season_closes"].number(), 0, 1e-9);
    EXPECT_NEAR(sheet["shelf_in"].number(), book.filled(), 1e-9);
    EXPECT_NEAR(sheet["shelf_stock"].number(), book.stock(), 1e-7);
    EXPECT_NEAR(sheet["shelf_loss"].number(), book.lost(), 1e-7);
    for (const char* what : {"charged", "bottled", "withdrawn"})
        EXPECT_NEAR(sheet[std::string("shelf_") + what].number(), book.out(what), 1e-7) << what;
    for (std::size_t i = 0; i < lots.size(); ++i) {
        const Contents& now = book.now(lots[i].name);
        EXPECT_NEAR(sheet.in_column("lot_alcohol_now", i).number(), now.alcohol, 1e-7);
        EXPECT_NEAR(sheet.in_column("lot_volume_now", i).number(), now.litres(), 1e-6);
        if (now.litres() > 0.01) {
            EXPECT_NEAR(sheet.in_column("lot_strength_now", i).number(), now.strength(), 1e-5);
        }
    }
}

TEST(ShelfBook, RandomBooksBalanceOrNameTheRow) {
    const Document log = open_blank_run_log();
    const Shelf shelf(log);
    int fitting = 0, named = 0, undone = 0;
    // A longer run by hand: JARBOOK_SHELF_BOOKS=50
    const char* wanted = std::getenv("JARBOOK_SHELF_BOOKS");
    const unsigned books = wanted ? static_cast<unsigned>(std::stoi(wanted)) : 3;
    for (unsigned seed = 1; seed <= books; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Chance chance(seed);
        shelf.clear();
        std::vector<ShelfLot> lots;
        for (int i = 0; i < 6; ++i) {
            ShelfLot lot{"Lot " + std::to_string(i), first_day + chance.below(3), {}, i == 5};
            const double litres = chance.between(0.5, 90), strength = chance.between(5, 96);
            if (!lot.by_blending)
                lot.filled = Contents::of(litres, strength);
            shelf.type(i, lot, litres, strength);
            lots.push_back(lot);
        }
        std::vector<Movement> rows{{"Lot 0", "blended", "Lot 5", first_day + 5, -1, -1, -1, true}};
        shelf.type(0, rows[0]);
        int day = first_day + 5;
        for (int step = 0; step < 30; ++step) {
            PlainShelf book(lots, tolerance);
            for (const Movement& row : rows)
                ASSERT_EQ(book.enter(row), "");
            if (step % 3 == 0)
                expect_same(shelf, lots, book, 0, "");
            int later = day;
            Movement row = random_movement(chance, lots, book, later);
            const std::string wrong = book.enter(row);
            const int place = static_cast<int>(rows.size());
            SCOPED_TRACE("row " + std::to_string(place + 1) + ": " + row.what + " " + row.lot);
            shelf.type(place, row);
            if (!wrong.empty() || chance.one_in(6)) {
                expect_same(shelf, lots, book, wrong.empty() ? 0 : place + 1, wrong);
                if (!wrong.empty() && chance.one_in(2)) { // a later row of the lot waits for it
                    const Movement more{row.lot, "withdrawn", "", row.date + 1, 0.01};
                    shelf.type(place + 1, more);
                    expect_same(shelf, lots, book, place + 1, wrong);
                    undo(log);
                }
                undo(log);
                ++(wrong.empty() ? undone : named);
                EXPECT_EQ(shelf.sheet().in_column("moved_lot", place).text(), "")
                    << undo_titles(log).size();
            } else {
                rows.push_back(row);
                day = later;
                ++fitting;
            }
            if (HasFailure())
                return;
        }
        PlainShelf book(lots, tolerance);
        for (const Movement& row : rows)
            book.enter(row);
        expect_same(shelf, lots, book, 0, "");
    }
    std::cout << fitting << " rows fitted, " << named << " were named, " << undone
              << " undone without being wrong\n";
    EXPECT_GT(named, 10);
    EXPECT_GT(fitting, 40);
    EXPECT_GT(undone, 10);
}

} // namespace
} // namespace jarbook::e2e
