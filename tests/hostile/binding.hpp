// The packed library in this process, without an office, called as Calc calls it: by the names of
// methods, through UNO's reflection.
#pragma once

#include "call.hpp"
#include "catalogue.hpp"

#include <chrono>
#include <com/sun/star/reflection/XIdlMethod.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <map>
#include <org/jarbook/XReasons.hpp>
#include <string>

namespace jarbook::hostile {

enum class Answer {
    number,    // one number
    text,      // one text
    cells,     // rows of cells
    refusal,   // an error value with its reason
    not_called // the arguments do not fit the method: refused before the call, by reflection
};

struct Outcome {
    Answer answer = Answer::not_called;
    // What must not be: a number that is not finite, an error without a reason, an exception, a
    // result of another kind, a number where the catalogue promises a refusal. Empty: nothing.
    std::string fault;
    // The sentence of a refusal.
    std::string reason;
    // Of one number.
    double number = 0.0;
};

class Binding {
public:
    // `library`: jarbook.uno.so; `types`: the compiled IDL; `program`: the office's program folder.
    Binding(const std::string& library, const std::string& types, const std::string& program);
    ~Binding();
    Binding(const Binding&) = delete;
    Binding& operator=(const Binding&) = delete;

    // `time`: what the call itself took, without making the arguments and judging the result.
    Outcome call(const Call& call, std::chrono::nanoseconds* time = nullptr);

private:
    Outcome judged(const catalogue::Function& function, const Call& call,
                   const com::sun::star::uno::Any& result);

    struct Method {
        com::sun::star::uno::Reference<com::sun::star::reflection::XIdlMethod> method;
        const catalogue::Function* function;
    };
    com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext> context_;
    com::sun::star::uno::Any spirit_;
    com::sun::star::uno::Reference<org::jarbook::XReasons> reasons_;
    std::map<std::string, Method> methods_;
};

} // namespace jarbook::hostile
