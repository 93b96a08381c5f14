// Backups while the kiosk runs, and putting one back.
#include "cli/backup.hpp"

#include <doctest/doctest.h>

#include <thread>

#include "cli/restore.hpp"
#include "example_site.hpp"
#include "ledger/seal.hpp"
#include "records/records.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

constexpr std::int64_t kDay = 86'400'000;

Fact sign_on() { return {"signed-on", {"p-quispe-moran"}, "", 0, nlohmann::json::object()}; }

struct BackedUp : ExampleSite {
    explicit BackedUp(std::uint64_t seed = 11) {
        random = SeededRandom(seed);  // another seed, another key
        REQUIRE(init().ok());
    }
    std::unique_ptr<OpenSite> start() {
        auto site = open_site(data, dirs, clock, random, PinCost::least, copies);
        if (!site) FAIL(site.error().sentence());
        return std::move(site).value();
    }
    BackupWatch::Parts parts(OpenSite& site) {
        return {*site.db,
                clock,
                site.sealer->key().kiosk_id(),
                folder,
                [key = site.sealer->key().public_key] { return Evidence{key, {}, {}}; },
                [this] { return !found.empty(); },
                [this](const Error& why) { found = why.what; },
                [this](const Error& error) { complaints.push_back(error); },
                false,
                leave_free};
    }
    // Until the copy was made and judged. Returns the number of steps.
    int run(BackupWatch& watch) {
        int steps = 0;
        for (; steps < 10'000; ++steps) {
            const auto step = watch.step();
            if (step == BackupWatch::Step::found) break;
            if (step == BackupWatch::Step::idle && steps > 0) {
                std::this_thread::sleep_for(std::chrono::milliseconds(5));
                if (fs::exists(folder) && !part_is_there()) break;
            }
        }
        return steps;
    }
    bool part_is_there() const {
        for (const auto& item : fs::directory_iterator(folder)) {
            if (item.path().extension() == ".part") return true;
        }
        return false;
    }
    std::vector<std::string> backups(OpenSite& site) const {
        return backups_in(folder, site.sealer->key().kiosk_id());
    }
    Result<RestoreDone> restore(const std::string& backup, std::vector<std::string> badges = {}) {
        RestoreAsked asked{data, backup, copies, !badges.empty(), std::move(badges),
                           [this](const std::string& badge) { return pin_of(badge); }};
        return restore_site(asked, clock, random);
    }
    Result<std::string> pin_of(const std::string& badge) const {
        const Loaded loaded = load_content(dirs.content, dirs.assets, source);
        for (const Person& person : loaded.content.site.people) {
            if (person.badge == badge && badge != wrong) return person.example_pin;
        }
        return std::string("000000");
    }
    std::string supervisor_badge() const { return badge_of(Duty::supervising, 0); }
    std::string badge_of(Duty duty, std::size_t skip) const {
        const Loaded loaded = load_content(dirs.content, dirs.assets, source);
        for (const Person& person : loaded.content.site.people) {
            const bool has = std::find(person.duties.begin(), person.duties.end(), duty) !=
                             person.duties.end();
            if (has && !person.example_pin.empty() && skip-- == 0) return person.badge;
        }
        return "";
    }
    // A file that was made by `back_up` now.
    std::string backup_now(OpenSite& site, const std::string& name) {
        const auto done = back_up(*site.db, temp / name, {site.sealer->key().public_key, {}, {}});
        if (!done) FAIL(done.error().sentence());
        return done.value().path;
    }

    std::string copies = temp / "copies";
    std::string folder = temp / "backups";
    std::string found;
    std::string wrong;
    std::uint64_t leave_free = 0;
    std::vector<Error> complaints;
};

}  // namespace

TEST_CASE("a backup is made in steps while entries go on, and has them all") {
    BackedUp example;
    const auto site = example.start();
    BackupWatch watch(example.parts(*site));
    for (int i = 0; i < 3; ++i) {
        watch.step();
        REQUIRE(site->book->enter(sign_on()).ok());
    }
    example.run(watch);
    CHECK(example.complaints.empty());
    const auto made = example.backups(*site);
    REQUIRE(made.size() == 1);
    const auto report =
        check_copy_thoroughly(made.front(), {site->sealer->key().public_key, {}, {}});
    REQUIRE(report.ok());
    CHECK_FALSE(report.value().doubt());
    CHECK(report.value().full.ledger.size >= site->ledger->size() - 3);
    CHECK(watch.next_ms() == example.clock.now_ms() + kDay);
}

