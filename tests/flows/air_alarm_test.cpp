// The air alarm as people meet it: over whatever was open, step by step, across power cuts, and
// with the clock moved.
#include <doctest/doctest.h>

#include <algorithm>

#include "flows/plates.hpp"
#include "records/alarms.hpp"
#include "shop.hpp"
#include "times.hpp"

using namespace holdpin;

namespace {


void raise_by_hand(Shop& shop, const std::string& room = "dock-hall") {
    shop.tap("help");
    shop.tap("sheet:carbon-monoxide");
    shop.tap("air-alarm");
    shop.tap("room:" + room);
    REQUIRE(shop.page_id() == "sheet/carbon-monoxide/" + room);
}

// R. Okafor-Lind has SW-14 out in the dock hall.
void hand_over(Shop& shop) {
    shop.sign_on("H-1042");
    shop.tap("machine:SW-14");
    shop.tap("walk");
    shop.walk_all_fit();
    shop.pin_of("H-1042");
    shop.tap("room:dock-hall");
    REQUIRE(shop.entries().back().kind == "release-given");
    shop.tap("done");
}

void read_in_alarm(Shop& shop, const std::string& ppm, const std::string& badge) {
    shop.tap("read");
    shop.tap("main", ppm);
    shop.tap("main", "CO-3");
    shop.pin_of(badge);
}

bool alarm_stands(Shop& shop, const std::string& room = "dock-hall") {
    return air_alarm_of(*shop.site->db, room).value().has_value();
}

bool is_held(Shop& shop) {
    const Page page = shop.app->page();
    for (const PlateView& plate : std::get<FloorBody>(page.body).plates) {
        if (plate.plate == "SW-14") return plate.lugs[3].state == LugState::held;
    }
    return false;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("an air alarm that is cut off after every touch stands at the same step") {
        Shop shop;
        raise_by_hand(shop);
        const std::vector<std::pair<std::string, std::string>> touches{
            {"next", "counting"},       {"head:others", "counting"}, {"head:others", "counting"},
            {"counted", "missing"},     {"next", "counting"},        {"head:others", "counting"},
            {"counted", "airing"},      {"door:dock-door-1", "airing"}, {"engine", "airing"},
            {"engine", "airing"},       {"next", "counting"},        {"head:others", "counting"},
            {"counted", "airing"},      {"enter", "entering"},       {"back", "airing"},
            {"enter", "entering"}};
        for (const auto& [touch, step] : touches) {
            CAPTURE(touch);
            shop.tap(touch);
            const auto shown = shop.texts();
            const auto size = shop.site->ledger->size();
            shop.clock.reboot();
            shop.restart();
            CHECK(shop.page_id() == "air-alarm/dock-hall/" + step);
            CHECK(shop.texts() == shown);
            CHECK(shop.site->ledger->size() == size);
            CHECK(alarm_stands(shop));
        }
        shop.tap("sign-on");
        shop.badge("H-1006");
        read_in_alarm(shop, "40", "H-1006");
        shop.restart();
        CHECK(shop.page_id() == "air-alarm/dock-hall/airing");
        shop.tap("enter");
        shop.tap("sign-on");
        shop.badge("H-1006");
        read_in_alarm(shop, "4", "H-1006");
        CHECK(shop.page_id() == "air-alarm/dock-hall/ended");
        shop.restart();
        CHECK(shop.page_id() == "floor");
        CHECK_FALSE(alarm_stands(shop));
    }

    TEST_CASE("whoever has an engine out reads of the alarm there before anything else") {
        Shop shop;
        hand_over(shop);
        Fact fact;
        fact.kind = "air-alarm-raised";
        fact.data = {{"room", "dock-hall"}, {"ppm", "220"}, {"cause", "reading"}};
        REQUIRE(shop.site->book->enter(fact).ok());
        App beside(shop.site->world());
        beside.act({"sign-on", ""});
        while (beside.page().id != "floor") beside.act({"back", ""});
        beside.act({"scan", "H-1042"});
        beside.act({"machine:SW-14", ""});
        const Page page = beside.page();
        REQUIRE(std::holds_alternative<HandedBody>(page.body));
        const auto& body = std::get<HandedBody>(page.body);
        CHECK(body.heading == "Air alarm: Dock hall");
        CHECK(body.plate.lugs[3].state == LugState::held);
        CHECK(page.main.id == "give-back");
    }

    TEST_CASE("an engine is held by the alarm of the room where it stands, wherever it is wanted") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("walk");
        shop.walk_all_fit();
        shop.pin_of("H-1042");
        REQUIRE(shop.page_id().starts_with("room"));
        Fact fact;
        fact.kind = "air-alarm-raised";
        fact.data = {{"room", "dock-hall"}, {"ppm", "220"}, {"cause", "reading"}};
        REQUIRE(shop.site->book->enter(fact).ok());
        const Session session(shop.site->world());
        const auto held = [&](const std::string& room) -> bool {
            const auto facts = facts_of(session, "SW-14", room);
            return set_of(facts.value().holds)[index_of(HoldCode::air_alarm)];
        };
        CHECK(held(""));
        CHECK(held("hall-2"));
    }

