#include "rules/numbers.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

// An hour meter: 0.0 to 99999.9 h, never back, at most 26.0 h between two rounds.
NumberPoint hour_meter() {
    NumberPoint point;
    point.max_tenths = 999'999;
    point.check = NumberCheck::not_below_last;
    point.most_rise_tenths = 260;
    return point;
}

// A fuel gauge: 0 to 100 %, a finding below 15 %.
NumberPoint fuel_gauge() {
    NumberPoint point;
    point.max_tenths = 1'000;
    point.low_tenths = 150;
    point.outside = Outcome::limit;
    return point;
}

}  // namespace

TEST_CASE("a meter reading is fine from the last value up to the most it can have risen") {
    CHECK(judge(hour_meter(), 12'846, 12'846) == NumberJudgement::fine);
    CHECK(judge(hour_meter(), 13'106, 12'846) == NumberJudgement::fine);
    CHECK(judge(hour_meter(), 13'107, 12'846) == NumberJudgement::risen_too_far);
    CHECK(judge(hour_meter(), 12'845, 12'846) == NumberJudgement::below_last);
}

TEST_CASE("a value the meter cannot show is out of range, before anything else is judged") {
    CHECK(judge(hour_meter(), -1, 12'846) == NumberJudgement::out_of_range);
    CHECK(judge(hour_meter(), 1'000'000, 12'846) == NumberJudgement::out_of_range);
    CHECK(judge(hour_meter(), 0, -1) == NumberJudgement::fine);
    CHECK(judge(hour_meter(), 999'999, -1) == NumberJudgement::fine);
}

TEST_CASE("without a last value there is nothing to compare with") {
    CHECK(judge(hour_meter(), 500'000, -1) == NumberJudgement::fine);
    CHECK(judge(hour_meter(), 0, 0) == NumberJudgement::fine);
    CHECK(judge(hour_meter(), 261, 0) == NumberJudgement::risen_too_far);
}

TEST_CASE("a value below the level of a finding is low, and the level itself is fine") {
    CHECK(judge(fuel_gauge(), 150, -1) == NumberJudgement::fine);
    CHECK(judge(fuel_gauge(), 149, -1) == NumberJudgement::low);
    CHECK(judge(fuel_gauge(), 0, 900) == NumberJudgement::low);
}

TEST_CASE("what a point does not check is not judged") {
    CHECK(judge(fuel_gauge(), 200, 900) == NumberJudgement::fine);  // may go down
    CHECK(judge(fuel_gauge(), 1'000, 0) == NumberJudgement::fine);  // may rise as it likes
    NumberPoint no_low = fuel_gauge();
    no_low.low_tenths = -1;
    CHECK(judge(no_low, 0, -1) == NumberJudgement::fine);
    NumberPoint always_low = fuel_gauge();
    always_low.low_tenths = 0;
    CHECK(judge(always_low, 0, -1) == NumberJudgement::fine);
}

TEST_CASE("only a fine value has a fine outcome, and every other has the outcome of the point") {
    CHECK(outcome_of(fuel_gauge(), NumberJudgement::fine) == Outcome::fine);
    for (const NumberJudgement judgement :
         {NumberJudgement::out_of_range, NumberJudgement::below_last,
          NumberJudgement::risen_too_far, NumberJudgement::low}) {
        CHECK(outcome_of(fuel_gauge(), judgement) == Outcome::limit);
        CHECK(outcome_of(hour_meter(), judgement) == Outcome::note);
    }
}
