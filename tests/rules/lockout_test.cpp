// The rules of a lockout, one sentence each. 1910.147 was read in a secondary copy.
#include "rules/lockout.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

constexpr std::int64_t kLockMinute = 60'000;

MachineClass scrubber() {
    MachineClass made;
    made.energies = {{"engine", {}, {}, {}, false, true, 0, false, {}},
                     {"weight", {}, {}, {}, true, false, 30, false, {}}};
    made.props = {{"left", {}, ""}, {"right", {}, ""}};
    return made;
}

// One lockout played by ann, who has the key; what is refused is not taken.
struct Play {
    Lockout state;
    std::string refused;

    explicit Play(LockoutJob job = LockoutJob::me, bool assessed = false)
        : state(opened({"SW-14", job, plan_of(scrubber(), job, assessed), "ann", 0})) {}

    bool take(LockoutEvent event) {
        const auto next = apply(state, event);
        refused = next.ok() ? "" : next.error().what;
        if (next.ok()) state = next.value();
        return next.ok();
    }
    bool take(LockoutDeed deed, const char* by = "ann", const char* item = "") {
        LockoutEvent event;
        event.deed = deed;
        event.by = by;
        event.item = item;
        event.items = {"tools", "guards", "people", "not-here", "tried-to-reach", "will-be-told"};
        event.seen = static_cast<int>(people_on(state).size());
        return take(event);
    }
    bool two(LockoutDeed deed, const char* by, const char* second, const char* owner = "") {
        LockoutEvent event;
        event.deed = deed;
        event.by = by;
        event.second = second;
        event.owner = owner;
        event.items = {"not-here", "tried-to-reach", "will-be-told"};
        return take(event);
    }
    Play& to_work() {
        take(LockoutDeed::shut_down);
        take(LockoutDeed::set_prop, "ann", "left");
        take(LockoutDeed::set_prop, "ann", "right");
        take(LockoutDeed::isolate, "ann", "engine");
        take(LockoutDeed::isolate, "ann", "weight");
        take(LockoutDeed::place_lock, "ann", "L-1");
        take(LockoutDeed::relieve, "ann", "weight");
        take(LockoutDeed::see_prop, "ben", "left");
        take(LockoutDeed::see_prop, "ben", "right");
        take(LockoutDeed::try_out);
        REQUIRE(state.step == LockoutStep::working);
        return *this;
    }
};

}  // namespace

TEST_CASE("a lockout in order is let go only when everything is off, out and down") {
    Play play;
    play.to_work();
    CHECK(holds_machine(play.state));
    CHECK(play.take(LockoutDeed::clear));
    CHECK_FALSE(play.take(LockoutDeed::lift_off));
    CHECK(play.take(LockoutDeed::remove_lock));
    // Locks off, then the lift-off, then the props.
    CHECK_FALSE(play.take(LockoutDeed::stow_prop, "ann", "left"));
    CHECK(play.take(LockoutDeed::lift_off));
    CHECK_FALSE(play.take(LockoutDeed::stow_prop, "ann", "left"));  // the engine still runs
    CHECK(play.take(LockoutDeed::stop_engine));
    CHECK(play.take(LockoutDeed::stow_prop, "ann", "left"));
    CHECK_FALSE(play.take(LockoutDeed::close));  // one prop is still out
    CHECK(play.take(LockoutDeed::stow_prop, "ann", "right"));
    CHECK(holds_machine(play.state));
    CHECK(play.take(LockoutDeed::close));
    CHECK_FALSE(holds_machine(play.state));
}

TEST_CASE("props go in before anything is isolated, and every one of them") {
    Play play;
    play.take(LockoutDeed::shut_down);
    CHECK(play.take(LockoutDeed::set_prop, "ann", "left"));
    CHECK_FALSE(play.take(LockoutDeed::isolate, "ann", "engine"));
    CHECK_FALSE(play.take(LockoutDeed::set_prop, "ann", "left"));
    CHECK(next_prop(play.state) == "right");
}

