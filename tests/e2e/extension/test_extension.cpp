// The package itself: installing, what is seen without it, installing again.
#include <filesystem>
#include <unistd.h>

#include "support/support.hpp"
#include "support/zip_file.hpp"

namespace jarbook::e2e {
namespace {

constexpr char identifier[] = "org.jarbook.calc";
constexpr int unknown_name = 525;

TEST(Extension, HasTheProjectsVersion) {
    EXPECT_EQ(shared_office().extension_version(identifier), JARBOOK_VERSION);
    office::Document document = shared_office().new_document();
    office::Cell cell = document.sheet().cell("A1");
    cell.set_formula("=SPIRIT.VERSION()");
    EXPECT_EQ(cell.value(), office::Value(std::string(JARBOOK_VERSION)));
}

// Small enough to be handed on by mail; half of it are the two workbooks.
TEST(Extension, IsBelowThreeMegabytesAndOneMoreForAnotherPlatform) {
    const ZipFile package(JARBOOK_OXT);
    const bool for_both =
        package.has("linux_x86_64/jarbook.uno.so") && package.has("linux_aarch64/jarbook.uno.so");
    EXPECT_LT(std::filesystem::file_size(JARBOOK_OXT), for_both ? 4'000'000u : 3'000'000u);
}

TEST(Extension, FormulasOutliveItsAbsence) {
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-absence-" + std::to_string(getpid()) + ".ods");
    const std::string formula = "=ORG.JARBOOK.SPIRIT.STRENGTH(50;10)";
    {
        office::Document document = shared_office().new_document();
        document.sheet().cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
        document.save(file);
    }

    shared_office().remove(identifier);
    EXPECT_EQ(shared_office().extension_version(identifier), std::nullopt);
    {
        // Seen without the extension: an error, never an old number; and stored again as it was.
        office::Document document = shared_office().open(file);
        EXPECT_EQ(document.sheet().cell("A1").error(), unknown_name)
            << office::describe(document.sheet().cell("A1").value());
        document.save(file);
    }

    shared_office().install(JARBOOK_OXT);
    {
        office::Document document = shared_office().open(file);
        EXPECT_EQ(document.sheet().cell("A1").formula(), formula);
        EXPECT_NEAR(document.sheet().cell("A1").number(), 53.67, 0.005);
    }
    std::filesystem::remove(file);
}

TEST(Extension, InstallsOverItself) {
    shared_office().install(JARBOOK_OXT);
    EXPECT_EQ(shared_office().extension_version(identifier), JARBOOK_VERSION);
}

} // namespace
} // namespace jarbook::e2e
