// Workbooks that a bad disk, a broken transfer or a curious hand has damaged: refused, or opened
// with what is left, and the office goes on.
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <random>

#include "faults.hpp"

namespace jarbook::faults {
namespace {

using namespace office;
namespace fs = std::filesystem;

constexpr int rows = 200;

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream(file, std::ios::binary) << bytes;
}

class Damage : public testing::TestWithParam<const char*> {
protected:
    static void SetUpTestSuite() {
        office_ = std::make_unique<Office>();
        office_->install(JARBOOK_OXT);
    }
    static void TearDownTestSuite() { office_.reset(); }

    void SetUp() override {
        Document document = office_->new_document();
        fill_with_calls(document, rows);
        whole_ = folder_ / (std::string("whole") + GetParam());
        document.save(whole_);
        bytes_ = bytes_of(whole_);
        ASSERT_GT(bytes_.size(), 1000u);
    }

    // Opens what is left, if it opens.
    void try_to_open(const std::string& bytes, const std::string& what) {
        SCOPED_TRACE(what);
        const fs::path file = folder_ / (std::string("damaged") + GetParam());
        write(file, bytes);
        bool opened = false;
        try {
            Document document = office_->open(file);
            opened = true;
            document.hard_recalculate();
            // Whatever is there can be read and stored.
            document.sheet().used().values();
            document.save(folder_ / "again.ods");
        } catch (const OfficeError& refused) {
            // Said, and without harm; what has opened must not fall over afterwards.
            EXPECT_FALSE(opened) << refused.what();
        }
        ASSERT_TRUE(office_->alive()) << office_->log();
        ++(opened ? opened_ : refused_);
        // The file itself is as it was.
        EXPECT_EQ(bytes_of(file), bytes);
    }

    void TearDown() override {
        std::printf("%s: %d damaged files opened, %d refused\n", GetParam(), opened_, refused_);
        Document document = office_->open(whole_);
        expect_results(document, rows);
    }

    static std::unique_ptr<Office> office_;
    const Folder folder_;
    fs::path whole_;
    std::string bytes_;
    int opened_ = 0;
    int refused_ = 0;
};

std::unique_ptr<Office> Damage::office_;

TEST_P(Damage, CutShort) {
    for (const double part : {0.0, 0.001, 0.1, 0.5, 0.9, 0.99, 0.9999})
        try_to_open(bytes_.substr(0, static_cast<std::size_t>(part * bytes_.size())),
                    "cut at " + std::to_string(part));
}

TEST_P(Damage, BytesChanged) {
    std::mt19937 random(20250601); // the same on every machine
    for (int trial = 0; trial < 12; ++trial) {
        std::string bytes = bytes_;
        for (int count = trial < 6 ? 1 : 50; count > 0; --count)
            bytes[random() % bytes.size()] = static_cast<char>(random());
        try_to_open(bytes, "trial " + std::to_string(trial));
    }
}

TEST_P(Damage, ABlockOfZeros) {
    for (const double from : {0.1, 0.4, 0.8}) {
        std::string bytes = bytes_;
        const auto at = static_cast<std::size_t>(from * bytes.size());
        std::fill_n(bytes.begin() + at, std::min<std::size_t>(4096, bytes.size() - at), '\0');
        try_to_open(bytes, "zeros from " + std::to_string(from));
    }
}

TEST_P(Damage, AnotherFileBehindIt) {
    try_to_open(bytes_ + bytes_, "twice");
    try_to_open(bytes_ + std::string(10000, 'x'), "with a tail");
    try_to_open("not a workbook", "a text");
}

INSTANTIATE_TEST_SUITE_P(Formats, Damage, testing::Values(".ods", ".fods", ".xlsx"),
                         [](const auto& format) { return std::string(format.param).substr(1); });

// Formulas that somebody has changed by hand, in a flat file. (A bracket missing at the end Calc
// sets itself.)
TEST(DamagedByHand, FormulasThatAreNone) {
    const Folder folder;
    Office office;
    office.install(JARBOOK_OXT);
    const fs::path file = folder / "hand.fods";
    {
        Document document = office.new_document();
        document.sheet().cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
        document.save(file);
    }
    const std::string whole = bytes_of(file);
    const std::string call = "ORG.JARBOOK.SPIRIT.STRENGTH(50;10)";
    const auto at = whole.find(call);
    ASSERT_NE(at, std::string::npos);
    for (const char* instead :
         {"ORG.JARBOOK.SPIRIT.STRENGTH()", "ORG.JARBOOK.SPIRIT.STRENGTH(50)",
          "ORG.JARBOOK.SPIRIT.STRENGTH(50;10;20;2.5E-5;1)", "ORG.JARBOOK.SPIRIT.NOSUCH(50;10)",
          "ORG.JARBOOK.SPIRIT.STRENGTH(50;10)(20)", "ORG.JARBOOK.SPIRIT(50;10)",
          "ORG.JARBOOK.SPIRIT.STRENGTH", "SPIRIT.STRENGTH(50;10;", "ORG.JARBOOK.SPIRIT.STRENGTH(;)",
          "ORG.JARBOOK.SPIRIT.STRENGTH({50;60};[.A1])"}) {
        SCOPED_TRACE(instead);
        std::string bytes = whole;
        bytes.replace(at, call.size(), instead);
        write(file, bytes);
        Document document = office.open(file);
        document.hard_recalculate();
        EXPECT_NE(document.sheet().cell("A1").error(), 0)
            << describe(document.sheet().cell("A1").value());
    }
    Document document = office.new_document();
    expect_works(document);
}

} // namespace
} // namespace jarbook::faults
