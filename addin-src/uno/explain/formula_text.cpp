// Formula text for people; kept apart from UNO so that it can be tested alone.
#include "uno/explain/formula_text.hpp"

#include <algorithm>

namespace jarbook::menu {

namespace {

// The end of what stands in quotation marks from `at` on; a doubled mark belongs to it.
std::size_t end_of_quoted(std::string_view text, std::size_t at) {
    const char mark = text[at];
    for (++at; at < text.size(); ++at)
        if (text[at] == mark && (++at == text.size() || text[at] != mark))
            return at;
    return text.size();
}

std::string quoted(const std::string& sheet) {
    std::string name = "'";
    for (const char letter : sheet)
        name.append(letter == '\'' ? 2 : 1, letter);
    return name + "'";
}

// Whether Calc writes the sheet's name without quotation marks.
bool is_plain(const std::string& sheet) {
    const auto is_digit = [](unsigned char c) { return c >= '0' && c <= '9'; };
    return !sheet.empty() && !is_digit(static_cast<unsigned char>(sheet.front())) &&
           std::all_of(sheet.begin(), sheet.end(), [&](unsigned char c) {
               return is_digit(c) || c == '_' || c >= 0x80 || (c >= 'a' && c <= 'z') ||
                      (c >= 'A' && c <= 'Z');
           });
}

} // namespace

std::string as_typed(const std::string& printed, const std::string& own_sheet) {
    const std::string own_plain = own_sheet + ".";
    const std::string own_quoted = quoted(own_sheet) + ".";
    const std::string own_printed = "'" + own_sheet + "'."; // Calc does not double the mark within
    const bool plain = is_plain(own_sheet);
    const std::string_view all = printed;
    std::string text;
    bool begins = true; // nothing of a name stands before
    for (std::size_t at = 0; at < all.size();) {
        const char letter = all[at];
        if (letter == '"') {
            const std::size_t end = end_of_quoted(all, at);
            text.append(all.substr(at, end - at));
            at = end;
            begins = false;
            continue;
        }
        if (letter == '$') {
            ++at;
            continue;
        }
        if (begins && all.substr(at).starts_with(own_quoted)) {
            at += own_quoted.size();
            continue;
        }
        if (begins && all.substr(at).starts_with(own_printed)) {
            at += own_printed.size();
            continue;
        }
        if (begins && plain && all.substr(at).starts_with(own_plain)) {
            at += own_plain.size();
            continue;
        }
        if (letter == '\'') {
            const std::size_t end = end_of_quoted(all, at);
            text.append(all.substr(at, end - at));
            at = end;
            begins = false;
            continue;
        }
        text += letter;
        ++at;
        begins = std::string_view(" ;:()+-*/^&=<>~!{}|,").find(letter) != std::string_view::npos;
    }
    return text;
}

} // namespace jarbook::menu
