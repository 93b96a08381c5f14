// Every state of a lockout that can be come to, each written out and read back before the next
// step; and long random walks. What must never be is asked of each state and of each step.
#include <doctest/doctest.h>

#include <algorithm>
#include <deque>
#include <set>
#include <tuple>
#include <unordered_set>

#include "base/random.hpp"
#include "flows/lockout_table.hpp"
#include "records/lockout.hpp"
#include "support/extent.hpp"
#include "times.hpp"

using namespace holdpin;

namespace {

struct Case {
    const char* name;
    LockoutJob job;
    bool assessed;
    bool raised;
    bool tagged = false;  // two sources that take a tag only, one where raised; reviewed first
    bool visited = false;  // cho belongs to another employer
};
constexpr Case kCases[] = {{"lockout under a raised part", LockoutJob::me, false, true},
                           {"lockout with nothing raised", LockoutJob::me, false, false},
                           {"an arm, a second person looks", LockoutJob::arm, false, true},
                           {"an arm, alone as assessed", LockoutJob::arm, true, true},
                           {"nothing goes in", LockoutJob::nothing, false, true},
                           {"reviewed, a tag only, raised", LockoutJob::me, false, true, true},
                           {"reviewed, a tag only, flat", LockoutJob::me, false, false, true},
                           {"the same, one of them a visitor", LockoutJob::me, false, true, true,
                            true}};

// Four sources: engine, battery, oil pressure and the weight; the last two store energy.
MachineClass class_of(bool raised, bool tagged) {
    MachineClass made;
    constexpr const char* kSources[] = {"weight", "oil", "engine", "battery"};
    for (std::size_t i = 0; i < (tagged ? 2U : 4U); ++i) {
        Energy energy;
        energy.id = kSources[i];
        energy.stored = i < 2;
        energy.before_an_arm = i >= 2;
        energy.reverify_minutes = i == 0 ? 30 : 0;
        energy.tag_only = tagged && (i == 1 || !raised);
        made.energies.push_back(energy);
    }
    if (raised) {
        for (const char* id : {"left", "right"}) {
            if (tagged && !made.props.empty()) break;  // one prop keeps this walk short
            Prop prop;
            prop.id = id;
            made.props.push_back(prop);
        }
    }
    return made;
}

Lockout begun(const Case& one) {
    LockoutOpening opening;
    opening.machine = "SW-14";
    opening.job = one.job;
    opening.plan = plan_of(class_of(one.raised, one.tagged), one.job, one.assessed);
    opening.plan.review = one.tagged;
    opening.by = "ann";
    return opened(opening);
}

const std::vector<std::string> kEveryCheck{"tools",          "guards",       "people", "not-here",
                                    "tried-to-reach", "will-be-told", "site",   "visitor",
                                    "restrictions"};
constexpr const char* kPeople[] = {"ann", "ben", "cho"};

LockoutEvent made(LockoutDeed deed, const char* by) {
    LockoutEvent event;
    event.deed = deed;
    event.by = by;
    event.items = kEveryCheck;
    event.seen = 3;  // as many as there are
    return event;
}

bool counts_people(LockoutDeed deed) {
    return deed == LockoutDeed::clear || deed == LockoutDeed::begin_test ||
           deed == LockoutDeed::leave_zone;
}

void add_with_items(std::vector<LockoutEvent>& events, LockoutDeed deed, const char* by) {
    const bool sources = deed == LockoutDeed::isolate || deed == LockoutDeed::relieve ||
                         deed == LockoutDeed::take_measure;
    const std::vector<const char*> items =
        sources ? std::vector<const char*>{"weight", "oil", "engine", "battery", "left"}
                : std::vector<const char*>{"left", "right", "oil"};
    for (const char* item : items) {
        events.push_back(made(deed, by));
        events.back().item = item;
        if (deed != LockoutDeed::see_prop) continue;
        events.push_back(events.back());
        events.back().fine = false;
    }
}

void add_with_two(std::vector<LockoutEvent>& events, LockoutDeed deed, const char* by) {
    for (const char* second : kPeople) {
        for (const char* owner : kPeople) {
            events.push_back(made(deed, by));
            events.back().second = second;
            events.back().owner = owner;
            if (deed != LockoutDeed::remove_for_absent) break;
        }
    }
}

// Whatever three people could do, in order or not; most of it is refused in any one state.
std::vector<LockoutEvent> all_events() {
    std::vector<LockoutEvent> events{made(LockoutDeed::miss, "")};
    events.back().at_ms = 1000 * kMinute;
    for (int d = 0; d < kLockoutDeedCount; ++d) {
        const auto deed = static_cast<LockoutDeed>(d);
        for (const char* by : kPeople) {
            if (deed == LockoutDeed::set_prop || deed == LockoutDeed::see_prop ||
                deed == LockoutDeed::isolate || deed == LockoutDeed::relieve ||
                deed == LockoutDeed::stow_prop || deed == LockoutDeed::take_measure ||
                deed == LockoutDeed::report_prop) {
                add_with_items(events, deed, by);
            } else if (deed == LockoutDeed::remove_for_absent ||
                       deed == LockoutDeed::hand_over || deed == LockoutDeed::tell) {
                add_with_two(events, deed, by);
            } else if (deed == LockoutDeed::place_lock) {
                events.push_back(made(deed, by));
                events.back().item = "L-" + std::string(by);
                events.push_back(made(deed, by));
                events.back().item = "L-ann";  // perhaps somebody else's
            } else {
                events.push_back(made(deed, by));
                if (deed == LockoutDeed::try_out || deed == LockoutDeed::reverify) {
                    events.push_back(made(deed, by));
                    events.back().fine = false;
                } else if (counts_people(deed)) {
                    events.push_back(made(deed, by));
                    events.back().items = {"tools", "people"};
                    for (const int seen : {0, 1, 2}) {
                        events.push_back(made(deed, by));
                        events.back().seen = seen;
                    }
                }
            }
        }
    }
    return events;
}

// The same, where cho is of another employer; and with one thing not told.
std::vector<LockoutEvent> visited_events() {
    std::vector<LockoutEvent> events = all_events();
    events.push_back(made(LockoutDeed::tell, "cho"));
    events.back().second = "ann";
    events.back().items = {"site", "visitor"};
    for (LockoutEvent& event : events) {
        if (event.by == "cho" || event.second == "cho") event.visitors.insert("cho");
    }
    return events;
}

// ---- what must hold -------------------------------------------------------------------------

bool all_in(const std::vector<std::string>& wanted, const auto& there) {
    return std::all_of(wanted.begin(), wanted.end(),
                       [&](const std::string& one) { return there.contains(one); });
}

// Empty: nothing is wrong with this state.
std::string wrong_with(const Lockout& state) {
    if (state.step == LockoutStep::working) {
        if (!all_in(state.plan.props, state.set_by)) return "work with a prop missing";
        if (!state.damaged.empty()) return "work with a damaged prop";
        if (state.plan.second && !all_in(state.plan.props, state.seen_by)) {
            return "work with a prop that no second person saw";
        }
        if (!all_in(state.plan.sources, state.isolated)) return "work with a source on";
        if (!all_in(state.plan.tags, state.measured)) return "work behind a bare tag";
        if (!all_in(state.plan.stored, state.relieved)) return "work with energy stored";
        if (state.plan.locks && !state.locks.contains(state.lead)) return "work without the lock";
    }
    for (const auto& [prop, person] : state.seen_by) {
        const auto set = state.set_by.find(prop);
        if (set == state.set_by.end() || set->second == person) return "one pair of eyes";
    }
    if (state.step == LockoutStep::closed && !state.locks.empty()) return "released with a lock on";
    if (state.step == LockoutStep::closed && !state.set_by.empty()) {
        return "released with a prop out of its place";
    }
    const bool going_out =
        state.step == LockoutStep::lift_off || state.step == LockoutStep::engine_off ||
        state.step == LockoutStep::unprop || state.step == LockoutStep::closing;
    if (going_out && !state.locks.empty()) return "props come out with a lock on";
    return "";
}

std::string wrong_with(const Lockout& from, const LockoutEvent& event, const Lockout& to) {
    if (from.step == LockoutStep::reviewing && to.step != from.step &&
        to.step != LockoutStep::closing && event.deed != LockoutDeed::review) {
        return "used without a review";
    }
    if (!holds_machine(to) && event.deed != LockoutDeed::close) return "freed by something else";
    if (!holds_machine(to) && from.step != LockoutStep::closing) return "freed early";
    if (!holds_machine(to) && event.by != from.lead) return "freed by somebody else";
    for (const auto& [person, lock] : from.locks) {
        if (to.locks.contains(person)) continue;
        const bool own = event.by == person && (event.deed == LockoutDeed::remove_lock ||
                                                event.deed == LockoutDeed::begin_test);
        const bool by_two = event.deed == LockoutDeed::remove_for_absent &&
                            event.owner == person && event.by != person &&
                            event.second != person && event.by != event.second;
        if (!own && !by_two) return "somebody else took a lock off";
    }
    const int on = static_cast<int>(people_on(from).size());
    if (counts_people(event.deed) && event.seen.value_or(0) < on) {
        return "cleared with somebody missing";
    }
    if (to.set_by.size() < from.set_by.size() && event.deed == LockoutDeed::stow_prop &&
        from.step != LockoutStep::unprop) {
        return "a prop was stowed before the lift-off";
    }
    std::set<std::string> devices;
    for (const auto& [person, lock] : to.locks) devices.insert(lock.device);
    if (devices.size() != to.locks.size()) return "one lock of two people";
    if (!from.damaged.empty() && to.set_by.size() > from.set_by.size()) {
        return "a prop was set beside a damaged one";
    }
    return "";
}

// Empty: nothing of a lockout is in the hands of a visitor who was not told; nor is one told by
// another visitor, or alone.
std::string wrong_with_visitor(const Lockout& from, const LockoutEvent& event, const Lockout& to) {
    if (!to.told.contains("cho") && (to.lead == "cho" || to.locks.contains("cho"))) {
        return "a visitor who was not told has the key or a lock on";
    }
    if (event.deed == LockoutDeed::tell) {
        const bool whole = event.items == kEveryCheck && event.by == "cho" &&
                           (event.second == "ann" || event.second == "ben");
        return whole ? "" : "told by halves";
    }
    const bool takes_part = event.visitors.contains("cho") && event.deed != LockoutDeed::leave_zone;
    return takes_part && !from.told.contains("cho") ? "a visitor took part untold" : "";
}

// Tells states apart; shorter than the whole text of each.
std::string key_of(const Lockout& state) {
    std::string key = std::to_string(static_cast<int>(state.step)) + state.lead +
                      (state.moved ? "m" : "") + std::to_string(state.verified_ms);
    for (const auto& one : state.isolated) key += one;
    key += '/';
    for (const auto& one : state.measured) key += one;
    key += '/';
    for (const auto& one : state.relieved) key += one;
    for (const auto& one : state.told) key += '/' + one;
    for (const auto& one : state.damaged) key += '!' + one;
    for (const auto* both : {&state.set_by, &state.seen_by}) {
        key += '/';
        for (const auto& [prop, person] : *both) key += prop + person;
    }
    for (const auto& [person, lock] : state.locks) key += person + lock.device;
    return key;
}

using LockoutEdge = std::tuple<LockoutStep, LockoutDeed, LockoutStep>;

struct LockoutWalk {
    std::size_t states = 0;
    std::size_t transitions = 0;
    std::size_t refusals = 0;
    std::set<LockoutEdge> edges;
    std::set<std::string> faults;
};

LockoutWalk walk(const Case& one, const std::vector<LockoutEvent>& events) {
    LockoutWalk done;
    std::unordered_set<std::string> seen{key_of(begun(one))};
    std::deque<std::string> open{lockout_text(begun(one))};
    while (!open.empty()) {
        const auto read = lockout_from(open.front());  // the restart
        open.pop_front();
        REQUIRE(read.ok());
        const Lockout& state = read.value();
        ++done.states;
        done.faults.insert(wrong_with(state));
        for (const LockoutEvent& event : events) {
            const auto next = apply(state, event);
            if (!next) {
                ++done.refusals;
                if (next.error().kind != ErrorKind::refused || next.error().what.empty()) {
                    done.faults.insert("refused without a reason");
                }
                continue;
            }
            ++done.transitions;
            done.faults.insert(wrong_with(state, event, next.value()));
            if (one.visited) done.faults.insert(wrong_with_visitor(state, event, next.value()));
            done.edges.insert({state.step, event.deed, next.value().step});
            if (seen.insert(key_of(next.value())).second) {
                open.push_back(lockout_text(next.value()));
            }
        }
    }
    done.faults.erase("");
    return done;
}

std::string faults_of(const LockoutWalk& walk) {
    std::string text;
    for (const std::string& fault : walk.faults) text += fault + "; ";
    return text;
}

std::uint32_t steps_to_take() {
    return goes_all_the_way() ? 1'000'000U : 20'000U;
}

}  // namespace

