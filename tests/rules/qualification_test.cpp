// Training, practice and evaluation: 1910.178(l)(1)-(2); every three years (l)(4)(iii); refresher
// (l)(4)(i): read in a secondary copy. What binds lift trucks the site adopts for other machines.
#include "rules/qualification.hpp"

#include <doctest/doctest.h>

#include "all_clear.hpp"

using namespace holdpin;
using sample::complete;
using sample::pack;
using sample::sweeper;

namespace {

constexpr Date kToday{2026, 11, 25};

Topic topic(const char* id, int valid_months = 36) {
    Topic made;
    made.id = id;
    made.valid_months = valid_months;
    return made;
}

TopicRecords all_topics(Date evaluated) {
    TopicRecords records;
    for (const Topic& one : sweeper().topics) records[one.id] = complete(evaluated);
    return records;
}

Person with(std::vector<Duty> duties, std::optional<Date> listed_until = std::nullopt,
            std::vector<std::string> endorsements = {}) {
    Person made;
    made.id = "eva";
    made.duties = std::move(duties);
    made.listed_until = listed_until;
    made.endorsements = std::move(endorsements);
    return made;
}

Refusal answer(const Person& person, Right right, const TopicRecords& records = {},
               Hazard hazard = Hazard::none) {
    return refusal_of({pack(), person, sweeper(), records, kToday, hazard}, right);
}

}  // namespace

TEST_CASE("of all combinations of training only the complete and current one permits") {
    int permitted = 0;
    for (unsigned row = 0; row < 1U << 5; ++row) {
        const auto bit = [&](unsigned i) { return (row >> i & 1U) != 0; };
        const Date evaluated = bit(3) ? Date{2026, 1, 10} : Date{2020, 1, 10};
        TopicRecord record;
        if (bit(0)) record.instructed = evaluated;
        if (bit(1)) record.practised = evaluated;
        if (bit(2)) record.evaluated = evaluated;
        record.refresher_open = !bit(4);
        const TopicGap expected = !bit(0)   ? TopicGap::not_instructed
                                  : !bit(1) ? TopicGap::not_practised
                                  : !bit(2) ? TopicGap::not_evaluated
                                  : !bit(3) ? TopicGap::lapsed
                                  : !bit(4) ? TopicGap::refresher_open
                                            : TopicGap::none;
        INFO("row ", row);
        const TopicGap gap = topic_gap(topic("brakes"), {{"brakes", record}}, kToday);
        CHECK(gap == expected);
        permitted += gap == TopicGap::none ? 1 : 0;
    }
    CHECK(permitted == 1);
}

TEST_CASE("a topic of which nothing is recorded is not instructed") {
    CHECK(topic_gap(topic("brakes"), {}, kToday) == TopicGap::not_instructed);
    CHECK(topic_gap(topic("brakes"), {{"ramps", complete(kToday)}}, kToday) ==
          TopicGap::not_instructed);
}

TEST_CASE("an evaluation of 29 February counts for three years, to 28 February and not beyond") {
    const Topic one = topic("brakes", 36);
    CHECK(iso_date(valid_until(one, {2024, 2, 29})) == "2027-02-28");
    const TopicRecords records{{"brakes", complete({2024, 2, 29})}};
    CHECK(topic_gap(one, records, {2027, 2, 27}) == TopicGap::none);
    CHECK(topic_gap(one, records, {2027, 2, 28}) == TopicGap::none);
    CHECK(topic_gap(one, records, {2027, 3, 1}) == TopicGap::lapsed);
}

TEST_CASE("the last day of an evaluation ends at midnight of the site's wall clock") {
    const auto zone = Zone::load("America/Chicago");
    REQUIRE(zone.ok());
    const Topic one = topic("brakes", 36);
    const TopicRecords records{{"brakes", complete({2023, 11, 25})}};
    // Midnight in Chicago is 06:00 in universal time (IANA database).
    const std::int64_t midnight = (day_number({2026, 11, 26}) * 24 + 6) * 3'600'000;
    const auto gap_at = [&](std::int64_t at) {
        return topic_gap(one, records, zone.value().local(at).date);
    };
    CHECK(gap_at(midnight - 1) == TopicGap::none);
    CHECK(gap_at(midnight) == TopicGap::lapsed);
}

TEST_CASE("the months an evaluation counts are the topic's own") {
    CHECK(iso_date(valid_until(topic("air", 12), {2024, 2, 29})) == "2025-02-28");
    CHECK(iso_date(valid_until(topic("air", 1), {2026, 1, 31})) == "2026-02-28");
    CHECK(iso_date(valid_until(topic("air", 0), kToday)) == iso_date(kToday));
}

TEST_CASE("a person is current with every topic, and trains only in those that have a gap") {
    TopicRecords records = all_topics({2026, 1, 10});
    CHECK(is_current(sweeper(), records, kToday));
    CHECK(topics_to_train(sweeper(), records, kToday).empty());

    records.erase("fuel");
    records["air"].refresher_open = true;
    CHECK_FALSE(is_current(sweeper(), records, kToday));
    CHECK(topics_to_train(sweeper(), records, kToday) == std::vector<std::string>{"fuel", "air"});
}

