// What an area takes, from the figures of a class and of a room.
#include "flows/work_plan.hpp"

#include "shop.hpp"

using namespace holdpin;

namespace {

const MachineClass& scrubber(const Shop& shop) {
    return *shop.site->content.pack.machine_class("ride-on-scrubber-lp");
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("fills, drains and cylinders follow from class figures and the floor of a room") {
        Shop shop;
        Room room = *shop.site->content.room("hall-2");
        // 2 400 m² at 1.2 m less 10 %, 6 km/h: 6 480 m²/h, 22.2 min, 89 L down, 80 L up, 0.81 kg.
        const auto small = work_plan(scrubber(shop), room);
        REQUIRE(small);
        CHECK(small->fills == 1);
        CHECK(small->drains == 1);
        CHECK(small->cylinders == 1);
        CHECK(small->minutes == 23);
        // Twenty such halls: 7.41 h, 1 778 L of 280, 1 600 L of 300, 16.3 kg of 15.
        room.area_m2 = 48'000;
        const auto large = work_plan(scrubber(shop), room);
        REQUIRE(large);
        CHECK(large->fills == 7);
        CHECK(large->drains == 6);
        CHECK(large->cylinders == 2);
        CHECK(large->minutes == 445);
    }

    TEST_CASE("nothing is said without a floor, without work figures, or of cylinders of no size") {
        Shop shop;
        const Session session(shop.site->world());
        Room room = *shop.site->content.room("hall-2");
        const Pack& pack = shop.site->content.pack;
        CHECK(work_plan_line(session, *pack.machine_class("lift-truck-lp"), room).empty());
        MachineClass unsaid = scrubber(shop);
        unsaid.engine->cylinder_kg = 0;
        CHECK(work_plan(unsaid, room)->cylinders == 0);
        CHECK(is_shown({work_plan_line(session, unsaid, room)}, "2 400 m²: fills 1 · drains 1"));
        CHECK_FALSE(is_shown({work_plan_line(session, unsaid, room)}, "cylinders"));
        room.area_m2 = 0;
        CHECK_FALSE(work_plan(scrubber(shop), room));
    }

    TEST_CASE("the plan is said in the words and units of the site") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            shop.site->content.site.units = language == "en" ? "us" : "metric";
            const Session session(shop.site->world());
            const std::string line =
                work_plan_line(session, scrubber(shop), *shop.site->content.room("dock-hall"));
            CHECK(is_shown({line}, language == "en" ? "16 146 ft²: fills 1 · drains 1"
                                                    : "1 500 m²: llenados 1 · vaciados 1"));
        }
    }
}
