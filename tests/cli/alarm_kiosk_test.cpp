// A live meter and a kiosk in use: what the meter reads comes up over whatever the person has open.
#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>

#include "../devices/fake_meter.hpp"
#include "../flows/shop.hpp"
#include "cli/meter_watch.hpp"
#include "records/alarms.hpp"

using namespace holdpin;

namespace {

// Each time it is asked a millisecond later, from any thread; behind the clock of the kiosk.
class TickingClock final : public Clock {
  public:
    std::int64_t now_ms() const override { return ++now_ms_; }
    std::int64_t mono_ms() const override { return now_ms_; }
    std::string boot() const override { return "ticking"; }

  private:
    mutable std::atomic<std::int64_t> now_ms_{kShopStart - 600'000};
};

// The kiosk of the example site with a meter of the dock hall on the wire.
struct Metered {
    FakeMeter fake;
    TickingClock clock;
    Shop shop;
    std::unique_ptr<MeterWatch> watch;

    Metered() {
        shop.site->content.site.meters = {
            RoomMeter{"dock-hall", "CO-9", "127.0.0.1", fake.at(0).port, 1, 0, false, 1}};
        watch = std::make_unique<MeterWatch>(shop.site->world(), [this](const RoomMeter& meter) {
            const ModbusRegister where{meter.host, meter.port, meter.unit, meter.register_number,
                                       meter.input, meter.scale};
            return std::make_unique<ModbusMeter>(where, ModbusPace{500, 10}, clock);
        });
    }
    std::int64_t count_of(const std::string& kind) {
        const auto all = shop.entries();
        return std::count_if(all.begin(), all.end(),
                             [&](const Entry& entry) { return entry.kind == kind; });
    }
    // As the window does about once a second, until there is one entry more of this kind.
    bool beats_until(const std::string& kind) {
        const std::int64_t before = count_of(kind);
        return comes_true([&] { return watch->enter_new() && count_of(kind) > before; });
    }
};

}  // namespace

TEST_CASE("a live meter above the ceiling brings the sheet up over a round, which is not lost") {
    Metered kiosk;
    kiosk.fake.hold(3);
    Shop& shop = kiosk.shop;
    shop.sign_on("H-1042");
    shop.tap("machine:SW-14");
    shop.tap("walk");
    const Page first = shop.app->page();
    shop.tap(std::get<ChoiceBody>(first.body).tiles.front().id);
    const std::string at = shop.page_id();
    REQUIRE(kiosk.beats_until("air-read"));
    CHECK(shop.page_id() == at);

    kiosk.fake.hold(230);
    REQUIRE(kiosk.beats_until("air-alarm-raised"));
    CHECK(shop.page_id() == "sheet/carbon-monoxide/dock-hall");
    CHECK(shop.shows("Dock hall · Air alarm: 230 ppm"));
    CHECK(shop.app->person() == "p-okafor-lind");

    // Every further reading is kept, and the alarm comes up once.
    REQUIRE(kiosk.beats_until("air-read"));
    CHECK(kiosk.count_of("air-alarm-raised") == 1);
    shop.tap("back");
    CHECK(shop.page_id() == at);
    REQUIRE(kiosk.beats_until("air-read"));
    CHECK(shop.page_id() == at);
}

TEST_CASE("a live meter brings the sheet up over the floor, a PIN and another sheet") {
    for (const char* open : {"floor", "pin", "sheet"}) {
        CAPTURE(open);
        Metered kiosk;
        kiosk.fake.hold(3);
        Shop& shop = kiosk.shop;
        if (open == std::string("pin")) {
            shop.sign_on("H-1006");
            shop.tap("desk");
        }
        if (open == std::string("sheet")) {
            shop.tap("help");
            shop.tap("sheet:smell-of-gas");
        }
        const std::string at = shop.page_id();
        kiosk.fake.hold(400);
        REQUIRE(kiosk.beats_until("air-alarm-raised"));
        CHECK(shop.page_id() == "sheet/carbon-monoxide/dock-hall");
        shop.tap("back");
        CHECK(shop.page_id() == at);
    }
}

TEST_CASE("a live meter that reads low again ends no alarm, and airing counts from what it read") {
    Metered kiosk;
    kiosk.fake.hold(230);
    REQUIRE(kiosk.beats_until("air-alarm-raised"));
    Shop& shop = kiosk.shop;
    CHECK(shop.page_id() == "sheet/carbon-monoxide/dock-hall");
    shop.tap("next");
    shop.tap("head:others");
    shop.tap("counted");
    CHECK(shop.page_id() == "air-alarm/dock-hall/airing");
    kiosk.fake.hold(2);
    REQUIRE(kiosk.beats_until("air-read"));
    CHECK(kiosk.count_of("air-alarm-lifted") == 0);
    CHECK(air_alarm_of(*shop.site->db, "dock-hall").value().has_value());
    CHECK(shop.page_id() == "air-alarm/dock-hall/airing");
}
