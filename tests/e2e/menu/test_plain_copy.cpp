// Save a copy with plain values: opened where the extension is not, every number is there.
#include <cmath>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/CellFlags.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/sheet/XCellRangesQuery.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <filesystem>
#include <memory>
#include <regex>
#include <set>
#include <unistd.h>

#include "menu/menu_support.hpp"
#include "text.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
namespace fs = std::filesystem;

// An office that has never heard of the extension.
std::unique_ptr<office::Office> bare;
office::Office& bare_office() {
    if (!bare)
        bare = std::make_unique<office::Office>(office::Options{.locale = test_locale()});
    return *bare;
}

// The ranges that the charts of a sheet draw; formats differ in their order.
std::set<std::string> drawn(office::Office& office, office::Document& document, std::size_t sheet) {
    const auto ranges = drawn_ranges(office, document.sheet(static_cast<int>(sheet)));
    return {ranges.begin(), ranges.end()};
}

struct Format {
    const char* filter;
    const char* ending;
};
constexpr Format formats[] = {{"calc8", "ods"}, {"Calc MS Excel 2007 XML", "xlsx"}};

class PlainCopy : public MenuTest {
protected:
    static void TearDownTestSuite() { bare.reset(); }
    void SetUp() override {
        MenuTest::SetUp();
        folder_ = fs::temp_directory_path() / ("jarbook-plain-" + std::to_string(getpid()));
        fs::create_directories(folder_);
    }
    void TearDown() override {
        MenuTest::TearDown();
        fs::remove_all(folder_);
    }

    org::jarbook::PlainCopy copy(office::Document& from, const Format& format) {
        org::jarbook::PlainCopy result;
        shared_office().call_in_main_thread("copying with plain values", [&] {
            result = inspector()->plainCopy(from.uno(), office::to_url(file(format)),
                                            office::to_uno(format.filter));
        });
        return result;
    }
    fs::path file(const Format& format) const {
        return folder_ / (std::string("copy.") + format.ending);
    }
    const fs::path& folder() const { return folder_; }

private:
    fs::path folder_;
};

// Files keep 15 digits of a number, so a difference of millilitres in the ten thousands keeps
// 1e-10.
bool is_same(double one, double two) {
    return std::fabs(one - two) <= 1e-10 + 1e-13 * std::fabs(one);
}

bool is_same(const office::Value& one, const office::Value& two) {
    const double* a = std::get_if<double>(&one);
    const double* b = std::get_if<double>(&two);
    return a && b ? is_same(*a, *b) : one == two;
}

// "A1:T93"
std::string extent(const office::Range& range) {
    std::string letters;
    for (int left = range.columns(); left > 0; left = (left - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (left - 1) % 26));
    return "A1:" + letters + std::to_string(range.rows());
}

// The whole document at a glance: an error is a NaN, a blank an empty text.
void expect_same_values(office::Document& original, office::Document& copy,
                        const std::string& when) {
    ASSERT_EQ(copy.sheet_names(), original.sheet_names());
    for (std::size_t s = 0; s < original.sheet_names().size(); ++s) {
        const office::Range used = original.sheet(static_cast<int>(s)).used();
        const office::Range same = copy.sheet(static_cast<int>(s)).range(extent(used));
        auto values = contents(used);
        const auto copied = contents(same);
        // The one cell that says what the workbook is.
        if (local_names(original.sheet(static_cast<int>(s))).contains("extension_check")) {
            const NamedSheet guide(original, original.sheet_names()[s]);
            const auto row = static_cast<std::size_t>(guide.row("extension_check")) - 1;
            values[row][0] = copied[row][0];
        }
        EXPECT_EQ(errors(same), errors(used)) << when;
        int differing = 0;
        for (std::size_t r = 0; r < values.size(); ++r)
            for (std::size_t c = 0; c < values[r].size(); ++c) {
                const double* a = std::get_if<double>(&values[r][c]);
                const double* b = std::get_if<double>(&copied[r][c]);
                const bool equal = a && b ? is_same(*a, *b) || (std::isnan(*a) && std::isnan(*b))
                                          : values[r][c] == copied[r][c];
                if (!equal && ++differing <= 5)
                    ADD_FAILURE() << when << ": row " << r + 1 << ", column " << c + 1 << " of "
                                  << original.sheet_names()[s] << " was "
                                  << testing::PrintToString(values[r][c]) << " and is "
                                  << testing::PrintToString(copied[r][c]);
            }
        EXPECT_EQ(differing, 0) << when << ": " << original.sheet_names()[s];
    }
}

