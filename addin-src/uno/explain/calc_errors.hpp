// Errors that began in the office's own functions and operators.
#pragma once

#include "uno/explain/error_sentences.hpp"
#include "uno/explain/finding.hpp"
#include "uno/explain/formula_parts.hpp"

namespace jarbook::menu {

// What is wrong with a part of a formula whose own parts are in order.
Finding began_here(FormulaParts& parts, const FormulaParts::Where& where, const Node& node,
                   sal_Int32 code);

} // namespace jarbook::menu