TEST_CASE("who set a prop is not the second pair of eyes, and what is not home is set again") {
    Play play;
    play.take(LockoutDeed::shut_down);
    for (const char* prop : {"left", "right"}) play.take(LockoutDeed::set_prop, "ann", prop);
    for (const char* id : {"engine", "weight"}) play.take(LockoutDeed::isolate, "ann", id);
    play.take(LockoutDeed::place_lock, "ann", "L-1");
    play.take(LockoutDeed::relieve, "ann", "weight");
    CHECK_FALSE(play.take(LockoutDeed::see_prop, "ann", "left"));
    CHECK(play.take(LockoutDeed::see_prop, "ben", "left"));
    CHECK_FALSE(play.take(LockoutDeed::try_out));  // the right one was not seen
    LockoutEvent bad;
    bad.deed = LockoutDeed::see_prop;
    bad.by = "ben";
    bad.item = "right";
    bad.fine = false;
    CHECK(play.take(bad));
    CHECK(play.state.step == LockoutStep::propping);
    CHECK(next_prop(play.state) == "right");
    CHECK(play.state.seen_by.empty());
    CHECK(play.state.locks.size() == 1);
}

TEST_CASE("a try that moves something sends back to isolating") {
    Play play;
    play.to_work();
    Play again;
    again.state = play.state;
    again.state.step = LockoutStep::trying;
    LockoutEvent bad;
    bad.deed = LockoutDeed::try_out;
    bad.by = "ann";
    bad.fine = false;
    CHECK(again.take(bad));
    CHECK(again.state.step == LockoutStep::isolating);
    CHECK(again.state.isolated.empty());
}

TEST_CASE("one person has one lock, one lock one person, and only its owner takes it off") {
    Play play;
    play.to_work();
    CHECK_FALSE(play.take(LockoutDeed::place_lock, "ann", "L-2"));
    CHECK_FALSE(play.take(LockoutDeed::place_lock, "ben", "L-1"));
    CHECK(play.take(LockoutDeed::place_lock, "ben", "L-2"));
    CHECK_FALSE(play.take(LockoutDeed::remove_lock, "cho"));
    CHECK_FALSE(play.take(LockoutDeed::remove_lock, "ann"));  // the key holder stays to the end
    play.take(LockoutDeed::clear);
    CHECK(play.take(LockoutDeed::remove_lock, "ann"));
    CHECK(play.state.step == LockoutStep::unlocking);  // ben is still on
    CHECK_FALSE(play.take(LockoutDeed::lift_off));
    CHECK(play.take(LockoutDeed::remove_lock, "ben"));
    CHECK(play.state.step == LockoutStep::lift_off);
}

TEST_CASE("a key is handed over only to somebody whose lock is on") {
    Play play;
    play.to_work();
    CHECK_FALSE(play.two(LockoutDeed::hand_over, "ann", "ben"));
    play.take(LockoutDeed::place_lock, "ben", "L-2");
    CHECK(play.two(LockoutDeed::hand_over, "ann", "ben"));
    CHECK(play.state.lead == "ben");
    CHECK(play.take(LockoutDeed::remove_lock, "ann"));
    CHECK(play.state.step == LockoutStep::working);
    CHECK_FALSE(play.take(LockoutDeed::clear, "ann"));
    CHECK(play.take(LockoutDeed::clear, "ben"));
}

TEST_CASE("two others take off the lock of somebody absent, and only with every statement") {
    Play play;
    play.to_work();
    CHECK_FALSE(play.two(LockoutDeed::remove_for_absent, "ben", "ben", "ann"));
    CHECK_FALSE(play.two(LockoutDeed::remove_for_absent, "ben", "ann", "ann"));
    CHECK_FALSE(play.two(LockoutDeed::remove_for_absent, "ben", "", "ann"));
    LockoutEvent half;
    half.deed = LockoutDeed::remove_for_absent;
    half.by = "ben";
    half.second = "cho";
    half.owner = "ann";
    half.items = {"not-here", "will-be-told"};
    CHECK_FALSE(play.take(half));
    CHECK(play.two(LockoutDeed::remove_for_absent, "ben", "cho", "ann"));
    CHECK(play.state.lead == "ben");
    CHECK(play.state.step == LockoutStep::locking);  // nobody works before ben's own lock is on
}

