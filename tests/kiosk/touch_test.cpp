#include <doctest/doctest.h>

#include <memory>

#include "kiosk/driver.hpp"
#include "stages.hpp"

using namespace holdpin;
using holdpin::test::list_page;
using holdpin::test::OnePage;
using holdpin::test::page_with;

namespace {

constexpr std::int64_t kTouchStart = 1'700'000'000'000;

struct TouchBench {
    explicit TouchBench(Page page)
        : stage(std::move(page)),
          clock(kTouchStart),
          glass(std::move(NullGlass::make(1280, 800)).value()),
          driver(*glass, stage, clock) {}

    Rect place(const std::string& id) const {
        for (const Drawn& drawn : driver.recorder().drawn) {
            if (drawn.target && drawn.id == id) {
                return drawn.rect;
            }
        }
        return {};
    }

    OnePage stage;
    HandClock clock;
    std::unique_ptr<NullGlass> glass;
    Driver driver;
};

// How many times the page was turned on.
int turned_to_the_end(TouchBench& bench) {
    const auto goes_on = [&] {
        for (const Drawn& drawn : bench.driver.recorder().drawn) {
            if (drawn.target && drawn.id == "page-down") return drawn.enabled;
        }
        return false;
    };
    int turns = 0;
    for (; goes_on(); ++turns) REQUIRE(bench.driver.tap("page-down").ok());
    return turns;
}

Page message_page() {
    MessageBody message;
    message.heading = "Stored";
    return page_with(message);
}

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("a button acts when the finger is lifted, not when it goes down") {
    TouchBench bench(message_page());
    bench.driver.finger_to(bench.place("next").middle());
    bench.driver.finger_down();
    CHECK(bench.stage.did() == "");
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("a finger that slides off a button does nothing, even when it comes down on another") {
    TouchBench bench(message_page());
    bench.driver.finger_to(bench.place("next").middle());
    bench.driver.finger_down();
    bench.driver.finger_to(bench.place("help").middle());
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "");
}

TEST_CASE("a finger that slides off and back again still acts") {
    TouchBench bench(message_page());
    const Rect next = bench.place("next");
    bench.driver.finger_to(next.middle());
    bench.driver.finger_down();
    bench.driver.finger_to({next.x - 50, next.y});
    bench.driver.finger_to(next.middle());
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("one tap gives one action") {
    TouchBench bench(message_page());
    REQUIRE(bench.driver.tap("Next").ok());
    bench.driver.settle();
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("a grey main action says why and does nothing, and the next touch takes the words away") {
    Page page = message_page();
    page.main.enabled = false;
    page.main.why_not = "Choose a reading first.";
    TouchBench bench(page);
    CHECK(bench.driver.refuse("Choose a reading first.").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.driver.expect("Choose a reading first.").ok());
    CHECK(bench.stage.did() == "");
    bench.driver.finger_to({640, 400});
    bench.driver.finger_down();
    bench.driver.finger_up();
    CHECK(bench.driver.refuse("Choose a reading first.").ok());
}

TEST_CASE("a finger on the words of a grey button does not reach what they cover") {
    Page page = list_page(12);
    std::get<ListBody>(page.body).desk = true;
    page.main.enabled = false;
    page.main.why_not = "Choose a machine first.";
    TouchBench bench(page);
    REQUIRE(bench.driver.tap("next").ok());
    REQUIRE(bench.driver.expect("Choose a machine first.").ok());
    const Rect row = bench.place("row-6");
    bench.driver.finger_to({400, row.y < 600 ? row.bottom() - 5 : row.y + 5});
    bench.driver.finger_down();
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "");
    CHECK(bench.driver.refuse("Choose a machine first.").ok());
    bench.driver.finger_down();
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "row-6");
}

TEST_CASE("dragging a list moves it on to a whole row and taps nothing") {
    TouchBench bench(list_page(12));
    const Rect before = bench.place("row-2");
    bench.driver.finger_to(before.middle());
    bench.driver.finger_down();
    bench.driver.finger_to({before.middle().x, before.middle().y - 90});
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "");
    const float row = bench.place("row-3").y - bench.place("row-2").y;
    CHECK(row > 0);
    CHECK(bench.place("row-2").y == doctest::Approx(before.y - row).epsilon(0.01));
}

TEST_CASE("a finger that trembles on a row still taps it") {
    TouchBench bench(list_page(12));
    const Dot middle = bench.place("row-2").middle();
    bench.driver.finger_to(middle);
    bench.driver.finger_down();
    bench.driver.finger_to({middle.x + 4, middle.y - 5});
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "row-2");
}

TEST_CASE("a row out of sight is reached by the page buttons") {
    TouchBench bench(list_page(40));
    REQUIRE(bench.driver.tap("Machine 37").ok());
    REQUIRE(bench.driver.tap("Machine 2").ok());
    CHECK(bench.stage.did() == "row-37\nrow-2");
}

TEST_CASE("a list that must be read is signed only once its end was shown") {
    Page page = list_page(40);
    page.read_first = "Read it to its end first.";
    TouchBench bench(page);
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "");
    CHECK(bench.driver.expect("Read it to its end first.").ok());
    CHECK(turned_to_the_end(bench) > 2);
    REQUIRE(bench.driver.tap("page-up").ok());  // read is read
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("one page before the end of what must be read the main action is still grey") {
    Page page = list_page(40);
    page.read_first = "Read it to its end first.";
    TouchBench counting(page);
    const int turns = turned_to_the_end(counting);
    TouchBench bench(page);
    for (int i = 1; i < turns; ++i) REQUIRE(bench.driver.tap("page-down").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "");
    REQUIRE(bench.driver.tap("page-down").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("what must be read and fits on one page is signed at once") {
    Page page = list_page(2);
    page.read_first = "Read it to its end first.";
    TouchBench bench(page);
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next");
}

TEST_CASE("what cannot be touched is told with what can") {
    TouchBench bench(message_page());
    const Result<void> result = bench.driver.tap("Nowhere");
    REQUIRE_FALSE(result.ok());
    CHECK(result.error().what.find("\"Problem or emergency\" (help)") != std::string::npos);
}

TEST_CASE("a touch keeps somebody signed on while a countdown runs") {
    Page page = message_page();
    page.countdown = "Signing off in 20 s";
    TouchBench bench(page);
    bench.driver.finger_to({640, 300});
    bench.driver.finger_down();
    bench.driver.finger_up();
    CHECK(bench.stage.did() == "stay");
}
}
