#include "flows/work_step.hpp"

#include <algorithm>

#include "flows/data_sheets.hpp"
#include "flows/leak_found.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kTilesMax = 4;  // beside a picture; more stand in a grid

std::string reply_id(const WorkStep& step, std::string_view answer, const std::string& value = "") {
    return "reply:" + step.id + ":" + std::string(answer) + (value.empty() ? "" : ":" + value);
}

const Drain* drain_with(const Session& session, const std::string& id) {
    for (const Drain* drain : open_drains(session.content().site)) {
        if (drain->id == id) return drain;
    }
    return nullptr;
}

std::string due_text(const Session& session, const Cylinder& cylinder) {
    const auto due = due_of(cylinder, session.content().site.cylinders);
    return due.ok() ? year_month_text(due.value()) : "?";
}

// Why the step is asked again, as the answer before says. What a ladder says belongs to its end.
std::string remark_of(const Session& session, const WorkSpot& spot) {
    const WorkStep* before = spot.work->step(spot.row.last_step);
    const WorkAnswer* answer = before == nullptr ? nullptr : before->answer(spot.row.last_answer);
    const bool said = answer != nullptr && answer->ladder.empty();
    return said ? session.say()(answer->remark) : std::string();
}

// What was chosen on the way, for everybody to see while it is handled.
std::string chosen_line(const Session& session, const WorkSpot& spot) {
    if (!spot.row.cylinder.empty() && spot.step->ask != WorkAsk::cylinder) {
        for (const Cylinder& cylinder : spot.cylinders) {
            if (cylinder.serial != spot.row.cylinder) continue;
            return session.say()("work.cylinder", {{"serial", cylinder.serial},
                                                   {"due", due_text(session, cylinder)}});
        }
    }
    const Drain* drain = drain_with(session, spot.row.drain);
    return drain == nullptr ? std::string() : session.say()(drain->name);
}

Progress progress_of(const WorkSpot& spot) {
    const auto at = spot.step - spot.work->steps.data();
    return {static_cast<int>(at), static_cast<int>(spot.work->steps.size())};
}

// Of several pictures one is right, and every other stops the machine.
bool is_trial(const WorkStep& step) {
    const auto stops = std::count_if(
        step.answers.begin(), step.answers.end(),
        [](const WorkAnswer& answer) { return answer.ends == WorkEnds::stop; });
    return step.answers.size() > 2 && stops + 1 == static_cast<int>(step.answers.size());
}

// The right one of a trial stands in another place from job to job: nobody learns the place.
std::vector<Tile> answer_tiles(const Session& session, const WorkSpot& spot) {
    const WorkStep& step = *spot.step;
    std::vector<Tile> tiles;
    for (const WorkAnswer& answer : step.answers) {
        if (answer.label.empty()) continue;
        tiles.push_back({reply_id(step, answer.id), session.say()(answer.label), "",
                         answer.drawing, {}, true, ""});
    }
    if (is_trial(step)) {
        const auto turns = spot.row.running.entry % static_cast<std::int64_t>(tiles.size());
        std::rotate(tiles.begin(), tiles.begin() + turns, tiles.end());
    }
    return tiles;
}

StepBody act_body(const Session& session, const WorkSpot& spot) {
    const Say say = session.say();
    const WorkStep& step = *spot.step;
    StepBody body;
    body.progress = progress_of(spot);
    body.picture = say.picture(step.picture);
    body.warnings = say.warnings(step.warnings);
    body.action = say(step.action);
    body.key_point_label = say("guide.key-point");
    body.key_point = say(step.key_point);
    body.reason_label = say("guide.because");
    body.reason = say(step.reason);
    body.note = remark_of(session, spot);
    return body;
}