TEST_CASE("the time to look again runs from the try, and a missed one sends everybody out") {
    Play play;
    play.to_work();
    CHECK(due_ms(play.state) == 30 * kLockMinute);
    LockoutEvent event;
    event.deed = LockoutDeed::miss;
    event.at_ms = 30 * kLockMinute - 1;
    CHECK_FALSE(play.take(event));
    LockoutEvent look;
    look.deed = LockoutDeed::reverify;
    look.by = "ann";
    look.at_ms = 29 * kLockMinute;
    CHECK(play.take(look));
    CHECK(due_ms(play.state) == 59 * kLockMinute);
    look.at_ms = 59 * kLockMinute;  // too late
    CHECK_FALSE(play.take(look));
    event.at_ms = 59 * kLockMinute;
    CHECK(play.take(event));
    CHECK(play.state.step == LockoutStep::leaving);
    CHECK_FALSE(play.take(look));
    CHECK_FALSE(play.take(LockoutDeed::clear));
    LockoutEvent out;
    out.deed = LockoutDeed::leave_zone;
    out.by = "cho";
    CHECK_FALSE(play.take(out));
    CHECK(play.refused == "the people outside were not counted");
    out.seen = 0;
    CHECK_FALSE(play.take(out));
    CHECK(play.refused == "fewer people are outside than are on the list");
    out.seen = 1;
    CHECK(play.take(out));
    CHECK(play.state.step == LockoutStep::looking);
    CHECK(play.take(look));
    CHECK(play.state.step == LockoutStep::working);
    CHECK(due_ms(play.state) == 89 * kLockMinute);
}

TEST_CASE("where something moved the props are set and seen anew, with the locks still on") {
    Play play;
    play.to_work();
    LockoutEvent look;
    look.deed = LockoutDeed::reverify;
    look.by = "ann";
    look.fine = false;
    CHECK(play.take(look));
    CHECK(play.take(LockoutDeed::leave_zone, "ann"));
    CHECK(play.state.step == LockoutStep::propping);
    CHECK(play.state.seen_by.empty());
    CHECK(play.state.locks.size() == 1);
}

TEST_CASE("a test run is alone, ends with everything applied again, and not later than its time") {
    // 1910.147(f)(1), from memory.
    Play play;
    play.to_work();
    play.take(LockoutDeed::place_lock, "ben", "L-2");
    CHECK_FALSE(play.take(LockoutDeed::begin_test));
    play.take(LockoutDeed::remove_lock, "ben");
    CHECK(play.take(LockoutDeed::begin_test));
    CHECK(due_ms(play.state) == kTestRunMinutes * kLockMinute);
    CHECK_FALSE(play.take(LockoutDeed::clear));
    CHECK_FALSE(play.take(LockoutDeed::close));
    Play late;
    late.state = play.state;
    CHECK(play.take(LockoutDeed::end_test));
    CHECK(play.state.step == LockoutStep::isolating);
    LockoutEvent miss;
    miss.deed = LockoutDeed::miss;
    miss.at_ms = kTestRunMinutes * kLockMinute - 1;
    CHECK_FALSE(late.take(miss));
    miss.at_ms += 1;
    CHECK(late.take(miss));
    CHECK(late.take(LockoutDeed::leave_zone, "ben"));
    CHECK(late.state.step == LockoutStep::isolating);
}

TEST_CASE("a procedure is reviewed where nobody used it for more than a year, or ever") {
    CHECK(is_review_due(std::nullopt, {2026, 11, 25}));
    CHECK_FALSE(is_review_due(Date{2025, 11, 25}, {2026, 11, 25}));
    CHECK(is_review_due(Date{2025, 11, 24}, {2026, 11, 25}));
}

