#include "binding.hpp"

#include "generator.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <com/sun/star/lang/XComponent.hpp>
#include <com/sun/star/reflection/InvocationTargetException.hpp>
#include <com/sun/star/reflection/theCoreReflection.hpp>
#include <cppuhelper/bootstrap.hxx>
#include <dlfcn.h>
#include <osl/file.hxx>
#include <rtl/bootstrap.hxx>
#include <stdexcept>

// What UNO's headers allocate once for a type and keep for good.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:cppu_detail_getUnoType\n";
}

namespace jarbook::hostile {

using namespace com::sun::star;
using Cells = uno::Sequence<uno::Sequence<uno::Any>>;

namespace {

rtl::OUString wide(const std::string& utf8) {
    return {utf8.data(), static_cast<sal_Int32>(utf8.size()), RTL_TEXTENCODING_UTF8};
}

std::string narrow(const rtl::OUString& text) {
    const rtl::OString bytes = rtl::OUStringToOString(text, RTL_TEXTENCODING_UTF8);
    return {bytes.getStr(), static_cast<std::size_t>(bytes.getLength())};
}

rtl::OUString url_of(const std::string& path) {
    rtl::OUString url;
    if (osl::FileBase::getFileURLFromSystemPath(wide(path), url) != osl::FileBase::E_None)
        throw std::runtime_error("no file URL can be made of " + path);
    return url;
}

using Constructor = uno::XInterface* (*)(uno::XComponentContext*, const uno::Sequence<uno::Any>&);

uno::Reference<uno::XInterface> made_by(void* library, const char* constructor) {
    void* symbol = dlsym(library, constructor);
    if (!symbol)
        throw std::runtime_error(std::string("no ") + constructor + ": " + dlerror());
    return {reinterpret_cast<Constructor>(symbol)(nullptr, {}), SAL_NO_ACQUIRE};
}

// The code that an error value carries; 0 where it carries none that the catalogue knows.
int code_of(double nan) {
    const auto bits = std::bit_cast<std::uint64_t>(nan);
    for (const catalogue::Error& error : catalogue::errors())
        if (bits == (0x7ff8000000000000 | static_cast<std::uint64_t>(error.code)))
            return error.code;
    return 0;
}

bool answers_row_by_row(const catalogue::Function& function) {
    for (const catalogue::Argument& argument : function.arguments)
        if (argument.kind == catalogue::Kind::rows)
            return true;
    return false;
}

std::string fault_of_cell(const uno::Any& cell, bool row_by_row) {
    double number = 0.0;
    rtl::OUString text;
    if (cell >>= text)
        return {};
    if (cell.getValueTypeClass() != uno::TypeClass_DOUBLE || !(cell >>= number))
        return "a cell that is neither number nor text: " + narrow(cell.getValueTypeName());
    // A figure that is not there may stand as #N/A in a table.
    if (!std::isfinite(number) && code_of(number) != 32767 && !(row_by_row && code_of(number)))
        return "a cell that is not finite";
    return {};
}

std::string fault_of(const Cells& cells, bool row_by_row) {
    if (!cells.hasElements() || !cells[0].hasElements())
        return "an array without cells";
    for (const uno::Sequence<uno::Any>& row : cells) {
        if (row.getLength() != cells[0].getLength())
            return "a ragged array"; // Calc would fill it up with zeros
        for (const uno::Any& cell : row)
            if (std::string fault = fault_of_cell(cell, row_by_row); !fault.empty())
                return fault;
    }
    return {};
}

// Errors in single cells of a result.
sal_Int32 wrong_cells(const Cells& cells) {
    sal_Int32 count = 0;
    double number = 0.0;
    for (const uno::Sequence<uno::Any>& row : cells)
        for (const uno::Any& cell : row)
            count += (cell >>= number) && !std::isfinite(number);
    return count;
}

} // namespace

Binding::Binding(const std::string& library, const std::string& types, const std::string& program) {
    rtl::Bootstrap::set("URE_MORE_TYPES",
                        url_of(program + "/types/offapi.rdb") + " " + url_of(types));
    context_ = cppu::defaultBootstrap_InitialComponentContext();
    void* handle = dlopen(library.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (!handle)
        throw std::runtime_error(dlerror());
    const auto spirit = made_by(handle, "jarbook_spirit");
    reasons_.set(made_by(handle, "jarbook_reasons"), uno::UNO_QUERY_THROW);
    const auto type = reflection::theCoreReflection::get(context_)->forName("org.jarbook.XSpirit");
    if (!type.is())
        throw std::runtime_error("org.jarbook.XSpirit is not among the types");
    spirit_ = spirit->queryInterface(
        uno::Type(uno::TypeClass_INTERFACE, rtl::OUString("org.jarbook.XSpirit")));
    for (const catalogue::Function& function : catalogue::functions()) {
        const std::string name(function.method);
        const auto method = type->getMethod(wide(name));
        if (!method.is())
            throw std::runtime_error("the interface has no method " + name);
        methods_[name] = {method, &function};
    }
}

Binding::~Binding() {
    methods_.clear();
    spirit_.clear();
    reasons_.clear();
    if (const uno::Reference<lang::XComponent> context(context_, uno::UNO_QUERY); context.is())
        context->dispose();
}

Outcome Binding::call(const Call& call, std::chrono::nanoseconds* time) {
    using clock = std::chrono::steady_clock;
    const auto found = methods_.find(call.method);
    if (found == methods_.end())
        throw std::runtime_error("the catalogue has no function " + call.method);
    const auto& [method, function] = found->second;
    uno::Sequence<uno::Any> arguments(static_cast<sal_Int32>(call.arguments.size()));
    std::transform(call.arguments.begin(), call.arguments.end(), arguments.getArray(),
                   [](const Value& value) { return any_from(value); });
    reasons_->forget();
    try {
        const auto start = clock::now();
        const uno::Any result = method->invoke(spirit_, arguments);
        if (time)
            *time = clock::now() - start;
        return judged(*function, call, result);
    } catch (const lang::IllegalArgumentException&) {
        return {};
    } catch (const reflection::InvocationTargetException& thrown) {
        return {Answer::refusal,
                "an exception left the add-in: " +
                    narrow(thrown.TargetException.getValueTypeName()),
                {}};
    } catch (const std::exception& thrown) {
        return {Answer::refusal, std::string("an exception left the add-in: ") + thrown.what(), {}};
    }
}

Outcome Binding::judged(const catalogue::Function& function, const Call& call,
                        const uno::Any& result) {
    Outcome outcome;
    rtl::OUString text;
    double number = 0.0;
    Cells cells;
    uno::Sequence<uno::Sequence<double>> numbers;
    if (result >>= numbers) { // what answers row by row gives where every row is a number
        outcome.answer = Answer::cells;
        cells.realloc(numbers.getLength());
        for (sal_Int32 r = 0; r < numbers.getLength(); ++r) {
            uno::Sequence<uno::Any> row(numbers[r].getLength());
            for (sal_Int32 c = 0; c < row.getLength(); ++c)
                row.getArray()[c] <<= numbers[r][c];
            cells.getArray()[r] = row;
        }
        outcome.fault = fault_of(cells, false);
    } else if (result >>= text) {
        outcome.answer = Answer::text;
        // Without arguments it cannot be refused; a cell holds 32767 characters of text.
        if (text.getLength() > 32767)
            outcome.fault = "a text that no cell holds";
    } else if (result >>= cells) {
        outcome.answer = Answer::cells;
        outcome.fault = fault_of(cells, answers_row_by_row(function));
    } else if (result.getValueTypeClass() == uno::TypeClass_DOUBLE && (result >>= number)) {
        outcome.number = number;
        outcome.answer = std::isfinite(number) ? Answer::number : Answer::refusal;
    } else {
        outcome.fault = "a result of type " + narrow(result.getValueTypeName());
    }
    if (outcome.answer == Answer::refusal) {
        const auto reasons = reasons_->latest();
        const int code = code_of(number);
        if (code == 0)
            outcome.fault = "a number that is neither finite nor one of our errors";
        else if (reasons.getLength() != 1)
            outcome.fault = std::to_string(reasons.getLength()) + " reasons for one refusal";
        else if (reasons[0].code != code || narrow(reasons[0].functionName) != function.name ||
                 reasons[0].sentence.getLength() < 20)
            outcome.fault = "the reason is not that of this refusal";
        else
            outcome.reason = narrow(reasons[0].sentence);
        // At its start: further on, it may be quoted from an argument.
        if (outcome.reason.starts_with(std::string(function.name) + ": could not be computed"))
            outcome.fault = "a defect of ours: " + outcome.reason;
    } else if (constexpr sal_Int32 kept = 64; // ReasonLog keeps the latest
               outcome.fault.empty() &&
               reasons_->latest().getLength() != std::min(wrong_cells(cells), kept)) {
        // Where single cells of a result are errors, each has its reason.
        outcome.fault = std::to_string(reasons_->latest().getLength()) + " reasons for " +
                        std::to_string(wrong_cells(cells)) + " errors";
    } else if (const auto why = must_be_refused(function, call); why && outcome.fault.empty()) {
        outcome.fault = "not refused, though " + *why;
    }
    return outcome;
}

} // namespace jarbook::hostile
