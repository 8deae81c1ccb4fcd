// Documents that a person may well have, and that are hard on a command.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "flat_file.hpp"
#include "office.hpp"

namespace jarbook::hostile {

struct HardDocument {
    std::string name;
    office::FlatFile file;
    // What a file cannot carry; after it was opened.
    std::function<void(office::Office&, office::Document&)> prepare = {};
    // On the first sheet, or on this one; "": the first jar of a run sheet.
    std::string select = "A1";
    std::string sheet = {};
    bool read_only = false;
    // The document is asked to close while a command works.
    bool closed_meanwhile = false;
    // A packed workbook instead of `file`.
    std::filesystem::path workbook = {};
};

// `size`: cells of the larger ones.
std::vector<HardDocument> hard_documents(int size);
// Packed workbooks to which something was done that the run log's commands have to bear; no larger
// however large the others are, but for the number of their sheets.
std::vector<HardDocument> hard_run_logs(int size);
// A document of random formulas that use each other and our functions.
HardDocument random_document(std::uint64_t seed);
// Documents whose commands are timed: their work should grow with the cells.
std::vector<HardDocument> growing_documents(int size);

} // namespace jarbook::hostile
