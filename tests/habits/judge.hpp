// Whether a run sheet is right: as if all had been typed afresh, with every slip named.
#pragma once

#include "desk.hpp"

namespace jarbook::habits {

class Judge {
public:
    // Opens fresh run logs as it needs them, one for each number of jars.
    Judge(office::Office& office, std::string file) : office_(office), file_(std::move(file)) {}

    // What is wrong, one a line; empty if nothing is.
    std::string faults(RunLog& log);
    // Mends the boxes and looks at what that leaves.
    std::string faults_of_mending(RunLog& log);
    // Closes the fresh run logs, before their office ends.
    void close() { fresh_.clear(); }

private:
    RunLog& fresh(int jars);

    office::Office& office_;
    std::string file_;
    std::map<int, std::unique_ptr<RunLog>> fresh_;
};

} // namespace jarbook::habits
