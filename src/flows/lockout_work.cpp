#include "flows/lockout_work.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "flows/desk.hpp"
#include "flows/emergency.hpp"
#include "flows/lockout.hpp"
#include "flows/lockout_review.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_visitor.hpp"
#include "flows/machine.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"

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
    for (const std::string_view item : items) {
        Row row;
        row.id = std::string(item);
        row.label = say("lockout." + section + "-" + std::string(item));
        list.rows.push_back(std::move(row));
    }
    return list;
}

// A job that waited for the lockout goes on at its step, if whoever closed it may do it.
Result<Next> deed_done(Session& session, const std::string& plate, LockoutDeed deed) {
    if (deed == LockoutDeed::leave_zone) return Next::finish();
    if (deed != LockoutDeed::close) return Next::done();
    if (const auto work = TRY(work_on(session.db(), plate))) {
        return Next::unwind(TRY(WorkFlow::open(session, plate, work->running.work)));
    }
    return Next::unwind(std::make_unique<MachineFlow>(plate));
}

// One lock, one person, one machine at a time. Empty: it is this person's to put on.
Result<std::string> why_not_this_lock(const Session& session, const std::string& person,
                                      const std::string& device) {
    const std::string owner = TRY(owner_of_lock(session.db(), device));
    const std::string machine = TRY(machine_with_lock(session.db(), device));
    const Args args{{"device", device}, {"name", session.name(owner)}, {"machine", machine}};
    if (!owner.empty() && owner != person) return session.say()("lockout.lock-of-other", args);
    if (!machine.empty()) return session.say()("lockout.lock-elsewhere", args);
    return std::string();
}

Result<Next> place(Session& session, const std::string& plate, const std::string& device) {
    const Say say = session.say();
    const std::string why = TRY(why_not_this_lock(session, session.person_id(), device));
    if (!why.empty()) return Next::push(refusal(session, say("lockout.lock-refused"), why));
    DeedToSign deed;
    deed.plate = plate;
    deed.event.deed = LockoutDeed::place_lock;
    deed.event.by = session.person_id();
    deed.event.item = device;
    deed.heading = say("lockout.sign-on");
    deed.statement = say("lockout.on-meaning", {{"device", device}, {"machine", plate}});
    deed.meaning = "my-lock-is-on";
    return sign_deed(session, std::move(deed));
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

// Whoever takes the key over leads the job, and must be entitled to begin it.
Result<std::string> why_not_key(const Session& session, const std::string& plate, LockoutJob job,
                                const Person& other) {
    const Say say = session.say();
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) {
        return may_lock_out(session, other) ? std::string() : say("lockout.no-endorsement");
    }
    const std::string why = TRY(why_not_job(session, other, *machine_class, job));
    if (why.empty() || job == LockoutJob::me) return why;
    return say("lockout-out.second-current", {{"name", other.name}});
}

}  // namespace

Result<Lockout> running_lockout(const Session& session, const std::string& plate) {
    auto state = TRY(lockout_of(session.db(), plate));
    if (state) return std::move(*state);
    return Error{ErrorKind::absent, "no lockout is running", plate, ""};
}

Result<void> enter_deed(Session& session, const std::string& plate, LockoutEvent event,
                        const std::string& meaning) {
    const Lockout state = TRY(running_lockout(session, plate));
    event.at_ms = session.now();
    event.visitors = TRY(visitors_in(session.db(), event));
    if (event.deed == LockoutDeed::tell) TRY(check_host(session, plate, event.second));
    if (event.deed == LockoutDeed::place_lock) {
        if (!TRY(removals_to_tell(session.db(), event.by)).empty()) {
            return Error{ErrorKind::refused,
                         "a lock of theirs was taken off, and they were not told", plate,
                         "they sign that they were told"};
        }
        const std::string why = TRY(why_not_this_lock(session, event.by, event.item));
        if (!why.empty()) return Error{ErrorKind::refused, why, plate, ""};
    }
    TRY(apply(state, event));
    Fact fact;
    fact.kind = std::string(kind_of(event.deed));
    fact.data = lockout_data(state, event);
    if (!event.by.empty()) fact.by = {event.by};
    if (!meaning.empty()) {
        fact = TRY(session.signed_fact(fact.kind, event.by, meaning, std::move(fact.data)));
    }
    if (!event.second.empty()) {
        fact.by.push_back(event.second);
        fact.data["second_signature"] = {{"name", TRY(name_hash_of(session.db(), event.second))},
                                         {"meaning", meaning},
                                         {"language", session.say().language()}};
    }
    TRY(session.book().enter(std::move(fact)));
    return {};
}