TEST_SUITE("lockout") {
    TEST_CASE("the lockout holds in every state: an exhaustive walk with a restart at each step") {
        const auto events = all_events();
        const auto visited = visited_events();
        std::set<LockoutEdge> edges;
        for (const Case& one : kCases) {
            if (goes_a_part() && one.raised && one.job == LockoutJob::me) continue;  // the longest
            const LockoutWalk done = walk(one, one.visited ? visited : events);
            MESSAGE(std::string(one.name) << ": " << done.states << " states, " << done.transitions
                             << " transitions, " << done.refusals << " refusals");
            CHECK(faults_of(done) == "");
            edges.insert(done.edges.begin(), done.edges.end());
        }
        std::set<LockoutEdge> table;
        for (const LockoutRow& row : kLockoutTable) table.insert({row.from, row.event, row.to});
        for (const auto& [from, deed, to] : edges) {
            INFO(name_of(from), " ", name_of(deed), " ", name_of(to));
            CHECK(table.contains({from, deed, to}));
        }
        if (!goes_a_part()) CHECK(edges.size() == table.size());
        for (const LockoutRow& row : kLockoutTable) CHECK(row.entry == kind_of(row.event));
    }

    TEST_CASE("random deeds of a lockout in any order, from three people, break nothing") {
        const auto events = all_events();
        SeededRandom random(20261125);
        std::size_t closed = 0;
        std::size_t worked = 0;
        std::size_t taken = 0;
        std::set<std::string> faults;
        Lockout state = begun(kCases[0]);
        const auto any = [&] {
            return events[random.below(static_cast<std::uint32_t>(events.size()))];
        };
        for (std::uint32_t i = 0; i < steps_to_take(); ++i) {
            LockoutEvent event = any();
            // Turning back at once would seldom let anybody come to the work.
            const auto ends_it = [](const LockoutEvent& one) {
                return one.deed == LockoutDeed::clear || one.deed == LockoutDeed::report_prop;
            };
            while (ends_it(event) && random.below(64) != 0) event = any();
            const auto next = apply(state, event);
            if (!next) continue;
            ++taken;
            faults.insert(wrong_with(state, event, next.value()));
            state = next.value();
            faults.insert(wrong_with(state));
            worked += state.step == LockoutStep::working ? 1U : 0U;
            if (holds_machine(state)) continue;
            ++closed;
            state = begun(kCases[closed % std::size(kCases)]);
        }
        faults.erase("");
        CHECK(faults.empty());
        MESSAGE(steps_to_take() << " deeds, " << taken << " taken, " << worked << " at work, "
                                << closed << " closed");
        CHECK(closed > 0);
        CHECK(worked > 0);
    }

    TEST_CASE("a lockout written out and read back is the same") {
        Lockout state = begun(kCases[0]);
        state.step = LockoutStep::looking;
        state.set_by["left"] = "ann";
        state.seen_by["left"] = "ben";
        state.locks["ann"] = {"L-7", 12};
        state.isolated = {"oil"};
        state.relieved = {"oil"};
        state.told = {"cho"};
        state.moved = true;
        state.damaged = {"right"};
        state.verified_ms = 99;
        const auto read = lockout_from(lockout_text(state));
        REQUIRE(read.ok());
        CHECK(read.value() == state);
        CHECK_FALSE(lockout_from("{}").ok());
        CHECK_FALSE(lockout_from("nothing").ok());
        CHECK_FALSE(lockout_from(R"({"job":"me","step":"flying"})").ok());
    }

    TEST_CASE("a lockout of which anything is missing is damaged, not made up") {
        const auto whole = nlohmann::json::parse(lockout_text(begun(kCases[0])));
        for (const auto& [key, value] : whole.items()) {
            if (key == "measured" || key == "told") continue;  // came later
            auto part = whole;
            part.erase(key);
            INFO(key);
            CHECK_FALSE(lockout_from(part.dump()).ok());
            part[key] = nullptr;
            CHECK_FALSE(lockout_from(part.dump()).ok());
        }
        LockoutOpening opening;
        opening.machine = "SW-14";
        opening.plan = begun(kCases[0]).plan;
        opening.by = "ann";
        Entry entry;
        entry.kind = "lockout-opened";
        entry.by = {"ann"};
        entry.data = opening_data(opening, "scrubber");
        REQUIRE(opening_of(entry).ok());
        CHECK(opening_of(entry).value().plan == opening.plan);
        const auto data = entry.data;
        for (const char* key : {"machine", "job", "sources", "stored", "props", "locks", "second",
                                "reverify_minutes"}) {
            entry.data = data;
            entry.data.erase(key);
            INFO(key);
            const auto read = opening_of(entry);
            REQUIRE_FALSE(read.ok());
            CHECK(read.error().where == key);
        }
    }
}