// No formula of the copy calls a function of ours. (A text may well show one.)
void expect_nothing_of_ours(office::Document& copy) {
    for (std::size_t s = 0; s < copy.sheet_names().size(); ++s) {
        const office::Sheet sheet = copy.sheet(static_cast<int>(s));
        bare_office().call("reading formulas", [&] {
            const uno::Reference<sheet::XCellRangesQuery> query(sheet.uno(), uno::UNO_QUERY_THROW);
            const auto cells = query->queryContentCells(sheet::CellFlags::FORMULA);
            const uno::Reference<container::XEnumerationAccess> ranges(cells, uno::UNO_QUERY_THROW);
            const auto each = ranges->createEnumeration();
            while (each->hasMoreElements()) {
                const uno::Reference<sheet::XCellRangeFormula> range(each->nextElement(),
                                                                     uno::UNO_QUERY_THROW);
                for (const auto& row : range->getFormulaArray())
                    for (const rtl::OUString& formula : row) {
                        static const std::regex texts("\"[^\"]*\"");
                        const std::string all = office::to_utf8(formula.toAsciiUpperCase());
                        EXPECT_EQ(std::regex_replace(all, texts, "").find("SPIRIT."),
                                  std::string::npos)
                            << all;
                    }
            }
        });
    }
}

TEST_F(PlainCopy, EveryKindOfCell) {
    sheet().range("A1:B4").set_values({{50.0, 10.0}, {60.0, 55.0}, {70.0, 20.0}, {"x", 20.0}});
    define("MYSTRENGTH", "SPIRIT.STRENGTH($Sheet1.$A$1;$Sheet1.$B$1)");
    define("TWICE", "MYSTRENGTH*2");
    define("OTHER", "$Sheet1.$A$1*2");
    cell("C1").set_formula("=SPIRIT.STRENGTH(A1;B1)");                                 // a number
    cell("C2").set_formula("=SPIRIT.STRENGTH(A2;B2)");                                 // Err:502
    cell("C3").set_formula("=SPIRIT.WATERTOADD(1;40;60)");                             // #NUM!
    cell("C4").set_formula("=SPIRIT.STRENGTH(A4;B4)");                                 // #VALUE!
    cell("C5").set_formula("=SPIRIT.CUTTOTAL(1;60;\"heads\";\"tails\";\"strength\")"); // #N/A
    cell("C6").set_formula("=SPIRIT.CHARGECHECK(10;60;100)"); // text of several lines
    cell("C7").set_formula("=SPIRIT.CHARGECHECK(50;30;100)"); // an empty text
    cell("C8").set_formula("=\"Jarbook \"&SPIRIT.VERSION()");
    cell("C9").set_formula("=SPIRIT.STRENGTH(A1;B1)>50");
    cell("D1").set_formula("=TWICE+1");
    cell("D2").set_formula("=OTHER+1");
    cell("D3").set_formula("=C1*2");
    cell("D4").set_formula("=IF(C7=\"\";1;2)");
    cell("D5").set_formula("=C2");
    cell("D6").set_formula("=1/0");
    cell("D7").set_formula("=ISBLANK(C7)");
    cell("D8").set_formula("=FORMULA(C1)");
    cell("D9").set_formula("=FORMULA(D3)");
    sheet().range("E1:E3").set_array_formula("=SPIRIT.STRENGTH(A1:A3;B3)");
    sheet().range("F1:F3").set_array_formula("=SPIRIT.BLENDPAIR(50;30;40;1)");
    sheet().range("G1:G3").set_array_formula("=A1:A3*2");
    ASSERT_EQ(cell("C2").error(), 502);
    ASSERT_EQ(cell("C3").error(), 503);
    ASSERT_EQ(cell("C4").error(), 519);
    ASSERT_EQ(cell("C5").error(), 32767);
    ASSERT_EQ(cell("F3").error(), 32767);
    const std::string before = everything_about(document());

    for (const Format& format : formats) {
        const auto report = copy(document(), format);
        EXPECT_EQ(report.cells, 18) << format.ending;
        EXPECT_EQ(report.arrays, 2);
        ASSERT_EQ(report.names.getLength(), 2);
        EXPECT_FALSE(report.passwordDropped);
        EXPECT_TRUE(report.remarks.isEmpty());
        EXPECT_EQ(everything_about(document()), before);

        office::Document plain = bare_office().open(file(format));
        for (const char* when : {"as opened", "computed again"}) {
            const std::string told = std::string(format.ending) + ", " + when;
            const auto at = [&](const char* address) { return plain.sheet().cell(address); };
            for (const char* same : {"C1", "C6", "C7", "C8", "D1", "D2", "D3", "D4", "D8", "D9",
                                     "E1", "E2", "E3", "F1", "F2", "G1", "G3"})
                EXPECT_TRUE(is_same(cell(same).value(), at(same).value()))
                    << told << ": " << same << " is " << office::describe(at(same).value());
            // The lines of the text.
            EXPECT_EQ(at("C6").text(), cell("C6").text()) << told;
            // This Calc reads a truth value of .xlsx as one but shows it as a number.
            EXPECT_EQ(at("C9").number(), 1) << told;
            if (format.filter == std::string("calc8")) {
                EXPECT_EQ(at("C9").text(), cell("C9").text()) << told;
            }
            EXPECT_EQ(at("C2").error(), format.filter == std::string("calc8") ? 502 : 519) << told;
            EXPECT_NE(at("D5").error(), 0) << told;
            EXPECT_EQ(at("C3").error(), 503) << told;
            EXPECT_EQ(at("C4").error(), 519) << told;
            EXPECT_EQ(at("C5").error(), 32767) << told;
            EXPECT_EQ(at("F3").error(), 32767) << told;
            EXPECT_EQ(at("D6").error(), 532) << told;
            EXPECT_EQ(at("D7").number(), 0) << told << ": an empty text is not blank";
            // What needs no extension still computes.
            for (const char* formula : {"D2", "D3", "D4", "D6", "G1"})
                EXPECT_NE(at(formula).formula().find('='), std::string::npos) << told << formula;
            EXPECT_TRUE(plain.has_named_range("OTHER") || !plain.has_named_range("TWICE"));
            expect_nothing_of_ours(plain);
            plain.hard_recalculate();
        }
    }
}

