// The one guard against exceptions: nothing of ours is thrown into the office.
#pragma once

#include "uno/dialogs/outcome.hpp"

namespace jarbook::menu {

// What to say about the exception that is being handled. To be called in a catch block.
Outcome outcome_of_exception(const std::string& title);

// Throws the exception that is being handled as one that a caller of a service may meet: what its
// interface names goes on, all else becomes a RuntimeException. To be called in a catch block.
[[noreturn]] void rethrow_for_caller();

// An outcome in any case.
template <class F>
Outcome guarded(const std::string& title, F f) {
    try {
        return f();
    } catch (...) {
        return outcome_of_exception(title);
    }
}

// For what has nobody to tell.
template <class F>
void quietly(F f) noexcept {
    try {
        f();
    } catch (...) {
        // A window or a listener that has gone.
    }
}

// For services.
template <class F>
auto for_caller(F f) {
    try {
        return f();
    } catch (...) {
        rethrow_for_caller();
    }
}

} // namespace jarbook::menu
