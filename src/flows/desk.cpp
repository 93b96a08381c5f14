#include "flows/desk.hpp"

#include "flows/about_me.hpp"
#include "flows/binder_desk.hpp"
#include "flows/content_desk.hpp"
#include "flows/cylinders.hpp"
#include "flows/estimates.hpp"
#include "flows/findings.hpp"
#include "flows/fleet_desk.hpp"
#include "flows/floor.hpp"
#include "flows/keeping.hpp"
#include "flows/people.hpp"
#include "flows/pieces.hpp"
#include "flows/rooms.hpp"
#include "flows/shift_book.hpp"
#include "flows/two_people.hpp"
#include "ledger/witness.hpp"
#include "records/privacy.hpp"

namespace holdpin {
namespace {

// Seals what there is, so that the code on the page stands for a seal. In doubt there is none.
Result<Next> show_ledger(Session& session) {
    const Ledger& ledger = session.book().ledger();
    const Say say = session.say();
    std::vector<std::string> lines{
        say("desk.ledger-size", {{"count", with_thousands(std::to_string(ledger.size()))}}),
        say("desk.ledger-root", {{"root", hex(ledger.root()).substr(0, 16)}})};
    if (Sealer* sealer = session.book().sealer()) {
        TRY(sealer->seal());
        sealer->keep_copy();
        lines.push_back(say("desk.ledger-witness",
                            {{"code", witness_code(ledger.size(), ledger.root())},
                             {"count", std::to_string(ledger.size())}}));
    }
    lines.push_back(say(session.world().ledger_holds() ? "desk.ledger-ok" : "desk.ledger-doubt"));
    lines.push_back(say("desk.ledger-export"));
    lines.push_back(say("about.control"));
    return Next::push(std::make_unique<MessageFlow>(LugState::unasked, say("desk.ledger"),
                                                    std::move(lines)));
}

// A clock in doubt is believed again once somebody entitled and one more person compared it. Nobody
// needs to be current: whether training has lapsed is told by this very clock.
Result<Next> confirm_clock(const Session& session) {
    const Say say = session.say();
    if (!session.may(Right::return_to_service)) {
        return Next::push(refusal(session, say("desk.clock"), say("refused.no-right")));
    }
    const TwoPeople ask{say("desk.clock"),
                        say("desk.clock-meaning", {{"time", session.when(session.now())}}), "",
                        {}, say("pin.second-person-other")};
    const auto confirm = [](Session& s, const Person& second) -> Result<Next> {
        SignedWork work;
        work.kind = "clock-confirmed";
        work.meaning = "compared-the-clock";
        work.about = TRY(clock_doubt(s.db()));
        work.data = nlohmann::json::object();
        work.second = second.id;
        TRY(enter_work(s, s.person_id(), work));
        return Next::done();
    };
    return Next::push(two_people(session, ask, confirm));
}

std::string sentence_of(const Session& session, Refusal refusal) {
    const Say say = session.say();
    switch (refusal) {
        case Refusal::none: return std::string();
        case Refusal::no_right: return say("refused.no-right");
        case Refusal::not_current: return say("refused.not-current");
        case Refusal::not_listed: return say("refused.not-listed");
        case Refusal::no_endorsement: return say("refused.no-endorsement");
    }
    return std::string();
}

// Of the machines that have their place in a room; where none has, of all.
Result<std::vector<const MachineClass*>> classes_in(const Session& session,
                                                    const std::string& room) {
    std::vector<const MachineClass*> here;
    std::vector<const MachineClass*> all;
    for (const MachineRow& row : TRY(machines(session.db()))) {
        const MachineClass* one = session.pack().machine_class(row.machine_class);
        if (one == nullptr) continue;
        all.push_back(one);
        if (row.room == room) here.push_back(one);
    }
    return here.empty() ? all : here;
}

}  // namespace

Result<Page> DeskFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("desk");
    page.middle = say("desk.title");
    const auto findings = TRY(open_findings(session.db()));
    GridBody body;
    const auto tile = [&](const char* id, const std::string& second) {
        body.tiles.push_back({std::string("desk:") + id, say("desk." + std::string(id)), second, "",
                              {}, true, ""});
    };
    tile("findings", say("desk.findings-second", {{"count", std::to_string(findings.size())}}));
    tile("people", say("desk.people-second"));
    tile("machines", say("desk.machines-second"));
    tile("rooms", say("desk.rooms-second"));
    tile("estimates", say("estimates.second"));
    if (session.content().site.cylinders.limit_kg > 0) {
        tile("cylinders", say("desk.cylinders-second"));
    }
    tile("ledger", say("desk.ledger-second"));
    if (session.may(Right::read_records)) tile("binder", say("binder.second"));
    tile("shift-book", say("desk.shift-book-second"));
    tile("keeping", say("desk.keeping-second"));
    tile("about-me", say("desk.about-me-second"));
    if (TRY(unasked_change(session.db())) != 0) tile("content", say("desk.content-second"));
    if (TRY(clock_doubt(session.db())) != 0) tile("clock", say("desk.clock-second"));
    if (TRY(ledger_doubt(session.db())) != 0) tile("doubt", say("desk.doubt-second"));
    tile("night", say(session.night() ? "desk.night-off" : "desk.night-on"));
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"sign-off", say("floor.sign-off"), "", true, ""};
    return page;
}

