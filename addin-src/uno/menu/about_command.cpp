#include "uno/menu/commands.hpp"

#include "texts/about.hpp"
#include "texts/caution.hpp"
#include "uno/text/version.hpp"

namespace jarbook::menu {

namespace {

std::string all_cautions() {
    namespace caution = texts::caution;
    std::string text;
    for (const std::string_view one :
         {caution::licence, caution::vapour, caution::outlet, caution::charge, caution::cool,
          caution::protect, caution::foreshots, caution::numbers})
        text.append(text.empty() ? "" : "\n").append(one);
    return text;
}

} // namespace

Outcome about(const Situation&, const Request&) {
    const std::string version = addin::version_text;
    Outcome outcome;
    outcome.title = texts::about::title{.version = version}.text();
    const auto paragraph = [&](std::string_view heading, const std::string& text) {
        outcome.text.append("\n\n").append(heading).append("\n").append(text);
    };
    outcome.text = texts::about::purpose;
    paragraph(texts::about::cautions, all_cautions());
    paragraph(texts::about::sources, std::string(texts::about::source_list));
    paragraph(texts::about::licences, texts::about::licence{.version = version}.text());
    return outcome;
}

} // namespace jarbook::menu
