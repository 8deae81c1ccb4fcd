#include "runner.hpp"

#include <chrono>
#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XDesktop.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XDispatchResultListener.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <optional>
#include <regex>
#include <rtl/ref.hxx>
#include <set>
#include <sstream>
#include <unistd.h>

#include "looking.hpp"
#include "text.hpp"

namespace jarbook::hostile {

using namespace com::sun::star;

namespace {

// A command that has not come back by then hangs.
constexpr auto limit = std::chrono::minutes(10);

// These change the document where they are done; all others only look.
bool changes(const std::string& command) {
    static const std::set<std::string> looking{"newRunLog",  "workedExample", "whyError",
                                               "checkSheet", "plainCopy",     "functions",
                                               "about",      "printedTables"};
    return !looking.contains(command);
}

class Ear final : public cppu::WeakImplHelper1<frame::XDispatchResultListener> {
public:
    void SAL_CALL dispatchFinished(const frame::DispatchResultEvent& event) override {
        heard = true;
        done = event.State == frame::DispatchResultState::SUCCESS;
        result = event.Result;
    }
    void SAL_CALL disposing(const lang::EventObject&) override {}
    bool heard = false;
    bool done = false;
    uno::Any result;
};

class Closer final : public cppu::WeakImplHelper1<awt::XCallback> {
public:
    explicit Closer(uno::Reference<util::XCloseable> document) : document_(std::move(document)) {}
    void SAL_CALL notify(const uno::Any&) override {
        try {
            document_->close(true);
        } catch (const uno::Exception&) {
            // Not now.
        }
    }

private:
    uno::Reference<util::XCloseable> document_;
};

beans::PropertyValue property(const char* name, const uno::Any& value) {
    beans::PropertyValue result;
    result.Name = rtl::OUString::createFromAscii(name);
    result.Value = value;
    return result;
}

office::Options options() {
    office::Options options;
    options.types = {JARBOOK_TYPES};
    options.call_timeout = limit;
    return options;
}

} // namespace

std::vector<std::string> all_commands() {
    std::ifstream file(JARBOOK_ADDONS);
    std::stringstream all;
    all << file.rdbuf();
    const std::string text = all.str();
    const std::regex address("org\\.jarbook\\.menu:(\\w+)");
    std::vector<std::string> entries;
    std::set<std::string> known;
    for (std::sregex_iterator at(text.begin(), text.end(), address), end; at != end; ++at)
        if (known.insert((*at)[1]).second)
            entries.push_back((*at)[1]);
    return entries;
}

std::vector<std::string> slice_of(const std::vector<std::string>& commands, std::size_t document) {
    static const std::set<std::string> need_nothing{"newRunLog", "workedExample", "functions",
                                                    "about", "printedTables"};
    // The two that take long on a whole workbook take turns.
    const std::string left_out = document % 2 == 0 ? "plainCopy" : "recalculate";
    std::vector<std::string> changing;
    std::vector<std::string> slice;
    for (const std::string& command : commands)
        if (command == left_out)
            continue;
        else if (changes(command) && command != "recalculate")
            changing.push_back(command);
        else if (document == 0 || !need_nothing.contains(command))
            slice.push_back(command);
    if (!changing.empty())
        slice.push_back(changing[document % changing.size()]);
    return slice;
}

Runner::Runner()
    : folder_(std::filesystem::temp_directory_path() /
              ("jarbook-hostile-menu-" + std::to_string(getpid()))),
      office_(options()) {
    std::filesystem::create_directories(folder_);
    office_.install(JARBOOK_OXT);
}

Runner::~Runner() {
    std::filesystem::remove_all(folder_);
}

void Runner::try_all(const HardDocument& hard, const std::vector<std::string>& commands) {
    if (hard.workbook.empty())
        hard.file.write(folder_ / "hard.fods");
    ++documents_;
    std::cout << "# " << hard.name << std::endl;
    std::optional<office::Document> document;
    for (const std::string& command : commands) {
        try {
            if (!document) {
                document.emplace(open(hard));
                if (hard.prepare)
                    hard.prepare(office_, *document);
            }
            if (!try_one(hard, *document, command)) {
                document->close();
                document.reset();
            }
        } catch (const std::exception& trouble) {
            fault(hard.name, command, trouble.what());
            if (!office_.alive())
                throw;
            document.reset();
        }
    }
}

bool Runner::try_one(const HardDocument& hard, office::Document& document,
                     const std::string& command) {
    select(document, hard);
    const std::string before = content(office_, document);
    const Runs runs_before = runs_of(office_, document);
    const auto copy = folder_ / "copy.ods";
    std::filesystem::remove(copy);
    const Answer answer = call(document, command, copy, hard.closed_meanwhile);
    ++tried_;
    done_ += answer.done;
    if (answer.seconds > longest_) {
        longest_ = answer.seconds;
        longest_name_ = hard.name + ", " + command;
    }
    if (!answer.heard || (!answer.done && answer.text.empty()))
        fault(hard.name, command, "did not tell what it came to");
    if (command == "plainCopy" && answer.done != std::filesystem::exists(copy))
        fault(hard.name, command, answer.done ? "no copy" : "a copy though it was refused");
    close_others(document);
    if (hard.closed_meanwhile)
        return false;
    const std::string after = content(office_, document);
    if ((!answer.done || !changes(command)) && after != before)
        fault(hard.name, command,
              "changed the document: " + difference(before, after) + " (" + answer.text + ")");
    if (answer.done && changes(command)) {
        const Runs runs = runs_of(office_, document);
        const int more = runs.sheets - runs_before.sheets;
        const int wanted = command == "addRun" ? 1 : command == "removeRun" ? -1 : 0;
        // A sheet that had no row, or a row that had no sheet, may be given or lose it.
        const bool in_step = runs.registered - runs_before.registered == more;
        // These put lost names back, by which a run sheet is known again.
        const bool names_come_back = command == "mendBoxes" || command == "insertJar";
        if (more != wanted && command != "addRun" && !names_come_back)
            fault(hard.name, command, std::to_string(more) + " run sheets more: " + answer.text);
        if (!in_step && !names_come_back && runs_before.sheets == runs_before.registered)
            fault(hard.name, command, "runs and register out of step: " + answer.text);
    }
    return after == before;
}

Runner::Times Runner::timed(const HardDocument& hard, const std::string& command) {
    hard.file.write(folder_ / "hard.fods");
    office::Document document = open(hard);
    select(document, hard);
    const double before = processor_time();
    const Answer answer = call(document, command, folder_ / "copy.ods", false);
    ++tried_;
    done_ += answer.done;
    if (!answer.heard)
        fault(hard.name, command, "no answer");
    return {answer.seconds, processor_time() - before};
}

int Runner::report() {
    std::printf("%d documents, %d commands tried, %d done, %d refused, %d faults; longest %.1f s "
                "(%s)\n",
                documents_, tried_, done_, tried_ - done_, faults_, longest_,
                longest_name_.c_str());
    if (!office_.end()) {
        std::cout << "the office did not end in good order\n" << office_.log();
        return 1;
    }
    return faults_ == 0 && tried_ > 0 ? 0 : 1;
}

double Runner::processor_time() const {
    std::ifstream file("/proc/" + std::to_string(office_.pid()) + "/stat");
    std::string text;
    std::getline(file, text);
    std::istringstream fields(text.substr(text.rfind(')') + 2)); // from the third on
    std::string skipped;
    for (int field = 3; field < 14; ++field)
        fields >> skipped;
    long user = 0, system = 0;
    fields >> user >> system;
    return static_cast<double>(user + system) / static_cast<double>(sysconf(_SC_CLK_TCK));
}

void Runner::fault(const std::string& document, const std::string& command,
                   const std::string& what) {
    ++faults_;
    std::cout << document << ", " << command << ": " << what << std::endl;
}

office::Document Runner::open(const HardDocument& hard) {
    const std::filesystem::path file =
        hard.workbook.empty() ? folder_ / "hard.fods" : hard.workbook;
    if (!hard.read_only)
        return office_.open(file);
    office_.call("opening for reading only", [&] {
        const beans::PropertyValue how[] = {property("Hidden", uno::Any(true)),
                                            property("ReadOnly", uno::Any(true))};
        const uno::Reference<frame::XComponentLoader> desktop(
            office_.service("com.sun.star.frame.Desktop"), uno::UNO_QUERY_THROW);
        desktop->loadComponentFromURL(office::to_url(file), "_blank", 0,
                                      uno::Sequence<beans::PropertyValue>(how, 2));
    });
    return std::move(office_.open_documents().front());
}

void Runner::select(office::Document& document, const HardDocument& hard) {
    office_.call("selecting", [&] {
        office::Sheet sheet = hard.sheet.empty() ? document.sheet() : document.sheet(hard.sheet);
        const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<view::XSelectionSupplier> supplier(model->getCurrentController(),
                                                                uno::UNO_QUERY_THROW);
        supplier->select(
            uno::Any(sheet.range(hard.select.empty() ? first_jar(sheet) : hard.select).uno()));
    });
}

Runner::Answer Runner::call(office::Document& document, const std::string& command,
                            const std::filesystem::path& copy, bool closed_meanwhile) {
    const rtl::Reference<Ear> ear(new Ear);
    const auto begin = std::chrono::steady_clock::now();
    office_.call_in_main_thread(command, [&] {
        util::URL url;
        url.Complete = office::to_uno("org.jarbook.menu:" + command);
        url.Protocol = "org.jarbook.menu:";
        url.Path = office::to_uno(command);
        const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
        const uno::Reference<frame::XDispatchProvider> frame(
            model->getCurrentController()->getFrame(), uno::UNO_QUERY_THROW);
        const uno::Reference<frame::XNotifyingDispatch> dispatch(
            frame->queryDispatch(url, "_self", 0), uno::UNO_QUERY_THROW);
        std::vector<beans::PropertyValue> given{property("Silent", uno::Any(true)),
                                                property("Progress", uno::Any(true))};
        if (command == "plainCopy")
            given.push_back(property("URL", uno::Any(office::to_url(copy))));
        if (closed_meanwhile)
            awt::AsyncCallback::create(office_.context())
                ->addCallback(new Closer(uno::Reference<util::XCloseable>(document.uno(),
                                                                          uno::UNO_QUERY_THROW)),
                              uno::Any());
        dispatch->dispatchWithNotification(
            url,
            uno::Sequence<beans::PropertyValue>(given.data(), static_cast<sal_Int32>(given.size())),
            ear.get());
    });
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
    rtl::OUString text;
    ear->result >>= text;
    return {ear->heard, ear->done, taken.count(), office::to_utf8(text)};
}

// What a command opened.
void Runner::close_others(office::Document& document) {
    office_.call("closing what was opened", [&] {
        const uno::Reference<frame::XDesktop> desktop(office_.service("com.sun.star.frame.Desktop"),
                                                      uno::UNO_QUERY_THROW);
        const auto all = desktop->getComponents()->createEnumeration();
        std::vector<uno::Reference<util::XCloseable>> others;
        while (all->hasMoreElements()) {
            const uno::Reference<util::XCloseable> other(all->nextElement(), uno::UNO_QUERY);
            if (other.is() && other != document.uno())
                others.push_back(other);
        }
        for (const auto& other : others)
            other->close(true);
    });
}

} // namespace jarbook::hostile
