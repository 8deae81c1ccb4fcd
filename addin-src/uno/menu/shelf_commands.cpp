#include "uno/menu/commands.hpp"
#include "uno/run_log/undo_step.hpp"
#include "uno/shelf/run_and_shelf.hpp"

namespace jarbook::menu {

namespace {

// The run sheet stays in view: what was entered is said, and stands on the Shelf.
template <class Work>
Outcome shelved(const Situation& situation, Work&& work) {
    try {
        Outcome outcome;
        outcome.text = work(situation.document(), situation.sheet()).text;
        return outcome;
    } catch (const Obstacle& obstacle) {
        return Outcome::refused("", obstacle.what());
    }
}

} // namespace

Outcome take_from_shelf(const Situation& situation, const Request&) {
    return shelved(situation, [](const Document& document, sal_Int32 sheet) {
        return take_from_shelf(document, sheet);
    });
}

Outcome add_to_shelf(const Situation& situation, const Request&) {
    return shelved(situation, [](const Document& document, sal_Int32 sheet) {
        return add_to_shelf(document, sheet);
    });
}

} // namespace jarbook::menu
