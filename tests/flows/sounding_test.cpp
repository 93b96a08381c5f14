// Which alarm is to be heard, on every page, and when it is quiet again.
#include <doctest/doctest.h>

#include "shop.hpp"

using namespace holdpin;

namespace {

void raise(Shop& shop) {
    shop.tap("help");
    shop.tap("sheet:carbon-monoxide");
    shop.tap("air-alarm");
    shop.tap("room:dock-hall");
}

}  // namespace

TEST_SUITE("flows") {
    TEST_CASE("an air alarm sounds on every page until somebody says that they are outside") {
        Shop shop;
        CHECK(shop.app->page().sound == Sound::none);
        raise(shop);
        CHECK(shop.app->page().sound == Sound::air);
        CHECK(shop.app->page().silent.find("silent") != std::string::npos);
        shop.tap("help");
        CHECK(shop.app->page().sound == Sound::air);
        shop.tap("back");
        shop.restart();
        CHECK(shop.app->page().sound == Sound::air);
        shop.tap("next");
        CHECK(shop.app->page().sound == Sound::none);
        // The alarm stands all the same: only its sound was for leaving.
        CHECK(shop.page_id() == "air-alarm/dock-hall/counting");
    }

    TEST_CASE("the page of a sounding alarm is made again in time for the next sound") {
        Shop shop("es");
        raise(shop);
        const Page page = shop.app->page();
        CHECK(page.next_change_ms > shop.clock.now_ms());
        CHECK(page.next_change_ms <= shop.clock.now_ms() + 5'000);
        CHECK(page.silent.find("no suena") != std::string::npos);
    }
}
