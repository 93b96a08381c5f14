// A finding whose tag is on the start control is no slip any more.
#include <doctest/doctest.h>

#include "records/works.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

// The tile of the point shown that leads to this outcome; empty: none does.
std::string tile_with(Shop& shop, Outcome outcome) {
    const std::string at = shop.page_id();
    for (const Station& station :
         shop.site->content.pack.round("scrubber-before-use")->stations) {
        for (const Point& point : station.points) {
            if (!at.ends_with("/" + point.id)) continue;
            for (const Reading& reading : point.readings) {
                if (reading.outcome == outcome) return "reading:" + reading.id;
            }
        }
    }
    return "";
}

// R. Okafor-Lind walks to the first point at which the machine can be stopped, and stops it.
void stop_at_a_point(Shop& shop) {
    shop.sign_on("H-1042");
    shop.tap("machine:SW-14");
    shop.tap("walk");
    while (tile_with(shop, Outcome::stop).empty()) shop.tap(tile_with(shop, Outcome::fine));
    shop.tap(tile_with(shop, Outcome::stop));
    if (shop.page_id().starts_with("sheet/")) shop.tap("back");
    REQUIRE(tag_of(*shop.site->db, "SW-14").value().has_value());
}

}  // namespace

TEST_SUITE("tags") {
    TEST_CASE("a finding is not withdrawn while its tag hangs, so no machine goes out with a tag") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            stop_at_a_point(shop);
            const std::string at = shop.page_id();
            shop.restart();
            shop.sign_on("H-1093");
            shop.tap("machine:SW-14");
            shop.tap("put-tag");
            shop.tap("main");
            REQUIRE(tag_of(*shop.site->db, "SW-14").value()->put_up);
            shop.restart();
            shop.sign_on("H-1042");
            REQUIRE(shop.page_id() == at);
            const auto size = shop.site->ledger->size();
            shop.tap(tile_with(shop, Outcome::fine));
            CHECK(shop.page_id() == "message");
            CHECK(shop.shows("SW-14"));
            CHECK(shop.site->ledger->size() == size);
            shop.tap("main");
            CHECK(shop.page_id() == at);
            CHECK(machine_state(*shop.site->db, "SW-14").value().findings.size() == 1);
        }
    }

    TEST_CASE("a finding that was a slip is withdrawn with its tag before the tag was put up") {
        Shop shop;
        stop_at_a_point(shop);
        shop.tap(tile_with(shop, Outcome::fine));
        CHECK_FALSE(tag_of(*shop.site->db, "SW-14").value().has_value());
        CHECK(machine_state(*shop.site->db, "SW-14").value().findings.empty());
    }
}
