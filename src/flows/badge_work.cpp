#include "flows/badge_work.hpp"

#include "base/text.hpp"
#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "records/privacy.hpp"

namespace holdpin {
namespace {

constexpr const char* kLost = "badge-lost";
constexpr const char* kGiven = "badge-given";
constexpr int kBadgeMost = 20;

Result<Next> sign_badge(Session& session, const Person& person, const std::string& kind,
                        const std::string& badge) {
    const Say say = session.say();
    const std::string key = "badge." + std::string(kind == kLost ? "lost" : "given");
    SignedWork work;
    work.heading = say(key);
    work.statement = say(key + "-meaning", {{"badge", badge}, {"name", person.name}});
    work.kind = kind;
    work.meaning = kind;
    work.data = {{"person", person.id}, {"badge", badge}};
    return Next::push(sign_work(session, std::move(work)));
}

Result<Next> ask_new(const Session& session, const Person& person) {
    const Say say = session.say();
    TextBody body;
    body.heading = say("badge.given");
    body.hint = say("badge.given-hint", {{"name", person.name}});
    body.codes = true;
    body.most = kBadgeMost;
    return Next::push(std::make_unique<TextFlow>(
        "desk/badge", std::move(body),
        [person](Session& s, const std::string& typed) -> Result<Next> {
            const std::string badge(trimmed(typed));
            if (TRY(person_with_badge(s.db(), badge)) || TRY(badge_was_lost(s.db(), badge))) {
                return Next::push(refusal(s, s.say()("badge.given"), s.say()("badge.taken")));
            }
            return sign_badge(s, person, kGiven, badge);
        }));
}

}  // namespace

Result<std::vector<Row>> badge_rows(const Session& session, const Person& person) {
    const Say say = session.say();
    std::vector<Row> rows;
    if (TRY(gone(session.db(), person.id))) return rows;
    std::string why = session.may(Right::manage_people) ? "" : say("refused.no-right");
    if (person.id == session.person_id()) why = say("leaving.not-self");
    if (person.badge.empty()) {
        rows.push_back(work_row(kGiven, say("badge.given"), say("badge.given-second"), why));
    } else {
        rows.push_back(work_row(kLost, say("badge.lost"), say("badge.lost-second"), why));
    }
    return rows;
}

Result<Next> begin_badge_work(Session& session, const Person& person, const std::string& id) {
    for (const Row& row : TRY(badge_rows(session, person))) {
        if (row.id != id || !row.enabled) continue;
        return id == kLost ? sign_badge(session, person, kLost, person.badge)
                           : ask_new(session, person);
    }
    return Next::stay();
}

}  // namespace holdpin
