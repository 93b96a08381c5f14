#include "flows/lockout_visitor.hpp"

#include "flows/lockout_rights.hpp"
#include "flows/lockout_work.hpp"
#include "flows/pieces.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

bool may_tell(const Session& session, const Person& host) {
    return may_lock_out(session, host) && !is_visitor(host);
}

Result<Next> sign_told(Session& session, const std::string& plate, const Person& host,
                       const std::vector<std::string>& stated) {
    const Say say = session.say();
    if (!may_tell(session, host)) {
        return Next::push(refusal(session, say("visitor.refused"), say("visitor.refused-line")));
    }
    DeedToSign deed;
    deed.plate = plate;
    deed.event.deed = LockoutDeed::tell;
    deed.event.by = session.person_id();
    deed.event.second = host.id;
    deed.event.items = stated;
    deed.heading = say("visitor.sign");
    deed.statement = say("visitor.meaning", {{"machine", plate}, {"name", host.name}});
    deed.second_statement =
        say("visitor.meaning-host",
            {{"machine", plate}, {"name", session.name(session.person_id())}});
    deed.meaning = "told-each-other";
    return sign_deed(session, std::move(deed));
}

}  // namespace

bool must_tell(const Session& session, const Lockout& state) {
    return session.person() && is_visitor(*session.person()) &&
           !state.told.contains(session.person_id());
}

Page telling_page(const Session& session, const Lockout& state) {
    const Say say = session.say();
    Page page = session.blank("lockout/" + state.machine + "/telling");
    page.middle = say("lockout.title", {{"machine", state.machine}});
    MessageBody body;
    body.mark = LugState::held;
    body.heading = say("visitor.heading");
    body.lines = {say("visitor.line-host"), say("visitor.line-tell"), say("visitor.line-people")};
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"done", say("visitor.main"), say("visitor.main-second"), true, ""};
    return page;
}

Result<Next> tell_each_other(Session& session, const std::string& plate) {
    const Say say = session.say();
    TickList list;
    list.page_id = "lockout/telling";
    list.heading = say("visitor.tick");
    list.main_label = say("bar.go-on");
    list.all = true;
    list.rows = rows_to_tick(say, "visitor.told-", kTellItems);
    return Next::push(std::make_unique<TickFlow>(
        std::move(list),
        [plate](Session& s, const std::vector<std::string>& stated) -> Result<Next> {
            return Next::push(std::make_unique<BadgeFlow>(
                s.say()("visitor.badge"), [plate, stated](Session& t, const Person& host) {
                    return sign_told(t, plate, host, stated);
                }));
        }));
}

Result<std::string> why_not_told(const Session& session, const std::string& plate,
                                 const Person& person) {
    if (!is_visitor(person)) return std::string();
    const Lockout state = TRY(running_lockout(session, plate));
    if (state.told.contains(person.id)) return std::string();
    return session.say()("visitor.not-told", {{"name", person.name}, {"machine", plate}});
}

Result<void> check_host(const Session& session, const std::string& plate, const std::string& id) {
    const auto host = TRY(person_with(session.db(), id));
    if (host && may_tell(session, *host)) return {};
    return Error{ErrorKind::refused, "who tells a visitor is of the site and may lock out", plate,
                 "fetch somebody with the lockout permit"};
}

}  // namespace holdpin
