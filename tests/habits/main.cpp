// jarbook-habits: random habits on the run sheet of a real Calc. After each sequence every computed
// cell must be what it is on a fresh sheet into which the same is typed, or the sheet names what it
// cannot use; nothing shows an error. A sequence that fails is shortened and printed.
#include "judge.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>

#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/configuration/theDefaultProvider.hpp>
#include <com/sun/star/container/XNameReplace.hpp>
#include <com/sun/star/util/XChangesBatch.hpp>

using namespace jarbook;
using namespace jarbook::habits;
using namespace com::sun::star;

namespace {

constexpr char usage[] = "jarbook-habits [--replay FILE] [--habits N] [--seed N] [--length N] "
                         "[--seconds N] [--locale L]\n"
                         "First the sequences of the file, then so many random habits.\n";

using Sequence = std::vector<Habit>;

class Run {
public:
    explicit Run(const std::string& locale)
        : office_(office::Options{.locale = locale,
                                  .types = {JARBOOK_TYPES},
                                  // Long runs are nice to others, and wait.
                                  .call_timeout = std::chrono::minutes(10)}),
          judge_(office_, JARBOOK_RUN_LOG) {
        office_.install(JARBOOK_OXT);
        // Nobody is there to answer whether cells may be overwritten.
        office_.call("setting up", [&] {
            const auto provider = configuration::theDefaultProvider::get(office_.context());
            beans::PropertyValue path;
            path.Name = "nodepath";
            path.Value <<= rtl::OUString("/org.openoffice.Office.Calc/Input");
            const uno::Any argument(path);
            const uno::Reference<container::XNameReplace> input(
                provider->createInstanceWithArguments(
                    "com.sun.star.configuration.ConfigurationUpdateAccess",
                    uno::Sequence<uno::Any>(&argument, 1)),
                uno::UNO_QUERY_THROW);
            input->replaceByName("ReplaceCellsWarning", uno::Any(false));
            uno::Reference<util::XChangesBatch>(input, uno::UNO_QUERY_THROW)->commitChanges();
        });
    }

    // One sequence after another on the same sheet, until so many habits are done.
    int habits(std::uint64_t seed, int count, int length, int seconds) {
        const auto start = std::chrono::steady_clock::now();
        const auto late = [&] {
            return std::chrono::steady_clock::now() - start > std::chrono::seconds(seconds);
        };
        int done = 0;
        int sheets = 0;
        int faults = 0;
        while (done < count && !late()) {
            Generator generator(seed + static_cast<std::uint64_t>(++sheets));
            auto log = std::make_unique<RunLog>(office_, JARBOOK_RUN_LOG);
            Sequence all;
            // A sheet that has seen many habits gets a new one.
            for (int sequence = 0; sequence < 20 && done < count && !late(); ++sequence) {
                for (int i = 0; i < length; ++i) {
                    all.push_back(generator.next(log->boxes()));
                    log->do_habit(all.back());
                    ++done;
                }
                std::string wrong = judge_.faults(*log);
                if (wrong.empty() && sequence % 3 == 2) {
                    wrong = judge_.faults_of_mending(*log);
                    if (wrong.empty()) // what it did is a part of what comes after
                        all.push_back(Habit{Habit::Kind::mend, {}, {}, {}, 0});
                }
                if (wrong.empty())
                    continue;
                ++faults;
                std::cout << "FAULT, seed " << seed << ", sheet " << sheets << ", after "
                          << all.size() << " habits:\n"
                          << wrong << std::flush;
                log.reset();
                tell(shortened(all));
                break;
            }
            std::printf("%d habits on %d sheets, seed %llu: %d faults\n", done, sheets,
                        static_cast<unsigned long long>(seed), faults);
            std::fflush(stdout);
            if (faults >= 5)
                break;
        }
        return faults == 0 && done > 0 ? 0 : 1;
    }

    // The boxes of a new sheet, by which habits are written.
    Boxes boxes() { return RunLog(office_, JARBOOK_RUN_LOG).boxes(); }

    // Sequences that once failed, an empty line between them.
    int replay(const std::string& file) {
        std::ifstream in(file);
        if (!in)
            throw std::runtime_error("cannot read " + file);
        int sequences = 0;
        int faults = 0;
        Sequence habits;
        const Boxes pristine = boxes();
        const auto finish = [&] {
            if (habits.empty())
                return;
            ++sequences;
            const std::string wrong = fails(habits);
            if (!wrong.empty()) {
                ++faults;
                std::cout << "FAULT in sequence " << sequences << ":\n" << wrong << std::flush;
            }
            habits.clear();
        };
        std::string line;
        while (std::getline(in, line)) {
            if (line.empty())
                finish();
            else if (line[0] != '#')
                habits.push_back(read(line, pristine));
        }
        finish();
        std::printf("%d sequences that once failed: %d fail now\n", sequences, faults);
        return faults == 0 ? 0 : 1;
    }

    bool end() {
        judge_.close();
        return office_.end();
    }

private:
    // What is wrong after these habits on a new sheet.
    std::string fails(const Sequence& habits) {
        RunLog log(office_, JARBOOK_RUN_LOG);
        for (const Habit& habit : habits)
            log.do_habit(habit);
        std::string wrong = judge_.faults(log);
        return wrong.empty() ? judge_.faults_of_mending(log) : wrong;
    }

    // Leaves out whatever it fails without, halves first.
    Sequence shortened(Sequence habits) {
        const auto start = std::chrono::steady_clock::now();
        for (std::size_t part = (habits.size() + 1) / 2; part > 0;
             part = part == 1 ? 0 : (part + 1) / 2)
            for (std::size_t at = 0; at < habits.size();) {
                if (std::chrono::steady_clock::now() - start > std::chrono::minutes(4))
                    return habits;
                Sequence fewer = habits;
                fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(at),
                            fewer.begin() +
                                static_cast<std::ptrdiff_t>(std::min(at + part, habits.size())));
                if (!fewer.empty() && !fails(fewer).empty())
                    habits = std::move(fewer);
                else
                    at += part;
            }
        return habits;
    }

    void tell(const Sequence& habits) {
        std::cout << "shortened to " << habits.size() << ":\n";
        const Boxes pristine = boxes();
        for (const Habit& habit : habits)
            std::cout << written(habit, pristine) << "\n";
        std::cout << "which gives:\n" << fails(habits) << std::endl;
    }

    office::Office office_;
    Judge judge_;
};

} // namespace

int main(int count, char** words) {
    std::map<std::string, std::string> options = {{"--habits", ""},      {"--seed", "1"},
                                                  {"--length", "12"},    {"--seconds", "100000"},
                                                  {"--locale", "en-US"}, {"--replay", ""}};
    for (int i = 1; i < count; i += 2) {
        const auto option = options.find(words[i]);
        if (i + 1 == count || option == options.end()) {
            std::cerr << usage;
            return 2;
        }
        option->second = words[i + 1];
    }
    try {
        Run run(options["--locale"]);
        const std::string& file = options["--replay"];
        const std::string& habits = options["--habits"];
        int result = file.empty() ? 0 : run.replay(file);
        if (file.empty() || !habits.empty())
            result |=
                run.habits(std::stoull(options["--seed"]), habits.empty() ? 300 : std::stoi(habits),
                           std::stoi(options["--length"]), std::stoi(options["--seconds"]));
        if (!run.end()) {
            std::cout << "LibreOffice did not end in good order\n";
            return 1;
        }
        return result;
    } catch (const std::exception& trouble) {
        std::cerr << "jarbook-habits: " << trouble.what() << "\n";
        return 1;
    }
}
