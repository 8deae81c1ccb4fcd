// Where a command is called: the window, its document, what is selected.
#pragma once

#include "uno/document/hidden_document.hpp"

#include <com/sun/star/frame/XFrame.hpp>
#include <vector>

namespace jarbook::menu {

// Where a command is called.
class Situation {
public:
    Situation(Context context, com::sun::star::uno::Reference<com::sun::star::frame::XFrame> frame)
        : context_(std::move(context)), frame_(std::move(frame)) {}

    const Context& context() const { return context_; }
    const com::sun::star::uno::Reference<com::sun::star::frame::XFrame>& frame() const {
        return frame_;
    }
    // The Calc document of the frame, or none.
    Document document() const;
    bool read_only() const;
    // Index of the sheet that is shown.
    sal_Int32 sheet() const;
    // What is selected, if it is cells.
    std::vector<Area> selection() const;
    // Selects an area (which shows its sheet).
    void select(const Area& area) const;

private:
    Context context_;
    com::sun::star::uno::Reference<com::sun::star::frame::XFrame> frame_;
};

} // namespace jarbook::menu
