// A disk that is full when a copy with plain values is stored: said, and nothing lost.
#include <cstdint>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <org/jarbook/XInspector.hpp>
#include <sched.h>
#include <set>
#include <sys/mount.h>

#include "faults.hpp"
#include "text.hpp"

namespace jarbook::faults {
namespace {

using namespace office;
namespace fs = std::filesystem;
namespace uno = com::sun::star::uno;

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

// A disk of 300 kB, seen by this process and the offices that it starts.
class SmallDisk {
public:
    explicit SmallDisk(const fs::path& folder) : folder_(folder) {
        mounted_ = unshare(CLONE_NEWNS) == 0 &&
                   mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
                   mount("tmpfs", folder.c_str(), "tmpfs", 0, "size=300k") == 0;
    }
    ~SmallDisk() {
        if (mounted_)
            umount2(folder_.c_str(), MNT_DETACH);
    }
    bool mounted() const { return mounted_; }
    void fill(std::uintmax_t left) const {
        std::ofstream out(folder_ / "filler", std::ios::binary);
        while (fs::space(folder_).available > left && out << std::string(4096, 'x') << std::flush) {
        }
        ASSERT_LE(fs::space(folder_).available, left);
    }
    void empty() const { fs::remove(folder_ / "filler"); }

private:
    fs::path folder_;
    bool mounted_ = false;
};

std::set<std::string> files_in(const fs::path& folder) {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder))
        names.insert(entry.path().filename());
    return names;
}

class FullDisk : public testing::TestWithParam<const char*> {};

TEST_P(FullDisk, IsSaidAndNothingIsLost) {
    const Folder folder;
    const SmallDisk disk(folder.path());
    if (!disk.mounted())
        GTEST_SKIP() << "a small disk can be mounted by root only: NOT TESTED";
    Office office({.types = {JARBOOK_TYPES}});
    office.install(JARBOOK_OXT);
    Document document = office.new_document();
    fill_with_calls(document, 1000);
    const auto copy = [&](const std::string& name) {
        office.call_in_main_thread("copying with plain values", [&] {
            const uno::Reference<org::jarbook::XInspector> inspector(
                office.service("org.jarbook.Inspector"), uno::UNO_QUERY_THROW);
            inspector->plainCopy(
                document.uno(), to_url(folder / name),
                to_uno(std::string(GetParam()) == ".ods" ? "calc8" : "Calc MS Excel 2007 XML"));
        });
    };
    const std::string before = std::string("before") + GetParam();
    const std::string after = std::string("after") + GetParam();
    copy(before);
    const std::string kept = bytes_of(folder / before);
    ASSERT_GT(kept.size(), 8192u);

    // Full, and with room enough to begin; another file, and the earlier copy written over.
    for (const std::uintmax_t left : {0, 12288})
        for (const std::string& name : {after, before}) {
            SCOPED_TRACE(name + ", bytes left: " + std::to_string(left));
            disk.fill(left);
            try {
                copy(name);
                ADD_FAILURE() << "stored on a full disk";
            } catch (const OfficeError& refused) {
                const std::string told = refused.what();
                EXPECT_NE(told.find(name + " could not be saved. Is the disk full"),
                          std::string::npos)
                    << told;
            }
            ASSERT_TRUE(office.alive()) << office.log();
            expect_results(document, 1000);
            EXPECT_EQ(files_in(folder.path()), (std::set<std::string>{"filler", before}));
            EXPECT_TRUE(bytes_of(folder / before) == kept) << "the earlier copy is lost";
            disk.empty();
        }
    copy(after);
    Document plain = office.open(folder / after);
    EXPECT_NEAR(plain.sheet().cell("B1000").number(), 1003.2, 1e-9);
    EXPECT_EQ(plain.sheet().cell("B1000").formula(), "1003.2");
}

INSTANTIATE_TEST_SUITE_P(Formats, FullDisk, testing::Values(".ods", ".xlsx"),
                         [](const auto& format) { return std::string(format.param).substr(1); });

} // namespace
} // namespace jarbook::faults