TEST_CASE("an evaluation says that it ends from so many days before its last day, to that day") {
    // Every three years: 1910.178(l)(4)(iii), read in a secondary copy; the warning is the site's.
    const TopicRecords records = all_topics({2023, 12, 25});
    const Date last{2026, 12, 25};
    CHECK_FALSE(evaluation_ends(sweeper(), records, {2026, 11, 24}, 30));
    CHECK(evaluation_ends(sweeper(), records, {2026, 11, 25}, 30) == last);
    CHECK(evaluation_ends(sweeper(), records, last, 0) == last);
    CHECK_FALSE(evaluation_ends(sweeper(), records, {2026, 12, 26}, 30));  // it has lapsed
    TopicRecords mixed = records;
    mixed["air"] = complete({2023, 11, 30});
    CHECK(evaluation_ends(sweeper(), mixed, {2026, 11, 25}, 30) == Date{2026, 11, 30});
}

TEST_CASE("another machine asks for the difference only") {
    // OSHA interpretations of 15 June and 8 October 1999: train what differs.
    MachineClass other = sweeper();
    other.topics.push_back(topic("hopper"));
    other.topics.push_back(topic("lp-exchange"));
    const TopicRecords records = all_topics({2026, 1, 10});
    CHECK(topics_to_train(other, records, kToday) ==
          std::vector<std::string>{"hopper", "lp-exchange"});
}

TEST_CASE("a right that no duty of the person gives is refused") {
    const TopicRecords records = all_topics({2026, 1, 10});
    CHECK(answer(with({}), Right::operate, records) == Refusal::no_right);
    CHECK(answer(with({Duty::operating}), Right::return_to_service, records) == Refusal::no_right);
    CHECK(answer(with({Duty::operating}), Right::operate) == Refusal::none);
    CHECK(answer(with({Duty::operating, Duty::repairing}), Right::repair) == Refusal::none);
}

TEST_CASE("trainers and evaluators count up to the last day of their listing") {
    for (const auto& [duty, right] : {std::pair{Duty::training, Right::instruct},
                                      std::pair{Duty::evaluating, Right::evaluate}}) {
        CHECK(answer(with({duty}, kToday), right) == Refusal::none);
        CHECK(answer(with({duty}, add_days(kToday, -1)), right) == Refusal::not_listed);
        CHECK(answer(with({duty}), right) == Refusal::not_listed);
    }
}

TEST_CASE("a supervisor whose training has lapsed clears no machine and signs nothing for it") {
    // Supervisors are trained too: PUWER 1998 regulation 9(2), read in the 1992 text.
    const Person supervisor = with({Duty::supervising});
    const TopicRecords lapsed = all_topics({2020, 1, 10});
    for (const Right right :
         {Right::return_to_service, Right::decide_limit, Right::override_hold, Right::authorise}) {
        CHECK(answer(supervisor, right, all_topics({2026, 1, 10})) == Refusal::none);
        CHECK(answer(supervisor, right, lapsed) == Refusal::not_current);
        CHECK(answer(supervisor, right) == Refusal::not_current);
    }
}

TEST_CASE("what concerns no single machine asks for one class at least that is current") {
    MachineClass other = sweeper();
    other.topics.push_back(topic("hopper"));
    const Person supervisor = with({Duty::supervising});
    const auto judged = [&](const std::vector<const MachineClass*>& classes,
                            const TopicRecords& records, const Person& person) {
        return refusal_of(OpenClaim{pack(), person, classes, records, kToday},
                          Right::return_to_service);
    };
    const MachineClass sweeps = sweeper();
    const TopicRecords known = all_topics({2026, 1, 10});
    CHECK(judged({&other, &sweeps}, known, supervisor) == Refusal::none);
    CHECK(judged({&sweeps, &other}, known, supervisor) == Refusal::none);
    CHECK(judged({&other}, known, supervisor) == Refusal::not_current);
    CHECK(judged({&sweeps}, all_topics({2020, 1, 10}), supervisor) == Refusal::not_current);
    CHECK(judged({}, {}, supervisor) == Refusal::none);
    CHECK(judged({}, known, with({Duty::operating})) == Refusal::no_right);
    CHECK(judged({&sweeps}, known, with({Duty::operating})) == Refusal::no_right);
}

TEST_CASE("work on gas parts needs its endorsement, other repairs do not") {
    // "Competent engineer only" after a machine that does not start: HSE notice of 2023, read in
    // secondary copies.
    const Person mechanic = with({Duty::repairing});
    const Person gas_fitter = with({Duty::repairing}, std::nullopt, {"lp-repair"});
    for (const Hazard hazard :
         {Hazard::none, Hazard::lp_leak, Hazard::lp_fuel, Hazard::brake, Hazard::steering,
          Hazard::hopper_support, Hazard::air, Hazard::guard, Hazard::electrical}) {
        const bool lp = hazard == Hazard::lp_leak || hazard == Hazard::lp_fuel;
        INFO(name_of(hazard));
        CHECK(answer(mechanic, Right::repair, {}, hazard) ==
              (lp ? Refusal::no_endorsement : Refusal::none));
        CHECK(answer(gas_fitter, Right::repair, {}, hazard) == Refusal::none);
        CHECK(answer(mechanic, Right::place_lockout, {}, hazard) == Refusal::none);
    }
}
