// Pages for the system's browser.
#pragma once

#include "uno/document/hidden_document.hpp"

namespace jarbook::menu {

// Hands the page to the system's browser. False if none is known to the desktop: the office itself
// starts the browser in the background and does not hear when there is none.
bool open_page(const Context& context, const rtl::OUString& url);

} // namespace jarbook::menu
