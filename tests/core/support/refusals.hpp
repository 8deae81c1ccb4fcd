// Expectations about refusals: kind, argument, and a sentence that names value and allowed range.
#pragma once

#include "core/base/refusal.hpp"

#include <functional>
#include <gtest/gtest.h>
#include <initializer_list>
#include <string>

const char* kind_name(jarbook::RefusalKind kind);

// Runs f, which must refuse with that kind and argument, in a sentence that contains all of
// `wanted`: the value as a person wrote it, and what would be allowed.
void expect_refusal(const std::function<void()>& f, jarbook::RefusalKind kind,
                    const std::string& argument, std::initializer_list<std::string> wanted);
