// The bodies of what is over go, their leaves stay, and the present state is what it was.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "cli/script_site.hpp"
#include "ledger/check.hpp"
#include "records/fold.hpp"
#include "records/retention.hpp"
#include "script/runner.hpp"
#include "shop.hpp"
#include "support/extent.hpp"
#include "times.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

using Json = nlohmann::json;
constexpr const char* kPurgedPlate = "SW-14";

PurgePlan plan_after(OpenSite& site, int years) {
    REQUIRE(site.sealer->seal().ok());
    const Date as_of = site.zone.local(site.clock.now_ms() + years * kYearMs).date;
    auto plan = plan_purge(*site.book, site.content.pack, site.zone, as_of);
    if (!plan) FAIL(plan.error().sentence());
    return std::move(plan).value();
}

bool goes(const PurgePlan& plan, std::int64_t n) {
    return std::any_of(plan.bodies.ranges.begin(), plan.bodies.ranges.end(),
                       [&](const EntryRange& range) {
                           return range.first <= n && n <= range.second;
                       });
}

struct PurgeDesk : Shop {
    std::int64_t enter(const char* kind, Json data, std::int64_t about = 0,
                       const char* by = "p-okafor-lind") {
        clock.pass(60'000);
        data["machine"] = data.value("machine", kPurgedPlate);
        const auto entry = site->book->enter(Fact{kind, {by}, "", about, std::move(data)});
        if (!entry) FAIL(entry.error().sentence());
        return entry.value().n;
    }
    std::int64_t round(const std::string& kind = "before") {
        return enter("round-signed", {{"round_kind", kind}, {"shift_end_ms", clock.now_ms() + 1},
                                      {"hours", "1290.0"}, {"fuel", "70.0"}});
    }
    std::int64_t release(std::int64_t of) {
        return enter("release-given", {{"person", "p-okafor-lind"}, {"room", "dock-hall"},
                                       {"until_ms", clock.now_ms() + 1}, {"round", of}});
    }
    std::int64_t give_back(std::int64_t of) {
        round("after");
        return enter("returned", {{"release", of}, {"findings", 0}});
    }
    std::int64_t finding() {
        return enter("finding-entered", {{"point", "report"}, {"reading", "creeps"},
                                         {"outcome", "stop"}, {"hazard", "brake"},
                                         {"source", "report"}});
    }
    std::int64_t closed(std::int64_t of) {
        enter("repair-stated", {{"findings", {of}}}, of);
        enter("recheck-done", {{"findings", {of}}, {"fine", true}}, of);
        return enter("returned-to-service", {{"findings", {of}}}, of);
    }
    LedgerFault verdict() {
        const Evidence evidence{site->sealer->key().public_key, {}, {}};
        return check_ledger(*site->db, evidence).value().ledger.fault;
    }
    bool has_body(std::int64_t n) { return site->ledger->at(n).ok(); }
};

void check_purged(OpenSite& site, const PurgePlan& plan) {
    const auto done = purge(*site.book, plan);
    if (!done) FAIL(done.error().sentence());
    const Evidence evidence{site.sealer->key().public_key, {}, {}};
    const FullReport report = check_ledger(*site.db, evidence).value();
    CHECK_MESSAGE(report.ledger.fault == LedgerFault::none, report.ledger.what);
    CHECK(report.newest_seal == site.ledger->size());
    const std::string before = state_digest(*site.db).value();
    REQUIRE(site.book->rebuild().ok());
    CHECK(state_digest(*site.db).value() == before);
}

}  // namespace

