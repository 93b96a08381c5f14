#include "flows/leaving.hpp"

#include <algorithm>

#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "flows/two_people.hpp"
#include "records/retention.hpp"

namespace holdpin {
namespace {

struct Found {
    bool held = false;          // a legal hold covers an entry that names the person
    std::size_t exposure = 0;   // records that are never purged with the rest
};

Result<Found> look(const Session& session, const std::string& person) {
    Found found;
    for (const LegalHold& hold : TRY(legal_holds(session.db()))) {
        found.held = found.held || hold.scope == "all" || hold.id == person;
    }
    for (const RecordAbout& record : TRY(records_about(session.db(), session.pack(),
                                                       session.world().zone, person))) {
        found.held = found.held || record.kept.held;
        const bool never = record.kept.one != nullptr && !record.kept.one->purge;
        found.exposure += never ? 1U : 0U;
    }
    return found;
}

// The person's own work in progress goes too.
Result<void> drop_drafts(Database& db, const std::string& person) {
    for (const char* kind : {"round/", "guide/", "quiz/"}) {
        for (const Draft& draft : TRY(drafts_under(db, kind + person + "/"))) {
            TRY(drop_draft(db, draft.key));
        }
    }
    return {};
}

Result<Next> left(Session& session, const Person& person) {
    const Say say = session.say();
    return Next::push(std::make_unique<SignFlow>(
        *session.person(), say("leaving.left"),
        say("leaving.left-meaning", {{"name", person.name}}),
        [id = person.id](Session& s) -> Result<Next> {
            Fact fact = TRY(s.signed_fact("person-left", s.person_id(), "left", {{"person", id}}));
            TRY(s.book().enter(fact, [&]() -> Result<void> {
                TRY(drop_drafts(s.db(), id));
                return s.mutable_world().pins.remove(id);
            }));
            return Next::done();
        }));
}

Result<Next> erased(Session& session, const std::string& person, const Person& second) {
    const auto texts = TRY(private_texts_about(session.db(), person));
    Fact fact = TRY(session.signed_fact("person-erased", session.person_id(), "erased",
                                        {{"person", person}, {"texts", texts.size()}}));
    fact.by.push_back(second.id);
    fact.data["second_signature"] = {{"name", TRY(name_hash_of(session.db(), second.id))},
                                     {"meaning", "erased"},
                                     {"language", session.say().language()}};
    TRY(session.book().enter(fact, [&]() -> Result<void> {
        TRY(erase_private(session.db(), person));
        TRY(drop_drafts(session.db(), person));
        return session.mutable_world().pins.remove(person);
    }));
    // Until the write-ahead log is written back, it holds the old bytes.
    TRY(session.db().checkpoint());
    const Say say = session.say();
    return Next::done(std::make_unique<MessageFlow>(
        LugState::open, say("leaving.erased"),
        std::vector<std::string>{
            say("leaving.erased-line", {{"count", std::to_string(texts.size())}}),
            say("leaving.erased-proofs"), say("leaving.erased-file")}));
}

Result<Next> erase(Session& session, const Person& person) {
    const Say say = session.say();
    const Found found = TRY(look(session, person.id));
    if (found.held) {
        return Next::push(refusal(session, say("leaving.erase"), say("leaving.held")));
    }
    std::string meaning = say("leaving.erase-meaning", {{"name", person.name}});
    if (found.exposure > 0) {
        meaning += " " + say("leaving.exposure", {{"count", std::to_string(found.exposure)}});
    }
    const TwoPeople ask{say("leaving.erase"), meaning, person.id, {}, say("pin.second-other")};
    return Next::push(two_people(session, ask, [id = person.id](Session& s, const Person& second) {
        return erased(s, id, second);
    }));
}

}  // namespace

Result<std::vector<Row>> leaving_rows(const Session& session, const Person& person) {
    const Say say = session.say();
    const auto left_already = TRY(gone(session.db(), person.id));
    std::string why = session.may(Right::manage_people) ? "" : say("refused.no-right");
    if (person.id == session.person_id()) why = say("leaving.not-self");
    std::vector<Row> rows;
    if (!left_already) {
        rows.push_back(work_row("left", say("leaving.left"), say("leaving.left-second"), why));
    }
    if (left_already && left_already->erased) why = say("leaving.erased");
    rows.push_back(work_row("erase", say("leaving.erase"), say("leaving.erase-second"), why));
    return rows;
}

Result<Next> begin_leaving(Session& session, const Person& person, const std::string& id) {
    for (const Row& row : TRY(leaving_rows(session, person))) {
        if (row.id != id || !row.enabled) continue;
        return id == "left" ? left(session, person) : erase(session, person);
    }
    return Next::stay();
}

}  // namespace holdpin
