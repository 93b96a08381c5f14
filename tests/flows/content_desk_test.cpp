// Content files that were changed without being adopted: nothing is handed over until a supervisor
// has looked at the change and signed.
#include <doctest/doctest.h>

#include "flows/say.hpp"
#include "records/records.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

void find_changed(Shop& shop, const nlohmann::json& items) {
    Fact fact;
    fact.kind = "content-adopted";
    fact.data = {{"site", "ash-lane"}, {"items", items}, {"unasked", true}};
    REQUIRE(shop.site->book->enter(fact).ok());
}

bool is_held_for_content(Shop& shop) {
    shop.sign_on("H-1042");
    shop.tap("machine:SW-14");
    const bool held =
        shop.shows(shop.site->content.pack.hold("content-changed")->title.in(shop.page().language));
    shop.tap("back");
    shop.tap("sign-off");
    return held;
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("a change that nobody asked for holds the machines until a supervisor signs") {
        for (const std::string language : {"en", "es"}) {
            CAPTURE(language);
            Shop shop(language);
            CHECK_FALSE(is_held_for_content(shop));
            find_changed(shop, {{"ruleset/holds", "77c1"}, {"guide/wear-parts", ""}});
            CHECK(is_held_for_content(shop));
            shop.open_desk("H-1006");
            shop.tap("desk:content");
            CHECK(shop.shows("ruleset/holds"));
            CHECK(shop.shows("guide/wear-parts"));
            const auto size = shop.site->ledger->size();
            shop.tap("main");
            CHECK(shop.site->ledger->size() == size);
            shop.pin_of("H-1006");
            CHECK(shop.entries().back().kind == "content-accepted");
            CHECK(shop.page_id() == "desk");
            shop.tap("sign-off");
            CHECK_FALSE(is_held_for_content(shop));
        }
    }

    TEST_CASE("a mechanic cannot let a change of the rules hold, and a later change holds anew") {
        Shop shop;
        find_changed(shop, nlohmann::json::object());
        shop.open_desk("H-1435");
        shop.tap("desk:content");
        CHECK(shop.shows(Say(shop.site->content.pack, "en")("refused.no-right")));
        shop.tap("main");
        shop.tap("sign-off");
        shop.open_desk("H-1006");
        shop.tap("desk:content");
        CHECK(shop.shows(Say(shop.site->content.pack, "en")("desk.content-people")));
        shop.tap("main");
        find_changed(shop, {{"ruleset/holds", "77c2"}});
        shop.pin_of("H-1006");
        CHECK(shop.entries().back().kind == "content-accepted");
        CHECK(unasked_change(*shop.site->db).value() != 0);
    }
}
