// The files within a zip package (.oxt, .ods), read by the office.
#pragma once

#include <com/sun/star/packages/zip/XZipFileAccess.hpp>
#include <filesystem>
#include <string>

namespace jarbook::e2e {

class ZipFile {
public:
    explicit ZipFile(const std::filesystem::path& file);
    bool has(const std::string& name) const;
    // Whether anything lies in the folder.
    bool has_folder(const std::string& name) const;
    std::string text(const std::string& name) const;

private:
    std::string file_;
    com::sun::star::uno::Reference<com::sun::star::packages::zip::XZipFileAccess> zip_;
};

} // namespace jarbook::e2e
