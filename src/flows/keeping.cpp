#include "flows/keeping.hpp"

#include "flows/about_words.hpp"
#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "flows/two_people.hpp"
#include "records/privacy.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kLift = "lift:";

struct Scope {
    std::string scope;  // "all", "person", "machine"
    std::string id;
};

std::string scope_words(const Session& session, const Scope& scope) {
    if (scope.scope == "person") return session.name(scope.id);
    return scope.scope == "machine" ? scope.id : session.say()("keeping.all");
}

Scope scope_of(const std::string& choice) {
    const auto colon = choice.find(':');
    if (colon == std::string::npos) return {"all", ""};
    return {choice.substr(0, colon), choice.substr(colon + 1)};
}

TwoPeople asked(const Session& session, const char* heading, const char* meaning,
                const std::string& what) {
    const Say say = session.say();
    return {say(heading), say(meaning, {{"what", what}}), "", {}, say("pin.second-person-other")};
}

Result<Next> place(Session& session, const Scope& scope, const std::string& reason) {
    const TwoPeople ask = asked(session, "keeping.place", "keeping.place-meaning",
                                scope_words(session, scope));
    const auto then = [scope, reason](Session& s, const Person& second) -> Result<Next> {
        SignedWork work;
        work.kind = "legal-hold-placed";
        work.meaning = "hold-records";
        work.data = {{"scope", scope.scope}, {"id", scope.id}};
        work.private_text = reason;
        work.about_person = s.person_id();
        work.second = second.id;
        TRY(enter_work(s, s.person_id(), work));
        return Next::done();
    };
    return Next::push(two_people(session, ask, then));
}

Result<Next> ask_reason(Session& session, const std::string& choice) {
    TextBody text;
    text.heading = session.say()("keeping.reason");
    text.hint = session.say()("keeping.reason-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/legal-hold-reason", std::move(text),
        [scope = scope_of(choice)](Session& s, const std::string& reason) {
            return place(s, scope, reason);
        }));
}

// Everything, a machine, or a person: one tile each.
Result<Next> ask_scope(Session& session) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("keeping.place");
    body.remark = say("keeping.scope");
    const auto tile = [&](const std::string& id, const std::string& label) {
        body.tiles.push_back({id, label, "", "", {}, true, ""});
    };
    tile("all", say("keeping.all"));
    for (const MachineRow& machine : TRY(machines(session.db()))) {
        tile("machine:" + machine.plate, machine.plate);
    }
    for (const Person& person : TRY(people(session.db()))) {
        tile("person:" + person.id, session.name(person.id));
    }
    return Next::push(std::make_unique<PickFlow>("desk/legal-hold", std::move(body), ask_reason));
}

Result<Next> lift(Session& session, const LegalHold& hold) {
    const TwoPeople ask = asked(session, "keeping.lift", "keeping.lift-meaning",
                                scope_words(session, {hold.scope, hold.id}));
    const auto then = [hold](Session& s, const Person& second) -> Result<Next> {
        SignedWork work;
        work.kind = "legal-hold-lifted";
        work.meaning = "lift-hold-on-records";
        work.about = hold.entry;
        work.data = nlohmann::json::object();
        work.second = second.id;
        TRY(enter_work(s, s.person_id(), work));
        return Next::done();
    };
    return Next::push(two_people(session, ask, then));
}

Result<Row> hold_row(const Session& session, const LegalHold& hold, const std::string& why) {
    const Say say = session.say();
    const auto reason = TRY(private_text(session.db(), hold.text_hash));
    Row row = work_row(std::string(kLift) + std::to_string(hold.entry),
                       say("keeping.held", {{"what", scope_words(session, {hold.scope, hold.id})}}),
                       session.when(hold.at_ms) + " · " + reason.value_or(""), why);
    row.word = say("keeping.lift");
    row.mark = LugState::held;
    return row;
}

}  // namespace

Result<Page> KeepingFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("desk/keeping");
    page.middle = say("desk.keeping");
    ListBody body;
    body.desk = true;
    body.heading = say("desk.keeping");
    body.remark = say("keeping.remark");
    const std::string why = session.may(Right::manage_people) ? "" : say("refused.no-right");
    body.rows.push_back(work_row("place", say("keeping.place"), say("keeping.place-second"), why));
    for (const LegalHold& hold : TRY(legal_holds(session.db()))) {
        body.rows.push_back(TRY(hold_row(session, hold, why)));
    }
    for (const RetentionClass& one : session.pack().retention) {
        Row row;
        row.label = say(one.name);
        row.second = kept_words(say, one) + " · " + say.footing(one.footing, false);
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> KeepingFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (!session.may(Right::manage_people)) return Next::stay();
    if (action.id == "place") return ask_scope(session);
    for (const LegalHold& hold : TRY(legal_holds(session.db()))) {
        if (action.id == std::string(kLift) + std::to_string(hold.entry)) {
            return lift(session, hold);
        }
    }
    return Next::stay();
}

}  // namespace holdpin