ChoiceBody choice_body(const Session& session, const WorkSpot& spot) {
    const Say say = session.say();
    const WorkStep& step = *spot.step;
    ChoiceBody body;
    body.progress = progress_of(spot);
    body.picture = say.picture(step.picture);
    body.warnings = say.warnings(step.warnings);
    body.question = say(step.action);
    body.look = say(step.key_point);
    body.tiles = answer_tiles(session, spot);
    body.remark = remark_of(session, spot);
    body.remark_is_held = !body.remark.empty();
    return body;
}

GridBody grid_body(const Session& session, const WorkSpot& spot) {
    const std::string remark = remark_of(session, spot);
    GridBody body;
    body.heading = session.say()(spot.step->action);
    body.remark = remark.empty() ? session.say()(spot.step->key_point) : remark;
    body.tiles = answer_tiles(session, spot);
    return body;
}

Row thing_row(const WorkStep& step, const std::string& id, std::string label, std::string second) {
    Row row;
    row.id = reply_id(step, kWorkChosen, id);
    row.label = std::move(label);
    row.second = std::move(second);
    return row;
}

void add_cylinders(const Session& session, const WorkSpot& spot, ListBody& body) {
    const Say say = session.say();
    for (const Cylinder& cylinder : spot.cylinders) {
        if (cylinder.state != CylinderState::full) continue;
        Row row = thing_row(*spot.step, cylinder.serial, cylinder.serial,
                            say("work.due", {{"due", due_text(session, cylinder)}}));
        row.enabled = may_be_fitted(cylinder, session.content().site.cylinders, session.today());
        row.why_not = say("cylinder.refused-overdue");
        body.rows.push_back(std::move(row));
    }
    if (body.rows.empty()) body.remark = say("work.no-cylinder");
}

// Names of products whose data sheets the site keeps, each once.
std::vector<std::string> products_of(const Session& session) {
    std::vector<std::string> names;
    if (session.world().data_sheets == nullptr) return names;
    const auto all = session.world().data_sheets->list();
    for (const DataSheet& sheet : sheets_for(all, session.say().language(), "")) {
        const bool plain = sheet.name.find(':') == std::string::npos;
        if (plain && std::find(names.begin(), names.end(), sheet.name) == names.end()) {
            names.push_back(sheet.name);
        }
    }
    return names;
}

// A place, a drain, a cylinder or a product of the site, and what the file adds to them.
ListBody list_body(const Session& session, const WorkSpot& spot) {
    const Say say = session.say();
    const WorkStep& step = *spot.step;
    const std::string remark = remark_of(session, spot);
    ListBody body;
    body.heading = say(step.action);
    body.remark = remark.empty() ? say(step.key_point) : remark;
    if (step.ask == WorkAsk::cylinder) add_cylinders(session, spot, body);
    for (const ExchangePlace& place : session.content().site.exchange_places) {
        if (step.ask == WorkAsk::place) {
            body.rows.push_back(thing_row(step, place.id, say(place.name), ""));
        }
    }
    for (const Drain* drain : open_drains(session.content().site)) {
        if (step.ask == WorkAsk::drain) {
            body.rows.push_back(thing_row(step, drain->id, say(drain->name), say(drain->leads_to)));
        }
    }
    if (step.ask == WorkAsk::product) {
        for (const std::string& name : products_of(session)) {
            body.rows.push_back(thing_row(step, name, name, say("work.has-data-sheet")));
        }
    }
    for (const WorkAnswer& answer : step.answers) {
        if (answer.label.empty()) continue;
        Row row;
        row.id = reply_id(step, answer.id);
        row.label = say(answer.label);
        body.rows.push_back(std::move(row));
    }
    return body;
}

Result<std::vector<std::string>> offered_at(const Session& session, const WorkSpot& spot) {
    std::vector<std::string> ids;
    const Site& site = session.content().site;
    switch (spot.step->ask) {
        case WorkAsk::act:
        case WorkAsk::choose: break;
        case WorkAsk::place:
            for (const ExchangePlace& place : site.exchange_places) ids.push_back(place.id);
            break;
        case WorkAsk::drain:
            for (const Drain* drain : open_drains(site)) ids.push_back(drain->id);
            break;
        case WorkAsk::product: return products_of(session);
        case WorkAsk::cylinder:
            for (const Cylinder& one : spot.cylinders) {
                if (may_be_fitted(one, site.cylinders, session.today())) ids.push_back(one.serial);
            }
            break;
    }
    return ids;
}

