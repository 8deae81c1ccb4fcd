#include "core/base/refusal.hpp"

#include "texts/lists.hpp"
#include "texts/number.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <utility>

namespace jarbook {

std::string number_text(double value) {
    if (std::isnan(value))
        return std::string(texts::number::not_a_number);
    if (std::isinf(value))
        return std::string(value > 0 ? texts::number::infinity : texts::number::minus_infinity);
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

std::string fixed_text(double value, int decimals) {
    char text[400]; // the largest double has 309 digits before the point
    std::snprintf(text, sizeof text, "%.*f", decimals,
                  std::fabs(value) < 0.5 * std::pow(10.0, -decimals) ? 0.0 : value);
    return text;
}

namespace {
std::string with_unit(std::string number, std::string_view unit) {
    if (unit.empty())
        return number;
    return texts::number::with_unit{.number = std::move(number), .unit = std::string(unit)}.text();
}
std::string hinted(std::string sentence, std::string_view hint) {
    if (hint.empty())
        return sentence;
    return texts::refusal::hinted{.sentence = std::move(sentence), .hint = std::string(hint)}
        .text();
}
} // namespace

std::string pct_vol_text(double strength) {
    return with_unit(number_text(strength), texts::unit::pct_vol);
}

std::string ArgumentPlace::text() const {
    if (!row)
        return std::string(argument);
    return texts::lists::row{.row = std::to_string(*row + 1), .list = std::string(argument)}.text();
}

void refuse(RefusalKind kind, const ArgumentPlace& place, std::string_view value,
            std::string_view sentence) {
    throw Refusal(kind, place, value, sentence);
}

void refuse_range(const ArgumentPlace& place, double value, double lowest, double highest,
                  std::string_view unit, std::string_view hint) {
    const std::string shown = number_text_apart(value, value < lowest ? lowest : highest);
    const std::string sentence =
        std::isinf(highest)
            ? texts::refusal::range_upwards{.place = place.text(),
                                            .value = with_unit(shown, unit),
                                            .lowest = with_unit(number_text(lowest), unit)}
                  .text()
            : texts::refusal::range{.place = place.text(),
                                    .value = with_unit(shown, unit),
                                    .lowest = number_text(lowest),
                                    .highest = with_unit(number_text(highest), unit)}
                  .text();
    refuse(RefusalKind::out_of_range, place, shown, hinted(sentence, hint));
}

void require_range(const ArgumentPlace& place, double value, double lowest, double highest,
                   std::string_view unit, std::string_view hint) {
    // Written so that NaN fails.
    if (!(value >= lowest && value <= highest) || std::isinf(value))
        refuse_range(place, value, lowest, highest, unit, hint);
}

void require_amount(const ArgumentPlace& place, double value) {
    if (!is_amount(value)) // so that NaN fails
        refuse_amount(place, value);
}

void refuse_amount(const ArgumentPlace& place, double value) {
    // The bounds are told only to whom they concern.
    const bool finite = std::isfinite(value);
    const bool tiny = value > 0.0 && value < smallest_amount;
    refuse_range(place, value, 0.0, finite && value > 0.0 ? largest_amount : HUGE_VAL, "",
                 tiny ? texts::refusal::too_small : "");
}

void require_positive(const ArgumentPlace& place, double value, std::string_view unit) {
    if (value != 0.0 && is_amount(value))
        return;
    if (value > 0.0 && std::isfinite(value))
        refuse_range(place, value, smallest_amount, largest_amount, unit);
    const std::string sentence =
        texts::refusal::above_zero{.place = place.text(),
                                   .value = with_unit(number_text(value), unit)}
            .text();
    refuse(RefusalKind::out_of_range, place, number_text(value),
           hinted(sentence, value == 0.0 ? texts::refusal::is_it_empty : ""));
}

void require_strength(const ArgumentPlace& place, double strength) {
    require_range(place, strength, 0.0, 100.0, texts::unit::pct_vol);
}

void require_wished_strength(const ArgumentPlace& place, double strength) {
    if (strength > 0.0 && strength < 1.0)
        refuse(RefusalKind::out_of_range, place, number_text(strength),
               texts::refusal::not_per_cent{.place = place.text(), .value = number_text(strength)}
                   .text());
    require_strength(place, strength);
}

} // namespace jarbook
