#include "flows/lockout_count.hpp"

#include "base/text.hpp"
#include "flows/desk.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_visitor.hpp"
#include "flows/lockout_work.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"

namespace holdpin {
namespace {

template <std::size_t N>
TickList tick_list(const Session& session, const std::string& section,
                   const std::array<std::string_view, N>& items) {
    const Say say = session.say();
    TickList list;
    list.page_id = "lockout/" + section;
    list.heading = say("lockout." + section + "-heading");
    list.main_label = say("bar.go-on");
    list.all = true;
    list.rows = rows_to_tick(say, "lockout." + section + "-", items);
    return list;
}

// Who answers for the machine; a class that is no longer in the content asks for the duty alone.
Result<bool> is_supervisor(const Session& session, const std::string& plate,
                           const Person& person) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) {
        return session.pack().grants(person.duties, Right::return_to_service);
    }
    return TRY(why_not(session, person, Right::return_to_service, *machine_class)).empty();
}

struct Absence {
    Person first;  // of the two
    std::string owner;
};

// The employer's side and another person, neither of them the owner.
Result<Next> absent_second(Session& session, const std::string& plate, const Absence& absence,
                           const Person& second, const std::vector<std::string>& stated) {
    const Say say = session.say();
    const std::string why = TRY(why_not_told(session, plate, second));
    if (!why.empty()) return Next::push(refusal(session, say("lockout.absent-refused"), why));
    const auto& [first, owner] = absence;
    const bool supervised = TRY(is_supervisor(session, plate, first)) ||
                            TRY(is_supervisor(session, plate, second));
    if (second.id == first.id || second.id == owner || !may_lock_out(session, second) ||
        !supervised) {
        return Next::push(
            refusal(session, say("lockout.absent-refused"), say("lockout.absent-who")));
    }
    const Args args{{"name", session.name(owner)}, {"machine", plate}};
    DeedToSign deed;
    deed.plate = plate;
    deed.event.deed = LockoutDeed::remove_for_absent;
    deed.event.by = first.id;
    deed.event.second = second.id;
    deed.event.owner = owner;
    deed.event.items = stated;
    deed.heading = say("lockout.absent-sign");
    deed.statement = say("lockout.absent-meaning", args);
    deed.second_statement = deed.statement;
    deed.meaning = "owner-is-absent";
    return sign_deed(session, std::move(deed));
}

Result<Next> sign_counted(Session& session, const std::string& plate, LockoutEvent event) {
    const Say say = session.say();
    const Args args{{"machine", plate}, {"count", std::to_string(*event.seen)}};
    DeedToSign deed;
    deed.plate = plate;
    deed.heading = say("lockout-out.sign");
    deed.statement = event.deed == LockoutDeed::leave_zone ? say("leave-zone.meaning", args)
                                                           : say("lockout-out.meaning", args);
    deed.meaning = "everybody-is-out";
    deed.event = std::move(event);
    return sign_deed(session, std::move(deed));
}

// Somebody on the list has gone home, and cannot be seen outside: two others take them off it.
Result<Next> choose_gone(Session& session, const std::string& plate, const Person& first) {
    const Say say = session.say();
    if (!may_lock_out(session, first)) {
        return Next::push(
            refusal(session, say("lockout.absent-refused"), say("lockout.no-endorsement")));
    }
    GridBody body;
    body.heading = say("leave-zone.gone-who", {{"machine", plate}});
    body.remark = say("leave-zone.gone-remark");
    for (const std::string& person : people_on(TRY(running_lockout(session, plate)))) {
        if (person == first.id) continue;
        body.tiles.push_back({person, session.name(person), "", "", {}, true, ""});
    }
    return Next::push(std::make_unique<PickFlow>(
        "leave-zone/gone", std::move(body),
        [plate, first](Session& s, const std::string& owner) -> Result<Next> {
            return take_off_for_absent(s, TRY(running_lockout(s, plate)), first, owner);
        }));
}

