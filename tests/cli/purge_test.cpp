// The commands that erase what is over, and write down what is stored about one person.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "example_site.hpp"
#include "run_program.hpp"

using namespace holdpin;

namespace {

constexpr const char* kGone = "these-bytes-were-purged";
constexpr const char* kKept = "these-bytes-are-kept";
constexpr std::int64_t kYearMs = 366LL * 86'400'000;

// A site of three years ago, with entries of both sorts between each other.
struct OldSite : ExampleSite {
    std::vector<Person> people;
    std::string options = " --seal-copy '' --data " + data;

    OldSite() {
        clock.set_wall(RealClock().now_ms() - 3 * kYearMs);
        REQUIRE(init().ok());
        const auto site = open();
        REQUIRE(site.ok());
        people = site.value()->content.site.people;
        for (int i = 0; i < 1500; ++i) {
            const bool kept = i % 7 == 0;
            // Some are larger than a page of the file.
            const std::string words(i % 11 == 0 ? 9000 : 40, 'x');
            REQUIRE(site.value()->book->enter(
                Fact{kept ? "air-read" : "signed-on", {"p-brandt"}, "", 0,
                     {{"room", "dock-hall"}, {"ppm", "0"},
                      {"note", (kept ? kKept : kGone) + words}}}).ok());
        }
        REQUIRE(site.value()->sealer->seal().ok());
    }
    // Two people, the first a supervisor.
    std::string two(const std::string& second_pin = "") {
        const Person* first = nullptr;
        const Person* second = nullptr;
        for (const Person& person : people) {
            const auto& duties = person.duties;
            const bool leads =
                std::find(duties.begin(), duties.end(), Duty::supervising) != duties.end();
            if (leads && first == nullptr) {
                first = &person;
            } else {
                second = &person;
            }
        }
        REQUIRE(first != nullptr);
        REQUIRE(second != nullptr);
        REQUIRE(write_file(temp / "pins", first->example_pin + "\n" +
                           (second_pin.empty() ? second->example_pin : second_pin) + "\n").ok());
        return " --by " + first->badge + " --by " + second->badge + " < " + (temp / "pins");
    }
    // The salts of entries, which no other bytes repeat: of all, or of those that have a body.
    std::vector<std::string> salts() {
        std::vector<std::string> found;
        const auto site = open();
        REQUIRE(site.ok());
        REQUIRE(each_stored(*site.value()->db, [&](const StoredEntry& row) -> Result<void> {
            if (!row.body.empty()) found.push_back(entry_from(row.body).value().salt);
            return {};
        }).ok());
        return found;
    }
    bool holds(const std::string& words) const {
        for (const auto& item : std::filesystem::directory_iterator(data)) {
            const auto bytes = read_file(item.path().string());
            const bool is_there = bytes && bytes.value().find(words) != std::string::npos;
            if (item.is_regular_file() && is_there) return true;
        }
        return false;
    }
};

}  // namespace

TEST_CASE("what is stored about a person is written into a new folder: text, JSON and PDF") {
    ExampleSite example;
    example.clock.set_wall(RealClock().now_ms());
    REQUIRE(example.init().ok());
    const std::string out = example.temp / "about";
    const std::string data = " --seal-copy '' --data " + example.data;
    const auto told = run("people about-me --person p-okafor-lind " + out + data);
    CHECK(told.code == 0);
    const std::string text = read_file(out + "/about-me.txt").value();
    CHECK(text.find("What Holdpin stores about R. Okafor-Lind") != std::string::npos);
    const auto json = nlohmann::json::parse(read_file(out + "/about-me.json").value());
    CHECK(json.at("person") == "p-okafor-lind");
    CHECK(json.at("records").size() > 5);
    CHECK(read_file(out + "/about-me.pdf").value().starts_with("%PDF-"));
    CHECK(run("people about-me --person p-nobody " + out + "2" + data).code == 1);
}

TEST_CASE("a purge says what it would erase, erases nothing as of a day to come, and says so") {
    ExampleSite example;
    example.clock.set_wall(RealClock().now_ms());
    REQUIRE(example.init().ok());
    const std::string data = " --seal-copy '' --data " + example.data;
    const std::string purge = "ledger purge" + data;
    const auto now = run(purge);
    CHECK(now.code == 0);
    CHECK(now.said.find("0 entries down to their hash, 0 texts, the names of 0 people") !=
          std::string::npos);
    CHECK(run(purge + " --as-of 2090-01-01").code == 0);
    CHECK(run(purge + " --as-of 2090-01-01 --yes").code == 2);
    CHECK(run(purge + " --as-of sometime").code == 2);
    CHECK(run("ledger check" + data).code == 0);
}

