// jarbook-hostile-sheet: generated formulas of every function in a real Calc: no crash, no hang, no
// number that is none, no refusal without its reason.
#include "formula.hpp"
#include "office.hpp"
#include "text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <map>
#include <org/jarbook/XReasons.hpp>

using namespace jarbook;
using namespace jarbook::hostile;

namespace {

constexpr char usage[] = "jarbook-hostile-sheet [--calls N] [--seed N] [--first N] [--batch N]\n";
// One call is answered in milliseconds; a batch with whole columns in seconds, on a busy machine.
constexpr auto batch_limit = std::chrono::seconds(120);

struct Entered {
    const catalogue::Function* function;
    Call call;
    Formula formula;
};

class Run {
public:
    // `batch`: so many formulas are entered at once.
    Run(std::uint64_t seed, std::uint64_t batch)
        : seed_(seed), batch_size_(batch), office_(options()) {
        office_.install(JARBOOK_OXT);
        reasons_.set(office_.service("org.jarbook.Reasons"), com::sun::star::uno::UNO_QUERY_THROW);
    }
    ~Run() {
        reasons_.clear();
        document_.reset();
    }

    int calls(std::uint64_t first, std::uint64_t count) {
        for (std::uint64_t done = 0; done < count; done += batch_size_) {
            // Now and then another document: cells and strings of old batches go.
            if (done % (batch_size_ * 200) == 0)
                new_document();
            batch(first + done, std::min(batch_size_, count - done));
        }
        std::printf("%-22s %9s %9s %9s %9s\n", "function", "formulas", "answers", "refused",
                    "by Calc");
        for (const auto& [name, line] : lines_)
            std::printf("%-22s %9d %9d %9d %9d\n", name.c_str(), line.formulas, line.answers,
                        line.refused, line.by_calc);
        std::printf("%llu formulas, %d faults\n", static_cast<unsigned long long>(count), faults_);
        document_.reset();
        reasons_.clear();
        if (!office_.end()) {
            std::cout << "the office did not end in good order\n" << office_.log();
            return 1;
        }
        return faults_ == 0 && count > 0 ? 0 : 1;
    }

private:
    struct Line {
        int formulas = 0, answers = 0, refused = 0, by_calc = 0;
    };

    static office::Options options() {
        office::Options options;
        options.types = {JARBOOK_TYPES};
        options.call_timeout = batch_limit;
        return options;
    }

    void new_document() {
        document_.reset();
        document_.emplace(office_.new_document());
        document_->add_sheet("Calls");
        document_->add_sheet("Cells");
        fill_fixed_sheet(*document_);
    }

    void batch(std::uint64_t first, std::uint64_t count) {
        Cells cells("Cells");
        std::vector<Entered> entered;
        office::Rows<std::string> texts;
        for (std::uint64_t n = first; n < first + count; ++n) {
            Random random(call_seed(seed_, n));
            const auto& functions = catalogue::functions();
            const std::size_t which = random.below(functions.size());
            Call call = generator_.call(which, random.next());
            Formula formula = formula_from(functions[which], call, random, cells);
            texts.push_back({formula.text});
            entered.push_back({&functions[which], std::move(call), std::move(formula)});
        }
        try {
            office::Sheet sheet = document_->sheet("Calls");
            sheet.clear();
            const auto values = cells.rows();
            if (!values.empty())
                document_->sheet("Cells").range("A1:" + last_cell(values)).set_values(values);
            forget();
            office::Range range = sheet.range("A1:A" + std::to_string(count));
            range.set_formulas(texts);
            const auto results = range.values();
            const auto known = latest();
            for (std::size_t i = 0; i < count; ++i)
                judge(entered[i], results[i][0], known, i);
        } catch (const office::OfficeError& trouble) {
            std::cout << "the office failed in the batch from " << first << ":\n";
            for (const auto& row : texts)
                std::cout << "  " << row[0] << "\n";
            throw;
        }
    }

    static std::string last_cell(const office::Rows<office::Value>& values) {
        std::string name;
        for (std::size_t index = values[0].size(); index > 0; index = (index - 1) / 26)
            name.insert(name.begin(), static_cast<char>('A' + (index - 1) % 26));
        return name + std::to_string(values.size());
    }

    void judge(const Entered& entered, const office::Value& value,
               const std::multimap<std::string, int>& known, std::size_t row) {
        Line& line = lines_[std::string(entered.function->name)];
        ++line.formulas;
        if (const auto* error = std::get_if<office::CellError>(&value)) {
            if (has(known, entered, error->code)) {
                ++line.refused;
            } else if (entered.formula.calc_may_refuse) {
                ++line.by_calc;
            } else if (alone(entered, error->code, row)) {
                ++line.refused; // its reason had been pushed out by later ones
            } else {
                fault(entered, value, "an error without a reason");
            }
            return;
        }
        ++line.answers;
        if (const auto* number = std::get_if<double>(&value); number && !std::isfinite(*number))
            fault(entered, value, "a number that is not finite");
        if (std::holds_alternative<office::Blank>(value))
            fault(entered, value, "nothing at all");
        if (entered.formula.exact)
            if (const auto why = must_be_refused(*entered.function, entered.call))
                fault(entered, value, "not refused, though " + *why);
    }

    bool has(const std::multimap<std::string, int>& known, const Entered& entered, int code) const {
        const auto [from, to] = known.equal_range(std::string(entered.function->name));
        return std::any_of(from, to, [&](const auto& reason) { return reason.second == code; });
    }

    // Enters the formula again, to hear of its own reasons only.
    bool alone(const Entered& entered, int code, std::size_t row) {
        forget();
        office::Cell cell = document_->sheet("Calls").cell("A" + std::to_string(row + 1));
        cell.set_formula(entered.formula.text);
        return cell.error() == code && has(latest(), entered, code);
    }

    void forget() {
        office_.call("forgetting reasons", [&] { reasons_->forget(); });
    }

    std::multimap<std::string, int> latest() {
        return office_.call("reading reasons", [&] {
            std::multimap<std::string, int> result;
            for (const org::jarbook::Reason& reason : reasons_->latest())
                result.emplace(office::to_utf8(reason.functionName), reason.code);
            return result;
        });
    }

    void fault(const Entered& entered, const office::Value& value, const std::string& what) {
        if (++faults_ <= 20)
            std::cout << "FAULT " << what << ": " << office::describe(value) << "\n  "
                      << entered.formula.text << "\n  " << notation(entered.call) << std::endl;
    }

    std::uint64_t seed_;
    std::uint64_t batch_size_;
    Generator generator_;
    office::Office office_;
    std::optional<office::Document> document_;
    com::sun::star::uno::Reference<org::jarbook::XReasons> reasons_;
    std::map<std::string, Line> lines_;
    int faults_ = 0;
};

} // namespace

int main(int count, char** words) {
    std::map<std::string, std::uint64_t> numbers = {
        {"--calls", 5000}, {"--seed", 1}, {"--first", 0}, {"--batch", 50}};
    for (int i = 1; i < count; i += 2) {
        const auto number = numbers.find(words[i]);
        if (i + 1 == count || number == numbers.end()) {
            std::cerr << usage;
            return 2;
        }
        number->second = std::strtoull(words[i + 1], nullptr, 10);
    }
    try {
        return Run(numbers["--seed"], std::max<std::uint64_t>(numbers["--batch"], 1))
            .calls(numbers["--first"], numbers["--calls"]);
    } catch (const std::exception& trouble) {
        std::cerr << "jarbook-hostile-sheet: " << trouble.what() << "\n";
        return 1;
    }
}