// Out of the zone whoever is away keeps everybody from going on: they can be taken off the list.
Result<Next> somebody_missing(Session& session, const std::string& plate,
                              const LockoutEvent& event, const Args& args) {
    const Say say = session.say();
    std::string heading = say("lockout-out.missing");
    std::string line = say("lockout-out.missing-line", args);
    if (event.deed != LockoutDeed::leave_zone) {
        return Next::push(refusal(session, std::move(heading), std::move(line)));
    }
    const Person first = *TRY(person_with(session.db(), event.by));
    return Next::push(std::make_unique<MessageFlow>(
        LugState::held, std::move(heading), std::vector<std::string>{std::move(line)},
        [plate, first](Session& s) { return choose_gone(s, plate, first); },
        say("leave-zone.gone")));
}

// The number is asked for without saying how many it should be: so it is counted, not copied.
Result<Next> hold_against_list(Session& session, const std::string& plate, LockoutEvent event) {
    const Say say = session.say();
    const std::set<std::string> on = people_on(TRY(running_lockout(session, plate)));
    std::vector<std::string> names;
    for (const std::string& person : on) names.push_back(session.name(person));
    const Args args{{"count", std::to_string(*event.seen)}, {"names", joined(names, ", ")}};
    const int wanted = static_cast<int>(on.size());
    if (*event.seen < wanted) {
        return somebody_missing(session, plate, event, args);
    }
    if (*event.seen == wanted) return sign_counted(session, plate, std::move(event));
    return Next::push(std::make_unique<MessageFlow>(
        LugState::open, say("lockout-out.more"),
        std::vector<std::string>{say("lockout-out.more-line", args)},
        [plate, event](Session& s) { return sign_counted(s, plate, event); },
        say("bar.go-on")));
}

}  // namespace

Result<Next> take_off_for_absent(Session& session, const Lockout& state, const Person& first,
                                 const std::string& owner) {
    TickList list = tick_list(session, "absent", kAbsentItems);
    list.remark = session.say()("lockout.absent-remark", {{"name", session.name(owner)}});
    return Next::push(std::make_unique<TickFlow>(
        std::move(list), [plate = state.machine, absence = Absence{first, owner}](
                             Session& s, const std::vector<std::string>& stated) -> Result<Next> {
            return Next::push(std::make_unique<BadgeFlow>(
                s.say()("lockout.absent-second"),
                [plate, absence, stated](Session& t, const Person& second) {
                    return absent_second(t, plate, absence, second, stated);
                }));
        }));
}

Result<Next> count_people(Session& session, const std::string& plate, const LockoutEvent& event) {
    const Say say = session.say();
    const bool was_in = people_on(TRY(running_lockout(session, plate))).contains(event.by);
    NumberAsk ask;
    ask.question = was_in ? say("lockout-out.count") : say("lockout-out.count-others");
    ask.look = say("lockout-out.count-look");
    ask.whole = true;
    return Next::push(std::make_unique<NumberFlow>(
        "lockout/count", std::move(ask),
        [plate, event, least = was_in ? 10 : 0](Session& s, const std::string& typed)
            -> Result<Next> {
            const std::int64_t tenths = parse_tenths(typed).value_or(-1);
            if (tenths < least || tenths > 990 || tenths % 10 != 0) {
                const Say words = s.say();
                return Next::push(refusal(s, words("lockout-out.unclear"),
                                          words("lockout-out.unclear-line")));
            }
            LockoutEvent counted = event;
            counted.seen = static_cast<int>(tenths / 10);
            return hold_against_list(s, plate, std::move(counted));
        }));
}

Result<Next> clear_zone(Session& session, const std::string& plate, LockoutDeed deed) {
    LockoutEvent event;
    event.deed = deed;
    event.by = session.person_id();
    return Next::push(std::make_unique<TickFlow>(
        tick_list(session, "clear", kClearItems),
        [plate, event](Session& s, const std::vector<std::string>& stated) {
            LockoutEvent ticked = event;
            ticked.items = stated;
            return count_people(s, plate, ticked);
        }));
}

}  // namespace holdpin
