#include "hazard/run_plan.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kM2OfFt2 = 0.09290304;

// An invented machine; no published example of this sum is known.
CleaningRun run() {
    return {.solution_l = 100,
            .flow_lmin = 2.5,
            .recovery_l = 100,
            .pickup_percent = 90,
            .width_m = 0.81,
            .speed_kmh = 4.8,
            .overlap_percent = 0,
            .area_m2 = 3888};
}

template <typename T>
RunPlan with(T CleaningRun::*part, T value) {
    CleaningRun changed = run();
    changed.*part = value;
    return must(run_plan(changed));
}

std::string refused(double CleaningRun::*part, double value) {
    CleaningRun changed = run();
    changed.*part = value;
    const auto plan = run_plan(changed);
    return plan.ok() ? "" : plan.error().where;
}

}  // namespace

TEST_CASE("width and speed make the area of an hour") {
    // Computed (C): 0.81 m at 4.8 km/h 3 888 m²/h; 32 in at 3 mph 42 240 ft²/h, at 80 % 33 792.
    CHECK(near(must(run_plan(run())).m2_per_h, 3888, 0.5));
    CleaningRun feet = run();
    feet.width_m = 32 * 0.0254;
    feet.speed_kmh = 3 * 1.609344;
    CHECK(near(must(run_plan(feet)).m2_per_h / kM2OfFt2, 42'240, 0.5));
    feet.overlap_percent = 20;
    CHECK(near(must(run_plan(feet)).m2_per_h / kM2OfFt2, 33'792, 0.5));
}

TEST_CASE("an hour at 2.5 litres a minute takes two fills of 100 litres and two drains") {
    const RunPlan plan = must(run_plan(run()));
    CHECK(near(plan.hours, 1, 1e-9));
    CHECK(near(plan.minutes_per_fill, 40, 1e-9));
    CHECK(plan.fills == 2);
    CHECK(plan.drains == 2);
}

TEST_CASE("a tank that is just used up needs no further fill") {
    CHECK(with(&CleaningRun::solution_l, 150.0).fills == 1);
    CHECK(with(&CleaningRun::solution_l, 50.0).fills == 3);
    CHECK(with(&CleaningRun::solution_l, 149.9).fills == 2);
    CHECK(with(&CleaningRun::pickup_percent, 0.0).drains == 0);
}

TEST_CASE("a larger area, more flow and more overlap never take fewer hours or fills") {
    RunPlan before = with(&CleaningRun::area_m2, 10.0);
    for (double area = 200; area < 20'000; area += 371) {
        const RunPlan now = with(&CleaningRun::area_m2, area);
        CHECK(now.hours > before.hours);
        CHECK(now.fills >= before.fills);
        CHECK(now.drains >= before.drains);
        before = now;
    }
    CHECK(with(&CleaningRun::overlap_percent, 10.0).hours > must(run_plan(run())).hours);
    CHECK(with(&CleaningRun::flow_lmin, 5.0).fills > must(run_plan(run())).fills);
}

TEST_CASE("every figure of a run outside its range is refused by its name") {
    for (const double bad : {-1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(refused(&CleaningRun::solution_l, bad) == "solution_l");
        CHECK(refused(&CleaningRun::flow_lmin, bad) == "flow_lmin");
        CHECK(refused(&CleaningRun::recovery_l, bad) == "recovery_l");
        CHECK(refused(&CleaningRun::pickup_percent, bad) == "pickup_percent");
        CHECK(refused(&CleaningRun::width_m, bad) == "width_m");
        CHECK(refused(&CleaningRun::speed_kmh, bad) == "speed_kmh");
        CHECK(refused(&CleaningRun::overlap_percent, bad) == "overlap_percent");
        CHECK(refused(&CleaningRun::area_m2, bad) == "area_m2");
    }
    CHECK(refused(&CleaningRun::solution_l, 0) == "solution_l");
    CleaningRun slow = run();
    slow.width_m = 0.1;
    slow.speed_kmh = 0.1;
    slow.area_m2 = 1e6;
    CHECK(run_plan(slow).error().where == "hours");
}
