// The power goes at every entry of every scenario of danger work: the data are opened anew from a
// file, every machine is held as before, and whoever signs on comes to the same step. At the end of
// each the state is made again of its entries alone.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "cli/paths.hpp"
#include "cli/script_site.hpp"
#include "flows/air_alarm.hpp"
#include "flows/lockout.hpp"
#include "flows/machine.hpp"
#include "flows/plates.hpp"
#include "flows/work.hpp"
#include "records/alarms.hpp"
#include "records/fold.hpp"
#include "records/lockout.hpp"
#include "records/works.hpp"
#include "script/runner.hpp"
#include "support/extent.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

std::vector<std::string> danger_scenarios() {
    constexpr const char* kFlows[] = {"lockout", "exchange", "alarm", "drain", "no-start", "tag"};
    std::vector<std::string> files;
    const std::string folder = std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/scenarios";
    for (const auto& at : fs::directory_iterator(folder)) {
        const std::string name = at.path().filename().string();
        const bool danger = std::any_of(std::begin(kFlows), std::end(kFlows), [&](const char* one) {
            return name.starts_with(one);
        });
        if (danger && name.ends_with(".toml")) files.push_back(at.path().string());
    }
    std::sort(files.begin(), files.end());
    return files;
}

// What was stored when the power went, opened anew by another start of the program.
struct Reopened {
    std::unique_ptr<Database> db;
    std::unique_ptr<Ledger> ledger;
    std::unique_ptr<Book> book;
    std::unique_ptr<PinBook> pins;

    Reopened(OpenSite& site, const std::string& path) {
        fs::remove(path);
        REQUIRE(site.db->execute(("VACUUM INTO '" + path + "'").c_str()).ok());
        db = std::move(Database::open(path, {}).value());
        ledger = std::move(
            Ledger::open(*db, site.clock, site.random, site.ledger->place()).value());
        book = std::move(Book::open(*db, *ledger, site.random).value());
        pins = std::make_unique<PinBook>(*db, site.random, Bytes(32), PinCost::least);
    }
    World world(OpenSite& site) const {
        return {site.content, *book, *pins, site.clock, site.random, site.zone, true, nullptr};
    }
};

std::string page_of(const Flow& flow, const Session& session) {
    const auto page = flow.page(session);
    REQUIRE(page.ok());
    return page.value().id + " > " + page.value().main.id;
}

// What holds a machine, and the pages on which its work goes on.
std::string stand_of(const Session& session, const std::string& plate) {
    const auto facts = facts_of(session, plate);
    const auto work = work_on(session.db(), plate);
    REQUIRE((facts.ok() && work.ok()));
    std::string text = plate + ":";
    for (const Hold& hold : facts.value().holds) text += " " + std::string(name_of(hold.code));
    text += " | " + page_of(MachineFlow(plate), session);
    if (facts.value().tag) text += " | tag " + facts.value().tag->code;
    if (work.value()) {
        text += " | " + page_of(WorkFlow(plate, work.value()->running.work), session);
    }
    if (facts.value().locked_out) text += " | " + page_of(LockoutFlow(plate), session);
    const bool runs = work.value() || facts.value().locked_out || facts.value().tag;
    if (runs) CHECK_FALSE(facts.value().holds.empty());
    return text + "\n";
}

// Everything that a person who comes to the kiosk would go on with, as pages and holds.
std::string stand(const World& world) {
    std::string text;
    for (const char* person : {"p-okafor-lind", "p-brandt"}) {
        Session session(world);
        session.open_person(*person_with(session.db(), person).value());
        const auto rows = machines(session.db());
        REQUIRE(rows.ok());
        for (const MachineRow& row : rows.value()) text += stand_of(session, row.plate);
    }
    Session session(world);
    const auto alarms = standing_alarms(session.db());
    REQUIRE(alarms.ok());
    for (const AirAlarm& alarm : alarms.value()) {
        text += AirAlarmFlow(alarm.room).page(session).value().id + "\n";
    }
    return text;
}

// "lockout/SW-14/propping/left" shows the step "propping".
bool shows_step(const std::string& page_id, std::string_view step) {
    return (page_id + "/").find("/" + std::string(step) + "/") != std::string::npos;
}

std::string badge_of(const OpenSite& site, const std::string& person) {
    for (const Person& one : site.content.site.people) {
        if (one.id == person) return one.badge;
    }
    return "";
}

