// The sheet Shelf of a workbook: its lots and its book of movements, as what is typed there.
#pragma once

#include "uno/document/cell_address.hpp"

#include <string>
#include <vector>

namespace jarbook::menu {

// A row of the lots; figures at 20 °C.
struct ShelfLot {
    std::string name;
    std::string kind;
    std::string run; // that made it
    double date = 0;
    double litres = 0;
    double strength = 0;
};

// A row of the book: a lot that was charged into a run.
struct ShelfCharge {
    std::string lot;
    std::string run;
    double date = 0;
    double litres = 0;
    double strength = 0;
};

// Spaces around it and capital letters make no other name.
bool same_name(const std::string& one, const std::string& other);

// What stands in a cell as a text, without spaces around it; its number, or NaN where there is
// none.
std::string text_in(const Document& document, const Place& place);
double number_in(const Document& document, const Place& place);

class ShelfSheet {
public:
    // Throws Obstacle if the document has none.
    explicit ShelfSheet(const Document& document);

    sal_Int32 sheet() const { return lots_.first.sheet; }
    // Names of the lots, blank rows left out.
    std::vector<std::string> lot_names() const;
    // Lots of that run: litres of pure alcohol, or NaN where a lot's row is not complete.
    struct OfRun {
        std::string name;
        std::string kind;
        double alcohol;
    };
    std::vector<OfRun> lots_of(const std::string& run) const;
    // Litres at 20 °C of the movements that charged that lot into that run, none if there is none.
    std::vector<double> charged(const std::string& lot, const std::string& run) const;

    // Writes them into the first rows behind all that are in use, and shows these rows if they are
    // folded. Throws Obstacle, before anything is written, if there are not enough.
    Place add(const std::vector<ShelfLot>& lots) const;
    Place add(const std::vector<ShelfCharge>& charges) const;
    // What its line To look at says, if there is something to look at.
    std::string to_look_at() const;

private:
    Place free_rows(const Area& block, std::size_t count) const;
    void show(const Place& first, std::size_t count) const;
    std::string text(const Area& block, sal_Int32 row, sal_Int32 column) const;
    sal_Int32 column(const char* name) const;

    Document document_;
    Area lots_;
    Area book_;
};

} // namespace jarbook::menu
