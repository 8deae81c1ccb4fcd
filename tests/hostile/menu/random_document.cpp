#include "documents.hpp"

#include <random>

namespace jarbook::hostile {

using office::FlatFile;
using Rows = FlatFile::Rows;

namespace {

class RandomFormulas {
public:
    explicit RandomFormulas(std::uint64_t seed) : random_(seed) {}

    HardDocument document(std::uint64_t seed) {
        FlatFile file;
        for (const char* sheet : {"Sheet1", "Run 2", "It's"}) {
            Rows rows;
            for (int row = 0; row < 40; ++row) {
                rows.emplace_back();
                for (int column = 0; column < 6; ++column)
                    rows.back().push_back(content(3));
            }
            file.add_sheet(sheet, rows);
        }
        file.add_name("ONE", cell() + "*2");
        file.add_name("TWO", "ONE+" + call(2));
        return {"random " + std::to_string(seed),
                file,
                {},
                std::string(1, static_cast<char>('A' + below(6))) + std::to_string(1 + below(40))};
    }

private:
    int below(int end) { return std::uniform_int_distribution<int>(0, end - 1)(random_); }
    std::string pick(std::initializer_list<const char*> from) {
        return *(from.begin() + below(static_cast<int>(from.size())));
    }
    std::string content(int depth) {
        switch (below(5)) {
        case 0:
            return "";
        case 1:
            return pick({"20", "0", "55", "0.4", "-3", "1e300", "100"});
        case 2:
            return pick({"hearts", "31,5", "50", "", " ", "% vol"});
        default:
            return "=" + expression(depth);
        }
    }
    std::string place() {
        return "." + std::string(below(2) ? "$" : "") + static_cast<char>('A' + below(6)) +
               std::to_string(1 + below(40));
    }
    std::string cell() {
        const std::string sheet = pick({"", "", "$'Run 2'", "$'It''s'"});
        return "[" + sheet + place() + "]";
    }
    std::string area() { return "[" + place() + ":" + place() + "]"; }
    std::string expression(int depth) {
        if (depth == 0)
            return below(3) ? cell() : pick({"20", "\"x\"", "0", "#N/A", "ONE"});
        switch (below(8)) {
        case 0:
            return cell();
        case 1:
            return expression(depth - 1) + pick({"+", "*", "/", "&", "=", "-"}) +
                   expression(depth - 1);
        case 2:
            return pick({"SUM(", "MAX(", "SUMPRODUCT(", "COUNT("}) + area() + ")";
        case 3:
            return pick({"IF(", "CHOOSE("}) + expression(depth - 1) + ";" + expression(depth - 1) +
                   ";" + expression(depth - 1) + ")";
        case 4:
            return "INDEX(" + area() + ";ROW()-" + std::to_string(below(5)) + ";" +
                   std::to_string(below(4)) + ")";
        case 5:
            return pick({"IFERROR(", "IFNA("}) + expression(depth - 1) + ";" +
                   expression(depth - 1) + ")";
        case 6:
            return pick({"TWO", "NOWHERE", "INDIRECT(\"A\"&ROW())", "OFFSET([.A1];2;1)",
                         "FORMULA([.A2])", "SUMPRODUCT([.A1:.A9]/[.B1:.B9])"});
        default:
            return call(depth);
        }
    }
    std::string call(int depth) {
        const std::string one = expression(depth - 1);
        const std::string two = expression(depth - 1);
        switch (below(5)) {
        case 0:
            return "ORG.JARBOOK.SPIRIT.STRENGTH(" + one + ";" + two + ")";
        case 1:
            return "ORG.JARBOOK.SPIRIT.MASS(" + one + ";" + two + ")";
        case 2:
            return "ORG.JARBOOK.SPIRIT.PUREALCOHOL(" + area() + ";" + area() + ")";
        case 3:
            return "INDEX(ORG.JARBOOK.SPIRIT.CUTTABLE(" + area() + ";" + area() + ";" + area() +
                   ");2;2)";
        default:
            return "ORG.JARBOOK.SPIRIT.CHARGECHECK(" + one + ";" + two + ";" + cell() + ")";
        }
    }

    std::mt19937_64 random_;
};

} // namespace

HardDocument random_document(std::uint64_t seed) {
    return RandomFormulas(seed).document(seed);
}

} // namespace jarbook::hostile
