// People who feel ill: when they are asked, what is kept and what is not.
#include <doctest/doctest.h>

#include <algorithm>

#include "records/alarms.hpp"
#include "shop.hpp"
#include "times.hpp"

using namespace holdpin;

namespace {

constexpr std::int64_t kToMidShift = 235 * kMinute;  // from 06:05 to 10:00

void put_out(Shop& shop, const std::string& machine, const std::string& room) {
    Fact fact;
    fact.kind = "release-given";
    fact.by = {"p-okafor-lind"};
    fact.data = {{"machine", machine}, {"person", "p-okafor-lind"}, {"room", room},
                 {"until_ms", kShopStart + 475 * kMinute}, {"round", 1},
                 {"limits", nlohmann::json::array()}, {"rooms", nlohmann::json::array()},
                 {"shifts", nlohmann::json::array()}};
    REQUIRE(shop.site->book->enter(fact).ok());
}

void report(Shop& shop, const std::string& room, const std::string& answer) {
    shop.tap("help");
    shop.tap("symptoms");
    shop.tap("room:" + room);
    shop.tap("ill:" + answer);
}

void to_floor(Shop& shop) {
    while (shop.page_id() != "floor") shop.tap("back");
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("in mid-shift whoever comes is asked once, and then does what they came for") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        shop.tap("sign-on");
        CHECK(shop.page_id() == "badge");
        shop.tap("back");
        shop.clock.pass(kToMidShift);
        shop.tap("scan", "H-1042");
        CHECK(shop.page_id() == "symptoms-asked/dock-hall");
        CHECK(shop.app->person().empty());
        shop.tap("ill:nobody");
        CHECK(shop.app->person() == "p-okafor-lind");
        CHECK(shop.count_of("symptoms-asked") == 1);
        CHECK(shop.count_of("symptoms-reported") == 0);
        shop.tap("sign-off");
        shop.tap("sign-on");
        CHECK(shop.page_id() == "badge");
        shop.tap("back");
        CHECK(shop.page_id() == "floor");
    }

    TEST_CASE("back from what follows the question leads to the floor, not to the question") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        shop.clock.pass(kToMidShift);
        shop.tap("machine:SW-15");
        CHECK(shop.page_id() == "symptoms-asked/dock-hall");
        shop.tap("back");
        CHECK(shop.page_id() == "floor");
        shop.tap("machine:SW-15");
        shop.tap("ill:nobody");
        CHECK(shop.shows("SW-15"));
        shop.tap("back");
        CHECK(shop.page_id() == "floor");
    }

    TEST_CASE("each room with an engine out is asked about, and not with its doors open") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        put_out(shop, "SW-15", "hall-2");
        put_out(shop, "BW-03", "workshop");
        shop.clock.pass(kToMidShift);
        shop.tap("sign-on");
        CHECK(shop.page_id() == "symptoms-asked/dock-hall");
        shop.tap("ill:nobody");
        CHECK(shop.page_id() == "symptoms-asked/hall-2");
        shop.tap("ill:nobody");
        CHECK(shop.page_id() == "badge");

        Shop open;
        put_out(open, "SW-14", "dock-hall");
        open.clock.pass(kToMidShift);
        Fact door;
        door.kind = "door-set";
        door.data = {{"room", "dock-hall"}, {"door", "dock-door-1"}, {"open", true}};
        REQUIRE(open.site->book->enter(door).ok());
        open.tap("sign-on");
        CHECK(open.page_id() == "badge");
    }

    TEST_CASE("help comes before the question, and the language may be chosen first") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        shop.clock.pass(kToMidShift);
        shop.tap("help");
        CHECK(shop.page_id() == "emergency");
        shop.tap("back");
        shop.tap("language");
        shop.tap("sign-on");
        CHECK(shop.shows("¿Dolor de cabeza, mareo, náusea?"));
        shop.tap("help");
        CHECK(shop.page_id() == "emergency");
    }

    TEST_CASE("what is kept of symptoms is room, count and source, even with somebody signed on") {
        Shop shop;
        shop.sign_on("H-1042");
        report(shop, "dock-hall", "one");
        const Entry entry = shop.entries().back();
        CHECK(entry.kind == "symptoms-reported");
        CHECK(entry.by.empty());
        CHECK(entry.data ==
              nlohmann::json{{"room", "dock-hall"}, {"count", 1}, {"source", "help"}});
        CHECK(shop.page_id() == "sheet/symptoms");
        // The name is there only after its owner has asked for it.
        shop.tap("name");
        const Entry named = shop.entries().back();
        CHECK(named.kind == "symptoms-named");
        CHECK(named.by == std::vector<std::string>{"p-okafor-lind"});
        CHECK(named.about == entry.n);
    }

    TEST_CASE("an alarm by symptoms names nobody who was ill or who said so") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        shop.sign_on("H-1187");
        report(shop, "dock-hall", "more");
        const Entry alarm = shop.entries().back();
        CHECK(alarm.kind == "air-alarm-raised");
        CHECK(alarm.by.empty());
        CHECK(alarm.data == nlohmann::json{{"room", "dock-hall"},
                                           {"cause", "symptoms"},
                                           {"present", {"p-okafor-lind"}}});
        CHECK(shop.page_id() == "sheet/carbon-monoxide/dock-hall");
    }

    TEST_CASE("two reports within the hour are an alarm, two rooms and two hours are none") {
        Shop shop;
        report(shop, "dock-hall", "one");
        to_floor(shop);
        report(shop, "hall-2", "one");
        to_floor(shop);
        shop.clock.pass(61 * kMinute);
        report(shop, "dock-hall", "one");
        to_floor(shop);
        CHECK(shop.count_of("air-alarm-raised") == 0);
        shop.clock.pass(55 * kMinute);
        report(shop, "dock-hall", "one");
        CHECK(shop.count_of("air-alarm-raised") == 1);
        CHECK(air_alarm_of(*shop.site->db, "dock-hall").value()->cause == AlarmCause::symptoms);
        CHECK_FALSE(air_alarm_of(*shop.site->db, "hall-2").value());
        // A third one while it stands is kept and raises none.
        to_floor(shop);
        report(shop, "dock-hall", "one");
        CHECK(shop.count_of("symptoms-reported") == 5);
        CHECK(shop.count_of("air-alarm-raised") == 1);
    }

    TEST_CASE("a power cut after the answer asks nobody again and forgets no report") {
        Shop shop;
        put_out(shop, "SW-14", "dock-hall");
        shop.clock.pass(kToMidShift);
        shop.tap("sign-on");
        shop.restart();
        shop.tap("sign-on");
        CHECK(shop.page_id() == "symptoms-asked/dock-hall");
        shop.tap("ill:one");
        CHECK(shop.page_id() == "sheet/symptoms");
        shop.restart();
        shop.tap("sign-on");
        CHECK(shop.page_id() == "badge");
        shop.tap("back");
        report(shop, "dock-hall", "one");
        CHECK(shop.count_of("air-alarm-raised") == 1);
    }
}
