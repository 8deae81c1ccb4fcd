// What a listener to windows need not hear, said once.
#pragma once

#include <com/sun/star/lang/EventObject.hpp>

namespace jarbook::menu {

// `Listener`: a helper class of the SDK that also implements XTopWindowListener. Of that only the
// wish to close the window is left to answer.
template <class Listener>
class HearsClosing : public Listener {
    using Event = com::sun::star::lang::EventObject;

public:
    void SAL_CALL windowOpened(const Event&) override {}
    void SAL_CALL windowClosed(const Event&) override {}
    void SAL_CALL windowMinimized(const Event&) override {}
    void SAL_CALL windowNormalized(const Event&) override {}
    void SAL_CALL windowActivated(const Event&) override {}
    void SAL_CALL windowDeactivated(const Event&) override {}
};

} // namespace jarbook::menu
