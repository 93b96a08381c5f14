#include "flows/work.hpp"

#include <algorithm>

#include "flows/emergency.hpp"
#include "flows/lockout.hpp"
#include "flows/lockout_work.hpp"
#include "flows/machine.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "flows/work_step.hpp"
#include "rules/qualification.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kReply = "reply:";
constexpr std::string_view kDry = "dry:";
constexpr const char* kLockout = "lockout";
constexpr std::string_view kJob = "work:";

std::optional<WorkTableRow> row_for(WorkState from, WorkEvent event, WorkGuard met) {
    return step(kWorkTable, from, event,
                [&](WorkGuard guard) { return guard == WorkGuard::always || guard == met; });
}

std::optional<WorkGuard> guard_of(const WorkMove& move) {
    switch (move.way) {
        case WorkWay::refused: break;
        case WorkWay::on:
            return move.answer->lockout.empty() ? WorkGuard::more : WorkGuard::goes_in;
        case WorkWay::finish: return WorkGuard::last;
        case WorkWay::leave: return WorkGuard::leave;
        case WorkWay::stop: return WorkGuard::stop;
    }
    return std::nullopt;
}

Result<bool> is_barred(const Session& session, const Work& work, const std::string& plate,
                       const Person& person) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return false;
    const TopicRecords records = TRY(topics_of(session.db(), person.id));
    const bool by_permit =
        !work.endorsement.empty() || session.pack().grants(person.duties, Right::repair);
    return is_barred_from(*machine_class, work.id, records, session.today(), by_permit);
}

Result<WorkRefusal> refusal_now(const Session& session, const Work& work,
                                const std::string& plate) {
    const Person* person = session.person() ? &*session.person() : nullptr;
    const MachineState machine = TRY(machine_state(session.db(), plate));
    const bool barred = person != nullptr && TRY(is_barred(session, work, plate, *person));
    return refusal_of(work, person, session.pack(), machine, barred);
}

// Who may do it, with their extensions: somebody who can is better than somebody who tries.
Result<std::vector<std::string>> who_may(const Session& session, const Work& work,
                                         const std::string& plate) {
    std::vector<std::string> lines;
    for (const Person& person : TRY(people(session.db()))) {
        const WorkRefusal refusal =
            refusal_of(work, &person, session.pack(), MachineState{},
                       TRY(is_barred(session, work, plate, person)));
        if (refusal != WorkRefusal::none) continue;
        const Say say = session.say();
        lines.push_back(person.extension.empty()
                            ? person.name
                            : say("call.other", {{"name", person.name},
                                                 {"extension", person.extension}}));
    }
    return lines;
}

Result<std::unique_ptr<Flow>> refused(const Session& session, const Work& work,
                                      WorkRefusal refusal, const std::string& plate) {
    const Say say = session.say();
    std::vector<std::string> lines{
        say("work.refused-" + std::string(name_of(refusal)), {{"machine", plate}})};
    if (refusal == WorkRefusal::no_endorsement || refusal == WorkRefusal::no_duty ||
        refusal == WorkRefusal::untrained) {
        const auto names = TRY(who_may(session, work, plate));
        constexpr std::size_t kMostNames = 5;
        lines.insert(lines.end(), names.begin(),
                     names.begin() + static_cast<std::ptrdiff_t>(
                                         std::min(names.size(), kMostNames)));
    }
    return std::unique_ptr<Flow>(std::make_unique<MessageFlow>(
        LugState::held, say(work.title), std::move(lines), nullptr, say("bar.understood")));
}

Result<Fact> opened(const Session& session, const Work& work, const std::string& plate) {
    const MachineClass* machine_class = class_of(session, plate);
    WorkFacts facts;
    facts.has_hopper = machine_class != nullptr && machine_class->hopper.has_value();
    facts.hopper_up = TRY(is_hopper_up(session.db(), plate));
    Fact fact;
    fact.kind = "work-opened";
    fact.by = {session.person_id()};
    fact.content = session.pack().digest("work", work.id);
    fact.data = {{"machine", plate}, {"work", work.id}, {"step", first_step(work, facts)}};
    return fact;
}

Then to_machine(const std::string& plate) {
    return [plate](Session&) -> Result<Next> {
        return Next::unwind(std::make_unique<MachineFlow>(plate));
    };
}

Then to_tag(const std::string& plate) {
    return [plate](Session&) -> Result<Next> {
        return Next::unwind(std::make_unique<TagFlow>(plate, to_machine(plate)));
    };
}

