// What the pages of a lockout show; the deeds are in lockout.cpp and lockout_work.cpp.

#include <limits>

#include "flows/desk.hpp"
#include "flows/lockout.hpp"
#include "flows/lockout_review.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_work.hpp"
#include "flows/plates.hpp"

namespace holdpin {
namespace {

const Energy* energy_of(const Session& session, const std::string& plate, const std::string& id) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return nullptr;
    for (const Energy& energy : machine_class->energies) {
        if (energy.id == id) return &energy;
    }
    return nullptr;
}

bool is_raised(const Lockout& state) { return !state.plan.props.empty(); }

// Everything that is still to be done counts as one piece of the way.
Progress progress_of(const Lockout& state) {
    const LockoutPlan& plan = state.plan;
    Progress progress;
    progress.total = static_cast<int>(1 + 2 * plan.props.size() + plan.sources.size() +
                                      plan.stored.size() + plan.tags.size() + (plan.locks ? 2 : 0));
    progress.done = static_cast<int>(state.set_by.size() + state.seen_by.size() +
                                     state.isolated.size() + state.relieved.size() +
                                     state.measured.size() +
                                     (state.locks.empty() ? 0U : 1U) +
                                     (state.step <= LockoutStep::shutdown ? 0U : 1U));
    return progress;
}

bool is_way_in(LockoutStep step) { return step <= LockoutStep::trying; }

PictureView picture_of(const Session& session, const Lockout& state, const std::string& prop) {
    const MachineClass* machine_class = class_of(session, state.machine);
    if (machine_class == nullptr || !is_raised(state)) return {};
    Picture picture;
    picture.file = "hopper-raised";
    for (const Prop& one : machine_class->props) {
        if (prop.empty() || one.id == prop) picture.parts.push_back(one.part);
    }
    return session.say().picture(picture);
}

ChoiceBody choice(const Session& session, const Lockout& state) {
    const Say say = session.say();
    ChoiceBody body;
    if (is_way_in(state.step)) body.progress = progress_of(state);
    if (is_raised(state) && is_way_in(state.step)) {
        body.warnings.push_back({Signal::danger, say("signal.danger"), say("lockout.danger")});
    }
    body.picture = picture_of(session, state, "");
    body.footing = say("lockout.protects");
    return body;
}

// The words of a step; with a raised part some of them say more.
std::string step_text(const Session& session, const Lockout& state, const std::string& what) {
    const std::string key = what + "-" + std::string(name_of(state.step));
    const bool raised = is_raised(state) && (state.step == LockoutStep::shutdown ||
                                             state.step == LockoutStep::closing ||
                                             state.step == LockoutStep::trying ||
                                             state.step == LockoutStep::looking);
    const bool stays = state.step == LockoutStep::closing && stays_on_props(session, state.machine);
    return session.say()("lockout." + key + (stays ? "-on-props" : raised ? "-raised" : ""),
                         {{"machine", state.machine}});
}

void add_readings(const Session& session, ChoiceBody& body, const std::string& section,
                  std::initializer_list<const char*> readings) {
    for (const char* reading : readings) {
        body.tiles.push_back({"reading:" + std::string(reading),
                              session.say()("lockout." + section + "-" + reading), "", "", {}, true,
                              ""});
    }
}

void ask_reading(const Session& session, ChoiceBody& body, const Lockout& state,
                 const std::string& prop) {
    const Say say = session.say();
    const Args args{{"prop", prop_name(session, state.machine, prop)}};
    body.picture = picture_of(session, state, prop);
    const bool setting = state.step == LockoutStep::propping;
    body.question = say(setting ? "lockout.prop-ask" : "lockout.seen-ask", args);
    body.look = say(setting ? "lockout.prop-look" : "lockout.seen-look");
    if (setting) {
        add_readings(session, body, "prop", {"fine", "not-fine", "damaged"});
    } else {
        add_readings(session, body, "seen", {"fine", "not-fine", "damaged"});
    }
}

void ask_source(const Session& session, ChoiceBody& body, const Lockout& state,
                const std::string& source) {
    const Say say = session.say();
    const bool isolating = state.step == LockoutStep::isolating;
    const Energy* energy = energy_of(session, state.machine, source);
    body.question = energy == nullptr ? source : say(isolating ? energy->isolate : energy->verify);
    body.look = say(isolating ? "lockout.source" : "lockout.stored",
                    {{"source", source_name(session, state.machine, source)}});
}

void ask_measure(const Session& session, ChoiceBody& body, const Lockout& state,
                 const std::string& source) {
    const Say say = session.say();
    const Energy* energy = energy_of(session, state.machine, source);
    body.question = energy == nullptr ? source : say(energy->extra_measure);
    body.look = say("lockout-tag.look", {{"source", source_name(session, state.machine, source)}});
}

// Steps that are one thing to do, confirmed by the main action.
void tell_step(const Session& session, ChoiceBody& body, const Lockout& state) {
    body.question = step_text(session, state, "do");
    body.look = step_text(session, state, "look");
    if (state.step == LockoutStep::unprop) {
        const std::string prop = next_to_stow(state);
        body.picture = picture_of(session, state, prop);
        body.question = session.say()("lockout.stow",
                                      {{"prop", prop_name(session, state.machine, prop)}});
    }
    if (state.step == LockoutStep::testing) {
        body.look = session.say()("lockout.look-testing",
                                  {{"time", session.clock(due_ms(state))}});
    }
}

std::string done_label(const Session& session, const Lockout& state, bool seeing) {
    const Say say = session.say();
    if (seeing) return say("lockout.second");
    if (state.step == LockoutStep::closing && stays_on_props(session, state.machine)) {
        return say("lockout.done-closing-on-props");
    }
    return say("lockout.done-" + std::string(name_of(state.step)));
}

std::string board_heading(const Session& session, const Lockout& state) {
    const Say say = session.say();
    const Args args{{"machine", state.machine}, {"name", session.name(state.lead)}};
    std::string text = say("lockout.at-" + std::string(name_of(state.step)), args);
    if (state.step == LockoutStep::working && due_ms(state) != 0) {
        text += " " + say("lockout.look-by", {{"time", session.clock(due_ms(state))}});
    }
    return text;
}

Row lock_row(const Session& session, const Lockout& state, const std::string& person,
             const Lock& lock) {
    const Say say = session.say();
    Row row;
    row.label = lock.device + " · " + session.name(person);
    row.second = say("lockout.on-since", {{"time", session.when(lock.placed_ms)}});
    row.word = say(person == state.lead ? "lockout.key-holder" : "lockout.lock-on");
    row.mark = LugState::held;
    return row;
}

bool would_do(const Session& session, const Lockout& state, LockoutEvent event) {
    event.by = session.person_id();
    event.at_ms = session.now();
    return apply(state, event).ok();
}

LockoutEvent probe(LockoutDeed deed) {
    LockoutEvent event;
    event.deed = deed;
    event.item = "-";
    event.seen = std::numeric_limits<int>::max();
    for (const auto item : kClearItems) event.items.emplace_back(item);
    for (const auto item : kAbsentItems) event.items.emplace_back(item);
    return event;
}

// Only what can be done now; what is out of order is not offered.
std::vector<Row> board_work(const Session& session, const Lockout& state, bool joins) {
    const Say say = session.say();
    std::vector<Row> rows;
    const auto offer = [&](const std::string& id) {
        rows.push_back(
            work_row(id, say("lockout." + id), say("lockout." + id + "-second"), ""));
    };
    const bool group = session.person() && may_lock_out(session, *session.person());
    const bool lead = session.person_id() == state.lead;
    if (would_do(session, state, probe(LockoutDeed::reverify))) {
        offer("look");
        offer("moved");
    }
    if (joins && would_do(session, state, probe(LockoutDeed::place_lock))) offer("join");
    if (would_do(session, state, probe(LockoutDeed::remove_lock))) offer("off");
    const bool still = state.step == LockoutStep::testing || state.step == LockoutStep::leaving;
    if (lead && !still) offer("over");
    if (would_do(session, state, probe(LockoutDeed::begin_test))) offer("test");
    std::set<std::string> owners{state.lead};
    for (const auto& [person, lock] : state.locks) owners.insert(person);
    for (const std::string& owner : owners) {
        LockoutEvent event = probe(LockoutDeed::remove_for_absent);
        event.owner = owner;
        event.second = "-";
        if (!group || !would_do(session, state, event)) continue;
        rows.push_back(work_row("absent:" + owner,
                                say("lockout.absent", {{"name", session.name(owner)}}),
                                say("lockout.absent-second-line"), ""));
    }
    return rows;
}

// A procedure that nobody has looked over for a year says so wherever it is begun.
Result<std::string> procedure_remark(const Session& session, const MachineClass& machine_class) {
    const Say say = session.say();
    const auto inspected = TRY(procedure_inspected(session.db(), machine_class.id, "lockout"));
    if (!inspected) return say("lockout.never-inspected");
    const Date until =
        add_months(session.world().zone.local(inspected->at_ms).date, kInspectionMonths);
    if (session.today() > until) {
        return say("lockout.inspection-over", {{"date", session.date(until)}});
    }
    return std::string();
}

Tile job_tile(const Session& session, LockoutJob job, const std::string& second,
              std::string why_not) {
    Tile tile;
    tile.id = "job:" + std::string(name_of(job));
    tile.label = session.say()("lockout.job-" + std::string(name_of(job)));
    tile.second = session.say()("lockout.job-" + second);
    tile.enabled = why_not.empty();
    tile.why_not = std::move(why_not);
    return tile;
}

}  // namespace

