// A real Calc for tests, benchmarks and scripts: an office process of our own with its own profile
// and its own pipe, that ends when this object does.
//
//     jarbook::office::Office office({.locale = "de-DE"});
//     office.install("build/jarbook.oxt");
//     auto document = office.new_document();
//     auto cell = document.sheet().cell("A1");
//     cell.set_formula("=SPIRIT.STRENGTH(50;10)");
//     cell.number();   // throws when the cell shows an error
//     document.save("run.ods");
//
// Every call has a time limit; what goes wrong is thrown as an OfficeError that carries the tail of
// the office's own error output. Documents must not be used after their office has ended.
#pragma once

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <sys/types.h>
#include <vector>

#include "document.hpp"

namespace jarbook::office {

struct Options {
    // Of numbers, dates and FormulaLocal; of the interface too where that language is installed.
    // Written into a profile that is new; a profile in use keeps its own.
    std::string locale = "en-US";
    // A profile that stays; empty: a temporary one.
    std::filesystem::path profile = {};
    // An X display such as ":99" for a visible office; empty: headless.
    std::string display = {};
    // Whether the office looks after what a crash leaves behind, as it does for a person. Without a
    // display it then believes in one that nobody sees.
    bool recovery = false;
    // Type libraries, beside the office's own, that the calling program wants to speak.
    std::vector<std::filesystem::path> types = {};
    // The folder of soffice.bin; empty: the office this was built with.
    std::filesystem::path program = {};
    std::chrono::milliseconds start_timeout = std::chrono::seconds(120);
    std::chrono::milliseconds call_timeout = std::chrono::seconds(120);
};

// One function of an add-in or of Calc, as the function wizard knows it.
struct FunctionDescription {
    struct Argument {
        std::string name;
        std::string description;
        bool optional = false;
    };
    std::string name; // the display name, as typed
    std::string description;
    std::vector<Argument> arguments;
};

// What follows upon installing or removing an extension: a person may well go on working.
enum class Afterwards { start_again, go_on };

enum class Shown { no, yes };

class Office {
public:
    explicit Office(Options options = {});
    ~Office();
    Office(const Office&) = delete;
    Office& operator=(const Office&) = delete;

    // Installs an extension for this profile's user (also as root); one of the same identifier is
    // replaced. Licences and prompts are answered with yes. The office is started again, since a
    // library installed into a running office is kept out of its process until then; documents
    // must have been closed.
    void install(const std::filesystem::path& oxt, Afterwards afterwards = Afterwards::start_again);
    // Removes an extension by its identifier; throws if there is none. Also starts again.
    void remove(const std::string& identifier, Afterwards afterwards = Afterwards::start_again);
    // Version of an installed extension, or nothing.
    std::optional<std::string> extension_version(const std::string& identifier);

    Document new_document();
    // Opens whatever the type; shown, it is also what a crash recovery looks after.
    Document open(const std::filesystem::path& file, Shown shown = Shown::no);
    // The spreadsheets that are open, however they came to be.
    std::vector<Document> open_documents();

    // All functions the wizard offers; ours are those whose names begin with SPIRIT.
    std::vector<FunctionDescription> function_descriptions();

    // Ends the office and starts it again with the same profile. Documents must have been closed.
    void restart();
    // Ends the office; true if it went by itself, in good order. The destructor does the same.
    bool end();

    bool alive();
    pid_t pid() const;
    const std::filesystem::path& profile() const;
    // What the office wrote to its outputs so far.
    std::string log() const;
    // An object by its service name, and the whole component context, for calls not covered here.
    com::sun::star::uno::Reference<com::sun::star::uno::XInterface>
    service(const std::string& name);
    com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context();
    // Runs such calls under the watchdog.
    template <class Work>
    auto call(const std::string& what, Work&& work) {
        return session_->call(what, std::forward<Work>(work));
    }
    // The same with a limit of its own.
    template <class Work>
    auto call(const std::string& what, std::chrono::milliseconds limit, Work&& work) {
        return session_->call(what, limit, std::forward<Work>(work));
    }
    // Runs them as a menu's command is run: in the office's main thread.
    void call_in_main_thread(const std::string& what, const std::function<void()>& work);

private:
    Options options_;
    Profile profile_;
    std::shared_ptr<Session> session_;
};

} // namespace jarbook::office
