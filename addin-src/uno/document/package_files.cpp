#include "uno/document/package_files.hpp"

#include "texts/copy.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/deployment/PackageInformationProvider.hpp>
#include <com/sun/star/io/IOException.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

rtl::OUString packed_url(const Context& context, const char* path) {
    const auto provider = deployment::PackageInformationProvider::get(context);
    const rtl::OUString folder = provider->getPackageLocation("org.jarbook.calc");
    if (folder.isEmpty())
        throw io::IOException(addin::ustring(texts::copy::not_packed), nullptr);
    return folder + "/" + rtl::OUString::createFromAscii(path);
}

} // namespace jarbook::menu
