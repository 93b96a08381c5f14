#include "flows/machine.hpp"

#include <algorithm>

#include "flows/floor.hpp"
#include "flows/guide.hpp"
#include "flows/lockout.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/rooms.hpp"
#include "flows/round.hpp"
#include "flows/work_plan.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"
#include "rules/qualification.hpp"

namespace holdpin {
namespace {

// The next useful thing to do about a machine.
enum class Move {
    sign_on, call, learn, walk, close, air, take, lockout, work, put_tag, read_tag, lower
};

const Topic* topic_to_learn(const MachineFacts& facts) {
    for (const Hold& hold : facts.holds) {
        if (hold.code != HoldCode::topic_not_instructed) continue;
        for (const Topic& topic : facts.snapshot.machine_class->topics) {
            const bool open = std::find(hold.topics.begin(), hold.topics.end(), topic.id) !=
                              hold.topics.end();
            if (open && !topic.guide.empty()) return &topic;
        }
    }
    return nullptr;
}

bool is_round_hold(HoldCode code) {
    return code == HoldCode::round_missing || code == HoldCode::round_incomplete ||
           code == HoldCode::round_stale || code == HoldCode::round_other_person ||
           code == HoldCode::round_other_content;
}

// The job that brings a raised hopper down; null: the content has none.
const Work* lowering(const Session& session) {
    const auto& works = session.pack().works;
    const auto at = std::find_if(works.begin(), works.end(), [](const Work& work) {
        return work.needs == WorkNeeds::raised_hopper;
    });
    return at == works.end() ? nullptr : &*at;
}

// Learning comes before everything; a round only where nothing else holds the machine, so that
// nobody walks it in vain; a machine that was not given back is closed first.
Move next_move(const Session& session, const MachineFacts& facts) {
    if (!session.person()) return Move::sign_on;
    if (facts.locked_out) return Move::lockout;
    if (facts.snapshot.machine.work) return Move::work;
    if (facts.tag && !facts.tag->put_up) return Move::put_tag;
    if (facts.tag && is_asked_for(*facts.tag, session.person_id())) return Move::read_tag;
    if (facts.snapshot.machine.hopper_up && lowering(session) != nullptr) return Move::lower;
    if (facts.holds.empty()) return Move::take;
    if (topic_to_learn(facts) != nullptr) return Move::learn;
    bool own = true;
    bool not_returned = false;
    bool round = false;
    for (const Hold& hold : facts.holds) {
        not_returned = not_returned || hold.code == HoldCode::not_returned;
        round = round || is_round_hold(hold.code);
        own = own && (is_round_hold(hold.code) || hold.code == HoldCode::not_returned ||
                      hold.code == HoldCode::room_air);
    }
    if (!own) return Move::call;
    if (not_returned) return Move::close;
    return round ? Move::walk : Move::air;
}

Button main_button(const Session& session, const MachineFacts& facts) {
    const Say say = session.say();
    switch (next_move(session, facts)) {
        case Move::sign_on:
            return {"sign-on", say("floor.sign-on"), say("floor.sign-on-second"), true, ""};
        case Move::learn: {
            const Guide* guide = session.pack().guide(topic_to_learn(facts)->guide);
            return {"learn", say("machine.learn"),
                    guide == nullptr ? "" : say(guide->title), true, ""};
        }
        case Move::walk: {
            const bool running = facts.snapshot.machine.round_running;
            return {"walk", say(running ? "machine.go-on-round" : "machine.walk"),
                    say("machine.walk-second"), true, ""};
        }
        case Move::close:
            return {"close", say("machine.close"), say("machine.close-second"), true, ""};
        case Move::air:
            return {"air", say("machine.air"), say("machine.air-second"), true, ""};
        case Move::take:
            return {"take", say("machine.take"), say("machine.take-second"), true, ""};
        case Move::work: {
            const Work* work = session.pack().work(facts.snapshot.machine.work->work);
            return {"work", say("work.go-on"), work == nullptr ? "" : say(work->title), true, ""};
        }
        case Move::put_tag: return {"put-tag", say("tag.put"), say("tag.put-second"), true, ""};
        case Move::read_tag: return {"read-tag", say("tag.read"), say("tag.read-second"), true, ""};
        case Move::lower:
            return {"lower", say(lowering(session)->title), say("work.guided"), true, ""};
        case Move::lockout:
            return {"lockout", say("machine.lockout"), say("machine.lockout-second"), true, ""};
        case Move::call: break;
    }
    const auto on_call = person_with(session.db(), session.content().site.supervisor_on_call);
    if (!on_call.ok() || !on_call.value()) return {"call", say("machine.call"), "", true, ""};
    return {"call", say("machine.call"),
            say("machine.call-second", {{"extension", on_call.value()->extension},
                                        {"name", on_call.value()->name}}), true, ""};
}

std::string heading_for(const Session& session, const std::vector<HoldCard>& cards) {
    const Say say = session.say();
    if (cards.empty()) return say(session.person() ? "machine.no-hold" : "machine.no-hold-yet");
    if (cards.size() == 1) return say("machine.one-hold");
    return say("machine.holds", {{"count", std::to_string(cards.size())}});
}

std::vector<std::string> condition_lines(const Session& session, const MachineFacts& facts) {
    const Say say = session.say();
    const ReleaseOut& out = *facts.snapshot.machine.out;
    std::vector<std::string> lines{
        say("handed.window", {{"from", session.clock(out.from_ms)},
                              {"until", session.clock(out.until_ms)},
                              {"room", session.room_name(out.room)}})};
    for (const OpenFinding& finding : facts.snapshot.machine.findings) {
        if (finding.outcome != Outcome::limit || !finding.allowed) continue;
        const auto limits = private_text(session.db(), finding.text_hash);
        lines.push_back(finding_title(session, facts.snapshot.machine.plate, finding) + ": " +
                        (limits.ok() ? limits.value().value_or("") : ""));
    }
    const Room* room = session.content().room(out.room);
    if (room == nullptr || facts.snapshot.machine_class == nullptr) return lines;
    std::string plan = work_plan_line(session, *facts.snapshot.machine_class, *room);
    if (!plan.empty()) lines.push_back(std::move(plan));
    return lines;
}

// Jobs that are guided here, for whoever is signed on; a running one is the main action.
Button jobs_button(const Session& session, const MachineFacts& facts) {
    const bool running = facts.snapshot.machine.work || facts.locked_out;
    if (!session.person() || facts.snapshot.machine_class == nullptr || running) return {};
    return {"jobs", session.say()("work.jobs-button"), session.say()("work.jobs-button-second"),
            true, ""};
}

// Said in good time to whoever has the machine; empty: not yet.
std::string evaluation_line(const Session& session, const MachineFacts& facts) {
    if (facts.snapshot.machine_class == nullptr) return {};
    const int days = session.content().site.policy.evaluation_warn_days;
    const auto ends = evaluation_ends(*facts.snapshot.machine_class, facts.snapshot.topics,
                                      session.today(), days);
    return ends ? session.say()("handed.evaluation-ends", {{"date", session.date(*ends)}}) : "";
}

Page handed_page(const Session& session, Page page, const MachineFacts& facts, bool turn) {
    const Say say = session.say();
    const ReleaseOut& out = *facts.snapshot.machine.out;
    HandedBody body;
    body.plate = plate_view(session, facts);
    body.plate.lugs = lug_views(session, {});
    body.heading = say("handed.to");
    body.name = session.name(out.person);
    body.lines = condition_lines(session, facts);
    if (auto line = evaluation_line(session, facts); !line.empty()) {
        body.lines.push_back(std::move(line));
    }
    body.entry = say("handed.entry", {{"number", with_thousands(std::to_string(out.entry))}});
    body.remark = say("handed.remark");
    // Whoever has the machine out is the first who must hear of it.
    for (const Hold& hold : facts.holds) {
        if (hold.code != HoldCode::air_alarm) continue;
        const HoldCard card = hold_card(session, facts.snapshot, hold);
        body.plate.lugs = lug_views(session, {hold});
        body.heading = card.title;
        body.remark = card.reason;
    }
    body.turn = turn;
    if (!turn) body.jobs = jobs_button(session, facts);
    page.id = "handed/" + facts.snapshot.machine.plate;
    page.body = std::move(body);
    if (turn) {
        page.main = {"done", say("handed.done"), say("handed.done-second"), true, ""};
    } else {
        page.main = {"give-back", say("handed.give-back"),
                     say("handed.give-back-second"), true, ""};
    }
    return page;
}

bool out_to_me(const Session& session, const MachineFacts& facts) {
    const auto& out = facts.snapshot.machine.out;
    return out && session.person() && out->person == session.person_id() && !facts.locked_out;
}

Result<Next> call_supervisor(const Session& session) {
    const Say say = session.say();
    std::vector<std::string> lines;
    for (const Person& person : TRY(people(session.db()))) {
        if (!session.pack().grants(person.duties, Right::return_to_service)) continue;
        const bool on_call = person.id == session.content().site.supervisor_on_call;
        lines.push_back(say(on_call ? "call.on-call" : "call.other",
                            {{"name", person.name}, {"extension", person.extension}}));
    }
    return Next::push(std::make_unique<MessageFlow>(LugState::unasked, say("call.heading"), lines));
}

// Asks the decision once more with everything as it is now, and enters the release.
Result<Next> take(Session& session, const std::string& plate, const std::string& room) {
    const Snapshot snapshot = TRY(snapshot_of(session, plate, room));
    const Decision decision = decide_release(snapshot);
    if (!std::holds_alternative<Release>(decision)) {
        return Next::unwind(std::make_unique<MachineFlow>(plate, room));
    }
    const Release& release = std::get<Release>(decision);
    Fact fact;
    fact.kind = "release-given";
    fact.by = {release.person};
    fact.data = {{"machine", plate},          {"person", release.person},
                 {"room", release.room},      {"until_ms", release.until_ms},
                 {"round", release.round_entry}, {"limits", release.limits},
                 {"air_until_ms", release.air_until_ms},
                 {"rooms", release.rooms},    {"shifts", release.shifts}};
    TRY(session.book().enter(fact));
    return Next::unwind(std::make_unique<MachineFlow>(plate, room, true));
}

Result<Next> walk(Session& session, const std::string& plate, RoundPurpose purpose) {
    return Next::push(TRY(RoundFlow::open(session, plate, purpose)));
}

}  // namespace

Result<Page> MachineFlow::page(const Session& session) const {
    const MachineFacts facts = TRY(facts_of(session, plate_, room_));
    Page page = session.blank("machine/" + plate_);
    page.left = session.say()(session.content().site.name) + " · " +
                session.room_name(facts.snapshot.room);
    page.back = session.back_button();
    if (out_to_me(session, facts) && !facts.snapshot.machine.work) {
        return handed_page(session, std::move(page), facts, just_released_);
    }
    HoldsBody body;
    body.plate = plate_view(session, facts);
    body.holds = hold_cards(session, facts);
    body.heading = heading_for(session, body.holds);
    if (body.holds.empty()) {
        body.remark =
            session.say()(session.person() ? "machine.ready-remark" : "machine.sign-on-remark");
    }
    body.jobs = jobs_button(session, facts);
    page.body = std::move(body);
    page.main = main_button(session, facts);
    return page;
}

Result<Next> choose_room(Session& session, const std::string& plate) {
    const Snapshot snapshot = TRY(snapshot_of(session, plate));
    GridBody body;
    body.heading = session.say()("room.ask", {{"machine", plate}});
    for (const bool home : {true, false}) {
        for (const Room& room : session.content().site.rooms) {
            if ((room.id == snapshot.room) != home) continue;
            const bool closed = TRY(room_closed(session.db(), room.id));
            Tile tile;
            tile.id = "room:" + room.id;
            tile.label = session.say()(room.name);
            tile.second = session.say()(closed ? "room.closed" : home ? "room.home" : "room.other");
            body.tiles.push_back(std::move(tile));
        }
    }
    if (body.tiles.size() == 1) return take(session, plate, snapshot.room);
    return Next::push(std::make_unique<PickFlow>(
        "room/" + plate, std::move(body), [plate](Session& s, const std::string& id) {
            return take(s, plate, id.substr(std::string_view("room:").size()));
        }));
}

Result<Next> after_signing(Session& session, const std::string& plate) {
    const MachineFacts facts = TRY(facts_of(session, plate));
    if (next_move(session, facts) != Move::take) {
        return Next::unwind(std::make_unique<MachineFlow>(plate));
    }
    auto rooms = TRY(choose_room(session, plate));
    if (rooms.way != Next::Way::push) return rooms;
    return Next::unwind(std::move(rooms.flow));
}

Result<Next> MachineFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return just_released_ ? Next::unwind() : Next::back();
    if (action.id == "done") return leave_kiosk(session);
    if (action.id == "call") return call_supervisor(session);
    if (action.id == "give-back") return walk(session, plate_, RoundPurpose::give_back);
    if (action.id == "scan" && !session.person()) {
        return sign_on_scanned(session, action.arg, std::make_unique<MachineFlow>(plate_));
    }
    if (action.id == "sign-on") {
        return Next::push(std::make_unique<BadgeFlow>(
            session.say()("floor.sign-on"), [plate = plate_](Session& s, const Person& person) {
                return sign_on(s, person, std::make_unique<MachineFlow>(plate));
            }));
    }
    if (action.id == "lockout" && session.person()) {
        return Next::push(std::make_unique<LockoutFlow>(plate_));
    }
    const MachineFacts facts = TRY(facts_of(session, plate_, room_));
    const Move move = next_move(session, facts);
    if (action.id == "learn" && move == Move::learn) {
        return Next::push(TRY(GuideFlow::open(session, topic_to_learn(facts)->guide)));
    }
    if (action.id == "walk" && move == Move::walk) {
        return walk(session, plate_, RoundPurpose::start);
    }
    if (action.id == "close" && move == Move::close) {
        return walk(session, plate_, RoundPurpose::close_for_other);
    }
    if (action.id == "air" && move == Move::air) {
        return Next::push(std::make_unique<RoomFlow>(facts.snapshot.room, plate_));
    }
    if (action.id == "take" && move == Move::take) return choose_room(session, plate_);
    if (action.id == "jobs" && !jobs_button(session, facts).id.empty()) {
        return Next::push(std::make_unique<JobsFlow>(plate_));
    }
    if (action.id == "work" && move == Move::work) {
        return Next::push(
            TRY(WorkFlow::open(session, plate_, facts.snapshot.machine.work->work)));
    }
    if (action.id == "lower" && move == Move::lower) {
        return Next::push(TRY(WorkFlow::open(session, plate_, lowering(session)->id)));
    }
    if (action.id == "put-tag" && move == Move::put_tag) {
        return Next::push(std::make_unique<TagFlow>(
            plate_, [](Session&) -> Result<Next> { return Next::done(); }));
    }
    if (action.id == "read-tag" && move == Move::read_tag) {
        return Next::push(tag_question(session, plate_));
    }
    return Next::stay();
}

}  // namespace holdpin
