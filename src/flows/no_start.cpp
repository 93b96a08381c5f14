#include "flows/no_start.hpp"

#include <algorithm>

#include "flows/emergency.hpp"
#include "flows/pieces.hpp"
#include "flows/tags.hpp"

namespace holdpin {
namespace {

TickList securing_list(const Session& session, const std::string& plate) {
    const Say say = session.say();
    TickList list;
    list.page_id = "no-start/secured";
    list.heading = say("no-start.did", {{"machine", plate}});
    list.remark = say("no-start.did-remark");
    list.main_label = say("no-start.said");
    list.main_second = say("no-start.said-second");
    list.rows = rows_to_tick(say, "no-start.did-", kSecuring);
    return list;
}

Result<Next> secure(Session& session, const std::string& plate, std::int64_t finding,
                    const std::vector<std::string>& stated) {
    if (TRY(securing_of(session.db(), finding))) return put_tag_on(session, plate);
    Fact fact;
    fact.kind = "finding-secured";
    if (session.person()) fact.by = {session.person_id()};
    fact.about = finding;
    fact.data = {{"machine", plate}, {"stated", stated}};
    TRY(session.book().enter(fact));
    return put_tag_on(session, plate);
}

}  // namespace

Result<Page> NoStartFlow::page(const Session& session) const {
    Page page = TRY(sheet_page(session, "no-start"));
    page.middle = plate_;
    const Say say = session.say();
    if (TRY(securing_of(session.db(), finding_))) {
        page.main = {"secure", say("tag.put"), say("tag.put-second"), true, ""};
    } else {
        page.main = {"secure", say("no-start.tell"), say("no-start.tell-second"), true, ""};
    }
    return page;
}

Result<Next> NoStartFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id != "secure") return Next::stay();
    if (TRY(securing_of(session.db(), finding_))) return put_tag_on(session, plate_);
    return Next::push(std::make_unique<TickFlow>(
        securing_list(session, plate_),
        [plate = plate_, finding = finding_](Session& s, const std::vector<std::string>& stated) {
            return secure(s, plate, finding, stated);
        }));
}

Result<std::vector<Row>> securing_rows(const Session& session, const OpenFinding& finding) {
    std::vector<Row> rows;
    if (finding.point != "no-start") return rows;
    const Say say = session.say();
    const auto said = TRY(securing_of(session.db(), finding.entry));
    for (const std::string_view item : kSecuring) {
        const bool done = said && std::count(said->stated.begin(), said->stated.end(), item) > 0;
        Row row;
        row.label = say("no-start.did-" + std::string(item));
        if (done) row.second = session.when(said->at_ms) + " · " + session.name(said->by);
        row.word = say(done ? "no-start.was-said" : "no-start.not-said");
        row.mark = done ? LugState::open : LugState::held;
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace holdpin
