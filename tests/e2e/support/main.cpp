// Runs the tests and ends their office while the program is still whole.
#include <gtest/gtest.h>

#include "support/support.hpp"

int main(int count, char** words) {
    testing::InitGoogleTest(&count, words);
    const int result = RUN_ALL_TESTS();
    jarbook::e2e::end_shared_office();
    return result;
}
