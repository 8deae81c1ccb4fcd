// Pages for the system's browser.
#pragma once

#include "uno/document/hidden_document.hpp"

namespace jarbook::menu {

// Asks the system to show the page in its browser. False if the system refuses; whether a browser
// then comes up nobody tells.
bool open_page(const Context& context, const rtl::OUString& url);

} // namespace jarbook::menu
