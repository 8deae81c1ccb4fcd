// What the tests of faults share.
#pragma once

#include <filesystem>
#include <string>

#include "office.hpp"

namespace jarbook::faults {

inline constexpr char identifier[] = "org.jarbook.calc";

// A folder for this test, removed with it.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const std::filesystem::path& path() const { return path_; }
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

private:
    std::filesystem::path path_;
};

// A cell works: a reading of 50 at 10 °C is 53.67 % vol.
void expect_works(office::Document& document);

// Column A of the first sheet, rows 1 to n: true strengths of readings that go with the row; column
// B: a list function over the rows so far.
void fill_with_calls(office::Document& document, int rows);
// The formulas are all there, and show the results.
void expect_results(office::Document& document, int rows);
// The formulas are all there, and each shows its result or an error: never another number.
void expect_results_or_errors(office::Document& document, int rows);
// The formulas are all there, and each shows an error.
void expect_errors(office::Document& document, int rows);

} // namespace jarbook::faults