Result<Page> LockoutFlow::start_page(const Session& session) const {
    const Say say = session.say();
    const MachineClass* machine_class = class_of(session, plate_);
    if (machine_class == nullptr) {
        return Error{ErrorKind::absent, "this machine's class is not in the content", plate_,
                     "tell the author"};
    }
    Page page = session.blank("lockout/" + plate_);
    page.middle = say("lockout.title", {{"machine", plate_}});
    GridBody body;
    const bool raised = !machine_class->props.empty();
    body.heading = say(raised ? "lockout.what-goes-in" : "lockout.begin", {{"machine", plate_}});
    body.remark = say("lockout.protects");
    const std::string inspection = TRY(procedure_remark(session, *machine_class));
    if (!inspection.empty()) body.remark += " " + inspection;
    const std::int64_t left = TRY(rinse_left_ms(session.db(), plate_));
    if (left != 0) body.remark += " " + say("lockout.rinse-waits", {{"time", session.when(left)}});
    if (raised) {
        const bool alone = TRY(arm_alone_assessed(session, machine_class->id));
        body.tiles.push_back(
            job_tile(session, LockoutJob::nothing, "nothing-second",
                     TRY(why_not_job(session, *machine_class, LockoutJob::nothing))));
        body.tiles.push_back(
            job_tile(session, LockoutJob::arm, alone ? "arm-alone" : "arm-second",
                     TRY(why_not_job(session, *machine_class, LockoutJob::arm))));
    }
    body.tiles.push_back(job_tile(session, LockoutJob::me, raised ? "me-second" : "me-flat",
                                  TRY(why_not_job(session, *machine_class, LockoutJob::me))));
    if (raised) {
        body.tiles.push_back({"leave", say("lockout.leave"), say("lockout.leave-second"), "", {},
                              true, ""});
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Page LockoutFlow::step_page(const Session& session, const Lockout& state) const {
    const Say say = session.say();
    if (state.step == LockoutStep::reviewing) return review_page(session, state);
    const std::string step(name_of(state.step));
    Page page = session.blank("lockout/" + plate_ + "/" + step);
    page.middle = say("lockout.title", {{"machine", plate_}}) + " · " + say("lockout.step-" + step);
    ChoiceBody body = choice(session, state);
    bool asks = false;  // tiles answer; else the main action confirms
    bool seeing = false;
    if (!state.damaged.empty() && is_way_in(state.step)) {
        page.id += "/damaged";
        body.question = say("lockout.damaged");
        body.look = say("lockout.damaged-line");
        asks = true;  // nothing: the way out is among the others
    } else if (state.step == LockoutStep::propping) {
        page.id += "/" + next_prop(state);
        ask_reading(session, body, state, next_prop(state));
        asks = true;
    } else if (state.step == LockoutStep::isolating) {
        page.id += "/" + next_source(state);
        ask_source(session, body, state, next_source(state));
    } else if (state.step == LockoutStep::tagging) {
        page.id += "/" + next_measure(state);
        ask_measure(session, body, state, next_measure(state));
    } else if (state.step == LockoutStep::relieving && !next_stored(state).empty()) {
        page.id += "/" + next_stored(state);
        ask_source(session, body, state, next_stored(state));
    } else if (state.step == LockoutStep::relieving && !second_.empty()) {
        page.id += "/" + next_unseen(state);
        page.middle = session.name(second_);
        ask_reading(session, body, state, next_unseen(state));
        asks = true;
    } else {
        seeing = state.step == LockoutStep::relieving;
        tell_step(session, body, state);
        asks = state.step == LockoutStep::trying || state.step == LockoutStep::looking;
        if (asks) add_readings(session, body, step, {"fine", "not-fine"});
    }
    const bool on_way_in =
        is_way_in(state.step) || state.step == LockoutStep::looking;
    body.aside = {"board", say(on_way_in ? "lockout.others" : "lockout.others-out"),
                  say(on_way_in ? "lockout.others-second" : "lockout.others-out-second"), true, ""};
    page.body = std::move(body);
    page.back = session.back_button();
    if (!asks) page.main = {"done", done_label(session, state, seeing), "", true, ""};
    return page;
}

Result<Page> LockoutFlow::board_page(const Session& session, const Lockout& state) const {
    const Say say = session.say();
    Page page = session.blank("lockout/" + plate_ + "/board/" + std::string(name_of(state.step)));
    page.middle = say("lockout.title", {{"machine", plate_}});
    ListBody body;
    body.heading = board_heading(session, state);
    body.remark = say("lockout.protects");
    if (state.step == LockoutStep::working) {
        body.remark += " " + say("lockout.work-" + std::string(name_of(state.job)));
    }
    for (const auto& [person, lock] : state.locks) {
        body.rows.push_back(lock_row(session, state, person, lock));
    }
    if (!state.locks.contains(state.lead)) {
        Row row;
        row.label = session.name(state.lead);
        row.word = say("lockout.key-holder");
        body.rows.push_back(std::move(row));
    }
    const bool joins = TRY(may_join(session, plate_));
    for (Row& row : board_work(session, state, joins)) body.rows.push_back(std::move(row));
    page.body = std::move(body);
    page.back = session.back_button();
    if (would_do(session, state, probe(LockoutDeed::clear))) {
        const bool working = state.step == LockoutStep::working;
        page.main = {"clear", say(working ? "lockout.clear" : "lockout.turn-back"),
                     say("lockout.clear-second"), true, ""};
    }
    return page;
}

}  // namespace holdpin
