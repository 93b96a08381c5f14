#include "flows/binder_desk.hpp"

#include "flows/binder_work.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

// Does what it is told to.
struct HandWork final : BinderWork {
    std::vector<BinderPlace> places() override { return {{"/media/usb/AUDIT", true}}; }
    Result<void> start(const BinderOrder& asked) override {
        order = asked;
        now.phase = BinderPhase::running;
        now.total = 10;
        now.path = asked.folder + "/binder.zip";
        return {};
    }
    BinderState state() override { return now; }
    void cancel() override { now.phase = BinderPhase::cancelled; }
    void forget() override { now = {}; }

    BinderOrder order;
    BinderState now;
};

struct BinderDesk {
    Shop shop;
    HandWork work;
    explicit BinderDesk(const std::string& language = "en") : shop(language) {
        shop.site->binder = &work;
        shop.restart();
        shop.sign_on("H-1890");  // the auditor
        shop.tap("desk");
        shop.pin_of("H-1890");
        shop.tap("desk:binder");
    }
};

}  // namespace

TEST_CASE("the binder is asked for by period and place, and who asked is entered") {
    BinderDesk desk;
    CHECK(desk.shop.page_id() == "binder/period");
    desk.shop.tap("period:month");
    CHECK(desk.shop.page_id() == "binder/place");
    CHECK(desk.shop.shows("/media/usb/AUDIT"));
    desk.shop.tap("place:/media/usb/AUDIT");
    CHECK(desk.shop.page_id() == "binder/progress");
    CHECK(desk.work.order.from == Date{2026, 10, 27});  // thirty days with today
    CHECK(desk.work.order.to == Date{2026, 11, 25});
    const Entry last = desk.shop.entries().back();
    CHECK(last.kind == "binder-asked");
    CHECK(last.by.size() == 1);
    CHECK(last.data.at("from") == "2026-10-27");
}

TEST_CASE("the page of a running binder is made again soon, and says how far it is") {
    BinderDesk desk;
    desk.shop.tap("period:year");
    desk.shop.tap("place:/media/usb/AUDIT");
    CHECK(desk.work.order.from == Date{2026, 1, 1});
    desk.work.now.done = 4;
    const Page page = desk.shop.app->page();
    CHECK(page.next_change_ms <= desk.shop.clock.now_ms() + 500);
    CHECK(std::get<ProgressBody>(page.body).percent == 40);
    desk.work.now.total = 0;
    CHECK(std::get<ProgressBody>(desk.shop.app->page().body).percent == 0);
}

TEST_CASE("the result says path, size and witness code until it is closed") {
    BinderDesk desk;
    desk.shop.tap("period:all");
    desk.shop.tap("place:/media/usb/AUDIT");
    CHECK_FALSE(desk.work.order.from.has_value());
    desk.shop.tap("back");
    CHECK(desk.shop.page_id() == "desk");
    desk.work.now.phase = BinderPhase::done;
    desk.work.now.sealed = 1234;
    desk.work.now.witness = "K7DM-3XQA";
    desk.shop.tap("desk:binder");
    CHECK(desk.shop.page_id() == "binder/result");
    const auto lines = std::get<MessageBody>(desk.shop.app->page().body).lines;
    REQUIRE(lines.size() > 2);
    CHECK(lines[0] == "/media/usb/AUDIT");
    CHECK(lines[1] == "binder.zip");
    CHECK(desk.shop.shows("K7DM-3XQA\u00A0@\u00A01234"));
    desk.shop.tap("close");
    CHECK(desk.work.now.phase == BinderPhase::idle);
    CHECK(desk.shop.page_id() == "desk");
}

TEST_CASE("cancelling and failing are said, and nothing else happens") {
    BinderDesk desk;
    desk.shop.tap("period:all");
    desk.shop.tap("place:/media/usb/AUDIT");
    desk.shop.tap("cancel");
    CHECK(desk.shop.shows("Cancelled"));
    desk.work.now.phase = BinderPhase::failed;
    desk.work.now.what = "no room left on the stick";
    CHECK(desk.shop.shows("no room left on the stick"));
    desk.shop.tap("place:/media/usb/AUDIT");
    CHECK(desk.work.now.phase == BinderPhase::failed);
}

TEST_CASE("a kiosk without a worker says how a binder is made") {
    Shop shop;
    shop.site->binder = nullptr;
    shop.restart();
    shop.sign_on("H-1890");
    shop.tap("desk");
    shop.pin_of("H-1890");
    shop.tap("desk:binder");
    CHECK(shop.shows("holdpin binder make"));
}