TEST_CASE("a purge by two people takes the bytes out of the file, and everything else holds") {
    OldSite old;
    const std::string purge = "ledger purge" + old.options;
    REQUIRE(old.holds(kGone));
    const auto dry = run(purge);
    CHECK(dry.code == 0);
    CHECK(dry.said.find("Would be purged") != std::string::npos);
    CHECK(dry.said.find("Two people do it") != std::string::npos);
    CHECK(run(purge + " --yes").code == 1);
    CHECK(run(purge + " --yes" + old.two("000000")).code == 1);
    CHECK(run("ledger check" + old.options).code == 0);
    CHECK(old.holds(kGone));
    {
        const auto site = old.open();
        REQUIRE(site.ok());
        Ledger& ledger = *site.value()->ledger;
        const Entry last = ledger.at(static_cast<std::int64_t>(ledger.size())).value();
        CHECK(last.kind == "sign-refused");
        CHECK(last.data["failures"] == 1);
    }

    const auto before = old.salts();
    const auto done = run(purge + " --yes" + old.two(), true);
    CHECK_MESSAGE(done.code == 0, done.said);
    CHECK(done.said.find("Backups") != std::string::npos);
    CHECK_FALSE(old.holds(kGone));
    CHECK(old.holds(kKept));
    const auto left = old.salts();
    const std::set<std::string> stays(left.begin(), left.end());
    CHECK(before.size() > left.size() + 1000);
    for (std::size_t i = 0; i < before.size(); i += 5) {
        CHECK(old.holds(before[i]) == stays.contains(before[i]));
    }
    const auto check = run("ledger check --every-signature" + old.options);
    CHECK_MESSAGE(check.code == 0, check.said);
    const auto rebuilt = run("ledger rebuild --data " + old.data);
    CHECK(rebuilt.said.find("as it was before") != std::string::npos);
    CHECK(rebuilt.said.find("not as it was") == std::string::npos);
    CHECK(run(purge).said.find(" 0 entries down to their hash") != std::string::npos);
}

TEST_CASE("a purged ledger proves, and makes a binder that the check and the script pass") {
    OldSite old;
    REQUIRE(run("ledger purge --yes" + old.options + old.two()).code == 0);
    std::string last;
    {
        const auto site = old.open();
        REQUIRE(site.ok());
        std::int64_t n = 0;
        REQUIRE(each_stored(*site.value()->db, [&](const StoredEntry& row) -> Result<void> {
            if (row.body.empty()) n = row.n;
            return {};
        }).ok());
        REQUIRE(n > 0);
        last = std::to_string(n);
    }
    const std::string proof = old.temp / "proof.json";
    const std::string key = old.temp / "key.pem";
    CHECK(run("ledger prove " + last + old.options + " > " + proof).code == 0);
    CHECK(run("ledger key --data " + old.data + " > " + key).code == 0);
    const auto stranger = run_shell("/usr/bin/python3 " + std::string(HOLDPIN_TEST_SOURCE_DIR) +
                                    "/tests/ledger/check_proof.py " + proof + " " + key);
    CHECK_MESSAGE(stranger.code == 0, stranger.said);
    CHECK(stranger.said.find("purged") != std::string::npos);

    const std::string out = old.temp / "binder";
    const auto made = run("binder make " + out + old.options, true);
    CHECK_MESSAGE(made.code == 0, made.said);
    const auto judged = run("binder check " + out, true);
    CHECK_MESSAGE(judged.code == 0, judged.said);
    const std::string text = read_file(out + "/HOW-TO-CHECK.md").value();
    const auto begin = text.find("```python\n") + 10;
    REQUIRE(write_file(old.temp / "check.py",
                       text.substr(begin, text.find("```", begin) - begin)).ok());
    const auto script =
        run_shell("/usr/bin/python3 " + (old.temp / "check.py") + " " + out + " 2>&1");
    CHECK_MESSAGE(script.code == 0, script.said);
}
