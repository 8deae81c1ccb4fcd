#include "core/base/refusal.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace jarbook {

std::string number_text(double value) {
    if (std::isnan(value))
        return "not a number";
    if (std::isinf(value))
        return value > 0 ? "infinity" : "minus infinity";
    if (value == 0.0)
        return "0"; // also what is minus zero to the machine
    char text[64];
    const double size = std::fabs(value);
    // %g drops to exponents below 1e-4 and at 1e6; amounts in millilitres and glass coefficients
    // are both common, so keep plain digits up to 1e9.
    if (size >= 1e5 && size < 1e9)
        std::snprintf(text, sizeof text, "%.0f", value);
    else
        std::snprintf(text, sizeof text, "%.6g", value);
    return text;
}

std::string number_text_apart(double value, double limit) {
    std::string text = number_text(value);
    if (value == limit || text != number_text(limit))
        return text;
    char digits[64];
    for (int count = 7; count <= 17; ++count) {
        std::snprintf(digits, sizeof digits, "%.*g", count, value);
        if (std::strtod(digits, nullptr) != limit)
            break;
    }
    return digits;
}

void refuse(RefusalKind kind, std::string_view argument, std::string_view value,
            std::string_view sentence) {
    // A place in a list ("row 3 of strengths") belongs to the sentence; the argument is its last
    // word.
    throw Refusal(kind, argument.substr(argument.rfind(' ') + 1), value, sentence);
}

namespace {
std::string with_unit(std::string text, std::string_view unit) {
    if (!unit.empty())
        text.append(" ").append(unit);
    return text;
}
std::string hinted(std::string sentence, std::string_view hint) {
    if (!hint.empty())
        sentence.append(". ").append(hint);
    return sentence;
}
} // namespace

void refuse_range(std::string_view argument, double value, double lowest, double highest,
                  std::string_view unit, std::string_view hint, std::string_view place) {
    const std::string shown = number_text_apart(value, value < lowest ? lowest : highest);
    std::string sentence(place.empty() ? argument : place);
    sentence.append(" is ").append(with_unit(shown, unit)).append("; allowed: ");
    if (std::isinf(highest))
        sentence.append(with_unit(number_text(lowest), unit)).append(" or more");
    else
        sentence.append(number_text(lowest))
            .append(" to ")
            .append(with_unit(number_text(highest), unit));
    refuse(RefusalKind::out_of_range, argument, shown, hinted(sentence, hint));
}

void require_range(std::string_view argument, double value, double lowest, double highest,
                   std::string_view unit, std::string_view hint) {
    // Written so that NaN fails.
    if (!(value >= lowest && value <= highest) || std::isinf(value))
        refuse_range(argument, value, lowest, highest, unit, hint);
}

void require_amount(std::string_view argument, double value) {
    if (!is_amount(value)) // so that NaN fails
        refuse_amount(argument, value);
}

void refuse_amount(std::string_view argument, double value, std::string_view place) {
    // The bounds are told only to whom they concern.
    const bool finite = std::isfinite(value);
    const bool tiny = value > 0.0 && value < smallest_amount;
    refuse_range(argument, value, 0.0, finite && value > 0.0 ? largest_amount : HUGE_VAL, "",
                 tiny ? "So little is nothing: type 0" : "", place);
}

void require_positive(std::string_view argument, double value, std::string_view unit) {
    if (value != 0.0 && is_amount(value))
        return;
    if (value > 0.0 && std::isfinite(value))
        refuse_range(argument, value, smallest_amount, largest_amount, unit);
    std::string sentence(argument);
    sentence.append(" is ")
        .append(with_unit(number_text(value), unit))
        .append("; allowed: above 0");
    refuse(RefusalKind::out_of_range, argument, number_text(value),
           hinted(sentence, value == 0.0 ? "Is the cell empty?" : ""));
}

void require_strength(std::string_view argument, double strength) {
    require_range(argument, strength, 0.0, 100.0, "% vol");
}

void require_wished_strength(std::string_view argument, double strength) {
    if (strength > 0.0 && strength < 1.0)
        refuse(RefusalKind::out_of_range, argument, number_text(strength),
               std::string(argument) + " is " + number_text(strength) +
                   "; a strength is written in % vol: 40, not 0.40 (is the cell formatted as "
                   "per cent?)");
    require_strength(argument, strength);
}

} // namespace jarbook
