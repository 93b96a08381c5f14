#include "flows/plates.hpp"

#include <algorithm>

#include "flows/air.hpp"
#include "records/lockout.hpp"
#include "records/privacy.hpp"
#include "records/works.hpp"

namespace holdpin {
namespace {

std::string round_draft_key(const std::string& person, const std::string& plate) {
    return "round/" + person + "/" + plate + "/before";
}

Result<void> add_person(const Session& session, Snapshot& s) {
    if (!session.person()) return {};
    s.person = &*session.person();
    s.topics = TRY(topics_of(session.db(), s.person->id));
    if (s.machine_class != nullptr) {
        s.authorisation = TRY(authorisation_of(session.db(), s.person->id, s.machine_class->id));
    }
    const auto draft =
        TRY(find_draft(session.db(), round_draft_key(s.person->id, s.machine.plate)));
    s.machine.round_running = draft.has_value();
    return {};
}

// A round of the running shift goes on counting for it; a new one counts for the coming shift.
std::optional<ShiftWindow> shift_of(const Session& session, const MachineState& machine) {
    const auto running = session.shift();
    const bool walked = running && machine.round && machine.round->person == session.person_id() &&
                        machine.round->shift_end_ms == running->end_ms;
    return walked ? running : session.work_shift();
}

std::string topic_names(const Session& session, const Snapshot& s, const Hold& hold) {
    std::vector<std::string> names;
    for (const std::string& id : hold.topics) {
        for (const Topic& topic : s.machine_class->topics) {
            if (topic.id == id) names.push_back(session.say()(topic.name));
        }
    }
    constexpr std::size_t kMostNamed = 3;
    if (names.size() <= kMostNamed) return joined(names, ", ");
    const std::size_t more = names.size() - kMostNamed + 1;
    names.resize(kMostNamed - 1);
    return session.say()("holds.and-more",
                         {{"names", joined(names, ", ")}, {"count", std::to_string(more)}});
}

std::string condition_text(const Session& session, const Snapshot& s, const std::string& which) {
    std::vector<std::string> names;
    if (which == "room") {
        for (const auto& id : s.authorisation->rooms) names.push_back(session.room_name(id));
        return session.say()("condition.rooms", {{"rooms", joined(names, ", ")}});
    }
    for (const auto& id : s.authorisation->shifts) {
        const Shift* shift = session.content().shift(id);
        names.push_back(shift == nullptr ? id : session.say()(shift->name));
    }
    return session.say()("condition.shifts", {{"shifts", joined(names, ", ")}});
}

const OpenFinding* finding_in(const Snapshot& s, std::int64_t entry) {
    for (const OpenFinding& finding : s.machine.findings) {
        if (finding.entry == entry) return &finding;
    }
    return nullptr;
}

std::int64_t minutes_of(const Snapshot& s, const Hold& hold) {
    return hold.code == HoldCode::room_air ? (hold.at_ms - s.now_ms) / 60'000 : hold.number;
}

// A forecast may be held against the average of eight hours: then the words say so.
std::string level_text(const Session& session, const Snapshot& s, const Hold& hold) {
    std::string text = ppm_text(static_cast<double>(hold.limit));
    if (hold.code == HoldCode::air_alarm) {
        return session.say()("alarm.cause-" + std::string(name_of(s.alarm_cause)), {{"ppm", text}});
    }
    const bool average = hold.code == HoldCode::room_air && s.air && s.air->is_average;
    return average ? session.say()("air.average", {{"level", text}}) : text;
}

// The facts of a hold as the arguments its sentences may use.
Args hold_args(const Session& session, const Snapshot& s, const Hold& hold) {
    Args args{{"machine", s.machine.plate},
              {"person", session.person() ? session.person()->name : ""},
              {"holder", hold.person.empty() ? "" : session.name(hold.person)},
              {"minutes", std::to_string(minutes_of(s, hold))},
              {"hours", hours_text(hold.number)},
              {"due", hours_text(hold.limit)},
              {"time", hold.at_ms == 0 ? "" : session.when(hold.at_ms)},
              {"until", hold.at_ms == 0 ? "" : session.clock(hold.at_ms)},
              {"date", hold.date ? session.date(*hold.date) : ""},
              {"room", session.room_name(hold.detail)},
              {"engines", std::to_string(hold.number)},
              {"level", level_text(session, s, hold)}};
    if (!hold.topics.empty()) args.emplace_back("topics", topic_names(session, s, hold));
    if (hold.code == HoldCode::work_running) {
        const Work* work = session.pack().work(hold.detail);
        args.emplace_back("work", work == nullptr ? hold.detail : session.say()(work->title));
    }
    if (hold.code == HoldCode::condition_not_met) {
        args.emplace_back("condition", condition_text(session, s, hold.detail));
    }
    if (const OpenFinding* finding = finding_in(s, hold.entry)) {
        args.emplace_back("finding", finding_title(session, s.machine.plate, *finding));
        args.emplace_back("why", finding_why(session, s.machine.plate, *finding));
    }
    return args;
}

// A hold whose topics have guides here can be acted on now; one without waits for a trainer.
bool can_act_now(const Snapshot& s, const Hold& hold, const HoldRule& rule) {
    if (hold.code != HoldCode::topic_not_instructed) return rule.self;
    return std::any_of(s.machine_class->topics.begin(), s.machine_class->topics.end(),
                       [&](const Topic& topic) {
                           return !topic.guide.empty() &&
                                  std::find(hold.topics.begin(), hold.topics.end(), topic.id) !=
                                      hold.topics.end();
                       });
}

bool asked(const Session& session, std::size_t lug) {
    return session.person() || (lug != static_cast<std::size_t>(Lug::person) &&
                                lug != static_cast<std::size_t>(Lug::round));
}

std::string state_word(const Session& session, const MachineFacts& facts, bool& is_held) {
    const Say say = session.say();
    const MachineState& machine = facts.snapshot.machine;
    const bool stop = std::any_of(machine.findings.begin(), machine.findings.end(),
                                  [](const OpenFinding& f) { return f.outcome == Outcome::stop; });
    is_held = true;
    if (stop) return say("state.out-of-service");
    if (!machine.locked_by.empty()) return say("state.locked-out");
    if (machine.work) return say("state.work-running");
    if (machine.out) {
        const bool over = session.now() >= machine.out->until_ms;
        is_held = over;
        return over ? say("state.not-returned")
                    : say("state.out", {{"name", session.name(machine.out->person)},
                                        {"until", session.clock(machine.out->until_ms)}});
    }
    for (const Hold& hold : facts.holds) {
        const bool service = hold.code == HoldCode::service_overdue ||
                             hold.code == HoldCode::inspection_overdue;
        if (service) return say("state.service-due");
        if (hold.code == HoldCode::limit_undecided) return say("state.limit-open");
        if (hold.code == HoldCode::air_alarm) return say("state.air-alarm");
        if (hold.code == HoldCode::room_closed) return say("state.room-closed");
        if (static_cast<int>(hold.code) >= static_cast<int>(HoldCode::machine_unknown)) {
            return say("state.held");
        }
    }
    is_held = false;
    const bool not_theirs =
        std::any_of(facts.holds.begin(), facts.holds.end(), [&](const Hold& hold) {
            const HoldRule* rule = session.pack().hold(name_of(hold.code));
            return rule != nullptr && rule->lug == Lug::person;
        });
    return say(not_theirs ? "state.not-yours" : "state.ready");
}

// Of a job that was stopped: the words of the answer that stopped it.
std::string work_finding_title(const Session& session, const Say& say,
                               const OpenFinding& finding) {
    const auto parts = split(finding.point, '/');
    const Work* work = parts.size() == 3 ? session.pack().work(parts[1]) : nullptr;
    const WorkStep* step = work == nullptr ? nullptr : work->step(parts[2]);
    const WorkAnswer* answer = step == nullptr ? nullptr : step->answer(finding.reading);
    return answer == nullptr ? finding.reading : say(answer->finding);
}

}  // namespace

const MachineClass* class_of(const Session& session, const std::string& plate) {
    const auto row = machine_row(session.db(), plate);
    if (!row.ok() || !row.value()) return nullptr;
    return session.pack().machine_class(row.value()->machine_class);
}

const Point* point_of(const Session& session, const std::string& plate, const std::string& point) {
    const MachineClass* machine_class = class_of(session, plate);
    if (machine_class == nullptr) return nullptr;
    for (const auto& id : {machine_class->round_before, machine_class->round_after}) {
        const Round* round = session.pack().round(id);
        const Point* found = round == nullptr ? nullptr : round->find(point);
        if (found != nullptr) return found;
    }
    return nullptr;
}

std::string finding_title(const Session& session, const Say& say, const std::string& plate,
                          const OpenFinding& finding) {
    if (finding.point.starts_with("work/")) return work_finding_title(session, say, finding);
    const Point* point = point_of(session, plate, finding.point);
    if (point == nullptr) return say("report.title-" + finding.reading);
    if (point->number) return say(point->number->finding);
    for (const Reading& reading : point->readings) {
        if (reading.id == finding.reading) return say(reading.finding);
    }
    return finding.reading;
}

std::string finding_title(const Session& session, const std::string& plate,
                          const OpenFinding& finding) {
    return finding_title(session, session.say(), plate, finding);
}

std::string finding_why(const Session& session, const std::string& plate,
                        const OpenFinding& finding) {
    const Point* point = point_of(session, plate, finding.point);
    return point == nullptr ? session.say()("report.why") : session.say()(point->why);
}

std::string hours_text(std::int64_t tenths) {
    return with_thousands(tenths_text(tenths)) + "\u202fh";
}

// An engine is held by the alarm of the room where it is wanted, where it is at home and where it
// is out: in each of them it would run.
Result<void> add_alarm(const Session& session, const std::vector<std::string>& rooms, Snapshot& s) {
    for (const std::string& room : rooms) {
        const auto alarm = TRY(air_alarm_of(session.db(), room));
        if (!alarm || s.alarm_ppm >= 0) continue;
        s.alarm_room = room;
        s.alarm_ppm = alarm->ppm;
        s.alarm_ms = alarm->at_ms;
        s.alarm_cause = alarm->cause;
    }
    return {};
}

Result<Snapshot> snapshot_of(const Session& session, const std::string& plate,
                             const std::string& room) {
    Snapshot s;
    s.pack = &session.pack();
    s.policy = session.content().site.policy;
    s.now_ms = session.now();
    s.today = session.today();
    s.machine = TRY(machine_state(session.db(), plate));
    s.shift = shift_of(session, s.machine);
    s.machine.plate = plate;
    const auto row = TRY(machine_row(session.db(), plate));
    if (row) {
        s.machine_class = session.pack().machine_class(row->machine_class);
        s.room = room.empty() ? row->room : room;
    }
    s.room_closed = TRY(room_closed(session.db(), s.room));
    if (s.machine_class != nullptr) {
        s.round_digest = session.pack().digest("round", s.machine_class->round_before);
    }
    const RoomAirNow air = TRY(air_now(session, s.room, plate));
    s.air = air.forecast;
    s.engines = air.engines + air.beyond;
    s.air_least_minutes = session.content().site.air.least_minutes;
    std::vector<std::string> rooms{s.room};
    if (row) rooms.push_back(row->room);
    if (s.machine.out) rooms.push_back(s.machine.out->room);
    TRY(add_alarm(session, rooms, s));
    TRY(add_person(session, s));
    s.clock_ok = TRY(clock_doubt(session.db())) == 0;
    s.content_ok = TRY(unasked_change(session.db())) == 0;
    s.ledger_ok = session.world().ledger_holds() && TRY(ledger_doubt(session.db())) == 0;
    s.disk_ok = !session.world().disk_ok || session.world().disk_ok();
    return s;
}

Result<MachineFacts> facts_of(const Session& session, const std::string& plate,
                              const std::string& room) {
    MachineFacts facts;
    facts.snapshot = TRY(snapshot_of(session, plate, room));
    facts.tag = TRY(tag_of(session.db(), plate));
    facts.holds = session.person() ? standing_holds(facts.snapshot) : machine_holds(facts.snapshot);
    facts.locked_out = TRY(lockout_of(session.db(), plate)).has_value();
    return facts;
}

std::vector<LugView> lug_views(const Session& session, const std::vector<Hold>& holds) {
    std::vector<LugView> lugs;
    for (std::size_t i = 0; i < static_cast<std::size_t>(kLugCount); ++i) {
        LugView view;
        view.name = session.say()("lug." + std::string(name_of(static_cast<Lug>(i))));
        view.state = asked(session, i) ? LugState::open : LugState::unasked;
        for (const Hold& hold : holds) {
            const HoldRule* rule = session.pack().hold(name_of(hold.code));
            if (rule == nullptr || static_cast<std::size_t>(rule->lug) != i) continue;
            const LugState state = rule->self ? LugState::due : LugState::held;
            view.state = std::max(view.state, state);
        }
        constexpr const char* kWords[] = {"lug.unasked", "lug.open", "lug.due", "lug.held"};
        view.word = session.say()(kWords[static_cast<std::size_t>(view.state)]);
        lugs.push_back(std::move(view));
    }
    return lugs;
}

PlateView plate_view(const Session& session, const MachineFacts& facts) {
    PlateView view;
    const Snapshot& s = facts.snapshot;
    view.plate = s.machine.plate;
    if (s.machine_class != nullptr) view.class_name = session.say()(s.machine_class->name);
    view.hours = hours_text(s.machine.hours_tenths);
    view.lugs = lug_views(session, facts.holds);
    view.state = state_word(session, facts, view.is_held);
    view.action = "machine:" + s.machine.plate;
    return view;
}

HoldCard hold_card(const Session& session, const Snapshot& s, const Hold& hold) {
    const HoldRule* rule = session.pack().hold(name_of(hold.code));
    if (rule == nullptr) return {false, std::string(name_of(hold.code)), "", ""};
    const Args args = hold_args(session, s, hold);
    const Say say = session.say();
    return {can_act_now(s, hold, *rule), fill(say(rule->title), args),
            fill(say(rule->reason), args), fill(say(rule->lift), args)};
}

std::vector<HoldCard> hold_cards(const Session& session, const MachineFacts& facts) {
    std::vector<HoldCard> cards;
    for (const Hold& hold : facts.holds) cards.push_back(hold_card(session, facts.snapshot, hold));
    // What somebody else must lift comes first: it decides whether the rest is worth doing now.
    std::stable_sort(cards.begin(), cards.end(),
                     [](const HoldCard& a, const HoldCard& b) { return a.self < b.self; });
    return cards;
}

}  // namespace holdpin
