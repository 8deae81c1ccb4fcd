// jarbook-hostile: calls every function with arguments of every kind, in this process, and looks
// for what must not be. To be built with the sanitizers (scripts/test-hostile), useful without.
#include "binding.hpp"
#include "deadline.hpp"
#include "generator.hpp"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iostream>
#include <map>

using namespace jarbook::hostile;

namespace {

constexpr char usage[] =
    "jarbook-hostile [--calls N] [--seed N] [--limit MS] [--first N] [--function NAME]\n"
    "                                                      generated calls, of one function or "
    "all\n"
    "jarbook-hostile --replay FILE                                     calls as written in a file\n"
    "jarbook-hostile --show N [--seed N]                               what the N-th call is\n";

struct Options {
    std::uint64_t calls = 100000;
    std::uint64_t first = 0;
    std::uint64_t seed = 1;
    std::uint64_t limit = 10000;
    std::uint64_t show = 0;
    bool shown = false;
    std::string replay;
    std::string function;
};

Options options_from(int count, char** words) {
    Options options;
    const std::map<std::string, std::string*> texts = {{"--replay", &options.replay},
                                                       {"--function", &options.function}};
    const std::map<std::string, std::uint64_t*> numbers = {{"--calls", &options.calls},
                                                           {"--seed", &options.seed},
                                                           {"--first", &options.first},
                                                           {"--show", &options.show},
                                                           {"--limit", &options.limit}};
    for (int i = 1; i < count; i += 2) {
        const std::string word = words[i];
        const auto number = numbers.find(word);
        const auto text = texts.find(word);
        if (i + 1 == count || (number == numbers.end() && text == texts.end())) {
            std::cerr << usage;
            std::exit(2);
        }
        options.shown |= word == "--show";
        if (number != numbers.end())
            *number->second = std::strtoull(words[i + 1], nullptr, 10);
        else
            *text->second = words[i + 1];
    }
    return options;
}

class Tally {
public:
    void add(const Call& call, const Outcome& outcome, std::chrono::nanoseconds time) {
        Line& line = lines_[call.method];
        ++line.calls;
        ++line.answers[static_cast<int>(outcome.answer)];
        ++total_;
        if (time > line.longest) {
            line.longest = time;
            line.slowest = notation(call).substr(0, 300);
        }
        if (outcome.fault.empty())
            return;
        ++faults_;
        // Of one kind a few are enough.
        if (++line.faults[outcome.fault.substr(0, 40)] <= 3)
            std::cout << "FAULT " << outcome.fault << "\n  reason: " << outcome.reason << "\n  "
                      << notation(call) << std::endl;
    }

    int report() const {
        std::printf("%-22s %9s %9s %9s %9s %9s %11s\n", "function", "calls", "numbers", "other",
                    "refused", "no call", "longest ms");
        for (const auto& [name, line] : lines_)
            std::printf("%-22s %9llu %9llu %9llu %9llu %9llu %11.2f\n", name.c_str(), line.calls,
                        line.answers[0], line.answers[1] + line.answers[2], line.answers[3],
                        line.answers[4], static_cast<double>(line.longest.count()) / 1e6);
        for (const auto& [name, line] : lines_)
            if (line.longest > std::chrono::seconds(1))
                std::printf("slow: %s\n", line.slowest.c_str());
        std::printf("%llu calls, %llu faults\n", total_, faults_);
        return faults_ == 0 && total_ > 0 ? 0 : 1;
    }

private:
    using Count = unsigned long long;
    struct Line {
        Count calls = 0;
        Count answers[5] = {};
        std::chrono::nanoseconds longest{};
        std::string slowest;
        std::map<std::string, int> faults;
    };
    std::map<std::string, Line> lines_;
    Count total_ = 0;
    Count faults_ = 0;
};

void make(Binding& binding, const Call& call, Tally& tally, bool must_refuse = false) {
    std::chrono::nanoseconds time{};
    Outcome outcome = binding.call(call, &time);
    if (must_refuse && outcome.answer != Answer::refusal && outcome.fault.empty())
        outcome.fault = "not refused";
    tally.add(call, outcome, time);
}

// The n-th call of a run.
Call call_number(const Generator& generator, const Options& options, std::uint64_t n) {
    const std::uint64_t seed = call_seed(options.seed, n);
    if (options.function.empty())
        return generator.call(seed);
    const auto functions = jarbook::catalogue::functions();
    for (std::size_t i = 0; i < functions.size(); ++i)
        if (functions[i].method == options.function)
            return generator.call(i, seed);
    throw std::runtime_error("the catalogue has no function " + options.function);
}

int run(const Options& options) {
    if (options.shown) {
        std::cout << notation(call_number(Generator(), options, options.show)) << "\n";
        return 0;
    }
    Binding binding(JARBOOK_LIBRARY, JARBOOK_TYPES, JARBOOK_OFFICE_PROGRAM);
    Tally tally;
    Deadline deadline{std::chrono::milliseconds(options.limit)};
    if (!options.replay.empty()) {
        std::ifstream file(options.replay);
        if (!file)
            throw std::runtime_error("cannot be read: " + options.replay);
        const std::string must = "refused: ";
        std::uint64_t number = 0;
        for (std::string line; std::getline(file, line);) {
            ++number;
            if (line.empty() || line.starts_with("#"))
                continue;
            const Deadline::Guard guard = deadline.guard(options.replay + ", line", number);
            const bool refused = line.starts_with(must);
            make(binding, call_from(refused ? line.substr(must.size()) : line), tally, refused);
        }
        return tally.report();
    }
    const Generator generator;
    const std::string run_name =
        "jarbook-hostile --seed " + std::to_string(options.seed) + " --show";
    for (std::uint64_t n = options.first; n < options.first + options.calls; ++n) {
        const Call call = call_number(generator, options, n);
        const Deadline::Guard guard = deadline.guard(run_name, n);
        // What is written down must be the same call again.
        if (n % 64 == 0 && !(call_from(notation(call)) == call))
            throw std::runtime_error("the notation lost something: " + notation(call));
        make(binding, call, tally);
    }
    return tally.report();
}

} // namespace

int main(int count, char** words) {
    try {
        return run(options_from(count, words));
    } catch (const com::sun::star::uno::Exception& trouble) {
        std::cerr << "jarbook-hostile: "
                  << rtl::OUStringToOString(trouble.Message, RTL_TEXTENCODING_UTF8).getStr()
                  << "\n";
    } catch (const std::exception& trouble) {
        std::cerr << "jarbook-hostile: " << trouble.what() << "\n";
    }
    return 1;
}
