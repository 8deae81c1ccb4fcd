#include "formulas.hpp"

#include "mixture/plain_r22.hpp"

#include <sstream>

namespace jarbook::benchmark {

namespace {

std::string term(double coefficient, const std::string& of) {
    std::ostringstream text;
    text.precision(17);
    text << (coefficient < 0 ? "-" : "+") << (coefficient < 0 ? -coefficient : coefficient) << of;
    return text.str();
}

} // namespace

std::string native_r22() {
    const plain_r22::Coefficients& c = plain_r22::Coefficients::get();
    constexpr int m[6] = {0, 11, 10, 9, 4, 2};
    const std::string p = "*(A1/100)^";
    const std::string t = "*(B1-20)^";
    std::string text = "=" + term(c.A[1], "").substr(1);
    for (int k = 2; k <= 12; ++k)
        text += term(c.A[k], p + std::to_string(k - 1));
    for (int k = 1; k <= 6; ++k)
        text += term(c.B[k], t + std::to_string(k));
    for (int i = 1; i <= 5; ++i)
        for (int k = 1; k <= m[i]; ++k)
            text += term(c.C[i][k], p + std::to_string(k) + t + std::to_string(i));
    return text;
}

std::string native_lookup() {
    const std::string row = "MATCH(A1;$Table.$A$2:$A$102)";
    const std::string column = "MATCH(B1;$Table.$B$1:$AP$1)";
    const auto at = [&](const std::string& down, const std::string& right) {
        return "INDEX($Table.$B$2:$AP$102;" + row + down + ";" + column + right + ")";
    };
    const std::string p = "(A1-INT(A1))";
    const std::string q = "(B1-INT(B1))";
    return "=(1-" + p + ")*((1-" + q + ")*" + at("", "") + "+" + q + "*" + at("", "+1") + ")+" + p +
           "*((1-" + q + ")*" + at("+1", "") + "+" + q + "*" + at("+1", "+1") + ")";
}

std::vector<Formula> formulas() {
    return {
        {"native SQRT(A²+B²)", "=SQRT(A1^2+B1^2)", ""},
        {"a call that computes nothing, STRENGTH's arguments", "=NOTHING.SCALARS(A1;B1)", ""},
        {"STRENGTH", "=SPIRIT.STRENGTH(A1;B1)",
         "a call that computes nothing, STRENGTH's arguments"},
        {"STRENGTHCOLUMN over all rows, an array formula",
         "=SPIRIT.STRENGTHCOLUMN(A1:A{n};B1:B{n})", "STRENGTH", Formula::Entered::array},
        {"STRENGTHCOLUMN over all rows, in SUMPRODUCT in one cell",
         "=SUMPRODUCT(A1:A{n};SPIRIT.STRENGTHCOLUMN(A1:A{n};B1:B{n}))", "STRENGTH",
         Formula::Entered::one_cell},
        {"DENSITY", "=SPIRIT.DENSITY(A1;B1)", "a call that computes nothing, STRENGTH's arguments"},
        {"R 22's sum as a native formula (density)", native_r22(), ""},
        {"strength by INDEX and MATCH in a table", native_lookup(), ""},
        {"strength by a Basic macro function from a table", "=TABLESTRENGTH(A1;B1)", ""},
        {"a call that computes nothing, FORECASTSTRENGTH's arguments",
         "=NOTHING.MORE(40;40;B1/10;1.15)", ""},
        {"FORECASTSTRENGTH", "=SPIRIT.FORECASTSTRENGTH(40;40;B1/10;1.15)",
         "a call that computes nothing, FORECASTSTRENGTH's arguments"},
        {"FORECASTSTRENGTHCOLUMN over all rows, an array formula",
         "=SPIRIT.FORECASTSTRENGTHCOLUMN(40;40;B1:B{n};1.15)", "FORECASTSTRENGTH",
         Formula::Entered::array},
        {"native SUMPRODUCT of 20 jars", "=SUMPRODUCT(B1:B20;A1:A20)/SUM(B1:B20)", ""},
        {"a call that computes nothing, two lists of 20", "=NOTHING.LISTS(B1:B20;A1:A20)", ""},
        {"BLENDSTRENGTH of 20 jars", "=SPIRIT.BLENDSTRENGTH(B1:B20;A1:A20)",
         "a call that computes nothing, two lists of 20"},
    };
}

} // namespace jarbook::benchmark
