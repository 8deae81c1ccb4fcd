// What the tests of the menu share: the inspector's findings, and whether a document was left
// alone.
#pragma once

#include "support/support.hpp"

#include <com/sun/star/sheet/XSpreadsheetDocument.hpp>
#include <org/jarbook/XInspector.hpp>

namespace jarbook::e2e {

struct Finding {
    std::string cell;
    std::string kind;
    std::string function;
    std::string argument;
    std::string value;
    std::string sentence;
    int code = 0;
    std::string input; // the cell to correct, where that is another one
};
std::ostream& operator<<(std::ostream& out, const Finding& finding);
using Findings = std::vector<Finding>;

// A test with a new document of its own.
class MenuTest : public testing::Test {
protected:
    void SetUp() override { document_.emplace(shared_office().new_document()); }
    void TearDown() override { document_.reset(); }

    office::Document& document() { return *document_; }
    office::Sheet sheet() { return document().sheet(); }
    office::Cell cell(const std::string& address) { return sheet().cell(address); }
    // Names a formula expression.
    void define(const std::string& name, const std::string& content);

private:
    std::optional<office::Document> document_;
};

com::sun::star::uno::Reference<org::jarbook::XInspector> inspector();

Findings explain(office::Document& document, const std::string& cell, int sheet = 0);
Findings check_sheet(office::Document& document, int sheet = 0);

// The finding about that cell of that kind whose sentence holds the text; fails if there is none.
testing::AssertionResult has_finding(const Findings& findings, const std::string& cell,
                                     const std::string& kind, const std::string& text);

// Everything about a document that a command which only looks must leave alone: all formulas and
// values, sheets, names, charts, undo steps, the modified flag and the address.
std::string everything_about(office::Document& document);

// What the charts of a sheet draw: "$Sheet1.$A$1:$A$4" …
std::vector<std::string> drawn_ranges(office::Office& office, const office::Sheet& sheet);

// Shows the cells in another style where the formula is true.
void add_condition(office::Document& document, const std::string& cells,
                   const std::string& formula);

// A document that was opened by somebody else than the harness.
void close(const com::sun::star::uno::Reference<com::sun::star::sheet::XSpreadsheetDocument>&);

void set_automatic_calculation(office::Document& document, bool on);

// Names a cell's column and row, counted from 0: "C5".
std::pair<int, int> position(const std::string& cell);

} // namespace jarbook::e2e
