#include "break_it.hpp"

#include <initializer_list>

#include "all_clear.hpp"

namespace holdpin::sample {
namespace {

using enum HoldCode;

constexpr std::initializer_list<HoldCode> kOfTopics{
    topic_not_instructed, topic_not_practised, topic_not_evaluated, topic_lapsed, refresher_open};

void drop(HoldSet& set, std::initializer_list<HoldCode> codes) {
    for (const HoldCode code : codes) set.reset(index_of(code));
}

bool has(const HoldSet& set, HoldCode code) { return set[index_of(code)]; }

// Of codes that exclude each other, the first named stands.
void keep_first(HoldSet& set, std::initializer_list<HoldCode> codes) {
    bool found = false;
    for (const HoldCode code : codes) {
        if (found) set.reset(index_of(code));
        found = found || has(set, code);
    }
}

constexpr std::array<BreakIt, kHoldCount> kBreakIt{
    /* not_enrolled         */ [](Snapshot& s) { s.person = nullptr; },
    /* no_duty              */
    [](Snapshot& s) {
        if (s.person) s.person = &ana_without_duty();
    },
    /* topic_not_instructed */ [](Snapshot& s) { s.topics.erase("controls"); },
    /* topic_not_practised  */ [](Snapshot& s) { s.topics["fuel"].practised.reset(); },
    /* topic_not_evaluated  */ [](Snapshot& s) { s.topics["brakes"].evaluated.reset(); },
    /* topic_lapsed         */
    [](Snapshot& s) {
        s.topics["ramps"].evaluated = Date{2020, 1, 1};
    },
    /* no_authorisation     */ [](Snapshot& s) { s.authorisation.reset(); },
    /* condition_not_met    */
    [](Snapshot& s) {
        if (s.authorisation) s.authorisation->rooms = {"elsewhere"};
    },
    /* refresher_open       */ [](Snapshot& s) { s.topics["air"].refresher_open = true; },
    /* round_missing        */ [](Snapshot& s) { s.machine.round.reset(); },
    /* round_incomplete     */
    [](Snapshot& s) {
        s.machine.round.reset();
        s.machine.round_running = true;
    },
    /* round_stale          */
    [](Snapshot& s) {
        if (s.machine.round) {
            s.machine.round->signed_ms = s.now_ms - s.policy.round_stale_minutes * kMinute - 1;
        }
    },
    /* round_other_person   */
    [](Snapshot& s) {
        if (s.machine.round) s.machine.round->person = "ben";
    },
    /* round_other_content  */
    [](Snapshot& s) {
        if (s.machine.round) s.machine.round->digest = "old";
    },
    /* stop_finding         */
    [](Snapshot& s) { s.machine.findings.push_back(finding(31, Outcome::stop)); },
    /* limit_undecided      */
    [](Snapshot& s) { s.machine.findings.push_back(finding(32, Outcome::limit)); },
    /* room_closed          */ [](Snapshot& s) { s.room_closed = true; },
    /* room_air             */
    [](Snapshot& s) {
        s.air = AirForecast{};
        s.air->minutes_to_level = s.air_least_minutes - 1;
    },
    /* air_alarm            */ [](Snapshot& s) { s.alarm_ppm = 210; },
    /* service_overdue      */ [](Snapshot& s) { s.machine.hours_tenths = 12'500; },
    /* inspection_overdue   */
    [](Snapshot& s) { s.machine.inspection_due = add_days(s.today, -1); },
    /* lockout_on           */ [](Snapshot& s) { s.machine.locked_by = "ben"; },
    /* machine_unknown      */ [](Snapshot& s) { s.machine_class = nullptr; },
    /* already_released     */
    [](Snapshot& s) {
        s.machine.out = ReleaseOut{80, "ben", kNow - kHour, kNow + kHour, "hall"};
    },
    /* not_returned         */
    [](Snapshot& s) {
        s.machine.out = ReleaseOut{81, "ben", kNow - kHour, kNow, "hall"};
    },
    /* clock_doubtful       */ [](Snapshot& s) { s.clock_ok = false; },
    /* ledger_doubtful      */ [](Snapshot& s) { s.ledger_ok = false; },
    /* disk_low             */ [](Snapshot& s) { s.disk_ok = false; },
    /* work_running         */
    [](Snapshot& s) { s.machine.work = RunningWork{90, "lp-exchange", "ben", kNow - kHour}; },
    /* content_changed      */ [](Snapshot& s) { s.content_ok = false; },
    /* hopper_up            */ [](Snapshot& s) { s.machine.hopper_up = true; },
};

}  // namespace

const std::array<BreakIt, kHoldCount>& break_it() { return kBreakIt; }

Snapshot broken(const HoldSet& codes) {
    Snapshot s = all_clear();
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        if (codes[i]) kBreakIt[i](s);
    }
    return s;
}

HoldSet standing_of(HoldSet codes) {
    const bool no_round = has(codes, round_missing) || has(codes, round_incomplete);
    if (has(codes, not_enrolled)) {
        // Of a stranger nothing else is known, and a round that is there is not the stranger's.
        drop(codes, kOfTopics);
        drop(codes, {no_duty, no_authorisation, condition_not_met});
        if (!no_round) codes.set(index_of(round_other_person));
    }
    if (has(codes, machine_unknown)) {
        // Without a class there are no topics to be trained in and no engine to keep out of a room.
        drop(codes, kOfTopics);
        drop(codes, {no_authorisation, condition_not_met, room_closed, room_air, air_alarm});
    }
    keep_first(codes, {no_authorisation, condition_not_met});
    keep_first(codes, {round_incomplete, round_missing, round_other_person, round_other_content,
                       round_stale});
    keep_first(codes, {not_returned, already_released});
    return codes;
}

}  // namespace holdpin::sample
