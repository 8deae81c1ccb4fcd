#include "support/refusals.hpp"

const char* kind_name(jarbook::RefusalKind kind) {
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

void expect_refusal(const std::function<void()>& f, jarbook::RefusalKind kind,
                    const std::string& argument, std::initializer_list<std::string> wanted) {
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
