// What a command is asked for, and what it came to.
//
// Dialogs are not a command's business: it gives an outcome, which is shown (show_outcome.hpp), or
// handed to the dispatch's listener.
#pragma once

#include "uno/document/progress.hpp"
#include "uno/explain/finding.hpp"

#include <com/sun/star/uno/Any.hxx>
#include <memory>
#include <rtl/ustring.hxx>
#include <string>

namespace jarbook::menu {

// Arguments of a dispatch, all of them optional.
struct Request {
    bool silent = false; // "Silent": nothing is shown or asked; the listener gets the outcome
    rtl::OUString url;   // "URL" and "FilterName": where and how to store
    rtl::OUString filter;
    bool shows_progress = false; // "Progress": shown, and can be stopped, though silent
    std::shared_ptr<Progress> progress = std::make_shared<NoProgress>();
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

} // namespace jarbook::menu
