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
