#include "flows/content_desk.hpp"

#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kMostNamed = 6;  // as many as a page holds in large letters

std::vector<std::string> changed_lines(const Session& session, const Entry& change) {
    const Say say = session.say();
    const auto items = change.data.value("items", nlohmann::json::object());
    std::vector<std::string> lines;
    for (const auto& [item, digest] : items.items()) {
        if (lines.size() == kMostNamed) {
            lines.push_back(say("desk.content-more",
                                {{"count", std::to_string(items.size() - kMostNamed)}}));
            break;
        }
        lines.push_back(item);
    }
    if (lines.empty()) lines.push_back(say("desk.content-people"));
    lines.push_back(say("desk.content-ask"));
    return lines;
}

}  // namespace

Result<Next> look_at_change(Session& session) {
    const Say say = session.say();
    if (!session.may(Right::return_to_service)) {
        return Next::push(refusal(session, say("desk.content"), say("refused.no-right")));
    }
    SignedWork work;
    work.heading = say("desk.content");
    work.statement = say("desk.content-meaning");
    work.kind = "content-accepted";
    work.meaning = "knows-of-the-change";
    work.about = TRY(unasked_change(session.db()));
    work.data = nlohmann::json::object();
    const Entry change = TRY(session.book().ledger().at(work.about));
    return Next::push(std::make_unique<MessageFlow>(
        LugState::held, say("desk.content-heading"), changed_lines(session, change),
        [work](Session& s) -> Result<Next> { return Next::replace(sign_work(s, work)); }));
}

}  // namespace holdpin
