// An office that is ended in the middle of work, with thousands of our cells open.
#include <com/sun/star/beans/PropertyValue.hpp>
#include <com/sun/star/frame/theAutoRecovery.hpp>
#include <com/sun/star/frame/XDispatch.hpp>
#include <com/sun/star/util/URLTransformer.hpp>
#include <csignal>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <thread>

#include "faults.hpp"

namespace jarbook::faults {
namespace {

using namespace office;
using namespace com::sun::star;
namespace fs = std::filesystem;

constexpr int rows = 5000;

// What the office does by itself every few minutes, and after a crash.
void ask_recovery(Office& office, const char* command) {
    office.call(command, [&] {
        const auto recovery = frame::theAutoRecovery::get(office.context());
        util::URL url;
        url.Complete = rtl::OUString::createFromAscii(command);
        util::URLTransformer::create(office.context())->parseStrict(url);
        uno::Sequence<beans::PropertyValue> now(1);
        now.getArray()[0].Name = "DispatchAsynchron";
        now.getArray()[0].Value <<= false;
        uno::Reference<frame::XDispatch>(recovery, uno::UNO_QUERY_THROW)->dispatch(url, now);
    });
}

void kill_now(Office& office) {
    ASSERT_EQ(kill(office.pid(), SIGKILL), 0);
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (office.alive() && std::chrono::steady_clock::now() < end)
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    ASSERT_FALSE(office.alive());
}

// The office notes what it has put by a moment after it has.
void wait_until_noted(const fs::path& profile, const std::string& name) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(60);
    while (std::chrono::steady_clock::now() < end) {
        std::ifstream file(profile / "user" / "registrymodifications.xcu");
        const std::string text{std::istreambuf_iterator<char>(file), {}};
        if (text.find("user/backup/" + name) != std::string::npos)
            return;
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    FAIL() << "nothing was put by";
}

TEST(Killed, WhatWasSavedOnTheWayComesBackWithAllResults) {
    const Folder folder;
    const fs::path file = folder / "run.ods";
    const Options options{.profile = folder / "profile", .recovery = true};
    {
        Office office(options);
        office.install(JARBOOK_OXT);
        {
            Document document = office.new_document();
            fill_with_calls(document, rows);
            document.save(file);
        }
        // As a person opens it, and types on.
        Document document = office.open(file, Shown::yes);
        document.sheet().cell("D1").set_number(42);
        ask_recovery(office, "vnd.sun.star.autorecovery:/doSessionSave");
        wait_until_noted(folder / "profile", "run.ods_");
        kill_now(office);
    }
    Office office(options);
    ask_recovery(office, "vnd.sun.star.autorecovery:/doSessionRestore");
    std::vector<Document> documents = office.open_documents();
    ASSERT_EQ(documents.size(), 1u);
    Document recovered = std::move(documents.front());
    expect_results(recovered, rows);
    EXPECT_EQ(recovered.sheet().cell("D1").number(), 42);
    // The file itself is what it was.
    recovered.close();
    Document stored = office.open(file);
    expect_results(stored, rows);
}

} // namespace
} // namespace jarbook::faults
