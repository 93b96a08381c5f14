// Cylinders at the gate and in the store: what is refused, and what may be said of one by hand.
#include "rules/cylinders.hpp"

#include <doctest/doctest.h>

#include <limits>

using namespace holdpin;

namespace {

constexpr Date kStockDay{2026, 11, 25};

Cylinder offered(double gas_kg) { return {"A1001", {2021, 6}, {}, gas_kg}; }

}  // namespace

TEST_CASE("a cylinder that would count nothing against the limit is refused") {
    CylinderPolicy policy;
    policy.limit_kg = 136;
    for (const double gas_kg : {0.0, -15.2, std::numeric_limits<double>::quiet_NaN()}) {
        CHECK(refusal_of(offered(gas_kg), {}, 0, policy, kStockDay) == CylinderRefusal::no_gas);
    }
    CHECK(refusal_of(offered(15.2), {}, 0, policy, kStockDay) == CylinderRefusal::none);
    CHECK(refusal_of(offered(136.1), {}, 0, policy, kStockDay) == CylinderRefusal::over_limit);
}

TEST_CASE("what came off a machine counts before it is listed, and is listed overdue too") {
    CylinderPolicy policy;
    policy.limit_kg = 50;
    const std::vector<Cylinder> store{{"A1002", {2021, 6}, {}, 15.2}};
    CHECK(refusal_of(offered(15.2), store, 0, policy, kStockDay) == CylinderRefusal::none);
    CHECK(refusal_of(offered(15.2), store, 1, policy, kStockDay) == CylinderRefusal::over_limit);
    Cylinder old = offered(15.2);
    old.made = {2009, 1};
    CHECK(refusal_of(old, store, 0, policy, kStockDay) == CylinderRefusal::overdue);
    CHECK(refusal_to_list(old, store, policy) == CylinderRefusal::none);
    CHECK(refusal_to_list(store.front(), store, policy) == CylinderRefusal::known);
    old.serial.clear();
    CHECK(refusal_to_list(old, store, policy) == CylinderRefusal::unreadable);
    CHECK(refusal_to_list(offered(0), store, policy) == CylinderRefusal::no_gas);
}

TEST_CASE("what is set aside or on a machine is called nothing else by hand") {
    using enum CylinderState;
    int possible = 0;
    for (const CylinderState from : {full, empty, set_aside, on_machine}) {
        for (const CylinderState to : {full, empty, set_aside, on_machine}) {
            if (!may_be_set(from, to)) continue;
            ++possible;
            CHECK((from == full || from == empty));
            CHECK(to != on_machine);
            CHECK(to != from);
        }
    }
    CHECK(possible == 4);
    CHECK(may_be_given_back(set_aside));
    CHECK(may_be_given_back(full));
    CHECK(may_be_given_back(empty));
    CHECK_FALSE(may_be_given_back(on_machine));
}
