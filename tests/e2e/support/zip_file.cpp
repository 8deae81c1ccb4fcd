#include "support/zip_file.hpp"

#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/io/XInputStream.hpp>
#include <com/sun/star/lang/XInitialization.hpp>

#include "support/support.hpp"
#include "text.hpp"

namespace jarbook::e2e {

using namespace com::sun::star;

namespace {

uno::Reference<container::XNameAccess>
names_of(const uno::Reference<packages::zip::XZipFileAccess>& zip) {
    return {zip, uno::UNO_QUERY_THROW};
}

} // namespace

ZipFile::ZipFile(const std::filesystem::path& file) : file_(file.string()) {
    shared_office().call("opening " + file_, [&] {
        zip_.set(shared_office().service("com.sun.star.packages.zip.ZipFileAccess"),
                 uno::UNO_QUERY_THROW);
        uno::Sequence<uno::Any> arguments(1);
        arguments.getArray()[0] <<= office::to_url(file);
        uno::Reference<lang::XInitialization>(zip_, uno::UNO_QUERY_THROW)->initialize(arguments);
    });
}

bool ZipFile::has(const std::string& name) const {
    return shared_office().call("looking into " + file_, [&] {
        return static_cast<bool>(names_of(zip_)->hasByName(office::to_uno(name)));
    });
}

bool ZipFile::has_folder(const std::string& name) const {
    return shared_office().call("looking into " + file_, [&] {
        for (const rtl::OUString& entry : names_of(zip_)->getElementNames())
            if (office::to_utf8(entry).starts_with(name + "/"))
                return true;
        return false;
    });
}

std::string ZipFile::text(const std::string& name) const {
    return shared_office().call("reading " + name + " in " + file_, [&] {
        const auto stream = zip_->getStreamByPattern(office::to_uno(name));
        std::string text;
        uno::Sequence<sal_Int8> bytes;
        while (stream->readBytes(bytes, 65536) > 0)
            text.append(reinterpret_cast<const char*>(bytes.getConstArray()),
                        static_cast<std::size_t>(bytes.getLength()));
        return text;
    });
}

} // namespace jarbook::e2e
