// The forecast of a room in the example site, with the door to the next room shut, open and not
// looked at.
#include "flows/air.hpp"
#include "flows/plates.hpp"
#include "flows/room_doors.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

constexpr const char* kPassage = "hall-2-passage";

void enter(Shop& shop, const char* kind, nlohmann::json data) {
    Fact fact;
    fact.kind = kind;
    fact.by = {"p-mbeki-rao"};
    fact.data = std::move(data);
    REQUIRE(shop.site->book->enter(fact).ok());
}

void release(Shop& shop, const std::string& plate, const std::string& room) {
    enter(shop, "release-given",
          {{"machine", plate}, {"person", "p-mbeki-rao"}, {"room", room},
           {"until_ms", kShopStart + 7 * 3'600'000LL}, {"round", 1},
           {"limits", nlohmann::json::array()}, {"air_until_ms", 0},
           {"rooms", nlohmann::json::array()}, {"shifts", nlohmann::json::array()}});
}

void set_door(Shop& shop, const std::string& room, const std::string& door, bool open) {
    enter(shop, "door-set", {{"room", room}, {"door", door}, {"open", open}});
}

int minutes_in(const Shop& shop, const std::string& room, const std::string& plate) {
    const Session session(shop.site->world());
    const auto air = air_now(session, room, plate);
    REQUIRE(air.ok());
    REQUIRE(air.value().forecast);
    return air.value().forecast->minutes_to_level.value_or(100'000);
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("an engine in the next room shortens this one's time until the door is shut") {
        Shop shop;
        set_door(shop, "dock-hall", kPassage, false);
        const int alone = minutes_in(shop, "dock-hall", "SW-14");
        release(shop, "LT-22", "hall-2");
        CHECK(minutes_in(shop, "dock-hall", "SW-14") == alone);
        set_door(shop, "dock-hall", kPassage, true);
        const int open = minutes_in(shop, "dock-hall", "SW-14");
        CHECK(open < alone);
        set_door(shop, "dock-hall", kPassage, false);
        CHECK(minutes_in(shop, "dock-hall", "SW-14") == alone);
        // Half an hour later nobody knows: whichever is worse.
        shop.clock.pass(31 * 60'000);
        const int unknown = minutes_in(shop, "dock-hall", "SW-14");
        set_door(shop, "dock-hall", kPassage, true);
        CHECK(unknown <= minutes_in(shop, "dock-hall", "SW-14"));
        set_door(shop, "dock-hall", kPassage, false);
        CHECK(unknown <= minutes_in(shop, "dock-hall", "SW-14"));
    }

    TEST_CASE("a door between two rooms is one door on the pages of both") {
        Shop shop;
        const Session session(shop.site->world());
        set_door(shop, "dock-hall", kPassage, true);
        for (const std::string room : {"dock-hall", "hall-2"}) {
            const auto doors = doors_seen_from(session, room);
            REQUIRE(doors.ok());
            int met = 0;
            for (const SeenDoor& seen : doors.value()) {
                if (seen.door->id != kPassage) continue;
                ++met;
                CHECK(seen.is == DoorIs::open);
                CHECK(seen.room == "dock-hall");
                CHECK(seen.beyond == (room == "dock-hall" ? "hall-2" : "dock-hall"));
            }
            CHECK(met == 1);
        }
        CHECK(doors_seen_from(session, "workshop").value().empty());
    }

    TEST_CASE("an open door to a clean room lifts no hold that a reading has set") {
        Shop shop;
        enter(shop, "air-read", {{"room", "dock-hall"}, {"ppm", "220"}, {"instrument", "CO-3"},
                                 {"source", "typed"}, {"present", nlohmann::json::array()}});
        enter(shop, "air-alarm-raised", {{"room", "dock-hall"}, {"ppm", "220"}});
        set_door(shop, "dock-hall", kPassage, true);
        set_door(shop, "dock-hall", "dock-door-1", true);
        const Session session(shop.site->world());
        const auto facts = facts_of(session, "SW-14");
        REQUIRE(facts.ok());
        const auto& holds = facts.value().holds;
        CHECK(std::any_of(holds.begin(), holds.end(),
                          [](const Hold& hold) { return hold.code == HoldCode::air_alarm; }));
        CHECK(minutes_in(shop, "dock-hall", "SW-14") == 0);
    }

    TEST_CASE("where nobody has measured next door the air counts as no better than here") {
        Shop shop;
        set_door(shop, "dock-hall", kPassage, false);
        enter(shop, "air-read", {{"room", "dock-hall"}, {"ppm", "60"}, {"instrument", "CO-3"},
                                 {"source", "typed"}, {"present", nlohmann::json::array()}});
        set_door(shop, "dock-hall", kPassage, true);
        const int assumed = minutes_in(shop, "dock-hall", "LT-22");
        enter(shop, "air-read", {{"room", "hall-2"}, {"ppm", "0"}, {"instrument", "CO-3"},
                                 {"source", "typed"}, {"present", nlohmann::json::array()}});
        CHECK(minutes_in(shop, "dock-hall", "LT-22") > assumed);
    }
}
