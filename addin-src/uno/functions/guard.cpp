#include "uno/functions/guard.hpp"

#include <com/sun/star/uno/Sequence.hxx>
#include <string>

namespace jarbook::addin {

using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;

double refused(const char* function, const Refusal& refusal, std::optional<Part> part) {
    const int code = error_code(refusal.kind());
    ReasonLog::get().add({std::string("SPIRIT.") + function, refusal.argument(), refusal.value(),
                          std::string("SPIRIT.") + function + ": " + refusal.sentence(), code,
                          part});
    return error_value(code);
}

double failed(const char* function, const char* what) {
    return refused(function, Refusal(RefusalKind::no_convergence, "", "",
                                     std::string("could not be computed (") + what +
                                         "); please report this with the arguments"));
}

bool has_lost_number(const Any& result) {
    const auto lost = [](const Any& cell) {
        double number = 0.0;
        return (cell >>= number) && !std::isfinite(number) && !is_error_value(number);
    };
    Sequence<Sequence<Any>> rows;
    if (!(result >>= rows))
        return lost(result);
    for (const Sequence<Any>& row : rows)
        for (const Any& cell : row)
            if (lost(cell))
                return true;
    return false;
}

} // namespace jarbook::addin
