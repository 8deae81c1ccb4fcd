#include "judge.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace jarbook::habits {

namespace {

constexpr int faults_told = 20;

std::string cell_name(std::size_t column, std::size_t row) {
    std::string name;
    for (std::size_t c = column + 1; c > 0; c = (c - 1) / 26)
        name.insert(name.begin(), static_cast<char>('A' + (c - 1) % 26));
    return name + std::to_string(row + 1);
}

class Faults {
public:
    template <class... Parts>
    void tell(const Parts&... parts) {
        if (++count_ > faults_told)
            return;
        (text_ << ... << parts) << "\n";
    }
    std::string text() const { return count_ > 0 ? text_.str() : ""; }

private:
    std::ostringstream text_;
    int count_ = 0;
};

// Sums may be put together in another order after a change than on loading.
bool same_value(const std::string& a, const std::string& b) {
    if (a == b)
        return true;
    if (!a.starts_with('n') || !b.starts_with('n'))
        return false;
    const double one = std::stod(a.substr(1));
    const double other = std::stod(b.substr(1));
    return std::abs(one - other) <= 1e-9 * std::max(1.0, std::abs(other));
}

// A box that holds what is no number, where only a number can be used.
bool no_number(const std::string& value) {
    return value == "error" || value.starts_with('t');
}

} // namespace

RunLog& Judge::fresh(int jars) {
    auto& log = fresh_[jars];
    if (!log) {
        log = std::make_unique<RunLog>(office_, file_);
        while (log->jars() < jars) {
            const Block amounts = log->named("jar_amount", log->jars());
            log->command("insertJar", {amounts.column, amounts.row, 1,
                                       std::min(amounts.rows, jars - log->jars())});
        }
    }
    return *log;
}

std::string Judge::faults(RunLog& log) {
    Faults faults;
    const auto there = log.content();
    const int jars = log.jars();
    const auto where = [&](const char* name) { return log.named(name, jars); };
    RunLog& afresh = fresh(jars);
    afresh.type_afresh(there);
    const auto wanted = afresh.content();
    const RunLog::BoxMap boxes = log.box_map();
    if (!log.is_protected())
        faults.tell("the sheet is not protected any more");
    if (there.values.size() != wanted.values.size()) {
        faults.tell("rows in use: ", there.values.size(), ", afresh ", wanted.values.size());
        return faults.text();
    }
    for (std::size_t r = 0; r < wanted.values.size(); ++r)
        for (std::size_t c = 0; c < wanted.values[r].size(); ++c) {
            if (boxes.has(static_cast<int>(c), static_cast<int>(r)))
                continue;
            if (c < there.values[r].size() && there.formulas[r][c] != wanted.formulas[r][c])
                faults.tell("formula of ", cell_name(c, r), ": ", there.formulas[r][c], ", afresh ",
                            wanted.formulas[r][c]);
            const std::string& value =
                c < there.values[r].size() ? there.values[r][c] : std::string();
            if (!same_value(value, wanted.values[r][c]))
                faults.tell(cell_name(c, r), ": ", value, ", afresh ", wanted.values[r][c]);
            if (value == "error")
                faults.tell(cell_name(c, r), " shows an error: ", there.formulas[r][c]);
        }
    const auto at = [&](const Block& block, int row) -> const std::string& {
        return there.values[static_cast<std::size_t>(row)][static_cast<std::size_t>(block.column)];
    };
    // What cannot be used is named in its row, and nothing is computed from it.
    const Block checks = where("jar_check");
    for (int row = checks.row; row < checks.row + checks.rows; ++row) {
        bool unusable = false;
        for (const char* name : {"jar_clock", "jar_amount", "jar_reading", "jar_temperature"})
            unusable = unusable || no_number(at(where(name), row));
        if (!unusable)
            continue;
        if (at(checks, row).empty())
            faults.tell("nothing is said of row ", row + 1);
        for (const char* name : {"jar_amount", "jar_reading", "jar_temperature"})
            if (no_number(at(where(name), row)) && !at(where("jar_volume"), row).empty())
                faults.tell("row ", row + 1, " has a volume from what is no number");
    }
    const Block look = where("look");
    if (at(look, look.row).empty() || at(look, look.row) == "error")
        faults.tell("To look at is empty or shows an error");
    return faults.text();
}

std::string Judge::faults_of_mending(RunLog& log) {
    Faults faults;
    const auto before = log.content();
    const Block cursor{0, 0, 1, 1};
    const std::string first = log.command("mendBoxes", cursor);
    const auto after = log.content();
    for (std::size_t r = 0; r < std::min(before.values.size(), after.values.size()); ++r)
        for (std::size_t c = 0; c < std::min(before.values[r].size(), after.values[r].size()); ++c)
            if (!same_value(before.values[r][c], after.values[r][c]))
                faults.tell("mending changed ", cell_name(c, r), " from ", before.values[r][c],
                            " to ", after.values[r][c]);
    const std::string second = log.command("mendBoxes", cursor);
    if (second.find("as they should be") == std::string::npos)
        faults.tell("mended twice: ", first, " / ", second);
    return faults.text();
}

} // namespace jarbook::habits
