// The conditional formats of a run sheet (what marks a box as wrong), held against the pristine
// sheet's.
#pragma once

#include "uno/run_log/pristine_sheet.hpp"

#include <string>
#include <vector>

namespace jarbook::menu {

class BoxConditions {
public:
    BoxConditions(const PristineSheet& pristine, const Document& document, const RowsOf& rows);

    // Whether a box has the conditions that the pristine sheet has there, and no others.
    bool same(const Place& box) const;
    // Sets them anew on boxes from which BoxFormats has taken whatever was there. The sheet must be
    // unprotected.
    void mend(const std::vector<Place>& boxes) const;

private:
    struct Condition {
        std::vector<Area> areas;
        sal_Int32 op = 0; // com.sun.star.sheet.ConditionOperator
        std::string first;
        std::string second;
        std::string style;
        Place base; // the cell that free references of the formulas are seen from
    };
    static std::vector<Condition> conditions_of(const Document& document, sal_Int32 sheet);
    // What holds of a cell: its conditions, as seen from there, in one text each.
    static std::vector<std::string> at(const std::vector<Condition>& conditions, const Place& cell);

    Document document_;
    sal_Int32 sheet_;
    std::vector<Condition> wanted_; // where they belong on the sheet
    std::vector<Condition> there_;
};

} // namespace jarbook::menu