TEST_F(PlainCopy, TheWorkedExample) {
    office::Document season = open_worked_example();
    season.hard_recalculate();
    const std::string before = everything_about(season);
    for (const Format& format : formats) {
        copy(season, format);
        EXPECT_EQ(everything_about(season), before);
        office::Document plain = bare_office().open(file(format));
        expect_nothing_of_ours(plain);
        expect_same_values(season, plain, std::string(format.ending) + ", as opened");
        plain.hard_recalculate();
        expect_same_values(season, plain, std::string(format.ending) + ", computed again");
        int charts = 0;
        for (std::size_t s = 0; s < season.sheet_names().size(); ++s) {
            const auto original = drawn(shared_office(), season, s);
            charts += !original.empty();
            EXPECT_EQ(drawn(bare_office(), plain, s), original)
                << format.ending << ", charts of " << season.sheet_names()[s];
        }
        EXPECT_GE(charts, 7) << "a chart on each run sheet and in Runs";
    }
}

// Guide says truly whether the figures are computed: where the extension is, where it is not (also
// from values that a file has stored), and in a copy with plain values.
TEST_F(PlainCopy, GuideSaysWhatTheWorkbookIs) {
    office::Document log = open_blank_run_log();
    const auto says = [](const office::Document& document) {
        return NamedSheet(document, "Guide")["extension_check"].text();
    };
    const std::string here = says(log);
    EXPECT_TRUE(here.starts_with("Yes. Jarbook " JARBOOK_VERSION " is installed")) << here;
    for (const Format& format : formats) {
        copy(log, format);
        for (office::Office* office : {&shared_office(), &bare_office()}) {
            const office::Document plain = office->open(file(format));
            EXPECT_TRUE(says(plain).starts_with("This is a copy with plain values")) << says(plain);
        }
        const fs::path stored = folder() / (std::string("stored.") + format.ending);
        log.save(stored);
        EXPECT_EQ(says(shared_office().open(stored)), here) << format.ending;
        office::Document without = bare_office().open(stored);
        EXPECT_TRUE(says(without).starts_with("No. Jarbook is not installed")) << says(without);
        without.hard_recalculate();
        EXPECT_TRUE(says(without).starts_with("No. Jarbook is not installed")) << says(without);
    }
}

