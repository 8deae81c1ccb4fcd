// The packed libraries, this machine's and, where it was cross-built, ARM64's: what they need of a
// machine, and what they offer the office.
#include <algorithm>
#include <array>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/bootstrap.hxx>
#include <cstdio>
#include <dlfcn.h>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

namespace uno = com::sun::star::uno;

std::string output_of(const std::string& command) {
    std::string result;
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe)
        return result;
    std::array<char, 4096> part;
    while (const std::size_t count = std::fread(part.data(), 1, part.size(), pipe))
        result.append(part.data(), count);
    return pclose(pipe) == 0 ? result : "";
}

const std::string arm64 = "linux_aarch64";

std::string content(const std::filesystem::path& file) {
    std::ifstream in(file);
    return {std::istreambuf_iterator<char>(in), {}};
}

// The platforms' folders in the package.
std::vector<std::string> platforms() {
    std::vector<std::string> result;
    for (const auto& entry : std::filesystem::directory_iterator(JARBOOK_PACKED))
        if (exists(entry.path() / "jarbook.uno.so"))
            result.push_back(entry.path().filename().string());
    return result;
}

class Package : public testing::TestWithParam<std::string> {
protected:
    static std::string objdump(const std::string& option) {
        // A machine's own reads no other's.
        const bool foreign = GetParam() == arm64 && GetParam() != JARBOOK_OWN_PLATFORM;
        return output_of((foreign ? "aarch64-linux-gnu-objdump " : "objdump ") + option +
                         " '" JARBOOK_PACKED "/" + GetParam() + "/jarbook.uno.so'");
    }
};
std::string name_of(const testing::TestParamInfo<std::string>& info) {
    return info.param;
}
INSTANTIATE_TEST_SUITE_P(Of, Package, testing::ValuesIn(platforms()), name_of);

std::vector<std::string> all_matches(const std::string& text, const std::string& pattern) {
    const std::regex wanted(pattern);
    std::vector<std::string> result;
    for (std::sregex_iterator match(text.begin(), text.end(), wanted), end; match != end; ++match)
        result.push_back((*match)[1]);
    return result;
}

std::vector<int> version_from(const std::string& text) {
    std::vector<int> parts;
    for (const std::string& part : all_matches(text, "([0-9]+)"))
        parts.push_back(std::stoi(part));
    return parts;
}

// The latest versions in Debian 12: libc6 2.36, libstdc++6 and libgcc-s1 12.2 (packages' symbols).
const std::map<std::string, std::string> debian_12 = {
    {"GLIBC", "2.36"}, {"GLIBCXX", "3.4.30"}, {"CXXABI", "1.3.13"}, {"GCC", "12.0.0"}};

TEST_P(Package, NeedsNoNewerSymbolThanDebian12Has) {
    const std::string symbols = objdump("-T");
    std::map<std::string, std::set<std::vector<int>>> needed;
    int checked = 0;
    for (const std::string& symbol : all_matches(
             symbols, R"(\*UND\*\s+[0-9a-f]+\s+\(?((?:GLIBC|GLIBCXX|CXXABI|GCC)_[0-9.]+))")) {
        const std::string family = symbol.substr(0, symbol.find('_'));
        const std::string version = symbol.substr(family.size() + 1);
        needed[family].insert(version_from(version));
        EXPECT_LE(version_from(version), version_from(debian_12.at(family))) << symbol;
        ++checked;
    }
    EXPECT_GT(checked, 20) << symbols;
    for (const auto& [family, versions] : needed) {
        std::string latest;
        for (const int part : *versions.rbegin())
            latest += (latest.empty() ? "" : ".") + std::to_string(part);
        std::printf("%s up to %s\n", family.c_str(), latest.c_str());
        RecordProperty(family, latest);
    }
}

TEST_P(Package, ItsLibraryOpensNoOther) {
    // What a cell function gives may not depend on what else is on the machine.
    const std::string symbols = objdump("-T");
    EXPECT_NE(symbols.find(" memcpy"), std::string::npos) << symbols;
    EXPECT_EQ(symbols.find(" dlopen"), std::string::npos);
}

