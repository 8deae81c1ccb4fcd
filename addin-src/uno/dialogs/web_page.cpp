#include "uno/dialogs/web_page.hpp"

#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>

namespace jarbook::menu {

using namespace com::sun::star;

bool open_page(const Context& context, const rtl::OUString& url) {
    try {
        const auto shell = system::SystemShellExecute::create(context);
        shell->execute(url, "", system::SystemShellExecuteFlags::URIS_ONLY);
        return true;
    } catch (const uno::Exception&) {
        return false;
    }
}

} // namespace jarbook::menu
