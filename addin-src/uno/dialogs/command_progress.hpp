// The progress of a command in a small window with a button that stops it.
#pragma once

#include "uno/dialogs/situation.hpp"
#include "uno/document/progress.hpp"

#include <chrono>
#include <memory>

namespace jarbook::menu {

// The window comes when a second has passed. From then on windows are served while the command
// works, but documents take no input, no other command of ours begins, and neither the document nor
// the office closes: asking for that stops the command, and the document is closed after it.
class CommandProgress final : public Progress {
public:
    CommandProgress(const Situation& situation, std::string title);
    ~CommandProgress() override;

    void begin(const std::string& step, std::size_t pieces) override;
    void at(std::size_t done) override;
    void going_on() override;

private:
    class Window;
    void look();

    Situation situation_;
    std::string title_;
    std::string step_;
    std::size_t pieces_ = 0;
    std::size_t done_ = 0;
    std::chrono::steady_clock::time_point next_look_;
    std::unique_ptr<Window> window_;
};

} // namespace jarbook::menu
