// Many changes in a row, of a document or of its names: nothing is drawn, announced or compiled in
// between.
#pragma once

#include <com/sun/star/document/XActionLockable.hpp>

namespace jarbook::menu {

class ActionLock {
public:
    explicit ActionLock(
        const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& lockable)
        : lockable_(lockable, com::sun::star::uno::UNO_QUERY) {
        if (lockable_.is())
            lockable_->addActionLock();
    }
    ~ActionLock() {
        try {
            if (lockable_.is())
                lockable_->removeActionLock();
        } catch (const com::sun::star::uno::Exception&) {
            // The document is being closed.
        }
    }
    ActionLock(const ActionLock&) = delete;
    ActionLock& operator=(const ActionLock&) = delete;

private:
    com::sun::star::uno::Reference<com::sun::star::document::XActionLockable> lockable_;
};

} // namespace jarbook::menu
