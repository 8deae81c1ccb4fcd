// The menu by dispatch: every entry, when it applies, and what it comes to.
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/document/XDocumentPropertiesSupplier.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XDispatchHelper.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/sheet/XSpreadsheetView.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>
#include <filesystem>
#include <fstream>
#include <regex>
#include <rtl/ref.hxx>
#include <sstream>
#include <unistd.h>

#include "menu/menu_dispatch.hpp"
#include "menu/menu_support.hpp"
#include "run_log/run_log_support.hpp"
#include "text.hpp"
#include "workbooks/workbook.hpp"

namespace jarbook::e2e {
namespace {

using namespace com::sun::star;
using Provider = uno::Reference<frame::XDispatchProvider>;
using Book = uno::Reference<sheet::XSpreadsheetDocument>;

// The addresses in the packed menu.
std::vector<std::string> menu_entries() {
    std::ifstream file(std::string(JARBOOK_EXTENSION) + "/Addons.xcu");
    std::stringstream all;
    all << file.rdbuf();
    const std::string text = all.str();
    const std::regex address("org\\.jarbook\\.menu:(\\w+)");
    std::vector<std::string> entries;
    for (std::sregex_iterator at(text.begin(), text.end(), address), end; at != end; ++at)
        entries.push_back((*at)[1]);
    return entries;
}

class StatusEar final : public cppu::WeakImplHelper1<frame::XStatusListener> {
public:
    void SAL_CALL statusChanged(const frame::FeatureStateEvent& event) override {
        enabled = event.IsEnabled;
        heard = true;
    }
    void SAL_CALL disposing(const lang::EventObject&) override {}
    bool enabled = false;
    bool heard = false;
};

bool is_enabled(const Provider& provider, const std::string& entry) {
    return shared_office().call("asking whether " + entry + " applies", [&] {
        const util::URL url = address_of(entry);
        const auto dispatch = provider->queryDispatch(url, "_self", 0);
        if (!dispatch.is())
            throw office::OfficeError("nobody answers to " + entry);
        const rtl::Reference<StatusEar> ear(new StatusEar);
        dispatch->addStatusListener(ear.get(), url);
        dispatch->removeStatusListener(ear.get(), url);
        EXPECT_TRUE(ear->heard) << entry;
        return ear->enabled;
    });
}

// The handler where no document is, as in the start centre.
Provider nowhere() {
    return {shared_office().service("org.jarbook.Menu"), uno::UNO_QUERY_THROW};
}

class Menu : public MenuTest {
protected:
    Dispatched call(const std::string& entry) { return dispatch(frame_of(document()), entry); }
    void select(const std::string& cells) {
        shared_office().call("selecting", [&] {
            const uno::Reference<frame::XModel> model(document().uno(), uno::UNO_QUERY_THROW);
            const uno::Reference<view::XSelectionSupplier> supplier(model->getCurrentController(),
                                                                    uno::UNO_QUERY_THROW);
            supplier->select(uno::Any(sheet().range(cells).uno()));
        });
    }
    static std::string text_of(const Dispatched& dispatched) {
        rtl::OUString text;
        dispatched.result >>= text;
        return office::to_utf8(text);
    }
    static int findings_of(const Dispatched& dispatched) {
        uno::Sequence<org::jarbook::Finding> findings;
        return (dispatched.result >>= findings) ? findings.getLength() : -1;
    }
    // What a person sees of a document that was opened: its sheet; and that it is untitled and
    // remembers no file of this machine.
    static std::string shown_sheet(const Book& book) {
        const uno::Reference<frame::XModel> model(book, uno::UNO_QUERY_THROW);
        const uno::Reference<sheet::XSpreadsheetView> view(model->getCurrentController(),
                                                           uno::UNO_QUERY_THROW);
        const uno::Reference<container::XNamed> named(view->getActiveSheet(), uno::UNO_QUERY_THROW);
        return office::to_utf8(named->getName());
    }
    static void expect_untitled(const Book& book) {
        const uno::Reference<frame::XStorable> storable(book, uno::UNO_QUERY_THROW);
        EXPECT_FALSE(storable->hasLocation());
        const uno::Reference<util::XModifiable> modifiable(book, uno::UNO_QUERY_THROW);
        EXPECT_FALSE(modifiable->isModified());
        const uno::Reference<document::XDocumentPropertiesSupplier> supplier(book,
                                                                             uno::UNO_QUERY_THROW);
        EXPECT_TRUE(supplier->getDocumentProperties()->getTemplateURL().isEmpty());
        EXPECT_TRUE(supplier->getDocumentProperties()->getTemplateName().isEmpty());
    }
};

TEST_F(Menu, EveryEntryIsAnswered) {
    const auto entries = menu_entries();
    ASSERT_EQ(entries.size(), 15u);
    const Provider frame = frame_of(document());
    for (const std::string& entry : entries)
        EXPECT_TRUE(is_enabled(frame, entry)) << entry;
    shared_office().call("asking for what there is not", [&] {
        EXPECT_FALSE(nowhere()->queryDispatch(address_of("brew"), "_self", 0).is());
    });
}

TEST_F(Menu, WhatNeedsASpreadsheetIsGreyWithoutOne) {
    const Provider handler = nowhere();
    for (const char* entry : {"newRunLog", "workedExample", "functions", "printedTables", "about"})
        EXPECT_TRUE(is_enabled(handler, entry)) << entry;
    for (const char* entry : {"addRun", "whyError", "checkSheet", "plainCopy", "recalculate"}) {
        EXPECT_FALSE(is_enabled(handler, entry)) << entry;
        const Dispatched dispatched = dispatch(handler, entry);
        EXPECT_FALSE(dispatched.done) << entry;
        EXPECT_NE(text_of(dispatched).find("spreadsheet"), std::string::npos) << entry;
    }
}

TEST_F(Menu, AReadOnlyDocumentTakesNoRun) {
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-read-only-" + std::to_string(getpid()) + ".ods");
    document().save(file);
    const Book book = open_read_only(file);
    const Provider frame = frame_of(book);
    EXPECT_FALSE(is_enabled(frame, "addRun"));
    EXPECT_TRUE(is_enabled(frame, "whyError"));
    const Dispatched dispatched = dispatch(frame, "addRun");
    EXPECT_FALSE(dispatched.done);
    EXPECT_NE(text_of(dispatched).find("reading only"), std::string::npos);
    shared_office().call("closing", [&] { close(book); });
    std::filesystem::remove(file);
}

TEST_F(Menu, About) {
    const std::string text = text_of(call("about"));
    for (const char* word : {"licence", "40 % vol", "three quarters", "block the outlet", "vacuum",
                             "extinguisher", "lead-free", "methanol", "OIML R 22", "27 CFR",
                             "Carey and Lewis", "No warranty", "Boost Software License", "NOTICE"})
        EXPECT_NE(text.find(word), std::string::npos) << word;
    EXPECT_NE(text.find(std::string("Jarbook ") + JARBOOK_VERSION), std::string::npos);
}

TEST_F(Menu, WhyThisError) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    cell("A2").set_formula("=SPIRIT.STRENGTH(50;55)");
    cell("A3").set_formula("=A2*2");
    const std::string before = everything_about(document());
    select("A3");
    EXPECT_EQ(findings_of(call("whyError")), 2);
    select("A1:A3");
    EXPECT_EQ(findings_of(call("whyError")), 2) << "told once";
    select("A1");
    EXPECT_EQ(findings_of(call("whyError")), 0);
    EXPECT_EQ(findings_of(call("checkSheet")), 1);
    EXPECT_EQ(everything_about(document()), before);
}

TEST_F(Menu, WhyThisErrorOfARowThatSendsPeopleThere) {
    cell("D4").set_number(60);
    cell("F4").set_formula("=SPIRIT.STRENGTH(50;D4)");
    cell("R4").set_formula("=IF(ISERROR(F4);\"error: Jarbook ▸ Why this error?\";\"\")");
    select("R4");
    const auto findings = call("whyError");
    ASSERT_EQ(findings_of(findings), 1);
    uno::Sequence<org::jarbook::Finding> found;
    ASSERT_TRUE(findings.result >>= found);
    EXPECT_EQ(office::to_utf8(found[0].cell), "F4");
    EXPECT_EQ(office::to_utf8(found[0].input), "D4");
    select("R5");
    EXPECT_EQ(findings_of(call("whyError")), 0) << "an empty cell speaks of nothing";
}

// "a box holds an error: clear it" is no error itself.
TEST_F(Menu, WhyThisErrorOfARowOfARunSheet) {
    const office::Document log = open_blank_run_log();
    const NamedSheet run(log, "Run 1");
    const std::string row = std::to_string(run.row("jar_check"));
    run.in_column("jar_reading", 0).set_formula("=1/0");
    jarbook::e2e::select(log, "Run 1", "N" + row);
    uno::Sequence<org::jarbook::Finding> found;
    ASSERT_TRUE(dispatch(frame_of(log), "whyError").result >>= found);
    ASSERT_EQ(found.getLength(), 1);
    EXPECT_EQ(office::to_utf8(found[0].cell), "D" + row);
}

TEST_F(Menu, CheckThisSheetChecksTheOneThatIsShown) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;55)");
    document().add_sheet("Calm");
    EXPECT_EQ(findings_of(call("checkSheet")), 1);
    show_sheet(document(), "Calm");
    EXPECT_EQ(findings_of(call("checkSheet")), 0);
}

