// Documents that nobody sees: copies to work on, so that the user's own stays as it is.
#pragma once

#include "uno/document/cell_address.hpp"

#include <com/sun/star/uno/XComponentContext.hpp>

namespace jarbook::menu {

using Context = com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>;

// Closes the document when it goes.
class HiddenDocument {
public:
    // A copy of all that the document holds now, saved or not. It goes through memory, not through
    // a file; macros do not run and links are not followed. The copy records no undo steps.
    static HiddenDocument copy_of(const Context& context, const Document& document);
    static HiddenDocument empty(const Context& context);
    // A fresh document made from an OpenDocument template.
    static HiddenDocument from_template(const Context& context, const rtl::OUString& url);

    HiddenDocument(HiddenDocument&& other) noexcept : document_(other.document_) {
        other.document_.clear();
    }
    HiddenDocument& operator=(HiddenDocument&&) = delete;
    ~HiddenDocument();

    const Document& document() const { return document_; }

private:
    explicit HiddenDocument(Document document);
    Document document_;
};

} // namespace jarbook::menu
