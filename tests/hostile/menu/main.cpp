// jarbook-hostile-menu: every command of the menu on documents that are hard on it: no crash, no
// hang, no half-finished work, and the document as it was where a command only looks.
#include <algorithm>
#include <cstdio>
#include <iostream>
#include <stdexcept>

#include "documents.hpp"
#include "runner.hpp"

using namespace jarbook::hostile;

namespace {

constexpr char usage[] =
    "jarbook-hostile-menu [--size N] [--random N] [--seed N] [--only NAME] [--from NAME]\n"
    "                     [--slice] [--growth]\n"
    "  --size    cells of the larger documents (1000)\n"
    "  --random  so many documents of random formulas (5), from --seed on\n"
    "  --only    documents whose names begin so\n"
    "  --from    the document of this name and those after it\n"
    "  --slice   every second document with some of the commands, in turn, for every day\n"
    "  --growth  times of Check this sheet, Why this error? and a plain copy for a size and ten\n"
    "            times as much\n";

struct Wanted {
    int size = 1000;
    int random = 5;
    std::uint64_t seed = 1;
    std::string only;
    std::string from;
    bool slice = false;
    bool growth = false;
};

Wanted wanted(int count, char** words) {
    Wanted result;
    for (int i = 1; i < count; ++i) {
        const std::string word = words[i];
        const bool more = i + 1 < count;
        if (word == "--growth")
            result.growth = true;
        else if (word == "--slice")
            result.slice = true;
        else if (word == "--size" && more)
            result.size = std::stoi(words[++i]);
        else if (word == "--random" && more)
            result.random = std::stoi(words[++i]);
        else if (word == "--seed" && more)
            result.seed = std::stoull(words[++i]);
        else if (word == "--only" && more)
            result.only = words[++i];
        else if (word == "--from" && more)
            result.from = words[++i];
        else
            throw std::invalid_argument(usage);
    }
    return result;
}

void measure_growth(Runner& runner, const Wanted& wanted) {
    const auto smaller = growing_documents(wanted.size);
    const auto larger = growing_documents(wanted.size * 10);
    for (const char* command : {"checkSheet", "whyError", "plainCopy"})
        for (std::size_t i = 0; i < smaller.size(); ++i) {
            if (!wanted.only.empty() && smaller[i].name != wanted.only)
                continue;
            const auto one = runner.timed(smaller[i], command);
            const auto ten = runner.timed(larger[i], command);
            // A fiftieth of a second is what the clock of a process can tell.
            std::printf("%-11s %-9s %6d cells %6.2f s (%6.2f computing)   %7d cells %6.2f s "
                        "(%6.2f computing)   x %.1f\n",
                        command, smaller[i].name.c_str(), wanted.size, one.clock, one.processor,
                        wanted.size * 10, ten.clock, ten.processor,
                        ten.processor / std::max(one.processor, 0.02));
            std::fflush(stdout);
        }
}

void try_all(Runner& runner, const Wanted& wanted) {
    std::vector<HardDocument> all = hard_documents(wanted.size);
    for (HardDocument& log : hard_run_logs(wanted.size))
        all.push_back(std::move(log));
    if (wanted.only.empty() || wanted.only == "random")
        for (int i = 0; i < wanted.random; ++i)
            all.push_back(random_document(wanted.seed + static_cast<std::uint64_t>(i)));
    const std::vector<std::string> commands = all_commands();
    bool begun = wanted.from.empty();
    std::size_t tried = 0;
    for (const HardDocument& hard : all) {
        begun = begun || hard.name == wanted.from;
        const bool meant = wanted.only.empty() || hard.name.starts_with(wanted.only);
        if (!begun || !meant)
            continue;
        // Every day every second document; which ones, the seed says.
        const std::size_t number = tried++;
        if (!wanted.slice)
            runner.try_all(hard, commands);
        else if (number % 2 == wanted.seed % 2)
            runner.try_all(hard, slice_of(commands, number / 2));
    }
}

} // namespace

int main(int count, char** words) {
    try {
        const Wanted what = wanted(count, words);
        Runner runner;
        what.growth ? measure_growth(runner, what) : try_all(runner, what);
        return runner.report();
    } catch (const std::exception& trouble) {
        std::cout << trouble.what() << "\n";
        return 1;
    }
}
