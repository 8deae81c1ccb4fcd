#include "uno/dialogs/findings_dialog.hpp"

#include "texts/dialog.hpp"
#include "uno/dialogs/dialog.hpp"
#include "uno/dialogs/hears_closing.hpp"
#include "uno/text/utf8.hpp"

#include <algorithm>
#include <com/sun/star/awt/grid/XGridColumnModel.hpp>
#include <com/sun/star/awt/grid/XGridRowSelection.hpp>
#include <com/sun/star/awt/grid/XGridSelectionListener.hpp>
#include <com/sun/star/awt/grid/XMutableGridDataModel.hpp>
#include <com/sun/star/awt/PosSize.hpp>
#include <com/sun/star/awt/XActionListener.hpp>
#include <com/sun/star/awt/XButton.hpp>
#include <com/sun/star/awt/XMouseListener.hpp>
#include <com/sun/star/awt/XTextComponent.hpp>
#include <com/sun/star/awt/XTopWindow.hpp>
#include <com/sun/star/awt/XTopWindowListener.hpp>
#include <com/sun/star/awt/XWindow.hpp>
#include <com/sun/star/view/SelectionType.hpp>
#include <cppuhelper/implbase4.hxx>
#include <rtl/ref.hxx>

namespace jarbook::menu {

using namespace com::sun::star;
using addin::ustring;

namespace {

constexpr sal_Int32 width = 330;
constexpr sal_Int32 height = 214;
// More rows than anybody reads, and no more than the list shows at once.
constexpr std::size_t most_rows = 1000;

std::string_view kind_label(Finding::Kind kind) {
    switch (kind) {
    case Finding::Kind::passed_on:
        return texts::dialog::kind_passed_on;
    case Finding::Kind::error:
        return texts::dialog::kind_error;
    case Finding::Kind::odd:
        return texts::dialog::kind_odd;
    case Finding::Kind::empty:
        return texts::dialog::kind_empty;
    case Finding::Kind::stale:
        return texts::dialog::kind_stale;
    }
    return {};
}

class FindingsDialog final
    : public HearsClosing<
          cppu::WeakImplHelper4<awt::XActionListener, awt::grid::XGridSelectionListener,
                                awt::XMouseListener, awt::XTopWindowListener>> {
public:
    FindingsDialog(const Situation& situation, const Outcome& outcome)
        : situation_(situation), findings_(outcome.findings), sheet_(situation.sheet()),
          dialog_(situation.context(), outcome.title, width, height) {
        std::string heading =
            outcome.text.empty() ? std::string(texts::dialog::way_to_error) : outcome.text;
        if (findings_.size() > most_rows) {
            heading += " " + texts::dialog::more_rows{.shown = std::to_string(most_rows),
                                                      .all = std::to_string(findings_.size())}
                                 .text();
            findings_.resize(most_rows);
        }
        dialog_.add_label("heading", {6, 5, width - 12, 10}, heading);
        add_list();
        dialog_.add_reading("sentence", {6, 128, width - 12, 60}, "");
        dialog_.add_button("go", {width - 126, 194, 60, 14}, std::string(texts::dialog::go_to_cell),
                           Dialog::Ends::no);
        dialog_.add_button("close", {width - 61, 194, 55, 14}, std::string(texts::dialog::close),
                           Dialog::Ends::no);
    }

    // Apart from the constructor, because listeners need a reference to a whole object.
    void open() {
        dialog_.make(situation_);
        listen();
        const uno::Reference<awt::grid::XGridRowSelection> rows(dialog_.control("list"),
                                                                uno::UNO_QUERY_THROW);
        // What is looked for: where the error began, not the way to it.
        const auto began =
            std::find_if(findings_.begin(), findings_.end(), [](const Finding& finding) {
                return finding.kind != Finding::Kind::passed_on;
            });
        const auto row = began == findings_.end() ? 0 : began - findings_.begin();
        rows->selectRow(static_cast<sal_Int32>(row));
        tell(static_cast<sal_Int32>(row));
        const uno::Reference<awt::XWindow> window(dialog_.window(), uno::UNO_QUERY_THROW);
        out_of_the_way(window);
        window->setVisible(true);
        const uno::Reference<awt::XWindow> list(dialog_.control("list"), uno::UNO_QUERY_THROW);
        list->setFocus();
    }

    void close() {
        if (closed_)
            return;
        closed_ = true;
        const rtl::Reference<FindingsDialog> alive(this);
        // Nothing of the office may be held when it ends.
        if (open_one().get() == this)
            open_one().clear();
        if (situation_.frame().is())
            situation_.frame()->removeEventListener(static_cast<awt::XActionListener*>(this));
        dialog_.dispose();
    }

    // The one that is open, or none. Dialogs live on the office's main thread only.
    static rtl::Reference<FindingsDialog>& open_one() {
        static rtl::Reference<FindingsDialog> open;
        return open;
    }

    void SAL_CALL actionPerformed(const awt::ActionEvent& event) override {
        event.ActionCommand == "go" ? go() : close();
    }
    void SAL_CALL selectionChanged(const awt::grid::GridSelectionEvent& event) override {
        if (event.SelectedRowIndexes.getLength() > 0)
            tell(event.SelectedRowIndexes[0]);
    }
    void SAL_CALL mousePressed(const awt::MouseEvent& event) override {
        if (event.ClickCount == 2)
            go();
    }
    void SAL_CALL mouseReleased(const awt::MouseEvent&) override {}
    void SAL_CALL mouseEntered(const awt::MouseEvent&) override {}
    void SAL_CALL mouseExited(const awt::MouseEvent&) override {}
    void SAL_CALL windowClosing(const lang::EventObject&) override { close(); }
    // The document's window goes, and with it what could be gone to.
    void SAL_CALL disposing(const lang::EventObject& event) override {
        if (event.Source == situation_.frame())
            close();
    }

private:
    void add_list() {
        const auto create = [&](const char* service) {
            return situation_.context()->getServiceManager()->createInstanceWithContext(
                rtl::OUString::createFromAscii(service), situation_.context());
        };
        const uno::Reference<awt::grid::XGridColumnModel> columns(
            create("com.sun.star.awt.grid.DefaultGridColumnModel"), uno::UNO_QUERY_THROW);
        const auto column = [&](std::string_view title, sal_Int32 wide, sal_Int32 flexibility) {
            const auto added = columns->createColumn();
            added->setTitle(ustring(title));
            added->setColumnWidth(wide);
            added->setFlexibility(flexibility);
            columns->addColumn(added);
        };
        column(texts::dialog::column_cell, 50, 0);
        column(texts::dialog::column_kind, 48, 0);
        column(texts::dialog::column_sentence, 210, 1);
        const uno::Reference<awt::grid::XMutableGridDataModel> rows(
            create("com.sun.star.awt.grid.DefaultGridDataModel"), uno::UNO_QUERY_THROW);
        std::vector<uno::Sequence<uno::Any>> contents;
        for (const Finding& finding : findings_) {
            const uno::Any row[] = {
                uno::Any(ustring(name_seen_from(situation_.document(), finding.place, sheet_))),
                uno::Any(ustring(kind_label(finding.kind))), uno::Any(ustring(finding.sentence))};
            contents.emplace_back(row, 3);
        }
        const auto count = static_cast<sal_Int32>(contents.size());
        rows->addRows(uno::Sequence<uno::Any>(count),
                      uno::Sequence<uno::Sequence<uno::Any>>(contents.data(), count));
        const auto list = dialog_.add("Grid", "list", {6, 17, width - 12, 106});
        list->setPropertyValue("ColumnModel", uno::Any(columns));
        list->setPropertyValue("GridDataModel", uno::Any(uno::Reference<awt::grid::XGridDataModel>(
                                                    rows, uno::UNO_QUERY_THROW)));
        list->setPropertyValue("SelectionModel", uno::Any(view::SelectionType_SINGLE));
        list->setPropertyValue("ShowColumnHeader", uno::Any(true));
        list->setPropertyValue("ShowRowHeader", uno::Any(false));
        list->setPropertyValue("VScroll", uno::Any(true));
    }

    // Into the lower right corner of the document's window, where it hides least.
    void out_of_the_way(const uno::Reference<awt::XWindow>& window) {
        constexpr sal_Int32 margin = 40; // pixels: scroll bar, sheet tabs and status bar
        const awt::Rectangle own = window->getPosSize();
        const awt::Rectangle frame = situation_.frame()->getContainerWindow()->getPosSize();
        if (frame.Width < own.Width + margin || frame.Height < own.Height + 2 * margin)
            return;
        window->setPosSize(frame.Width - own.Width - margin, frame.Height - own.Height - 2 * margin,
                           0, 0, awt::PosSize::POS);
    }

    void listen() {
        for (const char* name : {"go", "close"}) {
            const uno::Reference<awt::XButton> button(dialog_.control(name), uno::UNO_QUERY_THROW);
            button->setActionCommand(rtl::OUString::createFromAscii(name));
            button->addActionListener(this);
        }
        const uno::Reference<awt::grid::XGridRowSelection> rows(dialog_.control("list"),
                                                                uno::UNO_QUERY_THROW);
        rows->addSelectionListener(this);
        const uno::Reference<awt::XWindow> list(rows, uno::UNO_QUERY_THROW);
        list->addMouseListener(this);
        const uno::Reference<awt::XTopWindow> top(dialog_.window(), uno::UNO_QUERY_THROW);
        top->addTopWindowListener(this);
        situation_.frame()->addEventListener(static_cast<awt::XActionListener*>(this));
    }

    const Finding* selected() {
        const uno::Reference<awt::grid::XGridRowSelection> rows(dialog_.control("list"),
                                                                uno::UNO_QUERY_THROW);
        const auto indices = rows->getSelectedRows();
        const auto row = indices.getLength() > 0 ? static_cast<std::size_t>(indices[0]) : 0;
        return row < findings_.size() ? &findings_[row] : nullptr;
    }

    void tell(sal_Int32 row) {
        const uno::Reference<awt::XTextComponent> sentence(dialog_.control("sentence"),
                                                           uno::UNO_QUERY_THROW);
        sentence->setText(ustring(findings_[static_cast<std::size_t>(row)].sentence));
    }

    void go() {
        try {
            if (const Finding* finding = selected()) {
                const Place cell = finding->input.value_or(finding->place);
                situation_.select({cell, cell});
            }
        } catch (const uno::Exception&) {
            // The sheet is no longer there; the list is of another day.
        }
    }

    Situation situation_;
    Findings findings_;
    sal_Int32 sheet_;
    Dialog dialog_;
    bool closed_ = false;
};

} // namespace

void show_findings(const Situation& situation, const Outcome& outcome) {
    if (const rtl::Reference<FindingsDialog> before = FindingsDialog::open_one(); before.is())
        before->close();
    FindingsDialog::open_one() = new FindingsDialog(situation, outcome);
    FindingsDialog::open_one()->open();
}

} // namespace jarbook::menu
