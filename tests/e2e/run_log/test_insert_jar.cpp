// Insert a jar: room before, between and behind the jars of a run, and back with one Undo.
#include "run_log/run_log_support.hpp"

#include "text.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>
#include <com/sun/star/util/XMergeable.hpp>
#include <gtest/gtest.h>

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

const std::string run = "Run 1";

// Everything that a sheet computes and says, and how it is made.
struct State {
    office::Rows<std::string> formulas;
    office::Rows<std::variant<double, std::string>> contents;
    std::map<std::string, std::string> names;
    std::string page;
    std::vector<std::string> charts;
};

State state_of(const office::Document& document) {
    const office::Sheet sheet = document.sheet(run);
    auto names = local_names(sheet);
    names.erase("page_still"); // where a button leads: a jar, which moves down when one is inserted
    return {formulas(sheet.used()), contents(sheet.used()), names, page_of(sheet),
            drawn_ranges(shared_office(), sheet)};
}

void expect_same(const State& one, const State& other, const std::string& when) {
    EXPECT_EQ(one.formulas, other.formulas) << when;
    EXPECT_EQ(describe_differences(one.contents, other.contents), "") << when;
    EXPECT_EQ(one.names, other.names) << when;
    EXPECT_EQ(one.page, other.page) << when;
    EXPECT_EQ(one.charts, other.charts) << when;
}

TEST(InsertJar, BeforeBetweenAndBehindTheJars) {
    std::vector<double> amounts;
    for (int i = 0; i < 30; ++i)
        amounts.push_back(900 + i);
    office::Document log = open_blank_run_log();
    fill_charge(log, run);
    type_jars(log, run, amounts);
    const State before = state_of(log);
    const auto [first, last] = rows_of(NamedSheet(log, run), "jar_amount");
    const auto steps = undo_titles(log).size();
    // To compare with: as many jars, the same typed afresh.
    office::Document afresh = open_blank_run_log();
    fill_charge(afresh, run);
    ASSERT_TRUE(call_at(afresh, run, "B" + std::to_string(last + 9), "insertJar").done);

    for (const int place : {0, 1, 17, 29, 30}) {
        SCOPED_TRACE(place);
        const std::string cursor = "D" + std::to_string(first + place);
        const Said said = call_at(log, run, cursor, "insertJar");
        ASSERT_TRUE(said.done) << said.text;
        EXPECT_NE(said.text.find(std::to_string(first + place)), std::string::npos) << said.text;
        EXPECT_EQ(undo_titles(log).size(), steps + 1);
        EXPECT_TRUE(is_protected(log.sheet(run)));

        std::vector<double> with_room = amounts;
        with_room.insert(with_room.begin() + place, 0);
        type_jars(afresh, run, with_room);
        expect_same(state_of(log), state_of(afresh), "inserted");
        EXPECT_EQ(check_sheet(log, 1).size(), 0u) << "no box is harmed";

        undo(log);
        expect_same(state_of(log), before, "undone");
        EXPECT_TRUE(is_protected(log.sheet(run)));
        EXPECT_EQ(undo_titles(log).size(), steps);
    }
}

TEST(InsertJar, AsManyAsAreSelected) {
    office::Document log = open_blank_run_log();
    const auto [first, last] = rows_of(NamedSheet(log, run), "jar_amount");
    const Said three = call_at(
        log, run, "C" + std::to_string(first + 4) + ":D" + std::to_string(first + 6), "insertJar");
    EXPECT_TRUE(three.done);
    EXPECT_NE(three.text.find("3 jars"), std::string::npos) << three.text;
    EXPECT_EQ(rows_of(NamedSheet(log, run), "jar_amount"), std::pair(first, last + 3));
    // A whole column means all jars that are there, not a million.
    EXPECT_TRUE(call_at(log, run, "C1:C1048576", "insertJar").done);
    EXPECT_EQ(rows_of(NamedSheet(log, run), "jar_amount"), std::pair(first, last + 36));
    EXPECT_EQ(errors(log.sheet(run).used()), "");
}