TEST_P(Package, ItsLibraryNeedsOnlyWhatAnOfficeMachineHas) {
    const std::string headers = objdump("-p");
    const auto needed = all_matches(headers, "NEEDED +([^\n]+)");
    EXPECT_FALSE(needed.empty()) << headers;
    // The office's own, and those of the compiler and C that the office itself needs.
    const std::regex allowed("libuno_(sal|cppu|cppuhelpergcc3|salhelpergcc3)\\.so\\.3|"
                             "lib(stdc\\+\\+|m|gcc_s|c)\\.so\\.[0-9]+|ld-linux.*");
    for (const std::string& library : needed)
        EXPECT_TRUE(std::regex_match(library, allowed)) << library;
    EXPECT_EQ(all_matches(headers, "R(UN)?PATH").size(), 0u) << "a path of the building machine";
}

// Each folder is whole, named in the manifest and in the description, and holds a library of its
// machine.
TEST_P(Package, NamesThePlatform) {
    const std::filesystem::path folder = std::filesystem::path(JARBOOK_PACKED) / GetParam();
    EXPECT_EQ(content(folder / "jarbook.rdb"), content(JARBOOK_TYPES));
    const std::string components = content(folder / "jarbook.components");
    EXPECT_EQ(components, content(JARBOOK_COMPONENTS));
    const std::string symbols = objdump("-T");
    for (const std::string& constructor : all_matches(components, R"re(constructor="([^"]+)")re"))
        EXPECT_TRUE(std::regex_search(symbols, std::regex("\\.text.*\\s" + constructor + "\\s")))
            << constructor;

    const std::string machine = GetParam().substr(GetParam().find('_') + 1); // x86_64, aarch64
    const std::string header = objdump("-f");
    EXPECT_NE(header.find(machine == "x86_64" ? "i386:x86-64" : "architecture: " + machine),
              std::string::npos)
        << header;
    const std::string manifest =
        content(std::filesystem::path(JARBOOK_PACKED) / "META-INF/manifest.xml");
    EXPECT_NE(manifest.find("manifest:full-path=\"" + GetParam() + "/jarbook.components\""),
              std::string::npos)
        << manifest;
    const std::string description =
        content(std::filesystem::path(JARBOOK_PACKED) / "description.xml");
    const auto values = all_matches(description, R"re(<platform value="([^"]+)")re");
    ASSERT_EQ(values.size(), 1u);
    EXPECT_NE(("," + values[0] + ",").find("," + GetParam() + ","), std::string::npos) << values[0];
}

TEST(Arm64, IsPacked) {
    const auto there = platforms();
    if (std::find(there.begin(), there.end(), arm64) == there.end())
        GTEST_SKIP() << "no library for ARM64 in this build: scripts/test builds it where Debian's "
                        "cross compiler "
                        "can be had";
}

// What extension/jarbook.components names is there, by its constructor for an office that starts
// with it and by a factory for one that it is installed into while it runs.
TEST(OwnLibrary, HasAConstructorAndAFactoryForEveryImplementation) {
    void* library = dlopen(JARBOOK_LIBRARY, RTLD_NOW | RTLD_LOCAL);
    ASSERT_NE(library, nullptr) << dlerror();
    using Factory = void* (*)(const char*, void*, void*);
    const auto factory = reinterpret_cast<Factory>(dlsym(library, "component_getFactory"));
    ASSERT_NE(factory, nullptr);

    const auto context = cppu::defaultBootstrap_InitialComponentContext();
    const auto manager = context->getServiceManager();
    const std::string text = content(JARBOOK_COMPONENTS);
    const auto constructors = all_matches(text, R"re(constructor="([^"]+)")re");
    const auto names = all_matches(text, R"re(<implementation name="([^"]+)")re");
    ASSERT_FALSE(names.empty());
    ASSERT_EQ(names.size(), constructors.size());
    for (const std::string& constructor : constructors)
        EXPECT_NE(dlsym(library, constructor.c_str()), nullptr) << constructor;
    for (const std::string& name : names) {
        void* made = factory(name.c_str(), manager.get(), nullptr);
        EXPECT_NE(made, nullptr) << name;
        if (made)
            static_cast<uno::XInterface*>(made)->release();
    }
    EXPECT_EQ(factory("org.jarbook.NoSuch", manager.get(), nullptr), nullptr);
    uno::Reference<com::sun::star::lang::XComponent>(context, uno::UNO_QUERY_THROW)->dispose();
}

} // namespace
