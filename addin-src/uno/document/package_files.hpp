// Files that come in the extension's package.
#pragma once

#include "uno/document/hidden_document.hpp"

namespace jarbook::menu {

namespace packed {
inline constexpr char run_log[] = "template/Jarbook/jarbook-run-log.ots";
// Guide, run sheet and register of a blank run log alone.
inline constexpr char run_sheet[] = "workbooks/jarbook-run-sheet.ots";
inline constexpr char worked_example[] = "workbooks/jarbook-worked-example.ods";
inline constexpr char functions[] = "functions.html";
} // namespace packed

// Address of a packed file. Throws IOException if the package is not found, as while it is being
// removed.
rtl::OUString packed_url(const Context& context, const char* path);

// Names of sheets in the packed workbooks.
inline constexpr char functions_sheet[] = "Functions";
inline constexpr char printed_sheet[] = "Printed tables";

} // namespace jarbook::menu
