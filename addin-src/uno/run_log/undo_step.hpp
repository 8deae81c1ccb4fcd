// Changing a document of the user's: as one undo step or none, through a sheet's protection, and
// what stands in the way.
#pragma once

#include "uno/document/cell_address.hpp"

#include <com/sun/star/document/XUndoManager.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <stdexcept>

namespace jarbook::menu {

// Why a command cannot be done here, in a sentence for people; the document is as it was.
class Obstacle : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// All that is changed while it lives is one step of Undo. Unless it is kept, the changes are taken
// back when it goes.
class UndoStep {
public:
    // Throws Obstacle where LibreOffice records no steps.
    UndoStep(const Document& document, std::string_view title);
    ~UndoStep();
    UndoStep(const UndoStep&) = delete;
    UndoStep& operator=(const UndoStep&) = delete;
    void keep() { kept_ = true; }

private:
    bool recorded() const;

    com::sun::star::uno::Reference<com::sun::star::document::XUndoManager> manager_;
    rtl::OUString title_;
    com::sun::star::uno::Sequence<rtl::OUString> before_; // titles of the steps, the latest first
    bool kept_ = false;
};

// Drops all undo steps when it goes, also when something went wrong on the way: LibreOffice keeps
// none for sheets that come from another document, and older ones would meet other sheets than they
// were recorded on. (Locking the undo manager would not do: importing a sheet opens it again.)
class UndoDropped {
public:
    explicit UndoDropped(const Document& document) : document_(document) {}
    ~UndoDropped();
    UndoDropped(const UndoDropped&) = delete;
    UndoDropped& operator=(const UndoDropped&) = delete;

private:
    Document document_;
};

// Takes a sheet's protection away, which is there against slips; it comes back when this goes.
// Throws Obstacle if there is a password.
class Unprotected {
public:
    Unprotected(const Document& document, sal_Int32 sheet);
    ~Unprotected();
    Unprotected(const Unprotected&) = delete;
    Unprotected& operator=(const Unprotected&) = delete;

private:
    com::sun::star::uno::Reference<com::sun::star::util::XProtectable> sheet_;
    bool was_protected_;
};

// Throws Obstacle if the document is shared, or its sheets must not be changed in number.
void require_not_shared(const Document& document);
void require_open_structure(const Document& document);

} // namespace jarbook::menu