// Signs on at the kiosk that began again, as whoever it was would; true: at their machine.
bool come_back(App& app, const OpenSite& site, const std::string& person,
               const std::string& plate) {
    const auto tap = [&](const std::string& id, const std::string& typed = "") {
        app.act({id, typed});
        app.tick();
        return app.page().id;
    };
    app.tick();
    while (app.page().id.starts_with("air-alarm/") || app.page().id.starts_with("sheet/")) {
        tap("back");
    }
    std::string at = tap("sign-on");
    while (at.starts_with("symptoms-asked/")) at = tap("ill:nobody");
    if (at != "badge") return false;
    at = tap("main", badge_of(site, person));
    if (at == "floor") at = tap("machine:" + plate);
    return app.person() == person;
}

struct Cuts {
    std::size_t entries = 0;
    std::size_t jobs = 0;      // steps found again by whoever signs on
    std::size_t lockouts = 0;
    std::size_t alarms = 0;
};

// From the floor of the kiosk that began again to the step at which the power went.
void find_step(const World& world, const OpenSite& site, const std::string& live, Cuts& cuts) {
    App app(world);
    app.tick();
    const auto alarms = standing_alarms(world.book.db());
    REQUIRE(alarms.ok());
    if (!alarms.value().empty()) {  // comes up by itself
        const std::string shown = app.page().id;
        const bool is_alarm = shown.starts_with("air-alarm/") || shown.starts_with("sheet/");
        const bool is_zone = shown.starts_with("leave-zone/");
        CHECK((is_alarm || is_zone));
        if (live.starts_with("air-alarm/") && is_alarm) CHECK(shown == live);
        ++cuts.alarms;
    }
    for (const MachineRow& row : machines(world.book.db()).value_or({})) {
        const auto locked = lockout_of(world.book.db(), row.plate);
        const auto work = work_on(world.book.db(), row.plate);
        REQUIRE((locked.ok() && work.ok()));
        if (locked.value() && locked.value()->step != LockoutStep::leaving) {
            App other(world);
            if (!come_back(other, site, locked.value()->lead, row.plate)) continue;
            other.act({"lockout", ""});
            if (!other.page().id.starts_with("lockout/")) continue;  // is told something first
            INFO(other.page().id);
            // A visitor comes back to what has to be told before the step.
            const Lockout& at = *locked.value();
            const bool told = at.told.contains(at.lead);
            CHECK((shows_step(other.page().id, name_of(at.step)) ||
                   (!told && shows_step(other.page().id, "telling"))));
            ++cuts.lockouts;
        } else if (work.value()) {
            App other(world);
            if (!come_back(other, site, work.value()->last_by, row.plate)) continue;
            if (other.page().id.starts_with("machine/")) other.act({"work", ""});
            if (!other.page().id.starts_with("work/")) continue;
            CHECK(shows_step(other.page().id, work.value()->step));
            ++cuts.jobs;
        }
    }
}

void cut_through(const std::string& file, const TempDir& dir, Cuts& cuts) {
    const auto opened = open_script(file, resolved({}));
    REQUIRE(opened.ok());
    OpenSite& site = *opened.value()->site;
    PaperHands hands(site.world());
    Runner runner(site.world(), opened.value()->clock, hands);
    std::uint64_t size = site.ledger->size();
    runner.tell_after_each([&](const Act& act) {
        if (site.ledger->size() == size) return;
        INFO("act " << act.number);
        const std::string live = hands.page().id;
        cuts.entries += site.ledger->size() - size;
        size = site.ledger->size();
        const Reopened again(site, dir / "cut.db");
        CHECK(state_digest(*again.db).value() == state_digest(*site.db).value());
        CHECK(stand(again.world(site)) == stand(site.world()));
        find_step(again.world(site), site, live, cuts);
    });
    const RunReport report = runner.run(opened.value()->script);
    CHECK_MESSAGE(report.ok(), report.failure);
    // Of the entries alone the same is made again.
    const auto digest = state_digest(*site.db);
    const std::string before = stand(site.world());
    REQUIRE(site.book->rebuild().ok());
    CHECK(digest.value() == state_digest(*site.db).value());
    CHECK(stand(site.world()) == before);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("the power goes at every entry of danger work: the same step, the same holds") {
        const TempDir dir;
        Cuts cuts;
        const auto files = danger_scenarios();
        CHECK(files.size() > 25);
        const auto step = static_cast<std::size_t>(goes_a_part() ? kPart : 1);
        for (std::size_t i = 0; i < files.size(); i += step) {
            CAPTURE(files[i]);
            cut_through(files[i], dir, cuts);
        }
        MESSAGE(files.size() << " scenarios, cut at " << cuts.entries << " entries; found again: "
                             << cuts.jobs << " steps of jobs, " << cuts.lockouts
                             << " of lockouts, " << cuts.alarms << " of alarms");
        if (goes_a_part()) return;
        CHECK(cuts.jobs > 100);
        CHECK(cuts.lockouts > 100);
        CHECK(cuts.alarms > 15);
    }
}
