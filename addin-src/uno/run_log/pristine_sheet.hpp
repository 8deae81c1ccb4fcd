// The run sheet as Jarbook packs it, and where its cells lie on one that has been used: jars may
// have been inserted there, nothing else.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/run_log/run_sheet.hpp"

#include <memory>

namespace jarbook::menu {

class PristineSheet {
public:
    // Opens the packed run sheet. Throws Obstacle if it is not whole.
    explicit PristineSheet(const Context& context);

    const Document& document() const { return log_.document(); }
    sal_Int32 sheet() const { return sheet_; }
    const JarRows& jars() const { return jars_; }
    const std::vector<SheetName>& names() const { return names_; }
    const rtl::OUString& url() const { return url_; }

private:
    rtl::OUString url_;
    HiddenDocument log_;
    sal_Int32 sheet_ = 0;
    JarRows jars_;
    std::vector<SheetName> names_;
};

// From cells of the pristine sheet to those of a run sheet of the same layout.
class RowsOf {
public:
    RowsOf(const PristineSheet& pristine, sal_Int32 sheet, JarRows jars)
        : from_(pristine.jars()), sheet_(sheet), to_(jars) {}

    const JarRows& jars() const { return to_; }
    sal_Int32 sheet() const { return sheet_; }
    // The row where that row of the pristine sheet is now; the last jar stays the last.
    sal_Int32 here(sal_Int32 pristine_row) const;
    Area here(const Area& pristine_area) const;
    // The row of the pristine sheet after which a row here is made.
    sal_Int32 model_of(sal_Int32 row) const;

private:
    JarRows from_;
    sal_Int32 sheet_;
    JarRows to_;
};

// Where the cells of a run sheet are: by its names, or, where they are lost, by its formulas, which
// must stand where the pristine sheet has them. Nothing if it is no run sheet of this layout, or
// has been changed by hand.
std::optional<RowsOf> rows_of_run_sheet(const PristineSheet& pristine, const Document& document,
                                        sal_Int32 sheet);

// Names of the pristine sheet that the sheet does not have, where they belong on it.
std::vector<SheetName> lost_names(const PristineSheet& pristine, const Document& document,
                                  const RowsOf& rows);
// Puts them back; how many.
int put_names_back(const PristineSheet& pristine, const Document& document, const RowsOf& rows);
// The same for every sheet of a document that is a run sheet without any name.
void put_all_names_back(const PristineSheet& pristine, const Document& document);

// What importing its sheet into another document leaves behind: how it is printed.
void take_over_page(const PristineSheet& pristine, const Document& to, sal_Int32 to_sheet);

} // namespace jarbook::menu