TEST_CASE("a clock set back before the last look is a look that was missed") {
    Lockout state;
    state.step = LockoutStep::working;
    state.plan.reverify_minutes = 30;
    state.verified_ms = 100 * kLockMinute;
    CHECK_FALSE(is_look_missed(state, 100 * kLockMinute));
    CHECK_FALSE(is_look_missed(state, 130 * kLockMinute - 1));
    CHECK(is_look_missed(state, 130 * kLockMinute));
    CHECK(is_look_missed(state, 100 * kLockMinute - 1));
    state.plan.reverify_minutes = 0;
    CHECK_FALSE(is_look_missed(state, 0));
}

TEST_CASE("the rinse asks what goes in: nothing is done alone, an arm by two or as assessed") {
    const LockoutPlan nothing = plan_of(scrubber(), LockoutJob::nothing, false);
    CHECK(nothing.props.size() == 2);
    CHECK_FALSE(nothing.second);
    CHECK_FALSE(nothing.locks);
    CHECK(nothing.sources.empty());
    const LockoutPlan arm = plan_of(scrubber(), LockoutJob::arm, false);
    CHECK(arm.second);
    CHECK(arm.sources == std::vector<std::string>{"engine"});
    CHECK(arm.reverify_minutes == 30);
    CHECK_FALSE(plan_of(scrubber(), LockoutJob::arm, true).second);
    const LockoutPlan me = plan_of(scrubber(), LockoutJob::me, true);
    CHECK(me.second);  // no assessment lets one person in
    CHECK(me.locks);
    CHECK(me.sources.size() == 2);
}

TEST_CASE("turning back before the work takes the same way out") {
    Play play;
    play.take(LockoutDeed::shut_down);
    play.take(LockoutDeed::set_prop, "ann", "left");
    CHECK(play.take(LockoutDeed::clear));
    CHECK(play.state.step == LockoutStep::lift_off);
    Play early;
    CHECK(early.take(LockoutDeed::clear));
    CHECK(early.state.step == LockoutStep::closing);
    CHECK(holds_machine(early.state));
}

TEST_CASE("the people seen outside are held against who is on, fewer keep everything as it is") {
    Play play;
    play.to_work();
    play.take(LockoutDeed::place_lock, "ben", "L-2");
    CHECK(people_on(play.state) == std::set<std::string>{"ann", "ben"});
    LockoutEvent clear;
    clear.deed = LockoutDeed::clear;
    clear.by = "ann";
    clear.items = {"tools", "guards", "people"};
    CHECK_FALSE(play.take(clear));  // a tick is no number
    CHECK(play.refused == "the people outside were not counted");
    clear.seen = 1;
    CHECK_FALSE(play.take(clear));
    CHECK(play.state.step == LockoutStep::working);
    clear.seen = 3;  // somebody was in without a lock: no reason to keep the others in
    CHECK(play.take(clear));
    Play alone;
    alone.to_work();
    LockoutEvent test = clear;
    test.deed = LockoutDeed::begin_test;
    test.seen = 0;
    CHECK_FALSE(alone.take(test));
    test.seen = 1;
    CHECK(alone.take(test));
}

TEST_CASE("a source that takes a tag only needs one more measure before anybody locks") {
    // 1910.147(c)(3) and WAC 296-803-50005: a bare tag is no equal of a lock.
    MachineClass truck = scrubber();
    truck.energies[0].tag_only = true;
    Play play;
    play.state = opened({"LT-21", LockoutJob::me, plan_of(truck, LockoutJob::me, false), "ann", 0});
    CHECK(plan_of(truck, LockoutJob::arm, false).tags.empty());
    play.take(LockoutDeed::shut_down);
    for (const char* prop : {"left", "right"}) play.take(LockoutDeed::set_prop, "ann", prop);
    CHECK_FALSE(play.take(LockoutDeed::take_measure, "ann", "engine"));  // it is not isolated yet
    for (const char* id : {"engine", "weight"}) play.take(LockoutDeed::isolate, "ann", id);
    CHECK(play.state.step == LockoutStep::tagging);
    CHECK_FALSE(play.take(LockoutDeed::place_lock, "ann", "L-1"));
    CHECK_FALSE(play.take(LockoutDeed::take_measure, "ann", "weight"));
    CHECK_FALSE(play.take(LockoutDeed::take_measure, "ben", "engine"));
    CHECK(play.take(LockoutDeed::take_measure, "ann", "engine"));
    CHECK(play.state.step == LockoutStep::locking);
}

