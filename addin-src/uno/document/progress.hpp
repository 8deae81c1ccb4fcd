// How far a long command is, and a person's wish to stop it.
#pragma once

#include <cstddef>
#include <string>

namespace jarbook::menu {

// Thrown by Progress::at where the command is not to go on. Nothing was changed until then, or what
// was is taken back by the one who throws it on.
struct Stopped {};

// Commands call it as often as they like: it looks at the clock first. Windows may be served
// meanwhile, so that anything that was taken from a document may be gone after the call; what is
// then asked of it throws.
class Progress {
public:
    virtual ~Progress() = default;
    // A step of the command begins, with so many pieces of work.
    virtual void begin(const std::string& step, std::size_t pieces) = 0;
    // So many of them are done. Throws Stopped.
    virtual void at(std::size_t done) = 0;
    // Work whose end is not known is going on. Throws Stopped.
    virtual void going_on() = 0;
};

// For callers that wait until all is done.
class NoProgress final : public Progress {
public:
    void begin(const std::string&, std::size_t) override {}
    void at(std::size_t) override {}
    void going_on() override {}
};

} // namespace jarbook::menu
