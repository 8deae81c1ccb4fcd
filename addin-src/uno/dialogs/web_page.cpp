#include "uno/dialogs/web_page.hpp"

#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace jarbook::menu {

using namespace com::sun::star;
namespace fs = std::filesystem;

namespace {

std::string setting(const char* name, const char* otherwise) {
    const char* value = std::getenv(name);
    return value && *value ? value : otherwise;
}

// Where applications register, by the XDG Base Directory Specification.
std::vector<fs::path> application_folders() {
    std::vector<fs::path> folders;
    const fs::path home = setting("HOME", "/");
    folders.push_back(fs::path(setting("XDG_DATA_HOME", (home / ".local/share").c_str())) /
                      "applications");
    std::istringstream all(setting("XDG_DATA_DIRS", "/usr/local/share:/usr/share"));
    for (std::string folder; std::getline(all, folder, ':');)
        folders.push_back(fs::path(folder) / "applications");
    return folders;
}

// By the Desktop Entry Specification: MimeType=a;b;c
bool shows_pages(const fs::path& entry) {
    std::ifstream file(entry);
    for (std::string line; std::getline(file, line);)
        if (line.starts_with("MimeType=") && (line + ";").find("text/html;") != std::string::npos)
            return true;
    return false;
}

bool browser_known() {
    if (!setting("BROWSER", "").empty())
        return true;
    for (const fs::path& folder : application_folders()) {
        std::error_code trouble;
        for (const auto& entry : fs::directory_iterator(folder, trouble))
            if (entry.path().extension() == ".desktop" && shows_pages(entry.path()))
                return true;
    }
    return false;
}

} // namespace

bool open_page(const Context& context, const rtl::OUString& url) {
    if (!browser_known())
        return false;
    try {
        const auto shell = system::SystemShellExecute::create(context);
        shell->execute(url, "", system::SystemShellExecuteFlags::URIS_ONLY);
        return true;
    } catch (const uno::Exception&) {
        return false;
    }
}

} // namespace jarbook::menu