Fact fact_by(const Session& session, std::string kind, nlohmann::json data) {
    Fact fact;
    fact.kind = std::move(kind);
    fact.by = {session.person_id()};
    fact.data = std::move(data);
    return fact;
}

Fact cylinder_fact(const Session& session, const std::string& serial, CylinderState state,
                   const std::string& machine) {
    return fact_by(session, "cylinder-set", {{"serial", serial},
                                             {"state", std::string(name_of(state))},
                                             {"machine", machine}});
}

// It came on before there was a list: somebody has to read its collar.
Fact unlisted_fact(const Session& session, CylinderState state, const std::string& machine) {
    return fact_by(session, "cylinder-unlisted",
                   {{"machine", machine}, {"state", std::string(name_of(state))}});
}

Fact floor_fact(const Session& session, WorkDoes does, const std::string& room,
                const std::string& machine) {
    Fact fact = fact_by(session, "", {{"room", room}, {"machine", machine}});
    fact.kind = "floor-wet";
    if (does == WorkDoes::floor_dry) fact.kind = "floor-dry";
    return fact;
}

// What the answer changes beside the job itself.
Result<void> add_effects(const Session& session, const WorkSpot& spot, WorkDoes does,
                         std::vector<Fact>& facts) {
    const std::string& machine = spot.row.machine;
    const Drain* drain = drain_with(session, spot.row.drain);
    const auto row = TRY(machine_row(session.db(), machine));
    const std::string room = drain != nullptr ? drain->room : row ? row->room : "";
    switch (does) {
        case WorkDoes::nothing:
        case WorkDoes::coupling_tight:
        case WorkDoes::hopper_up:
        case WorkDoes::hopper_down: break;
        case WorkDoes::cylinder_out:
        case WorkDoes::fitted_aside: {
            const auto old = TRY(fitted_on(session.db(), machine));
            const bool leaks = does == WorkDoes::fitted_aside;
            const CylinderState state = leaks ? CylinderState::set_aside : CylinderState::empty;
            if (old && !old->empty()) facts.push_back(cylinder_fact(session, *old, state, machine));
            if (!old) facts.push_back(unlisted_fact(session, state, machine));
            break;
        }
        case WorkDoes::cylinder_in:
            facts.push_back(
                cylinder_fact(session, spot.row.cylinder, CylinderState::on_machine, machine));
            break;
        case WorkDoes::cylinder_aside:
            facts.push_back(
                cylinder_fact(session, spot.row.cylinder, CylinderState::set_aside, machine));
            break;
        case WorkDoes::floor_wet:
            facts.push_back(floor_fact(session, does, room, machine));
            break;
        case WorkDoes::floor_dry:
            facts.push_back(floor_fact(session, does, room, machine));
            break;
    }
    return {};
}

const char* kind_of(WorkWay way) {
    switch (way) {
        case WorkWay::on: return "work-step-done";
        case WorkWay::finish: return "work-finished";
        case WorkWay::refused:
        case WorkWay::leave:
        case WorkWay::stop: break;
    }
    return "work-stopped";
}

