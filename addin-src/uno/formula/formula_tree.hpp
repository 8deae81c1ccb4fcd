// Makes the tree of a formula from its tokens.
#pragma once

#include "uno/formula/node.hpp"

namespace jarbook::menu {

// Tokens with absolute references, names opened. Never fails: what is no formula (Calc keeps what
// was typed) becomes an operation of what could be read.
Node tree(const Tokens& tokens, const OpCodes& codes);

// The cells that a token's data refer to, if it is a reference within the document.
std::optional<Area> area_of(const com::sun::star::uno::Any& reference);

} // namespace jarbook::menu
