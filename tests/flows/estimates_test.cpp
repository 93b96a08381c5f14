#include "flows/estimates.hpp"

#include "flows/guide.hpp"
#include "shop.hpp"

using namespace holdpin;

namespace {

EstimateBody body_of(const Session& session, Subject subject, const std::string& room) {
    const auto flow = EstimateFlow::open(session, subject, room);
    REQUIRE(flow.ok());
    const auto page = flow.value()->page(session);
    REQUIRE(page.ok());
    return std::get<EstimateBody>(page.value().body);
}

}  // namespace

TEST_CASE("what is shown in other units comes back as the same quantity") {
    for (const bool us : {false, true}) {
        const Units units(us);
        for (int i = 0; i <= static_cast<int>(Quantity::liquid_flow); ++i) {
            const auto quantity = static_cast<Quantity>(i);
            CAPTURE(i);
            for (const double value : {-40.0, 0.0, 0.35, 12'000.0}) {
                CHECK(units.metric(quantity, units.shown(quantity, value)) ==
                      doctest::Approx(value));
            }
        }
    }
    CHECK(Units(true).text(Quantity::temperature, 100) == "212\u00a0°F");
    CHECK(Units(true).text(Quantity::pressure, 689.4757293168) == "100\u00a0psi");
    CHECK(Units(false).text(Quantity::minutes, 95) == "1\u00a0h\u00a035\u00a0min");
}

TEST_CASE("the ladder of a dial goes up and down over the same rungs") {
    double value = 1;
    for (int i = 0; i < 40; ++i) {
        const double next = next_on_ladder(value, true);
        CHECK(next > value);
        CHECK(next_on_ladder(next, false) == doctest::Approx(value));
        value = next;
    }
    CHECK(next_on_ladder(9000, true) == doctest::Approx(10'000));
    CHECK(next_on_ladder(9000, false) == doctest::Approx(8000));
}

TEST_CASE("every subject says what it is not, names its source and draws a curve") {
    Shop shop;
    const Session session(shop.site->world());
    for (const Subject subject : kSubjects) {
        const EstimateBody body = body_of(session, subject, "dock-hall");
        CAPTURE(std::string(name_of(subject)));
        CHECK(is_shown({body.caution}, "Planning estimate"));
        CHECK_FALSE(body.source.empty());
        CHECK_FALSE(body.advice.empty());
        CHECK_FALSE(body.chart.lines.empty());
        CHECK_FALSE(body.results.empty());
    }
}

TEST_CASE("the average of eight hours is a field over eight hours, the ceiling a level") {
    Shop shop;
    const Session session(shop.site->world());
    const ChartData chart = body_of(session, Subject::room_air, "dock-hall").chart;
    REQUIRE(chart.bands.size() == 1);
    CHECK(chart.bands[0].value == 35);
    CHECK(chart.bands[0].to - chart.bands[0].from == 480);
    REQUIRE(chart.levels.size() == 1);
    CHECK(chart.levels[0].value == 200);
}

TEST_CASE("an estimate writes no entry, whatever is touched") {
    Shop shop;
    Session session(shop.site->world());
    const auto before = shop.site->ledger->size();
    for (const Subject subject : kSubjects) {
        auto flow = EstimateFlow::open(session, subject, "cold-store");
        REQUIRE(flow.ok());
        const auto page = flow.value()->page(session);
        REQUIRE(page.ok());
        for (const Dial& dial : std::get<EstimateBody>(page.value().body).dials) {
            for (int i = 0; i < 60; ++i) {
                REQUIRE(flow.value()->act(session, {"less:" + dial.id, ""}).ok());
                REQUIRE(flow.value()->page(session).ok());
            }
            for (int i = 0; i < 120; ++i) {
                REQUIRE(flow.value()->act(session, {"more:" + dial.id, ""}).ok());
            }
            REQUIRE(flow.value()->page(session).ok());
        }
    }
    CHECK(shop.site->ledger->size() == before);
}

TEST_CASE("a temperature below zero is typed, a volume below zero is refused") {
    Shop shop;
    shop.sign_on("H-1006");
    shop.tap("desk");
    shop.pin_of("H-1006");
    shop.tap("desk:estimates");
    shop.tap("subject:cylinder");
    shop.tap("value:temperature");
    CHECK(std::get<NumberBody>(shop.app->page().body).sign);
    CHECK(shop.shows("From \u221240 to 60."));
    shop.tap("main", "-");
    CHECK(shop.shows("Type a number."));
    shop.tap("main", "-41");
    CHECK(shop.shows("outside what can be estimated"));
    shop.tap("back");
    shop.tap("main", "-12");
    CHECK(shop.page_id() == "estimate/cylinder");
    CHECK(shop.shows("\u221212 °C"));
    shop.tap("back");
    shop.tap("subject:room-air");
    shop.tap("room:dock-hall");
    shop.tap("value:volume");
    CHECK_FALSE(std::get<NumberBody>(shop.app->page().body).sign);
    shop.tap("main", "-900");
    CHECK(shop.shows("not below zero"));
}

TEST_CASE("the guide to the raised hopper shows the load on one prop lock beside two") {
    Shop shop;
    Session session(shop.site->world());
    auto flow = GuideFlow::open(session, "raised-hopper");
    REQUIRE(flow.ok());
    std::string note;
    for (int i = 0; i < 6 && note.empty(); ++i) {
        const auto page = flow.value()->page(session);
        REQUIRE(page.ok());
        note = std::get<StepBody>(page.value().body).note;
        if (note.empty()) REQUIRE(flow.value()->act(session, {"next", ""}).ok());
    }
    CHECK(is_shown({note}, "each of two prop locks carries 815 N"));
    CHECK(is_shown({note}, "always fit both"));
}
