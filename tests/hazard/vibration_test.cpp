#include "hazard/vibration.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

VibrationDay whole_body(const std::vector<TimedLevel>& day, VibrationAxis axis = VibrationAxis::z) {
    return must(vibration_day(day, VibrationKind::whole_body, axis));
}

}  // namespace

TEST_CASE("points of the whole body are 100 at the action and 529 at the limit value") {
    // Points scale HSE L141, from memory, V= arithmetic; 0.5 m/s² read, 1.15 secondary copy.
    CHECK(near(whole_body({{8, 0.5}}).points, 100, 1e-9));
    CHECK(near(whole_body({{8, 1.15}}).points, 529, 0.05));
}

TEST_CASE("points of hand and arm are those of the ready-reckoner") {
    // HSE ready-reckoner, read, V=: 5 m/s² for 3 h is 150; action 100 at 2.5, limit 400 at 5.
    const auto day = [](double hours, double ms2) {
        return must(vibration_day({{hours, ms2}}, VibrationKind::hand_arm, VibrationAxis::z));
    };
    CHECK(near(day(3, 5).points, 150, 1e-9));
    CHECK(near(day(8, 2.5).points, 100, 1e-9));
    CHECK(near(day(8, 5).points, 400, 1e-9));
    CHECK(near(day(8, 5).hours_to_action, 2, 1e-9));
    CHECK(near(day(8, 5).hours_to_limit, 8, 1e-9));
}

TEST_CASE("an hour on a fork truck and six in a lorry give the guide's three axes") {
    // EU guide to whole-body vibration, from memory, V= to 0.1: x 0.3, y 0.4, z 0.4; worst 0.4.
    const double x = whole_body({{1, 0.5}, {6, 0.2}}, VibrationAxis::x).a8_ms2;
    const double y = whole_body({{1, 0.3}, {6, 0.3}}, VibrationAxis::y).a8_ms2;
    const double z = whole_body({{1, 0.9}, {6, 0.3}}, VibrationAxis::z).a8_ms2;
    CHECK(near(x, 0.3, 0.05));
    CHECK(near(y, 0.4, 0.05));
    CHECK(near(z, 0.4, 0.05));
    CHECK(near(x, 0.346, 0.0006));
    CHECK(near(y, 0.393, 0.0005));
    CHECK(near(z, 0.411, 0.0005));
}

TEST_CASE("a seat of 0.8 m/s² reaches the action value after three hours") {
    // Computed (C): 3.125 h and 16.5 h.
    CHECK(near(whole_body({{2, 0.8}}).hours_to_action, 3.125, 1e-9));
    CHECK(near(whole_body({{2, 0.8}}).hours_to_limit, 16.5, 0.05));
}

TEST_CASE("after the hours to the action value the day stands at that value") {
    for (const VibrationAxis axis : {VibrationAxis::x, VibrationAxis::y, VibrationAxis::z}) {
        const double hours = whole_body({{1, 0.9}, {2, 0.6}}, axis).hours_to_action;
        const double share = hours / 3;
        CHECK(near(whole_body({{share, 0.9}, {2 * share, 0.6}}, axis).a8_ms2, 0.5, 1e-9));
    }
}

TEST_CASE("level axes weigh 1.4 times as much, and points add up over the day") {
    CHECK(near_share(whole_body({{4, 0.6}}, VibrationAxis::y).a8_ms2,
                     1.4 * whole_body({{4, 0.6}}).a8_ms2, 1e-12));
    CHECK(near_share(whole_body({{4, 0.6}, {1, 1.1}}).points,
                     whole_body({{4, 0.6}}).points + whole_body({{1, 1.1}}).points, 1e-12));
    CHECK(whole_body({{5, 0.6}}).a8_ms2 > whole_body({{4, 0.6}}).a8_ms2);
    CHECK(whole_body({{4, 0.7}}).a8_ms2 > whole_body({{4, 0.6}}).a8_ms2);
}

TEST_CASE("no day, absurd magnitudes and an axis of the hand are refused") {
    CHECK_FALSE(vibration_day({}, VibrationKind::whole_body, VibrationAxis::z).ok());
    for (const double bad : {0.0, -1.0, 51.0, kNotANumber, kEndless}) {
        CHECK_FALSE(vibration_day({{8, bad}}, VibrationKind::whole_body, VibrationAxis::z).ok());
    }
    CHECK_FALSE(vibration_day({{25, 1}}, VibrationKind::whole_body, VibrationAxis::z).ok());
    CHECK(vibration_day({{8, 1}}, VibrationKind::hand_arm, VibrationAxis::x).error().where ==
          "axis");
}
