// Expectations about refusals: kind, argument, and a sentence that names value and allowed range.
#pragma once

#include "core/base/refusal.hpp"

#include <gtest/gtest.h>
#include <initializer_list>
#include <string>
#include <utility>

inline const char* kind_name(jarbook::RefusalKind kind) {
    switch (kind) {
    case jarbook::RefusalKind::not_a_number:
        return "not_a_number";
    case jarbook::RefusalKind::out_of_range:
        return "out_of_range";
    case jarbook::RefusalKind::impossible:
        return "impossible";
    case jarbook::RefusalKind::nothing_there:
        return "nothing_there";
    case jarbook::RefusalKind::no_convergence:
        return "no_convergence";
    }
    return "unknown";
}

// Runs f, which must refuse with that kind and argument, in a sentence that contains all of
// `wanted`: the value as a person wrote it, and what would be allowed.
template <class F>
void expect_refusal(F f, jarbook::RefusalKind kind, const std::string& argument,
                    std::initializer_list<std::string> wanted) {
    try {
        f();
    } catch (const jarbook::Refusal& refusal) {
        EXPECT_STREQ(kind_name(refusal.kind()), kind_name(kind)) << refusal.sentence();
        EXPECT_EQ(refusal.argument(), argument) << refusal.sentence();
        for (const std::string& part : wanted)
            EXPECT_NE(refusal.sentence().find(part), std::string::npos)
                << "\"" << part << "\" is missing from: " << refusal.sentence();
        EXPECT_STREQ(refusal.what(), refusal.sentence().c_str());
        return;
    }
    ADD_FAILURE() << "not refused; expected a refusal of " << argument;
}
