#include "support/support.hpp"

#include <cmath>
#include <cstdlib>
#include <memory>
#include <org/jarbook/XReasons.hpp>
#include <ostream>

#include "text.hpp"

namespace jarbook::e2e {

using namespace com::sun::star;

namespace {

// The office, then what lives in it.
struct Shared {
    std::unique_ptr<office::Office> office;
    std::optional<office::Document> document;
    std::optional<office::Sheet> sheet;
};

Shared& shared() {
    static Shared all;
    return all;
}

uno::Reference<org::jarbook::XReasons> reasons_service() {
    return {shared_office().service("org.jarbook.Reasons"), uno::UNO_QUERY_THROW};
}

} // namespace

int Outcome::error() const {
    const auto* error = std::get_if<office::CellError>(&value);
    return error ? error->code : 0;
}

const Reason* Outcome::reason_about(const std::string& argument) const {
    for (const Reason& reason : reasons)
        if (reason.argument == argument)
            return &reason;
    return nullptr;
}

std::ostream& operator<<(std::ostream& out, const Outcome& outcome) {
    out << office::describe(outcome.value);
    for (const Reason& reason : outcome.reasons)
        out << "\n  reason: [" << reason.function << ", " << reason.argument << ", " << reason.value
            << ", " << reason.code << "] " << reason.sentence;
    return out;
}

std::string test_locale() {
    const char* locale = std::getenv("JARBOOK_TEST_LOCALE");
    return locale && *locale ? locale : "en-US";
}

bool comma_decimal() {
    return test_locale() != "en-US";
}

office::Office& shared_office() {
    auto& slot = shared().office;
    if (!slot) {
        slot = std::make_unique<office::Office>(
            office::Options{.locale = test_locale(), .types = {JARBOOK_TYPES}});
        slot->install(JARBOOK_OXT);
    }
    return *slot;
}

void end_shared_office() {
    shared().sheet.reset();
    shared().document.reset();
    shared().office.reset();
}

void CalcTest::SetUp() {
    sheet().clear();
}

office::Sheet& CalcTest::sheet() {
    Shared& all = shared();
    if (!all.sheet) {
        all.document.emplace(shared_office().new_document());
        all.sheet.emplace(all.document->sheet());
    }
    return *all.sheet;
}

Outcome CalcTest::evaluate(const std::string& formula, const std::string& address) {
    forget_reasons();
    office::Cell target = cell(address);
    target.set_formula(formula);
    // Read first: the office may compute no earlier than a value is asked for.
    const office::Value value = target.value();
    return {value, captured_reasons()};
}

office::Rows<office::Value> CalcTest::evaluate_array(const std::string& formula, int rows,
                                                     int columns) {
    if (columns > 26)
        throw std::invalid_argument("too many columns for a result from Z1");
    std::string last = "Z";
    if (columns > 1)
        last = std::string("A") + static_cast<char>('A' + columns - 2);
    office::Range target = sheet().range("Z1:" + last + std::to_string(rows));
    target.set_array_formula(formula);
    auto result = target.values();
    target.set_array_formula("");
    return result;
}

std::vector<Reason> captured_reasons() {
    return shared_office().call("reading the reasons", [] {
        std::vector<Reason> result;
        for (const org::jarbook::Reason& reason : reasons_service()->latest())
            result.push_back({office::to_utf8(reason.functionName),
                              office::to_utf8(reason.argumentName), office::to_utf8(reason.value),
                              office::to_utf8(reason.sentence), reason.code});
        return result;
    });
}

void forget_reasons() {
    shared_office().call("forgetting the reasons", [] { reasons_service()->forget(); });
}

testing::AssertionResult is_number(const Outcome& outcome, double expected, double tolerance) {
    const double* number = std::get_if<double>(&outcome.value);
    // Written so that NaN fails.
    if (number && std::fabs(*number - expected) <= tolerance)
        return testing::AssertionSuccess();
    return testing::AssertionFailure() << "the cell holds " << outcome << "\n  expected "
                                       << office::describe(expected) << " within " << tolerance;
}

testing::AssertionResult is_error(const Outcome& outcome, int code) {
    if (outcome.error() == code && code != 0)
        return testing::AssertionSuccess();
    return testing::AssertionFailure() << "the cell holds " << outcome << "\n  expected "
                                       << office::describe(office::CellError{code});
}

testing::AssertionResult is_same(const Outcome& outcome, const Outcome& other) {
    if (outcome.value == other.value)
        return testing::AssertionSuccess();
    return testing::AssertionFailure()
           << "the cell holds " << outcome << "\n  the other holds " << other;
}

} // namespace jarbook::e2e
