// The round before use as the release sees it (1910.178(q)(7), quoted in an OSHA interpretation of
// 3 March 2005: examined before use, and after each shift where work goes on round the clock).
#include <doctest/doctest.h>

#include "all_clear.hpp"

using namespace holdpin;
using namespace holdpin::sample;

namespace {

std::string holds_in_words(const Snapshot& s) { return words(refused(decide_release(s))); }

// A machine that was walked in full, released and brought back in this shift.
MachineState handed_on() {
    MachineState machine = all_clear().machine;
    machine.round->signed_ms = kNow + kHour;
    machine.round->used = true;
    return machine;
}

}  // namespace

TEST_CASE("a round is stale after the minutes of the policy, counted to the millisecond") {
    Snapshot s = all_clear();
    s.machine.round->signed_ms = s.now_ms - s.policy.round_stale_minutes * kMinute;
    CHECK(holds_in_words(s).empty());
    s.machine.round->signed_ms -= 1;
    CHECK(holds_in_words(s) == "round-stale");
    s.policy.round_stale_minutes = 60;
    CHECK(holds_in_words(s).empty());
}

TEST_CASE("a round that a release has followed does not grow stale within its shift") {
    Snapshot s = all_clear();
    s.machine.round->signed_ms = s.now_ms - 5 * kHour;
    s.machine.round->used = true;
    CHECK(holds_in_words(s).empty());
}

TEST_CASE("a round ends with its shift, used or not") {
    for (const bool used : {false, true}) {
        Snapshot s = all_clear();
        s.machine.round->used = used;
        s.machine.round->shift_end_ms = s.now_ms + 1;
        CHECK(holds_in_words(s).empty());
        s.machine.round->shift_end_ms = s.now_ms;
        CHECK(holds_in_words(s) == "round-missing");
    }
}

TEST_CASE("a round that was voided counts as none") {
    Snapshot s = all_clear();
    s.machine.round->voided = true;
    CHECK(holds_in_words(s) == "round-missing");
    s.machine.round_running = true;
    CHECK(holds_in_words(s) == "round-incomplete");
}

TEST_CASE("a round of somebody else names who walked it") {
    Snapshot s = all_clear();
    s.machine.round->person = "ben";
    const auto holds = holds_of(s);
    REQUIRE(holds.size() == 1);
    CHECK(holds[0].code == HoldCode::round_other_person);
    CHECK(holds[0].person == "ben");
    CHECK(holds[0].entry == 90);
}

TEST_CASE("a round that was shown from other content does not count") {
    Snapshot s = all_clear();
    s.round_digest = "digest-newer";
    CHECK(holds_in_words(s) == "round-other-content");
}

TEST_CASE("a machine that stood idle for nine days is due for a round and nothing else") {
    Snapshot s = all_clear();
    s.now_ms += 9 * 24 * kHour;
    s.today = add_days(s.today, 9);
    CHECK(holds_in_words(s) == "round-missing");
}

TEST_CASE("a stop finding holds until it is returned to service, repaired and re-checked or not") {
    // Re-check before the return: site rule.
    for (const int done : {0, 1, 2}) {
        Snapshot s = all_clear();
        s.machine.findings.push_back(finding(31, Outcome::stop, Hazard::brake));
        s.machine.findings[0].repaired = done > 0 ? 40 : 0;
        s.machine.findings[0].rechecked = done > 1 ? 41 : 0;
        CHECK(holds_in_words(s) == "stop-finding");
        s.machine.findings[0].allowed = true;
        s.machine.findings[0].allowed_until_ms = kShiftEnd;
        CHECK(holds_in_words(s) == "stop-finding");
    }
}

TEST_CASE("every finding that holds is named with its entry") {
    Snapshot s = all_clear();
    s.machine.findings = {finding(31, Outcome::stop), finding(32, Outcome::note),
                          finding(33, Outcome::limit), finding(34, Outcome::stop)};
    const auto holds = holds_of(s);
    REQUIRE(holds.size() == 3);
    CHECK(holds[0].entry == 31);
    CHECK(holds[1].entry == 33);
    CHECK(holds[2].entry == 34);
    CHECK(holds[0].person == "ben");
}

