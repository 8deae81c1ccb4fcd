#include "uno/run_log/undo_step.hpp"

#include "texts/run_log.hpp"
#include "uno/text/utf8.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

uno::Reference<document::XUndoManager> undo_manager(const Document& document) {
    const uno::Reference<document::XUndoManagerSupplier> supplier(document, uno::UNO_QUERY_THROW);
    return supplier->getUndoManager();
}

} // namespace

UndoStep::UndoStep(const Document& document, std::string_view title)
    : manager_(undo_manager(document)), title_(ustring(std::string(title))) {
    const uno::Reference<beans::XPropertySet> properties(document, uno::UNO_QUERY_THROW);
    bool enabled = true;
    properties->getPropertyValue("IsUndoEnabled") >>= enabled;
    if (!enabled || manager_->isLocked())
        throw Obstacle(std::string(texts::run_log::no_undo));
    before_ = manager_->getAllUndoActionTitles();
    manager_->enterUndoContext(title_);
}

// A context in which nothing was done leaves no step; the one before it must not be undone instead.
bool UndoStep::recorded() const {
    const auto now = manager_->getAllUndoActionTitles();
    if (now.getLength() != before_.getLength())
        return now.getLength() > before_.getLength();
    // As many steps as LibreOffice keeps: the oldest has gone.
    return now.getLength() > 0 && now[0] == title_ && now.getLength() >= 20;
}

UndoStep::~UndoStep() {
    try {
        manager_->leaveUndoContext();
        if (!kept_ && recorded())
            manager_->undo();
    } catch (const uno::Exception&) {
        // Nothing was recorded, or the document is being closed.
    }
}

UndoDropped::~UndoDropped() {
    try {
        undo_manager(document_)->clear();
    } catch (const uno::Exception&) {
        // The document is being closed.
    }
}

Unprotected::Unprotected(const Document& document, sal_Int32 sheet)
    : sheet_(sheet_at(document, sheet), uno::UNO_QUERY_THROW),
      was_protected_(sheet_->isProtected()) {
    if (!was_protected_)
        return;
    try {
        sheet_->unprotect("");
    } catch (const lang::IllegalArgumentException&) {
        // It has a password of the user's own.
    }
    if (sheet_->isProtected())
        throw Obstacle(texts::run_log::password{.sheet = sheet_name(document, sheet)}.text());
}

Unprotected::~Unprotected() {
    try {
        if (was_protected_)
            sheet_->protect("");
    } catch (const uno::Exception&) {
        // Left open: nothing is lost.
    }
}

void require_not_shared(const Document& document) {
    const uno::Reference<lang::XMultiServiceFactory> factory(document, uno::UNO_QUERY_THROW);
    const uno::Reference<beans::XPropertySet> settings(
        factory->createInstance("com.sun.star.document.Settings"), uno::UNO_QUERY_THROW);
    bool shared = false;
    settings->getPropertyValue("IsDocumentShared") >>= shared;
    if (shared)
        throw Obstacle(std::string(texts::run_log::shared));
}

void require_open_structure(const Document& document) {
    const uno::Reference<util::XProtectable> structure(document, uno::UNO_QUERY_THROW);
    if (structure->isProtected())
        throw Obstacle(std::string(texts::run_log::structure));
}

} // namespace jarbook::menu
