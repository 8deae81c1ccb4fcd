// The look, the help and the check of one box to fill in, held against the pristine one's.
#pragma once

#include "uno/document/cell_address.hpp"

#include <com/sun/star/beans/XPropertySet.hpp>

namespace jarbook::menu {

// Compares cells of two documents, and makes one as the other is. What the cells hold plays no
// part, nor do conditional formats (box_conditions.hpp).
class BoxFormats {
public:
    BoxFormats(Document pristine, Document document)
        : pristine_(std::move(pristine)), document_(std::move(document)) {}

    bool same(const Place& pristine_box, const Place& box) const;
    // The sheet must be unprotected.
    void mend(const Place& pristine_box, const Place& box) const;

private:
    Document pristine_;
    Document document_;
};

} // namespace jarbook::menu
