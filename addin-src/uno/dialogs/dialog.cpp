#include "uno/dialogs/dialog.hpp"

#include "uno/text/utf8.hpp"

#include <com/sun/star/awt/PushButtonType.hpp>
#include <com/sun/star/awt/Toolkit.hpp>
#include <com/sun/star/awt/XControlModel.hpp>
#include <com/sun/star/awt/XWindowPeer.hpp>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/lang/XMultiServiceFactory.hpp>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {
using Properties = uno::Reference<beans::XPropertySet>;

void set(const Properties& model, const char* name, const uno::Any& value) {
    model->setPropertyValue(rtl::OUString::createFromAscii(name), value);
}

void place(const Properties& model, const Box& box) {
    set(model, "PositionX", uno::Any(box.x));
    set(model, "PositionY", uno::Any(box.y));
    set(model, "Width", uno::Any(box.width));
    set(model, "Height", uno::Any(box.height));
}
} // namespace

Dialog::Dialog(const Context& context, const std::string& title, sal_Int32 width, sal_Int32 height)
    : context_(context) {
    const auto create = [&](const char* service) {
        return context->getServiceManager()->createInstanceWithContext(
            rtl::OUString::createFromAscii(service), context);
    };
    model_.set(create("com.sun.star.awt.UnoControlDialogModel"), uno::UNO_QUERY_THROW);
    place(model_, {60, 40, width, height});
    set(model_, "Title", uno::Any(ustring(title)));
    set(model_, "Moveable", uno::Any(true));
    set(model_, "Closeable", uno::Any(true));
    dialog_.set(create("com.sun.star.awt.UnoControlDialog"), uno::UNO_QUERY_THROW);
}

Properties Dialog::add(const char* kind, const char* name, const Box& box) {
    const uno::Reference<lang::XMultiServiceFactory> factory(model_, uno::UNO_QUERY_THROW);
    std::string service = "com.sun.star.awt.";
    service
        .append(kind == std::string_view("Grid") ? "grid.UnoControlGrid"
                                                 : std::string("UnoControl") + kind)
        .append("Model");
    const Properties control(factory->createInstance(ustring(service)), uno::UNO_QUERY_THROW);
    place(control, box);
    const uno::Reference<container::XNameContainer> controls(model_, uno::UNO_QUERY_THROW);
    controls->insertByName(rtl::OUString::createFromAscii(name), uno::Any(control));
    return control;
}

void Dialog::add_label(const char* name, const Box& box, const std::string& text) {
    const auto label = add("FixedText", name, box);
    set(label, "MultiLine", uno::Any(true));
    set(label, "Label", uno::Any(ustring(text)));
}

void Dialog::add_reading(const char* name, const Box& box, const std::string& text) {
    const auto reading = add("Edit", name, box);
    set(reading, "MultiLine", uno::Any(true));
    set(reading, "ReadOnly", uno::Any(true));
    set(reading, "VScroll", uno::Any(true));
    set(reading, "Text", uno::Any(ustring(text)));
}

void Dialog::add_button(const char* name, const Box& box, const std::string& label, Ends ends) {
    const auto button = add("Button", name, box);
    set(button, "Label", uno::Any(ustring(label)));
    set(button, "DefaultButton", uno::Any(true));
    if (ends == Ends::yes)
        set(button, "PushButtonType", uno::Any(sal_Int16(awt::PushButtonType_CANCEL)));
}

void Dialog::make(const Situation& situation) {
    dialog_->setModel(uno::Reference<awt::XControlModel>(model_, uno::UNO_QUERY_THROW));
    uno::Reference<awt::XWindowPeer> parent;
    if (situation.frame().is())
        parent.set(situation.frame()->getContainerWindow(), uno::UNO_QUERY);
    const uno::Reference<awt::XWindow> window(dialog_, uno::UNO_QUERY_THROW);
    window->setVisible(false);
    const uno::Reference<awt::XToolkit> toolkit(awt::Toolkit::create(context_),
                                                uno::UNO_QUERY_THROW);
    dialog_->createPeer(toolkit, parent);
}

uno::Reference<awt::XControl> Dialog::control(const char* name) const {
    const uno::Reference<awt::XControlContainer> container(dialog_, uno::UNO_QUERY_THROW);
    return container->getControl(rtl::OUString::createFromAscii(name));
}

void Dialog::execute() {
    const uno::Reference<awt::XDialog> dialog(dialog_, uno::UNO_QUERY_THROW);
    dialog->execute();
}

void Dialog::dispose() {
    const uno::Reference<lang::XComponent> component(dialog_, uno::UNO_QUERY);
    dialog_.clear();
    if (component.is())
        component->dispose();
}

} // namespace jarbook::menu
