// The power goes at every entry of every scenario of danger work: what is made again of the entries
// alone is the same, every machine is held as before, and whoever goes on comes to the same step.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "cli/paths.hpp"
#include "cli/script_site.hpp"
#include "flows/air_alarm.hpp"
#include "flows/lockout.hpp"
#include "flows/plates.hpp"
#include "flows/work.hpp"
#include "records/alarms.hpp"
#include "records/fold.hpp"
#include "script/runner.hpp"

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

// Everything that a person who comes to the kiosk would go on with, as pages and holds.
std::string stand(const World& world) {
    Session session(world);
    std::string text;
    const auto rows = machines(session.db());
    REQUIRE(rows.ok());
    for (const MachineRow& row : rows.value()) {
        const auto facts = facts_of(session, row.plate);
        REQUIRE(facts.ok());
        text += row.plate + ":";
        for (const Hold& hold : facts.value().holds) {
            text += " " + std::string(name_of(hold.code));
        }
        const auto work = work_on(session.db(), row.plate);
        REQUIRE(work.ok());
        if (work.value()) {
            text += " | " + WorkFlow(row.plate, work.value()->running.work)
                                .page(session).value().id;
        }
        if (facts.value().locked_out) {
            text += " | " + LockoutFlow(row.plate).page(session).value().id;
        }
        text += "\n";
    }
    const auto alarms = standing_alarms(session.db());
    REQUIRE(alarms.ok());
    for (const AirAlarm& alarm : alarms.value()) {
        text += AirAlarmFlow(alarm.room).page(session).value().id + "\n";
    }
    return text;
}

// A page that shows a step; one that tells of the end of an alarm is none.
bool is_step(const std::string& page_id, const std::string& stands) {
    if (page_id.starts_with("work/")) return true;
    return page_id.starts_with("air-alarm/") && stands.find("air-alarm/") != std::string::npos;
}

struct Cuts {
    std::size_t entries = 0;
    std::size_t steps = 0;  // at which the live page was found again
};

void cut_through(const std::string& file, Cuts& cuts) {
    const auto opened = open_script(file, resolved({}));
    REQUIRE(opened.ok());
    OpenSite& site = *opened.value()->site;
    PaperHands hands(site.world());
    Runner runner(site.world(), opened.value()->clock, hands);
    std::uint64_t size = site.ledger->size();
    runner.tell_after_each([&](const Act& act) {
        if (site.ledger->size() == size) return;
        INFO("act " << act.number);
        cuts.entries += site.ledger->size() - size;
        size = site.ledger->size();
        const std::string live = hands.page().id;
        size = site.ledger->size();
        const std::string before = stand(site.world());
        const auto digest = state_digest(*site.db);
        REQUIRE(site.book->rebuild().ok());
        CHECK(digest.value() == state_digest(*site.db).value());
        CHECK(stand(site.world()) == before);
        if (!is_step(live, before)) return;
        CHECK(before.find(live) != std::string::npos);
        ++cuts.steps;
    });
    const RunReport report = runner.run(opened.value()->script);
    CHECK_MESSAGE(report.ok(), report.failure);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("the power goes at every entry of danger work: the same step, the same holds") {
        Cuts cuts;
        const auto files = danger_scenarios();
        CHECK(files.size() > 25);
        for (const std::string& file : files) {
            CAPTURE(file);
            cut_through(file, cuts);
        }
        MESSAGE(files.size() << " scenarios, cut at " << cuts.entries << " entries, " << cuts.steps
                             << " steps found again");
        CHECK(cuts.steps > 100);
    }
}