Fact step_fact(const Session& session, const WorkSpot& spot, const WorkReply& reply,
               const WorkMove& move) {
    Fact fact = fact_by(session, kind_of(move.way), {{"machine", spot.row.machine},
                                                     {"work", spot.work->id},
                                                     {"step", reply.step},
                                                     {"answer", reply.answer}});
    fact.about = spot.row.running.entry;
    fact.content = spot.row.digest;
    if (move.way == WorkWay::on) fact.data["next"] = move.next;
    if (move.way == WorkWay::leave) fact.data["held"] = false;
    if (move.way == WorkWay::stop) fact.data["held"] = true;
    if (move.leak > 0) fact.data["leak"] = move.leak;
    if (move.answer->does == WorkDoes::coupling_tight) fact.data["tight"] = true;
    if (move.answer->does == WorkDoes::hopper_up) fact.data["hopper"] = "up";
    if (move.answer->does == WorkDoes::hopper_down) fact.data["hopper"] = "down";
    if (spot.step->ask == WorkAsk::place) fact.data["place"] = reply.value;
    if (spot.step->ask == WorkAsk::drain) fact.data["drain"] = reply.value;
    if (spot.step->ask == WorkAsk::cylinder) fact.data["cylinder"] = reply.value;
    if (spot.step->ask == WorkAsk::product && !reply.value.empty()) {
        fact.data["product"] = reply.value;
    }
    return fact;
}

}  // namespace

Result<WorkSpot> spot_of(const Session& session, const WorkRow& row) {
    WorkSpot spot;
    spot.row = row;
    spot.work = session.pack().work(row.running.work);
    const bool same = session.pack().digest("work", row.running.work) == row.digest;
    spot.step = spot.work == nullptr || !same ? nullptr : spot.work->step(row.step);
    const MachineClass* machine_class = class_of(session, row.machine);
    spot.facts.has_hopper = machine_class != nullptr && machine_class->hopper.has_value();
    spot.facts.hopper_up = TRY(is_hopper_up(session.db(), row.machine));
    spot.facts.leaks = TRY(leaks_of(session.db(), row.machine));
    spot.cylinders = TRY(cylinders(session.db()));
    if (spot.step != nullptr) spot.facts.offered = TRY(offered_at(session, spot));
    return spot;
}

Page step_page(const Session& session, const WorkSpot& spot) {
    const Say say = session.say();
    const WorkStep& step = *spot.step;
    Page page = session.blank("work/" + spot.work->id + "/" + spot.row.machine + "/" + step.id);
    page.left = spot.row.machine + " · " + say(spot.work->short_title);
    page.middle = chosen_line(session, spot);
    page.back = session.back_button();
    const MachineClass* machine_class = class_of(session, spot.row.machine);
    const std::string footing =
        say.footing(step.footing, machine_class != nullptr && machine_class->is_truck);
    if (step.ask == WorkAsk::act) {
        StepBody body = act_body(session, spot);
        body.footing = footing;
        page.body = std::move(body);
        page.main = {reply_id(step, kWorkDone), say("work.done"), say("work.done-second"), true,
                     ""};
    } else if (step.ask != WorkAsk::choose) {
        page.body = list_body(session, spot);
    } else if (step.answers.size() > kTilesMax) {
        page.body = grid_body(session, spot);
    } else {
        ChoiceBody body = choice_body(session, spot);
        body.footing = footing;
        page.body = std::move(body);
    }
    return page;
}

Result<std::vector<Fact>> facts_of_move(Session& session, const WorkSpot& spot,
                                        const WorkReply& reply, const WorkMove& move) {
    std::vector<Fact> facts{step_fact(session, spot, reply, move)};
    TRY(add_effects(session, spot, move.answer->does, facts));
    if (move.leak > 0 || move.answer->hazard == Hazard::lp_leak) {
        TRY(add_void_for_leak(session, spot.row.machine, facts));
    }
    if (move.way != WorkWay::stop) return facts;
    facts.push_back(fact_by(session, "finding-entered",
                            {{"machine", spot.row.machine},
                             {"point", "work/" + spot.work->id + "/" + reply.step},
                             {"reading", reply.answer},
                             {"outcome", "stop"},
                             {"hazard", std::string(name_of(move.answer->hazard))},
                             {"source", "work"}}));
    facts.back().content = spot.row.digest;
    if (move.leak > 0) facts.back().data["leak"] = move.leak;
    TRY(add_tag(session, spot.row.machine, facts));
    return facts;
}

}  // namespace holdpin
