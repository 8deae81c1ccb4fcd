#include "uno/functions/guard.hpp"

#include "texts/arguments.hpp"

#include <com/sun/star/uno/Sequence.hxx>
#include <string>

namespace jarbook::addin {

using com::sun::star::uno::Any;
using com::sun::star::uno::Sequence;

double refused(const char* function, const Refusal& refusal, std::optional<Part> part) {
    const int code = error_code(refusal.kind());
    const std::string name = std::string("SPIRIT.") + function;
    ReasonLog::get().add(
        {name, refusal.argument(), refusal.value(),
         texts::arguments::sentence{.function = name, .reason = refusal.sentence()}.text(), code,
         part, refusal.row()});
    return error_value(code);
}

double failed(const char* function, std::string_view what) {
    return refused(function, Refusal(RefusalKind::no_convergence, "", "",
                                     texts::arguments::defect{.what = std::string(what)}.text()));
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
