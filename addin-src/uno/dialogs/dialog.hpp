// A dialog of the office's toolkit, put together control by control.
//
// Positions and sizes are in the toolkit's dialog units (a quarter of a letter's width, an eighth
// of its height).
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

#include <com/sun/star/awt/XControl.hpp>
#include <com/sun/star/awt/XControlContainer.hpp>
#include <com/sun/star/awt/XDialog.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XNameContainer.hpp>

namespace jarbook::menu {

struct Box {
    sal_Int32 x, y, width, height;
};

class Dialog {
public:
    Dialog(const Context& context, const std::string& title, sal_Int32 width, sal_Int32 height);

    // `kind` as in "FixedText" or "Button"; gives its model, for more properties.
    com::sun::star::uno::Reference<com::sun::star::beans::XPropertySet>
    add(const char* kind, const char* name, const Box& box);
    void add_label(const char* name, const Box& box, const std::string& text);
    // A text to read, to copy from, and to scroll.
    void add_reading(const char* name, const Box& box, const std::string& text);
    // A closing button ends execute(), as Escape does.
    enum class Ends { no, yes };
    void add_button(const char* name, const Box& box, const std::string& label, Ends ends);

    // Makes the window, over the frame's.
    void make(const Situation& situation);
    com::sun::star::uno::Reference<com::sun::star::awt::XControl> control(const char* name) const;
    const com::sun::star::uno::Reference<com::sun::star::awt::XControl>& window() const {
        return dialog_;
    }
    // Waits until the person closes it.
    void execute();
    void dispose();

private:
    Context context_;
    com::sun::star::uno::Reference<com::sun::star::beans::XPropertySet> model_;
    com::sun::star::uno::Reference<com::sun::star::awt::XControl> dialog_;
};

} // namespace jarbook::menu
