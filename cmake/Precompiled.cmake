# Headers that are read once for many files: half of the time that building takes. Each file still
# names what it includes; scripts/release, which builds without these, would fail otherwise.
option(JARBOOK_PRECOMPILED "Read headers that many files include once" ON)
if(NOT JARBOOK_PRECOMPILED)
    set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON)
endif()
set(STANDARD_HEADERS
    <algorithm> <array> <chrono> <cmath> <cstdint> <cstdio> <cstdlib> <filesystem> <fstream> <functional>
    <iostream> <limits> <map> <memory> <optional> <random> <set> <sstream> <stdexcept> <string>
    <string_view> <tuple> <utility> <variant> <vector>)
set(UNO_HEADERS
    <com/sun/star/beans/XPropertySet.hpp>
    <com/sun/star/container/XIndexAccess.hpp>
    <com/sun/star/container/XNameAccess.hpp>
    <com/sun/star/container/XNamed.hpp>
    <com/sun/star/document/XUndoManagerSupplier.hpp>
    <com/sun/star/frame/XModel.hpp>
    <com/sun/star/frame/XStorable.hpp>
    <com/sun/star/lang/XMultiServiceFactory.hpp>
    <com/sun/star/sheet/XCellRangeAddressable.hpp>
    <com/sun/star/sheet/XCellRangeData.hpp>
    <com/sun/star/sheet/XCellRangesQuery.hpp>
    <com/sun/star/sheet/XFormulaTokens.hpp>
    <com/sun/star/sheet/XSheetCellCursor.hpp>
    <com/sun/star/sheet/XSheetCellRanges.hpp>
    <com/sun/star/sheet/XSpreadsheet.hpp>
    <com/sun/star/sheet/XSpreadsheetDocument.hpp>
    <com/sun/star/table/XColumnRowRange.hpp>
    <com/sun/star/uno/Sequence.hxx>
    <com/sun/star/uno/XComponentContext.hpp>)