TEST(InsertJar, SixtyJarsToTheLastChart) {
    office::Document log = open_blank_run_log();
    fill_charge(log, run);
    const auto [first, last] = rows_of(NamedSheet(log, run), "jar_amount");
    const std::string all = "C" + std::to_string(first) + ":C" + std::to_string(last);
    ASSERT_TRUE(call_at(log, run, all, "insertJar").done);
    std::vector<double> amounts;
    for (int i = 0; i < 60; ++i)
        amounts.push_back(900 + 0.8 * i);
    type_jars(log, run, amounts);
    NamedSheet sheet(log, run);
    sheet.at(column_of(sheet, "jar_keep"), last + 30).set_number(1);
    EXPECT_EQ(sheet["jars_complete"].number(), 60);
    EXPECT_EQ(errors(sheet.sheet().used()), "");
    // The last jar counts.
    const int end = rows_of(sheet, "jar_collected").second;
    EXPECT_EQ(end, first + 59);
    EXPECT_NEAR(sheet.at(column_of(sheet, "jar_collected"), end).number(), 55.4, 0.5);
    EXPECT_EQ(sheet.at("A", end).number(), 60);
    // Its cuts, its blend and its chart reach to the last jar.
    for (const std::string& range : drawn_ranges(shared_office(), sheet.sheet()))
        if (range.find("$" + std::to_string(first - 1) + ":") != std::string::npos) {
            EXPECT_NE(range.find("$" + std::to_string(end + 1)), std::string::npos) << range;
        }
    sheet["bottling_strength"].set_number(20);
    EXPECT_NEAR(sheet["kept_strength"].number(), 80 - 0.8 * 59, 1e-6) << "only the last is kept";
    EXPECT_NEAR(sheet["product_strength"].number(), 20, 1e-6);
}

TEST(InsertJar, PutsLostNamesBack) {
    office::Document log = open_blank_run_log();
    const auto names = local_names(log.sheet(run));
    remove_local_names(log.sheet(run));
    const Said said = call_at(log, run, "B60", "insertJar");
    ASSERT_TRUE(said.done) << said.text;
    const auto grown = local_names(log.sheet(run));
    EXPECT_EQ(grown.size(), names.size());
    EXPECT_EQ(grown.at("run_title"), names.at("run_title"));
    const auto [first, last] = rows_of(NamedSheet(log, run), "jar_amount");
    EXPECT_EQ(last - first, 30);
    // And with more jars than at first.
    remove_local_names(log.sheet(run));
    ASSERT_TRUE(call_at(log, run, "B60", "insertJar").done);
    EXPECT_EQ(rows_of(NamedSheet(log, run), "jar_amount"), std::pair(first, last + 1));
}

TEST(InsertJar, WhereItCannotItSaysWhyAndLeavesEverything) {
    office::Document log = open_blank_run_log();
    EXPECT_TRUE(refused(call_at(log, "Guide", "A1", "insertJar"), "no run sheet"));
    EXPECT_TRUE(refused(call_at(log, register_sheet(log), "A1", "insertJar"), "no run sheet"));

    unprotect(log.sheet(run), "");
    protect(log.sheet(run), "mine");
    auto before = state_of(log);
    EXPECT_TRUE(refused(call_at(log, run, "B60", "insertJar"), "password"));
    expect_same(state_of(log), before, "refused");

    unprotect(log.sheet(run), "mine");
    const auto [first, last] = rows_of(NamedSheet(log, run), "jar_notes");
    const std::string column = column_of(NamedSheet(log, run), "jar_notes");
    shared_office().call("filling with an array formula", [&] {
        log.sheet(run)
            .range(column + std::to_string(first + 2) + ":" + column + std::to_string(first + 6))
            .set_array_formula("=ROW(A1:A5)");
    });
    protect(log.sheet(run), "");
    before = state_of(log);
    EXPECT_TRUE(
        refused(call_at(log, run, "B" + std::to_string(first + 4), "insertJar"), "several jars"));
    expect_same(state_of(log), before, "refused");
    EXPECT_TRUE(is_protected(log.sheet(run)));

    shared_office().call("sharing", [&] {
        const uno::Reference<lang::XMultiServiceFactory> factory(log.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<beans::XPropertySet> settings(
            factory->createInstance("com.sun.star.document.Settings"), uno::UNO_QUERY_THROW);
        settings->setPropertyValue("IsDocumentShared", uno::Any(true));
    });
    EXPECT_TRUE(refused(call_at(log, run, "B60", "insertJar"), "shared"));
}

} // namespace
} // namespace jarbook::e2e
