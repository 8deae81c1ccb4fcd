#include "uno/document/save_document.hpp"

#include "texts/copy.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <rtl/uri.hxx>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

// The office's own file beside one that it writes: ".~lock.Season 3.ods#".
class LockFile {
public:
    LockFile(const Context& context, const rtl::OUString& url)
        : files_(ucb::SimpleFileAccess::create(context)) {
        const sal_Int32 name = url.lastIndexOf('/') + 1;
        url_ = url.copy(0, name) + ".~lock." + url.copy(name) + "%23";
        there_before_ = exists();
    }
    void remove_if_left_empty() const {
        try {
            if (!there_before_ && exists() && files_->getSize(url_) == 0)
                files_->kill(url_);
        } catch (const uno::Exception&) {
            // A folder that cannot be written holds none.
        }
    }

private:
    bool exists() const {
        try {
            return files_->exists(url_);
        } catch (const uno::Exception&) {
            return false;
        }
    }

    uno::Reference<ucb::XSimpleFileAccess3> files_;
    rtl::OUString url_;
    bool there_before_ = false;
};

} // namespace

void store_to(const Context& context, const Document& document, const rtl::OUString& url,
              const Properties& properties) {
    const LockFile lock(context, url);
    const uno::Reference<frame::XStorable> storable(document, uno::UNO_QUERY_THROW);
    try {
        storable->storeToURL(url, properties.sequence());
    } catch (const io::IOException& trouble) {
        lock.remove_if_left_empty();
        const rtl::OUString name = rtl::Uri::decode(
            url.copy(url.lastIndexOf('/') + 1), rtl_UriDecodeWithCharset, RTL_TEXTENCODING_UTF8);
        throw io::IOException(addin::ustring(texts::copy::not_written{
                                  .file = addin::utf8(name), .reason = addin::utf8(trouble.Message)}
                                                 .text()),
                              nullptr);
    }
}

} // namespace jarbook::menu