TEST_F(Menu, RecalculateEverything) {
    cell("A1").set_number(60);
    cell("B1").set_formula("=SPIRIT.STRENGTH(50;A1)");
    EXPECT_NE(text_of(call("recalculate")).find("One cell shows an error (Sheet1)"),
              std::string::npos);
    set_automatic_calculation(document(), false);
    cell("A1").set_number(10);
    ASSERT_EQ(cell("B1").error(), 502) << "nothing to test";
    EXPECT_NE(text_of(call("recalculate")).find("No cell shows an error"), std::string::npos);
    EXPECT_NEAR(cell("B1").number(), 53.67, 0.005);
}

TEST_F(Menu, SaveACopyWithPlainValues) {
    cell("A1").set_formula("=SPIRIT.STRENGTH(50;10)");
    const auto file = std::filesystem::temp_directory_path() /
                      ("jarbook-menu-" + std::to_string(getpid()) + ".ods");
    const Dispatched dispatched =
        dispatch(frame_of(document()), "plainCopy", {{"URL", office::to_url(file)}});
    EXPECT_TRUE(dispatched.done) << text_of(dispatched);
    EXPECT_NE(text_of(dispatched).find("One cell"), std::string::npos);
    EXPECT_NE(text_of(dispatched).find(file.filename().string()), std::string::npos);
    {
        office::Document plain = shared_office().open(file);
        EXPECT_NEAR(plain.sheet().cell("A1").number(), cell("A1").number(), 1e-12)
            << "files keep 15 digits";
        EXPECT_EQ(plain.sheet().cell("A1").formula().find("SPIRIT"), std::string::npos);
    }
    std::filesystem::remove(file);
    EXPECT_FALSE(call("plainCopy").done) << "no address";
}

