#include <doctest/doctest.h>

#include <map>
#include <memory>

#include "kiosk/driver.hpp"
#include "stages.hpp"

using namespace holdpin;
using holdpin::test::list_page;
using holdpin::test::page_with;

namespace {

// Shows one page after the other, whatever is done.
class Book final : public Stage {
  public:
    std::vector<Page> pages;
    std::size_t at = 0;
    int asked = 0;
    Page page() override {
        ++asked;
        return pages[at];
    }
    void act(const Action&) override { at = (at + 1) % pages.size(); }
};

constexpr std::int64_t kStart = 1'700'000'000'000;

std::unique_ptr<NullGlass> glass_of(int width, int height) {
    return std::move(NullGlass::make(width, height)).value();
}

std::map<std::string, Rect> bar_of(const Driver& driver) {
    std::map<std::string, Rect> bar;
    for (const Drawn& drawn : driver.recorder().drawn) {
        if (drawn.id == "back" || drawn.id == "help" || drawn.id == "next") {
            bar[drawn.id] = drawn.rect;
        }
    }
    return bar;
}

Page number_page(const std::string& id) {
    NumberBody number;
    number.question = "What does it read?";
    Page page = page_with(number);
    page.id = id;
    return page;
}

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("the bottom bar stands at the same place on every page") {
    for (const bool upright : {false, true}) {
        const auto glass = upright ? glass_of(800, 1280) : glass_of(1280, 800);
        Book book;
        book.pages = {list_page(20), number_page("number"), page_with(PinBody{}),
                      page_with(MessageBody{})};
        for (std::size_t i = 0; i < book.pages.size(); ++i) {
            book.pages[i].id = std::to_string(i);
        }
        HandClock clock(kStart);
        Driver driver(*glass, book, clock);
        const auto first = bar_of(driver);
        REQUIRE(first.size() == 3);
        for (std::size_t i = 1; i < book.pages.size(); ++i) {
            REQUIRE(driver.tap("next").ok());
            for (const auto& [id, rect] : bar_of(driver)) {
                CHECK(rect.x == first.at(id).x);
                CHECK(rect.y == first.at(id).y);
                CHECK(rect.w == first.at(id).w);
            }
        }
    }
}

TEST_CASE("what was typed is gone when the page is another one, and kept when it is the same") {
    const auto glass = glass_of(1280, 800);
    Book book;
    book.pages = {number_page("a"), number_page("a"), number_page("b")};
    HandClock clock(kStart);
    Driver driver(*glass, book, clock);
    REQUIRE(driver.type("12").ok());
    REQUIRE(driver.tap("next").ok());
    CHECK(driver.expect("12").ok());
    REQUIRE(driver.tap("next").ok());
    CHECK(driver.refuse("12").ok());
}

TEST_CASE("an alarm sounds each time its page is made, where nothing sounds the strip says so") {
    const auto glass = glass_of(1280, 800);
    Book book;
    book.pages = {list_page(3)};
    book.pages[0].sound = Sound::air;
    book.pages[0].silent = "This kiosk is silent";
    HandClock clock(kStart);
    std::vector<Sound> sounded;
    bool audible = true;
    Driver driver(*glass, book, clock, [&](Sound sound) {
        sounded.push_back(sound);
        return audible;
    });
    CHECK(sounded == std::vector<Sound>{Sound::air});
    CHECK(driver.refuse("This kiosk is silent").ok());
    audible = false;
    driver.ask_again();
    CHECK(sounded.size() == 2);
    CHECK(driver.expect("This kiosk is silent").ok());
    CHECK(driver.audit().empty());
    book.pages[0].sound = Sound::none;
    driver.ask_again();
    CHECK(sounded.size() == 2);
    CHECK(driver.refuse("This kiosk is silent").ok());
}

TEST_CASE("a page is asked for again when its own time has come, and not before") {
    const auto glass = glass_of(1280, 800);
    Book book;
    book.pages = {list_page(3)};
    book.pages[0].next_change_ms = kStart + 60'000;
    HandClock clock(kStart);
    Driver driver(*glass, book, clock);
    const int asked = book.asked;
    driver.wait(30'000);
    CHECK(book.asked == asked);
    book.pages[0].next_change_ms = kStart + 120'000;
    driver.wait(30'000);
    CHECK(book.asked == asked + 1);
}

TEST_CASE("the strip shows where, when and that the data are an example, a countdown covers it") {
    const auto glass = glass_of(800, 1280);
    Book book;
    Page page = list_page(3);
    page.example = "example data";
    book.pages = {page, page};
    book.pages[1].countdown = "Signing off in 20 s";
    HandClock clock(kStart);
    Driver driver(*glass, book, clock);
    CHECK(driver.expect("Ash Lane").ok());
    CHECK(driver.expect("Early shift").ok());
    CHECK(driver.expect("example data").ok());
    REQUIRE(driver.tap("next").ok());
    CHECK(driver.expect("Signing off in 20 s").ok());
    CHECK(driver.refuse("Early shift").ok());
}

TEST_CASE("motion ends by itself and is left out where it is switched off") {
    for (const bool motion : {true, false}) {
        const auto glass = glass_of(1280, 800);
        HandedBody handed;
        handed.heading = "Handed to";
        handed.name = "R. Okafor-Lind";
        handed.plate.plate = "SW-14";
        handed.turn = true;
        Book book;
        book.pages = {page_with(handed)};
        book.pages[0].motion = motion;
        HandClock clock(kStart);
        const Driver driver(*glass, book, clock);
        const std::int64_t took = clock.now_ms() - kStart;
        CAPTURE(motion);
        CHECK((took >= 300) == motion);
        CHECK(took < 2000);
    }
}
}
