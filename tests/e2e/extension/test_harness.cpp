// The harness itself: what the other tests stand on, and what it does when an office misbehaves.
#include <csignal>
#include <filesystem>
#include <fstream>
#include <thread>
#include <unistd.h>

#include "support/call.hpp"
#include "support/support.hpp"
#include "text_table.hpp"

namespace jarbook::e2e {
namespace {

using office::Office;
using office::OfficeError;
using namespace std::chrono_literals;

bool process_exists(pid_t pid) {
    return kill(pid, 0) == 0;
}

template <class Work>
std::string message_of(Work work) {
    try {
        work();
    } catch (const OfficeError& trouble) {
        return trouble.what();
    }
    return "no error was thrown";
}

TEST(Harness, EndsInGoodOrderAndLeavesNothing) {
    std::filesystem::path profile;
    pid_t pid = 0;
    {
        Office office;
        profile = office.profile();
        pid = office.pid();
        EXPECT_TRUE(std::filesystem::exists(profile / "user"));
        EXPECT_TRUE(process_exists(pid));
        office::Document document = office.new_document();
        document.sheet().cell("A1").set_number(1);
        document.close();
        EXPECT_TRUE(office.end());
        EXPECT_FALSE(office.alive());
    }
    EXPECT_FALSE(process_exists(pid));
    EXPECT_FALSE(std::filesystem::exists(profile));
}

TEST(Harness, NumbersAreThoseOfTheLocale) {
    for (const auto& [locale, shown] : {std::pair{"en-US", "1234.5"}, std::pair{"de-DE", "1234,5"},
                                        std::pair{"cs-CZ", "1234,5"}}) {
        Office office({.locale = locale});
        office::Document document = office.new_document();
        office::Cell cell = document.sheet().cell("A1");
        cell.set_number(1234.5);
        EXPECT_EQ(cell.text(), shown) << locale;
    }
}

TEST(Harness, AProfileOfOnesOwnStays) {
    const auto folder =
        std::filesystem::temp_directory_path() / ("jarbook-profile-" + std::to_string(getpid()));
    {
        Office office({.locale = "de-DE", .profile = folder});
        EXPECT_EQ(office.profile(), folder);
    }
    {
        Office office({.profile = folder}); // keeps the locale that it was made with
        office::Document document = office.new_document();
        document.sheet().cell("A1").set_number(0.5);
        EXPECT_EQ(document.sheet().cell("A1").text(), "0,5");
    }
    EXPECT_TRUE(std::filesystem::exists(folder / "user" / "registrymodifications.xcu"));
    std::filesystem::remove_all(folder);
}

void wait_until_stopped(pid_t pid) {
    for (int trial = 0; trial < 1000; ++trial) {
        std::ifstream file("/proc/" + std::to_string(pid) + "/stat");
        std::string stat;
        std::getline(file, stat);
        if (stat.find(") T ") != std::string::npos)
            return;
        std::this_thread::sleep_for(10ms);
    }
    FAIL() << "the office was not stopped";
}

TEST(Harness, AnOfficeThatHangsIsEnded) {
    Office office;
    const pid_t pid = office.pid();
    office::Document document = office.new_document();
    kill(pid, SIGSTOP);
    wait_until_stopped(pid); // a busy machine may let it answer once more
    const std::string message =
        message_of([&] { office.call("waiting in vain", 1s, [&] { document.sheet_names(); }); });
    EXPECT_NE(message.find("took too long (waiting in vain)"), std::string::npos) << message;
    EXPECT_NE(message.find("listing the sheets"), std::string::npos) << message;
    EXPECT_FALSE(office.alive());
    EXPECT_FALSE(office.end());
    EXPECT_FALSE(process_exists(pid));
}

TEST(Harness, AnOfficeThatDiesIsReported) {
    Office office;
    office::Document document = office.new_document();
    kill(office.pid(), SIGKILL);
    const std::string message = message_of([&] { document.sheet_names(); });
    EXPECT_NE(message.find("the office is gone, status 137"), std::string::npos) << message;
    EXPECT_FALSE(office.alive());
}

TEST(Harness, AnOfficeThatIsNotThereIsReported) {
    const auto folder =
        std::filesystem::temp_directory_path() / ("jarbook-none-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder / "types");
    const std::string message = message_of([&] { Office office({.program = folder}); });
    EXPECT_NE(message.find((folder / "soffice.bin").string()), std::string::npos) << message;
    EXPECT_NE(message.find("status 127"), std::string::npos) << message;
    EXPECT_NE(message.find("could not be executed"), std::string::npos) << message;
    std::filesystem::remove_all(folder);
}

TEST(Harness, AnOfficeThatUsesTheProfileIsLeftAlone) {
    Office first;
    office::Document document = first.new_document();
    const std::string message = message_of([&] { Office second({.profile = first.profile()}); });
    EXPECT_NE(message.find("another office is using the profile"), std::string::npos) << message;
    EXPECT_TRUE(first.alive());
    EXPECT_EQ(document.sheet_names().size(), 1u);
    document.close();
    EXPECT_TRUE(first.end());
}

TEST(Harness, WrongRequestsAreRefusedWithTheirReason) {
    Office office;
    office::Document document = office.new_document();
    const auto expect = [](const std::string& message, const std::string& part) {
        EXPECT_NE(message.find(part), std::string::npos) << message << "\n  expected: " << part;
    };
    expect(message_of([&] { office.open("/nowhere/run.ods"); }), "there is no file");
    expect(message_of([&] { office.install("/nowhere/jarbook.oxt"); }), "no such file");
    expect(message_of([&] { office.remove("org.nobody.nothing"); }), "org.nobody.nothing");
    expect(message_of([&] { document.save("/nowhere/run.ods"); }), "no folder");
    expect(message_of([&] { document.save("run.doc"); }), "no way to store");
    expect(message_of([&] { document.sheet("Run"); }), "no sheet Run");
    expect(message_of([&] { document.named_range("RunSummary"); }), "no named range RunSummary");
    expect(message_of([&] { office.service("org.nobody.Nothing"); }), "org.nobody.Nothing");
    document.sheet().cell("A1").set_formula("=1/0");
    expect(message_of([&] { document.sheet().cell("A1").number(); }), "#DIV/0!, not a number");
    EXPECT_TRUE(office.alive());
}

TEST(Harness, CellsGiveBackWhatTheyHold) {
    Office office;
    office::Document document = office.new_document();
    office::Range range = document.sheet().range("A1:B3");
    const office::Rows<office::Value> values = {
        {1.5, std::string("pear")}, {office::Blank{}, -2.0}, {std::string("\xC3\xB6"), 0.0}};
    range.set_values(values);
    EXPECT_EQ(range.values(), values);
    EXPECT_EQ(range.rows(), 3);
    EXPECT_EQ(range.columns(), 2);
    range.set_formulas({{"=1+1", "=\"a\"&\"b\""}, {"=NA()", "=\"\""}, {"", "7"}});
    const office::Rows<office::Value> computed = {{2.0, std::string("ab")},
                                                  {office::CellError{32767}, std::string()},
                                                  {office::Blank{}, 7.0}};
    EXPECT_EQ(range.values(), computed);
    EXPECT_EQ(document.sheet().used().rows(), 3);
    range.clear();
    EXPECT_EQ(range.values(),
              office::Rows<office::Value>(3, std::vector<office::Value>(2, office::Blank{})));
}

TEST(Harness, ATableOfTextIsAlignedByWhatTheCellsHold) {
    const office::Rows<office::Value> values = {
        {std::string("cut"), office::Blank{}, std::string("L")},
        {std::string("hearts"), office::Blank{}, 12.25},
        {std::string("K\xC3\xBCmmel"), office::Blank{}, office::CellError{519}}};
    const office::Rows<std::string> texts = {
        {"cut", "", "L"}, {"hearts", "", "12.25"}, {"K\xC3\xBCmmel", "", "#VALUE!"}};
    EXPECT_EQ(office::text_table(values, texts), "cut     L\n"
                                                 "hearts    12.25\n"
                                                 "K\xC3\xBCmmel  #VALUE!\n");
}

TEST(Harness, CallsAreTakenApartOutsideOfBracketsAndQuotes) {
    const Call call = Call::parse("SPIRIT.CONVERT(SUM({1;2});\"a;b)\";)");
    EXPECT_EQ(call.name, "SPIRIT.CONVERT");
    EXPECT_EQ(call.arguments, (std::vector<std::string>{"SUM({1;2})", "\"a;b)\"", ""}));
    EXPECT_EQ(call.formula(), "=SPIRIT.CONVERT(SUM({1;2});\"a;b)\";)");
    EXPECT_EQ(call.with(4, "Y1").formula(), "=SPIRIT.CONVERT(SUM({1;2});\"a;b)\";;;Y1)");
    EXPECT_TRUE(Call::parse("SPIRIT.VERSION()").arguments.empty());
}

} // namespace
} // namespace jarbook::e2e
