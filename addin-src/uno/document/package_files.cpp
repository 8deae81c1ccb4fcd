#include "uno/document/package_files.hpp"

#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/io/IOException.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

rtl::OUString packed_url(const Context& context, const char* path) {
    const auto provider = deployment::PackageInformationProvider::get(context);
    const rtl::OUString folder = provider->getPackageLocation("org.jarbook.calc");
    if (folder.isEmpty())
        throw io::IOException("the files of the extension are not found; is it being removed?",
                              nullptr);
    return folder + "/" + rtl::OUString::createFromAscii(path);
}

} // namespace jarbook::menu
