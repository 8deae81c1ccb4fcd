// Calls the commands of the menu on a hard document, as the menu does, and notes what is wrong.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "documents.hpp"

namespace jarbook::hostile {

// The addresses in the packed menu: a new command is tried without a line here.
std::vector<std::string> all_commands();
// Of these: what is called on one document of many. Each of them changes documents in its turn;
// what needs no document is called on the first alone.
std::vector<std::string> slice_of(const std::vector<std::string>& commands, std::size_t document);

class Runner {
public:
    Runner();
    ~Runner();
    Runner(const Runner&) = delete;
    Runner& operator=(const Runner&) = delete;

    // These commands: wants an answer, no copy where it was refused, the document as it was where a
    // command only looks or was refused, and runs and their register in step. A document that is as
    // it was serves the next command, too.
    void try_all(const HardDocument& hard, const std::vector<std::string>& commands);

    struct Times {
        double clock, processor; // seconds; of the office, so that a busy machine does not matter
    };
    Times timed(const HardDocument& hard, const std::string& command);

    // Prints what was tried; 0 if nothing was wrong and the office ended in good order.
    int report();

private:
    struct Answer {
        bool heard = false;
        bool done = false;
        double seconds = 0;
        std::string text;
    };
    void fault(const std::string& document, const std::string& command, const std::string& what);
    office::Document open(const HardDocument& hard);
    void select(office::Document& document, const HardDocument& hard);
    Answer call(office::Document& document, const std::string& command,
                const std::filesystem::path& copy, bool closed_meanwhile);
    void close_others(office::Document& document);
    // Whether the document is as it was.
    bool try_one(const HardDocument& hard, office::Document& document, const std::string& command);
    double processor_time() const;

    std::filesystem::path folder_;
    office::Office office_;
    int documents_ = 0, tried_ = 0, done_ = 0, faults_ = 0;
    double longest_ = 0;
    std::string longest_name_;
};

} // namespace jarbook::hostile
