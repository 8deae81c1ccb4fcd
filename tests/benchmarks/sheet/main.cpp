// What our functions cost in sheets, against what a person would do otherwise. Run by hand; figures
// stand in ../README.md. Times are processor time of the office, so that other work on the machine
// matters less.
#include "formulas.hpp"
#include "office.hpp"

#include <algorithm>
#include <chrono>
#include <com/sun/star/container/XNameContainer.hpp>
#include <com/sun/star/script/XLibraryContainer.hpp>
#include <com/sun/star/sheet/FillDirection.hpp>
#include <com/sun/star/sheet/XCellSeries.hpp>
#include <cstdio>
#include <fstream>
#include <functional>
#include <iostream>
#include <map>
#include <random>
#include <sstream>
#include <unistd.h>

namespace {

using namespace com::sun::star;
using namespace jarbook;
using jarbook::benchmark::Formula;
using office::Document;
using office::Office;
using office::Rows;
using office::Value;
using Words = std::vector<std::string>;

constexpr auto patience = std::chrono::minutes(30);

// Seconds of processor time that the office has used so far.
double processor_time(pid_t pid) {
    std::ifstream file("/proc/" + std::to_string(pid) + "/stat");
    std::string text((std::istreambuf_iterator<char>(file)), {});
    std::istringstream fields(text.substr(text.rfind(')') + 1));
    std::string skipped;
    double user = 0.0, system = 0.0;
    for (int i = 0; i < 11; ++i)
        fields >> skipped;
    fields >> user >> system;
    return (user + system) / static_cast<double>(sysconf(_SC_CLK_TCK));
}

double resident_mb(pid_t pid) {
    std::ifstream file("/proc/" + std::to_string(pid) + "/status");
    for (std::string line; std::getline(file, line);)
        if (line.starts_with("VmRSS:"))
            return std::stod(line.substr(6)) / 1024.0;
    return 0.0;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

struct Lap {
    double processor = 0.0; // s
    double wall = 0.0;      // s
};

Lap timed(const Office& office, const std::function<void()>& work) {
    const double before = processor_time(office.pid());
    const auto start = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
    return {processor_time(office.pid()) - before, wall.count()};
}

Office new_office() {
    return Office({.call_timeout = patience});
}

void install_all(Office& office) {
    office.install(JARBOOK_OXT, office::Afterwards::go_on);
    office.install(JARBOOK_NOTHING_OXT);
}

void add_macro(Office& office) {
    std::ifstream file(JARBOOK_STRENGTH_BAS);
    const std::string source((std::istreambuf_iterator<char>(file)), {});
    const uno::Reference<script::XLibraryContainer> libraries(
        office.service("com.sun.star.script.ApplicationScriptLibraryContainer"),
        uno::UNO_QUERY_THROW);
    if (!libraries->hasByName("Standard"))
        libraries->createLibrary("Standard");
    libraries->loadLibrary("Standard");
    uno::Reference<container::XNameContainer> standard;
    libraries->getByName("Standard") >>= standard;
    standard->insertByName("Strength",
                           uno::Any(rtl::OUString::fromUtf8(rtl::OString(source.c_str()))));
}

// Strengths for readings 0 to 100 and 0 to 40 °C; 0 where there is none, which no input asks for.
void fill_table(Document& document) {
    office::Sheet table = document.add_sheet("Table");
    Rows<std::string> rows(102, std::vector<std::string>(42));
    for (int i = 0; i <= 100; ++i)
        rows[i + 1][0] = std::to_string(i);
    for (int k = 0; k <= 40; ++k) {
        rows[0][k + 1] = std::to_string(k);
        for (int i = 0; i <= 100; ++i)
            rows[i + 1][k + 1] = "=IFERROR(SPIRIT.STRENGTH(" + std::to_string(i) + ";" +
                                 (k ? std::to_string(k) : "0.001") + ");0)";
    }
    table.range("A1:AP102").set_formulas(rows);
    table.range("A1:AP102").set_values(table.range("A1:AP102").values());
}

void fill_inputs(Document& document, int rows) {
    std::mt19937 random(20);
    std::uniform_real_distribution<double> reading(5.0, 95.0), temperature(5.0, 35.0);
    constexpr int block = 50'000;
    for (int first = 0; first < rows + 20; first += block) {
        const int count = std::min(block, rows + 20 - first);
        Rows<Value> values;
        for (int i = 0; i < count; ++i)
            values.push_back({reading(random), temperature(random)});
        document.sheet()
            .range("A" + std::to_string(first + 1) + ":B" + std::to_string(first + count))
            .set_values(values);
    }
}

// Enters the formula in C1 and fills it down, or over all rows as an array, or in C1 alone.
void enter(Document& document, const Formula& formula, int rows) {
    std::string text = formula.text;
    for (std::size_t at; (at = text.find("{n}")) != std::string::npos;)
        text.replace(at, 3, std::to_string(rows));
    const std::string column = "C1:C" + std::to_string(rows);
    if (formula.entered == Formula::Entered::one_cell) {
        document.sheet().cell("C1").set_formula(text);
        document.sheet().cell("C1").number();
        return;
    }
    if (formula.entered == Formula::Entered::array) {
        document.sheet().range(column).set_array_formula(text);
        document.sheet().cell("C" + std::to_string(rows)).number();
        return;
    }
    document.sheet().cell("C1").set_formula(text);
    const uno::Reference<sheet::XCellSeries> series(document.sheet().range(column).uno(),
                                                    uno::UNO_QUERY_THROW);
    series->fillAuto(sheet::FillDirection_TO_BOTTOM, 1);
    // A benchmark of errors would be a fast one.
    for (const int row : {1, rows / 2, rows})
        document.sheet().cell("C" + std::to_string(row)).number();
}

void calls(const Words& words) {
    const int rows = std::stoi(words.at(0));
    const std::string part = words.size() > 1 ? words[1] : "";
    const int laps = rows > 200'000 ? 3 : 5;
    std::cout
        << "Cells: " << rows << "; hard recalculation, median of " << laps << "\n\n"
        << "| formula | processor time, s | a cell, µs | × native | × what it is held against |"
           " memory, MB |\n| --- | --- | --- | --- | --- | --- |\n";
    std::map<std::string, double> times;
    double native = 0.0;
    for (const Formula& formula : benchmark::formulas()) {
        if (!part.empty() && formula.name.find(part) == std::string::npos && native > 0.0)
            continue;
        Office office = new_office();
        install_all(office);
        add_macro(office);
        Document document = office.new_document();
        fill_table(document);
        fill_inputs(document, rows);
        const double before = resident_mb(office.pid());
        enter(document, formula, rows);
        std::vector<double> lap_times;
        for (int i = 0; i < laps; ++i)
            lap_times.push_back(timed(office, [&] { document.hard_recalculate(); }).processor);
        const double time = median(lap_times);
        times[formula.name] = time;
        if (native == 0.0)
            native = time;
        std::printf("| %s | %.3f | %.2f | %.1f | ", formula.name.c_str(), time, 1e6 * time / rows,
                    time / native);
        if (times.contains(formula.call_of))
            std::printf("%.2f", time / times[formula.call_of]);
        std::printf(" | %.0f |\n", resident_mb(office.pid()) - before);
        std::fflush(stdout);
        document.close();
        office.end();
    }
}

// From the start of the office to the first number in a cell.
void first(const Words&) {
    std::cout << "| first number after the start | wall, s | processor time, s |\n"
                 "| --- | --- | --- |\n";
    for (const bool with : {false, true}) {
        Office once = new_office();
        if (with)
            once.install(JARBOOK_OXT);
        std::vector<double> walls, processors;
        std::vector<double> cell;
        for (int i = 0; i < 5; ++i) {
            once.end();
            const auto start = std::chrono::steady_clock::now();
            once.restart();
            Document document = once.new_document();
            const std::string formula = with ? "=SPIRIT.STRENGTH(60;25)" : "=SQRT(60^2+25^2)";
            cell.push_back(timed(once, [&] {
                               document.sheet().cell("A1").set_formula(formula);
                               document.sheet().cell("A1").number();
                           }).wall);
            walls.push_back(
                std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
            processors.push_back(processor_time(once.pid()));
            document.close();
        }
        std::printf("| %s | %.2f | %.2f |\n",
                    with ? "STRENGTH, with the extension" : "SQRT, without it", median(walls),
                    median(processors));
        std::printf("| … of that the cell itself | %.4f | |\n", median(cell));
    }
}

void load(const Words& words) {
    std::cout << "| loading | processor time, s | wall, s | hard recalculation, s |"
                 " memory, MB |\n| --- | --- | --- | --- | --- |\n";
    for (const std::string& file : words)
        for (const bool with : {true, false}) {
            Office office = new_office();
            if (with)
                office.install(JARBOOK_OXT);
            office.new_document().close(); // what the first document of an office costs is not ours
            const double before = resident_mb(office.pid());
            std::vector<double> processors, walls, again;
            for (int i = 0; i < 3; ++i) {
                std::optional<Document> document;
                const Lap lap = timed(office, [&] { document.emplace(office.open(file)); });
                processors.push_back(lap.processor);
                walls.push_back(lap.wall);
                again.push_back(timed(office, [&] { document->hard_recalculate(); }).processor);
                document->close();
            }
            std::printf("| %s, %s the extension | %.2f | %.2f | %.2f | %.0f |\n",
                        std::filesystem::path(file).filename().c_str(), with ? "with" : "without",
                        median(processors), median(walls), median(again),
                        resident_mb(office.pid()) - before);
            std::fflush(stdout);
        }
}

} // namespace

int main(int count, char** arguments) {
    const Words words(arguments + 1, arguments + count);
    const std::map<std::string, std::function<void(const Words&)>> commands = {
        {"calls", calls}, {"first", first}, {"load", load}};
    if (words.empty() || !commands.contains(words[0]) ||
        (words[0] == "calls" && words.size() < 2)) {
        std::cerr << "sheet_benchmark calls ROWS [PART OF A FORMULA'S NAME]\n"
                     "sheet_benchmark first\n"
                     "sheet_benchmark load FILE...\n";
        return 2;
    }
    try {
        commands.at(words[0])(Words(words.begin() + 1, words.end()));
    } catch (const std::exception& trouble) {
        std::cerr << trouble.what() << "\n";
        return 1;
    }
}
