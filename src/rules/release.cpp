#include "rules/release.hpp"

#include <algorithm>

#include "rules/overrides.hpp"

namespace holdpin {
namespace {

using Holds = std::vector<Hold>;

bool contains(const std::vector<std::string>& list, const std::string& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

void add(Holds& holds, HoldCode code) {
    Hold hold;
    hold.code = code;
    holds.push_back(hold);
}

HoldCode code_of(TopicGap gap) {
    switch (gap) {
        case TopicGap::not_practised:
            return HoldCode::topic_not_practised;
        case TopicGap::not_evaluated:
            return HoldCode::topic_not_evaluated;
        case TopicGap::lapsed:
            return HoldCode::topic_lapsed;
        case TopicGap::refresher_open:
            return HoldCode::refresher_open;
        case TopicGap::not_instructed:
        case TopicGap::none:
            break;
    }
    return HoldCode::topic_not_instructed;
}

// One hold per kind of gap, naming all topics that have it.
void add_topic_holds(const Snapshot& s, Holds& holds) {
    for (const Topic& topic : s.machine_class->topics) {
        const TopicGap gap = topic_gap(topic, s.topics, s.today);
        if (gap == TopicGap::none) continue;
        const HoldCode code = code_of(gap);
        auto at = std::find_if(holds.begin(), holds.end(),
                               [&](const Hold& hold) { return hold.code == code; });
        if (at == holds.end()) {
            add(holds, code);
            at = holds.end() - 1;
        }
        at->topics.push_back(topic.id);
        if (gap == TopicGap::lapsed) {
            const Date until = valid_until(topic, *s.topics.at(topic.id).evaluated);
            if (!at->date || until < *at->date) at->date = until;
        }
    }
}

void add_authorisation_holds(const Snapshot& s, Holds& holds) {
    if (!s.authorisation) {
        add(holds, HoldCode::no_authorisation);
        return;
    }
    const Authorisation& given = *s.authorisation;
    Hold hold;
    hold.code = HoldCode::condition_not_met;
    hold.entry = given.entry;
    if (!given.rooms.empty() && !contains(given.rooms, s.room)) {
        hold.detail = "room";
    } else if (!given.shifts.empty() && !(s.shift && contains(given.shifts, s.shift->id))) {
        hold.detail = "shift";
    }
    if (!hold.detail.empty()) holds.push_back(hold);
}

void add_person_holds(const Snapshot& s, Holds& holds) {
    if (s.person == nullptr) {
        add(holds, HoldCode::not_enrolled);
        return;
    }
    if (!s.pack->grants(s.person->duties, Right::operate)) add(holds, HoldCode::no_duty);
    if (s.machine_class == nullptr) return;
    add_topic_holds(s, holds);
    add_authorisation_holds(s, holds);
}

void add_round_holds(const Snapshot& s, Holds& holds) {
    const auto& round = s.machine.round;
    Hold hold;
    if (!round || round->voided || s.now_ms >= round->shift_end_ms) {
        hold.code = s.machine.round_running ? HoldCode::round_incomplete : HoldCode::round_missing;
    } else if (s.person == nullptr || round->person != s.person->id) {
        hold.code = HoldCode::round_other_person;
        hold.person = round->person;
    } else if (round->digest != s.round_digest) {
        hold.code = HoldCode::round_other_content;
    } else if (!round->used &&
               s.now_ms - round->signed_ms > s.policy.round_stale_minutes * 60'000LL) {
        hold.code = HoldCode::round_stale;
        hold.number = s.policy.round_stale_minutes;
    } else {
        return;
    }
    if (round) hold.entry = round->entry;
    holds.push_back(hold);
}

void add_finding_holds(const Snapshot& s, Holds& holds) {
    for (const OpenFinding& finding : s.machine.findings) {
        Hold hold;
        if (finding.outcome == Outcome::stop) {
            hold.code = HoldCode::stop_finding;
        } else if (finding.outcome == Outcome::limit &&
                   !(finding.allowed && s.now_ms < finding.allowed_until_ms)) {
            hold.code = HoldCode::limit_undecided;
        } else {
            continue;
        }
        hold.entry = finding.entry;
        hold.at_ms = finding.at_ms;
        hold.person = finding.by;
        holds.push_back(hold);
    }
}

void add_service_holds(const Snapshot& s, Holds& holds) {
    const MachineState& machine = s.machine;
    const std::int64_t due = machine.service_done_tenths + machine.service_every_tenths;
    if (machine.service_every_tenths > 0 && machine.hours_tenths >= due) {
        Hold hold;
        hold.code = HoldCode::service_overdue;
        hold.number = machine.hours_tenths;
        hold.limit = due;
        holds.push_back(hold);
    }
    if (machine.inspection_due && s.today > *machine.inspection_due) {
        Hold hold;
        hold.code = HoldCode::inspection_overdue;
        hold.date = machine.inspection_due;
        holds.push_back(hold);
    }
}

void add_site_holds(const Snapshot& s, Holds& holds) {
    if (s.machine_class == nullptr) add(holds, HoldCode::machine_unknown);
    if (s.machine.out) {
        Hold hold;
        const bool over = s.now_ms >= s.machine.out->until_ms;
        hold.code = over ? HoldCode::not_returned : HoldCode::already_released;
        hold.person = s.machine.out->person;
        hold.at_ms = s.machine.out->until_ms;
        hold.entry = s.machine.out->entry;
        holds.push_back(hold);
    }
    if (!s.clock_ok) add(holds, HoldCode::clock_doubtful);
    if (!s.content_ok) add(holds, HoldCode::content_changed);
    if (!s.ledger_ok) add(holds, HoldCode::ledger_doubtful);
    if (!s.disk_ok) add(holds, HoldCode::disk_low);
}

Hold room_hold(const Snapshot& s, HoldCode code, std::int64_t at_ms, double level_ppm) {
    Hold hold;
    hold.code = code;
    hold.detail = s.room;
    hold.number = s.engines;
    hold.limit = static_cast<std::int64_t>(level_ppm);
    hold.at_ms = at_ms;
    return hold;
}

void add_air_holds(const Snapshot& s, Holds& holds) {
    if (s.machine_class == nullptr || !s.machine_class->has_engine) return;
    if (s.room_closed) holds.push_back(room_hold(s, HoldCode::room_closed, 0, 0));
    if (s.air && s.air->minutes_to_level && *s.air->minutes_to_level < s.air_least_minutes) {
        const std::int64_t at_ms = s.now_ms + *s.air->minutes_to_level * 60'000LL;
        holds.push_back(room_hold(s, HoldCode::room_air, at_ms, s.air->level_ppm));
    }
    if (s.alarm_ppm >= 0) {
        Hold hold = room_hold(s, HoldCode::air_alarm, s.alarm_ms, s.alarm_ppm);
        if (!s.alarm_room.empty()) hold.detail = s.alarm_room;
        holds.push_back(hold);
    }
}

void add_work_holds(const Snapshot& s, Holds& holds) {
    if (s.machine.hopper_up) add(holds, HoldCode::hopper_up);
    if (!s.machine.work) return;
    Hold hold;
    hold.code = HoldCode::work_running;
    hold.person = s.machine.work->by;
    hold.detail = s.machine.work->work;
    hold.at_ms = s.machine.work->opened_ms;
    hold.entry = s.machine.work->entry;
    holds.push_back(hold);
}

void add_machine_holds(const Snapshot& s, Holds& holds) {
    add_finding_holds(s, holds);
    add_air_holds(s, holds);
    add_service_holds(s, holds);
    add_work_holds(s, holds);
    if (!s.machine.locked_by.empty()) {
        Hold hold;
        hold.code = HoldCode::lockout_on;
        hold.person = s.machine.locked_by;
        hold.entry = s.machine.locked_entry;
        holds.push_back(hold);
    }
    add_site_holds(s, holds);
}

// A record of an override that there can never be takes nothing away.
Holds without_overridden(const Snapshot& s, Holds holds) {
    std::erase_if(holds, [&](const Hold& hold) {
        return can_ever_override(hold.code) &&
               std::any_of(
                   s.machine.overrides.begin(), s.machine.overrides.end(),
                   [&](const Override& o) { return o.code == hold.code && s.now_ms < o.until_ms; });
    });
    return holds;
}

}  // namespace

Holds holds_of(const Snapshot& snapshot) {
    Holds holds;
    add_person_holds(snapshot, holds);
    add_round_holds(snapshot, holds);
    add_machine_holds(snapshot, holds);
    return holds;
}

Holds standing_holds(const Snapshot& snapshot) {
    return without_overridden(snapshot, holds_of(snapshot));
}

Holds machine_holds(const Snapshot& snapshot) {
    Holds holds;
    add_machine_holds(snapshot, holds);
    return without_overridden(snapshot, holds);
}

Decision decide_release(const Snapshot& s) {
    Holds holds = standing_holds(s);
    if (!is_free(set_of(holds))) return holds;
    Release release;
    release.person = s.person->id;
    release.machine = s.machine.plate;
    release.room = s.room;
    release.from_ms = s.now_ms;
    release.until_ms = s.machine.round->shift_end_ms;
    release.round_entry = s.machine.round->entry;
    for (const OpenFinding& finding : s.machine.findings) {
        if (finding.outcome != Outcome::limit) continue;
        release.limits.push_back(finding.entry);
        release.until_ms = std::min(release.until_ms, finding.allowed_until_ms);
    }
    const HoldSet all = set_of(holds_of(s));
    for (const Override& one : s.machine.overrides) {
        if (s.now_ms < one.until_ms && all.test(index_of(one.code))) {
            release.until_ms = std::min(release.until_ms, one.until_ms);
        }
    }
    if (s.air && s.air->minutes_to_level) {
        release.air_until_ms = s.now_ms + *s.air->minutes_to_level * 60'000LL;
        release.until_ms = std::min(release.until_ms, release.air_until_ms);
    }
    release.rooms = s.authorisation->rooms;
    release.shifts = s.authorisation->shifts;
    return release;
}

bool takeover_enough(const MachineState& machine, const std::string& round_digest,
                     const std::optional<ShiftWindow>& shift) {
    const auto& round = machine.round;
    const auto is_new = [&](const OpenFinding& finding) { return finding.entry > round->entry; };
    return shift && round && round->shift_end_ms == shift->end_ms &&
           round->digest == round_digest && round->used && !round->voided && !machine.out &&
           std::none_of(machine.findings.begin(), machine.findings.end(), is_new);
}

}  // namespace holdpin
