// The packed library: what it needs of a machine, and what it offers the office.
#include <algorithm>
#include <array>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/lang/XMultiComponentFactory.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/bootstrap.hxx>
#include <cstdio>
#include <dlfcn.h>
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

std::string objdump(const std::string& option) {
    return output_of("objdump " + option + " '" + JARBOOK_LIBRARY + "'");
}

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

TEST(Package, NeedsNoNewerSymbolThanDebian12Has) {
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

TEST(Package, ItsLibraryOpensNoOther) {
    // What a cell function gives may not depend on what else is on the machine.
    const std::string symbols = objdump("-T");
    EXPECT_NE(symbols.find(" memcpy"), std::string::npos) << symbols;
    EXPECT_EQ(symbols.find(" dlopen"), std::string::npos);
}

TEST(Package, ItsLibraryNeedsOnlyWhatAnOfficeMachineHas) {
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

// What extension/jarbook.components names is there, by its constructor for an office that starts
// with it and by a factory for one that it is installed into while it runs.
TEST(Package, HasAConstructorAndAFactoryForEveryImplementation) {
    void* library = dlopen(JARBOOK_LIBRARY, RTLD_NOW | RTLD_LOCAL);
    ASSERT_NE(library, nullptr) << dlerror();
    using Factory = void* (*)(const char*, void*, void*);
    const auto factory = reinterpret_cast<Factory>(dlsym(library, "component_getFactory"));
    ASSERT_NE(factory, nullptr);

    const auto context = cppu::defaultBootstrap_InitialComponentContext();
    const auto manager = context->getServiceManager();
    std::ifstream file(JARBOOK_COMPONENTS);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
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
