// The cells of a protected sheet that a person can type in.
#pragma once

#include <com/sun/star/table/CellRangeAddress.hpp>
#include <com/sun/star/uno/XInterface.hpp>
#include <vector>

namespace jarbook::office {

// Of a range or a sheet, in the office's order. To be called where the office is called.
std::vector<com::sun::star::table::CellRangeAddress>
open_areas(const com::sun::star::uno::Reference<com::sun::star::uno::XInterface>& cells);

} // namespace jarbook::office