// What follows the last answer.
Next after_end(const Session& session, const WorkSpot& spot, const WorkMove& move) {
    const Say say = session.say();
    const std::string& plate = spot.row.machine;
    if (move.way == WorkWay::stop) {
        // Out first; the tag is offered when somebody comes back to the machine.
        if (!move.answer->sheet.empty()) {
            return Next::unwind(std::make_unique<SheetFlow>(move.answer->sheet));
        }
        std::vector<std::string> lines{say(move.answer->remark), say("report.held-line")};
        const bool lowered = move.answer->does == WorkDoes::hopper_down;
        if (spot.facts.hopper_up && !lowered) lines.push_back(say("work.hopper-up"));
        return Next::unwind(std::make_unique<MessageFlow>(
            LugState::held, say(move.answer->finding), std::move(lines), to_tag(plate)));
    }
    const bool finished = move.way == WorkWay::finish;
    const Text& line = move.answer->remark.empty() ? spot.work->finished : move.answer->remark;
    return Next::unwind(std::make_unique<MessageFlow>(
        finished ? LugState::open : LugState::due,
        say(finished ? "work.finished" : "work.left", {{"machine", plate}}),
        std::vector<std::string>{say(line)}, to_machine(plate)));
}

// The job waits at its step; the lockout is the next page. Who may not lock out is told so.
Result<Next> into_lockout(Session& session, const WorkSpot& spot, const WorkReply& reply,
                          const WorkMove& move) {
    const std::string& plate = spot.row.machine;
    const LockoutJob job = lockout_job_in(session, plate, move.answer->lockout);
    std::vector<Fact> facts = TRY(facts_of_move(session, spot, reply, move));
    const std::string why = TRY(add_lockout(session, plate, job, facts));
    TRY(session.book().enter(std::move(facts)));
    if (why.empty()) return Next::push(std::make_unique<LockoutFlow>(plate));
    const Say say = session.say();
    return Next::push(std::make_unique<MessageFlow>(
        LugState::held, say("lockout.refused"),
        std::vector<std::string>{why, say("work.stays-out")}, nullptr, say("bar.understood")));
}

WorkReply reply_in(const std::string& action) {
    const auto parts = split(action, ':');
    WorkReply reply;
    if (parts.size() > 1) reply.step = parts[1];
    if (parts.size() > 2) reply.answer = parts[2];
    if (parts.size() > 3) reply.value = parts[3];
    return reply;
}

}  // namespace

Result<std::unique_ptr<Flow>> WorkFlow::open(Session& session, const std::string& plate,
                                             const std::string& id) {
    const Work* work = session.pack().work(id);
    if (work == nullptr) {
        return Error{ErrorKind::absent, "this job is not in the content", id, "tell the author"};
    }
    const WorkRefusal refusal = TRY(refusal_now(session, *work, plate));
    if (refusal != WorkRefusal::none) return refused(session, *work, refusal, plate);
    const auto running = TRY(work_on(session.db(), plate));
    if (!running && row_for(WorkState::closed, WorkEvent::open, WorkGuard::always)) {
        TRY(session.book().enter(TRY(opened(session, *work, plate))));
    }
    return std::unique_ptr<Flow>(std::make_unique<WorkFlow>(plate, id));
}

Result<Page> WorkFlow::page(const Session& session) const {
    const auto running = TRY(work_on(session.db(), plate_));
    if (!running) return MachineFlow(plate_).page(session);
    const WorkSpot spot = TRY(spot_of(session, *running));
    const bool locked = TRY(lockout_of(session.db(), plate_)).has_value();
    if (spot.step != nullptr && !locked) return step_page(session, spot);
    const Say say = session.say();
    Page page = session.blank("work/" + work_ + "/" + plate_);
    if (locked) {
        page.id += "/waits";
        page.body = MessageBody{LugState::held, say("work.waits"), {say("work.waits-line")}};
        page.back = session.back_button();
        page.main = {kLockout, say("machine.lockout"), say("machine.lockout-second"), true, ""};
        return page;
    }
    page.body = MessageBody{LugState::due, say("work.changed"), {say("work.changed-line")}};
    page.back = session.back_button();
    page.main = {"again", say("work.again"), "", spot.work != nullptr, ""};
    return page;
}

Result<Next> WorkFlow::act(Session& session, const Action& action) {
    const auto running = TRY(work_on(session.db(), plate_));
    if (!running) return Next::unwind(std::make_unique<MachineFlow>(plate_));
    if (action.id == "back") {
        return running->last_step.empty() ? drop(session) : Result<Next>(Next::back());
    }
    if (action.id == kLockout && TRY(lockout_of(session.db(), plate_)) && session.person()) {
        return Next::push(std::make_unique<LockoutFlow>(plate_));
    }
    if (action.id == "again") {
        const WorkSpot spot = TRY(spot_of(session, *running));
        const bool changed = spot.step == nullptr && spot.work != nullptr;
        if (changed && row_for(WorkState::asking, WorkEvent::again, WorkGuard::changed)) {
            TRY(session.book().enter(TRY(opened(session, *spot.work, plate_))));
        }
        return Next::stay();
    }
    if (!action.id.starts_with(kReply)) return Next::stay();
    return reply(session, reply_in(action.id));
}