TEST_F(Menu, NewRunLogAndTheWorkedExampleAreUntitledCopies) {
    for (const char* entry : {"newRunLog", "workedExample"}) {
        const Dispatched dispatched = call(entry);
        EXPECT_TRUE(dispatched.done) << entry;
        shared_office().call("looking at what was opened", [&] {
            const Book book(dispatched.result, uno::UNO_QUERY_THROW);
            expect_untitled(book);
            EXPECT_TRUE(book->getSheets()->hasByName("Runs")) << entry;
            EXPECT_EQ(book->getSheets()->hasByName("Run 2"), entry == std::string("workedExample"));
            close(book);
        });
    }
}

TEST_F(Menu, PrintedTablesHereOrInANewRunLog) {
    const Dispatched elsewhere = call("printedTables");
    shared_office().call("looking at what was opened", [&] {
        const Book book(elsewhere.result, uno::UNO_QUERY_THROW);
        EXPECT_EQ(shown_sheet(book), "Printed tables");
        expect_untitled(book);
        // Once there, it is the same document that shows it.
        show_sheet(book, "Guide");
        const Dispatched here = dispatch(frame_of(book), "printedTables");
        EXPECT_EQ(Book(here.result, uno::UNO_QUERY_THROW), book);
        EXPECT_EQ(shown_sheet(book), "Printed tables");
        close(book);
    });
}

TEST_F(Menu, FunctionReferenceIsAPageOfThePackage) {
    const std::string url = text_of(call("functions"));
    ASSERT_TRUE(url.starts_with("file:///")) << url;
    std::ifstream page(url.substr(std::string("file://").size()));
    std::stringstream all;
    all << page.rdbuf();
    EXPECT_NE(all.str().find("SPIRIT.STRENGTH"), std::string::npos);
}

} // namespace
} // namespace jarbook::e2e
