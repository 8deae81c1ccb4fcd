// Storing a document under another name, with an answer that a person understands when it fails.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/document/properties.hpp"

namespace jarbook::menu {

// Throws io::IOException with what may be the matter. On a full disk the office leaves a lock file
// without content, for which it would refuse that name from then on: it is taken away.
void store_to(const Context& context, const Document& document, const rtl::OUString& url,
              const Properties& properties);

} // namespace jarbook::menu
