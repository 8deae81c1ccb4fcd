#include "uno/run_log/cell_references.hpp"

#include <cctype>

namespace jarbook::menu {

namespace {

constexpr sal_Int32 columns = 16384; // of the widest sheet that Calc knows

bool letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}
bool digit(char c) {
    return c >= '0' && c <= '9';
}
// Bytes above 127 belong to letters of other scripts.
bool of_a_word(char c) {
    return letter(c) || digit(c) || c == '_' || static_cast<unsigned char>(c) >= 128;
}

std::size_t behind_quoted(std::string_view text, std::size_t at) {
    const char quote = text[at];
    for (++at; at < text.size(); ++at)
        if (text[at] == quote) {
            if (at + 1 < text.size() && text[at + 1] == quote)
                ++at;
            else
                return at + 1;
        }
    return text.size();
}

std::string unquoted(std::string_view text) {
    if (text.size() < 2 || text.front() != '\'')
        return std::string(text);
    std::string name;
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
        name += text[i];
        if (text[i] == '\'')
            ++i;
    }
    return name;
}

// The sheet with its dot that begins there, if one does: where it ends.
std::optional<std::size_t> behind_sheet(std::string_view text, std::size_t at, std::string& name) {
    if (at < text.size() && text[at] == '$')
        ++at;
    const std::size_t start = at;
    if (at < text.size() && text[at] == '\'')
        at = behind_quoted(text, at);
    else
        while (at < text.size() && of_a_word(text[at]))
            ++at;
    if (at == start || at >= text.size() || text[at] != '.')
        return std::nullopt;
    name = unquoted(text.substr(start, at - start));
    return at + 1;
}

// A cell that begins there.
std::optional<CellReference> cell_there(std::string_view text, std::size_t at) {
    CellReference found;
    found.begin = found.cell = at;
    if (at < text.size() && text[at] == '$') {
        found.column_fixed = true;
        ++at;
    }
    const std::size_t letters = at;
    while (at < text.size() && letter(text[at]) && at - letters < 4) {
        found.column =
            found.column * 26 + (std::toupper(static_cast<unsigned char>(text[at])) - 'A' + 1);
        ++at;
    }
    if (at == letters || found.column > columns)
        return std::nullopt;
    if (at < text.size() && text[at] == '$') {
        found.row_fixed = true;
        ++at;
    }
    const std::size_t digits = at;
    while (at < text.size() && digit(text[at]) && at - digits < 8) {
        found.row = found.row * 10 + (text[at] - '0');
        ++at;
    }
    if (at == digits || found.row == 0)
        return std::nullopt;
    if (at < text.size() && (of_a_word(text[at]) || text[at] == '(' || text[at] == '.'))
        return std::nullopt;
    --found.column;
    --found.row;
    found.end = at;
    return found;
}

} // namespace

std::vector<CellReference> cell_references(std::string_view formula) {
    std::vector<CellReference> found;
    std::size_t at = 0;
    while (at < formula.size()) {
        const char c = formula[at];
        if (c == '"') {
            at = behind_quoted(formula, at);
            continue;
        }
        if (c != '$' && c != '\'' && !of_a_word(c)) {
            ++at;
            continue;
        }
        std::string sheet;
        const auto behind = behind_sheet(formula, at, sheet);
        if (auto reference = cell_there(formula, behind ? *behind : at)) {
            reference->begin = at;
            if (behind)
                reference->sheet = sheet;
            at = reference->end;
            found.push_back(std::move(*reference));
            continue;
        }
        // A word that is none: all of it, so that its end is not taken for a cell.
        if (c == '\'')
            at = behind_quoted(formula, at);
        else
            for (++at; at < formula.size() && (of_a_word(formula[at]) || formula[at] == '.');
                 ++at) {
            }
    }
    return found;
}

std::string with_rows(const std::string& formula,
                      const std::function<sal_Int32(sal_Int32)>& row_of) {
    std::string text;
    std::size_t done = 0;
    for (const CellReference& reference : cell_references(formula)) {
        std::size_t digits = reference.end;
        while (digits > reference.cell && digit(formula[digits - 1]))
            --digits;
        text.append(formula, done, digits - done);
        text += std::to_string(row_of(reference.row) + 1);
        done = reference.end;
    }
    return text + formula.substr(done);
}

std::string seen_from(const std::string& formula, const Place& cell) {
    std::string text;
    std::size_t done = 0;
    for (const CellReference& reference : cell_references(formula)) {
        text.append(formula, done, reference.cell - done);
        text += reference.column_fixed
                    ? "C" + std::to_string(reference.column)
                    : "C[" + std::to_string(reference.column - cell.column) + "]";
        text += reference.row_fixed ? "R" + std::to_string(reference.row)
                                    : "R[" + std::to_string(reference.row - cell.row) + "]";
        done = reference.end;
    }
    return text + formula.substr(done);
}

std::string sheet_prefix(const std::string& sheet) {
    std::string quoted = "$'";
    for (const char c : sheet) {
        quoted += c;
        if (c == '\'')
            quoted += c;
    }
    return quoted + "'.";
}

} // namespace jarbook::menu
