#include "profile.hpp"

#include <cctype>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>

#include "error.hpp"

namespace jarbook::office {

namespace fs = std::filesystem;

namespace {

fs::path new_folder() {
    std::string name = (fs::temp_directory_path() / "jarbook-office-XXXXXX").string();
    if (!mkdtemp(name.data()))
        throw OfficeError("no folder for the profile can be made (" + name +
                          "): " + std::strerror(errno));
    return name;
}

std::string item(const std::string& path, const std::string& name, const std::string& value) {
    return "<item oor:path=\"" + path + "\"><prop oor:name=\"" + name +
           "\" oor:op=\"fuse\"><value>" + value + "</value></prop></item>\n";
}

} // namespace

Profile::Profile(const fs::path& folder)
    : folder_(folder.empty() ? new_folder() : fs::absolute(folder).lexically_normal()),
      temporary_(folder.empty()) {
    fs::create_directories(folder_);
}

Profile::~Profile() {
    std::error_code ignored;
    if (temporary_)
        fs::remove_all(folder_, ignored);
}

std::string Profile::log_tail() const {
    std::ifstream file(log(), std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(file), {}};
    constexpr std::size_t enough = 4000;
    if (text.size() > enough)
        text = "..." + text.substr(text.size() - enough);
    return text;
}

void Profile::prepare(const std::string& locale) const {
    const fs::path settings = folder_ / "user" / "registrymodifications.xcu";
    if (fs::exists(settings))
        return;
    for (const char c : locale)
        if (!std::isalnum(static_cast<unsigned char>(c)) && c != '-')
            throw OfficeError("not a locale: " + locale);
    fs::create_directories(settings.parent_path());
    std::ofstream file(settings);
    file << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<oor:items xmlns:oor=\"http://openoffice.org/2001/registry\" "
            "xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" "
            "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\">\n"
         << item("/org.openoffice.Setup/L10N", "ooSetupSystemLocale", locale)
         << item("/org.openoffice.Setup/L10N", "ooLocale", locale)
         << item("/org.openoffice.Office.Common/Misc", "FirstRun", "false")
         // An office that believes itself newer than the profile tests its drawing for seconds at
         // every start and announces what is new.
         << item("/org.openoffice.Setup/Product", "ooSetupLastVersion", "99.9")
         << item("/org.openoffice.Office.Common/Misc", "ShowTipOfTheDay", "false")
         << "</oor:items>\n";
    file.close();
    if (!file)
        throw OfficeError("the settings cannot be written: " + settings.string());
}

} // namespace jarbook::office
