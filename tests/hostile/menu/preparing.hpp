// What is done to a document after it was opened, that a file cannot carry.
#pragma once

#include <com/sun/star/uno/Any.hxx>

#include "office.hpp"

namespace jarbook::hostile {

// A command of the office itself, in the document's window: ".uno:SetInputMode".
void call_office(office::Office& office, office::Document& document, const char* command);
// A sheet and the document's structure.
void protect(office::Office& office, office::Document& document, const office::Sheet& sheet,
             const char* password);
void set_property(office::Office& office,
                  const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& object,
                  const char* name, const com::sun::star::uno::Any& value);

} // namespace jarbook::hostile
