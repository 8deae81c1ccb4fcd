// The IDL, as the office knows it once the extension is installed, against the catalogue, name by
// name; and the package against what its own files name.
#include <com/sun/star/reflection/XIdlMethod.hpp>
#include <com/sun/star/reflection/XIdlReflection.hpp>
#include <map>
#include <regex>

#include "catalogue.hpp"
#include "support/support.hpp"
#include "support/zip_file.hpp"
#include "text.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;

struct Parameter {
    std::string name;
    std::string type;
};
struct Method {
    std::vector<Parameter> parameters;
    std::string result;
};

std::map<std::string, Method> methods_of(const std::string& interface_name) {
    return shared_office().call("reflecting " + interface_name, [&] {
        std::map<std::string, Method> result;
        const uno::Reference<reflection::XIdlReflection> reflection(
            shared_office().service("com.sun.star.reflection.CoreReflection"),
            uno::UNO_QUERY_THROW);
        const auto type = reflection->forName(office::to_uno(interface_name));
        if (!type.is())
            throw office::OfficeError("the office does not know " + interface_name);
        for (const auto& method : type->getMethods()) {
            if (office::to_utf8(method->getDeclaringClass()->getName()) != interface_name)
                continue; // acquire, release, queryInterface
            Method& entry = result[office::to_utf8(method->getName())];
            entry.result = office::to_utf8(method->getReturnType()->getName());
            for (const auto& parameter : method->getParameterInfos())
                entry.parameters.push_back({office::to_utf8(parameter.aName),
                                            office::to_utf8(parameter.aType->getName())});
        }
        return result;
    });
}

// Required numbers are double, so that a formula maps over ranges; a required word is a string;
// whatever may be left out, or may be more than one cell, is any.
std::string type_of(const catalogue::Argument& argument) {
    if (!argument.optional && argument.kind == catalogue::Kind::number)
        return "double";
    if (!argument.optional && argument.kind == catalogue::Kind::word)
        return "string";
    return "any";
}

TEST(Contract, TheIdlIsTheCatalogueNameByName) {
    const auto methods = methods_of("org.jarbook.XSpirit");
    EXPECT_EQ(methods.size(), catalogue::functions().size());
    for (const auto& function : catalogue::functions()) {
        SCOPED_TRACE(std::string(function.method));
        const auto found = methods.find(std::string(function.method));
        if (found == methods.end()) {
            ADD_FAILURE() << "the IDL has no such method";
            continue;
        }
        const auto& parameters = found->second.parameters;
        ASSERT_EQ(parameters.size(), function.arguments.size());
        for (std::size_t i = 0; i < parameters.size(); ++i) {
            EXPECT_EQ(parameters[i].name, function.arguments[i].name);
            EXPECT_EQ(parameters[i].type, type_of(function.arguments[i])) << parameters[i].name;
        }
    }
}

TEST(Contract, TheDisplayNameIsTheMethodInCapitals) {
    for (const auto& function : catalogue::functions()) {
        std::string expected = "SPIRIT.";
        for (const char c : function.method)
            expected += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        EXPECT_EQ(function.name, expected);
    }
}

std::vector<std::string> matches(const std::string& text, const char* pattern) {
    const std::regex expression(pattern);
    std::vector<std::string> result;
    for (std::sregex_iterator match(text.begin(), text.end(), expression), end; match != end;
         ++match)
        result.push_back((*match)[1]);
    return result;
}

TEST(Package, HoldsEveryFileThatItNames) {
    const ZipFile package(JARBOOK_OXT);
    const std::string manifest = package.text("META-INF/manifest.xml");
    std::vector<std::string> named = matches(manifest, "full-path=\"([^\"]+)\"");
    EXPECT_FALSE(named.empty());
    for (const std::string& file :
         matches(package.text("description.xml"), "xlink:href=\"([^\":]+)\""))
        named.push_back(file);
    int platforms = 0;
    for (const std::string& listed : matches(manifest, "full-path=\"([^\"]+\\.components)\"")) {
        const std::string folder = listed.substr(0, listed.rfind('/') + 1);
        EXPECT_NE(folder, "") << "a folder for each platform";
        for (const std::string& file : matches(package.text(listed), "uri=\"([^\"]+)\""))
            named.push_back(folder + file);
        ++platforms;
    }
    EXPECT_GT(platforms, 0);
    for (const std::string& listed : matches(manifest, "full-path=\"([^\"]+\\.xcu)\"")) {
        ASSERT_TRUE(package.has(listed)) << listed;
        for (const std::string& file : matches(package.text(listed), "%origin%/([^\"<]+)"))
            named.push_back(file);
    }
    for (const std::string& file : named)
        EXPECT_TRUE(package.has(file) || package.has_folder(file)) << file;
}

} // namespace
} // namespace jarbook::e2e
