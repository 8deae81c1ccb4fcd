// Text and paths in UNO's spelling.
#pragma once

#include <filesystem>
#include <rtl/ustring.hxx>
#include <string>
#include <string_view>

namespace jarbook::office {

rtl::OUString to_uno(std::string_view utf8);
std::string to_utf8(const rtl::OUString& text);

// The file: URL of a path; a relative path is taken from the working folder.
rtl::OUString to_url(const std::filesystem::path& path);

} // namespace jarbook::office
