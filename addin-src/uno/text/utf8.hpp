// Text between UNO (UTF-16) and the core (UTF-8).
#pragma once

#include <rtl/ustring.hxx>
#include <string>
#include <string_view>

namespace jarbook::addin {

std::string utf8(const rtl::OUString& text);
rtl::OUString ustring(std::string_view utf8);

} // namespace jarbook::addin