Result<Next> WorkFlow::reply(Session& session, const WorkReply& reply) {
    const auto running = TRY(work_on(session.db(), plate_));
    if (!running) return Next::stay();
    const WorkSpot spot = TRY(spot_of(session, *running));
    if (spot.step == nullptr) return Next::stay();
    const WorkRefusal refusal = TRY(refusal_now(session, *spot.work, plate_));
    if (refusal != WorkRefusal::none) {
        return Next::push(TRY(refused(session, *spot.work, refusal, plate_)));
    }
    const WorkMove move = move_after(*spot.work, running->step, reply, spot.facts);
    const auto guard = guard_of(move);
    if (!guard || !row_for(WorkState::asking, WorkEvent::reply, *guard)) return Next::stay();
    if (*guard == WorkGuard::goes_in) return into_lockout(session, spot, reply, move);
    TRY(session.book().enter(TRY(facts_of_move(session, spot, reply, move))));
    if (move.way == WorkWay::on) return Next::stay();
    return after_end(session, spot, move);
}

// A job that was opened and not begun is no job.
Result<Next> WorkFlow::drop(Session& session) {
    const auto running = TRY(work_on(session.db(), plate_));
    if (!running || !row_for(WorkState::asking, WorkEvent::drop, WorkGuard::untouched)) {
        return Next::back();
    }
    Fact fact;
    fact.kind = "work-stopped";
    if (session.person()) fact.by = {session.person_id()};
    fact.about = running->running.entry;
    fact.data = {{"machine", plate_}, {"work", work_}, {"step", running->step}, {"held", false}};
    TRY(session.book().enter(fact));
    return Next::back();
}

Result<std::unique_ptr<Flow>> unfinished_work(const Session& session) {
    for (const WorkRow& row : TRY(works_of(session.db(), session.person_id()))) {
        if (TRY(lockout_of(session.db(), row.machine))) continue;
        return std::unique_ptr<Flow>(
            std::make_unique<WorkFlow>(row.machine, row.running.work));
    }
    return std::unique_ptr<Flow>();
}

namespace {

// A job for which the machine has nothing is not offered, and not begun from anywhere else.
Result<bool> is_offered(const Session& session, const std::string& plate, const Work& work) {
    const MachineClass* machine_class = class_of(session, plate);
    return machine_class != nullptr &&
           is_for(work, *machine_class, TRY(is_hopper_up(session.db(), plate)));
}

// A lockout is begun like the other jobs, and goes its own way from there.
Row lockout_row(const Say& say, const MachineClass* machine_class) {
    const bool raised = machine_class != nullptr && !machine_class->props.empty();
    Row row;
    row.id = kLockout;
    row.label = say("machine.lock-out");
    row.second = say(raised ? "machine.lock-out-raised" : "machine.lock-out-second");
    return row;
}

}  // namespace

Result<Page> JobsFlow::page(const Session& session) const {
    const Say say = session.say();
    const MachineClass* machine_class = class_of(session, plate_);
    Page page = session.blank("jobs/" + plate_);
    page.middle = plate_;
    ListBody body;
    body.heading = say("work.jobs", {{"machine", plate_}});
    body.remark = say("work.jobs-remark");
    for (const Work& work : session.pack().works) {
        if (!TRY(is_offered(session, plate_, work))) continue;
        Row row;
        row.id = std::string(kJob) + work.id;
        row.label = say(work.title);
        const WorkRefusal refusal = TRY(refusal_now(session, work, plate_));
        row.second = refusal == WorkRefusal::none
                         ? say("work.guided")
                         : say("work.refused-" + std::string(name_of(refusal)),
                               {{"machine", plate_}});
        if (refusal != WorkRefusal::none) row.mark = LugState::held;
        body.rows.push_back(std::move(row));
    }
    for (const WetFloor& floor : TRY(wet_floors(session.db()))) {
        Row row;
        row.id = std::string(kDry) + floor.room;
        row.label = say("work.lift-sign", {{"room", session.room_name(floor.room)}});
        row.second = say("work.lift-sign-second", {{"time", session.clock(floor.at_ms)}});
        row.mark = LugState::due;
        body.rows.push_back(std::move(row));
    }
    body.rows.push_back(lockout_row(say, machine_class));
    for (Row& row : TRY(tag_rows(session, plate_))) body.rows.push_back(std::move(row));
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> JobsFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == kLockout && session.person()) {
        return Next::replace(std::make_unique<LockoutFlow>(plate_));
    }
    if (action.id.starts_with(kJob)) {
        const Work* work = session.pack().work(action.id.substr(kJob.size()));
        if (work == nullptr || !TRY(is_offered(session, plate_, *work))) return Next::stay();
        return Next::push(TRY(WorkFlow::open(session, plate_, work->id)));
    }
    if (action.id == kTagAgain) return open_tag_again(session, plate_);
    if (!action.id.starts_with(kDry) || !session.person()) return Next::stay();
    for (const WetFloor& floor : TRY(wet_floors(session.db()))) {
        if (action.id.substr(kDry.size()) != floor.room) continue;
        Fact fact;
        fact.kind = "floor-dry";
        fact.by = {session.person_id()};
        fact.data = {{"room", floor.room}, {"machine", floor.machine}};
        TRY(session.book().enter(fact));
    }
    return Next::stay();
}

}  // namespace holdpin