TEST_CASE("a backup is made every day, and the newest seven are kept") {
    BackedUp example;
    const auto site = example.start();
    BackupWatch watch(example.parts(*site));
    for (int day = 0; day < 9; ++day) {
        example.run(watch);
        example.clock.pass(watch.next_ms() - example.clock.now_ms() - 1);
        CHECK(watch.step() == BackupWatch::Step::idle);
        example.clock.pass(1);
    }
    CHECK(example.backups(*site).size() == 7);
    // A kiosk that begins again does not make one that was made today.
    example.clock.pass(-kDay + 3'600'000);
    const BackupWatch again(example.parts(*site));
    CHECK(again.next_ms() > example.clock.now_ms() + 20 * 3'600'000);
    CHECK(again.next_ms() <= example.clock.now_ms() + kDay);
}

TEST_CASE("what the daily check finds puts the kiosk in doubt, and pushes no good backup out") {
    BackedUp example;
    const auto site = example.start();
    BackupWatch watch(example.parts(*site));
    example.run(watch);
    REQUIRE(example.backups(*site).size() == 1);
    REQUIRE(site->db->execute("DROP TRIGGER entry_stays").ok());
    REQUIRE(site->db->execute("UPDATE entry SET body = x'7b7d' WHERE n = 5").ok());
    example.clock.pass(kDay);
    example.run(watch);
    CHECK(example.found.find("entry 5") != std::string::npos);
    CHECK(example.backups(*site).size() == 1);
    example.clock.pass(kDay);
    CHECK(watch.step() == BackupWatch::Step::idle);
    site->put_in_doubt({ErrorKind::damaged, example.found, "ledger", ""});
    CHECK_FALSE(site->world().ledger_holds());
}

TEST_CASE("a backup that cannot be written is said and tried again") {
    BackedUp example;
    const auto site = example.start();
    REQUIRE(write_file(example.folder, "no folder").ok());
    BackupWatch watch(example.parts(*site));
    CHECK(watch.step() == BackupWatch::Step::idle);
    CHECK(example.complaints.size() == 1);
    CHECK(watch.next_ms() == example.clock.now_ms() + 3'600'000);
}

TEST_CASE("a backup that would fill the disk up is not begun, and tried again") {
    BackedUp example;
    const auto site = example.start();
    REQUIRE(fs::create_directories(example.folder));
    example.leave_free = fs::space(example.folder).capacity;
    BackupWatch watch(example.parts(*site));
    CHECK(watch.step() == BackupWatch::Step::idle);
    REQUIRE(example.complaints.size() == 1);
    CHECK(example.complaints.front().kind == ErrorKind::full);
    CHECK(fs::is_empty(example.folder));
    CHECK(watch.next_ms() == example.clock.now_ms() + 3'600'000);
}

TEST_CASE("a restored backup goes on as the ledger, and what stood there is kept") {
    BackedUp example;
    std::string backup;
    {
        const auto site = example.start();
        backup = example.backup_now(*site, "b.db");
    }
    const auto done = example.restore(backup);
    if (!done) FAIL(done.error().sentence());
    CHECK_FALSE(done.value().older);
    CHECK(fs::exists(done.value().kept));
    const auto site = example.start();
    CHECK(site->world().ledger_holds());
    const Entry last = site->ledger->at(static_cast<std::int64_t>(site->ledger->size())).value();
    CHECK(last.kind == "restored");
    CHECK(last.data["size"] == done.value().entries);
    CHECK(newest_sealed_size(*site->db).value() == site->ledger->size());
}

