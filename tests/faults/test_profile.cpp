// A profile in which extensions cannot be written, as on a machine that is locked down. (From a
// profile in which nothing at all can be written LibreOffice 7.4 does not start, with or without
// extensions.)
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <grp.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "faults.hpp"

namespace jarbook::faults {
namespace {

using namespace office;
namespace fs = std::filesystem;

constexpr uid_t nobody = 65534;

// Runs the work as somebody who may not write everywhere, in a process of its own: root may, so
// root becomes nobody. The package is copied to where that user may read it.
void as_somebody_without_rights(const std::function<void(const fs::path& folder)>& work) {
    const Folder folder;
    fs::copy_file(JARBOOK_OXT, folder / "jarbook.oxt");
    const bool root = geteuid() == 0;
    if (root) {
        ASSERT_EQ(chown(folder.path().c_str(), nobody, nobody), 0);
    }
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        setenv("HOME", folder.path().c_str(), 1);
        if (root && (setgroups(0, nullptr) != 0 || setgid(nobody) != 0 || setuid(nobody) != 0))
            _exit(2);
        try {
            work(folder.path());
        } catch (const std::exception& trouble) {
            ADD_FAILURE() << trouble.what();
        }
        std::fflush(nullptr);
        _exit(testing::Test::HasFailure() ? 1 : 0);
    }
    int status = -1;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    EXPECT_EQ(status, 0) << "see above";
}

void set_writable(const fs::path& folder, bool writable) {
    const auto change = writable ? fs::perm_options::add : fs::perm_options::remove;
    const auto bits =
        writable ? fs::perms::owner_write
                 : fs::perms::owner_write | fs::perms::group_write | fs::perms::others_write;
    if (writable)
        fs::permissions(folder, bits, change);
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (!entry.is_symlink())
            fs::permissions(entry.path(), bits, change);
    if (!writable)
        fs::permissions(folder, bits, change);
}

TEST(ReadOnlyProfile, InstalledBeforeItWorks) {
    as_somebody_without_rights([](const fs::path& folder) {
        const fs::path profile = folder / "profile";
        const Options options{.profile = profile};
        {
            Office office(options);
            office.install(folder / "jarbook.oxt");
        }
        set_writable(profile / "user" / "uno_packages", false);
        {
            Office office(options);
            Document document = office.new_document();
            fill_with_calls(document, 50);
            expect_results(document, 50);
            expect_works(document);
        }
        set_writable(profile / "user" / "uno_packages", true);
        Office office(options);
        Document document = office.new_document();
        expect_works(document);
    });
}

TEST(ReadOnlyProfile, InstallingIntoItIsRefusedAloudAndNothingIsLost) {
    as_somebody_without_rights([](const fs::path& folder) {
        const fs::path profile = folder / "profile";
        const Options options{.profile = profile};
        { Office office(options); }
        set_writable(profile / "user" / "uno_packages", false);
        {
            Office office(options);
            Document document = office.new_document();
            document.sheet().cell("A1").set_formula("=1+1");
            try {
                office.install(folder / "jarbook.oxt", Afterwards::go_on);
                ADD_FAILURE() << "installed into a profile that cannot be written";
            } catch (const OfficeError& refused) {
                EXPECT_NE(std::string(refused.what()).find("jarbook.oxt"), std::string::npos)
                    << refused.what();
            }
            ASSERT_TRUE(office.alive());
            EXPECT_EQ(document.sheet().cell("A1").number(), 2);
            document.sheet().cell("A2").set_formula("=SPIRIT.STRENGTH(50;10)");
            EXPECT_NE(document.sheet().cell("A2").error(), 0);
        }
        // Writable again, it is installed as if nothing had been.
        set_writable(profile / "user" / "uno_packages", true);
        Office office(options);
        office.install(folder / "jarbook.oxt");
        Document document = office.new_document();
        expect_works(document);
    });
}

} // namespace
} // namespace jarbook::faults
