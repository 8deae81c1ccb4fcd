// Calling the menu's entries, silently, and what comes back.
#pragma once

#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <com/sun/star/uno/Any.hxx>
#include <com/sun/star/util/URL.hpp>
#include <filesystem>
#include <functional>
#include <map>
#include <string>

#include "office.hpp"

namespace jarbook::e2e {

struct Dispatched {
    bool done = false;
    com::sun::star::uno::Any result;
};

com::sun::star::util::URL address_of(const std::string& entry);

com::sun::star::uno::Reference<com::sun::star::frame::XDispatchProvider>
frame_of(const com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>& book);
com::sun::star::uno::Reference<com::sun::star::frame::XDispatchProvider>
frame_of(const office::Document& document);

// `meanwhile` is called in the office's main thread as soon as the command serves windows, which it
// then does after a second.
Dispatched
dispatch(const com::sun::star::uno::Reference<com::sun::star::frame::XDispatchProvider>& provider,
         const std::string& entry, const std::map<std::string, rtl::OUString>& arguments = {},
         const std::function<void()>& meanwhile = {});

void show_sheet(
    const com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>& book,
    const std::string& name);
void show_sheet(const office::Document& document, const std::string& name);

com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>
open_read_only(const std::filesystem::path& file);

} // namespace jarbook::e2e
