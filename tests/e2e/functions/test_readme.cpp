// The formulas that README shows give what it says.
#include <cmath>
#include <fstream>
#include <regex>
#include <string>

#include "support/support.hpp"

namespace jarbook::e2e {
namespace {

class Readme : public CalcTest {};

TEST_F(Readme, FormulasGiveWhatItSays) {
    std::ifstream readme(JARBOOK_README);
    ASSERT_TRUE(readme) << JARBOOK_README;
    // An indented line: the formula, two blanks or more, and what it gives.
    const std::regex shown(R"(^    (=SPIRIT\..*\))  +(-?[0-9]+\.?([0-9]*)).*)");
    int compared = 0;
    for (std::string line; std::getline(readme, line);) {
        std::smatch match;
        if (!std::regex_match(line, match, shown))
            continue;
        const double half = 0.5 * std::pow(10.0, -static_cast<double>(match.length(3)));
        EXPECT_TRUE(is_number(evaluate(match[1].str()), std::stod(match[2].str()), half * 1.0001))
            << line;
        ++compared;
    }
    EXPECT_EQ(compared, 3);
}

} // namespace
} // namespace jarbook::e2e