// What README says of a workbook of ours in an office without the extension.
TEST_F(PlainCopy, WithoutTheExtensionNothingIsLost) {
    constexpr int unknown_name = 525; // #NAME?
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    const double strength = cell("A1").number();
    for (const Format& format : formats) {
        const fs::path stored = folder() / (std::string("ours.") + format.ending);
        document().save(stored);
        {
            office::Document without = bare_office().open(stored);
            const office::Cell there = without.sheet(0).cell("A1");
            if (format.filter == std::string("calc8"))
                EXPECT_EQ(there.error(), unknown_name);
            else
                EXPECT_TRUE(is_same(there.number(), strength)) << "the last value";
            without.hard_recalculate();
            EXPECT_EQ(there.error(), unknown_name);
            without.save(stored);
        }
        office::Document again = shared_office().open(stored);
        again.hard_recalculate();
        EXPECT_EQ(again.sheet(0).cell("A1").number(), strength) << format.ending;
    }
}

TEST_F(PlainCopy, AProtectedSheetStaysSo) {
    sheet().range("A1:B3").set_values({{50.0, 10.0}, {60.0, 15.0}, {70.0, 20.0}});
    cell("C1").set_formula("=SPIRIT.STRENGTH(A1;B1)");
    cell("C2").set_formula("=\"Jarbook \"&SPIRIT.VERSION()");
    cell("C3").set_formula("=SPIRIT.CHARGECHECK(50;30;100)"); // an empty text
    cell("C4").set_formula("=SPIRIT.STRENGTH(A1;99)");
    sheet().range("D1:D3").set_array_formula("=SPIRIT.STRENGTH(A1:A3;B1:B3)");
    const auto protectable = [](office::Document& of) {
        return uno::Reference<util::XProtectable>(of.sheet().uno(), uno::UNO_QUERY_THROW);
    };
    for (const char* password : {"", "angels' share"}) {
        shared_office().call("protecting",
                             [&] { protectable(document())->protect(office::to_uno(password)); });
        for (const Format& format : formats) {
            copy(document(), format);
            office::Document plain = bare_office().open(file(format));
            plain.hard_recalculate();
            expect_nothing_of_ours(plain);
            for (const char* same : {"C1", "C2", "C3", "D1", "D2", "D3"})
                EXPECT_TRUE(is_same(cell(same).value(), plain.sheet().cell(same).value()))
                    << format.ending << ": " << same;
            EXPECT_NE(plain.sheet().cell("C4").error(), 0);
            bare_office().call("asking for protection", [&] {
                EXPECT_TRUE(protectable(plain)->isProtected()) << format.ending;
            });
        }
        shared_office().call("taking the protection away", [&] {
            protectable(document())->unprotect(office::to_uno(password));
            ASSERT_FALSE(protectable(document())->isProtected());
        });
    }
}

TEST_F(PlainCopy, AnXlsxThatWasNotComputedAgainKeepsWhatItShows) {
    cell("A1").set_number(50);
    cell("B1").set_formula("=SPIRIT.STRENGTH(A1;10)");
    set_automatic_calculation(document(), false);
    const double shown = cell("B1").number();
    cell("A1").set_number(60);
    ASSERT_EQ(cell("B1").number(), shown) << "nothing to test";
    copy(document(), formats[0]);
    office::Document plain = bare_office().open(file(formats[0]));
    EXPECT_TRUE(is_same(plain.sheet().cell("B1").number(), shown));
}

