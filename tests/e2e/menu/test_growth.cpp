// Sheets where much is wrong: nothing ends the process, the work grows with the cells, and a person
// can stop it. Times are printed, not judged; the limit of a call is what keeps the square away.
#include <chrono>
#include <com/sun/star/frame/XModel.hpp>
#include <filesystem>
#include <iostream>
#include <unistd.h>

#include "flat_file.hpp"
#include "menu/menu_dispatch.hpp"
#include "menu/menu_support.hpp"
#include "text.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using Rows = office::FlatFile::Rows;

class Growth : public testing::Test {
protected:
    void SetUp() override {
        file_ = std::filesystem::temp_directory_path() /
                ("jarbook-growth-" + std::to_string(getpid()) + ".fods");
    }
    void TearDown() override {
        document_.reset();
        std::filesystem::remove(file_);
    }
    office::Document& open(const Rows& rows) {
        office::FlatFile().add_sheet("Sheet1", rows).write(file_);
        document_.emplace(shared_office().open(file_));
        return *document_;
    }
    template <class Work>
    static void timed(const std::string& what, Work work) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
        std::cout << what << ": " << taken.count() << " s\n";
    }
    static Rows running_total(int rows) {
        Rows all{{"=ORG.JARBOOK.SPIRIT.STRENGTH(50;55)"}};
        for (int row = 2; row <= rows; ++row)
            all.push_back({"=[.A" + std::to_string(row - 1) + "]+[.B" + std::to_string(row) + "]"});
        return all;
    }
    static Rows refusals(int rows) {
        Rows all;
        for (int row = 1; row <= rows; ++row)
            all.push_back(
                {"=ORG.JARBOOK.SPIRIT.STRENGTH(50;[.B" + std::to_string(row) + "])", "60"});
        return all;
    }

private:
    std::filesystem::path file_;
    std::optional<office::Document> document_;
};

// Ended the process by recursion.
TEST_F(Growth, ARunningTotalAsLongAsASeason) {
    office::Document& document = open(running_total(20000));
    Findings findings;
    timed("why, 20000 cells below an error", [&] { findings = explain(document, "A20000"); });
    EXPECT_LE(findings.size(), 8u);
    EXPECT_TRUE(has_finding(findings, "A20000", "passed on", "It uses A19999"));
    EXPECT_TRUE(has_finding(findings, "A19997", "passed on", "from A4, through 19992 cells"));
    EXPECT_TRUE(has_finding(findings, "A2", "passed on", "It uses A1"));
    EXPECT_EQ(findings.back().cell, "A1");
    EXPECT_EQ(findings.back().argument, "temperature");
    timed("check, the same", [&] { findings = check_sheet(document); });
    ASSERT_EQ(findings.size(), 1u) << findings.back();
    EXPECT_TRUE(has_finding(findings, "A1", "error",
                            "Also shown by A2, A3, A4, A5, A6, A7 and 19993 more."));
}

TEST_F(Growth, SumsFromTheTop) {
    Rows rows{{"=ORG.JARBOOK.SPIRIT.STRENGTH(50;55)"}};
    for (int row = 2; row <= 5000; ++row)
        rows.push_back({"=SUM([.A$1:.A" + std::to_string(row - 1) + "])"});
    office::Document& document = open(rows);
    Findings findings;
    timed("check, 5000 sums from the top", [&] { findings = check_sheet(document); });
    ASSERT_EQ(findings.size(), 1u) << findings.back();
    EXPECT_EQ(findings[0].cell, "A1");
}

TEST_F(Growth, ALongCircleIsToldShortly) {
    Rows rows{{"=[.A1000]"}};
    for (int row = 2; row <= 1000; ++row)
        rows.push_back({"=[.A" + std::to_string(row - 1) + "]"});
    const Findings findings = explain(open(rows), "A500");
    ASSERT_EQ(findings.size(), 1u) << findings.back();
    EXPECT_TRUE(has_finding(findings, "A500", "error", "A500 uses A499"));
    EXPECT_TRUE(has_finding(findings, "A500", "error", "993 more"));
}

TEST_F(Growth, ManyRefusals) {
    for (const int rows : {1000, 10000}) {
        office::Document& document = open(refusals(rows));
        Findings findings;
        timed("check, " + std::to_string(rows) + " refusals",
              [&] { findings = check_sheet(document); });
        EXPECT_EQ(findings.size(), static_cast<std::size_t>(rows));
    }
}

TEST_F(Growth, ListsThatBeginAtTheSameCell) {
    Rows rows;
    for (int row = 1; row <= 1000; ++row) {
        const std::string at = std::to_string(row);
        rows.push_back(
            {"1", "40",
             "=ORG.JARBOOK.SPIRIT.PUREALCOHOL([.A$1:.A" + at + "];[.B$1:.B" + at + "])"});
    }
    office::Document& document = open(rows);
    timed("check, 1000 lists from the top", [&] { EXPECT_TRUE(check_sheet(document).empty()); });
}

TEST_F(Growth, ACommandStopsWhereItsDocumentIsToBeClosed) {
    office::Document& document = open(refusals(8000));
    bool vetoed = false;
    const Dispatched dispatched = dispatch(frame_of(document), "checkSheet", {}, [&] {
        try {
            close(document.uno());
        } catch (const uno::Exception&) {
            vetoed = true;
        }
    });
    EXPECT_TRUE(vetoed);
    EXPECT_FALSE(dispatched.done);
    rtl::OUString text;
    dispatched.result >>= text;
    EXPECT_NE(office::to_utf8(text).find("Stopped"), std::string::npos) << office::to_utf8(text);
    ASSERT_TRUE(shared_office().alive());
}

} // namespace
} // namespace jarbook::e2e
