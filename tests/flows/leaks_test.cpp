// Leaks of a coupling are counted by machine until it is tight or its hose was changed, and a leak
// ends the release that runs.
#include <doctest/doctest.h>

#include "flows/plates.hpp"
#include "records/works.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

constexpr const char* kLeaky = "SW-14";

std::int64_t state_fact(Shop& shop, std::string kind, nlohmann::json data, std::int64_t about = 0) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {"p-okafor-lind"};
    fact.about = about;
    fact.data = std::move(data);
    fact.data["machine"] = kLeaky;
    const auto entry = shop.site->book->enter(fact);
    REQUIRE(entry.ok());
    return entry.value().n;
}

int leaks(Shop& shop) { return leaks_of(*shop.site->db, kLeaky).value(); }

// A job with one answer that found a leak, and left after it.
void leak(Shop& shop, int rung) {
    const auto job = state_fact(shop, "work-opened", {{"work", "exchange"}, {"step", "soap"}});
    state_fact(shop, "work-step-done",
               {{"work", "exchange"}, {"step", "soap"}, {"leak", rung}}, job);
    state_fact(shop, "work-stopped", {{"work", "exchange"}, {"step", "shut-tighten"}}, job);
}

std::int64_t finding(Shop& shop, int rung) {
    nlohmann::json data{{"point", "work/exchange/soap"}, {"reading", "coupling"},
                        {"outcome", "stop"},             {"hazard", "lp-leak"},
                        {"source", "work"}};
    if (rung > 0) data["leak"] = rung;
    return state_fact(shop, "finding-entered", data);
}

void return_to_service(Shop& shop, std::int64_t closed) {
    state_fact(shop, "returned-to-service",
               {{"findings", std::vector<std::int64_t>{closed}}}, closed);
}

