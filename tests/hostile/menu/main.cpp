// jarbook-hostile-menu: every command of the menu on documents that are hard on it: no crash, no
// hang, no half-finished work, and the document as it was where a command only looks.
#include "documents.hpp"

#include <chrono>
#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/beans/XPropertySet.hpp>
#include <com/sun/star/container/XEnumerationAccess.hpp>
#include <com/sun/star/container/XNameAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/DispatchResultEvent.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XComponentLoader.hpp>
#include <com/sun/star/frame/XDesktop.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XDispatchResultListener.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/sheet/XCellRangeFormula.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <com/sun/star/view/XSelectionSupplier.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <map>
#include <regex>
#include <rtl/ref.hxx>
#include <set>
#include <sstream>
#include <unistd.h>

#include "text.hpp"

using namespace jarbook;
using namespace jarbook::hostile;
using namespace com::sun::star;

namespace {

constexpr char usage[] =
    "jarbook-hostile-menu [--size N] [--random N] [--seed N] [--only NAME] [--growth]\n"
    "  --size    cells of the larger documents (1000)\n"
    "  --random  so many documents of random formulas (5), from --seed on\n"
    "  --only    documents of this name alone\n"
    "  --growth  times of Check this sheet and Why this error? for a size and ten times as much\n";
// A command that has not come back by then hangs.
constexpr auto limit = std::chrono::minutes(10);

// The addresses in the packed menu: a new command is tried without a line here.
std::vector<std::string> commands() {
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

// These change the document where they are done; all others only look.
bool changes(const std::string& command) {
    static const std::set<std::string> looking{"newRunLog",  "workedExample", "whyError",
                                               "checkSheet", "plainCopy",     "functions",
                                               "about",      "printedTables", "recalculate"};
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

class Run {
public:
    Run()
        : folder_(std::filesystem::temp_directory_path() /
                  ("jarbook-hostile-menu-" + std::to_string(getpid()))),
          office_(options()) {
        std::filesystem::create_directories(folder_);
        office_.install(JARBOOK_OXT);
    }
    ~Run() { std::filesystem::remove_all(folder_); }

    void try_all(const HardDocument& hard) {
        const auto file = folder_ / "hard.fods";
        hard.file.write(file);
        ++documents_;
        std::cout << "# " << hard.name << std::endl;
        for (const std::string& command : commands()) {
            try {
                try_one(hard, file, command);
            } catch (const std::exception& trouble) {
                fault(hard.name, command, trouble.what());
                if (!office_.alive())
                    throw;
            }
        }
    }

    double timed(const HardDocument& hard, const std::string& command) {
        const auto file = folder_ / "hard.fods";
        hard.file.write(file);
        office::Document document = office_.open(file);
        select(document, hard);
        const auto begin = std::chrono::steady_clock::now();
        call(document, command, {}, false);
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    }

    int report() {
        std::printf(
            "%d documents, %d commands tried, %d done, %d refused, %d faults; longest %.1f s "
            "(%s)\n",
            documents_, tried_, done_, tried_ - done_, faults_, longest_, longest_name_.c_str());
        if (!office_.end()) {
            std::cout << "the office did not end in good order\n" << office_.log();
            return 1;
        }
        return faults_ == 0 && tried_ > 0 ? 0 : 1;
    }
    void done_growing() { tried_ = std::max(tried_, 1); }

private:
    static office::Options options() {
        office::Options options;
        options.types = {JARBOOK_TYPES};
        options.call_timeout = limit;
        return options;
    }

    void fault(const std::string& document, const std::string& command, const std::string& what) {
        ++faults_;
        std::cout << document << ", " << command << ": " << what << "\n";
    }

    office::Document open(const HardDocument& hard, const std::filesystem::path& file) {
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

    void select(office::Document& document, const HardDocument& hard) {
        office_.call("selecting", [&] {
            const uno::Reference<frame::XModel> model(document.uno(), uno::UNO_QUERY_THROW);
            const uno::Reference<view::XSelectionSupplier> supplier(model->getCurrentController(),
                                                                    uno::UNO_QUERY_THROW);
            supplier->select(uno::Any(document.sheet().range(hard.select).uno()));
        });
    }

    // What a command that only looks must leave alone.
    std::string content(office::Document& document) {
        return office_.call("looking at a document", [&] {
            std::ostringstream all;
            const auto sheets = document.sheet_names();
            for (std::size_t s = 0; s < sheets.size(); ++s) {
                all << sheets[s];
                if (s >= 20)
                    continue;
                const office::Range used = document.sheet(static_cast<int>(s)).used();
                all << " " << used.name() << "\n";
                const int rows = std::min(used.rows(), 300);
                const uno::Reference<sheet::XCellRangeFormula> formulas(
                    used.uno()->getCellRangeByPosition(0, 0, std::min(used.columns(), 20) - 1,
                                                       rows - 1),
                    uno::UNO_QUERY_THROW);
                for (const auto& row : formulas->getFormulaArray())
                    for (const rtl::OUString& formula : row)
                        all << office::to_utf8(formula) << "|";
            }
            const uno::Reference<beans::XPropertySet> properties(document.uno(),
                                                                 uno::UNO_QUERY_THROW);
            const uno::Reference<container::XNameAccess> names(
                properties->getPropertyValue("NamedRanges"), uno::UNO_QUERY_THROW);
            for (const rtl::OUString& name : names->getElementNames())
                all << "name " << office::to_utf8(name) << "\n";
            const uno::Reference<document::XUndoManagerSupplier> undo(document.uno(),
                                                                      uno::UNO_QUERY_THROW);
            for (const rtl::OUString& step : undo->getUndoManager()->getAllUndoActionTitles())
                all << "undo " << office::to_utf8(step) << "\n";
            const uno::Reference<util::XModifiable> modifiable(document.uno(),
                                                               uno::UNO_QUERY_THROW);
            all << "modified " << bool(modifiable->isModified()) << "\n";
            return all.str();
        });
    }

    rtl::Reference<Ear> call(office::Document& document, const std::string& command,
                             const std::filesystem::path& copy, bool closed_meanwhile) {
        const rtl::Reference<Ear> ear(new Ear);
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
                    ->addCallback(new Closer(uno::Reference<util::XCloseable>(
                                      document.uno(), uno::UNO_QUERY_THROW)),
                                  uno::Any());
            dispatch->dispatchWithNotification(
                url,
                uno::Sequence<beans::PropertyValue>(given.data(),
                                                    static_cast<sal_Int32>(given.size())),
                ear.get());
        });
        return ear;
    }

    // What a command opened.
    void close_others(office::Document& document) {
        office_.call("closing what was opened", [&] {
            const uno::Reference<frame::XDesktop> desktop(
                office_.service("com.sun.star.frame.Desktop"), uno::UNO_QUERY_THROW);
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

    void try_one(const HardDocument& hard, const std::filesystem::path& file,
                 const std::string& command) {
        office::Document document = open(hard, file);
        if (hard.prepare)
            hard.prepare(office_, document);
        select(document, hard);
        const std::string before = content(document);
        const auto copy = folder_ / "copy.ods";
        std::filesystem::remove(copy);
        const auto begin = std::chrono::steady_clock::now();
        const auto ear = call(document, command, copy, hard.closed_meanwhile);
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
        ++tried_;
        done_ += ear->done;
        if (taken.count() > longest_) {
            longest_ = taken.count();
            longest_name_ = hard.name + ", " + command;
        }
        if (!ear->heard)
            fault(hard.name, command, "did not tell what it came to");
        if (command == "plainCopy" && ear->done != std::filesystem::exists(copy))
            fault(hard.name, command, ear->done ? "no copy" : "a copy though it was refused");
        if (hard.closed_meanwhile) {
            close_others(document);
            try {
                document.close();
            } catch (const std::exception&) {
                // Closed already.
            }
            return;
        }
        close_others(document);
        if (!ear->done || !changes(command))
            if (const std::string after = content(document); after != before)
                fault(hard.name, command, "changed the document: " + difference(before, after));
        document.close();
    }

    static std::string difference(const std::string& before, const std::string& after) {
        const auto [one, other] =
            std::mismatch(before.begin(), before.end(), after.begin(), after.end());
        return "\"" + std::string(one, std::min(one + 60, before.end())) + "\" is now \"" +
               std::string(other, std::min(other + 60, after.end())) + "\"";
    }

    std::filesystem::path folder_;
    office::Office office_;
    int documents_ = 0, tried_ = 0, done_ = 0, faults_ = 0;
    double longest_ = 0;
    std::string longest_name_;
};

} // namespace

int main(int count, char** words) {
    int size = 1000;
    int random = 5;
    std::uint64_t seed = 1;
    std::string only;
    bool growth = false;
    for (int i = 1; i < count; ++i) {
        const std::string word = words[i];
        const bool more = i + 1 < count;
        if (word == "--growth")
            growth = true;
        else if (word == "--size" && more)
            size = std::stoi(words[++i]);
        else if (word == "--random" && more)
            random = std::stoi(words[++i]);
        else if (word == "--seed" && more)
            seed = std::stoull(words[++i]);
        else if (word == "--only" && more)
            only = words[++i];
        else {
            std::cerr << usage;
            return 2;
        }
    }
    try {
        Run run;
        if (growth) {
            for (const char* command : {"checkSheet", "whyError", "plainCopy"})
                for (std::size_t i = 0; i < growing_documents(1).size(); ++i) {
                    const HardDocument small = growing_documents(size)[i];
                    const HardDocument large = growing_documents(size * 10)[i];
                    const double one = run.timed(small, command);
                    const double ten = run.timed(large, command);
                    std::printf("%-12s %-10s %7d cells %8.2f s   %7d cells %8.2f s   x %.1f\n",
                                command, small.name.c_str(), size, one, size * 10, ten, ten / one);
                    std::fflush(stdout);
                }
            run.done_growing();
            return run.report();
        }
        for (const HardDocument& hard : hard_documents(size))
            if (only.empty() || hard.name == only)
                run.try_all(hard);
        for (int i = 0; i < random; ++i)
            if (only.empty() || only == "random")
                run.try_all(random_document(seed + static_cast<std::uint64_t>(i)));
        return run.report();
    } catch (const std::exception& trouble) {
        std::cout << trouble.what() << "\n";
        return 1;
    }
}
