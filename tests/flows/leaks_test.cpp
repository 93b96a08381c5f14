// Leaks of a coupling are counted by machine until it is tight or its hose was changed, and a leak
// ends the release that runs.
#include <doctest/doctest.h>

#include "flows/plates.hpp"
#include "records/works.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

constexpr const char* kPlate = "SW-14";

std::int64_t state_fact(Shop& shop, std::string kind, nlohmann::json data, std::int64_t about = 0) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {"p-okafor-lind"};
    fact.about = about;
    fact.data = std::move(data);
    fact.data["machine"] = kPlate;
    const auto entry = shop.site->book->enter(fact);
    REQUIRE(entry.ok());
    return entry.value().n;
}

int leaks(Shop& shop) { return leaks_of(*shop.site->db, kPlate).value(); }

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

}  // namespace

TEST_SUITE("flows") {
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
        REQUIRE(machine_state(*shop.site->db, kPlate).value().out.has_value());
        state_fact(shop, "release-voided", {{"release", release}, {"cause", "leak"}}, release);
        const MachineState after = machine_state(*shop.site->db, kPlate).value();
        CHECK_FALSE(after.out.has_value());
        REQUIRE(after.round.has_value());
        CHECK(after.round->voided);
        REQUIRE(shop.site->book->rebuild().ok());
        CHECK_FALSE(machine_state(*shop.site->db, kPlate).value().out.has_value());
    }
}
