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
    // From now on cells are only entered and read: undo steps and rows that are fitted to what is
    // entered are most of the time that a change takes. Not for what is to be stored.
    void only_compute();

private:
    explicit HiddenDocument(Document document);
    Document document_;
};

} // namespace jarbook::menu
