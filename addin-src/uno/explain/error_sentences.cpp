#include "uno/explain/error_sentences.hpp"

#include "catalogue.hpp"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <utility>
#include <vector>

namespace jarbook::menu {

std::string meaning_of(sal_Int32 code) {
    switch (code) {
    case 501:
        return "There is a character in the formula that does not belong there.";
    case 502:
        return "A number is outside the range that the function has.";
    case 503:
        return "The computation gives no number that can be shown.";
    case 504:
        return "An argument is of a kind that the function does not take.";
    case 508:
        return "A bracket is missing.";
    case 509:
        return "An operator is missing between two values.";
    case 510:
    case 511:
        return "A value is missing: an operator or a function has too few of them.";
    case 513:
    case 514:
    case 515:
    case 516:
    case 517:
        return "The formula is too long or too deeply nested for the office.";
    case 518:
    case 524:
        return "A cell, column, row or sheet that the formula used is no longer there.";
    case 519:
        return "A text stands where a number is needed.";
    case 520:
        return "The office could not make sense of the formula.";
    case 521:
        return "Two ranges that should overlap have no cell in common.";
    case 522:
        return "The formula depends on its own result.";
    case 523:
        return "The computation comes to no end.";
    case 525:
        return "There is a name in the formula that the office does not know.";
    case 527:
        return "Formulas are nested too deeply.";
    case 532:
        return "A number is divided by zero.";
    case 533:
        return "An array stands inside another.";
    case 540:
        return "The document's security settings do not allow this content.";
    case 32767:
        return "The value is not available: nothing was found, or a list has nothing in that "
               "place.";
    }
    return "The office gives the error " + error_text(code) + ".";
}

namespace {

std::string upper(std::string text) {
    for (char& letter : text)
        letter = static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    return text;
}

// Insertions, deletions and exchanges from one to the other.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t corner = std::exchange(row[0], i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t exchange = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
            corner = row[j];
            row[j] = std::min({exchange, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row[b.size()];
}

// So far apart a name still counts as a slip of the hand.
constexpr std::size_t near = 3;

} // namespace

std::string unknown_name(const std::string& name, bool called) {
    std::string typed = upper(name);
    // As stored in files: the service's name before the method's.
    constexpr std::string_view stored = "ORG.JARBOOK.";
    if (typed.starts_with(stored)) {
        typed.erase(0, stored.size());
        return "This version of the extension has no function " + typed +
               ". Was the workbook made with a later one?";
    }
    std::string sentence = called ? "There is no function " + typed
                                  : "The name " + name + " is not defined in this document";
    std::string_view best;
    std::size_t least = near + 1;
    for (const auto& function : catalogue::functions()) {
        std::string_view known = function.name;
        // Somebody may have left the prefix out.
        const std::size_t apart =
            std::min(distance(typed, known), distance("SPIRIT." + typed, known) + 1);
        if (apart < least) {
            least = apart;
            best = known;
        }
    }
    if (called && !best.empty())
        return sentence + "; is " + std::string(best) + " meant?";
    return sentence + ". Is it spelt right?";
}

std::string text_hint(const std::string& text) {
    const bool digits =
        std::any_of(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c); });
    if (text.empty())
        return "A formula there gives an empty text.";
    if (!digits)
        return "";
    const auto only = [&](std::string_view allowed) {
        return std::all_of(text.begin(), text.end(), [&](char c) {
            return std::isdigit(static_cast<unsigned char>(c)) ||
                   allowed.find(c) != std::string_view::npos;
        });
    };
    if (only(".,+-"))
        return "It looks like a number that the office took for text: type it again with this "
               "office's decimal sign, and not after an apostrophe or in a cell formatted as text.";
    return "Only the number belongs in the cell, without unit or remark.";
}

} // namespace jarbook::menu