    TEST_CASE("who is at a job or a lockout in the room is counted too") {
        Shop shop;
        Fact job;
        job.kind = "work-opened";
        job.by = {"p-okafor-lind"};
        job.data = {{"machine", "SW-14"}, {"work", "lp-exchange"}, {"step", "place"}};
        REQUIRE(shop.site->book->enter(job).ok());
        const auto in = people_in(*shop.site->db, "dock-hall", shop.clock.now_ms());
        CHECK(in.value() == std::vector<std::string>{"p-okafor-lind"});
        CHECK(people_in(*shop.site->db, "hall-2", shop.clock.now_ms()).value().empty());
    }

    TEST_CASE("every step of an alarm leaves the room held until the reading that ends it") {
        Shop shop;
        CHECK_FALSE(is_held(shop));
        raise_by_hand(shop);
        for (const char* touch : {"next", "head:others", "counted", "enter"}) {
            shop.tap(touch);
            App beside(shop.site->world());
            while (beside.page().id != "floor") beside.act({"back", ""});
            const Page page = beside.page();
            const auto& plates = std::get<FloorBody>(page.body).plates;
            CHECK(plates.front().plate == "SW-14");
            CHECK(plates.front().lugs[3].state == LugState::held);
        }
    }

    TEST_CASE("an alarm comes up over a round, and the round is there again under it") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("walk");
        const Page first = shop.app->page();
        shop.tap(std::get<ChoiceBody>(first.body).tiles.front().id);
        const std::string at = shop.page_id();
        Fact fact;
        fact.kind = "air-alarm-raised";
        fact.data = {{"room", "hall-2"}, {"ppm", "220"}, {"cause", "reading"}};
        REQUIRE(shop.site->book->enter(fact).ok());
        CHECK(shop.page_id() == "sheet/carbon-monoxide/hall-2");
        CHECK(shop.app->person() == "p-okafor-lind");
        shop.tap("next");
        shop.tap("back");
        CHECK(shop.page_id() == at);
        shop.tap("help");
        shop.tap("alarm:hall-2");
        CHECK(shop.page_id() == "air-alarm/hall-2/counting");
    }

    TEST_CASE("the idle time signs off and leaves the alarm in view, without the work under it") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        raise_by_hand(shop);
        shop.tap("next");
        shop.clock.pass(10 * kMinute);
        CHECK(shop.page_id() == "air-alarm/dock-hall/counting");
        CHECK(shop.app->person().empty());
        shop.tap("back");
        CHECK(shop.page_id() == "floor");
    }

    TEST_CASE("who has a machine out in the room is listed, and who is not seen keeps the alarm") {
        Shop shop;
        hand_over(shop);
        raise_by_hand(shop);
        CHECK(shop.entries().back().data.at("present") == nlohmann::json{"p-okafor-lind"});
        shop.tap("next");
        CHECK(shop.shows("R. Okafor-Lind"));
        shop.tap("head:p-nobody");
        shop.tap("head:others");
        shop.tap("counted");
        CHECK(shop.page_id() == "air-alarm/dock-hall/counting");
        shop.tap("head:p-okafor-lind");
        shop.tap("head:p-okafor-lind");
        shop.tap("counted");
        CHECK(shop.page_id() == "air-alarm/dock-hall/missing");
        CHECK(shop.shows("Not seen: R. Okafor-Lind"));
        CHECK(shop.entries().back().data.at("missing") == nlohmann::json{"p-okafor-lind"});
        // From the page of the room, a supervisor's low reading ends nothing either.
        shop.tap("back");
        shop.tap("back");
        shop.tap("back");
        shop.sign_on("H-1006");
        shop.tap("desk");
        shop.pin_of("H-1006");
        shop.tap("desk:rooms");
        shop.tap("room:dock-hall");
        shop.tap("reading");
        shop.tap("main", "3");
        shop.tap("main", "CO-3");
        CHECK(shop.shows("from the door, meter on, two of us"));
        shop.pin_of("H-1006");
        CHECK(shop.entries().back().kind == "air-read");
        CHECK(alarm_stands(shop));
        CHECK(shop.shows("Not everybody was seen outside. Count heads first."));
        shop.tap("main");
        shop.tap("alarm");
        CHECK(shop.page_id() == "air-alarm/dock-hall/missing");
    }

    TEST_CASE("the airing time runs down with the clock, faster with doors, and lifts nothing") {
        Shop shop;
        raise_by_hand(shop);
        shop.tap("next");
        shop.tap("head:others");
        shop.tap("counted");
        // Not measured: ln(1200 / 35) / (12,000 / 9,000) hours, 159.05 minutes, rounded up.
        CHECK(shop.shows("about 2 h 40 min left"));
        shop.clock.pass(59 * kMinute);
        CHECK(shop.shows("about 1 h 41 min left"));
        shop.tap("door:dock-door-1");
        shop.tap("door:dock-door-2");
        CHECK(shop.shows("about 51 min left"));
        // Doors count for half an hour: twice the airflow, then once.
        shop.clock.pass(40 * kMinute);
        CHECK(shop.shows("about 31 min left"));
        shop.clock.pass(31 * kMinute);
        CHECK(shop.shows("The airing time is over. That is no clearance: measure."));
        shop.clock.pass(600 * kMinute);
        CHECK(alarm_stands(shop));
    }

    TEST_CASE("a later reading is where the airing time counts from") {
        Shop shop;
        raise_by_hand(shop);
        shop.tap("next");
        shop.tap("head:others");
        shop.tap("counted");
        shop.tap("enter");
        shop.tap("sign-on");
        shop.badge("H-1042");
        read_in_alarm(shop, "70", "H-1042");
        shop.tap("main");
        // ln(70 / 35) / (12,000 / 9,000) hours, 31.2 minutes.
        CHECK(shop.shows("about 32 min left"));
    }

    TEST_CASE("no page of an alarm shows a key, and each says it in its own language") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            raise_by_hand(shop);
            for (const char* touch :
                 {"next", "head:others", "head:others", "counted", "next", "head:others", "counted",
                  "engine", "engine", "enter", "back"}) {
                shop.tap(touch);
                for (const std::string& text : shop.texts()) {
                    CAPTURE(text);
                    CHECK_FALSE(text.starts_with("alarm."));
                    CHECK(text.find('{') == std::string::npos);
                }
            }
            CHECK(shop.shows(language == "en" ? "Go back in?" : "¿Volver a entrar?"));
        }
    }
}
