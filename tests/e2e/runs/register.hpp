// What the tests of Runs and Side by side share: the register's rows by their run, and what is done
// to run sheets.
#pragma once

#include "runs/plain_consensus.hpp"
#include "workbooks/workbook.hpp"

#include <map>
#include <string>
#include <variant>
#include <vector>

namespace jarbook::e2e {

// Columns of the register by what they hold (sheets/runs.py).
const std::map<std::string, std::string>& register_columns();

class RunsSheet {
public:
    explicit RunsSheet(const office::Document& document);
    office::Sheet sheet() const { return document_.sheet("Runs"); }
    office::Range block(const std::string& name) const;
    // The row of the run with that title; throws if there is none.
    int row(const std::string& run) const;
    office::Cell at(const std::string& run, const std::string& column) const;
    // The stages and their standard uncertainty of each run that counts, in the order of the rows.
    std::map<std::string, Stated> known(const std::string& still) const;

private:
    NamedSheet named() const { return {document_, "Runs"}; } // rows come and go
    const office::Document& document_;
};

void rename_sheet(const office::Document& document, const std::string& name,
                  const std::string& other);
// The jars of a stripping run as the forecast has them for a still of so many stages.
void run_again(const office::Document& document, const std::string& run, double stages);

} // namespace jarbook::e2e
