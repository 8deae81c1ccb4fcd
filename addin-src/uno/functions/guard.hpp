// The one way from a cell into the core and back: run, check finite, turn a refusal into an error.
#pragma once

#include "core/base/refusal.hpp"
#include "texts/arguments.hpp"
#include "uno/functions/arguments.hpp"
#include "uno/functions/reason_log.hpp"

#include <cmath>
#include <exception>
#include <string_view>

namespace jarbook::addin {

// Keeps a reason and gives the error value for the cell; with `part`, for one cell of a result.
double refused(const char* function, const Refusal& refusal, std::optional<Part> part = {});

// What is not a refusal is a defect of ours (or no memory left): an error in the cell all the same,
// with what is known; nothing may leave into the office.
double failed(const char* function, std::string_view what);

// Whether a result for cells holds a number that is neither finite nor an error value of ours.
bool has_lost_number(const com::sun::star::uno::Any& result);

// Runs f, which computes a double in the core. `function` is the display name without its prefix.
template <class F>
double number(const char* function, F f) noexcept {
    try {
        try {
            const double result = f();
            if (std::isfinite(result))
                return result;
            return failed(function, texts::arguments::not_finite);
        } catch (const Refusal& refusal) {
            return refused(function, refusal);
        } catch (const std::exception& defect) {
            return failed(function, defect.what());
        }
    } catch (...) {
        return error_value(error_code(RefusalKind::no_convergence));
    }
}

// Runs f, which gives an any (text, or rows of cells).
template <class F>
com::sun::star::uno::Any any_result(const char* function, F f) noexcept {
    try {
        try {
            com::sun::star::uno::Any result = f();
            if (has_lost_number(result))
                return com::sun::star::uno::Any(failed(function, texts::arguments::not_finite));
            return result;
        } catch (const Refusal& refusal) {
            return com::sun::star::uno::Any(refused(function, refusal));
        } catch (const std::exception& defect) {
            return com::sun::star::uno::Any(failed(function, defect.what()));
        }
    } catch (...) {
        return com::sun::star::uno::Any(error_value(error_code(RefusalKind::no_convergence)));
    }
}

} // namespace jarbook::addin