TEST_CASE("a procedure that is due for a review is read before the machine is shut down") {
    LockoutPlan plan = plan_of(scrubber(), LockoutJob::me, false);
    plan.review = true;
    Play play;
    play.state = opened({"SW-14", LockoutJob::me, plan, "ann", 0});
    CHECK(holds_machine(play.state));
    CHECK_FALSE(play.take(LockoutDeed::shut_down));
    CHECK_FALSE(play.take(LockoutDeed::review, "ben"));
    CHECK(play.take(LockoutDeed::review));
    CHECK_FALSE(play.take(LockoutDeed::review));
    CHECK(play.take(LockoutDeed::shut_down));
}

// 29 CFR 1910.147(f)(2)(i) and (ii), from memory: each employer informs the other of their
// procedures, and the host's people comply with the restrictions of the other's.
TEST_CASE("a visitor does nothing in a lockout before site and visitor told their procedures") {
    Play play;
    LockoutEvent lock;
    lock.deed = LockoutDeed::place_lock;
    lock.by = "cho";
    lock.item = "V-1";
    lock.visitors = {"cho"};
    play.to_work();
    CHECK_FALSE(play.take(lock));
    CHECK(play.refused == "site and visitor have not told each other their procedures");
    LockoutEvent over;
    over.deed = LockoutDeed::hand_over;
    over.by = "ann";
    over.second = "cho";
    over.visitors = {"cho"};
    CHECK_FALSE(play.take(over));

    LockoutEvent tell;
    tell.deed = LockoutDeed::tell;
    tell.by = "cho";
    tell.visitors = {"cho"};
    tell.items = {"site", "visitor", "restrictions"};
    CHECK_FALSE(play.take(tell));  // alone
    tell.second = "cho";
    CHECK_FALSE(play.take(tell));  // with themself
    tell.second = "dee";
    tell.visitors = {"cho", "dee"};
    CHECK_FALSE(play.take(tell));  // with another visitor
    tell.second = "ann";
    tell.visitors = {"cho"};
    for (const std::string_view item : kTellItems) {
        LockoutEvent part = tell;
        std::erase(part.items, std::string(item));
        CHECK_FALSE(play.take(part));
    }
    CHECK(play.take(tell));
    CHECK(play.state.step == LockoutStep::working);
    CHECK_FALSE(play.take(tell));  // once
    CHECK(play.take(lock));
}

TEST_CASE("a visitor who opened a lockout tells and is told before it is shut down") {
    Play play;
    LockoutEvent shut;
    shut.deed = LockoutDeed::shut_down;
    shut.by = "ann";
    shut.visitors = {"ann"};
    CHECK(holds_machine(play.state));
    CHECK_FALSE(play.take(shut));
    LockoutEvent tell = shut;
    tell.deed = LockoutDeed::tell;
    tell.second = "ben";
    tell.items = {"site", "visitor", "restrictions"};
    CHECK(play.take(tell));
    CHECK(play.take(shut));
}

TEST_CASE("the people of the site have nothing to tell, and a visitor may see everybody out") {
    Play play;
    LockoutEvent tell;
    tell.deed = LockoutDeed::tell;
    tell.by = "ann";
    tell.second = "ben";
    tell.items = {"site", "visitor", "restrictions"};
    CHECK_FALSE(play.take(tell));
    play.to_work();
    LockoutEvent miss;
    miss.deed = LockoutDeed::miss;
    miss.at_ms = 1000 * kLockMinute;
    REQUIRE(play.take(miss));
    LockoutEvent out;
    out.deed = LockoutDeed::leave_zone;
    out.by = "cho";
    out.visitors = {"cho"};
    out.seen = 1;
    CHECK(play.take(out));
}
