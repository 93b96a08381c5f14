// What is shown as done is on the disk: a program that ends after any touch of a round comes back
// to the same point with every reading and every finding.
#include <doctest/doctest.h>

#include "flows/say.hpp"
#include "records/records.hpp"
#include "shop.hpp"

using namespace holdpin;

TEST_SUITE("flows") {
    TEST_CASE("a round that is cut off after every single touch goes on where it was") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("walk");
        std::size_t points = 0;
        while (shop.page_id().starts_with("round/")) {
            REQUIRE(points++ < 100);
            const std::string before = shop.page_id();
            const Page page = shop.app->page();
            if (std::holds_alternative<NumberBody>(page.body)) {
                const bool hours = before.ends_with("/hours");
                hours ? shop.tap("next", "1284.6") : shop.tap("mark:80");
            } else {
                // The last tile of each point is seldom a good sign.
                shop.tap(std::get<ChoiceBody>(page.body).tiles.back().id);
                if (shop.page_id().starts_with("sheet/")) shop.tap("back");
                if (shop.page_id() == before) shop.tap("next");
            }
            const std::string after = shop.page_id();
            const std::uint64_t size = shop.site->ledger->size();
            shop.restart();
            CHECK(shop.site->ledger->size() == size);
            shop.sign_on("H-1042");
            CHECK(shop.page_id() == after);
        }
        CHECK(shop.page_id() == "review/SW-14");
        const auto state = machine_state(*shop.site->db, "SW-14");
        REQUIRE(state.ok());
        const Page review = shop.app->page();
        const auto& rows = std::get<ListBody>(review.body).rows;
        CHECK(rows.size() == state.value().findings.size());
        CHECK(rows.size() > 10);
    }

    TEST_CASE("a guide and its quiz go on at the same page after every single touch") {
        Shop shop;
        shop.sign_on("H-2316");
        shop.tap("machine:SW-14");
        shop.tap("learn");
        std::size_t pages = 0;
        while (!shop.page_id().starts_with("quiz-result/")) {
            REQUIRE(pages++ < 200);
            const Page page = shop.app->page();
            if (const auto* choice = std::get_if<ChoiceBody>(&page.body);
                choice != nullptr && choice->tiles.front().enabled) {
                shop.tap(choice->tiles.front().id);
            } else {
                shop.tap("next");
            }
            const std::string after = shop.page_id();
            if (after.starts_with("quiz-result/")) break;
            shop.restart();
            shop.sign_on("H-2316");
            shop.tap("machine:SW-14");
            shop.tap("learn");
            CHECK(shop.page_id() == after);
        }
    }

    TEST_CASE("with the clock set back nothing is handed over until somebody compared it") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.clock.set_wall(kShopStart - 86'400'000);
        shop.tap("machine:SW-14");
        CHECK(shop.entries().back().kind == "clock-doubted");
        CHECK(shop.shows("Call supervisor"));
    }

    TEST_CASE("a release that is not stored as it was entered is not handed over") {
        Shop shop;
        shop.sign_on("H-1042");
        shop.tap("machine:SW-14");
        shop.tap("walk");
        shop.walk_all_fit();
        // As a disk that takes one thing and keeps another.
        REQUIRE(shop.site->db->execute("DROP TRIGGER entry_stays").ok());
        REQUIRE(shop.site->db
                    ->execute("CREATE TRIGGER spoils AFTER INSERT ON entry "
                              "WHEN instr(CAST(new.body AS TEXT), 'release-given') BEGIN "
                              "UPDATE entry SET body = x'7b7d' WHERE n = new.n; END")
                    .ok());
        shop.pin_of("H-1042");
        shop.tap("room:dock-hall");
        CHECK_FALSE(shop.page_id().starts_with("handed/"));
        CHECK(shop.shows(Say(shop.site->content.pack, "en")("failure.heading")));
        CHECK_FALSE(machine_state(*shop.site->db, "SW-14").value().out);
        shop.tap("main");
        CHECK_FALSE(shop.page_id().starts_with("handed/"));
        CHECK(shop.entries().back().kind != "release-given");
    }

    TEST_CASE("with records that cannot be written nobody stays signed on, and sheets open") {
        for (const std::string language : {"en", "es"}) {
            Shop shop(language);
            shop.sign_on("H-1042");
            shop.tap("machine:SW-14");
            shop.tap("walk");
            // Every write fails from here on, as on a disk that cannot be written.
            REQUIRE(shop.site->db->execute("PRAGMA query_only = ON").ok());
            shop.tap("reading:fit");
            const auto shows = [&](const char* key) {
                return shop.shows(Say(shop.site->content.pack, shop.app->page().language)(key));
            };
            CHECK(shows("failure.heading"));
            CHECK(shows("degraded.read-only"));
            shop.clock.pass(3'600'000);
            CHECK(shows("failure.heading"));
            CHECK(shop.app->page().language == language);
            CHECK(shop.app->person().empty());
            // Asked again and again, there is one such page and not a pile of them.
            for (int i = 0; i < 5; ++i) shop.app->page();
            shop.tap("help");
            CHECK(shop.page_id() == "emergency");
            shop.clock.set_wall(kShopStart - 86'400'000);
            shop.tap("sheet:smell-of-gas");
            CHECK(shop.page_id() == "sheet/smell-of-gas");
            shop.tap("back");
            shop.tap("back");
            shop.clock.set_wall(kShopStart + 7'200'000);
            shop.tap("ok");
            REQUIRE(shop.site->db->execute("PRAGMA query_only = OFF").ok());
        }
    }
}