Result<Next> DeskFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == "sign-off") return leave_kiosk(session);
    if (action.id == "desk:findings") return Next::push(std::make_unique<FindingsFlow>());
    if (action.id == "desk:people") return Next::push(std::make_unique<PeopleFlow>());
    if (action.id == "desk:machines") return Next::push(std::make_unique<FleetDeskFlow>());
    if (action.id == "desk:rooms") return Next::push(std::make_unique<RoomsFlow>());
    if (action.id == "desk:cylinders") return Next::push(std::make_unique<CylindersFlow>());
    if (action.id == "desk:estimates") return Next::push(std::make_unique<EstimatesFlow>());
    if (action.id == "desk:ledger") return show_ledger(session);
    if (action.id == "desk:binder") return Next::push(std::make_unique<BinderDeskFlow>());
    if (action.id == "desk:shift-book") return Next::push(std::make_unique<ShiftBookFlow>());
    if (action.id == "desk:keeping") return Next::push(std::make_unique<KeepingFlow>());
    if (action.id == "desk:about-me") return Next::push(TRY(AboutMeFlow::open(session)));
    if (action.id == "desk:content") return look_at_change(session);
    if (action.id == "desk:clock") return confirm_clock(session);
    if (action.id == "desk:doubt") return lift_ledger_doubt(session);
    if (action.id == "desk:night") session.toggle_night();
    return Next::stay();
}

Result<std::string> why_not(const Session& session, const Person& person, Right right,
                            const MachineClass& machine_class, Hazard hazard) {
    const TopicRecords records = TRY(topics_of(session.db(), person.id));
    const Claim claim{session.pack(), person, machine_class, records, session.today(), hazard};
    return sentence_of(session, refusal_of(claim, right));
}

Result<std::string> why_not(const Session& session, Right right, const MachineClass& machine_class,
                            Hazard hazard) {
    if (!session.person()) return session.say()("refused.no-right");
    return why_not(session, *session.person(), right, machine_class, hazard);
}

Result<Refusal> refusal_in_room(const Session& session, Right right, const std::string& room) {
    if (!session.person()) return Refusal::no_right;
    const auto classes = TRY(classes_in(session, room));
    const TopicRecords records = TRY(topics_of(session.db(), session.person_id()));
    return refusal_of(
        OpenClaim{session.pack(), *session.person(), classes, records, session.today()}, right);
}

Result<std::string> why_not_in_room(const Session& session, Right right, const std::string& room) {
    const Refusal refusal = TRY(refusal_in_room(session, right, room));
    if (refusal == Refusal::not_current) return session.say()("refused.not-current-room");
    return sentence_of(session, refusal);
}

Row work_row(std::string id, std::string label, std::string second, std::string why) {
    Row row;
    row.id = std::move(id);
    row.label = std::move(label);
    row.second = std::move(second);
    row.enabled = why.empty();
    row.why_not = std::move(why);
    return row;
}

Result<Entry> enter_work(Session& session, const std::string& person, const SignedWork& work) {
    Fact fact = TRY(session.signed_fact(work.kind, person, work.meaning, work.data));
    fact.about = work.about;
    if (!work.second.empty()) {
        fact.by.push_back(work.second);
        fact.data["second_signature"] = {
            {"name", TRY(name_hash_of(session.db(), work.second))},
            {"meaning", work.second_meaning.empty() ? work.meaning : work.second_meaning},
            {"language", session.say().language()}};
    }
    Result<Entry> entered = Error{};
    const auto done = session.db().transaction([&]() -> Result<void> {
        if (!work.private_text.empty()) {
            fact.data[work.text_key] =
                TRY(keep_private(session.db(), session.mutable_world().random, work.private_text,
                                 work.about_person));
        }
        entered = session.book().enter(fact);
        return entered.ok() ? Result<void>() : Result<void>(entered.error());
    });
    if (!done) {
        TRY(session.book().ledger().reload());
        return done.error();
    }
    return entered;
}

std::unique_ptr<Flow> sign_work(const Session& session, SignedWork work) {
    std::string heading = work.heading;
    std::string statement = work.statement;
    return std::make_unique<SignFlow>(
        *session.person(), std::move(heading), std::move(statement),
        [work = std::move(work)](Session& s) -> Result<Next> {
            TRY(enter_work(s, s.person_id(), work));
            return Next::done();
        });
}

}  // namespace holdpin