TEST_F(PlainCopy, MultipleOperationsOverOurFunctions) {
    sheet().range("A1:A3").set_values({{50.0}, {60.0}, {70.0}});
    cell("B1").set_formula("=SPIRIT.STRENGTH(A1;10)");
    cell("B2").set_formula("=B1*2");
    cell("C2").set_formula("=MULTIPLE.OPERATIONS(B2;A1;A2)");
    cell("D1").set_formula("=A1*2");
    cell("D2").set_formula("=MULTIPLE.OPERATIONS(D1;A1;A2)");
    if (cell("C2").error() != 0) { // the API has its own English for it
        cell("C2").set_formula("=TABLE(B2;A1;A2)");
        cell("D2").set_formula("=TABLE(D1;A1;A2)");
    }
    const double expected = cell("C2").number();
    ASSERT_NE(expected, cell("B2").number()) << "nothing to test";
    copy(document(), formats[0]);
    office::Document plain = bare_office().open(file(formats[0]));
    plain.hard_recalculate();
    EXPECT_TRUE(is_same(plain.sheet().cell("C2").number(), expected));
    EXPECT_EQ(plain.sheet().cell("D2").number(), cell("D2").number());
    EXPECT_NE(plain.sheet().cell("D2").formula(), plain.sheet().cell("D2").text())
        << "it did not need the extension";
}

TEST_F(PlainCopy, APasswordIsNotCarriedOverAndThatIsSaid) {
    const fs::path secret = folder() / "secret.ods";
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    const double strength = cell("A1").number();
    const auto property = [](const char* name, const uno::Any& value) {
        beans::PropertyValue result;
        result.Name = rtl::OUString::createFromAscii(name);
        result.Value = value;
        return result;
    };
    const auto locked = shared_office().call("storing and opening with a password", [&] {
        uno::Sequence<beans::PropertyValue> store(2);
        store.getArray()[0] = property("FilterName", uno::Any(rtl::OUString("calc8")));
        store.getArray()[1] = property("Password", uno::Any(rtl::OUString("angels' share")));
        const uno::Reference<frame::XStorable> storable(document().uno(), uno::UNO_QUERY_THROW);
        storable->storeToURL(office::to_url(secret), store);
        uno::Sequence<beans::PropertyValue> open(2);
        open.getArray()[0] = property("Hidden", uno::Any(true));
        open.getArray()[1] = property("Password", uno::Any(rtl::OUString("angels' share")));
        const uno::Reference<frame::XComponentLoader> desktop(
            shared_office().service("com.sun.star.frame.Desktop"), uno::UNO_QUERY_THROW);
        return uno::Reference<sheet::XSpreadsheetDocument>(
            desktop->loadComponentFromURL(office::to_url(secret), "_blank", 0, open),
            uno::UNO_QUERY_THROW);
    });
    const auto report = shared_office().call("copying", [&] {
        const auto result = inspector()->plainCopy(locked, office::to_url(file(formats[0])),
                                                   office::to_uno(formats[0].filter));
        close(locked);
        return result;
    });
    EXPECT_TRUE(report.passwordDropped);
    office::Document plain = bare_office().open(file(formats[0]));
    EXPECT_TRUE(is_same(plain.sheet().cell("A1").number(), strength));
}

TEST_F(PlainCopy, NeverOverTheDocumentItself) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    document().save(folder() / "own.ods");
    office::Document own = shared_office().open(folder() / "own.ods");
    const auto copy_to = [&](const fs::path& path, const char* filter) {
        shared_office().call("copying", [&] {
            inspector()->plainCopy(own.uno(), office::to_url(path), office::to_uno(filter));
        });
    };
    EXPECT_THROW(copy_to(folder() / "own.ods", "calc8"), office::OfficeError);
    EXPECT_THROW(copy_to(folder() / "other.pdf", "calc_pdf_Export"), office::OfficeError);
    EXPECT_FALSE(fs::exists(folder() / "other.pdf"));
    EXPECT_THROW(copy_to("/proc/copy.ods", "calc8"), office::OfficeError);
    EXPECT_EQ(own.sheet().cell("A1").formula(), cell("A1").formula());
}

TEST_F(PlainCopy, ConditionalFormatsThatNeedTheExtensionAreNamed) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    add_condition(document(), "A1", "SPIRIT.STRENGTH(50;10)>50");
    const auto report = copy(document(), formats[0]);
    EXPECT_NE(office::to_utf8(report.remarks).find("Conditional formats"), std::string::npos)
        << office::to_utf8(report.remarks);
    EXPECT_NE(office::to_utf8(report.remarks).find("Sheet1"), std::string::npos);
}

} // namespace
} // namespace jarbook::e2e