// Somebody takes the exchange of a machine on to the soap, or to where it is, and answers there.
void go_to_soap(Shop& shop, const std::string& plate, const std::string& badge) {
    shop.restart();
    shop.sign_on(badge);
    if (shop.page_id() == "floor") shop.tap("machine:" + plate);
    if (shop.page_id() == "machine/" + plate && shop.app->page().main.id == "work") {
        shop.tap("work");
    } else if (shop.page_id() == "machine/" + plate) {
        shop.tap("jobs");
        shop.tap("work:exchange");
    }
    for (int i = 0; i < 40 && !shop.page_id().ends_with("/soap"); ++i) {
        const Page page = shop.app->page();
        if (page.id.ends_with("/which-way")) {
            shop.tap("reply:which-way:on-peg");
            continue;
        }
        for (const PageTarget& one : targets_of(page)) {
            if (!one.enabled || !one.id.starts_with("reply:")) continue;
            shop.tap(one.id);
            break;
        }
    }
    REQUIRE(shop.page_id() == "work/exchange/" + plate + "/soap");
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("the ladder is climbed by a machine, whoever works at it, not by a person or a day") {
        Shop shop;
        for (const char* serial : {"GOOD1", "GOOD2", "GOOD3", "GOOD4"}) {
            Fact fact;
            fact.kind = "cylinder-received";
            fact.by = {"p-brandt"};
            fact.data = {{"serial", serial},  {"made", "2022-06"},
                         {"stamps", nlohmann::json::array()},
                         {"gas_kg", "15.2"},  {"due", ""}};
            REQUIRE(shop.site->book->enter(fact).ok());
        }
        const auto count = [&](const char* plate) {
            return leaks_of(*shop.site->db, plate).value();
        };
        go_to_soap(shop, "SW-14", "H-1042");
        shop.tap("reply:soap:coupling");
        CHECK(count("SW-14") == 1);
        // Another machine has its own ladder, and a dry one ends only its own.
        go_to_soap(shop, "SW-15", "H-1187");
        shop.tap("reply:soap:coupling");
        CHECK(count("SW-15") == 1);
        go_to_soap(shop, "SW-15", "H-1187");
        shop.tap("reply:soap:dry");
        CHECK(count("SW-15") == 0);
        CHECK(count("SW-14") == 1);
        // Tightened, and another day: the same machine leaks once more, in other hands.
        shop.clock.pass(20 * 3'600'000LL);
        go_to_soap(shop, "SW-14", "H-1093");
        shop.tap("reply:soap:coupling");
        CHECK(count("SW-14") == 2);
        CHECK(shop.page_id() == "work/exchange/SW-14/shut-swap");
        // Another cylinder alone mends nothing: the third leak is the hose.
        go_to_soap(shop, "SW-14", "H-1093");
        CHECK(count("SW-14") == 2);
        shop.tap("reply:soap:coupling");
        CHECK(count("SW-14") == 3);
        CHECK(shop.entries().back().kind == "tag-issued");
        const auto state = machine_state(*shop.site->db, "SW-14");
        REQUIRE(state.value().findings.size() == 1);
        const auto hose = state.value().findings.front().entry;
        CHECK(state.value().findings.front().hazard == Hazard::lp_leak);
        // A repair that is stated mends it only with the return to service.
        state_fact(shop, "repair-stated", {{"findings", std::vector<std::int64_t>{hose}}}, hose);
        CHECK(count("SW-14") == 3);
        return_to_service(shop, hose);
        CHECK(count("SW-14") == 0);
    }

    TEST_CASE("leaks are counted over jobs that end, other repairs and a restart") {
        Shop shop;
        leak(shop, 1);
        const auto drain = state_fact(shop, "work-opened", {{"work", "drain"}, {"step", "floor"}});
        state_fact(shop, "work-finished", {{"work", "drain"}, {"step", "floor"}}, drain);
        CHECK(leaks(shop) == 1);
        return_to_service(shop, finding(shop, 0));
        CHECK(leaks(shop) == 1);
        shop.restart();
        leak(shop, 2);
        CHECK(leaks(shop) == 2);
        REQUIRE(shop.site->book->rebuild().ok());
        CHECK(leaks(shop) == 2);
    }

    TEST_CASE("leaks are counted from none again when the coupling was soaped and dry") {
        Shop shop;
        leak(shop, 2);
        const auto job = state_fact(shop, "work-opened", {{"work", "exchange"}, {"step", "soap"}});
        state_fact(shop, "work-step-done",
                   {{"work", "exchange"}, {"step", "soap"}, {"tight", true}}, job);
        CHECK(leaks(shop) == 0);
    }

    TEST_CASE("leaks are counted from none again when the machine returns with a new hose") {
        Shop shop;
        leak(shop, 3);
        const auto hose = finding(shop, 3);
        return_to_service(shop, finding(shop, 0));
        CHECK(leaks(shop) == 3);
        return_to_service(shop, hose);
        CHECK(leaks(shop) == 0);
    }

    TEST_CASE("a release that was voided is over, and its round counts for nobody") {
        Shop shop;
        const auto round = state_fact(shop, "round-signed",
                                      {{"round_kind", "before"},
                                       {"shift_end_ms", kShopStart + 8 * 3'600'000LL}});
        const auto release = state_fact(shop, "release-given",
                                        {{"person", "p-okafor-lind"},
                                         {"room", "dock-hall"},
                                         {"round", round},
                                         {"until_ms", kShopStart + 8 * 3'600'000LL}});
        REQUIRE(machine_state(*shop.site->db, kLeaky).value().out.has_value());
        state_fact(shop, "release-voided", {{"release", release}, {"cause", "leak"}}, release);
        const MachineState after = machine_state(*shop.site->db, kLeaky).value();
        CHECK_FALSE(after.out.has_value());
        REQUIRE(after.round.has_value());
        CHECK(after.round->voided);
        REQUIRE(shop.site->book->rebuild().ok());
        CHECK_FALSE(machine_state(*shop.site->db, kLeaky).value().out.has_value());
    }
}
