#include "uno/menu/guard.hpp"

#include "texts/menu.hpp"
#include "uno/document/progress.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/io/IOException.hpp>
#include <com/sun/star/lang/DisposedException.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>
#include <exception>
#include <new>

namespace jarbook::menu {

using namespace com::sun::star;

namespace {

std::string message_of(const uno::Exception& trouble) {
    return trouble.Message.isEmpty() ? std::string(texts::menu::no_reason)
                                     : addin::utf8(trouble.Message);
}

std::string ours(std::string_view reason) {
    return texts::menu::failed_here{.reason = std::string(reason)}.text();
}

} // namespace

Outcome outcome_of_exception(const std::string& title) {
    try {
        throw;
    } catch (const Stopped&) {
        Outcome outcome = Outcome::refused(title, std::string(texts::menu::stopped));
        outcome.given_up = true;
        return outcome;
    } catch (const lang::DisposedException&) {
        return Outcome::refused(title, std::string(texts::menu::document_gone));
    } catch (const uno::Exception& trouble) {
        return Outcome::refused(title, texts::menu::failed{.reason = message_of(trouble)}.text());
    } catch (const std::bad_alloc&) {
        return Outcome::refused(title, ours(texts::menu::no_memory));
    } catch (const std::exception& defect) {
        return Outcome::refused(title, ours(defect.what()));
    } catch (...) {
        return Outcome::refused(title, ours(texts::menu::no_reason));
    }
}

void rethrow_for_caller() {
    try {
        throw;
    } catch (const uno::RuntimeException&) { // an IllegalArgumentException among them
        throw;
    } catch (const io::IOException&) {
        throw;
    } catch (const uno::Exception& trouble) {
        throw uno::RuntimeException(addin::ustring(message_of(trouble)), nullptr);
    } catch (const std::bad_alloc&) {
        throw uno::RuntimeException(addin::ustring(ours(texts::menu::no_memory)), nullptr);
    } catch (const std::exception& defect) {
        throw uno::RuntimeException(addin::ustring(ours(defect.what())), nullptr);
    } catch (...) {
        throw uno::RuntimeException(addin::ustring(ours(texts::menu::no_reason)), nullptr);
    }
}

} // namespace jarbook::menu