Result<Next> sign_deed(Session& session, DeedToSign deed) {
    const Person first = *TRY(person_with(session.db(), deed.event.by));
    const std::string heading = deed.heading;
    const std::string statement = deed.statement;
    return Next::push(std::make_unique<SignFlow>(
        first, heading, statement, [deed = std::move(deed)](Session& s) -> Result<Next> {
            const auto enter = [deed](Session& t) -> Result<Next> {
                TRY(enter_deed(t, deed.plate, deed.event, deed.meaning));
                return deed_done(t, deed.plate, deed.event.deed);
            };
            if (deed.event.second.empty()) return enter(s);
            const Person second = *TRY(person_with(s.db(), deed.event.second));
            return Next::push(std::make_unique<SignFlow>(second, deed.heading,
                                                         deed.second_statement, enter));
        }));
}

LockoutJob lockout_job_in(const Session& session, const std::string& plate,
                          const std::string& named) {
    const MachineClass* machine_class = class_of(session, plate);
    const bool raised = machine_class != nullptr && !machine_class->props.empty();
    return raised ? lockout_job_named(named).value_or(LockoutJob::me) : LockoutJob::me;
}

Result<std::string> add_lockout(const Session& session, const std::string& plate, LockoutJob job,
                                std::vector<Fact>& facts) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr || TRY(lockout_of(session.db(), plate))) return std::string();
    const std::string why = TRY(why_not_job(session, *machine_class, job));
    if (!why.empty()) return why;
    LockoutOpening opening;
    opening.machine = plate;
    opening.job = job;
    opening.plan =
        plan_of(*machine_class, job, TRY(arm_alone_assessed(session, machine_class->id)));
    opening.plan.review =
        job == LockoutJob::me && TRY(review_is_due(session, machine_class->id));
    opening.by = session.person_id();
    Fact fact;
    fact.kind = "lockout-opened";
    fact.by = {opening.by};
    fact.content = session.pack().digest("class", machine_class->id);
    fact.data = opening_data(opening, machine_class->id);
    facts.push_back(std::move(fact));
    return std::string();
}

Result<Next> open_lockout(Session& session, const std::string& plate, LockoutJob job) {
    std::vector<Fact> facts;
    const std::string why = TRY(add_lockout(session, plate, job, facts));
    if (!why.empty()) return Next::push(refusal(session, session.say()("lockout.refused"), why));
    if (!facts.empty()) TRY(session.book().enter(std::move(facts)));
    return Next::stay();
}

// What may be hot or smoulder is not left to itself.
Result<Next> leave_for_day_shift(Session& session, const std::string& plate) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("lockout.hot");
    body.remark = say("lockout.hot-look");
    for (const char* id : {"cold", "hot", "cannot-tell"}) {
        body.tiles.push_back({id, say("lockout.hot-" + std::string(id)), "",
                              std::string(id) == "cannot-tell" ? "cannot-see" : "", {}, true, ""});
    }
    return Next::push(std::make_unique<PickFlow>(
        "lockout/hot", std::move(body), [plate](Session& s, const std::string& id) -> Result<Next> {
            if (id != "cold") return Next::push(std::make_unique<SheetFlow>("fire"));
            Fact fact;
            fact.kind = "rinse-left";
            fact.by = {s.person_id()};
            fact.data = {{"machine", plate}};
            TRY(s.book().enter(fact));
            const Say words = s.say();
            return Next::unwind(std::make_unique<MessageFlow>(
                LugState::open, words("lockout.left"),
                std::vector<std::string>{words("lockout.left-line", {{"machine", plate}})}));
        }));
}

