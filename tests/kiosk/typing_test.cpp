#include <doctest/doctest.h>

#include <memory>

#include "kiosk/driver.hpp"
#include "kiosk/typing.hpp"
#include "stages.hpp"

using namespace holdpin;
using holdpin::test::OnePage;
using holdpin::test::page_with;

namespace {

struct TypingBench {
    TypingBench(Page page, int width, int height)
        : stage(std::move(page)),
          clock(1'700'000'000'000),
          glass(std::move(NullGlass::make(width, height)).value()),
          driver(*glass, stage, clock) {}
    explicit TypingBench(Page page) : TypingBench(std::move(page), 1280, 800) {}

    OnePage stage;
    HandClock clock;
    std::unique_ptr<NullGlass> glass;
    Driver driver;
};

Page pin_page() {
    PinBody pin;
    pin.heading = "Sign";
    return page_with(pin);
}

Page number_page() {
    NumberBody number;
    number.question = "What does the hour meter read?";
    number.unit = "h";
    number.start = "1284.6";
    return page_with(number);
}

Page temperature_page() {
    NumberBody number;
    number.question = "Gas temperature";
    number.decimal = false;
    number.sign = true;
    return page_with(number);
}

Page text_page() {
    TextBody text;
    text.heading = "What did you find?";
    return page_with(text);
}

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("a number below zero is typed with a sign key, and only where it is asked for") {
    TypingBench bench(temperature_page());
    REQUIRE(bench.driver.type("-12").ok());
    CHECK(bench.driver.expect("-12").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next -12");
    TypingBench turned(temperature_page());
    REQUIRE(turned.driver.type("12-").ok());
    CHECK(turned.driver.expect("-12").ok());
    REQUIRE(turned.driver.type("-").ok());
    CHECK(turned.driver.refuse("-12").ok());
    TypingBench plain(number_page());
    CHECK_FALSE(plain.driver.type("-").ok());
    plain.driver.physical("-5", false);
    CHECK(plain.driver.refuse("-5").ok());
}

TEST_CASE("a PIN is typed on the pad, never shown, and forgotten once it is handed over") {
    TypingBench bench(pin_page());
    REQUIRE(bench.driver.pin("4711").ok());
    CHECK(bench.driver.refuse("4711").ok());
    REQUIRE(bench.driver.tap("next").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next 4711\nnext");
}

TEST_CASE("the pad takes no more digits than the page allows") {
    TypingBench bench(pin_page());
    REQUIRE(bench.driver.pin("12345678").ok());
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next 123456");
}

TEST_CASE("the first digit replaces the value that stood there, backspace edits it") {
    TypingBench first(number_page());
    REQUIRE(first.driver.type("1285.2").ok());
    REQUIRE(first.driver.tap("next").ok());
    CHECK(first.stage.did() == "next 1285.2");

    TypingBench second(number_page());
    REQUIRE(second.driver.tap("key:back").ok());
    REQUIRE(second.driver.type("9").ok());
    REQUIRE(second.driver.tap("next").ok());
    CHECK(second.stage.did() == "next 1284.9");
}

TEST_CASE("text is typed in both alphabets of a screen, with Spanish letters") {
    for (const bool upright : {false, true}) {
        TypingBench bench(text_page(), upright ? 800 : 1280, upright ? 1280 : 800);
        REQUIRE(bench.driver.type("¿Qué ñandú? 12 km").ok());
        CHECK(bench.driver.expect("¿Qué ñandú? 12 km").ok());
        REQUIRE(bench.driver.tap("next").ok());
        CHECK(bench.stage.did() == "next ¿Qué ñandú? 12 km");
    }
}

TEST_CASE("codes take capitals, digits and a dash") {
    TextBody code;
    code.heading = "Badge";
    code.codes = true;
    TypingBench bench(page_with(code));
    REQUIRE(bench.driver.type("SW-14").ok());
    bench.driver.physical("a!b", false);
    REQUIRE(bench.driver.tap("next").ok());
    CHECK(bench.stage.did() == "next SW-14AB");
}

TEST_CASE("a physical keyboard types into the page and Enter is its main action") {
    TypingBench bench(number_page());
    bench.driver.physical("1290,5", true);
    CHECK(bench.stage.did() == "next 1290.5");
}

TEST_CASE("Enter on a page whose main action is grey says why") {
    Page page = pin_page();
    page.main.enabled = false;
    page.main.why_not = "Again in 5 s.";
    TypingBench bench(page);
    bench.driver.physical("4711", true);
    CHECK(bench.stage.did() == "");
    CHECK(bench.driver.expect("Again in 5 s.").ok());
}

TEST_CASE("a scanner on a page that takes no typing gives its code") {
    TypingBench bench(holdpin::test::list_page(3));
    bench.driver.physical("B-0042", true);
    CHECK(bench.stage.did() == "scan B-0042");
}

TEST_CASE("a number has one point and at most nine characters") {
    UiState state;
    for (const char letter : std::string(".1.23456789")) {
        type_number(state, letter, true);
    }
    CHECK(state.typed == "0.1234567");
    UiState whole;
    type_number(whole, '.', false);
    CHECK(whole.typed.empty());
}
}
