// Generators for RapidCheck: numbers that lean towards the ends of a range, where arithmetic
// breaks.
#pragma once

#include <gtest/gtest.h> // before rapidcheck/gtest.h, which needs it
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

// A double of [low, high]: anywhere, at an end, or as near to an end as 1e-15 of the range.
rc::Gen<double> within(double low, double high);

// What all properties and most of their generators are made of is compiled once, in ranges.cpp: in
// each file of properties it would be half of the time that compiling takes.
extern template void rc::detail::checkGTest(void (*&&)());
