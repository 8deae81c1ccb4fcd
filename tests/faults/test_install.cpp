// Installing, removing and upgrading while somebody works: nothing lost, nothing silently wrong.
#include <gtest/gtest.h>
#include <org/jarbook/XReasons.hpp>

#include "faults.hpp"

namespace jarbook::faults {
namespace {

using namespace office;
namespace fs = std::filesystem;
using com::sun::star::uno::Reference;

TEST(Installing, WorksAtOnceInARunningOffice) {
    // In a process of its own, until the next start: slower, but right, and with its reasons.
    Office office({.types = {JARBOOK_TYPES}});
    Document document = office.new_document();
    office.install(JARBOOK_OXT, Afterwards::go_on);
    expect_works(document);
    Document another = office.new_document();
    expect_works(another);
    fill_with_calls(another, 50);
    expect_results(another, 50);

    Cell wrong = document.sheet().cell("B1");
    wrong.set_formula("=SPIRIT.STRENGTH(50;99)");
    EXPECT_EQ(wrong.error(), 502);
    const auto service = office.service("org.jarbook.Reasons");
    const auto latest = office.call("reading the reasons", [&] {
        return Reference<org::jarbook::XReasons>(service, com::sun::star::uno::UNO_QUERY_THROW)
            ->latest();
    });
    ASSERT_EQ(latest.getLength(), 1);
    EXPECT_EQ(latest[0].code, 502);
}

TEST(Installing, AFormulaTriedBeforeWaitsForTheNextStart) {
    // Calc looks for add-ins once, at the first name that it does not know.
    const Folder folder;
    Office office;
    {
        Document document = office.new_document();
        Cell early = document.sheet().cell("A1");
        early.set_formula("=SPIRIT.STRENGTH(50;10)");
        EXPECT_EQ(early.error(), 525);
        office.install(JARBOOK_OXT, Afterwards::go_on);
        document.hard_recalculate();
        EXPECT_EQ(early.error(), 525);
        document.save(folder / "before.ods");
    }
    office.restart();
    Document document = office.open(folder / "before.ods");
    expect_works(document);
    // Calc has stored what was typed as no function's name: it says so until it is entered again.
    Cell early = document.sheet().cell("A1");
    EXPECT_EQ(early.error(), 525);
    early.set_formula_local(early.formula_local());
    EXPECT_NEAR(early.number(), 53.67, 0.005);
}

TEST(Installing, RemovedAndInstalledAgainAroundAWorkbook) {
    const Folder folder;
    Office office;
    office.install(JARBOOK_OXT);
    {
        Document document = office.new_document();
        fill_with_calls(document, 100);
        expect_results(document, 100);
        document.save(folder / "run.ods");
        // Removed under an open workbook: the office keeps what it has loaded until its end.
        office.remove(identifier, Afterwards::go_on);
        EXPECT_TRUE(office.alive());
        document.hard_recalculate();
        expect_results_or_errors(document, 100);
        document.save(folder / "removed.ods");
    }
    office.restart();
    {
        // Closed, and opened without the extension: errors, never old numbers.
        Document document = office.open(folder / "run.ods");
        expect_errors(document, 100);
        document.save(folder / "without.ods");
        // Installed again under the open workbook.
        office.install(JARBOOK_OXT, Afterwards::go_on);
        EXPECT_TRUE(office.alive());
        document.hard_recalculate();
        expect_results_or_errors(document, 100);
    }
    office.restart();
    for (const char* file : {"run.ods", "removed.ods", "without.ods"}) {
        SCOPED_TRACE(file);
        Document document = office.open(folder / file);
        expect_results(document, 100);
    }
}

TEST(Installing, UpgradedOverAnOlderVersion) {
    const Folder folder;
    const fs::path older = JARBOOK_OLDER_OXT; // the same but for its number
    Office office;
    office.install(older);
    EXPECT_EQ(office.extension_version(identifier), "0.0.1");
    {
        Document document = office.new_document();
        fill_with_calls(document, 20);
        document.save(folder / "older.ods");
    }
    office.install(JARBOOK_OXT);
    EXPECT_EQ(office.extension_version(identifier), JARBOOK_VERSION);
    Document document = office.open(folder / "older.ods");
    expect_results(document, 20);
    document.close();

    // And while an office runs, with the workbook open.
    office.install(older);
    Document open = office.open(folder / "older.ods");
    office.install(JARBOOK_OXT, Afterwards::go_on);
    open.hard_recalculate();
    expect_results_or_errors(open, 20);
    open.close();
    office.restart();
    EXPECT_EQ(office.extension_version(identifier), JARBOOK_VERSION);
    Document again = office.open(folder / "older.ods");
    expect_results(again, 20);
}

TEST(Installing, TwiceAndUnderAnotherFileName) {
    const Folder folder;
    Office office;
    office.install(JARBOOK_OXT);
    office.install(JARBOOK_OXT);
    Document document = office.new_document();
    expect_works(document);
    document.close();

    // As a browser names the second download, and as somebody of another language might.
    for (const char* name : {"jarbook (1).oxt", "Brännbuch 2.oxt", "JARBOOK.OXT"}) {
        SCOPED_TRACE(name);
        fs::copy_file(JARBOOK_OXT, folder / name);
        office.install(folder / name);
        EXPECT_EQ(office.extension_version(identifier), JARBOOK_VERSION);
        Document another = office.new_document();
        expect_works(another);
    }
    // One removal removes it: it is there once only.
    office.remove(identifier);
    EXPECT_EQ(office.extension_version(identifier), std::nullopt);
    Document without = office.new_document();
    without.sheet().cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    EXPECT_EQ(without.sheet().cell("A1").error(), 525);
}

} // namespace
} // namespace jarbook::faults