Result<Next> put_lock_on(Session& session, const std::string& plate) {
    TextBody body;
    body.heading = session.say()("lockout.device");
    body.hint = session.say()("lockout.device-hint");
    body.start = TRY(lock_of(session.db(), session.person_id()));
    body.codes = true;
    body.most = 12;
    return Next::push(std::make_unique<TextFlow>(
        "lockout/device", std::move(body),
        [plate](Session& s, const std::string& device) { return place(s, plate, device); }));
}

Result<Next> take_lock_off(Session& session, const Lockout& state) {
    const auto lock = state.locks.find(session.person_id());
    if (lock == state.locks.end()) return Next::stay();
    const Say say = session.say();
    DeedToSign deed;
    deed.plate = state.machine;
    deed.event.deed = LockoutDeed::remove_lock;
    deed.event.by = session.person_id();
    deed.event.item = lock->second.device;
    deed.heading = say("lockout.sign-off");
    deed.statement = say("lockout.off-meaning",
                         {{"device", lock->second.device}, {"machine", state.machine}});
    deed.meaning = "my-lock-is-off";
    return sign_deed(session, std::move(deed));
}

Result<Next> hand_the_key_over(Session& session, const std::string& plate) {
    return Next::push(std::make_unique<BadgeFlow>(
        session.say()("lockout.over-who"),
        [plate](Session& s, const Person& other) -> Result<Next> {
            const Say say = s.say();
            const Lockout state = TRY(running_lockout(s, plate));
            const std::string unfit = TRY(why_not_key(s, plate, state.job, other));
            if (!unfit.empty()) {
                return Next::push(refusal(s, say("lockout.over-refused"), unfit));
            }
            const std::string why = TRY(why_not_told(s, plate, other));
            if (!why.empty()) return Next::push(refusal(s, say("lockout.over-refused"), why));
            const Args args{{"name", other.name}, {"machine", plate}};
            DeedToSign deed;
            deed.plate = plate;
            deed.event.deed = LockoutDeed::hand_over;
            deed.event.by = s.person_id();
            deed.event.second = other.id;
            deed.event.at_ms = s.now();
            if (!apply(state, deed.event)) {
                return Next::push(
                    refusal(s, say("lockout.over-refused"), say("lockout.over-order", args)));
            }
            deed.heading = say("lockout.over-sign");
            deed.statement = say("lockout.over-meaning", args);
            deed.second_statement = say("lockout.over-taken", args);
            deed.meaning = "key-handed-over";
            return sign_deed(s, std::move(deed));
        }));
}

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

Result<Next> prop_damaged(Session& session, const std::string& plate, const std::string& prop,
                          const std::string& by) {
    Fact fact;
    fact.kind = "finding-entered";
    fact.by = {by};
    fact.data = {{"machine", plate},
                 {"point", "report"},
                 {"reading", "prop"},
                 {"prop", prop},
                 {"outcome", std::string(name_of(Outcome::stop))},
                 {"hazard", std::string(name_of(Hazard::hopper_support))},
                 {"source", "lockout"}};
    std::vector<Fact> facts{std::move(fact)};
    TRY(add_tag(session, plate, facts));
    LockoutEvent event;
    event.deed = LockoutDeed::report_prop;
    event.by = by;
    event.item = prop;
    const auto entered = session.db().transaction([&]() -> Result<void> {
        TRY(session.book().enter(std::move(facts)));  // first: the tag names the finding by number
        return enter_deed(session, plate, std::move(event));
    });
    if (!entered) {
        TRY(session.book().ledger().reload());
        return entered.error();
    }
    return Next::push(refusal(session, session.say()("lockout.damaged"),
                              session.say()("lockout.damaged-line")));
}

bool stays_on_props(const Session& session, const std::string& plate) {
    const auto up = is_hopper_up(session.db(), plate);
    return up.ok() && up.value();
}

std::string source_name(const Session& session, const std::string& plate, const std::string& id) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return id;
    for (const Energy& energy : machine_class->energies) {
        if (energy.id == id) return session.say()(energy.name);
    }
    return id;
}

std::string prop_name(const Session& session, const std::string& plate, const std::string& id) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return id;
    for (const Prop& prop : machine_class->props) {
        if (prop.id == id) return session.say()(prop.name);
    }
    return id;
}

}  // namespace holdpin