TEST_CASE("an older backup takes two people, one of them a supervisor, and machines go out again") {
    BackedUp example;
    std::string backup;
    {
        const auto site = example.start();
        backup = example.backup_now(*site, "b.db");
        for (int i = 0; i < 70; ++i) REQUIRE(site->book->enter(sign_on()).ok());
        REQUIRE(site->sealer->seal().ok());
        site->sealer->keep_copy();
    }
    const auto refused = example.restore(backup);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.error().what.find("older than a known seal") != std::string::npos);
    const std::string one = example.supervisor_badge();
    const std::string two = example.badge_of(Duty::operating, 0);
    const std::string three = example.badge_of(Duty::operating, 1);
    CHECK_FALSE(example.restore(backup, {one, one}).ok());
    CHECK_FALSE(example.restore(backup, {one}).ok());
    CHECK_FALSE(example.restore(backup, {two, three}).ok());
    example.wrong = two;
    CHECK_FALSE(example.restore(backup, {one, two}).ok());
    example.wrong.clear();
    CHECK(example.start()->ledger->size() > 70);
    const auto done = example.restore(backup, {one, two});
    if (!done) FAIL(done.error().sentence());
    CHECK(done.value().older);
    const auto site = example.start();
    CHECK(site->world().ledger_holds());
    const Entry last = site->ledger->at(static_cast<std::int64_t>(site->ledger->size())).value();
    CHECK(last.data["older"] == true);
    CHECK(last.data["known_size"] == done.value().known);
    CHECK(last.by.size() == 1);
    CHECK_FALSE(last.data["second"].get<std::string>().empty());
}

TEST_CASE("a backup that does not verify, or is of another kiosk, is refused whoever asks") {
    BackedUp example;
    BackedUp other(12);
    std::string backup;
    {
        const auto site = example.start();
        backup = example.backup_now(*site, "b.db");
    }
    const std::string foreign = other.backup_now(*other.start(), "b.db");
    CHECK_FALSE(example.restore(foreign).ok());
    std::string bytes = read_file(backup).value();
    const auto at = bytes.find("\"kind\":\"person-enrolled\"");
    REQUIRE(at != std::string::npos);
    bytes[at + 9] = 'q';
    REQUIRE(write_file(backup, bytes).ok());
    const auto refused = example.restore(backup, {example.supervisor_badge(),
                                                  example.badge_of(Duty::operating, 0)});
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.error().what.find("does not verify") != std::string::npos);
    CHECK(example.start()->world().ledger_holds());
}

TEST_CASE("wrong PINs at a restore are counted where they stay, and a lock there is obeyed") {
    BackedUp example;
    std::string backup;
    {
        const auto site = example.start();
        backup = example.backup_now(*site, "b.db");
        for (int i = 0; i < 70; ++i) REQUIRE(site->book->enter(sign_on()).ok());
        site->sealer->keep_copy();
    }
    const std::string one = example.supervisor_badge();
    const std::string two = example.badge_of(Duty::operating, 0);
    example.wrong = one;
    for (int i = 0; i < 10; ++i) {
        CHECK_FALSE(example.restore(backup, {one, two}).ok());
        example.clock.pass(3'600'000);
    }
    example.wrong.clear();
    const auto locked = example.restore(backup, {one, two});
    REQUIRE_FALSE(locked.ok());
    CHECK(locked.error().what.find("locked") != std::string::npos);
    const auto site = example.start();
    const auto person = person_with_badge(*site->db, one).value();
    CHECK(site->pins->find(person->id).value()->locked);
    // Each of them is an entry there, as at the kiosk; the last is of the badge that was locked.
    std::vector<int> failures;
    for (auto n = static_cast<std::int64_t>(site->ledger->size()); n > 0; --n) {
        const Entry entry = site->ledger->at(n).value();
        if (entry.kind != "sign-refused") continue;
        CHECK(entry.data["person"] == person->id);
        failures.insert(failures.begin(), entry.data["failures"].get<int>());
    }
    CHECK(failures == std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 10});
}

TEST_CASE("backups of one second have two names, and what cannot be read or written is said") {
    BackedUp example;
    {
        const auto site = example.start();
        const auto at = [&] { return backup_path(example.folder, "0123456789abcdef", 0); };
        const std::string first = at();
        fs::create_directories(example.folder);
        REQUIRE(write_file(first, "").ok());
        CHECK(at() != first);
        CHECK(at().size() == first.size());
        const auto nowhere = back_up(*site->db, "/proc/holdpin/b.db",
                                     {site->sealer->key().public_key, {}, {}});
        REQUIRE_FALSE(nowhere.ok());
        CHECK(nowhere.error().sentence().find("can be written") != std::string::npos);
    }
    const auto nothing = example.restore(example.temp / "nofile");
    REQUIRE_FALSE(nothing.ok());
    CHECK(nothing.error().what == "there is no such file");
}
