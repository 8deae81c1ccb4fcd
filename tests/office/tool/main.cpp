// jarbook-office: what the scripts ask of a real Calc, on the command line.
#include <cstdio>
#include <filesystem>
#include <functional>
#include <iostream>
#include <map>
#include <string>
#include <vector>

#include "office.hpp"
#include "text_table.hpp"

namespace {

using jarbook::office::Document;
using jarbook::office::Office;
using jarbook::office::Options;
using Words = std::vector<std::string>;

constexpr char usage_text[] =
    R"(jarbook-office [OPTIONS] COMMAND ...
Asks a headless LibreOffice of its own; other offices are not touched.

  install OXT...            install extensions into the profile
  remove IDENTIFIER...      remove extensions from the profile
  extensions IDENTIFIER...  print the installed version of each
  convert IN OUT...         open a spreadsheet, compute all of it again, and store it;
                            the ending decides how: .ods .fods .xlsx .xls .csv .html .pdf
  summary IN [RANGE]        open a spreadsheet, compute all of it again, and print a range
                            as a table: A1:B9, Sheet.A1:B9 or a range's name. Without one:
                            the range named RunSummary, or else what the first sheet holds

  --profile DIR             a profile that stays; without it a fresh one for this once
  --extension OXT           install this first (for a profile for this once)
  --locale xx-YY            of a profile that is new, default en-US
)";

struct UsageError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

void require_words(const Words& words, std::size_t least, std::size_t most) {
    if (words.size() < least || words.size() > most)
        throw UsageError("wrong number of arguments");
}

Document open_computed(Office& office, const std::string& file) {
    Document document = office.open(file);
    document.hard_recalculate();
    return document;
}

void install(Office& office, const Words& words) {
    require_words(words, 1, words.size());
    for (const std::string& file : words) {
        office.install(file);
        std::cout << "installed " << file << "\n";
    }
}

void remove(Office& office, const Words& words) {
    require_words(words, 1, words.size());
    for (const std::string& identifier : words) {
        office.remove(identifier);
        std::cout << "removed " << identifier << "\n";
    }
}

void extensions(Office& office, const Words& words) {
    require_words(words, 1, words.size());
    for (const std::string& identifier : words)
        std::cout << identifier << " "
                  << office.extension_version(identifier).value_or("is not installed") << "\n";
}

void convert(Office& office, const Words& words) {
    require_words(words, 2, words.size());
    const Document document = open_computed(office, words.front());
    for (std::size_t i = 1; i < words.size(); ++i) {
        document.save(words[i]);
        std::cout << "wrote " << words[i] << "\n";
    }
}

void summary(Office& office, const Words& words) {
    require_words(words, 1, 2);
    const Document document = open_computed(office, words[0]);
    const char* usual = "RunSummary";
    if (words.size() == 2)
        std::cout << text_table(document.find(words[1]));
    else if (document.has_named_range(usual))
        std::cout << text_table(document.named_range(usual));
    else
        std::cout << text_table(document.sheet().used());
}

int run(Words words) {
    Options options;
    Words extensions_first;
    std::size_t next = 0;
    for (; next < words.size() && words[next].starts_with("--"); ++next) {
        const std::string option = words[next];
        if (option == "--help") {
            std::cout << usage_text;
            return 0;
        }
        if (++next == words.size())
            throw UsageError("nothing follows " + option);
        if (option == "--profile")
            options.profile = words[next];
        else if (option == "--locale")
            options.locale = words[next];
        else if (option == "--extension")
            extensions_first.push_back(words[next]);
        else
            throw UsageError("unknown option " + option);
    }
    const std::map<std::string, std::function<void(Office&, const Words&)>> commands = {
        {"install", install}, {"remove", remove},   {"extensions", extensions},
        {"convert", convert}, {"summary", summary},
    };
    if (next == words.size())
        throw UsageError("no command given");
    const auto command = commands.find(words[next]);
    if (command == commands.end())
        throw UsageError("unknown command " + words[next]);

    Office office(options);
    for (const std::string& file : extensions_first)
        office.install(file);
    command->second(office,
                    Words(words.begin() + static_cast<std::ptrdiff_t>(next) + 1, words.end()));
    if (!office.end())
        throw jarbook::office::OfficeError("the office did not end in good order\n" + office.log());
    return 0;
}

} // namespace

int main(int count, char** words) {
    try {
        return run(Words(words + 1, words + count));
    } catch (const UsageError& trouble) {
        std::cerr << "jarbook-office: " << trouble.what() << "\n\n" << usage_text;
        return 2;
    } catch (const std::exception& trouble) {
        std::cerr << "jarbook-office: " << trouble.what() << "\n";
        return 1;
    }
}
