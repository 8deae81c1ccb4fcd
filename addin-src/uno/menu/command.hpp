// One entry of the menu: when it applies, and what it does. Dialogs are not its business (see
// shown.hpp): a command gives an outcome, which is shown, or handed to the dispatch's listener.
#pragma once

#include "finding.hpp"
#include "hidden_document.hpp"

#include <com/sun/star/frame/XFrame.hpp>
#include <com/sun/star/uno/Any.hxx>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jarbook::menu {

// Arguments of a dispatch, all of them optional.
struct Request {
    bool silent = false; // "Silent": nothing is shown or asked; the listener gets the outcome
    rtl::OUString url;   // "URL" and "FilterName": where and how to store
    rtl::OUString filter;
};

struct Outcome {
    bool done = true;
    // A person went back from a dialog: nothing is said about it.
    bool given_up = false;
    std::string title;
    std::string text; // may have several paragraphs; empty: what happened is seen by itself
    // To choose from and go to; shown as a list.
    Findings findings;
    // For the listener of a dispatch: a document that was opened, findings, or the text.
    com::sun::star::uno::Any result;

    static Outcome refused(std::string title, std::string why) {
        return {false, false, std::move(title), std::move(why), {}, {}};
    }
};

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

struct Command {
    const char* name;  // after "org.jarbook.menu:"
    const char* title; // of its messages
    enum class Needs { nothing, sheet, changeable_sheet } needs;
    Outcome (*run)(const Situation& situation, const Request& request);
};

const std::vector<Command>& commands();
const Command* command(const rtl::OUString& name);

// Whether the command can be called here; greyed out otherwise.
bool applies(const Command& command, const Situation& situation);

// Calls it; where it does not apply, and where something goes wrong, the outcome says so.
Outcome run(const Command& command, const Situation& situation, const Request& request);

} // namespace jarbook::menu
