#include "uno/explain/error_sentences.hpp"

#include "catalogue.hpp"
#include "texts/calc.hpp"
#include "texts/explain.hpp"
#include "uno/document/error_text.hpp"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace jarbook::menu {

std::string meaning_of(std::int32_t code) {
    switch (code) {
    case 501:
        return std::string(texts::calc::err_501);
    case 502:
        return std::string(texts::calc::err_502);
    case 503:
        return std::string(texts::calc::err_503);
    case 504:
        return std::string(texts::calc::err_504);
    case 508:
        return std::string(texts::calc::err_508);
    case 509:
        return std::string(texts::calc::err_509);
    case 510:
    case 511:
        return std::string(texts::calc::err_511);
    case 513:
    case 514:
    case 515:
    case 516:
    case 517:
        return std::string(texts::calc::err_517);
    case 518:
    case 524:
        return std::string(texts::calc::err_524);
    case 519:
        return std::string(texts::calc::err_519);
    case 520:
        return std::string(texts::calc::err_520);
    case 521:
        return std::string(texts::calc::err_521);
    case 522:
        return std::string(texts::calc::err_522);
    case 523:
        return std::string(texts::calc::err_523);
    case 525:
        return std::string(texts::calc::err_525);
    case 527:
        return std::string(texts::calc::err_527);
    case 532:
        return std::string(texts::calc::err_532);
    case 533:
        return std::string(texts::calc::err_533);
    case 540:
        return std::string(texts::calc::err_540);
    case 32767:
        return std::string(texts::calc::not_available);
    }
    return texts::calc::other{.error = error_text(code)}.text();
}

namespace {

// Of the letters A to Z alone, whatever the locale.
std::string upper(std::string text) {
    for (char& letter : text)
        if (letter >= 'a' && letter <= 'z')
            letter = static_cast<char>(letter - 'a' + 'A');
    return text;
}

bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
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
        return texts::calc::later_function{.name = typed}.text();
    }
    if (!called)
        return texts::calc::no_name{.name = name}.text();
    std::string_view best;
    std::size_t least = near + 1;
    // Longer names than these are no slip of the hand, and take long to compare.
    constexpr std::size_t longest = 64;
    for (const auto& function : catalogue::functions()) {
        if (typed.size() > longest)
            break;
        std::string_view known = function.name;
        // Somebody may have left the prefix out.
        const std::size_t apart =
            std::min(distance(typed, known), distance("SPIRIT." + typed, known) + 1);
        if (apart < least) {
            least = apart;
            best = known;
        }
    }
    if (best.empty())
        return texts::calc::no_function{.name = typed}.text();
    return texts::calc::no_function_but{.name = typed, .known = std::string(best)}.text();
}

std::string text_hint(const std::string& text) {
    if (text.empty())
        return std::string(texts::calc::empty_text_hint);
    if (std::none_of(text.begin(), text.end(), is_digit))
        return "";
    const bool number = std::all_of(text.begin(), text.end(), [](char letter) {
        return is_digit(letter) || std::string_view(".,+-").find(letter) != std::string_view::npos;
    });
    return std::string(number ? texts::calc::number_as_text_hint : texts::calc::only_number_hint);
}

std::string circle_text(const std::vector<std::string>& cells) {
    constexpr std::size_t shown_at_ends = 4;
    const std::string_view uses = texts::explain::circle_uses;
    std::string text;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i == shown_at_ends && cells.size() > 2 * shown_at_ends + 1) {
            const std::size_t left_out = cells.size() - 2 * shown_at_ends;
            text.append(texts::explain::circle_more{.count = std::to_string(left_out)}.text());
            i += left_out;
        }
        if (i > 0)
            text.append(uses);
        text.append(cells[i]);
    }
    return text;
}

std::string finished(std::string sentence) {
    while (!sentence.empty() && sentence.back() == ' ')
        sentence.pop_back();
    if (!sentence.empty() && std::string_view(".?!").find(sentence.back()) == std::string::npos)
        sentence += ".";
    return sentence;
}

} // namespace jarbook::menu
