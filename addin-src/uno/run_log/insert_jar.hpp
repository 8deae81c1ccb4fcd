// Room for more jars on a run sheet.
#pragma once

#include "uno/document/hidden_document.hpp"

namespace jarbook::menu {

struct InsertedJars {
    Place first_box; // of the first new jar
    sal_Int32 count = 0;
    int names_back = 0; // lost names of the sheet that were put back on the way
};

// Inserts as many jars as the selection has jars, at least one, before the first of them: before
// the first jar where the selection begins above all jars, behind the last where it begins below.
// One step of Undo. Throws Obstacle where it cannot be done: no run sheet, one of 0.1.0, a
// password, a shared document, something that reaches over several jars.
InsertedJars insert_jars(const Context& context, const Document& document, const Area& selection);

} // namespace jarbook::menu
