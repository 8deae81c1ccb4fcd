#include "text.hpp"

#include <osl/file.hxx>

#include "error.hpp"

namespace jarbook::office {

rtl::OUString to_uno(std::string_view utf8) {
    return {utf8.data(), static_cast<sal_Int32>(utf8.size()), RTL_TEXTENCODING_UTF8};
}

std::string to_utf8(const rtl::OUString& text) {
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

rtl::OUString to_url(const std::filesystem::path& path) {
    const std::string absolute = std::filesystem::absolute(path).lexically_normal().string();
    rtl::OUString url;
    if (osl::FileBase::getFileURLFromSystemPath(to_uno(absolute), url) != osl::FileBase::E_None)
        throw OfficeError("no file URL can be made of the path " + absolute);
    return url;
}

} // namespace jarbook::office
