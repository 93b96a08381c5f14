#include "table_words.hpp"

namespace holdpin {

// As the comment at the top of the header writes them. A missing value is a warning, thus an error.

std::string word(GuideState state) {
    switch (state) {
        case GuideState::reading:
            return "reading";
        case GuideState::asking:
            return "asking";
        case GuideState::told:
            return "told";
        case GuideState::passed:
            return "passed";
        case GuideState::failed:
            return "failed";
        case GuideState::waiting:
            return "waiting";
        case GuideState::done:
            return "done";
    }
    return "?";
}

std::string word(GuideEvent event) {
    switch (event) {
        case GuideEvent::next:
            return "next";
        case GuideEvent::answer:
            return "answer";
        case GuideEvent::sign:
            return "sign";
        case GuideEvent::again:
            return "again";
    }
    return "?";
}

std::string word(GuideGuard guard) {
    switch (guard) {
        case GuideGuard::always:
            return "-";
        case GuideGuard::more:
            return "more";
        case GuideGuard::too_soon:
            return "too soon";
        case GuideGuard::last:
            return "last";
        case GuideGuard::passed:
            return "passed";
        case GuideGuard::failed:
            return "failed";
    }
    return "?";
}

std::string word(RoundState state) {
    switch (state) {
        case RoundState::asking:
            return "asking";
        case RoundState::waiting:
            return "waiting";
        case RoundState::reviewing:
            return "reviewing";
        case RoundState::done:
            return "done";
    }
    return "?";
}

std::string word(RoundEvent event) {
    switch (event) {
        case RoundEvent::read:
            return "read";
        case RoundEvent::next:
            return "next";
        case RoundEvent::withdraw:
            return "withdraw";
        case RoundEvent::sign:
            return "sign";
    }
    return "?";
}

std::string word(RoundGuard guard) {
    switch (guard) {
        case RoundGuard::always:
            return "-";
        case RoundGuard::fine_more:
            return "fine, more";
        case RoundGuard::fine_last:
            return "fine, last";
        case RoundGuard::finding:
            return "finding";
        case RoundGuard::more:
            return "more";
        case RoundGuard::last:
            return "last";
    }
    return "?";
}

std::string word(FindingStage stage) {
    switch (stage) {
        case FindingStage::open:
            return "open";
        case FindingStage::repaired:
            return "repaired";
        case FindingStage::rechecked:
            return "rechecked";
        case FindingStage::closed:
            return "closed";
    }
    return "?";
}

std::string word(FindingEvent event) {
    switch (event) {
        case FindingEvent::repair:
            return "repair";
        case FindingEvent::recheck_fine:
            return "recheck";  // the guard tells the two apart
        case FindingEvent::recheck_bad:
            return "recheck";
        case FindingEvent::allow:
            return "allow";
        case FindingEvent::give_back:
            return "return";
    }
    return "?";
}

std::string word(FindingGuard guard) {
    switch (guard) {
        case FindingGuard::always:
            return "-";
        case FindingGuard::limit_only:
            return "limit";
        case FindingGuard::note_only:
            return "note";
    }
    return "?";
}

std::string word(AlarmState state) {
    switch (state) {
        case AlarmState::leaving:
            return "leaving";
        case AlarmState::counting:
            return "counting";
        case AlarmState::missing:
            return "missing";
        case AlarmState::airing:
            return "airing";
        case AlarmState::entering:
            return "entering";
        case AlarmState::lifted:
            return "lifted";
    }
    return "?";
}

std::string word(WorkState value) {
    switch (value) {
        case WorkState::closed: return "closed";
        case WorkState::asking: return "asking";
        case WorkState::over: return "over";
    }
    return "?";
}

std::string word(AlarmEvent event) {
    switch (event) {
        case AlarmEvent::next:
            return "next";
        case AlarmEvent::tick:
            return "tick";
        case AlarmEvent::counted:
            return "counted";
        case AlarmEvent::door:
            return "door";
        case AlarmEvent::engine:
            return "engine";
        case AlarmEvent::enter:
            return "enter";
        case AlarmEvent::withdraw:
            return "withdraw";
        case AlarmEvent::read:
            return "read";
    }
    return "?";
}

std::string word(WorkEvent value) {
    switch (value) {
        case WorkEvent::open: return "open";
        case WorkEvent::reply: return "reply";
        case WorkEvent::drop: return "drop";
        case WorkEvent::again: return "again";
    }
    return "?";
}

std::string word(AlarmGuard guard) {
    switch (guard) {
        case AlarmGuard::always:
            return "-";
        case AlarmGuard::all_seen:
            return "all seen";
        case AlarmGuard::missing:
            return "missing";
        case AlarmGuard::stays:
            return "stays";
        case AlarmGuard::lifts:
            return "lifts";
    }
    return "?";
}

std::string word(WorkGuard value) {
    switch (value) {
        case WorkGuard::always: return "-";
        case WorkGuard::more: return "more";
        case WorkGuard::goes_in:
            return "goes in";
        case WorkGuard::last: return "last";
        case WorkGuard::leave: return "leave";
        case WorkGuard::stop: return "stop";
        case WorkGuard::untouched: return "untouched";
        case WorkGuard::changed: return "changed";
    }
    return "?";
}

std::string word(TagState value) {
    switch (value) {
        case TagState::none: return "none";
        case TagState::issued: return "issued";
        case TagState::up: return "up";
        case TagState::off: return "off";
    }
    return "?";
}

std::string word(TagEvent value) {
    switch (value) {
        case TagEvent::hold: return "hold";
        case TagEvent::print: return "print";
        case TagEvent::put_up: return "put-up";
        case TagEvent::withdraw: return "withdraw";
        case TagEvent::read: return "read";
        case TagEvent::give_back: return "return";
    }
    return "?";
}

std::string word(TagGuard value) {
    switch (value) {
        case TagGuard::always: return "-";
        case TagGuard::right: return "right";
        case TagGuard::wrong: return "wrong";
    }
    return "?";
}

std::string word(ReportState value) {
    switch (value) {
        case ReportState::choosing: return "choosing";
        case ReportState::asking: return "asking";
        case ReportState::sheet: return "sheet";
        case ReportState::over: return "over";
    }
    return "?";
}

std::string word(ReportEvent value) {
    switch (value) {
        case ReportEvent::name: return "name";
        case ReportEvent::describe: return "describe";
        case ReportEvent::secure: return "secure";
        case ReportEvent::leave: return "leave";
    }
    return "?";
}

std::string word(ReportGuard value) {
    switch (value) {
        case ReportGuard::always: return "-";
        case ReportGuard::problem: return "problem";
        case ReportGuard::no_start: return "no-start";
    }
    return "?";
}

std::string word(LockoutStep step) { return std::string(name_of(step)); }
std::string word(LockoutDeed deed) { return std::string(name_of(deed)); }

std::string word(LockoutGuard guard) {
    switch (guard) {
        case LockoutGuard::always:
            return "-";
        case LockoutGuard::prop_open:
            return "a prop is out";
        case LockoutGuard::source_open:
            return "a source is on";
        case LockoutGuard::measure_open:
            return "a measure open";
        case LockoutGuard::lock_open:
            return "no lock";
        case LockoutGuard::energy_open:
            return "energy is left";
        case LockoutGuard::untried:
            return "not tried";
        case LockoutGuard::complete:
            return "all done";
        case LockoutGuard::moved:
            return "moved";
        case LockoutGuard::all_out:
            return "all out";
        case LockoutGuard::lock_on:
            return "a lock is on";
        case LockoutGuard::prop_in:
            return "a prop is in";
        case LockoutGuard::nothing_on:
            return "nothing on";
    }
    return "?";
}

}  // namespace holdpin