TEST_SUITE("the bodies of what is over") {
    TEST_CASE("go, from the oldest round up to the first that stays, and the ledger holds") {
        PurgeDesk desk;
        const auto first = desk.round();
        const auto out = desk.release(first);
        const auto back = desk.give_back(out);
        const auto second = desk.round();
        const auto again = desk.release(second);
        const auto last = desk.give_back(again);
        CHECK_FALSE(goes(plan_after(*desk.site, 2), first));
        const PurgePlan plan = plan_after(*desk.site, 4);
        for (const auto n : {first, out, back}) CHECK(goes(plan, n));
        CHECK_FALSE(goes(plan, last));
        CHECK_FALSE(goes(plan, again));  // what stays names it
        CHECK(plan.bodies.classes.at("rounds") >= 3);
        check_purged(*desk.site, plan);
        CHECK_FALSE(desk.has_body(first));
        CHECK(desk.has_body(last));
        CHECK(desk.site->ledger->at(first).error().kind == ErrorKind::absent);
        const PurgePlan once_more = plan_after(*desk.site, 4);
        CHECK_FALSE(goes(once_more, first));
        CHECK(desk.site->book->enter(Fact{"signed-on", {"p-brandt"}, "", 0, Json::object()}).ok());
    }

    TEST_CASE("what is kept for three years stays to the day before they are over") {
        PurgeDesk desk;
        const auto round = desk.round();
        desk.give_back(desk.release(round));
        desk.give_back(desk.release(desk.round()));  // the newest stay
        REQUIRE(desk.site->sealer->seal().ok());
        const Date over = add_months(desk.site->zone.local(desk.clock.now_ms()).date, 36);
        const auto plan_on = [&](Date as_of) {
            return plan_purge(*desk.site->book, desk.site->content.pack, desk.site->zone, as_of)
                .value();
        };
        CHECK_FALSE(goes(plan_on(add_days(over, -1)), round));
        CHECK(goes(plan_on(over), round));
    }

    TEST_CASE("a finding goes with all that was done about it, and only when it is closed") {
        PurgeDesk desk;
        const auto open = desk.finding();
        const auto done = desk.finding();
        const auto told = desk.enter("outcome-told", {{"findings", {done}}});
        const auto returned = desk.closed(done);
        const auto noted = desk.enter("disagreement-noted", {{"text", ""}}, done);
        CHECK_FALSE(goes(plan_after(*desk.site, 4), told));  // its own time is a year
        const PurgePlan plan = plan_after(*desk.site, 6);
        for (const auto n : {done, told, returned, noted}) CHECK(goes(plan, n));
        CHECK_FALSE(goes(plan, open));
        check_purged(*desk.site, plan);
        CHECK(desk.has_body(open));
        CHECK(desk.verdict() == LedgerFault::none);
    }

    TEST_CASE("a finding that a release still names stays, and so do its repair and return") {
        PurgeDesk desk;
        const auto finding = desk.finding();
        const auto returned = desk.closed(finding);
        const auto round = desk.round();
        desk.enter("release-given", {{"person", "p-okafor-lind"}, {"room", "dock-hall"},
                                     {"until_ms", 1}, {"round", round}, {"limits", {finding}}});
        const PurgePlan plan = plan_after(*desk.site, 6);
        CHECK_FALSE(goes(plan, finding));
        CHECK_FALSE(goes(plan, returned));
    }

    TEST_CASE("training goes when the person has left and three years are over") {
        PurgeDesk desk;
        std::set<std::int64_t> training;
        for (const Entry& entry : desk.entries()) {
            const bool theirs = entry.data.value("person", "") == "p-okafor-lind";
            if (theirs && entry.data.contains("topics")) training.insert(entry.n);
        }
        REQUIRE_FALSE(training.empty());
        CHECK_FALSE(goes(plan_after(*desk.site, 30), *training.begin()));
        desk.enter("person-left", {{"person", "p-okafor-lind"}}, 0, "p-brandt");
        CHECK_FALSE(goes(plan_after(*desk.site, 2), *training.begin()));
        const PurgePlan plan = plan_after(*desk.site, 4);
        for (const auto n : training) CHECK(goes(plan, n));
        check_purged(*desk.site, plan);
    }

    TEST_CASE("what tells of exposure to bad air never goes with the rest") {
        PurgeDesk desk;
        std::vector<std::int64_t> kept;
        const Json room{{"room", "dock-hall"}, {"ppm", "0"}};
        for (const char* kind : {"air-read", "air-alarm-raised", "heads-counted",
                                 "symptoms-reported", "symptoms-named", "air-alarm-lifted",
                                 "tailpipe-tested", "door-set"}) {
            kept.push_back(desk.enter(kind, room));
            CHECK_FALSE(desk.site->content.pack.retention_of(kind)->purge);
        }
        const PurgePlan plan = plan_after(*desk.site, 60);
        CHECK(plan.bodies.count() > 0);
        for (const auto n : kept) CHECK_FALSE(goes(plan, n));
        check_purged(*desk.site, plan);
        for (const auto n : kept) CHECK(desk.has_body(n));
    }

    TEST_CASE("a legal hold stops it, over all or over what it names") {
        PurgeDesk desk;
        const auto finding = desk.finding();
        desk.closed(finding);
        const auto on = desk.enter("signed-on", {{"machine", ""}});
        const auto hold = desk.enter("legal-hold-placed",
                                     {{"scope", "machine"}, {"id", kPurgedPlate}, {"text", ""}});
        PurgePlan plan = plan_after(*desk.site, 20);
        CHECK_FALSE(goes(plan, finding));
        CHECK(goes(plan, on));
        desk.enter("legal-hold-lifted", Json::object(), hold);
        desk.enter("legal-hold-placed", {{"scope", "all"}, {"id", ""}, {"text", ""}});
        plan = plan_after(*desk.site, 20);
        CHECK(plan.bodies.empty());
        CHECK(plan.held > 0);
    }

    TEST_CASE("what the present state would lose is refused, and nothing of it is done") {
        PurgeDesk desk;
        const auto finding = desk.finding();
        const auto returned = desk.closed(finding);
        PurgePlan plan = plan_after(*desk.site, 6);
        plan.bodies.ranges = {{returned, returned}};  // as a fault of the plan would have it
        const std::string before = state_digest(*desk.site->db).value();
        const auto size = desk.site->ledger->size();
        const auto refused = purge(*desk.site->book, plan);
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.error().what.find("the present state") != std::string::npos);
        CHECK(desk.site->ledger->size() == size);
        CHECK(state_digest(*desk.site->db).value() == before);
        CHECK(desk.has_body(returned));
        CHECK(desk.verdict() == LedgerFault::none);
        CHECK(desk.site->book->enter(Fact{"signed-on", {"p-brandt"}, "", 0, Json::object()}).ok());
    }

    TEST_CASE("of every rehearsed shift what is over goes forty years later, and the rest holds") {
        const std::string folder = std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/scenarios";
        std::size_t bodies = 0;
        std::size_t shifts = 0;
        const auto step = static_cast<std::size_t>(goes_a_part() ? kPart : 1);
        for (const auto& at : fs::directory_iterator(folder)) {
            if (at.path().extension() != ".toml" || shifts++ % step != 0) continue;
            CAPTURE(at.path().filename().string());
            const auto opened = open_script(at.path().string(), resolved({}));
            REQUIRE(opened.ok());
            OpenSite& site = *opened.value()->site;
            PaperHands hands(site.world());
            REQUIRE(Runner(site.world(), opened.value()->clock, hands)
                        .run(opened.value()->script).ok());
            if (!site.ledger_doubt.empty()) continue;
            const PurgePlan plan = plan_after(site, 40);
            if (plan.empty()) continue;
            bodies += plan.bodies.count();
            check_purged(site, plan);
        }
        CHECK(bodies > 500 / step);
    }
}