TEST_CASE("a note holds nothing") {
    Snapshot s = all_clear();
    s.machine.findings.push_back(finding(31, Outcome::note));
    const Decision decision = decide_release(s);
    REQUIRE(std::holds_alternative<Release>(decision));
    CHECK(std::get<Release>(decision).limits.empty());
}

TEST_CASE("a limit that a supervisor allowed is released with it, until the earliest end") {
    Snapshot s = all_clear();
    s.machine.findings = {finding(31, Outcome::limit), finding(32, Outcome::limit)};
    for (OpenFinding& one : s.machine.findings) one.allowed = true;
    s.machine.findings[0].allowed_until_ms = kNow + 3 * kHour;
    s.machine.findings[1].allowed_until_ms = kNow + 2 * kHour;
    const Decision decision = decide_release(s);
    REQUIRE(std::holds_alternative<Release>(decision));
    CHECK(std::get<Release>(decision).limits == std::vector<std::int64_t>{31, 32});
    CHECK(std::get<Release>(decision).until_ms == kNow + 2 * kHour);

    s.machine.findings[1].allowed_until_ms = kShiftEnd + kHour;
    s.machine.findings[0].allowed_until_ms = kShiftEnd + 2 * kHour;
    CHECK(std::get<Release>(decide_release(s)).until_ms == kShiftEnd);
}

TEST_CASE("a limit holds again at the end of what was allowed, and a limit nobody decided holds") {
    Snapshot s = all_clear();
    s.machine.findings.push_back(finding(31, Outcome::limit));
    CHECK(holds_in_words(s) == "limit-undecided");
    s.machine.findings[0].allowed = true;
    s.machine.findings[0].allowed_until_ms = kNow + 1;
    CHECK(holds_in_words(s).empty());
    s.machine.findings[0].allowed_until_ms = kNow;
    CHECK(holds_in_words(s) == "limit-undecided");
    s.machine.findings[0].allowed = false;
    s.machine.findings[0].allowed_until_ms = kShiftEnd;
    CHECK(holds_in_words(s) == "limit-undecided");
}

TEST_CASE("a takeover is enough after a full round that was used in this shift") {
    const auto shift = all_clear().shift;
    CHECK(takeover_enough(handed_on(), "digest-now", shift));

    // A shift's end names the shift: a round for it may be signed a little before it starts.
    MachineState early = handed_on();
    early.round->signed_ms = shift->start_ms - 1;
    CHECK(takeover_enough(early, "digest-now", shift));
}

TEST_CASE(
    "a finding older than the round was seen by it, and a newer one asks for the full round") {
    const auto shift = all_clear().shift;
    for (const Outcome outcome : {Outcome::note, Outcome::limit, Outcome::stop}) {
        MachineState machine = handed_on();
        machine.findings = {finding(machine.round->entry - 1, outcome)};
        CHECK(takeover_enough(machine, "digest-now", shift));
        machine.findings.push_back(finding(machine.round->entry + 1, outcome));
        CHECK_FALSE(takeover_enough(machine, "digest-now", shift));
    }
}

TEST_CASE("whatever is missing for a takeover asks for the full round") {
    const auto shift = all_clear().shift;
    const auto enough = [&](void (*change)(MachineState&)) {
        MachineState machine = handed_on();
        change(machine);
        return takeover_enough(machine, "digest-now", shift);
    };
    CHECK_FALSE(enough([](MachineState& m) { m.round.reset(); }));
    CHECK_FALSE(enough([](MachineState& m) { m.round->used = false; }));
    CHECK_FALSE(enough([](MachineState& m) { m.round->voided = true; }));
    CHECK_FALSE(enough([](MachineState& m) { m.round->shift_end_ms -= kHour; }));
    CHECK_FALSE(enough([](MachineState& m) { m.round->digest = "old"; }));
    CHECK_FALSE(enough([](MachineState& m) { m.out = ReleaseOut(); }));
    CHECK_FALSE(takeover_enough(handed_on(), "digest-newer", shift));
    CHECK_FALSE(takeover_enough(handed_on(), "digest-now", std::nullopt));
}
